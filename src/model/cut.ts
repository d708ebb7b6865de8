/** Features: what the joints, and the design itself, take out of each blank. */
import { type AxisIndex, axisOf, type Box, signOf } from "../base/geometry.ts";
import { type Mm, SAME } from "../base/length.ts";
import { LEAST_BESIDE } from "../project/defaults.ts";
import { notchOf, plainNotch, trim } from "./cases/notch.ts";
import { opposite, planeOf, thicknessAxis } from "./contacts.ts";
import { cutDovetail } from "./drawers/dovetail.ts";
import { cutLap, isMortised, stubMortise } from "./frames/frame-cuts.ts";
import { cutTenons } from "./frames/tenons.ts";
import type { Grid } from "./grid.ts";
import { cutBore, cutDowels, cutRow } from "./holes.ts";
import { runAxis } from "./joints.ts";
import type { Direction, Feature, FeatureEnd, Joint, Part, PinRow, Shoulder } from "./model.ts";
import { facePlane } from "./seat.ts";
import { mitreOf, mouldedEdges, shapeOf } from "./shape.ts";

type Range = [Mm, Mm];

/** Parts, already seated, with their features cut. */
export function cut(parts: readonly Part[], joints: readonly Joint[], pinRows: readonly PinRow[], grid: Grid): Part[] {
  const byKey = new Map(parts.map((part) => [part.key, part]));
  const features = new Map<string, Feature[]>(parts.map((part) => [part.key, []]));
  for (const joint of joints) {
    const entering = byKey.get(joint.entering)!;
    const receiving = byKey.get(joint.receiving)!;
    if (joint.kind === "lap") {
      const laps = cutLap(joint, entering, receiving);
      features.get(joint.receiving)!.push(laps.receiving);
      features.get(joint.entering)!.push(laps.entering);
      continue;
    }
    if (joint.tails !== null) {
      const sockets = cutDovetail(joint, joint.tails, entering, receiving, grid);
      features.get(joint.receiving)!.push(...sockets.receiving);
      features.get(joint.entering)!.push(...sockets.entering);
      continue;
    }
    if (isMortised(joint, receiving)) {
      features.get(joint.receiving)!.push(stubMortise(joint, entering, byKey, lowerWall(joint, entering)));
    } else if (joint.depth > 0 && !sharesGroove(joint, joints, byKey)) {
      const { groove, notches } = cutHousing(joint, joints, byKey, grid);
      features.get(joint.receiving)!.push(groove);
      features.get(joint.entering)!.push(...notches);
    }
    const face = joint.shoulders.length === 0 ? 0 : facePlane(joint, byKey);
    for (const shoulder of joint.shoulders)
      features.get(joint.entering)!.push(shoulderOf(joint, shoulder, entering, face, grid));
    if (joint.fasteners?.kind === "dowel") {
      const dowels = cutDowels(joint, entering, receiving, grid);
      features.get(joint.receiving)!.push(...dowels.receiving);
      features.get(joint.entering)!.push(...dowels.entering);
    }
  }
  for (const joint of joints.filter(({ tenon }) => tenon !== null)) {
    const mortises = cutTenons(joint, byKey.get(joint.entering)!, byKey.get(joint.receiving)!, grid);
    features.get(joint.receiving)!.push(...mortises.receiving);
    features.get(joint.entering)!.push(...mortises.entering);
  }
  for (const row of pinRows) features.get(row.part)!.push(...cutRow(row, byKey.get(row.part)!));
  return parts.map((part) => ({
    ...part,
    features: [
      ...features.get(part.key)!,
      ...part.bores.flatMap((bore) => cutBore(bore, part)),
      ...part.notches.map((notch) => plainNotch(part, notch)),
      ...shapeOf(part),
      ...mouldedEdges(part),
      ...mitreOf(part),
    ].sort(inOrder),
  }));
}

const KIND_ORDER = {
  groove: 0,
  rabbet: 1,
  lap: 2,
  shoulder: 3,
  socket: 4,
  "stub mortise": 5,
  hole: 6,
  mortise: 7,
  slot: 8,
  notch: 9,
  shape: 10,
  edge: 11,
  mitre: 12,
} as const;

/** Grooves before holes, notches last; face by face; from the datum outwards. */
function inOrder(a: Feature, b: Feature): number {
  return (
    KIND_ORDER[a.kind] - KIND_ORDER[b.kind] ||
    a.face.localeCompare(b.face) ||
    a.box[0][2] - b.box[0][2] ||
    a.box[0][0] - b.box[0][0] ||
    a.box[0][1] - b.box[0][1]
  );
}

