/** Output is written whole or not at all, and never over somebody else's files. */
import { existsSync, mkdirSync, readdirSync, readFileSync, symlinkSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { describe, expect, test } from "vitest";
import { formatProblem, ProblemsFound } from "../src/base/problem.ts";
import { type Files, readBuiltSets, readOlderSet, writeFiles, writeFolder } from "../src/writers/files.ts";
import { inFolder } from "./support/project-file.ts";

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

test("single files go beside what is there", () =>
  inFolder((here) => {
    writeFolder(join(here, "out/job"), files({ "set.json": "1" }));
    writeFiles(join(here, "out"), files({ "index.html": "old" }));
    writeFiles(join(here, "out"), files({ "index.html": "new", "style/site.css": "" }));
    expect(tree(here)).toEqual({ "out/job/set.json": "1", "out/index.html": "new", "out/style/site.css": "" });
    expect(readdirSync(join(here, "out")).sort()).toEqual(["index.html", "job", "style"]);
  }));

describe("what earlier builds left", () => {
  const job = (name: string, draft: boolean): string =>
    JSON.stringify({
      version: 1,
      job: {
        name,
        number: "7",
        title: "T",
        client: null,
        drawnBy: null,
        date: "2026-11-20",
        revision: "A",
        unit: "mm",
        step: 0.1,
        address: null,
        notes: [],
        draft,
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
      expect(readBuiltSets(here).map(({ name, draft }) => [name, draft])).toEqual([
        ["a", true],
        ["b", false],
      ]);
      expect(readBuiltSets(join(here, "nothing"))).toEqual([]);
    }));

  test("an older set that is missing, or none, is refused", () =>
    inFolder((here) => {
      writeFileSync(join(here, "set.json"), "[]");
      expect(
        refusal(() => void readOlderSet(join(here, "set.json")), here),
      ).toBe(`  error: "HERE/set.json" is not a set.json that this version reads
  expected: the set.json of an earlier build
  try: leave --marks-from out, and every part gets a new mark`);
      expect(
        refusal(() => void readOlderSet(join(here, "gone.json")), here),
      ).toBe(`  error: "HERE/gone.json" cannot be read
  expected: the set.json of an earlier build
  try: check the name after --marks-from`);
    }));
});
