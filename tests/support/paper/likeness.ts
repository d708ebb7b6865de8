/** A part rebuilt from paper, held against the part as it is to be: the same wood, the same holes, the same lippings. */
import { type Box, boxToOuter, type Place, type Vec } from "../../../src/base/geometry.ts";
import { formatLength, MM_PER_INCH, type Unit } from "../../../src/base/length.ts";
import { faceWords } from "../../../src/set/facing.ts";
import { fasteningsOf } from "../../../src/set/fastening.ts";
import type { DryfitSet, Face, SetPart } from "../../../src/set/schema.ts";
import { scribesOf } from "../../../src/set/scribe.ts";
import { areBoltsTold } from "./bolts.ts";
import type { ReadPart } from "./part/part.ts";
import { woodDiffers } from "./wood.ts";

/** How far two printed figures, one added to the other, may lie from the length they stand for: less than one of the last digit. */
const WITHIN = { mm: 0.0095, in: 0.00095 * MM_PER_INCH };
const ONE_FIGURE = 0.55; // of that, for a figure alone

const AXES = [0, 1, 2] as const;

/** The drawing's axes in the part's own: its first face may be either broad face. */
type Turn = { at: (v: Vec) => Vec; face: (face: Face) => Face };

function turnOf(read: ReadPart, part: SetPart): Turn | null {
  const sizes = [part.length, part.width, part.thickness];
  const name = read.names.t1;
  const own = name === undefined ? undefined : (["t0", "t1"] as const).find((face) => faceWords(part, face) === name);
  if (own === undefined) return null;
  const isOver = own === "t0";
  const flip = (face: Face): Face => `${face[0]}${face[1] === "0" ? "1" : "0"}` as Face;
  return {
    at: ([l, w, t]) => (isOver ? [l, sizes[1]! - w, sizes[2]! - t] : [l, w, t]),
    face: (face) => (isOver && face[0] !== "l" ? flip(face) : face),
  };
}

const inMm = (read: ReadPart, value: number): number => (read.unit === "in" ? value * MM_PER_INCH : value);

/** Read figures as millimetres in the part's own axes. */
export function ownBox(read: ReadPart, { at }: Turn, box: Box): Box {
  const [a, b] = box.map((corner) => at(corner.map((one) => inMm(read, one)) as unknown as Vec)) as [Vec, Vec];
  return [
    a.map((one, i) => Math.min(one, b[i]!)) as unknown as Vec,
    a.map((one, i) => Math.max(one, b[i]!)) as unknown as Vec,
  ];
}

/** What the drawing says otherwise than the part is. */
export function differences(read: ReadPart, part: SetPart, set: DryfitSet): string[] {
  const name = `part ${part.mark}`;
  const within = WITHIN[set.job.unit];
  const turn = turnOf(read, part);
  if (turn === null) return [`${name}: no face is called ${read.names.t1}`];
  const { caption } = read;
  const sizes = [
    ["length", caption.length, part.length],
    ["width", caption.width, part.width],
    ["thickness", caption.thickness, part.thickness],
  ] as const;
  const sized = sizes.flatMap(([what, said, is]) =>
    Math.abs(inMm(read, said) - is) <= ONE_FIGURE * within ? [] : [`${name}: its ${what} is read as ${said}`],
  );
  const named = Object.entries(read.names).flatMap(([face, said]) => {
    const is = faceWords(part, turn.face(face as Face));
    return is === said ? [] : [`${name}: its ${is} is called ${said}`];
  });
  const handed = caption.hand === part.hand ? [] : [`${name}: its hand is read as ${caption.hand}`];
  return [
    ...sized,
    ...named,
    ...handed,
    ...cutsDiffer(read, part, turn, within),
    ...channelsDiffer(read, part, ONE_FIGURE * within),
    ...cutOutsDiffer(read, part, turn, within),
    ...holesDiffer(read, part, turn, within),
    ...mitresDiffer(read, part, turn),
    ...dovetailsDiffer(read, part, turn, within),
    ...set.parts
      .filter(({ mark }) => caption.marks.includes(mark))
      .flatMap((one) => [
        ...seatsDiffer(read, one, set, ONE_FIGURE * within),
        ...backDiffers(read, one, set, ONE_FIGURE * within),
      ]),
    ...fixedDiffers(read, part, set, turn, within),
    ...lippingsDiffer(read, part, within),
    ...mouldedDiffers(read, part, within),
    ...scribesDiffer(read, part, set, within),
  ];
}

