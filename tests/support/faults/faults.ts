/**
 * Planted faults: a set spoiled in one way, by two rounding steps, everything that hangs on the edit changed with it, so that only the
 * geometry and the rules can tell. Joints, what grooves hold, bays and sticks are taken out first, and settings told again from the spoiled
 * grooves: they would give it away.
 */
import { cutAwayAll } from "../../../src/audit/solids/boxes.ts";
import type { SignedAxis } from "../../../src/base/geometry.ts";
import { planDrilling } from "../../../src/plans/drilling.ts";
import type { DryfitSet, Face, SetPart } from "../../../src/set/schema.ts";
import {
  acrossOf,
  axisOfFace,
  type Corner,
  flipped,
  isSameCut,
  isSameShape,
  isSameTurned,
  isTurnHarmless,
  LETTERS,
  mirrored,
  move,
  near,
  reshape,
  resize,
  runOf,
  sizeOf,
  turn,
} from "./fault-shapes.ts";
import { plantHoles } from "./hole-faults.ts";
import { plantLap } from "./lap-faults.ts";
import { plantLippings } from "./lipping-faults.ts";
import { plantMitre } from "./mitre-faults.ts";
import { plantMortise } from "./mortise-faults.ts";
import { settingsFor } from "./setting-faults.ts";
import { plantSocket } from "./socket-faults.ts";

export type Fault = {
  kind: string;
  mark: string;
  /** Who is to be named by a failure: any of them for a fault in wood, each of them for a fault of a setting. */
  blame: string[];
  set: DryfitSet;
  /** The same fault with the joints left in: what only butts is held where its screws say; of a frame with its openings too, as large as they are told. */
  joined?: DryfitSet | undefined;
};
export type Excluded = { kind: string; mark: string; reason: string };
export type Planted = { faults: Fault[]; excluded: Excluded[] };

/** The set with every statement taken out that repeats what the parts' own figures say. */
export function bare(set: DryfitSet): DryfitSet {
  const copy = structuredClone(set);
  copy.orders = []; // a fault is to be found in the wood, not by what then stands in whose way
  for (const part of copy.parts) {
    part.sums = [];
    part.alike = [];
    part.same = [];
    part.pattern = part.mark;
    for (const feature of part.features) feature.holds = null;
  }
  return {
    ...copy,
    joints: [],
    openings: [],
    ...settingsFor(copy),
    handWork: [],
    sheets: [],
    sticks: [],
    labels: [],
    checks: [],
    steps: [],
  };
}

/** The panel cut to the part's new size, less its lippings. */
function recut(part: SetPart): void {
  const added = (axis: string): number =>
    part.lippings.filter(({ edge }) => edge[0] === axis).reduce((sum, { thickness }) => sum + thickness, 0);
  part.cut = { length: part.length - added("l"), width: part.width - added("w") };
}

/** The holes of spoiled parts drilled as they then are: whether a row is for dowels its name tells. */
const drillingFor = ({ parts, groups, job }: DryfitSet): DryfitSet["drilling"] =>
  planDrilling(
    parts.map((part) => ({
      ...part,
      features: part.features.map((feature) => ({
        ...feature,
        holds: feature.row?.startsWith("dowels") ? "dowels" : null,
      })),
    })),
    groups,
    job.unit,
  );

/** Spoiled only when it is looked at: a job has thousands of faults. */
export class Planter {
  readonly faults: Fault[] = [];
  readonly excluded: Excluded[] = [];
  readonly step: number;
  readonly base: DryfitSet;
  readonly joints: DryfitSet["joints"];
  readonly openings: DryfitSet["openings"];
  /** Marks of the parts that hold a part, by its mark: who is left to tell that it is gone. */
  readonly holders = new Map<string, string[]>();
  /** What each feature of a part holds, before that is taken out. */
  readonly held: ReadonlyMap<string, (string | null)[]>;

  constructor(set: DryfitSet) {
    this.base = bare(set);
    this.joints = set.joints;
    this.openings = set.openings;
    this.held = new Map(set.parts.map(({ mark, features }) => [mark, features.map(({ holds }) => holds)]));
    this.step = set.job.step;
    for (const part of set.parts) {
      for (const { holds, kind } of part.features) {
        if (holds && kind !== "notch" && kind !== "hole" && kind !== "mortise")
          this.holders.set(holds, [...(this.holders.get(holds) ?? []), part.mark]);
      }
    }
  }

  /** Two steps off: one step is what rounding itself may leave. */
  get off(): number {
    return 2 * this.step;
  }

