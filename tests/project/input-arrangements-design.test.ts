/** Arrangements that read, and that no shop could make: refused word for word, and their bounds. */
import { describe, expect, test } from "vitest";
import { beside, jobWith, printed, problemsIn, readText, withCase } from "../support/jobs/project-file.ts";

describe("refused, as a design", () => {
  test.each<[string, string, string]>([
    [
      "a kick with too little behind it",
      withCase('"bottom": { "up": 3 }, "kick": { "fit": "applied", "setBack": 10 }'),
      `job.json:11:69  cases[0].kick.setBack
  error: an applied kick set back 10 in in "box", whose toe notches leave 1 9/32 in of the sides' lower ends to stand on
  expected: at least 1.969 in behind the kick
  try: set it back less, or write "fit": "between"`,
    ],
    [
      "a toe notch that ends in a lipping",
      withCase(
        '"bottom": { "up": 3 }, "kick": { "setBack": "1/4" }, "lippings": [{ "name": "strip", "kind": "strip", "thickness": "1/4", "parts": ["side"] }]',
      ),
      `job.json:11:51  cases[0].kick.setBack
  error: a kick set back 1/4 in in "box", whose sides have a lipping of 1/4 in: the toe notch would end in it
  expected: at least 5/16 in
  try: set it back more, or take a thinner lipping`,
    ],
    [
      "a plinth in the floor, too low, too narrow, not deep enough",
      withCase('"at": [0, 0, 0], "plinth": { "height": "1/2", "setBack": 6, "inset": 17.5 }'),
      `job.json:11:13  cases[0].at
  error: "box" stands 0 in above the floor, and its plinth is 1/2 in high
  expected: a case that stands on its plinth
  try: write 1/2 in as the third length of "at", or leave "at" out
job.json:11:46  cases[0].plinth.height
  error: a plinth 1/2 in high under "box"
  expected: at least 0.787 in
  try: make it higher, or leave it out
job.json:11:64  cases[0].plinth.setBack
  error: a plinth 6 in behind the front and 17 1/2 in before the rear of "box", which is 12 in deep
  expected: a plinth at least 1.831 in deep
  try: set it back and in less
job.json:11:76  cases[0].plinth.inset
  error: a plinth 17 1/2 in inside each end of "box", which is 36 in wide
  expected: a plinth at least 1.831 in wide
  try: set it in less`,
    ],
    [
      "stretchers that meet",
      withCase('"top": { "fit": "stretchers", "width": 6 }'),
      `job.json:11:46  cases[0].top.width
  error: two stretchers 6 in wide in "box", which is 11.300 in deep inside
  expected: at least 0.394 in between them
  try: make them narrower, or write "fit": "between" for a top panel`,
    ],
    [
      "stretchers that are hardly held",
      withCase('"top": { "fit": "stretchers", "width": 1 }'),
      `job.json:11:46  cases[0].top.width
  error: stretchers 1 in wide in "box"
  expected: at least 1.287 in, so that enough of the front one is held where its grooves stop short
  try: make them wider`,
    ],
    [
      "no room above stretchers",
      withCase('"top": { "fit": "stretchers" }, "bottom": { "up": 29 }'),
      `job.json:9:17  cases[0].height
  error: "box" is 30 in high, and bottom and stretchers with what is below and above them take 30 7/16 in
  expected: at least 30.831 in
  try: make it higher, or the bottom lower`,
    ],
    [
      "filler strips so thin that the grooves under them break out",
      jobWith(
        ['"back": "quarter-ply" }', '"back": "quarter-ply", "filler": "veneer" }, "top": { "fillers": 2 }'],
        [
          '"quarter-ply": {',
          '"veneer": { "name": "Veneer", "nominal": "2 mm", "sheet": { "length": 40, "width": 20 }, "trim": 0, "measured": "2 mm" }, "quarter-ply": {',
        ],
      ),
      `job.json:11:111  cases[0].top.fillers
  error: the top panel of "box" is set down 0.079 in, and its grooves break out of the sides' upper ends
  expected: more than 0.079 in of wood above the grooves
  try: choose a thicker stock for "filler"`,
    ],
    [
      "filler strips too narrow",
      withCase('"top": { "fillers": "1/2" }'),
      `job.json:11:27  cases[0].top.fillers
  error: filler strips 1/2 in wide in "box"
  expected: at least 0.787 in, to take a screw without splitting
  try: make them wider`,
    ],
    [
      "filler strips that meet",
      withCase(
        '"top": { "fillers": 6 }, "bays": { "columns": [{ "size": 4 }, { "rows": [{}, { "columns": [{}, {}] }] }] }',
      ),
      `job.json:11:27  cases[0].top.fillers
  error: filler strips 6 in wide along front and back of "box", which is 12 in deep there
  expected: at least 0.394 in between them
  try: make them narrower
job.json:11:27  cases[0].top.fillers
  error: filler strips 6 in wide in "box", two of which lap by 4 41/64 in
  expected: at least 0.394 in between strips over neighbouring dividers and sides
  try: make them narrower, or the bays wider`,
    ],
    [
      "a back too thin to house anything",
      withCase('"back": { "houses": true }, "bays": { "rows": [{}, {}] }'),
      `job.json:11:27  cases[0].back.houses
  error: the back of "box" is 1/4 in thick, too thin to house shelves and dividers
  expected: a back of 0.472 in or more
  try: choose a thicker stock for it, write "houses": false, or give "depth" under "joinery" yourself`,
    ],
    [
      "a thin back that houses deeper than it may",
      withCase('"joinery": { "depth": "3/16" }, "back": { "houses": true }, "bays": { "rows": [{}, {}] }'),
      `job.json:11:29  cases[0].joinery.depth
  error: joints 3/16 in deep in back of "box", nominally 1/4 in thick
  expected: at most half the nominal thickness, 1/8 in
  try: make the joints less deep, or choose a thicker stock`,
    ],
    [
      "a lipping that leaves no panel",
      withCase('"lippings": [{ "name": "strip", "kind": "strip", "thickness": 11, "parts": ["shelf", "side"] }]'),
      `job.json:11:69  cases[0].lippings[0].thickness
  error: a lipping of 11 in on the shelf of "box", 11.300 in from front to back
  expected: at least 0.787 in of panel behind it
  try: take a thinner lipping, or leave this part out of it`,
    ],
    [
      "pins of a shop of another trade",
      withCase(
        '"pins": { "diameter": "1/2", "depth": "5/8", "pitch": "1/2", "fromFront": "1/4", "fromBack": "1/4", "margin": "1/2", "clearance": "1/4" }, "bays": { "loose": 2 }',
      ),
      `job.json:11:45  cases[0].pins.depth
  error: pin holes 5/8 in deep in the side of "box", measured 23/32 in thick
  expected: at most two thirds of its thickness, 0.479 in
  try: give a smaller "depth" in "pins", or choose a thicker stock
job.json:11:61  cases[0].pins.pitch
  error: pin holes 1/2 in wide in "box", 1/2 in from middle to middle
  expected: at least 0.079 in of wood between two holes
  try: give a larger pitch, or thinner pins
job.json:11:81  cases[0].pins.fromFront
  error: a front row of pins 1/4 in from the front edge in "box"
  expected: at least 0.329 in, so that 0.079 in of wood is left before it
  try: move it back
job.json:11:100  cases[0].pins.fromBack
  error: a rear row of pins 1/4 in from the back in "box", where the loose shelves end 1/4 in before it
  expected: at least 1/2 in, so that the shelf lies on the whole pin, with wood behind the hole
  try: move it forward
job.json:11:117  cases[0].pins.margin
  error: pin holes up to 1/2 in from the ceiling of a bay in "box", whose loose shelves are 23/32 in thick
  expected: at least 1.362 in
  try: give a larger margin
job.json:11:137  cases[0].pins.clearance
  error: loose shelves 1/4 in short at each end in "box"
  expected: at most 0.197 in, or they slip off their pins
  try: make them longer: give a smaller clearance`,
    ],
    [
      "loose shelves that rounding leaves no room, and a rear row at the very edge",
      withCase('"pins": { "clearance": "0.5 mm", "fromBack": "5 mm" }, "bays": { "loose": 1 }'),
      `job.json:11:30  cases[0].pins.clearance
  error: loose shelves that stay 0.020 in clear in "box", where rounding may take up to 1/32 in
  expected: at least half a rounding step, 1/32 in
  try: give a larger clearance, or make "step" finer
job.json:11:52  cases[0].pins.fromBack
  error: a rear row of pins 0.197 in from the back in "box", where the loose shelves end 0.020 in before it
  expected: at least 0.266 in, so that the shelf lies on the whole pin, with wood behind the hole
  try: move it forward`,
    ],
    [
      "rows of pins too near each other",
      withCase('"pins": { "fromFront": 5, "fromBack": 5 }, "bays": { "loose": 1 }'),
      `job.json:11:30  cases[0].pins.fromFront
  error: two rows of pins in "box", 11.300 in deep inside: 5 in from the front and 5 in from the back
  expected: at least 1.969 in between them, or the shelf tips
  try: move the rows outwards, or make the case deeper`,
    ],
    [
      "a bay too low for its loose shelves",
      withCase('"bays": { "rows": [{ "size": 8, "name": "low", "loose": 1 }, { "loose": 15 }] }'),
      `job.json:11:79  cases[0].bays.rows[1].loose
  error: 15 loose shelves in a bay of "box", 19 27/32 in high inside
  expected: at least 25 1/2 in: a margin of 4 in at floor and ceiling, and room on each shelf with holes 1 1/4 in apart
  try: make the bay higher, or take fewer shelves`,
    ],
    [
      "a choice too deep, one too shallow",
      withCase(
        '"joints": [{ "entering": "bottom", "receiving": "side", "kind": "housed", "depth": "1/2" }, { "entering": "top", "receiving": "side", "kind": "tongue", "leave": "5/8" }]',
      ),
      `job.json:11:90  cases[0].joints[0].depth
  error: joints 1/2 in deep in side of "box", nominally 3/4 in thick
  expected: at most half the nominal thickness, 3/8 in
  try: make the joints less deep, or choose a thicker stock
job.json:11:168  cases[0].joints[1].leave
  error: joints 3/32 in deep in side of "box", where rounding may take up to 1/8 in
  expected: at least 2 rounding steps, 1/8 in
  try: make the joints deeper, or "step" finer`,
    ],
    [
      "tongues too thick and too thin",
      withCase(
        '"joints": [{ "entering": "bottom", "receiving": "side", "kind": "tongue", "tongue": "11/16" }, { "entering": "top", "receiving": "side", "kind": "tongue", "tongue": "1/16" }]',
      ),
      `job.json:11:91  cases[0].joints[0].tongue
  error: a tongue 11/16 in thick on the bottom of "box", measured 23/32 in thick
  expected: from 0.118 in to 0.640 in: 0.079 in or more are taken off beside it
  try: give another "tongue", or another joint
job.json:11:172  cases[0].joints[1].tongue
  error: a tongue 1/16 in thick on the top panel of "box", measured 23/32 in thick
  expected: from 0.118 in to 0.640 in: 0.079 in or more are taken off beside it
  try: give another "tongue", or another joint`,
    ],
    [
      "dowels into an edge too thin",
      jobWith([
        '"back": "quarter-ply" }',
        '"back": "quarter-ply", "shelf": "birch-9mm" }, "bays": { "rows": [{}, {}] }, "joints": [{ "entering": "shelf", "receiving": "side", "kind": "butt", "fixing": "dowels" }]',
      ]),
      `job.json:11:204  cases[0].joints[0].fixing
  error: dowels into the edge of the shelf of "box", nominally 0.354 in thick
  expected: a part of 0.472 in or more, which does not split
  try: choose a thicker stock, or house it`,
    ],
    [
      "sections of a back in a divider too thin for two grooves",
      jobWith([
        '"back": "quarter-ply" }',
        '"back": "quarter-ply", "divider": "birch-9mm" }, "back": { "sections": true }, "bays": { "columns": [{}, {}] }',
      ]),
      `job.json:6:5  cases[0].joinery.slip
  error: the back of "box" is held by 0.087 in, its grooves' depth of 0.118 in less the slip of 1/32 in, and rounding may take up to 1/8 in
  expected: at least 2 rounding steps, 1/8 in
  try: make the slip smaller, the grooves for the back deeper, or "step" finer`,
    ],
    [
      "a housing deeper than the shared side's own stock takes",
      jobWith(
        ['"all": "three-quarter-ply"', '"all": "half-ply"'],
        [
          "  ]\n}",
          '    , { "name": "next", "width": 20, "height": 30, "depth": 12, "stock": { "all": "three-quarter-ply", "back": "quarter-ply" }, "shares": { "left": "box" }, "joinery": { "depth": "3/8" } }\n  ]\n}',
        ],
      ),
      `job.json:13:180  cases[1].joinery.depth
  error: joints 3/8 in deep in side of "next", nominally 1/2 in thick
  expected: at most half the nominal thickness, 1/4 in
  try: make the joints less deep, or choose a thicker stock`,
    ],
    [
      "a shared side that stands elsewhere",
      beside('"shares": { "left": "box" }, "at": [36, 1, 0]'),
      `job.json:13:164  cases[1].at
  error: "next" shares the right side of "box", and stands at 36 in, 1 in, 0 in
  expected: a case that begins at that side's outer face, with the same front and the same floor: 36 in, 0 in, 0 in
  try: leave "at" out, and it stands there`,
    ],
    [
      "a shared side that is too low and not deep enough",
      beside('"shares": { "left": "box" }', ' "at": [0, 0, 0], "top": { "fit": "over" },'),
      `job.json:13:48  cases[1].height
  error: "next" reaches 30 in up, and the right side of "box" ends 29 9/32 in up
  expected: at most 29 9/32 in
  try: make "next" lower, or "box" higher`,
    ],
    [
      "shelves housed in backs that meet on a shared side",
      beside(
        '"shares": { "left": "box" }, "back": { "fit": "applied", "houses": true }',
        ' "back": { "fit": "applied" },',
      ),
      `job.json:13:196  cases[1].back.houses
  error: shelves and dividers of "next" housed in an applied back, beside the applied back of "box" on the side that both share
  expected: a back in grooves or in a rabbet where a side is shared, or shelves that end at the back
  try: leave "houses" out, or choose another "fit" for the backs`,
    ],
    [
      "a shared side that begins too high",
      beside('"shares": { "left": "box" }', ' "bottom": { "fit": "under" }, "back": { "fit": "applied" },'),
      `job.json:13:7  cases[1].bottom
  error: the bottom of "next" lies lower than the right side of "box" begins, 23/32 in up
  expected: a bottom at least 23/32 in up, so that its end meets the side
  try: raise the bottom, or let the bottom of "box" lie between its sides
job.json:13:61  cases[1].depth
  error: "next" is 12 in deep to its parts' rear edges, and the right side of "box" 11.800 in
  expected: at most 11.800 in
  try: make "next" less deep, or "box" deeper`,
    ],
    [
      "a kick unlike that of the shared side",
      beside('"shares": { "left": "box" }, "bottom": { "up": 4 }, "kick": {}', ' "bottom": { "up": 3 }, "kick": {},'),
      `job.json:13:189  cases[1].kick
  error: a kick of "next" unlike that of "box", whose side they share
  expected: the same fit, set-back and height, and stock as thick
  try: give both the same kick, or this one none`,
    ],
    [
      "a bottom in the toe notch of a shared side",
      beside('"shares": { "left": "box" }', ' "bottom": { "up": 3 }, "kick": {},'),
      `job.json:13:7  cases[1].bottom
  error: the bottom of "next" is 0 in up, where the right side of "box" has its toe notch, 3 in high
  expected: a bottom at least 3 in up
  try: raise the bottom, or give it the same kick`,
    ],
    [
      "a plinth in the place of a case, and of its name",
      beside('"at": [0, 0, 33], "plinth": { "height": 4 }'),
      `job.json:13:135  cases[1].at
  error: "next" stands in the same place as "box"
  expected: cases beside, behind or on top of each other
  try: change its "at", or leave it out to stand it beside the case before`,
    ],
  ])("%s", (_, text, expected) => {
    const problems = problemsIn(text);
    expect(printed(problems)).toBe(expected);
    expect([...new Set(problems.map(({ kind }) => kind))]).toEqual(["design"]);
  });
});