/** Each mitre by the edge it is along and the face its point is on, as the words name them; how far in it comes is a place across. */
function mitresDiffer(read: ReadPart, part: SetPart, turn: Turn): string[] {
  const faceCalled = (name: string): string => {
    const found = Object.entries(read.names).find(([, own]) => own === name);
    return found === undefined ? name : turn.face(found[0] as Face);
  };
  const told = read.notes.flatMap((note) =>
    note.kind === "mitre" ? [`${faceCalled(note.edge)} ${faceCalled(note.face)}`] : [],
  );
  // The outline begins at the point.
  const cut = part.features
    .filter(({ kind }) => kind === "mitre")
    .map(({ face, outline, box }) => `${face} ${Math.abs(outline[0]![1] - box[0][2]) < 1e-6 ? "t0" : "t1"}`);
  return told.sort().join() === cut.sort().join()
    ? []
    : [
        `part ${part.mark}: mitred ${told.join(", ") || "nowhere"} by the drawing, ${cut.join(", ") || "nowhere"} in the set`,
      ];
}

/** Every socket by its corners, worked out from what the note tells: between two tails, or for each; half of one at each edge of what is dovetailed there. */
function dovetailsDiffer(read: ReadPart, part: SetPart, turn: Turn, within: number): string[] {
  const mm = (value: number): number => inMm(read, value);
  const sloped = read.dovetails.flatMap(({ end, has, tips, tails, low, baseline, slope, holds }) => {
    const face = turn.face(end);
    const deep = mm(has === "tails" ? baseline : read.caption.thickness);
    const flat = tails.map(([from, to]) => [mm(from), mm(to)] as const);
    const flare = deep / slope;
    return flat.map(([from, to]) => ({
      face,
      holds,
      tips: turn.face(tips),
      baseline: mm(baseline),
      low: mm(low),
      from,
      to,
      flare,
      has,
    }));
  });
  const cut = part.features.filter(({ kind }) => kind === "socket");
  const near = (a: number, b: number): boolean => Math.abs(a - b) <= 2 * within;
  const wrong: string[] = [];
  for (const end of ["l0", "l1"] as const) {
    const told = sloped.filter(({ face }) => face === end).sort((a, b) => a.from - b.from);
    const own = cut.filter(({ face }) => face === end).sort((a, b) => a.at - b.at);
    // Corners of each socket across the part, in the plane of the tails' ends and at their roots.
    const walls = own.flatMap(({ axis, outline }) => {
      const w = axis === "t" ? 1 : 0;
      return outline.map((corner) => corner[w]!);
    });
    const count = told[0]?.has === "tails" ? told.length + 1 : told.length;
    if (own.length !== count)
      wrong.push(`part ${part.mark}: ${own.length} sockets at ${end}, and ${told.length} tails drawn`);
    for (const { from, to, flare, low, baseline, holds, has, tips } of told) {
      if (has === "tails" && !near(Math.min(...walls), low))
        wrong.push(`part ${part.mark}: its lowest pin at ${end} does not begin at ${low}`);
      for (const wall of [from, to, from + flare, to - flare])
        if (!walls.some((one) => near(one, wall)))
          wrong.push(`part ${part.mark}: no tail at ${end} has a corner at ${wall}`);
      for (const one of own) {
        if (!near(one.depth, baseline)) wrong.push(`part ${part.mark}: its sockets at ${end} are not ${baseline} deep`);
        if (one.holds !== holds) wrong.push(`part ${part.mark}: its sockets at ${end} are not for ${holds}`);
        if ((one.axis === "t") !== (has === "tails"))
          wrong.push(`part ${part.mark}: has ${has} at ${end} by the drawing`);
        // The outline begins where the tails end.
        const tip = one.axis === "t" ? one.face : `t${one.outline[0]![1] > part.thickness / 2 ? 1 : 0}`;
        if (tip !== tips)
          wrong.push(`part ${part.mark}: its tails are widest in ${tip}, and in ${tips} by the drawing`);
      }
    }
  }
  return [...new Set(wrong)];
}

