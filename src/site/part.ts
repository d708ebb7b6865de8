/** The view of one part's page: what a maker at the saw wants to know with the part in one hand. */

import { isSame, type Mm, SAME, type Unit } from "../base/length.ts";
import { unitSoldBy } from "../base/sold.ts";
import { listInWords } from "../base/words.ts";
import { faceWords, isDrilledThrough } from "../set/facing.ts";
import type { DryfitSet, SetJoint, SetPart, SetSetting } from "../set/schema.ts";
import { formatMass, nameInSet, partOf, stockOf } from "../set/words.ts";
import type { DrawingView } from "./drawing.ts";
import { featureViews } from "./features.ts";
import { pageHead } from "./head.ts";
import { grainInWords, lengthView, sumView } from "./words.ts";

export type PartLink = { mark: string; name: string; href: string };

const SAFE_MARK = /^[0-9A-Za-z]+$/;

/** The file of a part's page below out/NAME/. */
export function partFile(mark: string): string {
  if (!SAFE_MARK.test(mark)) throw new Error(`Internal error: mark "${mark}" cannot name a file`);
  return `parts/${mark}.html`;
}

/** A link to a part's page from a page that has the root of the site at `root` ("" or "../"). */
export function partLink(set: DryfitSet, mark: string, root: string): PartLink {
  return { mark, name: nameInSet(set, partOf(set, mark)), href: root + partFile(mark) };
}

const ROOT = "../";

/** Null where the joint closes; `most` only where the gap is not the same everywhere. */
function gapView([least, most]: SetJoint["gap"], unit: Unit) {
  if (most < SAME) return null;
  return { least: lengthView(least, unit), most: isSame(least, most) ? null : lengthView(most, unit) };
}

function jointView(set: DryfitSet, part: SetPart, joint: SetJoint) {
  const enters = joint.entering === part.mark;
  const { unit } = set.job;
  const how = {
    housed: "housed",
    tongue: "housed by a tongue",
    butt: "butted",
    lap: "half-lapped",
    dovetail: "dovetailed",
    face: "laid on, face to face",
    edge: "edge to edge",
    pin: "on pins",
  }[joint.kind];
  return {
    own: faceWords(part, enters ? joint.enteringEnd : joint.receivingFace),
    verb: enters ? (joint.kind === "housed" ? "goes into" : "meets") : joint.kind === "housed" ? "takes" : "meets",
    other: partLink(set, enters ? joint.receiving : joint.entering, ROOT),
    how,
    depth: joint.depth > 0 ? lengthView(joint.depth, unit) : null,
    fit: { seated: "seated: pushed home", slip: "slip: not glued, free to move", floating: "free: it lifts out" }[
      joint.fit
    ],
    gap: gapView(joint.gap, unit),
    fixings: joint.fixings,
  };
}

function sumViews(set: DryfitSet, part: SetPart) {
  const { unit } = set.job;
  return part.sums.map((sum) => ({ what: sum.axis === "l" ? "Length" : "Width", ...sumView(sum, unit) }));
}

/** The bit by the unit that it is sold by, with what that is in the job's own. */
function boreView(diameter: Mm, unit: Unit) {
  const sold = unitSoldBy([diameter], unit);
  return sold === unit
    ? { diameter: lengthView(diameter, unit), soldBy: null, again: null }
    : { diameter: lengthView(diameter, sold), soldBy: sold, again: lengthView(diameter, unit) };
}

/** Rows of holes: the first, the pitch, the edge they keep to. */
const holeViews = (set: DryfitSet, part: SetPart) =>
  set.drilling.flatMap(({ diameter, depth, holds, rows }) =>
    rows
      .filter(({ mark }) => mark === part.mark)
      .map((row) => ({
        count: row.count,
        several: row.count > 1,
        holds,
        face: faceWords(part, row.face),
        ...boreView(diameter, set.job.unit),
        depth: isDrilledThrough(part, row.face, depth) ? null : lengthView(depth, set.job.unit),
        first: lengthView(row.first, set.job.unit),
        datum: faceWords(part, row.datum),
        pitch: lengthView(row.pitch, set.job.unit),
        distance: lengthView(row.distance, set.job.unit),
        edge: faceWords(part, row.edge),
      })),
  );

/** Settings that share a caution stand together: the same words five times over are no longer read. */
function byCaution(settings: readonly SetSetting[]) {
  const cautions = [...new Set(settings.map((setting) => setting.caution))];
  return cautions.map((caution) => ({
    caution,
    settings: settings.filter((one) => one.caution === caution).map(({ n, tool }) => ({ n, tool })),
  }));
}

function neighbour(set: DryfitSet, index: number): PartLink | null {
  const part = set.parts[index];
  return part === undefined ? null : partLink(set, part.mark, ROOT);
}

export function partView(set: DryfitSet, part: SetPart, drawings: DrawingView[]) {
  const { unit } = set.job;
  const index = set.parts.indexOf(part);
  const links = (marks: readonly string[]): PartLink[] => marks.map((mark) => partLink(set, mark, ROOT));
  const names = (faces: SetPart["show"]): string => listInWords(faces.map((face) => faceWords(part, face)));
  const settings = set.settings.filter((setting) => setting.runs.some((run) => run.mark === part.mark));
  return {
    ...pageHead(set, `${part.mark} ${nameInSet(set, part)}, ${set.job.title}`, ROOT),
    mark: part.mark,
    name: nameInSet(set, part),
    hand: part.hand === null ? "" : `${part.hand}: its mirror image is another part`,
    place: part.case,
    length: lengthView(part.length, unit),
    width: lengthView(part.width, unit),
    thickness: lengthView(part.thickness, unit),
    material: stockOf(set, part.material).name,
    grain: grainInWords(part),
    mass: formatMass(part.mass, unit),
    show: names(part.show),
    edges: names(part.edges),
    sums: sumViews(set, part),
    alike: links(part.alike),
    same: links(part.same),
    cut:
      part.lippings.length === 0
        ? null
        : { length: lengthView(part.cut.length, unit), width: lengthView(part.cut.width, unit) },
    lippings: part.lippings.map((lipping) => ({
      name: lipping.name,
      thickness: lengthView(lipping.thickness, unit),
      length: lengthView(lipping.to - lipping.from, unit),
      edge: faceWords(part, lipping.edge),
      lipped: lipping.lipped,
    })),
    holes: holeViews(set, part),
    features: featureViews(set, part).map((feature) => ({
      ...feature,
      holds: feature.holds === null ? null : partLink(set, feature.holds, ROOT),
    })),
    joints: set.joints
      .filter((joint) => joint.entering === part.mark || joint.receiving === part.mark)
      .map((joint) => jointView(set, part, joint)),
    settings: byCaution(settings),
    steps: set.steps.filter((step) => step.parts.includes(part.mark)).map((step) => ({ n: step.n, title: step.title })),
    checks: set.checks
      // Its look-alikes have a line of their own, with links.
      .filter((check) => check.level !== "ok" && check.id !== "look-alike" && check.parts.includes(part.mark))
      .map((check) => ({ level: check.level, text: check.text, change: check.change })),
    drawings,
    previous: neighbour(set, index - 1),
    next: neighbour(set, index + 1),
  };
}