  /** A part that only butts is found by its joints at least, the free edge of a frame's member by its opening; any other by its wood alone. */
  plant(kind: string, mark: string, edit: (part: SetPart, set: DryfitSet) => void, blame: string[] = [mark]): void {
    this.add(kind, mark, edit, blame, this.onlyButts(mark));
  }

  /** A fault of what the joints tell of: how large a tenon is. */
  plantJoined(kind: string, mark: string, edit: (part: SetPart, set: DryfitSet) => void): void {
    this.add(kind, mark, edit, [mark], true);
  }

  private add(
    kind: string,
    mark: string,
    edit: (part: SetPart, set: DryfitSet) => void,
    blame: string[],
    joined: boolean,
  ): void {
    const spoil = (joints: boolean): DryfitSet => {
      const set = this.spoiled(mark, edit);
      if (joints) set.joints = this.joints;
      if (joints && isFramed) set.openings = this.openings;
      set.drilling = drillingFor(set);
      return set;
    };
    const { role } = this.base.parts.find((part) => part.mark === mark)!;
    const isFramed = role === "stile" || role === "rail";
    this.faults.push({
      kind,
      mark,
      blame,
      get set() {
        return spoil(false);
      },
      get joined() {
        return joined ? spoil(true) : undefined;
      },
    });
  }

  /** Nothing of it lies in a groove, and nothing in one of its own. */
  onlyButts(mark: string): boolean {
    const part = this.base.parts.find((each) => each.mark === mark)!;
    return !this.holders.has(mark) && !part.features.some(({ kind }) => !["notch", "hole", "mortise"].includes(kind));
  }

  /** A fault that only a figure elsewhere in the set can tell: the drilling stays as it was. */
  plantFigure(kind: string, mark: string, edit: (part: SetPart, set: DryfitSet) => void): void {
    const spoil = (): DryfitSet => this.spoiled(mark, edit);
    this.faults.push({
      kind,
      mark,
      blame: [mark],
      get set() {
        return spoil();
      },
    });
  }

  private spoiled(mark: string, edit: (part: SetPart, set: DryfitSet) => void): DryfitSet {
    const set = structuredClone(this.base);
    const part = set.parts.find((each) => each.mark === mark)!;
    edit(part, set);
    recut(part);
    // The piece is cut to the part's new size: a difference between the two would give the fault away.
    for (const piece of set.pieces.filter((each) => each.mark === mark && each.kind === "panel")) {
      Object.assign(piece, { ...part.cut, thickness: part.thickness });
    }
    return Object.assign(set, settingsFor(set));
  }

  leaveOut(kind: string, mark: string, reason: string): void {
    this.excluded.push({ kind, mark, reason });
  }
}

/** Why a size may be off at one edge, and nothing is to be found. */
function freeEdge(part: SetPart, edge: "l0" | "l1" | "w0" | "w1"): string | null {
  if (part.role === "looseShelf" && edge[0] === "w") return "a loose shelf is free before and behind";
  if (part.role !== "filler" && part.role !== "returnStrip") return null;
  if (edge[0] !== "w") return null;
  const way = edge === "w1" ? part.place!.w : flipped(part.place!.w as SignedAxis);
  if (part.role === "returnStrip") return way === "+z" ? "the upper edge of a return's strip is free" : null;
  const isInner = part.key.endsWith("left")
    ? way === "+x"
    : part.key.endsWith("right")
      ? way === "-x"
      : /\d$/.test(part.key);
  return isInner ? "a filler strip's inner edge is free" : null;
}

function plantSizes(planter: Planter, whole: SetPart): void {
  const { mark } = whole;
  for (const axis of [0, 1] as const) {
    const [more, less] = axis === 0 ? ["too long", "too short"] : ["too wide", "too narrow"];
    const [low, high] = axis === 0 ? (["l0", "l1"] as const) : (["w0", "w1"] as const);
    for (const [kind, delta] of [
      [more, planter.off],
      [less, -planter.off],
    ] as const) {
      const [atHigh, atLow] = [freeEdge(whole, high), freeEdge(whole, low)];
      if (atHigh !== null) planter.leaveOut(`${kind} at ${high}`, mark, atHigh);
      else planter.plant(`${kind} at ${high}`, mark, (part) => resize(part, axis, delta));
      // At the low end: all that is measured from there moves with it, so that only this end is off.
      if (atLow !== null) planter.leaveOut(`${kind} at ${low}`, mark, atLow);
      else
        planter.plant(`${kind} at ${low}`, mark, (part) => {
          part.features = mirrored(part, axis);
          resize(part, axis, delta);
          part.features = mirrored(part, axis);
          move(part, part.place![LETTERS[axis]], -delta);
        });
    }
  }
}