/** Compared cell by cell, between all the planes of either. */
function cutsDiffer(read: ReadPart, part: SetPart, turn: Turn, within: number): string[] {
  const drawn = read.features.map(({ box }) => ownBox(read, turn, box));
  const cut = part.features
    .filter(({ kind }) => !["hole", "slot", "shape", "edge", "mitre", "socket"].includes(kind))
    .map(({ box }) => box as Box);
  if ([...drawn].some((box) => box.flat().some(Number.isNaN))) return [`part ${part.mark}: a cut without its figures`];
  return woodDiffers(drawn, cut, [part.length, part.width, part.thickness], within)
    .slice(0, 3)
    .map(
      ({ at, cutBy }) =>
        `part ${part.mark}: at ${at.map((one) => one.toFixed(2))} ${cutBy === "second" ? "wood is left" : "wood is cut away"} by the drawing`,
    );
}

/** Width and depth of each kind of groove are figures of their own, whatever it is measured from. */
const channelsDiffer = (read: ReadPart, part: SetPart, within: number): string[] =>
  read.notes.flatMap((note) => {
    if (note.kind !== "groove" && note.kind !== "rabbet" && note.kind !== "shoulder" && note.kind !== "lap") return [];
    const isSo = part.features.some(
      ({ kind, along, width, depth, holds }) =>
        kind === note.kind &&
        along === note.along &&
        (holds === null || note.marks.length === 0 || note.marks.includes(holds)) &&
        Math.abs(inMm(read, note.width.value) - width) <= within &&
        Math.abs(inMm(read, note.depth) - depth) <= within,
    );
    return isSo ? [] : [`part ${part.mark}: no ${note.kind} is ${note.width.value} wide and ${note.depth} deep`];
  });

/** Every corner of what is cut out of an edge; of an arch its ends and how high it is. */
function cutOutsDiffer(read: ReadPart, part: SetPart, turn: Turn, within: number): string[] {
  const cut = part.features.filter(({ kind }) => kind === "shape");
  if (cut.length !== read.cutOuts.length) return [`part ${part.mark}: ${read.cutOuts.length} cut-outs are told`];
  return read.cutOuts.flatMap(({ edge, arch, corners }) => {
    const own = cut.find(({ face }) => face === turn.face(edge));
    if (own === undefined) return [`part ${part.mark}: nothing is cut out of ${edge}`];
    const [lo, hi] = own.box;
    const crown: Point = [Number.NaN, own.face === "w0" ? hi[1] : lo[1]];
    const wanted: Point[] = arch
      ? [...own.outline.map(([l, w]): Point => [l!, w!]), crown]
      : own.outline.map(([l, w]) => [l!, w!]);
    const told = corners.map(({ l, w }) => turn.at([inMm(read, l), inMm(read, w), 0]));
    const near = (a: number, b: number): boolean => Math.abs(a - b) <= within || (Number.isNaN(a) && Number.isNaN(b));
    const isTold = ([l, w]: Point): boolean => told.some((one) => near(one[0], l) && near(one[1], w));
    return told.length === wanted.length && wanted.every(isTold)
      ? []
      : [`part ${part.mark}: cut out of ${edge} by corners at ${told}, and not ${wanted}`];
  });
}

