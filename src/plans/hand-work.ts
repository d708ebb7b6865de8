/**
 * Hand work after the grooves: notches, the round ends a router leaves where a groove stops, the slopes that the saw's cutter leaves there. Work
 * of one kind on one part is told once.
 */

import { AXES, type AxisIndex } from "../base/geometry.ts";
import { formatLengthWithUnit, type Mm, SAME, type Unit } from "../base/length.ts";
import { listInWords, pluralOf } from "../base/words.ts";
import { isBetweenTails } from "../set/dovetail.ts";
import {
  axisOfFace,
  endsSquare,
  faceWords,
  fromFace,
  frontFace,
  LOCAL_AXES,
  type LocalAxis,
  longerFace,
  opposite,
  sizeAlong,
  stopsAt,
  thirdAxis,
} from "../set/facing.ts";
import type { DryfitSet, Face, SetFeature, SetPart, SetSetting } from "../set/schema.ts";

/** One feature's share of the work. Tasks of a part that agree in `kind` become one entry, told of all their features together. */
type Task = {
  feature: number;
  kind: string;
  where: string;
  clears: string | null;
  tell: (where: string[], clears: string[]) => string;
};

/** A feature of a part, and what is said of it with. */
type Work = {
  part: SetPart;
  feature: SetFeature;
  index: number;
  ramp: SetSetting["ramp"]; // that the saw's cutter leaves in it
  show: (length: Mm) => string;
  nameOf: (mark: string) => string;
};

type Input = { parts: readonly SetPart[]; settings: readonly SetSetting[]; unit: Unit };

export function planHandWork({ parts, settings, unit }: Input): DryfitSet["handWork"] {
  const show = (length: Mm): string => formatLengthWithUnit(length, unit);
  const nameOf = (mark: string): string => `${parts.find((part) => part.mark === mark)!.name} ${mark}`;
  const rampIn = ({ mark }: SetPart, index: number): SetSetting["ramp"] =>
    settings.find(({ runs }) => runs.some((run) => run.mark === mark && run.feature === index && run.stopped))?.ramp ??
    null;
  return parts.flatMap((part) => {
    const tasks = part.features.flatMap((feature, index) =>
      tasksOf({ part, feature, index, ramp: rampIn(part, index), show, nameOf }),
    );
    const kinds = [...new Set(tasks.map(({ kind }) => kind))];
    return kinds.map((kind) => {
      const alike = tasks.filter((task) => task.kind === kind);
      const where = [...new Set(alike.map((task) => task.where))];
      const clears = alike.flatMap((task) => task.clears ?? []);
      return { mark: part.mark, features: alike.map(({ feature }) => feature), text: alike[0]!.tell(where, clears) };
    });
  });
}

function tasksOf(work: Work): Task[] {
  const { kind, lipping } = work.feature;
  switch (kind) {
    case "groove":
    case "rabbet":
      return work.ramp === null ? stopTask(work) : rampTask(work, work.ramp.length);
    case "notch":
      return lipping ? [] : [notchTask(work)];
    case "shape":
      return [shapeTask(work)];
    case "edge":
      return [edgeTask(work)];
    case "mitre":
      return [mitreTask(work)];
    case "slot":
      return [slotTask(work)];
    case "socket":
      return [socketTask(work)];
    case "stub mortise":
      return [stubTask(work)];
    case "mortise":
      return [mortiseTask(work)];
    case "lap":
    case "shoulder":
    case "hole":
      return [];
  }
}

/** Those of one end together: tails are set out by their ends, pins marked from the tails. */
function socketTask({ part, feature, index, show, nameOf }: Work): Task {
  const { face, depth, holds } = feature;
  const end = faceWords(part, face);
  const other = nameOf(holds!);
  const tails = isBetweenTails(feature);
  const baseline = `baseline ${show(depth)} from the end, knifed from that part itself`;
  return {
    feature: index,
    kind: `socket ${face}`,
    where: "",
    clears: null,
    tell: () =>
      tails
        ? `Tails at the ${end} for ${other}: set out from the full-size page, ${baseline}; what is crossed is waste.`
        : `Pins at the ${end} for ${other}: marked from its tails, ${baseline}; checked by the full-size page.`,
  };
}