/**
 * The groove of one housed joint, and the notches that let the entering part past where the groove stops short.
 *
 *        entering part          lower wall exact (near wall), the allowance at the other
 *      ______|    |______
 *     |      |____|      |      receiving part
 *     |__________________|
 */
function cutHousing(
  joint: Joint,
  joints: readonly Joint[],
  parts: ReadonlyMap<string, Part>,
  grid: Grid,
): { groove: Feature; notches: Feature[] } {
  const entering = parts.get(joint.entering)!;
  const receiving = parts.get(joint.receiving)!;
  const into = axisOf(joint.direction);
  const across = thicknessAxis(entering);
  const run = runAxis(joint, entering);
  const face = facePlane(joint, parts);
  const floor = face + signOf(joint.direction) * joint.depth;

  const lower = lowerWall(joint, entering);
  const edge = receiving.box[1][across];
  const upper = lower + joint.width > edge - LEAST_BESIDE ? edge : lower + joint.width;
  const atEdge = upper === edge || lower <= receiving.box[0][across] + SAME;

  const lo: [Mm, Mm, Mm] = [0, 0, 0];
  const hi: [Mm, Mm, Mm] = [0, 0, 0];
  lo[into] = Math.min(face, floor);
  hi[into] = Math.max(face, floor);
  lo[across] = lower;
  hi[across] = upper;
  const asDeep = joints.filter((other) => isAsDeep(other, joint));
  const low = endOfRun(joint, entering, receiving, run, "low", asDeep, parts, grid);
  const high = endOfRun(joint, entering, receiving, run, "high", asDeep, parts, grid);
  lo[run] = low.at;
  hi[run] = high.at;

  const groove: Feature = {
    kind: atEdge ? "rabbet" : "groove",
    face: opposite(joint.direction),
    along: run,
    box: [lo, hi],
    ends: [low.end, high.end],
    holds: entering.key,
    runOuts: [low.runOut, high.runOut].filter((range): range is Range => range !== null),
    row: null,
    lipping: false,
    reason: "",
  };
  const notches = [low, high].flatMap((end) =>
    end.notch === null ? [] : clearingNotches(joint, entering, face, run, end.notch, grid),
  );
  return { groove, notches };
}

/** The exact wall of a joint's groove: the lower face of what enters, or of its tongue. */
function lowerWall({ shoulders }: Joint, entering: Part): Mm {
  const taken = shoulders.filter(({ face }) => signOf(face) < 0).reduce((sum, { depth }) => sum + depth, 0);
  return entering.box[0][thicknessAxis(entering)] + taken;
}

/** Two joints in one line: their parts enter one channel, as wide and as deep, one behind the other. */
function isInLine(joint: Joint, other: Joint, parts: ReadonlyMap<string, Part>): boolean {
  const [one, two] = [parts.get(joint.entering)!, parts.get(other.entering)!];
  return (
    other !== joint &&
    other.receiving === joint.receiving &&
    other.direction === joint.direction &&
    thicknessAxis(one) === thicknessAxis(two) &&
    Math.abs(other.depth - joint.depth) < SAME &&
    Math.abs(other.width - joint.width) < SAME &&
    Math.abs(lowerWall(joint, one) - lowerWall(other, two)) < SAME
  );
}

/** A tongue in the groove of a loose panel beside it has no groove of its own. */
const sharesGroove = (joint: Joint, joints: readonly Joint[], parts: ReadonlyMap<string, Part>): boolean =>
  joint.kind === "tongue" && joints.some((other) => other.fit === "slip" && isInLine(joint, other, parts));

/** Another joint in the same face, at least as deep, that may take in the end of this one's groove. */
const isAsDeep = (other: Joint, joint: Joint): boolean =>
  other !== joint &&
  other.receiving === joint.receiving &&
  other.direction === joint.direction &&
  other.depth > 0 &&
  other.depth >= joint.depth - SAME;

type EndOfRun = { at: Mm; end: FeatureEnd; runOut: Range | null; notch: Range | null };

/** Whether a part lies in a groove's run all the way from where another ends to the edge. */
const isCovered = ({ box }: Part, run: AxisIndex, held: Mm, edge: Mm): boolean =>
  box[0][run] <= Math.min(held, edge) + SAME && box[1][run] >= Math.max(held, edge) - SAME;

