/** Output is written whole or not at all, and never over somebody else's files. */
import { existsSync, mkdirSync, readdirSync, readFileSync, symlinkSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { afterEach, describe, expect, test, vi } from "vitest";
import { formatProblem, ProblemsFound } from "../../src/base/problem.ts";
import {
  checkPlace,
  type Files,
  readBuiltSets,
  readOlderSet,
  writeFiles,
  writeFolder,
} from "../../src/writers/files.ts";
import { exampleFile, setOf } from "../support/jobs/examples.ts";
import { inFolder } from "../support/jobs/project-file.ts";

/** What the system is to refuse: whoever runs the tests may be allowed everything. */
const system = vi.hoisted(() => ({
  code: "",
  rename: (_from: string, _to: string): boolean => false,
  access: (_path: string): boolean => false,
}));

vi.mock("node:fs", async (original) => {
  const fs = await original<typeof import("node:fs")>();
  const refused = (): Error => Object.assign(new Error(`${system.code}: refused`), { code: system.code });
  const renameSync = (from: string, to: string): void => {
    if (system.rename(from, to)) throw refused();
    fs.renameSync(from, to);
  };
  const accessSync = (path: string, mode: number): void => {
    if (system.access(path)) throw refused();
    fs.accessSync(path, mode);
  };
  return { ...fs, renameSync, accessSync };
});

afterEach(() => {
  system.rename = () => false;
  system.access = () => false;
});

const files = (entries: Record<string, string>): Files => new Map(Object.entries(entries));

/** Every file under the folder, hidden ones too, with its content. */
function tree(folder: string): Record<string, string> {
  return Object.fromEntries(
    readdirSync(folder, { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile())
      .map((entry) => join(entry.parentPath, entry.name))
      .sort()
      .map((path) => [path.slice(folder.length + 1), readFileSync(path, "utf8")]),
  );
}

function refusal(work: () => void, folder: string): string {
  try {
    work();
  } catch (error) {
    if (error instanceof ProblemsFound) return error.problems.map(formatProblem).join("\n").replaceAll(folder, "HERE");
    throw error;
  }
  return "";
}

describe("a folder of output", () => {
  test("is made with the folders around and inside it", () =>
    inFolder((here) => {
      writeFolder(
        join(here, "out/job"),
        new Map<string, string | Uint8Array>([
          ["set.json", "{}"],
          ["svg/a.svg", new Uint8Array([60, 62])],
        ]),
      );
      expect(tree(here)).toEqual({ "out/job/set.json": "{}", "out/job/svg/a.svg": "<>" });
    }));

  test("is replaced, so that nothing old is left, and its draft is kept", () =>
    inFolder((here) => {
      const job = join(here, "job");
      writeFolder(job, files({ "set.json": "1", "svg/old.svg": "old" }));
      writeFolder(join(job, "draft"), files({ "set.json": "draft" }));
      expect(tree(here)).toEqual({ "job/set.json": "1", "job/svg/old.svg": "old", "job/draft/set.json": "draft" });
      writeFolder(job, files({ "set.json": "2", "svg/new.svg": "new" }));
      expect(tree(here)).toEqual({ "job/set.json": "2", "job/svg/new.svg": "new", "job/draft/set.json": "draft" });
    }));

  test("may begin as a draft alone", () =>
    inFolder((here) => {
      writeFolder(join(here, "job/draft"), files({ "set.json": "draft" }));
      writeFolder(join(here, "job"), files({ "set.json": "1" }));
      expect(tree(here)).toEqual({ "job/set.json": "1", "job/draft/set.json": "draft" });
    }));

  test("stays as it was when writing fails half way, and nothing is left lying about", () =>
    inFolder((here) => {
      const job = join(here, "job");
      writeFolder(job, files({ "set.json": "good" }));
      const broken = files({ "set.json": "new", clash: "a file", "clash/inside": "under a file" });
      expect(
        refusal(() => writeFolder(job, broken), here),
      ).toBe(`  error: "HERE/job" cannot be written: part of that path is a file, not a folder
  expected: a folder that can be written
  try: give another folder with --out`);
      expect(tree(here)).toEqual({ "job/set.json": "good" });
      expect(readdirSync(here)).toEqual(["job"]);
    }));

  test.each([
    ["EXDEV", "it lies on another disk than the folder around it"],
    ["EBUSY", "it is in use, or a disk of its own"],
    ["ENOTEMPTY", "files were put there meanwhile"],
  ])("stays as it was when the system refuses to put the new one in its place: %s", (code, reason) =>
    inFolder((here) => {
      const job = join(here, "job");
      writeFolder(job, files({ "set.json": "good" }));
      system.code = code;
      system.rename = (from, to) => from.endsWith("/new") && to === job;
      expect(
        refusal(() => writeFolder(job, files({ "set.json": "new" })), here),
      ).toBe(`  error: "HERE/job" cannot be written: ${reason}
  expected: a folder that can be written
  try: give another folder with --out`);
      expect(tree(here)).toEqual({ "job/set.json": "good" });
      expect(readdirSync(here)).toEqual(["job"]);
    }),
  );

  test("that can neither be replaced nor put back is still there", () =>
    inFolder((here) => {
      const job = join(here, "job");
      writeFolder(job, files({ "set.json": "good" }));
      system.code = "ENOTEMPTY";
      system.rename = (_, to) => to === job;
      expect(refusal(() => writeFolder(job, files({ "set.json": "new" })), here)).toContain(
        "cannot be written: files were put there meanwhile",
      );
      expect(Object.values(tree(here))).toContain("good");
    }));

  test("is refused beneath a regular file", () =>
    inFolder((here) => {
      writeFileSync(join(here, "file"), "mine");
      expect(
        refusal(() => writeFolder(join(here, "file/out/job"), files({ "set.json": "" })), here),
      ).toBe(`  error: "HERE/file/out/job" cannot be written: part of that path is a file, not a folder
  expected: a folder that can be written
  try: give another folder with --out`);
      expect(tree(here)).toEqual({ file: "mine" });
    }));

  test("is refused where a file of that name stands", () =>
    inFolder((here) => {
      writeFileSync(join(here, "job"), "mine");
      expect(
        refusal(() => writeFolder(join(here, "job"), files({ "set.json": "" })), here),
      ).toBe(`  error: "HERE/job" is a file, not a folder
  expected: a folder that can be written
  try: give another folder with --out`);
      expect(tree(here)).toEqual({ job: "mine" });
    }));

  test("is refused where somebody keeps files of their own", () =>
    inFolder((here) => {
      mkdirSync(join(here, "job"));
      writeFileSync(join(here, "job/thesis.txt"), "mine");
      expect(
        refusal(() => writeFolder(join(here, "job"), files({ "set.json": "" })), here),
      ).toBe(`  error: "HERE/job" holds files that no build has written
  expected: an empty folder, or one with a set.json from an earlier build
  try: give another folder with --out, or move those files away`);
      expect(tree(here)).toEqual({ "job/thesis.txt": "mine" });
    }));

  test("may be a link to another place, and stays one", () =>
    inFolder((here) => {
      mkdirSync(join(here, "disk/job"), { recursive: true });
      symlinkSync(join(here, "disk/job"), join(here, "job"));
      writeFolder(join(here, "job"), files({ "set.json": "1" }));
      writeFolder(join(here, "job"), files({ "set.json": "2" }));
      expect(tree(join(here, "disk"))).toEqual({ "job/set.json": "2" });
      expect(readFileSync(join(here, "job/set.json"), "utf8")).toBe("2");
    }));

  test.each(["../x", "/x", "a/../../x", "a//b", "./a", "a\\b", "C:x", "a\0b", ".."])("takes no file named %j", (path) =>
    inFolder((here) => {
      expect(() => writeFolder(join(here, "job"), files({ [path]: "" }))).toThrow(
        "is not a plain path inside its folder",
      );
      expect(existsSync(join(here, "job"))).toBe(false);
    }),
  );

  test("takes no two files that some system holds for one", () =>
    inFolder((here) => {
      expect(() => writeFolder(join(here, "job"), files({ "a.svg": "", "A.svg": "" }))).toThrow(
        "Two files would be written as a.svg and A.svg",
      );
    }));
});

/** A page as every page of ours is headed. */
const page = (text: string): string => `<head>\n<meta name="generator" content="Dryfit">\n</head>${text}`;

describe("the list of jobs", () => {
  test("goes beside what is there, and replaces the one before it", () =>
    inFolder((here) => {
      writeFolder(join(here, "out/job"), files({ "set.json": "1" }));
      writeFiles(join(here, "out"), files({ "index.html": page("old"), "site.css": "old" }));
      writeFiles(join(here, "out"), files({ "index.html": page("new"), "site.css": "new", "style/more.css": "" }));
      expect(tree(here)).toEqual({
        "out/job/set.json": "1",
        "out/index.html": page("new"),
        "out/site.css": "new",
        "out/style/more.css": "",
      });
      expect(readdirSync(join(here, "out")).sort()).toEqual(["index.html", "job", "site.css", "style"]);
    }));

  const list = files({ "index.html": page("ours"), "site.css": "ours" });

  test.each<[string, Record<string, string>, string]>([
    [
      "a page and a style sheet",
      { "index.html": "<title>Mine</title>", "site.css": "mine", "notes.txt": "mine" },
      "index.html, site.css",
    ],
    ["a style sheet alone", { "site.css": "mine" }, "site.css"],
    ["a folder by the name of the page", { "index.html/mine.txt": "mine" }, "index.html"],
  ])("takes the place of nothing that is somebody's own: %s", (_, own, names) =>
    inFolder((here) => {
      for (const [path, text] of Object.entries(own)) {
        mkdirSync(dirname(join(here, path)), { recursive: true });
        writeFileSync(join(here, path), text);
      }
      const refused = `  error: "HERE" holds files that no build has written: ${names}
  expected: a folder without them, or one with the list of jobs from an earlier build
  try: give another folder with --out, or move those files away`;
      expect(refusal(() => writeFiles(here, list), here)).toBe(refused);
      expect(refusal(() => checkPlace(here, join(here, "job"), list), here)).toBe(refused);
      expect(tree(here)).toEqual(own);
    }),
  );

  test("can be made anew where only its page was taken away", () =>
    inFolder((here) => {
      writeFileSync(join(here, "site.css"), "ours");
      writeFiles(here, list);
      expect(tree(here)).toEqual({ "index.html": page("ours"), "site.css": "ours" });
    }));
});

describe("the place for the output is looked at beforehand", () => {
  const nothing: Files = new Map();
  const cannot = (path: string, reason: string): string => `  error: "${path}" cannot be written: ${reason}
  expected: a folder that can be written
  try: give another folder with --out`;

  test("and is good where it is not there yet, is empty, or holds an earlier set; nothing is made", () =>
    inFolder((here) => {
      const check = (): string =>
        refusal(() => checkPlace(join(here, "a/out"), join(here, "a/out/job"), nothing), here);
      expect(check()).toBe("");
      expect(readdirSync(here)).toEqual([]);
      mkdirSync(join(here, "a/out/job"), { recursive: true });
      expect(check()).toBe("");
      writeFileSync(join(here, "a/out/job/set.json"), "{}");
      expect(check()).toBe("");
      expect(tree(here)).toEqual({ "a/out/job/set.json": "{}" });
    }));

  test("no name at all is not the root of the disk", () => {
    expect(refusal(() => checkPlace("", "/job", nothing), "(no folder)")).toBe(`  error: found "" after --out
  expected: the name of a folder
  try: leave --out off, and the sets go to out/`);
  });

  test.each([
    ["EACCES", "permission is denied"],
    ["EROFS", "the disk is read-only"],
  ])("no leave to write there, or in the nearest folder around it: %s", (code, reason) =>
    inFolder((here) => {
      system.code = code;
      for (const closed of [here, join(here, "out"), join(here, "out/job")]) {
        system.access = (path) => path === closed;
        mkdirSync(closed, { recursive: true });
        expect(refusal(() => checkPlace(join(here, "out"), join(here, "out/job"), nothing), here)).toBe(
          cannot("HERE/out/job", reason),
        );
      }
    }),
  );

  test("a file, a link to nothing, links in a circle, somebody's own folder", () =>
    inFolder((here) => {
      writeFileSync(join(here, "file"), "mine");
      symlinkSync(join(here, "gone"), join(here, "nowhere"));
      symlinkSync(join(here, "circle"), join(here, "circle"));
      mkdirSync(join(here, "own/job"), { recursive: true });
      writeFileSync(join(here, "own/job/thesis.txt"), "mine");
      mkdirSync(join(here, "odd/job/set.json"), { recursive: true });
      const check = (out: string): string =>
        refusal(() => checkPlace(join(here, out), join(here, out, "job"), nothing), here);
      expect(check("file")).toBe(`  error: "HERE/file" is a file, not a folder
  expected: a folder that can be written
  try: give another folder with --out`);
      expect(check("file/out")).toBe(cannot("HERE/file/out/job", "part of that path is a file, not a folder"));
      expect(check("nowhere")).toBe(cannot("HERE/nowhere/job", "part of that path is missing"));
      expect(check("circle")).toBe(cannot("HERE/circle/job", "its links lead round in a circle"));
      for (const out of ["own", "odd"]) {
        expect(check(out)).toBe(`  error: "HERE/${out}/job" holds files that no build has written
  expected: an empty folder, or one with a set.json from an earlier build
  try: give another folder with --out, or move those files away`);
      }
    }));
});

describe("what earlier builds left", () => {
  const job = (name: string, draft: boolean): string =>
    JSON.stringify({
      version: 2,
      job: {
        name,
        number: "7",
        title: "T",
        client: null,
        drawnBy: null,
        projection: "third",
        date: "2026-11-20",
        revision: "A",
        unit: "mm",
        step: 0.1,
        address: null,
        notes: [],
        revisions: [],
        draft,
        moisture: { made: null, driest: 6, wettest: 12 },
        walls: { left: null, right: null, back: null, scribe: { left: 0, right: 0, back: 0 } },
        floorOut: null,
        doorway: null,
      },
    });

  test("finished jobs and drafts are listed by name; other folders are not jobs", () =>
    inFolder((here) => {
      const put = (path: string, text: string): void => {
        mkdirSync(dirname(join(here, path)), { recursive: true });
        writeFileSync(join(here, path), text);
      };
      put("b/set.json", job("b", false));
      put("b/draft/set.json", job("b", true));
      put("a/draft/set.json", job("a", true));
      put("notes/readme.txt", "mine");
      put("other/set.json", '{"job": 3}');
      put("broken/set.json", "{");
      put(".hidden/set.json", job("hidden", false));
      put("c/set.json/not-a-file.txt", "mine");
      put("c/draft/set.json", job("c", true));
      put("d/set.json/not-a-file.txt", "mine");
      put("plain.txt", "mine");
      mkdirSync(join(here, ".disk"));
      put(".disk/job/set.json", job("job", false));
      symlinkSync(join(here, ".disk/job"), join(here, "linked"));
      symlinkSync(join(here, "gone"), join(here, "nowhere"));
      symlinkSync(join(here, "circle"), join(here, "circle"));
      expect(readBuiltSets(here).map(({ name, draft }) => [name, draft])).toEqual([
        ["a", true],
        ["b", false],
        ["c", true],
        ["linked", false],
      ]);
      expect(readBuiltSets(join(here, "nothing"))).toEqual([]);
    }));

  test("an older set that is missing, or none, is refused", () =>
    inFolder((here) => {
      writeFileSync(join(here, "set.json"), "[]");
      expect(
        refusal(() => void readOlderSet(join(here, "set.json"), "7"), here),
      ).toBe(`  error: "HERE/set.json" is not a set.json that this version reads
  expected: the set.json of an earlier build
  try: leave --marks-from out, and every part gets a new mark`);
      expect(
        refusal(() => void readOlderSet(join(here, "gone.json"), "7"), here),
      ).toBe(`  error: "HERE/gone.json" cannot be read
  expected: the set.json of an earlier build
  try: check the name after --marks-from`);
    }));

  describe("an older set", () => {
    const real = setOf(exampleFile("ware-bookcase"));

    /** The marks that are read from a real set with these on its first parts; or what is found wrong with it. */
    const read = (marks: string[], lastMark = real.lastMark, number = real.job.number): string | string[] =>
      inFolder((here) => {
        const parts = real.parts.map((part, i) => ({ ...part, mark: marks[i] ?? part.mark }));
        writeFileSync(join(here, "set.json"), JSON.stringify({ ...real, parts, lastMark }));
        const set: string[] = [];
        const found = refusal(() => {
          set.push(...readOlderSet(join(here, "set.json"), number).parts.map(({ mark }) => mark));
        }, here);
        return found === "" ? set : found;
      });

    test("of this job is read with its marks", () => {
      expect(read([])).toEqual(real.parts.map(({ mark }) => mark));
      expect(read(["901"], 999_999)).toEqual(["901", ...real.parts.slice(1).map(({ mark }) => mark)]);
    });

    test("of another job is refused by both numbers", () => {
      expect(
        read([], real.lastMark, "88"),
      ).toBe(`  error: "HERE/set.json" is a set of job "${real.job.number}", and this is job "88"
  expected: an earlier set of the same job
  try: check the name after --marks-from; or leave it out, and every part gets a new mark`);
    });

    const wrong = (found: string): string => `  error: "HERE/set.json" ${found}
  expected: a mark of its own for each part, a whole number from 1 to 999999
  try: give the set.json as it was built`;

    test.each(["0", "-1", "1.5", "01", "A", "", "1000000", " 1"])("with a part marked %j is refused", (mark) => {
      expect(read([mark])).toBe(wrong(`has a part marked ${JSON.stringify(mark)}`));
    });

    test("with every fault of its marks at once", () => {
      const highest = Math.max(...real.parts.map(({ mark }) => Number(mark)));
      expect(read(["901", "901", "x"], highest)).toBe(
        [
          wrong("has 2 parts marked 901"),
          wrong('has a part marked "x"'),
          wrong(`has ${highest} for its last mark`),
        ].join("\n"),
      );
    });
  });
});