type Point = readonly [l: number, w: number];

function holesDiffer(read: ReadPart, part: SetPart, turn: Turn, within: number): string[] {
  const near = (a: number, b: number): boolean => Math.abs(a - b) <= 2 * within;
  const told = read.holes.map(({ face, at, diameter, depth }) => ({
    face: turn.face(face),
    at: turn.at(at.map((one) => inMm(read, one)) as unknown as Vec),
    diameter: inMm(read, diameter),
    depth: inMm(read, depth),
  }));
  const drilled = part.features
    .filter(({ kind }) => kind === "hole")
    .map(({ face, box: [lo, hi], depth }) => {
      const i = { l: 0, w: 1, t: 2 }[face[0] as "l"];
      const across = AXES.find((axis) => axis !== i)!;
      return { face, at: AXES.map((axis) => (lo[axis] + hi[axis]) / 2), diameter: hi[across] - lo[across], depth };
    });
  const isAlike = (a: (typeof told)[number], b: (typeof drilled)[number]): boolean =>
    a.face === b.face &&
    Math.abs(a.diameter - b.diameter) <= ONE_FIGURE * within &&
    Math.abs(a.depth - b.depth) <= ONE_FIGURE * within &&
    a.at.every((one, i) => near(one, b.at[i]!));
  return [
    ...drilled
      .filter((one) => !told.some((other) => isAlike(other, one)))
      .map(({ face, at }) => `part ${part.mark}: the hole in ${face} at ${at.map((v) => v.toFixed(2))} is not told`),
    ...told
      .filter((one) => !drilled.some((other) => isAlike(one, other)))
      .map(({ face, at }) => `part ${part.mark}: no hole is in ${face} at ${at.map((v) => v.toFixed(2))}`),
  ].slice(0, 3);
}

function lippingsDiffer(read: ReadPart, part: SetPart, within: number): string[] {
  const told = read.notes.filter((note) => note.kind === "lipping");
  if (told.length !== part.lippings.length)
    return [`part ${part.mark}: ${told.length} lippings are told, ${part.lippings.length} put on`];
  return part.lippings.flatMap(({ edge, thickness, from, to, lipped }) => {
    const size = edge[0] === "w" ? part.length : part.width;
    const found = told.some((note) => {
      const { from: start = null, to: end = null } = note.run ?? {};
      const [a, b] = [start === null ? 0 : inMm(read, start), end === null ? size : inMm(read, end)];
      return (
        note.edge === faceWords(part, edge) &&
        note.when === lipped &&
        Math.abs(inMm(read, note.thickness) - thickness) <= within &&
        Math.abs(a - from) <= within &&
        Math.abs(b - to) <= within
      );
    });
    return found ? [] : [`part ${part.mark}: the lipping on ${edge} is told otherwise`];
  });
}

/** What is left on to be scribed, for each part of the drawing by its mark. */
function scribesDiffer(read: ReadPart, part: SetPart, set: DryfitSet, within: number): string[] {
  const told = read.notes.filter((note) => note.kind === "scribe");
  const own = set.parts.filter(({ mark }) => read.caption.marks.includes(mark));
  const left = own.flatMap((one) => scribesOf(set, one).map((scribe) => ({ one, ...scribe })));
  const isTold =
    told.length === left.length &&
    left.every(({ one, edge, allowance }) =>
      told.some(
        (note) =>
          note.mark === one.mark &&
          note.edge === faceWords(one, edge) &&
          Math.abs(inMm(read, note.more) - allowance) <= within,
      ),
    );
  return isTold ? [] : [`part ${part.mark}: what is scribed is told otherwise`];
}