function plantGroove(planter: Planter, part: SetPart, index: number): void {
  const { mark } = part;
  const feature = part.features[index]!;
  const size = sizeOf(part);
  const [run, across, depth] = [runOf(feature), acrossOf(feature), axisOfFace(feature.face)];
  const high = feature.face[1] === "1";
  const name = feature.kind;
  const { off } = planter;
  const reshaped = (kind: string, change: (lo: Corner, hi: Corner) => void): void =>
    planter.plant(`${name} ${kind}`, mark, (each) => reshape(each, each.features[index]!, change));

  for (const delta of [off, -off]) {
    const kind = delta > 0 ? "off, away from the datum" : "off, towards the datum";
    const lo = feature.box[0][across] + delta;
    const hi = feature.box[1][across] + delta;
    if (name !== "groove" && name !== "stub mortise")
      planter.leaveOut(`rabbet ${kind}`, mark, "a rabbet's open side stays at the edge: planted as wider and narrower");
    else if (lo < 0 || hi > size[across]) planter.leaveOut(`groove ${kind}`, mark, "would leave the part");
    else
      reshaped(kind, (low, top) => {
        low[across] += delta;
        top[across] += delta;
      });
  }
  planter.plant(`${name} missing`, mark, (each) => {
    each.features.splice(index, 1);
  });
  const depthen = (delta: number) => (lo: Corner, hi: Corner) => {
    if (high) lo[depth] -= delta;
    else hi[depth] += delta;
  };
  if (feature.depth > off + 1e-6) reshaped("too shallow", depthen(-off));
  else planter.leaveOut(`${name} too shallow`, mark, "two steps are its whole depth: planted as missing");
  if (feature.depth + off < size[depth]) reshaped("too deep", depthen(off));
  else planter.leaveOut(`${name} too deep`, mark, "two steps more go through the part");

  // A rabbet open at its high side is bounded by its low wall only.
  const openHigh = name === "rabbet" && near(feature.box[1][across], size[across]);
  const widen = (delta: number) => (lo: Corner, hi: Corner) => {
    if (openHigh) lo[across] -= delta;
    else hi[across] += delta;
  };
  if (openHigh ? feature.at - off >= 0 : feature.box[1][across] + off <= size[across]) reshaped("too wide", widen(off));
  else planter.leaveOut(`${name} too wide`, mark, "would leave the part");
  if (feature.width > off + 1e-6) reshaped("too narrow", widen(-off));
  else planter.leaveOut(`${name} too narrow`, mark, "two steps are its whole width: planted as missing");

  feature.ends.forEach((end, i) => {
    if (end === "through") return;
    for (const delta of [off, -off]) {
      const outward = i === 1 ? delta > 0 : delta < 0;
      // What no longer belongs to this groove, or newly does; where another groove takes it away anyhow, but for what lies below
      // the edge of a part that keeps its slip from the floor, no wood changes that anything could meet.
      const end = feature.box[i as 0 | 1][run];
      const slab = [[...feature.box[0]], [...feature.box[1]]] as [Corner, Corner];
      slab[0][run] = Math.min(end, end + delta);
      slab[1][run] = Math.max(end, end + delta);
      const held = planter.held.get(mark)![index];
      const slides = planter.joints.find(
        ({ entering, receiving, fit }) => entering === held && receiving === mark && fit === "slip",
      );
      const reached = Math.min(...(slides?.gap ?? [0]));
      if (high) slab[0][depth] += reached;
      else slab[1][depth] -= reached;
      const others = part.features.filter((_, j) => j !== index).map(({ box }) => box);
      const isTaken = cutAwayAll([slab], others).length === 0;
      if (isTaken) {
        planter.leaveOut(`${name} stop`, mark, "another groove takes away the wood there");
        continue;
      }
      reshaped(outward ? "stop too far out" : "stop too far in", (lo, hi) => {
        if (i === 0) lo[run] += delta;
        else hi[run] += delta;
      });
    }
  });
  if (feature.depth > size[depth] - 1e-6) {
    planter.leaveOut(`${name} on the wrong face`, mark, "it goes right through");
    return;
  }
  planter.plant(`${name} on the wrong face`, mark, (each) => {
    const wrong = each.features[index]!;
    wrong.face = `${wrong.face[0]}${high ? "0" : "1"}` as Face;
    reshape(each, wrong, (lo, hi) => {
      [lo[depth], hi[depth]] = [size[depth] - hi[depth], size[depth] - lo[depth]];
    });
  });
}

