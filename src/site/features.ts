/** What is cut out of a part, in words, each distance from the datum that its setting uses. */

import type { AxisIndex } from "../base/geometry.ts";
import { isSame, type Mm } from "../base/length.ts";
import { listInWords } from "../base/words.ts";
import {
  axisOfFace,
  endsSquare,
  faceWords,
  LOCAL_AXES,
  type LocalAxis,
  longerFace,
  opposite,
  sizeAlong,
  thirdAxis,
} from "../set/facing.ts";
import type { DryfitSet, Face, SetFeature, SetPart, SetSetting } from "../set/schema.ts";
import { type LengthView, lengthView } from "./words.ts";

export type FeatureView = {
  what: string;
  face: string;
  /** "15 1/4 from the bottom end": a groove's nearer wall; a notch's far corner, from each end or edge that it takes in. */
  walls: { distance: LengthView; datum: string }[];
  /** Width and depth of a groove; a notch goes through, and its walls say it all. */
  size: { width: LengthView; depth: LengthView } | null;
  /** Where it stops short: each stop, and the edge it keeps clear of. */
  stops: { distance: LengthView; short: string }[];
  holds: string | null;
  reason: string;
  settings: number[];
  byHand: string;
};

/** The axis across the run, in the plane of the face: the one that `at` and `width` measure. */
const acrossOf = (feature: SetFeature): LocalAxis => thirdAxis(feature.along, axisOfFace(feature.face));

const DIRECTION = { l: "with the grain", w: "across the grain", t: "through the thickness" } as const;

function whatIs(part: SetPart, feature: SetFeature): string {
  const name = {
    groove: "Groove",
    rabbet: "Rabbet",
    notch: "Notch",
    shoulder: "Rabbet for the tongue",
    hole: "Hole",
    mortise: "Mortise",
    "stub mortise": "Stub mortise",
    socket: "Socket",
    lap: "Lap",
    shape: "Shaped edge",
    edge: { roundover: "Roundover", chamfer: "Chamfer", ogee: "Ogee" }[feature.reason] ?? "Moulded edge",
    slot: "Slot",
    mitre: "Mitre, 45°",
  }[feature.kind];
  return feature.kind === "notch" ||
    feature.kind === "shape" ||
    feature.kind === "edge" ||
    feature.kind === "mitre" ||
    part.grain === "none"
    ? name
    : `${name} ${DIRECTION[feature.along]}`;
}

/** Ends and edges that a notch takes in: those its box reaches without spanning the part. */
function cornerOf(part: SetPart, feature: SetFeature): { face: Face; size: Mm }[] {
  return LOCAL_AXES.flatMap((axis, index) => {
    const i = index as AxisIndex;
    const isLow = isSame(feature.box[0][i], 0);
    const isHigh = isSame(feature.box[1][i], sizeAlong(part, axis));
    const size = feature.box[1][i] - feature.box[0][i];
    return isLow === isHigh ? [] : [{ face: `${axis}${isLow ? "0" : "1"}` as Face, size }];
  });
}

type Run = { setting: SetSetting; datum: Face };

const runsOf = (set: DryfitSet, part: SetPart, index: number): Run[] =>
  set.settings.flatMap((setting) =>
    setting.runs
      .filter((run) => run.mark === part.mark && run.feature === index)
      .map((run) => ({ setting, datum: run.datum })),
  );

/** The first setting's own fence distance; a groove that no setting cuts is measured from the part's own low side. */
function wallsOf(set: DryfitSet, part: SetPart, feature: SetFeature, run: Run | undefined): FeatureView["walls"] {
  const { unit } = set.job;
  if (feature.kind === "notch") {
    return cornerOf(part, feature).map(({ face, size }) => ({
      distance: lengthView(size, unit),
      datum: faceWords(part, face),
    }));
  }
  // Along the whole edge: nothing is measured.
  if (feature.kind === "edge") return [];
  if (feature.kind === "shape") {
    const end = `${feature.along}0` as Face;
    return [{ distance: lengthView(feature.from, unit), datum: faceWords(part, end) }];
  }
  if (feature.kind === "mitre")
    return [part.width, part.width - feature.depth].map((width, i) => ({
      distance: lengthView(width, unit),
      datum: `${faceWords(part, opposite(feature.face))}, on the ${faceWords(part, i === 0 ? longerFace(feature) : opposite(longerFace(feature)))}`,
    }));
  const datum = run?.datum ?? (`${acrossOf(feature)}0` as Face);
  return [{ distance: lengthView(run?.setting.fence ?? feature.at, unit), datum: faceWords(part, datum) }];
}

function stopsOf(set: DryfitSet, part: SetPart, feature: SetFeature): FeatureView["stops"] {
  if (feature.kind === "notch" || feature.kind === "shape" || feature.kind === "mitre") return [];
  const end = sizeAlong(part, feature.along);
  const stops: FeatureView["stops"] = [];
  const add = (distance: Mm, face: Face): void => {
    stops.push({ distance: lengthView(distance, set.job.unit), short: faceWords(part, face) });
  };
  if (endsSquare(part, feature, 0)) add(feature.from, `${feature.along}0`);
  if (endsSquare(part, feature, 1)) add(end - feature.to, `${feature.along}1`);
  return stops;
}

/** Those that are told alike, such as the mortises of one joint, are told once. */
export function featureViews(set: DryfitSet, part: SetPart): FeatureView[] {
  const alike = new Map<string, FeatureView[]>();
  for (const view of everyView(set, part)) {
    const key = JSON.stringify(view);
    alike.set(key, [...(alike.get(key) ?? []), view]);
  }
  return [...alike.values()].map((views) => {
    const [first] = views as [FeatureView];
    return views.length === 1
      ? first
      : { ...first, what: `${views.length} \u00d7 ${first.what[0]!.toLowerCase()}${first.what.slice(1)}` };
  });
}

function everyView(set: DryfitSet, part: SetPart): FeatureView[] {
  return part.features.flatMap((feature, index): FeatureView[] => {
    // Holes are told row by row where the set plans their drilling; a corner left open by a lipping is not cut.
    const isInRow = set.drilling.some(({ rows }) =>
      rows.some((row) => row.mark === part.mark && row.features.includes(index)),
    );
    if (isInRow || feature.lipping) return [];
    const runs = runsOf(set, part, index);
    const view: FeatureView = {
      what: whatIs(part, feature),
      face:
        feature.kind === "notch"
          ? listInWords(cornerOf(part, feature).map(({ face }) => faceWords(part, face)))
          : faceWords(part, feature.face),
      walls: wallsOf(set, part, feature, runs[0]),
      size:
        feature.kind === "notch" || feature.kind === "mitre"
          ? null
          : {
              width: lengthView(feature.kind === "shape" ? feature.to - feature.from : feature.width, set.job.unit),
              depth: lengthView(feature.depth, set.job.unit),
            },
      stops: stopsOf(set, part, feature),
      holds: feature.holds,
      reason: feature.reason,
      settings: runs.map((run) => run.setting.n),
      byHand: set.handWork
        .filter((work) => work.mark === part.mark && work.features.includes(index))
        .map((work) => work.text)
        .join(" "),
    };
    return [view];
  });
}