describe("just enough", () => {
  test.each([
    [
      "2 in of the sides behind an applied kick",
      '"bottom": { "up": 3 }, "kick": { "fit": "applied", "setBack": "9 1/4" }',
    ],
    [
      "a toe space one step deeper than the sides' lipping",
      '"bottom": { "up": 3 }, "kick": { "setBack": "5/16" }, "lippings": [{ "name": "strip", "kind": "strip", "thickness": "1/4", "parts": ["side"] }]',
    ],
    ["a plinth of 20 mm", '"plinth": { "height": "20 mm", "setBack": 0 }'],
    ["a case that stands on its plinth by its own word", '"at": [0, 0, 3], "plinth": { "height": 3 }'],
    ["stretchers with 10 mm between them", '"top": { "fit": "stretchers", "width": "5 7/16" }'],
    ["stretchers of which 20 mm are held", '"top": { "fit": "stretchers", "width": "32.7 mm" }'],
    [
      "narrow stretchers behind a lipping",
      '"top": { "fit": "stretchers", "width": "26.35 mm" }, "lippings": [{ "name": "strip", "kind": "strip", "thickness": "1/4", "parts": ["side"] }]',
    ],
    ["filler strips with 10 mm between them", '"top": { "fillers": "5 3/4" }'],
    [
      "a filler strip in the middle of a bay's divider only where it reaches the top panel",
      '"top": { "fillers": 5 }, "bays": { "rows": [{ "columns": [{ "size": 4 }, {}] }, {}] }',
    ],
    [
      "lippings with 20 mm of panel",
      '"lippings": [{ "name": "a", "kind": "strip", "thickness": "267.02 mm", "parts": ["shelf"] }]',
    ],
    [
      "a wide lipping on stretchers that are not there",
      '"lippings": [{ "name": "a", "kind": "strip", "thickness": 4, "parts": ["stretcher"] }]',
    ],
    ["pin holes of two thirds", '"pins": { "depth": "12.17 mm" }, "bays": { "loose": 1 }'],
    ["rows of pins 50 mm apart", '"pins": { "fromFront": "4 5/8", "fromBack": "4 5/8" }, "bays": { "loose": 1 }'],
    ["a bay as high as its loose shelves ask", '"bays": { "rows": [{ "size": "25 1/2", "loose": 15 }, {}] }'],
    [
      "tongues from 3 mm to 2 mm less than the thickness",
      '"joints": [{ "entering": "bottom", "receiving": "side", "kind": "tongue", "tongue": "3 mm" }, { "entering": "top", "receiving": "side", "kind": "tongue", "tongue": "5/8" }]',
    ],
    ["a back that houses nothing, however thin", '"back": { "houses": true }'],
    [
      "a thin back, if the job says how deep",
      '"joinery": { "depth": "1/8" }, "back": { "houses": true }, "bays": { "rows": [{}, {}] }',
    ],
  ])("%s", (_, extra) => {
    expect(printed(problemsIn(withCase(extra)))).toBe("");
  });

  test("a case lower and less deep than the side that it shares", () => {
    expect(printed(problemsIn(beside('"shares": { "left": "box" }, "top": { "fit": "over" }')))).toBe("");
    const smaller = beside('"shares": { "left": "box" }').replace(
      '"width": 20, "height": 30, "depth": 12',
      '"width": 20, "height": 24, "depth": 10',
    );
    expect(printed(problemsIn(smaller))).toBe("");
  });

  test("a housing of its own depth where the usual one would be too deep, and a butt where none is", () => {
    const thin = '"joinery": { "depth": "3/8" }, "bays": { "columns": [{ "rows": [{}, {}] }, {}] }';
    const text = withCase(thin).replace('"back": "quarter-ply" }', '"back": "quarter-ply", "divider": "half-ply" }');
    expect(problemsIn(text)).toHaveLength(1);
    const joint = '"joints": [{ "entering": "shelf", "receiving": "divider", "kind": "housed", "depth": "1/4" }],';
    expect(printed(problemsIn(text.replace('"bays"', `${joint} "bays"`)))).toBe("");
    const butt = '"joints": [{ "entering": "shelf-1.1", "receiving": "divider-1", "kind": "butt" }],';
    expect(printed(problemsIn(text.replace('"bays"', `${butt} "bays"`)))).toBe("");
  });

  test("pin holes that the file leaves out are less deep in thinner sides", () => {
    const text = withCase('"bays": { "loose": 1 }').replace(
      '"back": "quarter-ply" }',
      '"back": "quarter-ply", "side": "half-ply" }',
    );
    expect(readText(text).project.cases[0]?.pins.depth).toBeCloseTo(6.35, 9);
  });
});
