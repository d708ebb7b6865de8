/** What a file may say of a case's arrangement, and what it may not, word for word: the file is at fault. */
import { describe, expect, test } from "vitest";
import { beside, jobWith, printed, problemsIn, withCase, withJob } from "../support/jobs/project-file.ts";

describe("the file is at fault", () => {
  test.each<[string, string, string]>([
    [
      "a height for a bottom under the sides",
      withCase('"bottom": { "fit": "under", "up": 2 }'),
      `job.json:11:41  cases[0].bottom.up
  error: "up" for a bottom that is "under"
  expected: "up" only with "between"
  try: take it out`,
    ],
    [
      "a way of lying that no bottom has",
      withCase('"bottom": { "fit": "below" }'),
      `job.json:11:26  cases[0].bottom.fit
  error: found "below"
  expected: "between" or "under"
  try: choose one of the two`,
    ],
    [
      "a top panel set down over the sides, and strips on it",
      withCase('"top": { "fit": "over", "down": 1, "fillers": 2 }'),
      `job.json:11:39  cases[0].top.down
  error: "down" for a top that is "over"
  expected: "down" only with "between"
  try: take it out
job.json:11:53  cases[0].top.fillers
  error: "fillers" for a top that is "over"
  expected: "fillers" only with "between"
  try: take it out`,
    ],
    [
      "the width of a stretcher without one",
      withCase('"top": { "width": 3 }'),
      `job.json:11:25  cases[0].top.width
  error: "width" for a top that is "between"
  expected: "width" only with "stretchers"
  try: take it out`,
    ],
    [
      "filler strips, and how far the top panel is down",
      withCase('"top": { "down": 1, "fillers": 2 }'),
      `job.json:11:24  cases[0].top.down
  error: "down" and "fillers" together
  expected: one of the two: with filler strips the top panel is as far down as they are thick
  try: take "down" out: how thick the strips are is said by the stock of "filler"`,
    ],
    [
      "what only a back can do",
      withCase('"back": { "fit": "none", "houses": true, "sections": true }'),
      `job.json:11:42  cases[0].back.houses
  error: "houses" for a back that is "none"
  expected: "houses" only with "captured", "rabbeted" or "applied"
  try: take it out
job.json:11:60  cases[0].back.sections
  error: "sections" for a back that is "none"
  expected: "sections" only with "captured", "rabbeted" or "applied"
  try: take it out`,
    ],
    [
      "sections without columns",
      withCase('"back": { "sections": true }, "bays": { "rows": [{}, {}] }'),
      `job.json:11:29  cases[0].back.sections
  error: a back in sections in "box", whose bays do not begin with "columns"
  expected: a section for each of the outermost columns
  try: begin the bays with "columns", or write "sections": false`,
    ],
    [
      "sections that meet on dividers which they are to house",
      withCase('"back": { "fit": "applied", "sections": true, "houses": true }, "bays": { "columns": [{}, {}] }'),
      `job.json:11:63  cases[0].back.houses
  error: "houses" and "sections" for a back of "box" that is "applied"
  expected: one of the two: such sections meet on the dividers' rear edges, and cannot house them
  try: write "fit": "captured", or "houses": false`,
    ],
    [
      "a kick and a plinth",
      withCase('"kick": {}, "bottom": { "up": 3 }, "plinth": { "height": 3 }'),
      `job.json:11:52  cases[0].plinth
  error: "kick" and "plinth" in one case
  expected: one of the two
  try: keep the kick, a board between or over the sides, or the plinth, a base of its own`,
    ],
    [
      "two lippings on one part",
      withCase(
        '"lippings": [{ "name": "strip", "kind": "strip", "thickness": "1/4", "parts": ["side", "shelf"] }, { "name": "band", "kind": "band", "thickness": "1 mm", "parts": ["shelf"] }]',
      ),
      `job.json:11:171  cases[0].lippings[1].parts[0]
  error: a second lipping on "shelf"
  expected: one lipping for each part
  try: take the part out of one of the two`,
    ],
    [
      "a lipping on a back",
      withCase('"lippings": [{ "name": "strip", "kind": "strip", "thickness": "1/4", "parts": ["back"] }]'),
      `job.json:11:86  cases[0].lippings[0].parts[0]
  error: found "back"
  expected: "side", "bottom", "top", "divider", "shelf", "stretcher" or "looseShelf"
  try: name parts whose front edges are lipped`,
    ],
    [
      "lippings on edges that something else covers",
      withCase(
        '"edges": { "front": "covered" }, "lippings": [{ "name": "strip", "kind": "strip", "thickness": "1/4", "parts": ["side"] }]',
      ),
      `job.json:11:27  cases[0].edges.front
  error: front edges of "box" that are "covered", and lippings on them
  expected: one of the two: a lipping is itself what covers the edge
  try: leave "front" out of "edges", or the lippings`,
    ],
    [
      "loose shelves in a bay that is divided",
      withCase('"bays": { "columns": [{}, {}], "loose": 2 }'),
      `job.json:11:47  cases[0].bays.loose
  error: "columns" and "loose" in one bay
  expected: one of the two
  try: put the loose shelves into one of the bays that it is divided into`,
    ],
    [
      "no loose shelf",
      withCase('"bays": { "loose": 0 }'),
      `job.json:11:26  cases[0].bays.loose
  error: found 0
  expected: a whole number from 1 to 20
  try: write it like 3, without quotes`,
    ],
    [
      "a load without its unit",
      withCase('"shelfLoad": "20"'),
      `job.json:11:20  cases[0].shelfLoad
  error: found "20"
  expected: a load on a length of shelf, above zero and at most 1000 kg/m
  try: write it like "20 lb/ft" or "30 kg/m"`,
    ],
    [
      "a load beyond any shelf",
      withCase('"shelfLoad": "2000 kg/m"'),
      `job.json:11:20  cases[0].shelfLoad
  error: found "2000 kg/m"
  expected: a load on a length of shelf, above zero and at most 1000 kg/m
  try: write it like "20 lb/ft" or "30 kg/m"`,
    ],
    [
      "a joint both ways",
      withJob(
        '"joints": [{ "entering": "bottom", "receiving": "side", "kind": "housed", "depth": "1/4", "leave": "1/2" }]',
      ),
      `job.json:4:102  joints[0].leave
  error: "depth" and "leave" together
  expected: one of the two
  try: say how deep, or how much to leave`,
    ],
    [
      "what a kind of joint has no use for",
      withJob(
        '"joints": [{ "entering": "bottom", "receiving": "side", "kind": "butt", "depth": "1/4", "tongue": "1/4" }, { "entering": "top", "receiving": "side", "kind": "housed", "fixing": "dowels" }]',
      ),
      `job.json:4:84  joints[0].depth
  error: "depth" for a joint that is "butt"
  expected: "depth" only with a kind of "housed" or "tongue"
  try: take it out
job.json:4:101  joints[0].tongue
  error: "tongue" for a joint that is "butt"
  expected: "tongue" only with a kind of "tongue"
  try: take it out
job.json:4:180  joints[1].fixing
  error: "fixing" for a joint that is "housed"
  expected: "fixing" only with a kind of "butt"
  try: take it out`,
    ],
    [
      "a joint for parts that are not there",
      withJob(
        '"joints": [{ "entering": "shlf", "receiving": "side", "kind": "butt" }, { "entering": "top", "receiving": "side-lef", "kind": "butt" }]',
      ),
      `job.json:4:28  joints[0].entering
  error: there is no part "shlf" in "box"
  expected: "side", "bottom", "top" or "back", or the id of one part, such as "side-left"
  try: name a part that is there
job.json:4:109  joints[1].receiving
  error: there is no part "side-lef" in "box"
  expected: "side", "bottom", "top" or "back", or the id of one part, such as "side-left"
  try: did you mean "side-left"?`,
    ],
    [
      "a joint for one shelf too many",
      withCase(
        '"bays": { "rows": [{}, {}] }, "joints": [{ "entering": "shelf-2", "receiving": "side", "kind": "butt" }]',
      ),
      `job.json:11:62  cases[0].joints[0].entering
  error: there is no part "shelf-2" in "box"
  expected: "side", "bottom", "top", "shelf" or "back", or the id of one part, such as "shelf-1"
  try: did you mean "shelf-1"?`,
    ],
    [
      "a joint that cannot be chosen",
      withCase('"bays": { "rows": [{}, {}] }, "joints": [{ "entering": "back", "receiving": "side", "kind": "butt" }]'),
      `job.json:11:48  cases[0].joints[0]
  error: the joint of "back" in "side" in "box" cannot be chosen
  expected: "bottom" in "side", "top" in "side" or "shelf" in "side"
  try: choose for one of these, or leave it out`,
    ],
    [
      "a joint the wrong way round",
      withCase('"joints": [{ "entering": "side", "receiving": "bottom", "kind": "butt" }]'),
      `job.json:11:18  cases[0].joints[0]
  error: the joint of "side" in "bottom" in "box" cannot be chosen
  expected: "bottom" in "side" or "top" in "side"
  try: choose for one of these, or leave it out`,
    ],
    [
      "a joint of parts that do not meet",
      withCase(
        '"bays": { "columns": [{ "rows": [{}, {}] }, {}] }, "joints": [{ "entering": "shelf-1.1", "receiving": "side-right", "kind": "butt" }]',
      ),
      `job.json:11:69  cases[0].joints[0]
  error: "shelf-1.1" does not enter "side-right" in "box"
  expected: "shelf-1.1" in "side-left" or "divider-1"
  try: name a part that it enters`,
    ],
    [
      "a joint with a part that it is never in",
      withCase(
        '"bays": { "columns": [{}, {}] }, "joints": [{ "entering": "divider", "receiving": "side", "kind": "butt" }]',
      ),
      `job.json:11:51  cases[0].joints[0]
  error: "divider" does not enter "side" in "box"
  expected: "divider" in "bottom" or "top"
  try: name a part that it enters`,
    ],
    [
      "finished glue-ups of parts that are not there, or of one, or twice",
      withCase('"finished": [["side", "botom"], ["top"], ["side-left", "bottom"], ["side", "top", "back"]]'),
      `job.json:11:29  cases[0].finished[0][1]
  error: there is no part "botom" in "box"
  expected: "side", "bottom", "top" or "back", or the id of one part, such as "side-left"
  try: did you mean "bottom"?
job.json:11:39  cases[0].finished[1]
  error: a finished glue-up of "box" with one part in it
  expected: two parts or more
  try: name the parts that it is glued to, or take it out
job.json:11:49  cases[0].finished[2][0]
  error: "side-left" puts "side-left" into a finished glue-up of "box" for the second time
  expected: each part once
  try: take it out of one of the two
job.json:11:74  cases[0].finished[3][0]
  error: "side" puts "side-left" into a finished glue-up of "box" for the second time
  expected: each part once
  try: take it out of one of the two
job.json:11:82  cases[0].finished[3][1]
  error: "top" puts "top" into a finished glue-up of "box" for the second time
  expected: each part once
  try: take it out of one of the two`,
    ],
    [
      "glue that is set before one joint is closed",
      withJob('"glue": { "minutesPerJoint": 12 }'),
      `job.json:4:11  glue
  error: 12 minutes for each joint, with glue that waits 10
  expected: time for one joint at least
  try: choose a glue that waits longer, or check the two figures`,
    ],
    [
      "figures that are none",
      withJob('"glue": { "openMinutes": 0, "mostJoints": 2.5 }, "doorway": { "width": 30 }'),
      `job.json:4:28  glue.openMinutes
  error: found 0
  expected: minutes above zero, at most a day
  try: write it like 10, without quotes
job.json:4:45  glue.mostJoints
  error: found 2.5
  expected: a whole number from 1 to 200
  try: write it like 8, without quotes
job.json:4:63  doorway.height
  error: "height" is missing
  expected: a length, such as 30, "30 1/4" or "762 mm"
  try: add "height"`,
    ],
    [
      "a side shared with a case that is not there",
      beside('"shares": { "left": "bok" }'),
      `job.json:13:149  cases[1].shares.left
  error: "next" shares a side of "bok", and no case is called so
  expected: "box"
  try: did you mean "box"?`,
    ],
    [
      "a side shared with a case that comes later, and that case's with it",
      beside('"shares": { "left": "box" }', ' "shares": { "left": "next" },'),
      `job.json:10:40  cases[0].shares.left
  error: "box" shares a side of "next", which comes after it
  expected: a case before this one
  try: put "next" before it`,
    ],
    [
      "a side shared with itself",
      beside('"shares": { "left": "next" }'),
      `job.json:13:149  cases[1].shares.left
  error: "next" would share a side with itself
  expected: "box"
  try: name a case before this one, or take "shares" out`,
    ],
    [
      "a side shared with the first of two alike",
      beside('"shares": { "left": "box" }', ' "quantity": 2,'),
      `job.json:13:149  cases[1].shares.left
  error: "next" shares a side of "box", and there are 2 of "box"
  expected: one of each
  try: list each case by itself, with a name of its own`,
    ],
    [
      "a raised bottom on a plinth",
      withCase('"bottom": { "up": 2 }, "plinth": { "height": 3 }'),
      `job.json:11:25  cases[0].bottom.up
  error: a bottom that is raised 2 in in "box", which stands on a plinth
  expected: a bottom at the very end of the sides, on the plinth
  try: write "up": 0, or keep the raised bottom and leave the plinth out`,
    ],
    [
      "a case that is called as a plinth is",
      jobWith(
        ["12,", '12, "plinth": { "height": 3 },'],
        [
          "  ]\n}",
          '    , { "name": "box plinth", "width": 20, "height": 30, "depth": 12, "stock": { "all": "three-quarter-ply", "back": "quarter-ply" } }\n  ]\n}',
        ],
      ),
      `job.json:13:17  cases[1].name
  error: a second case is called "box plinth"
  expected: a name of its own for each case
  try: give this one another name`,
    ],
  ])("%s", (_, text, expected) => {
    const problems = problemsIn(text);
    expect(printed(problems)).toBe(expected);
    expect([...new Set(problems.map(({ kind }) => kind))]).toEqual(["input"]);
  });
});
