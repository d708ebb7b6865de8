/** Designs whose grooves, toe spaces or bays would not survive the cutter or the rounding: refused word for word, and their bounds. */
import { describe, expect, test } from "vitest";
import { printed, problemsIn, withCase, withJob } from "../support/jobs/project-file.ts";

// The plain box, 3/4 in plywood measured 23/32, back 0.2 in, step 1/16 in, with something in its case.
describe("refused, as a design", () => {
  test.each<[string, string, string]>([
    [
      "a kick with no toe space",
      withCase('"bottom": { "up": 3 }, "kick": { "setBack": 0 }'),
      `job.json:11:51  cases[0].kick.setBack
  error: a kick set back 0 in in "box", which leaves no toe space
  expected: at least the rounding step of 1/16 in
  try: set it back more`,
    ],
    [
      "a toe space that rounding takes",
      withCase('"bottom": { "up": 3 }, "kick": { "setBack": "1/32" }'),
      `job.json:11:51  cases[0].kick.setBack
  error: a kick set back 1/32 in in "box", which leaves no toe space
  expected: at least the rounding step of 1/16 in
  try: set it back more`,
    ],
    [
      "a kick as low as rounding takes",
      withCase('"bottom": { "up": "1/32" }, "kick": {}'),
      `job.json:11:25  cases[0].bottom.up
  error: the bottom of "box" is raised 1/32 in, and so little wood is left below its grooves
  expected: 0, or at least 0.079 in of wood below the grooves
  try: write 0 for a bottom at the very end of the sides, or raise it more`,
    ],
    [
      "a kick behind sides that end before an applied back",
      withCase('"back": { "fit": "applied" }, "bottom": { "up": 3 }, "kick": { "setBack": "11 1/4" }'),
      `job.json:11:81  cases[0].kick.setBack
  error: a kick set back 11 1/4 in in "box", whose sides are 11.800 in deep
  expected: a kick within the depth of the sides
  try: set it back less`,
    ],
    [
      "a top panel set down by a hair",
      withCase('"top": { "down": "2 mm" }'),
      `job.json:11:24  cases[0].top.down
  error: the top panel of "box" is set down 0.079 in, and its grooves break out of the sides' upper ends
  expected: 0, or more than 0.079 in of wood above the grooves
  try: write 0 for a flush top panel, or set it down more`,
    ],
    [
      "a back set in by a hair",
      withCase('"back": { "setIn": "1/16" }'),
      `job.json:11:26  cases[0].back.setIn
  error: the back of "box" is set in 1/16 in, and its grooves break out of the back edges
  expected: more than 0.079 in of wood behind the grooves
  try: set the back in more, or write "fit": "rabbeted" and leave "setIn" out`,
    ],
    [
      "a joint of one step",
      withJob('"joinery": { "depth": "1/16" }'),
      `job.json:4:25  joinery.depth
  error: joints 1/16 in deep in side of "box", where rounding may take up to 1/8 in
  expected: at least 2 rounding steps, 1/8 in
  try: make the joints deeper, or "step" finer`,
    ],
    [
      "a joint that leaves almost everything",
      withJob('"joinery": { "leave": "5/8" }'),
      `job.json:4:25  joinery.leave
  error: joints 3/32 in deep in side of "box", where rounding may take up to 1/8 in
  expected: at least 2 rounding steps, 1/8 in
  try: make the joints deeper, or "step" finer`,
    ],
    [
      "grooves for the back that rounding empties",
      withCase('"joinery": { "backDepth": "1/8" }'),
      `job.json:11:33  cases[0].joinery.backDepth
  error: the back of "box" is held by 3/32 in, its grooves' depth of 1/8 in less the slip of 1/32 in, and rounding may take up to 1/8 in
  expected: at least 2 rounding steps, 1/8 in
  try: make the slip smaller, the grooves for the back deeper, or "step" finer`,
    ],
    [
      "a slip that leaves the default grooves too little",
      withCase('"joinery": { "slip": "3/16" }'),
      `job.json:11:28  cases[0].joinery.slip
  error: the back of "box" is held by 1/16 in, its grooves' depth of 1/4 in less the slip of 3/16 in, and rounding may take up to 1/8 in
  expected: at least 2 rounding steps, 1/8 in
  try: make the slip smaller, the grooves for the back deeper, or "step" finer`,
    ],
    [
      "a slip that takes the back out of its rabbets",
      withCase('"back": { "fit": "rabbeted" }, "joinery": { "slip": "1/4" }'),
      `job.json:11:59  cases[0].joinery.slip
  error: the back of "box" stays clear of its rabbets by the slip of 1/4 in
  expected: less than the rabbets' depth of 1/4 in
  try: make the slip smaller, or the rabbets for the back deeper`,
    ],
    [
      "a set-back that leaves no groove",
      withCase('"joinery": { "setBack": 11 }'),
      `job.json:11:31  cases[0].joinery.setBack
  error: grooves that stop 11 in short of the front edge in "box", which is 11.300 in deep inside
  expected: at least 0.787 in of groove
  try: give a smaller "setBack" in "joinery", or make the case deeper`,
    ],
    [
      "two set-backs that meet",
      withCase('"back": { "fit": "none" }, "edges": { "back": "shows" }, "joinery": { "setBack": 6 }'),
      `job.json:11:88  cases[0].joinery.setBack
  error: grooves that stop 6 in short of front and back edge each in "box", which is 12 in deep inside
  expected: at least 0.787 in of groove
  try: give a smaller "setBack" in "joinery", or make the case deeper`,
    ],
    [
      "a bay of the width of a saw cut",
      withCase('"bays": { "columns": [{ "size": "1/4", "name": "slit" }, {}] }'),
      `job.json:11:39  cases[0].bays.columns[0].size
  error: "slit" would be 1/4 in wide inside
  expected: at least 0.394 in
  try: give it a larger size`,
    ],
    [
      "a bay that the others leave too little",
      withCase('"bays": { "columns": [{ "name": "low", "rows": [{ "size": "27 1/2" }, {}] }, {}] }'),
      `job.json:11:77  cases[0].bays.columns[0].rows[1]
  error: a bay of "low" would be 11/32 in high inside
  expected: at least 0.394 in
  try: make the bays beside it smaller or fewer, or the case higher`,
    ],
    [
      "many bays that share too little: said once",
      withCase('"bays": { "columns": [{ "size": 30 }, {}, {}, {}, {}, {}] }'),
      `job.json:11:45  cases[0].bays.columns[1]
  error: a bay of "box" would be 0.194 in wide inside
  expected: at least 0.394 in
  try: make the bays beside it smaller or fewer, or the case wider`,
    ],
  ])("%s", (_, text, expected) => {
    const problems = problemsIn(text);
    expect(printed(problems)).toBe(expected);
    expect([...new Set(problems.map(({ kind }) => kind))]).toEqual(["design"]);
  });
});

