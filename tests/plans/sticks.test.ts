/** Sticks as planned: worked example A by hand, every groove on a stick, tiles that can be joined. */

import { describe, expect, it } from "vitest";
import { type Box, boxToOuter } from "../../src/base/geometry.ts";
import { planSticks } from "../../src/plans/sticks/index.ts";
import { cutStick, layTiles } from "../../src/plans/sticks/tiles.ts";
import type { DryfitSet, SetPart, SetStick } from "../../src/set/schema.ts";
import { exampleSets, setOf, testFile } from "../support/jobs/examples.ts";
import { madeProjects } from "../support/jobs/made-projects.ts";
import { messageOf } from "../support/message.ts";
import { SEED } from "../support/runs.ts";

const inches = (mm: number): number => Math.round((mm / 25.4) * 1e6) / 1e6;

const told = (stick: SetStick) => ({
  length: inches(stick.length),
  parts: stick.parts.map(({ mark, datum, offset }) => `${mark} ${datum} ${inches(offset)}`),
  marks: stick.marks.map(
    ({ kind, at, width, holds, parts }) =>
      `${kind} ${inches(at)} ${inches(width)} ${holds.join(",")}>${parts.join(",")}`,
  ),
});

describe("worked example A", () => {
  const { sticks, parts } = setOf(testFile("example-a-in"));
  const mark = (name: string): string => parts.find((part) => part.name === name)!.mark;
  const [left, right, bottom, top, shelf, divider, back] = [
    "left side",
    "right side",
    "bottom",
    "top panel",
    "shelf",
    "divider",
    "back",
  ].map(mark);

  it("has one stick a direction", () => {
    expect(sticks.map(({ axis }) => axis)).toEqual(["z", "x", "y"]);
  });

  it("shows the sides' grooves and the divider's on one height stick, the divider's end at 2 3/8", () => {
    const { length, parts: on, marks } = told(sticks[0]!);
    expect(length).toBe(30);
    expect(on).toEqual([`${left} l0 0`, `${right} l0 0`, `${divider} l0 2.375`]);
    expect(marks).toEqual([
      `end 0 0 >${left},${right}`,
      `groove 2 0.75 ${bottom}>${left},${right}`,
      `end 2.375 0 >${divider}`,
      `groove 15.25 0.75 ${shelf}>${left},${divider}`, // from the divider's own end: 12 7/8
      `groove 28.5 0.75 ${top}>${left},${right}`,
      `end 28.875 0 >${divider}`,
      `end 30 0 >${left},${right}`,
    ]);
  });

  it("shows the divider's groove 17 1/4 from either end of bottom and top panel", () => {
    expect(told(sticks[1]!).marks).toEqual([
      `end 0 0 >${bottom},${top}`,
      `groove 17.25 0.75 ${divider}>${bottom},${top}`,
      `end 35.25 0 >${bottom},${top}`,
    ]);
  });

  it("shows the back's groove 3/4 in from the back edges, on four parts", () => {
    const four = [left, right, bottom, top].join(",");
    expect(told(sticks[2]!).marks).toEqual([`end 0 0 >${four}`, `groove 11 0.25 ${back}>${four}`, `end 12 0 >${four}`]);
  });
});

/** Where a groove's walls lie on a stick, from the part's own numbers; a lipping that is still to come is no part of it yet. */
function wallsOn(stick: SetStick, part: SetPart, across: "l" | "w", at: number, width: number): [number, number] {
  const on = stick.parts.find(({ mark }) => mark === part.mark)!;
  expect(on.datum[0]).toBe(across);
  const size = across === "l" ? part.length : part.width;
  const later = part.lippings.find(({ edge, lipped }) => edge === on.datum && lipped === "after")?.thickness ?? 0;
  const near = (on.datum[1] === "0" ? at : size - at - width) - later;
  return [on.offset + near, on.offset + near + width];
}

/** Across its run such a groove is measured through the part's thickness. */
const isInEdge = ({ face, along }: SetPart["features"][number]): boolean => !face.startsWith("t") && along !== "t";

function missingGrooves(set: DryfitSet): string[] {
  return set.parts.flatMap((part) =>
    part.place === null
      ? []
      : part.features.flatMap((feature) => {
          if (feature.kind !== "groove" && feature.kind !== "rabbet") return [];
          if (isInEdge(feature)) return []; // a gauge sets it, from the face
          const across = feature.along === "l" ? "w" : "l";
          const axis = part.place![across].slice(1) as "x" | "y" | "z";
          const found = set.sticks
            .filter((stick) => stick.axis === axis && stick.parts.some(({ mark }) => mark === part.mark))
            .some((stick) => {
              const [near, far] = wallsOn(stick, part, across, feature.at, feature.width);
              return stick.marks.some(
                (mark) =>
                  mark.kind === "groove" &&
                  Math.abs(mark.at - near) < 1e-6 &&
                  Math.abs(mark.at + mark.width - far) < 1e-6 &&
                  mark.parts.includes(part.mark) &&
                  (feature.holds === null || mark.holds.includes(feature.holds)),
              );
            });
          return found ? [] : [`${part.mark}: ${feature.kind} at ${feature.at}`];
        }),
  );
}

