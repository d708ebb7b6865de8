/** A job's name is a folder under out/: what it may be, word for word. */
import { describe, expect, test } from "vitest";
import { JOB, jobWith, printed, problemsIn, readText } from "../support/jobs/project-file.ts";

describe("names that would leave out/, or that a system keeps for itself", () => {
  test.each([
    ["../x"],
    ["..\\\\x"],
    ["/abs"],
    ["C:x"],
    ["a/b"],
    [".."],
    ["."],
    [".hidden"],
    [""],
    [" "],
    ["x."],
    ["x "],
    ["nul\\u0000x"],
    ["CON"],
    ["nul.txt"],
    ["Lpt1"],
    ["index.html"],
    ["Site.css"],
    ["source-sans-3-regular.woff2"],
    ["x\\ny"],
    ["a*b"],
    ["n".repeat(101)],
  ])("%j", (name) => {
    const [problem, ...more] = problemsIn(jobWith(['"number"', `"name": "${name}", "number"`]));
    expect(more).toEqual([]);
    expect(problem).toMatchObject({
      kind: "input",
      where: { line: 2, column: 20, path: "job.name" },
      expected: 'a plain folder name: letters, digits, "-", "_", "." and spaces between them',
      remedy: 'write it like "glaze-console"; the set goes to out/ under that name',
    });
  });

  test("the found name is written so that it can be seen", () => {
    expect(problemsIn(jobWith(['"number"', '"name": "nul\\u0000x", "number"']))[0]?.found).toBe('found "nul\\u0000x"');
  });

  test("a file whose own name cannot name a folder", () => {
    expect(printed(problemsIn(JOB, "con.json"))).toBe(`con.json:2:10  job
  error: the file's name "con" cannot name a folder
  expected: a plain folder name: letters, digits, "-", "_", "." and spaces between them
  try: rename the file, or give the job a "name"`);
    expect(problemsIn(jobWith(['"number"', '"name": "box", "number"']), "con.json")).toEqual([]);
  });

  test("plain names in any script", () => {
    for (const name of ["glaze-console", "Töpferei 2", "v1.2_b", "棚"]) {
      expect(readText(jobWith(['"number"', `"name": "${name}", "number"`])).project.name).toBe(name);
    }
  });
});
