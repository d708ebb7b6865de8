/** What is cut out of a part, in words, each distance from the datum that its setting uses. */
import { isSame, type Mm } from "../base/length.ts";
import type { DryfitSet, Face, SetFeature, SetPart, SetSetting } from "../set/schema.ts";
import { faceInWords, faceName, type LengthView, lengthView, listInWords } from "./site-words.ts";

type Axis = "l" | "w" | "t";

export type FeatureView = {
  what: string;
  face: string;
  /** "15 1/4 from the bottom end"; null for a notch, which lies at its ends and edges. */
  wall: { distance: LengthView; datum: string } | null;
  width: LengthView;
  depth: LengthView;
  /** Where it stops short: each stop, and the edge it keeps clear of. */
  stops: { distance: LengthView; short: string }[];
  holds: string | null;
  reason: string;
  settings: number[];
  byHand: string;
};

const sizeAlong = (part: SetPart, axis: Axis): Mm => ({ l: part.length, w: part.width, t: part.thickness })[axis];

/** The axis across the run, in the plane of the face: the one that `at` and `width` measure. */
function acrossOf(feature: SetFeature): Axis {
  const rest = (["l", "w", "t"] as const).filter((axis) => axis !== feature.along && axis !== feature.face[0]);
  return rest[0] as Axis;
}

const DIRECTION = { l: "with the grain", w: "across the grain", t: "through the thickness" } as const;

function whatIs(part: SetPart, feature: SetFeature): string {
  const name = { groove: "Groove", rabbet: "Rabbet", notch: "Notch" }[feature.kind];
  return feature.kind === "notch" || part.grain === "none" ? name : `${name} ${DIRECTION[feature.along]}`;
}

/** Ends and edges that a notch takes in: those its box reaches without spanning the part. */
function cornerOf(part: SetPart, feature: SetFeature): string {
  const touched: Face[] = [];
  (["l", "w", "t"] as const).forEach((axis, i) => {
    const low = isSame(feature.box[0][i as 0 | 1 | 2], 0);
    const high = isSame(feature.box[1][i as 0 | 1 | 2], sizeAlong(part, axis));
    if (low && !high) touched.push(`${axis}0`);
    if (high && !low) touched.push(`${axis}1`);
  });
  return listInWords(touched.map((face) => faceName(part, face)));
}

type Run = { setting: SetSetting; datum: Face };

const runsOf = (set: DryfitSet, part: SetPart, index: number): Run[] =>
  set.settings.flatMap((setting) =>
    setting.runs
      .filter((run) => run.mark === part.mark && run.feature === index)
      .map((run) => ({ setting, datum: run.datum })),
  );

/** The first setting's own fence distance; a groove that no setting cuts is measured from the part's own low side. */
function wallOf(set: DryfitSet, part: SetPart, feature: SetFeature, run: Run | undefined): FeatureView["wall"] {
  if (feature.kind === "notch") return null;
  const datum = run?.datum ?? (`${acrossOf(feature)}0` as Face);
  return { distance: lengthView(run?.setting.fence ?? feature.at, set.job.unit), datum: faceName(part, datum) };
}

function stopsOf(set: DryfitSet, part: SetPart, feature: SetFeature): FeatureView["stops"] {
  if (feature.kind === "notch") return [];
  const end = sizeAlong(part, feature.along);
  const stops: FeatureView["stops"] = [];
  const add = (distance: Mm, face: Face): void => {
    stops.push({ distance: lengthView(distance, set.job.unit), short: faceName(part, face) });
  };
  if (feature.ends[0] === "square") add(feature.from, `${feature.along}0`);
  if (feature.ends[1] === "square") add(end - feature.to, `${feature.along}1`);
  return stops;
}

export function featureViews(set: DryfitSet, part: SetPart): FeatureView[] {
  return part.features.map((feature, index) => {
    const runs = runsOf(set, part, index);
    return {
      what: whatIs(part, feature),
      face: feature.kind === "notch" ? cornerOf(part, feature) : faceInWords(part, feature.face),
      wall: wallOf(set, part, feature, runs[0]),
      width: lengthView(feature.width, set.job.unit),
      depth: lengthView(feature.depth, set.job.unit),
      stops: stopsOf(set, part, feature),
      holds: feature.holds,
      reason: feature.reason,
      settings: runs.map((run) => run.setting.n),
      byHand: set.handWork
        .filter((work) => work.mark === part.mark && work.feature === index)
        .map((work) => work.text)
        .join(" "),
    };
  });
}