/** A mortise for a part's own stub tenon, with square ends. */
function stubTask({ part, feature, index, show, nameOf }: Work): Task {
  const { face, along, from, to, width, depth, holds } = feature;
  const front = frontFace(part) ?? "t0";
  const wall = fromFace(part, feature, front);
  return {
    feature: index,
    kind: `stub mortise ${face} ${show(width)} ${show(depth)} ${show(wall)}`,
    where: `${show(from)} to ${show(to)} for ${nameOf(holds!)}`,
    clears: null,
    tell: (where) =>
      `${where.length === 1 ? "Mortise" : "Mortises"} in the ${faceWords(part, face)}, ${show(width)} wide, its near wall ${show(wall)} from the ${faceWords(part, front)}, ${show(depth)} deep, ends square; from the ${faceWords(part, `${along}0` as Face)}: ${where.join("; ")}.`,
  };
}

/** Those of one end or edge together, each by both of its ends: they are marked out, and the bit stops at them. */
function mortiseTask({ part, feature, index, show, nameOf }: Work): Task {
  const { face, along, from, to, width, depth, holds } = feature;
  const others = part.features.filter((one) => one.kind === "mortise" && one.face === face);
  const least = Math.min(...others.filter((one) => one.holds === holds).map((one) => one.to - one.from));
  const fit = to - from > least + SAME ? "slotted" : "tight";
  const from0 = faceWords(part, `${along}0` as Face);
  return {
    feature: index,
    kind: `mortise ${face} ${show(width)} ${show(depth)}`,
    where: `${show(from)} to ${show(to)}, ${fit}, for ${nameOf(holds!)}`,
    clears: null,
    tell: (where) =>
      `${where.length === 1 ? "Mortise" : "Mortises"} in the ${faceWords(part, face)}, ${show(width)} wide in the middle of the thickness, ${show(depth)} deep; from the ${from0}: ${where.join("; ")}.`,
  };
}

/** A round hole where the screw has no play; else a slot that it travels in. */
function slotTask({ feature: { from, to, width, holds }, index, show }: Work): Task {
  const isRound = to - from < width + SAME;
  const tell = (where: string[]): string =>
    isRound
      ? `Drill the holes for the screws of ${listInWords(where)}, ${show(width)}, as the worktop's drawing says: no play.`
      : `Drill both ends of each slot for the screws of ${listInWords(where)}, ${show(width)}, as the worktop's drawing says, and rout between: the screw must slide from end to end.`;
  return { feature: index, kind: isRound ? "screw holes" : "slots", where: holds ?? "", clears: null, tell };
}

const plural = (noun: string, count: number): string => (count === 1 ? noun : pluralOf(noun));

function stopTask({ part, feature, index }: Work): Task[] {
  const stopped = (["0", "1"] as const).filter(
    (end) => endsSquare(part, feature, Number(end) as 0 | 1) && !endsInGroove(part, feature, Number(end) as 0 | 1),
  );
  if (stopped.length === 0) return [];
  const ends = listInWords(stopped.map((end) => faceWords(part, `${feature.along}${end}` as Face)));
  const tell = (where: string[]): string =>
    `Square the ${plural(feature.kind, where.length)} for ${listInWords(where)} with a chisel where ${where.length === 1 ? "it stops" : "they stop"} short of the ${ends}.`;
  return [{ feature: index, kind: `${feature.kind} ${ends}`, where: feature.holds ?? "", clears: null, tell }];
}

/** Whether another groove, as deep, has taken the wood beyond this end from wall to wall: no corner is left to square there. */
function endsInGroove(part: SetPart, { face, along, box }: SetFeature, end: 0 | 1): boolean {
  const run = LOCAL_AXES.indexOf(along);
  const beyond = box[end][run as AxisIndex] + (end === 0 ? -1 : 1) * 2 * SAME;
  return part.features.some(
    (other) =>
      (other.kind === "groove" || other.kind === "rabbet") &&
      other.face === face &&
      other.along !== along &&
      AXES.every((axis) => {
        const [from, to] = axis === run ? [beyond, beyond] : [box[0][axis], box[1][axis]];
        return other.box[0][axis] < from + SAME && other.box[1][axis] > to - SAME;
      }),
  );
}

/** Jigsaw or template: never lowered on to a turning blade. */
function shapeTask({ part, feature, index, show }: Work): Task {
  const { from, to, depth, outline } = feature;
  const edge = faceWords(part, feature.face);
  const [low, high] = outline.length === 2 ? [0, 0] : [outline.at(-1)![0] - from, to - outline.at(-2)![0]];
  const sloped = low > SAME || high > SAME ? `, its ends sloping in by ${show(low)}` : "";
  const what =
    outline.length === 2
      ? `an arch ${show(to - from)} wide and ${show(depth)} high`
      : `${show(to - from)} wide and ${show(depth)} high${sloped}`;
  return {
    feature: index,
    kind: `shape ${edge}`,
    where: "",
    clears: null,
    tell: () =>
      `Cut out of the ${edge}, ${show(from)} from the ${faceWords(part, `${feature.along}0`)}: ${what}. Make a template of thin plywood from the full-size page, mark from it, saw outside the line with a jigsaw, the rail clamped down, and bring it to the line with a router and the template, or with rasp and scraper. Never by lowering it on to a turning blade: it is thrown back.`,
  };
}

