/** What is wrong with a project file, word for word: where, what was found, what was expected, what to try. */
import { describe, expect, test } from "vitest";
import { JOB, jobWith, printed, problemsIn, readText } from "../support/jobs/project-file.ts";

const kinds = (text: string): string[] => [...new Set(problemsIn(text).map(({ kind }) => kind))];

const STOCK_IDS =
  '"three-quarter-ply", "half-ply", "quarter-ply", "ply-18mm", "ply-15mm", "ply-12mm", "ply-6mm", "birch-18mm", "birch-15mm", "birch-12mm", "birch-9mm", "birch-6.5mm", "lumber-2x4", "lumber-2x6", "maple-4q", "maple-5q", "oak-4q", "cherry-4q", "beech-26mm" or "beech-33mm"';
const CASE_KEYS =
  '"name", "quantity", "at", "shares", "width", "height", "depth", "stock", "joinery", "joints", "edges", "lippings", "bottom", "top", "back", "kick", "plinth", "feet", "frame", "drawers", "doors", "track", "pins", "bays", "finished" or "shelfLoad"';

test("the job that the others spoil is sound", () => {
  expect(printed(problemsIn(JOB))).toBe("");
  expect(readText(JOB).warnings).toEqual([]);
});

describe("the file is at fault", () => {
  test.each<[string, string, string]>([
    [
      "not JSON",
      "width = 36\n",
      `job.json:1:1
  error: found "width"
  expected: a number, text in double quotes, { or [
  try: put text in double quotes`,
    ],
    [
      "an empty file",
      "",
      `job.json:1:1
  error: the text ends here
  expected: a value
  try: write a number, text in double quotes, { } or [ ]`,
    ],
    [
      "a list instead of an object",
      "[1]",
      `job.json:1:1
  error: found a list of 1
  expected: an object { }
  try: put an object { } here`,
    ],
    [
      "a key without quotes",
      jobWith(['"unit"', "unit"]),
      `job.json:3:3
  error: found "unit"
  expected: a key in double quotes
  try: write "unit"`,
    ],
    [
      "a missing comma",
      jobWith(['"in",', '"in"']),
      `job.json:4:3
  error: found "\\"stock\\""
  expected: a comma before the next entry
  try: put a comma after the entry before`,
    ],
    [
      "a fraction without quotes",
      jobWith(["36", "36 1/4"]),
      `job.json:8:19
  error: found "1"
  expected: a comma after the number
  try: put a fraction in quotes: "3 1/4"`,
    ],
    [
      "an inch mark inside text",
      jobWith(["36,", '"5\'2 1/2"",']),
      `job.json:8:25
  error: a quote right after a closing quote
  expected: a comma, or the end of the entry
  try: write an inch mark inside text as \\", or write "in"`,
    ],
    [
      "a trailing comma",
      jobWith(['"quarter-ply" }\n', '"quarter-ply" }, // the last\n']),
      `job.json:11:69
  error: a comma with nothing after it
  expected: a comma only between two entries
  try: take the comma out`,
    ],
    [
      "a comment without an end",
      `${JOB}/* the end`,
      `job.json:15:1
  error: a comment without an end
  expected: a comment closed by */
  try: put */ at its end`,
    ],
    [
      "a bracket that is not closed",
      JOB.trimEnd().slice(0, -1),
      `job.json:14:1
  error: the text ends here
  expected: a closing "}"
  try: close each { with a }`,
    ],
    [
      "a key given twice",
      jobWith(['"height": 30,', '"height": 30,\n      "height": 31,']),
      `job.json:10:7  cases[0].height
  error: the key "height" stands here for the second time
  expected: each key once
  try: take out this one, or the one in line 9`,
    ],
    [
      "a misspelt key: the missing one it was meant for goes unsaid",
      jobWith(['"height"', '"heigth"']),
      `job.json:9:7  cases[0].heigth
  error: there is no key "heigth" here
  expected: ${CASE_KEYS}
  try: did you mean "height"?`,
    ],
    [
      "a key like no other",
      jobWith(['"height": 30', '"height": 30,\n      "colour": "white"']),
      `job.json:10:7  cases[0].colour
  error: there is no key "colour" here
  expected: ${CASE_KEYS}
  try: take it out`,
    ],
    [
      "a misspelt part in a choice of shapes",
      jobWith(['"all":', '"al":']),
      `job.json:11:18  cases[0].stock.al
  error: there is no key "al" here
  expected: "all", "side", "bottom", "top", "divider", "shelf", "back", "kick", "stretcher", "filler", "looseShelf" or "plinth"
  try: did you mean "all"?`,
    ],
    [
      "a missing key",
      jobWith(['      "width": 36,\n', ""]),
      `job.json:6:5  cases[0].width
  error: "width" is missing
  expected: a length, such as 30, "30 1/4" or "762 mm"
  try: add "width"`,
    ],
    [
      "a length that cannot be read",
      jobWith(["36", '"36 ells"']),
      `job.json:8:16  cases[0].width
  error: found "36 ells"
  expected: a length, such as 30, "30 1/4" or "762 mm"
  try: write it like 30, "30 1/4", "23/32", "18 mm" or "0.75 in"`,
    ],
    [
      "a length of another kind",
      jobWith(["36", "true"]),
      `job.json:8:16  cases[0].width
  error: found true
  expected: a length, such as 30, "30 1/4" or "762 mm"
  try: write a number in the job's unit, or text with a unit`,
    ],
    [
      "a fraction in a job in mm",
      jobWith(['"in"', '"mm"'], ['"23/32"', '"18 mm"'], ["0.2", '"23/32"']),
      `job.json:4:89  stock.quarter-ply.measured
  error: found "23/32"
  expected: a length, such as 30, "30 1/4" or "762 mm"
  try: name its unit: "23/32 in"`,
    ],
    [
      "a negative size",
      jobWith(["36", "-36"]),
      `job.json:8:16  cases[0].width
  error: found -36
  expected: a length above zero
  try: give the size itself, without a minus sign`,
    ],
    [
      "a size of zero",
      jobWith(["36", '"0 mm"']),
      `job.json:8:16  cases[0].width
  error: found "0 mm"
  expected: a length above zero
  try: give the size itself`,
    ],
    [
      "a negative distance",
      jobWith(["12,", '12, "top": { "down": "-3/4" },']),
      `job.json:10:37  cases[0].top.down
  error: found "-3/4"
  expected: a length of zero or more
  try: give the size itself, without a minus sign`,
    ],
    [
      "a length beyond any shop",
      jobWith(["36", "1e9"]),
      `job.json:8:16  cases[0].width
  error: found 1000000000
  expected: a length of at most 100 m
  try: check the unit`,
    ],
    [
      "a stock that does not exist",
      jobWith(['"all": "three-quarter-ply"', '"all": "three-quarter-plie"']),
      `job.json:11:25  cases[0].stock.all
  error: there is no stock "three-quarter-plie"
  expected: ${STOCK_IDS}
  try: did you mean "three-quarter-ply"?`,
    ],
    [
      "a part without a stock",
      jobWith(['"all":', '"side":']),
      `job.json:11:16  cases[0].stock
  error: no stock for "bottom", "top"
  expected: a stock for every part of the case
  try: add "bottom", "top", or "all"`,
    ],
    [
      "a new stock that says too little",
      jobWith(['"quarter-ply": { "measured": 0.2 }', '"quarter-ply": {}, "oak-ply": { "nominal": 1 }']),
      `job.json:4:90  stock.oak-ply
  error: the new stock "oak-ply" does not say its "name", "sheet" or "boards"
  expected: "name", "nominal", and "sheet" or "boards", of a stock that shared/stock.json does not hold
  try: add "name", "sheet" or "boards", or use an id of shared/stock.json`,
    ],
    [
      "a stock that comes in sheets and in boards",
      jobWith([
        '"quarter-ply": { "measured": 0.2 }',
        '"quarter-ply": { "measured": 0.2, "boards": { "rough": 1, "length": 96, "width": 6 } }',
      ]),
      `job.json:4:75  stock.quarter-ply
  error: "quarter-ply" comes in a "sheet" and in "boards"
  expected: one of the two
  try: take one out, or give the other an id of its own`,
    ],
    [
      "a stock's id that no list can hold",
      jobWith(['"quarter-ply": {', '"thin ply": {']),
      `job.json:4:60  stock.thin ply
  error: found the id "thin ply"
  expected: an id of letters, digits, "-", "_" and "."
  try: write it like "ply-18mm"
job.json:11:54  cases[0].stock.back
`
        .split("\n")
        .slice(0, 4)
        .join("\n"),
    ],
    [
      "a reading far from nominal",
      jobWith(["0.2", "[0.2, 2]"]),
      `job.json:4:95  stock.quarter-ply.measured[1]
  error: "quarter-ply" is nominally 1/4 in thick, but measured as 2 in
  expected: a reading within 5/64 in of nominal
  try: measure again, check the unit, or give the stock its own nominal`,
    ],
    [
      "a date that no calendar has",
      jobWith(["2026-11-20", "2026-02-30"]),
      `job.json:2:51  job.date
  error: found "2026-02-30"
  expected: a date as year-month-day, such as "2026-11-20"
  try: write it like "2026-11-20"`,
    ],
    [
      "a choice that is not there",
      jobWith(['"in"', '"cm"']),
      `job.json:3:11  unit
  error: found "cm"
  expected: "in" or "mm"
  try: choose one of the two`,
    ],
    [
      "a rounding step between the marks of a rule",
      jobWith(['"in",', '"in",\n  "step": "1/10",']),
      `job.json:4:11  step
  error: a rounding step of 0.100 in
  expected: a whole multiple of 1/64 in or of 0.1 mm, at most 1/16 in
  try: write it like "1/16 in", "1/32 in" or "0.1 mm"`,
    ],
    [
      "paper that the shop does not have",
      jobWith(['"in",', '"in",\n  "paper": { "drawings": "Leter landscape", "labels": "A4 3 x 9" },']),
      `job.json:4:26  paper.drawings
  error: there is no paper size "Leter"
  expected: "A4", "A3", "Letter" or "Tabloid"
  try: did you mean "Letter"?
job.json:4:55  paper.labels
  error: there is no label format "A4 3 x 9"
  expected: "Letter 3 x 10", "A4 3 x 8", "A4 2 x 7", "Letter 2 x 10", "Letter 2 x 5", "Letter 2 x 3", "A4 3 x 7", "A4 2 x 4", "A4 3 x 8 edge to edge", "Single 4 x 2 in, 203 dpi", "Single 4 x 2 in, 300 dpi", "Single 100 x 50 mm, 203 dpi", "Single 62 x 29 mm, 300 dpi", "Letter plain" or "A4 plain"
  try: did you mean "A4 3 x 8"?`,
    ],
    [
      "labels that run off the page",
      jobWith(['"in",', '"in",\n  "paper": { "labels": { "format": "A4 2 x 7", "left": "20 mm" } },']),
      `job.json:4:24  paper.labels
  error: the label columns do not fit side by side on the page
  expected: left + columns within the page's width, and a pitch no less than a label's width
  try: measure the pack in hand again`,
    ],
    [
      "one bay alone",
      jobWith(["12,", '12, "bays": { "columns": [{}] },']),
      `job.json:10:41  cases[0].bays.columns
  error: found a list of 1
  expected: a list of 2 to 60 bays
  try: list each bay, even an undivided one: [{ "size": 12 }, {}]`,
    ],
    [
      "a bay both ways",
      jobWith(["12,", '12, "bays": { "columns": [{}, {}], "rows": [{}, {}] },']),
      `job.json:10:59  cases[0].bays.rows
  error: "columns" and "rows" in one bay
  expected: one of the two
  try: put the rows inside one of the columns, or the columns inside one of the rows`,
    ],
    [
      "a setting-in for a back that has none",
      jobWith(["12,", '12, "back": { "fit": "rabbeted", "setIn": 1 },']),
      `job.json:10:58  cases[0].back.setIn
  error: "setIn" for a back that is "rabbeted"
  expected: "setIn" only with "captured"
  try: take it out`,
    ],
    [
      "two cases of one name",
      jobWith([
        "  ]\n}",
        '    , { "name": "Box", "width": 20, "height": 30, "depth": 12, "stock": "three-quarter-ply" }\n  ]\n}',
      ]),
      `job.json:13:17  cases[1].name
  error: a second case is called "Box"
  expected: a name of its own for each case
  try: give this one another name`,
    ],
  ])("%s", (_, text, expected) => {
    expect(printed(problemsIn(text))).toBe(expected);
    expect(kinds(text)).toEqual(["input"]);
  });

  test("ten megabytes of nested lists", () => {
    const text = "[".repeat(5_000_000) + "]".repeat(5_000_000);
    expect(printed(problemsIn(text))).toBe(`  error: "job.json" is 10.0 MB
  expected: a file of at most 1 MB
  try: check that this is a project file; a real one is some kilobytes`);
  });

  test("nested lists within the size that is read", () => {
    const text = "[".repeat(499_000) + "]".repeat(499_000);
    expect(printed(problemsIn(text))).toBe(`job.json:1:41
  error: brackets nested more than 40 deep
  expected: at most 40 levels
  try: check that this is a project file; divide bays with fewer levels`);
  });

  test("bytes that are no text", () => {
    expect(printed(problemsIn(new Uint8Array([0x7b, 0xff, 0xfe, 0x7d])))).toBe(`  error: "job.json" is not text in UTF-8
  expected: a plain text file
  try: save it as UTF-8 in a text editor`);
  });

  test("everything at once, in the order of the file", () => {
    const text = jobWith(
      ['"Box"', '""'],
      ["36", "-36"],
      ['"height"', '"hieght"'],
      ["12,\n", '"a foot",\n      "depth": 12,\n'],
      ['"back": "quarter-ply"', '"back": "cardboard",'],
    );
    expect(problemsIn(text).map(({ where, found }) => `${where?.line}:${where?.column} ${found}`)).toEqual([
      '2:36 found ""',
      "8:16 found -36",
      '9:7 there is no key "hieght" here',
      '10:16 found "a foot"',
      '11:7 the key "depth" stands here for the second time',
      '12:54 there is no stock "cardboard"',
      "12:65 a comma with nothing after it",
    ]);
  });

  test("keys that mean something to a program are keys like others, or refused", () => {
    const found = (text: string): string[] => problemsIn(text).map((problem) => problem.found);
    expect(found(jobWith(['"unit"', '"constructor": 1, "unit"']))).toEqual(['there is no key "constructor" here']);
    expect(found(jobWith(['"unit"', '"__proto__": {}, "unit"']))).toEqual([
      'the key "__proto__" has a meaning of its own in programs',
    ]);
    expect(found(jobWith(['"all": "three-quarter-ply"', '"all": "toString"']))).toEqual([
      'there is no stock "toString"',
    ]);
    expect(found(jobWith(['"all": "three-quarter-ply"', '"all": "__proto__"']))).toEqual([
      'there is no stock "__proto__"',
    ]);
  });

  test("nothing in a message commands a terminal", () => {
    const text = jobWith(['"in"', '"\\u001b[31m\\u009b\\u202e"']);
    expect(printed(problemsIn(text))).toBe(`job.json:3:11  unit
  error: found "\\u001b[31m\\u009b\\u202e"
  expected: "in" or "mm"
  try: choose one of the two`);
  });
});
