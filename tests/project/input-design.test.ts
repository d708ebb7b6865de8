/** Files that read, and describe a piece that cannot be made: exit status 1, with line and column. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Bay, BaySize } from "../../src/project/bay.ts";
import { checkBays } from "../../src/project/checks/bays.ts";
import { divide } from "../../src/project/checks/clear-bays.ts";
import { JOB, jobWith, printed, problemsIn, readText } from "../support/jobs/project-file.ts";

const withBays = (bays: string): string => jobWith(["12,", `12,\n      "bays": ${bays},`]);

describe("the piece cannot be made", () => {
  // Inside: 36 - 2 x 23/32 = 34 9/16 wide, 30 - 2 x 23/32 = 28 9/16 high.
  test.each<[string, string, string]>([
    [
      "bays wider than the case",
      withBays('{ "columns": [{ "size": 20 }, { "size": 20 }] }'),
      `job.json:11:28  cases[0].bays.columns
  error: the columns and the dividers between them come to 40 23/32 in in "box", 34 9/16 in wide inside: 6 5/32 in too much
  expected: a total of 34 9/16 in
  try: make the bays smaller, or the case wider`,
    ],
    [
      "bays that leave a gap",
      withBays('{ "columns": [{ "size": 16 }, { "size": 16 }] }'),
      `job.json:11:28  cases[0].bays.columns
  error: the columns and the dividers between them come to 32 23/32 in in "box", 34 9/16 in wide inside: 1 27/32 in too little
  expected: a total of 34 9/16 in
  try: leave out the "size" of one bay, and it takes what is left`,
    ],
    [
      "nothing left to share",
      withBays('{ "columns": [{ "size": 20 }, { "size": 20 }, {}] }'),
      `job.json:11:28  cases[0].bays.columns
  error: the sizes of the columns and the dividers between them come to 41 7/16 in in "box", 34 9/16 in wide inside: 6 7/8 in too much
  expected: sizes that leave something of the 34 9/16 in
  try: make the bays smaller, or the case wider`,
    ],
    [
      "not a hair left to share",
      withBays('{ "columns": [{ "size": "33 27/32" }, {}] }'),
      `job.json:11:28  cases[0].bays.columns
  error: the sizes of the columns and the dividers between them come to 34 9/16 in in "box", 34 9/16 in wide inside: leaving nothing for those without a size
  expected: sizes that leave something of the 34 9/16 in
  try: make the bays smaller, or the case wider`,
    ],
    [
      "off by less than paper shows",
      withBays('{ "columns": [{ "size": "33 mm" }, { "size": "826.633 mm" }] }'),
      `job.json:11:28  cases[0].bays.columns
  error: the columns and the dividers between them come to 34.563 in in "box", 34 9/16 in wide inside: less than 0.001 in too much
  expected: a total of 34 9/16 in
  try: make the bays smaller, or the case wider`,
    ],
    [
      "rows too high, inside a column too wide: both, in the order of the file",
      withBays('{ "columns": [{ "size": 40, "rows": [{ "size": 29 }, {}] }, {}] }'),
      `job.json:11:28  cases[0].bays.columns
  error: the sizes of the columns and the dividers between them come to 40 23/32 in in "box", 34 9/16 in wide inside: 6 5/32 in too much
  expected: sizes that leave something of the 34 9/16 in
  try: make the bays smaller, or the case wider
job.json:11:51  cases[0].bays.columns[0].rows
  error: the sizes of the rows and the shelves between them come to 29 23/32 in in "box", 28 9/16 in high inside: 1 5/32 in too much
  expected: sizes that leave something of the 28 9/16 in
  try: make the bays smaller, or the case higher`,
    ],
    [
      "a joint deeper than half the nominal thickness",
      jobWith(['"in",', '"in",\n  "joinery": { "depth": "13/32" },']),
      `job.json:4:25  joinery.depth
  error: joints 13/32 in deep in side of "box", nominally 3/4 in thick
  expected: at most half the nominal thickness, 3/8 in
  try: make the joints less deep, or choose a thicker stock`,
    ],
    [
      "a joint that leaves too little",
      jobWith(['"in",', '"in",\n  "joinery": { "leave": "1/4" },']),
      `job.json:4:25  joinery.leave
  error: joints 15/32 in deep in side of "box", nominally 3/4 in thick
  expected: at most half the nominal thickness, 3/8 in
  try: make the joints less deep, or choose a thicker stock`,
    ],
    [
      "a joint that leaves everything",
      jobWith(['"in",', '"in",\n  "joinery": { "leave": "3/4" },']),
      `job.json:4:25  joinery.leave
  error: joints that leave as much as there is in side of "box", measured 23/32 in thick
  expected: less than 23/32 in to be left
  try: leave less under the groove`,
    ],
    [
      "only the thin divider, which a shelf enters",
      jobWith(
        ['"back": "quarter-ply" }', '"back": "quarter-ply", "divider": "half-ply" }'],
        ["12,", '12,\n      "joinery": { "depth": "5/16" },\n      "bays": { "columns": [{ "rows": [{}, {}] }, {}] },'],
      ),
      `job.json:11:29  cases[0].joinery.depth
  error: joints 5/16 in deep in divider of "box", nominally 1/2 in thick
  expected: at most half the nominal thickness, 1/4 in
  try: make the joints less deep, or choose a thicker stock`,
    ],
    [
      "grooves for the back too deep",
      jobWith(["12,", '12,\n      "joinery": { "backDepth": "1/2" },']),
      `job.json:11:33  cases[0].joinery.backDepth
  error: joints 1/2 in deep in side, bottom and top panel of "box", nominally 3/4 in thick
  expected: at most half the nominal thickness, 3/8 in
  try: make the joints less deep, or choose a thicker stock`,
    ],
    [
      "a slip that takes the back out of its grooves",
      jobWith(["12,", '12,\n      "joinery": { "slip": "1/4" },']),
      `job.json:11:28  cases[0].joinery.slip
  error: the back of "box" stays clear of its grooves by the slip of 1/4 in
  expected: less than the grooves' depth of 1/4 in
  try: make the slip smaller, or the grooves for the back deeper`,
    ],
    [
      "no room inside",
      jobWith(["36", '"1 7/16"'], ["30", "1"], ["12", '"1/4"']),
      `job.json:8:16  cases[0].width
  error: "box" is 1 7/16 in wide, and its sides take 1 7/16 in
  expected: at least 1.831 in
  try: make it wider
job.json:9:17  cases[0].height
  error: "box" is 1 in high, and bottom and top panel with what is below and above them take 1 7/16 in
  expected: at least 1.831 in
  try: make it higher, the bottom lower or the top panel higher
job.json:10:16  cases[0].depth
  error: "box" is 1/4 in deep, and its back takes 0.700 in
  expected: at least 1.094 in
  try: make it deeper, or set the back in less`,
    ],
    [
      "a kick with no height",
      jobWith(["12,", '12,\n      "kick": {},']),
      `job.json:11:15  cases[0].kick
  error: a kick under "box", whose bottom stands on the floor
  expected: a bottom that is raised by the height of the kick
  try: add "bottom": { "up": 80 } or the like`,
    ],
    [
      "two cases in one place",
      jobWith([
        "  ]\n}",
        '    , { "name": "other", "at": [35, 11, 0], "width": 20, "height": 30, "depth": 12, "stock": { "all": "three-quarter-ply", "back": "quarter-ply" } }\n  ]\n}',
      ]),
      `job.json:13:32  cases[1].at
  error: "other" stands in the same place as "box"
  expected: cases beside, behind or on top of each other
  try: change its "at", or leave it out to stand it beside the case before`,
    ],
  ])("%s", (_, text, expected) => {
    const problems = problemsIn(text);
    expect(printed(problems)).toBe(expected);
    expect([...new Set(problems.map(({ kind }) => kind))]).toEqual(["design"]);
  });

  test("half the nominal thickness itself is deep enough and not too deep", () => {
    expect(problemsIn(jobWith(['"in",', '"in",\n  "joinery": { "depth": "3/8" },']))).toEqual([]);
  });

  test("a divider that nothing enters sets no limit", () => {
    const text = jobWith(
      ['"back": "quarter-ply" }', '"back": "quarter-ply", "divider": "half-ply" }'],
      ["12,", '12,\n      "joinery": { "depth": "5/16" },\n      "bays": { "columns": [{}, {}] },'],
    );
    expect(problemsIn(text)).toEqual([]);
  });
});

describe("bays add up", () => {
  const sizes = fc.array(
    fc.oneof(
      fc.integer({ min: 1, max: 4000 }).map((n): BaySize => ({ clear: n / 10 })),
      fc.integer({ min: 1, max: 5 }).map((share): BaySize => ({ share })),
    ),
    { minLength: 2, maxLength: 8 },
  );

  test("what divides, comes to the whole again; what does not, says by how much", () => {
    fc.assert(
      fc.property(sizes, fc.integer({ min: 50, max: 200 }), fc.integer({ min: 1000, max: 30_000 }), (list, t, w) => {
        const between = t / 10;
        const space = w / 10;
        const bays = list.map((size) => ({ size }));
        const stated = list.reduce(
          (sum, size) => sum + ("clear" in size ? size.clear : 0),
          between * (list.length - 1),
        );
        const division = divide(space, between, bays);
        if ("over" in division) {
          expect(division.over).toBeCloseTo(stated - space, 6);
          return;
        }
        const whole = division.sizes.reduce((sum, size) => sum + size, between * (list.length - 1));
        expect(whole).toBeCloseTo(space, 6);
        expect(Math.min(...division.sizes)).toBeGreaterThan(0);
        list.forEach((size, i) => {
          if ("clear" in size) expect(division.sizes[i]).toBe(size.clear);
        });
      }),
    );
  });

  test("a tree that is made to fit has no problem, and one that is stretched by 0.1 mm has one", () => {
    const { project } = readText(JOB);
    const design = project.cases[0]!;
    const bayOf = (size: BaySize): Bay => ({
      path: "b",
      name: null,
      door: null,
      size,
      kind: "open",
      loose: 0,
      drawers: [],
    });
    const columns = (extra: number): Bay => ({
      path: "cases[0].bays",
      name: null,
      door: null,
      size: { share: 1 },
      kind: "columns",
      bays: [bayOf({ clear: 300 }), bayOf({ clear: 914.4 - 3 * 18.25625 - 300 + extra })],
    });
    expect(checkBays(project, { ...design, bays: columns(0) })).toEqual([]);
    expect(checkBays(project, { ...design, bays: columns(0.1) }).map(({ found }) => found)).toEqual([
      'the columns and the dividers between them come to 34.566 in in "box", 34 9/16 in wide inside: 0.004 in too much',
    ]);
  });
});
