/** Grooves, rabbets, shoulders and laps of a part, each kind once, in words. */

import { isSame, type Mm } from "../../base/length.ts";
import { listInWords } from "../../base/words.ts";
import { edgeThen, endsSquare, faceWords, lippedAfter, meetingGroove } from "../../set/facing.ts";
import type { DryfitSet, Face, SetFeature, SetPart } from "../../set/schema.ts";
import { byMark } from "../../set/words.ts";
import { type Atom, checkFigure, figure, TEXT, words } from "../draughting/cell.ts";
import { facesOf, isChannel } from "./part-axes.ts";

/** How a cut ends short of its part's own end: in plain wood, or in the groove of another part. */
type Stop = { end: string; by: Mm } | { end: string; into: string };

/** Features cut alike, whatever they hold and wherever they lie. */
type Kind = { feature: SetFeature; holds: string[]; stops: Stop[] };

/** Whether a groove carries straight on from where another ends: two cuts on paper, one at the saw. */
const carriesOn = (a: SetFeature, b: SetFeature): boolean =>
  a.kind === b.kind &&
  a.face === b.face &&
  a.along === b.along &&
  isSame(a.at, b.at) &&
  isSame(a.width, b.width) &&
  isSame(a.depth, b.depth) &&
  isSame(a.to, b.from) &&
  a.ends[1] === "open" &&
  b.ends[0] === "open";

/** Features by their places in the part's list, those that carry each other on as one run, in order along it. */
function runsOf(part: SetPart): number[][] {
  const runs: number[][] = [];
  part.features.forEach((feature, i) => {
    if (!isChannel(feature)) return;
    const before = runs.find((run) => carriesOn(part.features[run.at(-1)!]!, feature));
    const after = runs.find((run) => carriesOn(feature, part.features[run[0]!]!));
    if (before !== undefined) before.push(i);
    else if (after !== undefined) after.unshift(i);
    else runs.push([i]);
  });
  // Across the length first: they are the most, and cut first.
  const isAlong = ([first]: number[]): number => (part.features[first!]!.along === "l" ? 1 : 0);
  return runs.sort((a, b) => isAlong(a) - isAlong(b));
}

function stopsOf(part: SetPart, run: readonly number[]): Stop[] {
  return ([0, 1] as const).flatMap((end): Stop[] => {
    const index = end === 0 ? run[0]! : run.at(-1)!;
    const feature = part.features[index]!;
    const size = feature.along === "l" ? part.length : part.width;
    const edge = `${feature.along}${end}` as Face;
    const named = edgeThen(part, edge);
    if (endsSquare(part, feature, end)) {
      return [{ end: named, by: (end === 0 ? feature.from : size - feature.to) - lippedAfter(part, edge) }];
    }
    const into = meetingGroove(part, index, end)?.holds ?? null;
    return into === null ? [] : [{ end: named, into }];
  });
}

const stopText = (stop: Stop): string =>
  "into" in stop ? `${stop.end} into ${stop.into}` : `${stop.end} ${stop.by.toFixed(4)}`;

const isAlike = (a: Kind, b: Kind): boolean =>
  a.feature.kind === b.feature.kind &&
  a.feature.face === b.feature.face &&
  a.feature.along === b.feature.along &&
  isSame(a.feature.width, b.feature.width) &&
  isSame(a.feature.depth, b.feature.depth) &&
  a.stops.map(stopText).join() === b.stops.map(stopText).join();

function kindsOf(part: SetPart): Kind[] {
  const kinds: Kind[] = [];
  for (const run of runsOf(part)) {
    const features = run.map((index) => part.features[index]!);
    const holds = features.flatMap((feature) => feature.holds ?? []);
    const one: Kind = { feature: features[0]!, holds, stops: stopsOf(part, run) };
    const same = kinds.find((kind) => isAlike(kind, one));
    if (same === undefined) kinds.push(one);
    else same.holds.push(...holds);
  }
  return kinds;
}

/** At an end or edge of the part: its one wall is on the view, so that its width is only a check. */
const isOpenBeside = (part: SetPart, { along, at, width }: SetFeature): boolean =>
  isSame(at, 0) || isSame(at + width, along === "l" ? part.width : part.length);

/**
 * "3, 5 and 8: groove, 17.9 wide, 9 deep, stopped short of the front edge": how far is on the view.
 */
function kindAtoms(set: DryfitSet, part: SetPart, { feature, holds, stops }: Kind): Atom[] {
  const { unit } = set.job;
  const isEdged = !feature.face.startsWith("t");
  const where = isEdged || facesOf(set, part).length > 1 ? ` in the ${faceWords(part, feature.face)}` : "";
  // A tongue may have a shoulder on either face.
  const taken = part.features
    .filter(
      ({ kind, along, at, holds: own }) =>
        kind === "shoulder" && along === feature.along && isSame(at, feature.at) && own === feature.holds,
    )
    .reduce((sum, { depth }) => sum + depth, 0);
  return [
    ...(holds.length === 0 ? [] : words(`${listInWords([...holds].sort(byMark))}:`, TEXT, "bold")),
    ...words(`${feature.kind}${feature.along === "l" ? " along the length" : ""}${where},`),
    (isOpenBeside(part, feature) ? checkFigure : figure)(feature.width, unit),
    ...words("wide,"),
    figure(feature.depth, unit),
    ...(feature.kind === "shoulder"
      ? [...words("deep, leaving a tongue"), checkFigure(part.thickness - taken, unit), ...words("thick,")]
      : words("deep,")),
    ...(isEdged && feature.kind === "groove"
      ? [figure(feature.at, unit), ...words(`from the ${faceWords(part, "t0")},`)]
      : []),
    ...(stops.length === 0 ? words(feature.kind === "lap" ? "halved with it" : "through") : []),
    ...stops.flatMap((stop, i) => [
      ...(i === 0 ? [] : words("and")),
      ...("into" in stop
        ? words(`at the ${stop.end} into the groove of ${stop.into}`)
        : isEdged
          ? [...words("stopped"), figure(stop.by, unit), ...words(`from the ${stop.end}`)]
          : words(`stopped short of the ${stop.end}`)),
    ]),
  ];
}

/** A line a kind of groove, rabbet, shoulder or lap. */
export const grooveLines = (set: DryfitSet, part: SetPart): Atom[][] =>
  kindsOf(part).map((kind) => kindAtoms(set, part, kind));
