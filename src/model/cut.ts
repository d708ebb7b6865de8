/** Features: what the joints, and the design itself, take out of each blank. */
import { AXES, type AxisIndex, axisOf, type Box, signOf } from "../base/geometry.ts";
import { type Mm, SAME } from "../base/length.ts";
import { LEAST_BESIDE } from "../project/defaults.ts";
import { opposite, planeOf, thicknessAxis } from "./contacts.ts";
import { runAxis } from "./joints.ts";
import type { Direction, Feature, Joint, Part } from "./model.ts";
import { facePlane, type Grid } from "./seat.ts";

type Range = [Mm, Mm];

/** Parts, already seated, with their features cut. */
export function cut(parts: readonly Part[], joints: readonly Joint[], grid: Grid): Part[] {
  const byKey = new Map(parts.map((part) => [part.key, part]));
  const features = new Map<string, Feature[]>(parts.map((part) => [part.key, []]));
  for (const joint of joints) {
    if (joint.kind !== "housed") continue;
    const { groove, notches } = cutHousing(joint, joints, byKey, grid);
    features.get(joint.receiving)!.push(groove);
    features.get(joint.entering)!.push(...notches);
  }
  return parts.map((part) => ({
    ...part,
    features: [...features.get(part.key)!, ...part.notches.map((notch) => plainNotch(part, notch))].sort(inOrder),
  }));
}

const KIND_ORDER = { groove: 0, rabbet: 1, notch: 2 } as const;

/** Grooves before notches; face by face; from the datum outwards. */
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

  const lower = entering.box[0][across];
  const edge = receiving.box[1][across];
  const upper = lower + joint.width > edge - LEAST_BESIDE ? edge : lower + joint.width;
  const atEdge = upper === edge || lower <= receiving.box[0][across] + SAME;

  const lo: [Mm, Mm, Mm] = [0, 0, 0];
  const hi: [Mm, Mm, Mm] = [0, 0, 0];
  lo[into] = Math.min(face, floor);
  hi[into] = Math.max(face, floor);
  lo[across] = lower;
  hi[across] = upper;
  const rabbets = joints.filter((other) => isAsDeep(other, joint));
  const low = endOfRun(joint, entering, receiving, run, "low", rabbets, parts);
  const high = endOfRun(joint, entering, receiving, run, "high", rabbets, parts);
  lo[run] = low.at;
  hi[run] = high.at;

  const groove: Feature = {
    kind: atEdge ? "rabbet" : "groove",
    face: opposite(joint.direction),
    along: run,
    box: [lo, hi],
    ends: [low.stopped ? "square" : "through", high.stopped ? "square" : "through"],
    holds: entering.key,
    runOuts: [low.runOut, high.runOut].filter((range): range is Range => range !== null),
    reason: "",
  };
  const notches = [low, high]
    .filter((end) => end.notch !== null)
    .map((end) => clearingNotch(joint, entering, face, run, end.notch!, grid));
  return { groove, notches };
}

/** Another joint in the same face, at least as deep, that may take in the end of this one's groove. */
const isAsDeep = (other: Joint, joint: Joint): boolean =>
  other !== joint &&
  other.receiving === joint.receiving &&
  other.direction === joint.direction &&
  other.kind === "housed" &&
  other.depth >= joint.depth - SAME;

type EndOfRun = { at: Mm; stopped: boolean; runOut: Range | null; notch: Range | null };

/** A groove runs through unless its end would show; where it stops before what it holds does, that part is notched. */
function endOfRun(
  joint: Joint,
  entering: Part,
  receiving: Part,
  run: AxisIndex,
  which: "low" | "high",
  rabbets: readonly Joint[],
  parts: ReadonlyMap<string, Part>,
): EndOfRun {
  const axisName = (["x", "y", "z"] as const)[run];
  const direction: Direction = which === "low" ? `-${axisName}` : `+${axisName}`;
  const edge = planeOf(receiving.box, direction);
  const held = planeOf(entering.box, direction);
  const short = signOf(direction) * (edge - held);
  const range = (a: Mm, b: Mm): Range => [Math.min(a, b), Math.max(a, b)];
  const hidden = short > SAME && rabbets.some((other) => fillsTo(parts.get(other.entering)!, run, held, edge));
  if (hidden || !receiving.edges.includes(direction)) {
    return { at: edge, stopped: false, runOut: short > SAME ? range(held, edge) : null, notch: null };
  }
  if (short > SAME) return { at: held, stopped: true, runOut: null, notch: null };
  const setBack = direction === "+y" ? joint.rearStop : joint.stop;
  if (setBack < SAME) return { at: edge, stopped: false, runOut: null, notch: null };
  const stop = edge - signOf(direction) * setBack;
  return { at: stop, stopped: true, runOut: null, notch: range(stop, held) };
}

/** Whether a part lies across a groove's run all the way from where the groove's own part ends to the edge: its deeper rabbet hides the end. */
const fillsTo = (part: Part, run: AxisIndex, held: Mm, edge: Mm): boolean =>
  thicknessAxis(part) === run &&
  part.box[0][run] <= Math.min(held, edge) + LEAST_BESIDE &&
  part.box[1][run] >= Math.max(held, edge) - LEAST_BESIDE;

/** A corner off the entering part: as deep as it enters, as long as the groove stops short, so that it closes the groove's end. */
function clearingNotch(joint: Joint, entering: Part, face: Mm, run: AxisIndex, span: Range, grid: Grid): Feature {
  const into = axisOf(joint.direction);
  const end = planeOf(entering.box, joint.direction);
  const inner = end - signOf(joint.direction) * grid.atLeast(Math.abs(end - face));
  const lo: [Mm, Mm, Mm] = [...entering.box[0]];
  const hi: [Mm, Mm, Mm] = [...entering.box[1]];
  lo[into] = Math.min(end, inner);
  hi[into] = Math.max(end, inner);
  lo[run] = span[0];
  hi[run] = span[1];
  return notchOf(entering, joint.direction, [lo, hi], joint.receiving, "clears the stopped groove");
}

function plainNotch(part: Part, notch: Part["notches"][number]): Feature {
  const lo: [Mm, Mm, Mm] = [...part.box[0]];
  const hi: [Mm, Mm, Mm] = [...part.box[1]];
  trim(lo, hi, notch.end, notch.depth);
  trim(lo, hi, notch.edge, notch.width);
  return notchOf(part, notch.end, [lo, hi], null, notch.reason);
}

function trim(lo: [Mm, Mm, Mm], hi: [Mm, Mm, Mm], direction: Direction, size: Mm): void {
  const axis = axisOf(direction);
  if (signOf(direction) > 0) lo[axis] = hi[axis] - size;
  else hi[axis] = lo[axis] + size;
}

function notchOf(part: Part, end: Direction, box: Box, holds: string | null, reason: string): Feature {
  const along = thicknessAxis(part);
  if (!AXES.every((axis) => box[1][axis] - box[0][axis] > SAME)) throw new Error(`Empty notch in ${part.key}`);
  return { kind: "notch", face: end, along, box, ends: ["through", "through"], holds, runOuts: [], reason };
}