describe("just enough", () => {
  test.each([
    ["a toe space of one step", '"bottom": { "up": 3 }, "kick": { "setBack": "1/16" }'],
    ["2 mm of wood below the bottom's grooves", '"bottom": { "up": "2 mm" }'],
    [
      "a kick just before an applied back",
      '"back": { "fit": "applied" }, "bottom": { "up": 3 }, "kick": { "setBack": 11 }',
    ],
    ["1/8 in of wood above the top panel's grooves", '"top": { "down": "1/8" }'],
    ["little more than 2 mm of wood behind the back's grooves", '"back": { "setIn": "2.2 mm" }'],
    ["joints of two steps", '"joinery": { "depth": "1/8" }'],
    ["a back held by two steps", '"joinery": { "backDepth": "5/32" }'],
    ["20 mm of groove", '"joinery": { "setBack": "10 1/2" }'],
    ["any set-back, where no edge that shows uses it", '"edges": { "front": "covered" }, "joinery": { "setBack": 11 }'],
    [
      "a set-back at back edges behind a back",
      '"edges": { "front": "covered", "back": "shows" }, "joinery": { "setBack": 11 }',
    ],
    ["a bay of 10 mm", '"bays": { "columns": [{ "size": "10 mm" }, {}] }'],
  ])("%s", (_, extra) => {
    expect(printed(problemsIn(withCase(extra)))).toBe("");
  });

  test("the same joint at a finer step", () => {
    const fine = '"step": "1/64", "joinery": { "depth": "1/16", "backDepth": "1/8" }';
    expect(printed(problemsIn(withJob(fine)))).toBe("");
  });
});