/** Profile, radius and edges of what a bit takes off. */
function mouldedDiffers(read: ReadPart, part: SetPart, within: number): string[] {
  const edges = part.features.filter(({ kind }) => kind === "edge");
  const told = read.notes.filter((note) => note.kind === "moulded");
  if (told.length !== (edges.length === 0 ? 0 : 1))
    return [`part ${part.mark}: its moulded edges are told ${told.length} times`];
  const [note] = told;
  if (note === undefined) return [];
  const isTold =
    edges
      .map(({ face }) => faceWords(part, face))
      .sort()
      .join() === [...note.edges].sort().join() &&
    note.face === faceWords(part, "t1") &&
    edges.every(({ reason, depth }) => {
      const radius = inMm(read, note.radius) * (reason === "ogee" ? 2 : 1);
      return reason === note.shape && Math.abs(radius - depth) <= 2 * within;
    });
  return isTold ? [] : [`part ${part.mark}: its moulded edges are told otherwise`];
}

const HAIR = 1e-6;
const PLACE = { mm: 0.01, in: MM_PER_INCH / 1000 };

/** What the terms of a sum, each rounded by itself, lack of the total, -1, 0 or 1 by its sign: one of its joints takes that. */
function restOf({ between, joints, total }: SetPart["sums"][number], unit: Unit): number {
  const printed = (term: number): number =>
    formatLength(term, unit).includes(".") ? Math.round(term / PLACE[unit]) * PLACE[unit] : term;
  const rest = printed(total) - [between, ...joints].reduce((sum, term) => sum + printed(term), 0);
  return Math.abs(rest) < PLACE[unit] / 2 + HAIR ? 0 : Math.sign(rest); // beside a fraction a half of the last place may be left
}

/** The gaps that may be told: as it is, or a last place to the side that closes the cut list's sum. */
function gapsOf(part: SetPart, { enteringEnd, gap: [, gap] }: DryfitSet["joints"][number], unit: Unit): number[] {
  const rests = part.sums.filter(({ axis }) => axis === enteringEnd[0]).map((sum) => restOf(sum, unit));
  return [gap, ...rests.map((rest) => gap - rest * PLACE[unit])];
}

/** Where each of the parts of a drawing goes in, how deep, and what gap it leaves. */
function seatsDiffer(read: ReadPart, part: SetPart, set: DryfitSet, within: number): string[] {
  const told = read.notes
    .filter((note) => note.kind === "seats")
    .filter(({ marks }) => marks === null || marks.includes(part.mark))
    .flatMap(({ seats }) => seats)
    .flatMap(({ ends, ...seat }) => ends.flatMap(({ end, into }) => into.map((mark) => ({ ...seat, end, mark }))));
  const joints = set.joints.filter(
    ({ entering, kind }) => entering === part.mark && (kind === "housed" || kind === "tongue"),
  );
  const isTold = (joint: (typeof joints)[number]): boolean =>
    told.some(
      ({ end, mark, depth, gap, slip }) =>
        mark === joint.receiving &&
        end === faceWords(part, joint.enteringEnd) &&
        Math.abs(inMm(read, depth) - joint.depth) <= within &&
        gapsOf(part, joint, set.job.unit).some((one) => Math.abs(inMm(read, gap) - one) <= within) &&
        (gap === 0 || slip === (joint.fit === "slip")),
    );
  const untold = joints.filter((joint) => !isTold(joint)).map(({ receiving }) => receiving);
  if (untold.length === 0 && told.length === joints.length) return [];
  return [`part ${part.mark}: how it goes into ${untold} is told otherwise`];
}