/** A groove runs through unless its end would show; where it stops before what it holds does, that part is notched. */
function endOfRun(
  joint: Joint,
  entering: Part,
  receiving: Part,
  run: AxisIndex,
  which: "low" | "high",
  asDeep: readonly Joint[],
  parts: ReadonlyMap<string, Part>,
  grid: Grid,
): EndOfRun {
  const axisName = (["x", "y", "z"] as const)[run];
  const direction: Direction = which === "low" ? `-${axisName}` : `+${axisName}`;
  const edge = planeOf(receiving.box, direction);
  const held = planeOf(entering.box, direction);
  const short = signOf(direction) * (edge - held);
  const range = (a: Mm, b: Mm): Range => [Math.min(a, b), Math.max(a, b)];
  const crossed = short > SAME ? crossingWall(entering, receiving, run, held, direction, asDeep, parts) : null;
  if (crossed !== null) return { at: crossed, end: "open", runOut: null, notch: null };
  const next = short > SAME ? nextInLine(entering, receiving, direction, asDeep, parts) : null;
  if (next !== null) {
    // One channel holds both: the lower one's groove has the empty stretch between them.
    const low = signOf(direction) < 0;
    const between = asDeep.some(
      (other) => isInLine(joint, other, parts) && isCovered(parts.get(other.entering)!, run, held, next),
    );
    return { at: low ? held : next, end: "open", runOut: low || between ? null : range(held, next), notch: null };
  }
  const filled =
    short > SAME &&
    asDeep.some((other) => isInLine(joint, other, parts) && isCovered(parts.get(other.entering)!, run, held, edge));
  if (filled) return { at: edge, end: "through", runOut: null, notch: null };
  const hidden = short > SAME && asDeep.some((other) => fillsTo(parts.get(other.entering)!, run, held, edge));
  const stop = stopAt(joint, entering, receiving, direction, grid);
  if (hidden || stop === null) {
    return { at: edge, end: "through", runOut: short > SAME ? range(held, edge) : null, notch: null };
  }
  if (short > SAME) {
    const isMet = asDeep.some((other) => takesInEnd(other, joint, entering, receiving, run, held, parts, grid));
    return { at: held, end: isMet ? "open" : "square", runOut: null, notch: null };
  }
  if (stop < SAME) return { at: edge, end: "through", runOut: null, notch: null };
  const at = edge - signOf(direction) * stop;
  return { at, end: "square", runOut: null, notch: range(at, held) };
}

/** How far a groove stops short of an edge: of a lipping, at its back; of one that shows, by the set-back. Null: it runs through. */
function stopAt(joint: Joint, entering: Part, receiving: Part, direction: Direction, grid: Grid): Mm | null {
  const thick = (part: Part): Mm => part.lippings.find(({ edge }) => edge === direction)?.thickness ?? 0;
  const [own, other] = [thick(receiving), thick(entering)];
  if (own === 0 && !receiving.edges.includes(direction)) return null;
  const usual = own > 0 ? own : direction === "+y" ? joint.rearStop : joint.stop;
  // What enters is only panel behind its own lipping, so a groove stops no sooner than that is thick.
  return other > usual + SAME ? grid.atLeast(other) : usual;
}

/** Where the next part in the same line begins, beyond this one's end: its groove is as deep, and the cutter runs on into it. */
function nextInLine(
  entering: Part,
  receiving: Part,
  direction: Direction,
  asDeep: readonly Joint[],
  parts: ReadonlyMap<string, Part>,
): Mm | null {
  const across = thicknessAxis(entering);
  const held = planeOf(entering.box, direction);
  const begins = asDeep
    .map((other) => parts.get(other.entering)!)
    .filter(
      (other) =>
        other !== entering &&
        other.role === entering.role &&
        thicknessAxis(other) === across &&
        Math.abs(other.box[0][across] - entering.box[0][across]) < SAME,
    )
    .map((other) => planeOf(other.box, opposite(direction)))
    .filter((plane) => signOf(direction) * (plane - held) > -SAME);
  if (begins.length === 0 || receiving.role === "back") return null;
  return signOf(direction) > 0 ? Math.min(...begins) : Math.max(...begins);
}

/** Near wall of another groove in the same face, at least as deep, in which the end of this one's part lies: this groove ends there. */
function crossingWall(
  entering: Part,
  receiving: Part,
  run: AxisIndex,
  held: Mm,
  direction: Direction,
  asDeep: readonly Joint[],
  parts: ReadonlyMap<string, Part>,
): Mm | null {
  // The face of a back is seen in every bay: there alone a groove must not run on beyond what it crosses.
  if (receiving.role !== "back") return null;
  const across = thicknessAxis(entering);
  for (const other of asDeep) {
    const crossing = parts.get(other.entering)!;
    if (thicknessAxis(crossing) !== run || crossing.box[0][across] > entering.box[0][across] - SAME) continue;
    if (crossing.box[1][across] < entering.box[1][across] + SAME) continue;
    const [lower, upper] = [crossing.box[0][run], crossing.box[0][run] + other.width];
    if (held > lower + SAME && held < upper - SAME) return signOf(direction) > 0 ? lower : upper;
  }
  return null;
}