/** Ends before edges, so that what breaks out at a corner is taken off by the cut along the grain. */
function edgeTask({ part, feature, index, show }: Work): Task {
  const { reason, depth, face } = feature;
  const radius = show(reason === "ogee" ? depth / 2 : depth);
  return {
    feature: index,
    kind: `edge ${reason} ${radius}`,
    where: faceWords(part, face),
    clears: null,
    tell: (where) =>
      `Upper edges, ${listInWords(where)}: ${reason} bit, ${reason === "chamfer" ? radius : `radius ${radius}`}, with a bearing, by the router in several light passes, against the bit's turn: from left to right along an edge before you. Ends first, then the edges along the grain. Try it on scrap of this thickness; the router's manual comes first.`,
  };
}

/**
 * At the saw with the blade tilted, the other edge against the fence and the longer face up: so the point stands at the upper face, clear of the
 * table, and the waste lies free below the blade on its far side.
 */
function mitreTask({ part, feature, index, show }: Work): Task {
  const longer = longerFace(feature);
  return {
    feature: index,
    kind: `mitre ${feature.face}`,
    where: "",
    clears: null,
    tell: () =>
      `Rip the ${faceWords(part, feature.face)} at 45°, after every other cut: ${show(part.width)} wide to the point, on the ${faceWords(part, longer)}, ${show(part.width - feature.depth)} on the ${faceWords(part, opposite(longer))}. The ${faceWords(part, opposite(feature.face))} against the fence, the ${faceWords(part, longer)} up, the fence ${show(part.width - feature.depth)} from the blade at the table. Test on two scraps as thick: held together they make a square corner with no light in the joint; turn the tilt by half of what a square shows. The blade tilts away from the fence, never over it: between a leaning blade and the fence a strip is caught and thrown back. Guard and riving knife on, a push stick past the blade, a featherboard before it. The saw's manual comes first.`,
  };
}

/** The slope lies inside the groove, before its end: at the stop the cutter only just breaks the face. */
function rampTask({ part, feature, index, show }: Work, length: Mm): Task[] {
  const stopped = ([0, 1] as const).filter((end) => stopsAt(part, feature, end));
  const ends = listInWords(stopped.map((end) => faceWords(part, `${feature.along}${end}`)));
  const slope = show(length);
  const depth = show(feature.depth);
  const tell = (where: string[]): string =>
    `Chisel the slope out of the ${plural(feature.kind, where.length)} for ${listInWords(where)} where ${where.length === 1 ? "it stops" : "they stop"} short of the ${ends}: ${slope} of it, down to ${depth}, square at the end.`;
  return [
    { feature: index, kind: `slope ${slope} ${feature.kind} ${ends}`, where: feature.holds ?? "", clears: null, tell },
  ];
}

function notchTask({ part, feature, index, show, nameOf }: Work): Task {
  const deep = axisOfFace(feature.face);
  const wide = thirdAxis(deep, feature.along);
  const side: Face = `${wide}${feature.at < sizeAlong(part, wide) / 2 ? "0" : "1"}`;
  const edge = faceWords(part, side);
  const noun = (axis: LocalAxis): string => (axis === "l" ? "end" : "edge");
  const [depth, width] = [feature.depth, feature.width].map(show);
  const tell = (where: string[], clears: string[]): string => {
    const why =
      clears.length === 0
        ? `for the ${feature.reason}`
        : `to clear the stopped ${plural("groove", clears.length)} in ${listInWords(clears)}`;
    return `Notch ${where.length === 1 ? "the corner" : "both corners"} at the ${edge}, ${listInWords(where)}: ${depth} in from the ${noun(deep)}, ${width} in from the ${noun(wide)}, ${why}.`;
  };
  const clears = feature.holds === null ? null : nameOf(feature.holds);
  return {
    feature: index,
    kind: `notch ${depth} ${width} ${edge}`,
    where: faceWords(part, feature.face),
    clears,
    tell,
  };
}
