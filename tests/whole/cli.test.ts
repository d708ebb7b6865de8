/** The command line: exit status, what goes where, and that a maker's mistake never shows a stack or leaves a file. */
import { spawnSync } from "node:child_process";
import { existsSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { beforeAll, describe, expect, test } from "vitest";
import { makeSet } from "../../src/build.ts";
import { main, type Terminal } from "../../src/cli.ts";
import { inFolder, JOB, jobWith, readText } from "../support/jobs/project-file.ts";

type Result = { status: number; said: string; complained: string };

async function call(...args: string[]): Promise<Result> {
  const result: Result = { status: 0, said: "", complained: "" };
  result.status = await main(args, {
    say: (text) => {
      result.said += text;
    },
    complain: (text) => {
      result.complained += text;
    },
    colours: false,
  });
  return result;
}

/** Calls with one file written for it; `HERE` stands for its folder. */
const callOn = (text: string, command: "build" | "check", name = "job.json"): Promise<Result & { written: string[] }> =>
  inFolder(async (here) => {
    writeFileSync(join(here, name), text);
    const out = command === "build" ? ["--out", join(here, "out")] : [];
    const result = await call(command, join(here, name), "--quiet", ...out);
    const written = readdirSync(here).filter((entry) => entry !== name);
    return { ...result, complained: result.complained.replaceAll(here, "HERE"), written };
  });

/** Names of the stages that were told with their times. */
const stagesIn = (said: string): string[] =>
  [...said.matchAll(/^ {2}(\S.*?) +\d+ ms$/gm)].map(([, stage]) => stage ?? "");

const PATIENT = { timeout: 120_000 }; // a busy machine, and a program that starts from its sources

beforeAll(() => import("../../src/build.ts"), PATIENT.timeout);

describe("the call is at fault", () => {
  const again = "dryfit --help says how to call it.\n";
  test.each<[string[], string]>([
    [["biuld", "x.json"], `error: unknown command 'biuld'\n(Did you mean build?)\n${again}`],
    [["build"], `error: missing required argument 'file'\n${again}`],
    [["build", "--ouut", "x", "y.json"], `error: unknown option '--ouut'\n(Did you mean --out?)\n${again}`],
    [["build", "x.json", "--out"], `error: option '--out <folder>' argument missing\n${again}`],
    [["check", "x.json", "--draft"], `error: unknown option '--draft'\n${again}`],
  ])("%j", async (args, complained) => {
    expect(await call(...args)).toEqual({ status: 2, said: "", complained });
  });

  test("no call at all says how to call it", async () => {
    const { status, complained } = await call();
    expect(status).toBe(2);
    expect(complained).toContain("Usage: dryfit [options] [command]");
  });

  test("no name for the folder of output, and nothing is worked out first", () =>
    inFolder(async (here) => {
      writeFileSync(join(here, "job.json"), JOB);
      const { status, said, complained } = await call("build", join(here, "job.json"), "--out", "");
      expect(status).toBe(2);
      expect(stagesIn(said)).toEqual(["read"]);
      expect(complained).toBe(`  error: found "" after --out
  expected: the name of a folder
  try: leave --out off, and the sets go to out/
`);
    }));

  test("an earlier set of another job, named by both numbers", () =>
    inFolder(async (here) => {
      writeFileSync(join(here, "job.json"), jobWith(['"number": "7"', '"number": "8"']));
      const older = makeSet(readText(JOB).project, { draft: false, olderSet: null });
      writeFileSync(join(here, "older.json"), JSON.stringify(older));
      for (const command of ["build", "check"]) {
        const out = command === "build" ? ["--out", join(here, "out")] : [];
        const marks = ["--marks-from", join(here, "older.json")];
        const { status, complained } = await call(command, join(here, "job.json"), "--quiet", ...marks, ...out);
        expect(status).toBe(2);
        expect(
          complained.replaceAll(here, "HERE"),
        ).toBe(`  error: "HERE/older.json" is a set of job "7", and this is job "8"
  expected: an earlier set of the same job
  try: check the name after --marks-from; or leave it out, and every part gets a new mark
`);
      }
      expect(existsSync(join(here, "out"))).toBe(false);
    }));

  test("an earlier set for several jobs", async () => {
    const { status, complained } = await call("build", "a.json", "b.json", "--marks-from", "set.json");
    expect(status).toBe(2);
    expect(complained).toBe(`  error: --marks-from with 2 project files
  expected: one project file: an earlier set belongs to one job
  try: call it once for each job
`);
  });
});

test("a mistake of our own is called one, once, with its stack", async () => {
  const complaintOn = async (mistake: Error): Promise<string[]> => {
    let complained = "";
    const io: Terminal = {
      say: () => {
        throw mistake;
      },
      complain: (text) => {
        complained += text;
      },
      colours: false,
    };
    expect(await main(["check", "nothing.json"], io)).toBe(1);
    return complained.split("\n");
  };
  for (const mistake of [new Error("Internal error: the pen is dry"), new Error("the pen is dry")]) {
    const [first, second] = await complaintOn(mistake);
    expect(first).toBe("Internal error: the pen is dry");
    expect(second).toMatch(/^ {4}at .*cli\.test\.ts/);
  }
  expect((await complaintOn(new TypeError("pen is not a function")))[0]).toBe(
    "Internal error: TypeError: pen is not a function",
  );
});

test("help and version are said, not complained of", async () => {
  const help = await call("--help");
  expect([help.status, help.complained]).toEqual([0, ""]);
  expect(help.said).toContain("From one project file to the paper that a maker of plywood casework takes to the");
  expect(help.said).toContain(
    "Exit status: 0 done; 1 the piece cannot be made, or fails its checks; 2 the call or a file is at fault.",
  );
  const { version } = JSON.parse(readFileSync("package.json", "utf8")) as { version: string };
  expect(await call("--version")).toEqual({ status: 0, said: `${version}\n`, complained: "" });
});

describe("a file is at fault, and nothing is written", PATIENT, () => {
  test.each<[string, number, string, string]>([
    [
      "a misspelt key",
      2,
      jobWith(['"depth": 12', '"dpeth": 12']),
      `HERE/job.json:10:7  cases[0].dpeth
  error: there is no key "dpeth" here
  expected: "name", "quantity", "at", "shares", "width", "height", "depth", "stock", "joinery", "joints", "edges", "lippings", "bottom", "top", "back", "kick", "plinth", "feet", "frame", "drawers", "doors", "track", "pins", "bays", "finished" or "shelfLoad"
  try: did you mean "depth"?
`,
    ],
    [
      "a name that leaves the output folder",
      2,
      jobWith(['"number"', '"name": "../x", "number"']),
      `HERE/job.json:2:20  job.name
  error: found "../x"
  expected: a plain folder name: letters, digits, "-", "_", "." and spaces between them
  try: write it like "glaze-console"; the set goes to out/ under that name
`,
    ],
    [
      "bays wider than the case",
      1,
      jobWith(["12,", '12,\n      "bays": { "columns": [{ "size": 20 }, { "size": 20 }] },']),
      `HERE/job.json:11:28  cases[0].bays.columns
  error: the columns and the dividers between them come to 40 23/32 in in "box", 34 9/16 in wide inside: 6 5/32 in too much
  expected: a total of 34 9/16 in
  try: make the bays smaller, or the case wider
`,
    ],
    [
      "a joint too deep",
      1,
      jobWith(['"in",', '"in",\n  "joinery": { "depth": "13/32" },']),
      `HERE/job.json:4:25  joinery.depth
  error: joints 13/32 in deep in side of "box", nominally 3/4 in thick
  expected: at most half the nominal thickness, 3/8 in
  try: make the joints less deep, or choose a thicker stock
`,
    ],
  ])("%s", async (_, status, text, complained) => {
    for (const command of ["build", "check"] as const) {
      expect(await callOn(text, command)).toEqual({ status, said: "", complained, written: [] });
    }
  });

  test("what the lettering lacks, or the paper has no room for: check finds it as build does", async () => {
    const unlettered = jobWith(['"number"', '"notes": ["Seen by \u6728"], "number"']);
    const small = '"paper": { "drawings": { "name": "small", "width": "200 mm", "height": "170 mm" } }';
    const many = `"bays": { "columns": [${Array.from({ length: 20 }, () => "{}").join(", ")}] }`;
    const cramped = jobWith(['"unit": "in",', `"unit": "in", ${small},`], ["12,", `12, ${many},`]);
    for (const [text, found] of [
      [unlettered, "has characters that cannot be lettered: \u6728 (U+6728)\n"],
      [cramped, "try: choose larger paper for drawings\n"],
    ] as const) {
      const built = await callOn(text, "build");
      expect([built.status, built.written]).toEqual([2, []]);
      expect(built.complained).toContain(found);
      expect(await callOn(text, "check")).toEqual(built);
    }
  });

  test("ten megabytes of nested lists", async () => {
    const text = "[".repeat(5_000_000) + "]".repeat(5_000_000);
    expect(await callOn(text, "build")).toEqual({
      status: 2,
      said: "",
      complained: `  error: "HERE/job.json" is 10.0 MB
  expected: a file of at most 1 MB
  try: check that this is a project file; a real one is some kilobytes
`,
      written: [],
    });
  });

  test("a missing file", async () => {
    expect(await call("build", "--quiet", "nothing/here.json")).toEqual({
      status: 2,
      said: "",
      complained: `  error: there is no file "nothing/here.json"
  expected: a project file
  try: check the name and the folder you are in
`,
    });
  });

  test("a part larger than any sheet", async () => {
    const large = (what: string, size: string, stock: string, least: string): string => `HERE/job.json:6:5  cases[0]
  error: the ${what} is ${size}; a sheet of ${stock} gives 95 1/2 in x 47 1/2 in inside its trim
  expected: a part that fits a sheet, its length along the grain
  try: a stock with sheets of at least ${least}; or a smaller case, or one more case beside it
`;
    expect(await callOn(jobWith(["36", "110"]), "build")).toEqual({
      status: 1,
      said: "",
      complained: [
        large('bottom of "box", part 3', "109 1/4 in x 12 in", "3/4 in plywood", "109 3/4 in x 12 1/2 in"),
        large('top panel of "box", part 4', "109 1/4 in x 12 in", "3/4 in plywood", "109 3/4 in x 12 1/2 in"),
        large('back of "box", part 5', "28 15/16 in x 109 in", "1/4 in plywood", "29 7/16 in x 109 1/2 in"),
      ].join(""),
      written: [],
    });
  });

  test("a folder that cannot be written, before anything is worked out", () =>
    inFolder(async (here) => {
      writeFileSync(join(here, "job.json"), JOB);
      const { status, said, complained } = await call(
        "build",
        join(here, "job.json"),
        "--out",
        join(here, "job.json", "out"),
      );
      expect(status).toBe(2);
      expect(stagesIn(said)).toEqual(["read"]);
      expect(
        complained.replaceAll(here, "HERE"),
      ).toBe(`  error: "HERE/job.json/out/job" cannot be written: part of that path is a file, not a folder
  expected: a folder that can be written
  try: give another folder with --out
`);
    }));

  test("a folder with a page of somebody's own, before anything is worked out", () =>
    inFolder(async (here) => {
      writeFileSync(join(here, "job.json"), JOB);
      writeFileSync(join(here, "index.html"), "<title>Mine</title>");
      const { status, said, complained } = await call("build", join(here, "job.json"), "--out", here);
      expect(status).toBe(2);
      expect(stagesIn(said)).toEqual(["read"]);
      expect(
        complained.replaceAll(here, "HERE"),
      ).toBe(`  error: "HERE" holds files that no build has written: index.html
  expected: a folder without them, or one with the list of jobs from an earlier build
  try: give another folder with --out, or move those files away
`);
      expect(readdirSync(here).sort()).toEqual(["index.html", "job.json"]);
      expect(readFileSync(join(here, "index.html"), "utf8")).toBe("<title>Mine</title>");
    }));

  test("two files for one folder, by case too; or one file twice", () =>
    inFolder(async (here) => {
      writeFileSync(join(here, "one.json"), jobWith(['"number"', '"name": "Box", "number"']));
      writeFileSync(join(here, "box.json"), JOB);
      const clash = await call("build", join(here, "one.json"), join(here, "box.json"), "--out", join(here, "out"));
      expect({ ...clash, complained: clash.complained.replaceAll(here, "HERE") }).toEqual({
        status: 2,
        said: "",
        complained: `HERE/box.json:2:10  job
  error: this job would be written to the folder "box", and so would "HERE/one.json"
  expected: a folder of its own for each job
  try: give one of them another "name" in its "job"
`,
      });
      const twice = await call("check", join(here, "box.json"), join(here, "box.json"));
      expect(twice.status).toBe(2);
      expect(twice.complained).toContain("is named twice\n");
      expect(existsSync(join(here, "out"))).toBe(false);
    }));

  test("every file is looked at, and the worst decides", () =>
    inFolder(async (here) => {
      writeFileSync(join(here, "a.json"), jobWith(['"in",', '"in",\n  "joinery": { "depth": "13/32" },']));
      writeFileSync(join(here, "b.json"), jobWith(["36", "-36"]));
      writeFileSync(join(here, "c.json"), JOB);
      const { status, said, complained } = await call(
        "check",
        ...["a", "b", "c"].map((name) => join(here, `${name}.json`)),
      );
      expect(status).toBe(2);
      expect(complained).toContain("a.json:4:25  joinery.depth\n");
      expect(complained).toContain("b.json:8:16  cases[0].width\n");
      expect(said).toContain("c.json\n");
      expect(said).toMatch(/ {2}it fits/);
    }));
});

describe("a job that fits", PATIENT, () => {
  test("check says each stage with its time, and writes nothing", () =>
    inFolder(async (here) => {
      writeFileSync(join(here, "job.json"), JOB);
      const { status, said, complained } = await call("check", join(here, "job.json"));
      expect([status, complained]).toEqual([0, ""]);
      const [file, ...lines] = said.trimEnd().split("\n");
      expect(file).toBe(join(here, "job.json"));
      expect(lines.at(-1)).toMatch(/^ {2}it fits/);
      for (const line of lines.slice(0, -1)) expect(line).toMatch(/^ {2}\S.{14} +\d+ ms$/);
      expect(stagesIn(said)).toEqual(["read", "plan and prove", "draw"]);
      expect(readdirSync(here)).toEqual(["job.json"]);
    }));

  test("quiet says nothing at all", async () => {
    expect(await callOn(JOB, "check")).toEqual({ status: 0, said: "", complained: "", written: [] });
  });

  test("colours only where they are wanted", async () => {
    const colourStart = String.fromCharCode(27);
    const seen: string[] = [];
    const keep = (text: string): void => {
      seen.push(text);
    };
    await main(["check", "nothing.json"], { say: keep, complain: keep, colours: true });
    expect(seen.join("")).toContain(`${colourStart}[31merror${colourStart}[39m`);
    const plain = await call("check", "nothing.json");
    expect(plain.said + plain.complained).not.toContain(colourStart);
  });
});

describe("the program as it is installed", PATIENT, () => {
  const program = resolve("bin/dryfit.js");

  test("runs from any folder, and takes the project's name from where it stands", () =>
    inFolder((here) => {
      writeFileSync(join(here, "tsconfig.json"), "{ not json");
      writeFileSync(join(here, "job.json"), jobWith(["36", "0"]));
      const { status, stdout, stderr } = spawnSync(process.execPath, [program, "check", "job.json"], {
        cwd: here,
        encoding: "utf8",
      });
      expect({ status, stdout, stderr }).toEqual({
        status: 2,
        stdout: "job.json\n",
        stderr: `job.json:8:16  cases[0].width
  error: found 0
  expected: a length above zero
  try: give the size itself
`,
      });
    }));
});