/** Holes in a row along the stick that its part is on and that are not marked there, by where they lie in the case. */
function missingHoles(set: DryfitSet): string[] {
  return set.sticks.flatMap((stick) => {
    const axis = { x: 0, y: 1, z: 2 }[stick.axis] as 0 | 1 | 2;
    return stick.parts.flatMap((on) => {
      const part = set.parts.find(({ mark }) => mark === on.mark)!;
      const middleOf = (box: Box): number => {
        const [lo, hi] = boxToOuter(part.place!, box);
        return (lo[axis] + hi[axis]) / 2;
      };
      const later = (end: "0" | "1"): number =>
        part.lippings.find(({ edge, lipped }) => edge === `${on.datum[0]}${end}` && lipped === "after")?.thickness ?? 0;
      const panel: Box =
        on.datum[0] === "l"
          ? [
              [later("0"), 0, 0],
              [part.length - later("1"), 0, 0],
            ]
          : [
              [0, later("0"), 0],
              [0, part.width - later("1"), 0],
            ];
      const zero = middleOf(panel) - on.length / 2 - on.offset;
      return part.features
        .filter(
          ({ kind, along, holds }) => kind === "hole" && along === on.datum[0] && (holds === null || along !== "t"),
        )
        .filter(({ box }) => {
          const at = middleOf(box) - zero;
          return !stick.marks.some(
            (mark) => mark.kind === "line" && mark.parts.includes(part.mark) && Math.abs(mark.at - at) < tolerance,
          );
        })
        .map(({ row, box }) => `${stick.name}: ${part.mark}, ${row} at ${middleOf(box) - zero}`);
    });
  });
}

const tolerance = 1e-6;

/** What would spoil a join: an end of a tile, or the middle of an overlap, in a groove or by its wall. */
function badSeams(stick: SetStick): string[] {
  const seams = stick.tiles.slice(1).flatMap((tile, i) => {
    const before = stick.tiles[i]!;
    return [tile.from, (tile.from + before.to) / 2, before.to];
  });
  return seams.flatMap((seam) =>
    stick.marks
      .filter(({ at, width }) => seam > at - 3 + tolerance && seam < at + width + 3 - tolerance)
      .map(({ at }) => `${stick.name}: seam at ${seam}, mark at ${at}`),
  );
}

function badTiling(set: DryfitSet): string[] {
  const { width, height } = set.paper.sticks;
  return set.sticks.flatMap((stick) => {
    const bad = badSeams(stick);
    stick.tiles.forEach((tile, i) => {
      const next = stick.tiles[i + 1];
      if (next && tile.to - next.from < 10) bad.push(`${stick.name}: tiles ${i + 1} and ${i + 2} hardly overlap`);
      const [from, room] = tile.direction === "right" ? [tile.x, width] : [tile.y, height];
      if (from < 6.35 || from + tile.to - tile.from > room - 6.35)
        bad.push(`${stick.name}: tile ${i + 1} off the page`);
    });
    if (stick.tiles[0]!.from !== 0 || Math.abs(stick.tiles.at(-1)!.to - stick.length) > tolerance) {
      bad.push(`${stick.name}: tiles do not reach its ends`);
    }
    return bad;
  });
}

/** Bands of one stick that run into each other though they are not the same band, and lie in no one face together. */
function crossedBands(set: DryfitSet): string[] {
  return set.sticks.flatMap((stick) => {
    const bands = stick.marks.filter(({ kind }) => kind === "groove");
    return bands.flatMap((a, i) =>
      bands
        .slice(i + 1)
        .filter((b) => b.at < a.at + a.width && a.at < b.at + b.width)
        .filter((b) => !a.parts.some((mark) => b.parts.includes(mark)))
        .map((b) => `${stick.name}: ${a.at} and ${b.at}`),
    );
  });
}

describe.each(exampleSets())("%s", (_, set) => {
  it("has every groove and rabbet of every part on a stick, with what enters", () => {
    expect(missingGrooves(set)).toEqual([]);
  });

  it("can be tiled and joined, no seam in or within 3 mm of a groove", () => {
    expect(badTiling(set)).toEqual([]);
  });

  it("has no two grooves of different parts across each other on one strip", () => {
    expect(crossedBands(set)).toEqual([]);
  });
});