/** How far it stands behind what it goes into. */
function backDiffers(read: ReadPart, part: SetPart, set: DryfitSet, within: number): string[] {
  const frontOf = (mark: string): number => {
    const one = set.parts.find((other) => other.mark === mark)!;
    const { place } = set.assemblies.find(({ name }) => name === one.assembly)!;
    const size: Vec = [one.length, one.width, one.thickness];
    return boxToOuter(place as Place, boxToOuter(one.place as Place, [[0, 0, 0], size]))[0][1];
  };
  return read.notes
    .filter((note) => note.kind === "back")
    .filter(({ marks }) => marks === null || marks.includes(part.mark))
    .flatMap(({ by, behind }) =>
      behind.every((mark) => Math.abs(frontOf(part.mark) - frontOf(mark) - inMm(read, by)) <= within)
        ? []
        : [`part ${part.mark}: it does not stand ${by} behind ${behind}`],
    );
}

/** Where what is fastened to it lies, where the screws go, and where the lines on it run. */
function fixedDiffers(read: ReadPart, part: SetPart, set: DryfitSet, turn: Turn, within: number): string[] {
  const name = `part ${part.mark}`;
  const near = (a: number, b: number): boolean => Math.abs(a - b) <= within;
  const own = ({ l, w }: { l: number; w: number }): Vec => turn.at([inMm(read, l), inMm(read, w), 0]);
  const fastened = fasteningsOf(set, part);
  const notes = read.notes.filter((note) => note.kind === "fixed");
  const told = notes.flatMap((note) =>
    note.marks.map((mark, i) => ({ mark, at: inMm(read, note.near[i]!), isFar: note.isFar, edge: note.edge })),
  );
  /** From the low edge, or, in a table, from the high one, whose near face is the other. */
  const isAt = (one: (typeof told)[number], is: (typeof fastened)[number]): boolean => {
    const { along, covers } = is;
    const i = along === "l" ? 1 : 0;
    const isHigh = faceWords(part, i === 1 ? "w1" : "l1") === one.edge;
    const from = isHigh ? (i === 1 ? part.width : part.length) - one.at : one.at;
    return one.isFar === (isHigh ? is.isBeyond : is.isFar) && near(from, covers[one.isFar === isHigh ? 0 : 1][i]);
  };
  const isTold = (one: (typeof fastened)[number]): boolean => {
    const { entering, kind, along, at } = one;
    const i = along === "l" ? 1 : 0;
    const middles = read.fixed.filter(({ mark, axis }) => mark === entering && axis !== along);
    return (
      told.some((said) => said.mark === entering && isAt(said, one)) &&
      (kind === "glue" || middles.some((one) => near(own({ l: one.at, w: one.at })[i], at)))
    );
  };
  const screws = [
    ...fastened
      .filter(({ kind }) => kind === "screw")
      .flatMap(({ along, at, positions }) =>
        (positions ?? []).map((place) => (along === "l" ? [place, at] : [at, place])),
      ),
    ...part.lines.flatMap(({ face, along, at, points }) =>
      face[0] !== "t" ? [] : points.map((place) => (along === "l" ? [place, at] : [at, place])),
    ),
  ];
  const crosses = read.screws.map(own);
  const isScrewed = ([l, w]: readonly number[]): boolean => crosses.some((one) => near(one[0], l!) && near(one[1], w!));
  const lines = read.notes.filter((note) => note.kind === "lines");
  const bolts = read.notes.filter((note) => note.kind === "bolts");
  const isLined = (line: SetPart["lines"][number]): boolean => {
    const { holds, from, to, bolt } = line;
    if (bolt !== null) return areBoltsTold(bolts, part, line, (value) => inMm(read, value), within);
    return lines.some(
      (one) =>
        holds.every((mark) => one.marks.includes(mark)) &&
        near(inMm(read, one.from), from) &&
        near(inMm(read, one.to), to),
    );
  };
  return [
    ...(told.length === fastened.length && fastened.every(isTold) ? [] : [`${name}: what is fixed is told otherwise`]),
    ...(screws.every(isScrewed) ? [] : [`${name}: a screw is told otherwise`]),
    ...(part.lines.every(isLined) && bolts.length === part.lines.filter(({ bolt }) => bolt !== null).length
      ? []
      : [`${name}: a line on it is told otherwise`]),
  ];
}