/** Whether other features take away all the wood that a notch grown across would take. */
function isTakenBeside(part: SetPart, index: number, axis: 0 | 1, delta: number): boolean {
  const { box } = part.features[index]!;
  if (delta < 0) return false;
  const slab = [[...box[0]], [...box[1]]] as [Corner, Corner];
  if (near(box[0][axis], 0)) [slab[0][axis], slab[1][axis]] = [box[1][axis], box[1][axis] + delta];
  else [slab[0][axis], slab[1][axis]] = [box[0][axis] - delta, box[0][axis]];
  return part.features.some(
    ({ box: [lo, hi] }, j) =>
      j !== index && [0, 1, 2].every((k) => lo[k]! <= slab[0][k]! + 1e-6 && hi[k]! >= slab[1][k]! - 1e-6),
  );
}

function plantNotch(planter: Planter, part: SetPart, index: number): void {
  const { mark } = part;
  const feature = part.features[index]!;
  const size = sizeOf(part);
  planter.plant("notch missing", mark, (each) => {
    each.features.splice(index, 1);
  });
  for (const axis of [0, 1] as const) {
    const [lo, hi] = [feature.box[0][axis], feature.box[1][axis]];
    const words =
      axis === 0
        ? ["longer along the part", "shorter along the part"]
        : ["longer across the part", "shorter across the part"];
    for (const [kind, delta] of [
      [words[0]!, planter.off],
      [words[1]!, -planter.off],
    ] as const) {
      if (near(lo, 0) && near(hi, size[axis])) continue;
      if (hi - lo + delta <= 1e-6)
        planter.leaveOut(`notch ${kind}`, mark, "two steps are all of it: planted as missing");
      else if (isTakenBeside(part, index, axis, delta))
        planter.leaveOut(`notch ${kind}`, mark, "another groove takes away the wood there");
      else
        planter.plant(`notch ${kind}`, mark, (each) =>
          reshape(each, each.features[index]!, (low, top) => {
            if (near(lo, 0)) top[axis] += delta;
            else low[axis] -= delta;
          }),
        );
    }
  }
}

function plantOrientation(planter: Planter, part: SetPart): void {
  const { mark } = part;
  for (const axis of [0, 1, 2] as const) {
    const kind = ["mirrored end for end", "mirrored front to back", "mirrored inside out"][axis]!;
    if (part.hand === null) planter.leaveOut(kind, mark, "it has no hand");
    else if (isSameCut(mirrored(part, axis), part.features))
      planter.leaveOut(kind, mark, "its mirror image is the same part");
    else
      planter.plant(kind, mark, (each) => {
        each.features = mirrored(each, axis);
      });
    const turned = ["turned over along its length", "turned over across its width", "turned end for end"][axis]!;
    if (isSameTurned(part, axis)) planter.leaveOut(turned, mark, "turned, it is the same part");
    else if (isTurnHarmless(part, axis, planter.step))
      planter.leaveOut(turned, mark, "turned, its notches or mortises differ by no more than one step");
    else planter.plant(turned, mark, (each) => turn(each, axis));
  }
  planter.plant("place left-handed", mark, (each) => {
    each.place!.t = flipped(each.place!.t as SignedAxis);
  });
}

/** Why a part may stand elsewhere along an axis, and nothing is to be found. */
function freePlace(part: SetPart, axis: "x" | "y" | "z"): string | null {
  if (part.role === "looseShelf" && axis === "y") return "a loose shelf is free before and behind";
  if (part.role === "filler" && /\d$/.test(part.key) && axis === "x")
    return "a strip over a divider may stand a little beside it";
  return null;
}

function plantPlaces(planter: Planter, part: SetPart): void {
  for (const axis of ["x", "y", "z"] as const) {
    for (const sign of ["+", "-"] as const) {
      const words = { "+x": "right", "-x": "left", "+y": "back", "-y": "forward", "+z": "up", "-z": "down" }[
        `${sign}${axis}` as SignedAxis
      ];
      const free = freePlace(part, axis);
      if (free !== null) planter.leaveOut(`stands too far ${words}`, part.mark, free);
      else
        planter.plant(`stands too far ${words}`, part.mark, (each) =>
          move(each, `${sign}${axis}` as SignedAxis, planter.off),
        );
    }
  }
}