/** Whether this one's part ends inside another's groove, which takes in the whole width of its own: no wood is left there to square. */
function takesInEnd(
  other: Joint,
  joint: Joint,
  entering: Part,
  receiving: Part,
  run: AxisIndex,
  held: Mm,
  parts: ReadonlyMap<string, Part>,
  grid: Grid,
): boolean {
  const across = thicknessAxis(entering);
  const crossing = parts.get(other.entering)!;
  if (thicknessAxis(crossing) !== run) return false;
  const wall = crossing.box[0][run];
  if (held < wall + SAME || held > wall + other.width - SAME) return false;
  const axisName = (["x", "y", "z"] as const)[across];
  const [low, high] = ([`-${axisName}`, `+${axisName}`] as const).map(
    (direction) => stopAt(other, crossing, receiving, direction, grid) ?? 0,
  ) as [Mm, Mm];
  return (
    crossing.box[0][across] + low <= entering.box[0][across] + SAME &&
    crossing.box[1][across] - high >= entering.box[0][across] + joint.width - SAME
  );
}

/** Whether a part lies across a groove's run all the way from where the groove's own part ends to the edge: its deeper rabbet hides the end. */
const fillsTo = (part: Part, run: AxisIndex, held: Mm, edge: Mm): boolean =>
  thicknessAxis(part) === run &&
  part.box[0][run] <= Math.min(held, edge) + LEAST_BESIDE &&
  part.box[1][run] >= Math.max(held, edge) - LEAST_BESIDE;

/**
 * A corner off the entering part: as deep as it enters, as long as the groove stops short, so that it closes the groove's end. Where the
 * part has a lipping there, that is only as long as the clear bay, and so much of the corner is never filled.
 */
function clearingNotches(joint: Joint, entering: Part, face: Mm, run: AxisIndex, span: Range, grid: Grid): Feature[] {
  const into = axisOf(joint.direction);
  const end = planeOf(entering.box, joint.direction);
  const inner = end - signOf(joint.direction) * grid.atLeast(Math.abs(end - face));
  const lipping = entering.lippings.find(({ edge }) => axisOf(edge) === run && touches(entering, edge, span));
  const corner = (from: Mm, to: Mm): Box => {
    const lo: [Mm, Mm, Mm] = [...entering.box[0]];
    const hi: [Mm, Mm, Mm] = [...entering.box[1]];
    lo[into] = Math.min(end, inner);
    hi[into] = Math.max(end, inner);
    lo[run] = from;
    hi[run] = to;
    return [lo, hi];
  };
  const cleared = "clears the stopped groove";
  if (lipping === undefined) return [notchOf(entering, joint.direction, corner(...span), joint.receiving, cleared)];
  const low = signOf(lipping.edge) < 0;
  const back = low ? span[0] + lipping.thickness : span[1] - lipping.thickness;
  const strip: Range = low ? [span[0], back] : [back, span[1]];
  const rest: Range = low ? [back, span[1]] : [span[0], back];
  const ends = notchOf(
    entering,
    joint.direction,
    corner(...strip),
    joint.receiving,
    "the lipping ends at the shoulder",
  );
  return [
    { ...ends, lipping: true },
    ...(rest[1] - rest[0] > SAME
      ? [notchOf(entering, joint.direction, corner(...rest), joint.receiving, cleared)]
      : []),
  ];
}

const touches = (part: Part, edge: Direction, span: Range): boolean =>
  Math.abs(planeOf(part.box, edge) - span[signOf(edge) < 0 ? 0 : 1]) < SAME;

/** The rabbet at an entering end that leaves its tongue; the shoulder comes to rest on the receiving face. */
function shoulderOf(joint: Joint, { face, depth }: Shoulder, part: Part, plane: Mm, grid: Grid): Feature {
  const end = planeOf(part.box, joint.direction);
  const lo: [Mm, Mm, Mm] = [...part.box[0]];
  const hi: [Mm, Mm, Mm] = [...part.box[1]];
  trim(lo, hi, joint.direction, grid.atLeast(Math.abs(end - plane)));
  trim(lo, hi, face, depth);
  return {
    kind: "shoulder",
    face,
    along: runAxis(joint, part),
    box: [lo, hi],
    ends: ["through", "through"],
    holds: joint.receiving,
    runOuts: [],
    row: null,
    lipping: false,
    reason: "leaves the tongue",
  };
}