it("marks cases built alike from one stick", () => {
  const [, set] = exampleSets().find(([name]) => name === "wedging-pair")!;
  const sides = set.parts.filter(({ role, same }) => role === "side" && same.length > 0).map(({ mark }) => mark);
  expect(sides.length).toBeGreaterThan(2);
  const heights = set.sticks.filter(
    ({ name, parts }) => name.endsWith("height") && parts.some(({ mark }) => sides.includes(mark)),
  );
  expect(heights).toHaveLength(1);
  expect(sides.every((mark) => heights[0]!.parts.some((part) => part.mark === mark))).toBe(true);
});

it("puts every groove of random cases on a stick that can be joined", () => {
  const made = madeProjects(30, SEED);
  let holes = 0;
  expect(made.length).toBeGreaterThanOrEqual(25);
  for (const { set, file } of made) {
    const marked = { ...set, sticks: planSticks(set) };
    const found = [...missingGrooves(marked), ...missingHoles(marked), ...badTiling(marked), ...crossedBands(marked)];
    expect(found, file.text).toEqual([]);
    holes += marked.sticks.flatMap(({ marks }) => marks.filter(({ kind }) => kind === "line")).length;
  }
  expect(holes).toBeGreaterThan(100);
}, 60_000);

describe("rows of holes", () => {
  const lines = (name: string, axis: string): string[] =>
    setOf(testFile(name))
      .sticks.filter((stick) => stick.axis === axis)
      .flatMap(({ marks }) => marks.filter(({ kind }) => kind === "line"))
      .map(({ at, width, holds, parts }) => `${at} ${width} ${holds.join(",")}>${parts.join(",")}`);

  // Floor of the bay 235.2, margin 100, 11 holes 32 apart: reckoned in the test of pin rows.
  it("of loose shelves stand on the sides' height stick, front and rear row as one", () => {
    expect(lines("loose-shelves", "z")).toEqual(
      Array.from({ length: 11 }, (_, i) => `${Math.round((335.2 + 32 * i) * 10) / 10} 0 >1,2`),
    );
  });

  it("on both faces of a divider without a groove stand on the stick of the sides opposite", () => {
    const stick = setOf(testFile("loose-shelves-each-side")).sticks.find(({ axis }) => axis === "z")!;
    expect(stick.parts.map(({ mark, offset }) => [mark, offset])).toEqual([
      ["1", 0],
      ["2", 0],
      ["5", 8.6], // the bottom is 17.6 thick, and the divider 9 in it
    ]);
    const holes = stick.marks.filter(({ kind }) => kind === "line");
    expect(holes).toHaveLength(18); // 117.6 to 682.4: a run of 564.8, 17 pitches of 32
    for (const { parts } of holes) expect(parts).toEqual(["1", "2", "5"]);
    expect(missingHoles(setOf(testFile("loose-shelves-each-side")))).toEqual([]);
  });

  it("of dowels stand on the depth stick of what they join, and say what is dowelled", () => {
    // 50 in from the ends of the contact, which reaches from the front to the back at 282.3; one between.
    expect(lines("butt-dowels", "y")).toEqual(
      expect.arrayContaining(["50 0 3,4,5>3,4,5", "141.1 0 3,4,5>3,4,5", "232.2 0 3,4,5>3,4,5"]),
    );
  });
});

describe("tiles", () => {
  const groove = (at: number, width: number): SetStick["marks"][number] => ({
    kind: "groove",
    at,
    width,
    holds: [],
    parts: ["1"],
  });

  it("joins in the middle of what lies open, on a whole 10 mm", () => {
    expect(cutStick({ name: "s", length: 400, marks: [groove(300, 18)] }, 250, 10)).toEqual([
      { from: 0, to: 208 },
      { from: 192, to: 400 },
    ]);
  });

  it("moves a join that would fall into a groove", () => {
    const [first] = cutStick({ name: "s", length: 400, marks: [groove(195, 18)] }, 250, 10);
    expect(first!.to).toBeLessThanOrEqual(195 - 3);
  });

  it("moves a join off a hole, and among holes that stand too close for that still joins", () => {
    const hole = (at: number): SetStick["marks"][number] => ({ kind: "line", at, width: 0, holds: [], parts: ["1"] });
    const marks = Array.from({ length: 12 }, (_, i) => hole(24 + 32 * i));
    const [first] = cutStick({ name: "s", length: 400, marks }, 250, 10);
    const seams = [first!.to - 16, first!.to - 8, first!.to];
    for (const seam of seams) for (const { at } of marks) expect(Math.abs(at - seam)).toBeGreaterThanOrEqual(3);
    const close = Array.from({ length: 57 }, (_, i) => hole(7 * i));
    expect(cutStick({ name: "s", length: 400, marks: close }, 250, 10)).toHaveLength(2);
  });

  it("says so where grooves leave no place to join", () => {
    const marks = Array.from({ length: 100 }, (_, i) => groove(i * 5, 1));
    expect(messageOf(() => cutStick({ name: "case height", length: 500, marks }, 200, 10))).toBe(
      [
        '  error: the grooves on the stick "case height" leave no place to join two pages between 0 and 200 mm',
        "  expected: somewhere 2 x 3 mm without a groove wall",
        "  try: choose a longer paper for the sticks",
      ].join("\n"),
    );
  });

  it("refuses paper that cannot hold a check bar both ways", () => {
    const [, set] = exampleSets()[0]!;
    const paper = { ...set.paper, sticks: { name: "card", width: 90, height: 200 } };
    expect(messageOf(() => layTiles(set.sticks, { ...set, paper }))).toBe(
      [
        "  error: paper for the sticks of 90 x 200 mm",
        "  expected: paper that holds a 4 in check bar both ways, such as A5 or larger",
        "  try: choose a larger paper for the sticks",
      ].join("\n"),
    );
  });
});