/** Parts of one role and case, neighbours from left to right or bottom to top. */
function plantSwaps(planter: Planter): void {
  for (const role of ["divider", "shelf", "side"] as const) {
    for (const { name } of planter.base.assemblies) {
      const row = planter.base.parts
        .filter((part) => part.role === role && part.assembly === name && part.place)
        .sort((a, b) => a.place!.at[0] - b.place!.at[0] || a.place!.at[2] - b.place!.at[2]);
      row.slice(1).forEach((right, i) => {
        const left = row[i]!;
        const kind = `${role} swapped with its neighbour`;
        if (isSameShape(left, right)) {
          planter.leaveOut(kind, left.mark, `the same as ${right.mark}: interchangeable`);
          return;
        }
        planter.plant(
          kind,
          left.mark,
          (part, set) => {
            const other = set.parts.find((each) => each.mark === right.mark)!;
            [part.place, other.place] = [other.place, part.place];
          },
          [left.mark, right.mark],
        );
      });
    }
  }
}

function plantCounts(planter: Planter, part: SetPart): void {
  const { mark } = part;
  planter.plant("missing, its piece still on the list", mark, (_, set) => {
    set.parts = set.parts.filter((each) => each.mark !== mark);
  });
  const holders = planter.holders.get(mark) ?? [];
  const kind = "missing, piece and all";
  if (holders.length === 0) planter.leaveOut(kind, mark, "it only butts: no groove waits for it");
  else
    planter.plant(
      kind,
      mark,
      (_, set) => {
        set.parts = set.parts.filter((each) => each.mark !== mark);
        set.pieces = set.pieces.filter((piece) => piece.mark !== mark);
      },
      holders,
    );
  planter.plant("twice, under one mark", mark, (each, set) => {
    set.parts.push(structuredClone(each));
  });
  planter.plant(
    "twice, under two marks",
    mark,
    (each, set) => {
      set.groups.find(({ parts }) => parts.includes(mark))!.parts.push("9999");
      set.parts.push({ ...structuredClone(each), mark: "9999", key: `${each.key}/again` });
      set.pieces.push({ ...set.pieces.find((piece) => piece.mark === mark)!, id: "9999", mark: "9999" });
    },
    [mark],
  );
}

/** A kick before the sides, rather than between them. */
const isApplied = ({ parts }: DryfitSet, kick: SetPart): boolean =>
  parts.some(
    ({ role, assembly, place }) =>
      role === "side" && assembly === kick.assembly && kick.place!.at[0] <= place!.at[0] - 1,
  );

function plantThickness(planter: Planter, part: SetPart): void {
  planter.plant("too thick", part.mark, (each) => resize(each, 2, planter.off));
  planter.plant("too thin", part.mark, (each) => resize(each, 2, -planter.off));
  planter.plant("length between two steps", part.mark, (each) => resize(each, 0, -0.3 * planter.step));
  const other = planter.base.stock.find(
    (stock) => stock.id !== part.material && !near(stock.thickness, part.thickness),
  );
  if (!other) planter.leaveOut("of the wrong stock", part.mark, "the job has no stock of another thickness");
  else if (
    part.role === "looseShelf" ||
    (part.role === "kick" && isApplied(planter.base, part)) ||
    planter.base.drawers.some(({ face, front }) => face === part.mark && front.fit === "overlay")
  )
    planter.leaveOut(
      "of the wrong stock",
      part.mark,
      "it lies or stands free before others: another thickness fits as well",
    );
  else
    planter.plant("of the wrong stock", part.mark, (each, set) => {
      each.material = other.id;
      for (const piece of set.pieces.filter((cut) => cut.mark === each.mark)) piece.stock = other.id;
      resize(each, 2, other.thickness - each.thickness);
    });
}

/** Every fault that applies to a set, and every one that does not, with the reason. */
export function plantFaults(set: DryfitSet): Planted {
  const planter = new Planter(set);
  for (const part of planter.base.parts.filter((each) => each.place)) {
    plantSizes(planter, part);
    part.features.forEach((feature, i) => {
      if (feature.kind === "notch") plantNotch(planter, part, i);
      else if (feature.kind === "lap") plantLap(planter, part, i);
      else if (feature.kind === "mitre") plantMitre(planter, part, i);
      else if (feature.kind === "socket") plantSocket(planter, part, i);
      else if (feature.kind === "mortise") plantMortise(planter, part, i);
      else if (feature.kind === "shape")
        planter.leaveOut("shape as any groove", part.mark, "it is cut out of a free edge: nothing stands in it");
      else if (feature.kind === "edge")
        planter.leaveOut("edge as any groove", part.mark, "a bit takes it off a free edge: nothing stands in it");
      else if (feature.kind !== "hole") plantGroove(planter, part, i);
    });
    plantHoles(planter, part);
    plantLippings(planter, part);
    plantOrientation(planter, part);
    plantPlaces(planter, part);
    plantCounts(planter, part);
    plantThickness(planter, part);
  }
  plantSwaps(planter);
  return { faults: planter.faults, excluded: planter.excluded };
}