describe("what is made for a case", () => {
  const sticksOf = (name: string): SetStick[] => setOf(testFile(name)).sticks;

  it("lies on no stick across its thickness: a groove in an edge is set by a gauge", () => {
    for (const name of ["doors-inset", "doors-solid", "drawers-face-frame", "frame-on-feet"]) {
      const set = setOf(testFile(name));
      for (const on of set.sticks.flatMap(({ parts }) => parts)) {
        const part = set.parts.find(({ mark }) => mark === on.mark)!;
        const size = on.datum[0] === "l" ? part.length : part.width;
        const placed = part.place!;
        const stick = set.sticks.find(({ parts }) => parts.includes(on))!;
        expect(placed[on.datum[0] as "l" | "w"].slice(1), `${name}: ${part.name}`).toBe(stick.axis);
        expect(on.length).toBeLessThanOrEqual(size + tolerance);
      }
    }
  });

  it("shows on a door's stiles where its rails land", () => {
    const set = setOf(testFile("doors-inset"));
    const stile = set.parts.find(({ role }) => role === "doorStile")!;
    const rails = set.parts.filter(({ role, assembly }) => role === "doorRail" && assembly === stile.assembly);
    const stick = set.sticks.find(({ parts }) => parts.some(({ mark }) => mark === stile.mark))!;
    const seats = stick.marks.filter(({ kind, parts }) => kind === "seat" && parts.includes(stile.mark));
    expect(seats.map(({ width }) => width).sort()).toEqual(rails.map(({ width }) => width).sort());
    expect(seats.flatMap(({ holds }) => holds)).toEqual(expect.arrayContaining(rails.map(({ mark }) => mark)));
    expect([seats[0]!.at, seats.at(-1)!.at + seats.at(-1)!.width]).toEqual([0, stile.length]);
  });

  it("shows drawers over each other by both their edges, from the lower end of what stands beside them", () => {
    const set = setOf(testFile("drawers-face-frame"));
    const sticks = set.sticks.filter(({ name }) => name.includes("fronts"));
    const drawers = set.assemblies.filter(({ kind }) => kind === "drawer");
    const upright = set.parts.find(({ mark }) => mark === sticks[0]!.parts[0]!.mark)!;
    const home = set.assemblies.find(({ name }) => name === upright.assembly)!;
    const foot = home.place.at[2] + upright.place!.at[2];
    const wanted = drawers.flatMap(({ place, size }) => [place.at[2] - foot, place.at[2] + size[2] - foot]);
    const lines = sticks.flatMap(({ marks }) => marks.filter(({ kind }) => kind === "line").map(({ at }) => at));
    expect(sticks).toHaveLength(2); // two columns that are laid out differently
    expect(lines).toHaveLength(wanted.length);
    for (const at of wanted) expect(Math.min(...lines.map((line) => Math.abs(line - at)))).toBeLessThan(tolerance);
  });

  it("shows where a worktop's screws go through what holds it", () => {
    const set = setOf(testFile("worktop-solid"));
    const slotted = set.parts.find(
      ({ role, features }) => ["top", "stretcher"].includes(role) && features.some(({ kind }) => kind === "slot"),
    )!;
    const slots = slotted.features.filter(({ kind }) => kind === "slot");
    const on = sticksOf("worktop-solid").find(
      ({ axis, parts }) => axis === "x" && parts.some(({ mark }) => mark === slotted.mark),
    )!;
    const offset = on.parts.find(({ mark }) => mark === slotted.mark)!.offset;
    for (const { at, width } of slots) {
      expect(on.marks.some((mark) => Math.abs(mark.at - offset - at - width / 2) < tolerance)).toBe(true);
    }
  });
});
