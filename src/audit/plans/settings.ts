/** The settings: each groove and rabbet is cut once, and by a setting that makes just that groove. */
import type { Mm } from "../../base/length.ts";
import type { DryfitSet, SetCheck, SetFeature, SetPart, SetSetting } from "../../set/schema.ts";
import { TOUCH } from "../solids/boxes.ts";
import { axesOfFeature, faceAxis, isHighFace, sizeOf } from "../solids/solid.ts";
import { amount, failure, featureName, type Job, nameOf } from "../words.ts";
import { checkPlunges, checkSizing, checkStops, stopsIn } from "./stops.ts";
import { checkGuide, checkStraightedge } from "./straightedge.ts";

type Run = SetSetting["runs"][number];

/** A run with what it cuts. */
type Cut = { setting: SetSetting; run: Run; part: SetPart; feature: SetFeature };

/** How far a groove's two walls lie from the datum it is measured from. */
export type Walls = { near: Mm; far: Mm };

const isEqual = (a: Mm, b: Mm): boolean => Math.abs(a - b) <= TOUCH;
/** Cut at a setting: a groove, rabbet, shoulder or lap. */
export const isHousing = ({ kind }: SetFeature): boolean =>
  kind !== "notch" &&
  kind !== "socket" &&
  kind !== "stub mortise" &&
  kind !== "hole" &&
  kind !== "mortise" &&
  kind !== "slot" &&
  kind !== "shape" &&
  kind !== "edge" &&
  kind !== "mitre";

export const checkSettings = (set: DryfitSet): SetCheck[] => {
  const cuts = cutsOf(set);
  return [
    ...checkCount(set),
    ...checkSizing(set),
    ...checkEachCutOnce(set, cuts),
    ...checkRuns(set),
    ...checkDatums(set, cuts),
    ...set.settings.flatMap((setting) => {
      const own = cuts.filter((cut) => cut.setting === setting);
      return [
        ...checkHolds(setting, own),
        ...checkStopped(setting, own),
        ...checkGuide(setting, partsOfCuts(own)),
        ...checkPlunges(setting, partsOfCuts(own), set.job),
      ];
    }),
    ...cuts.flatMap((cut) => checkCut(cut, set.job)),
  ];
};

/** What is said of their number is what they are; whether fewer would do is proved elsewhere. */
function checkCount({ settings, settingsCount }: DryfitSet): SetCheck[] {
  const { count, least, proved, fromLowEnds } = settingsCount;
  const isTrue = count === settings.length && least <= count && proved === (least === count) && count <= fromLowEnds;
  if (isTrue) return [];
  return [
    failure(
      "settings-count",
      [],
      `${settings.length} settings are listed, ${count} counted, at least ${least} needed${proved ? ", and that is said to be proved" : ""}: these do not agree. Change: count again.`,
    ),
  ];
}

const partsOfCuts = (cuts: readonly Cut[]): SetPart[] => cuts.map(({ part }) => part);

function cutsOf(set: DryfitSet): Cut[] {
  const parts = new Map(set.parts.map((part) => [part.mark, part]));
  return set.settings.flatMap((setting) =>
    setting.runs.flatMap((run): Cut[] => {
      const part = parts.get(run.mark);
      const feature = part?.features[run.feature];
      return part && feature && isHousing(feature) ? [{ setting, run, part, feature }] : [];
    }),
  );
}

/** A groove that no tool of the shop cuts has a failure of its own, which counts groove by groove. */
function checkEachCutOnce(set: DryfitSet, cuts: readonly Cut[]): SetCheck[] {
  const settingsOf = new Map<string, number[]>();
  for (const { run, setting } of cuts) {
    const key = `${run.mark} ${run.feature}`;
    settingsOf.set(key, [...(settingsOf.get(key) ?? []), setting.n]);
  }
  return set.parts.flatMap((part) => {
    const made = part.features
      .map((feature, i) => ({ feature, by: settingsOf.get(`${part.mark} ${i}`) ?? [] }))
      .filter(({ feature }) => isHousing(feature));
    const uncut = made.filter(({ by }) => by.length === 0);
    const toolless = set.checks.filter(
      ({ id, level, parts }) => id === "no-tool" && level === "failure" && parts.includes(part.mark),
    );
    const missing = uncut.length <= toolless.length ? [] : uncut;
    return [
      ...missing.map(({ feature }) =>
        failure(
          "run",
          [part],
          `No setting cuts ${featureName(part, feature, set.job)}. Change: give it a run in one setting.`,
        ),
      ),
      ...made
        .filter(({ by }) => by.length > 1)
        .map(({ feature, by }) =>
          failure(
            "run",
            [part],
            `${featureName(part, feature, set.job)} is cut ${by.length} times, by settings ${by.join(", ")}. Change: leave one run only.`,
          ),
        ),
    ];
  });
}

function checkRuns(set: DryfitSet): SetCheck[] {
  return set.settings.flatMap(({ n, runs }): SetCheck[] => {
    if (runs.length === 0) return [failure("run", [], `Setting ${n} cuts nothing. Change: leave it out.`)];
    return runs.flatMap((run): SetCheck[] => {
      const part = set.parts.find(({ mark }) => mark === run.mark);
      const feature = part?.features[run.feature];
      if (feature && isHousing(feature)) return [];
      return [
        failure(
          "run",
          part ? [part] : [],
          `Setting ${n} cuts a groove that part ${run.mark} does not have. Change: leave the run out.`,
        ),
      ];
    });
  });
}

function checkHolds(setting: SetSetting, cuts: readonly Cut[]): SetCheck[] {
  const list = (marks: readonly (string | null)[]): string =>
    [...new Set(marks)]
      .filter((mark) => mark !== null)
      .sort()
      .join(", ");
  const [stated, held] = [list(setting.holds), list(cuts.map(({ feature }) => feature.holds))];
  if (stated === held) return [];
  return [
    failure(
      "setting",
      partsOfCuts(cuts),
      `Setting ${setting.n} is said to be for ${stated || "no part"}, but its grooves hold ${held || "no part"}. Change: name what they hold.`,
    ),
  ];
}

/** Parts that hold one part are measured from one end or edge, so that it stands square however long they came out. */
function checkDatums({ parts }: DryfitSet, cuts: readonly Cut[]): SetCheck[] {
  const placing = cuts.flatMap(({ run, part, feature }) => {
    if (feature.kind === "shoulder" || feature.holds === null || part.place === null) return [];
    const direction = part.place[faceAxisName(run.datum)];
    const isLow = isHighFace(run.datum) !== (direction[0] === "+");
    return [{ part, held: feature.holds, axis: direction[1]!, isLow }];
  });
  const groups = new Map<string, typeof placing>();
  for (const one of placing) {
    const key = `${one.held} ${one.axis}`;
    groups.set(key, [...(groups.get(key) ?? []), one]);
  }
  return [...groups.values()].flatMap((group): SetCheck[] => {
    if (group.every(({ isLow }) => isLow === group[0]!.isLow)) return [];
    const held = parts.find(({ mark }) => mark === group[0]!.held);
    return [
      failure(
        "datum",
        group.map(({ part }) => part),
        `What holds ${held ? nameOf(held) : group[0]!.held} is measured from one end in ${list(group.filter(({ isLow }) => isLow))}, from the other in ${list(group.filter(({ isLow }) => !isLow))}. Change: measure from the same end of every part that holds it.`,
      ),
    ];
  });
}

const list = (group: readonly { part: SetPart }[]): string =>
  [...new Set(group.map(({ part }) => nameOf(part)))].join(", ");
const faceAxisName = (face: Cut["run"]["datum"]): "l" | "w" | "t" => face[0] as "l" | "w" | "t";

/** A setting is called stopped where one of its runs is. */
function checkStopped(setting: SetSetting, cuts: readonly Cut[]): SetCheck[] {
  const stops = cuts.some(({ part, feature }) => isStopped(part, feature));
  if (cuts.length === 0 || setting.stopped === stops) return [];
  return [
    failure(
      "setting",
      partsOfCuts(cuts),
      `Setting ${setting.n} is said to be ${setting.stopped ? "stopped" : "through"}, but ${stops ? "one of its runs stops" : "none of its runs stops"}. Change: say so.`,
    ),
  ];
}

/** The groove that a run makes, against the part's own figures. */
function checkCut(cut: Cut, job: Job): SetCheck[] {
  const { setting, part, feature } = cut;
  const name = featureName(part, feature, job);
  const told = differences(cut, job);
  const checks: SetCheck[] = [];
  if (told.length > 0) {
    checks.push(
      failure(
        "setting",
        [part],
        `Setting ${setting.n} does not make ${name}: ${told.join("; ")}. Change: give it the part's own figures.`,
      ),
    );
  }
  const walls = wallsFrom(cut);
  if (walls === null) {
    checks.push(
      failure(
        "fence",
        [part],
        `Setting ${setting.n} measures ${name} from ${cut.run.datum}, which does not lie beside it. Change: measure from the end or edge beside it.`,
      ),
    );
    return checks;
  }
  return [...checks, ...checkStops(cut, job), ...checkFence(cut, walls, job), ...checkStraightedge(cut, walls, job)];
}

/** Whether the cutter stops in the wood; a groove that ends at a lipping put on afterwards runs through the panel's own edge. */
const isStopped = (part: SetPart, feature: SetFeature): boolean => stopsIn(part, feature).length > 0;

function differences({ setting, run, part, feature }: Cut, job: Job): string[] {
  const words: string[] = [];
  const compare = (what: string, stated: Mm, wanted: Mm): void => {
    if (!isEqual(stated, wanted)) words.push(`${what} ${amount(stated, job)}, but it is ${amount(wanted, job)}`);
  };
  if (setting.operation !== feature.kind) words.push(`a ${setting.operation}, but it is a ${feature.kind}`);
  if (run.face !== feature.face) words.push(`in face ${run.face}, but it is in ${feature.face}`);
  compare("width", setting.width, feature.width);
  compare("depth", setting.depth, feature.depth);
  compare("from", run.from, feature.from);
  compare("to", run.to, feature.to);
  const stopped = isStopped(part, feature);
  if (run.stopped !== stopped) {
    const word = (is: boolean): string => (is ? "stopped" : "through");
    words.push(`${word(run.stopped)}, but it is ${word(stopped)}`);
  }
  return words;
}

/** Null where the datum is no end or edge beside the groove. */
function wallsFrom({ run, part, feature }: Cut): Walls | null {
  const axes = axesOfFeature(feature);
  const axis = faceAxis(run.datum);
  if (!axes || axis !== axes.across) return null;
  const [low, high] = [feature.at, feature.at + feature.width];
  const extent = sizeOf(part)[axis];
  // A lipping put on after the grooves is not there yet: the panel's own edge is the datum.
  const later = part.lippings
    .filter(({ edge, lipped }) => edge === run.datum && lipped === "after")
    .reduce((sum, { thickness }) => sum + thickness, 0);
  return isHighFace(run.datum)
    ? { near: extent - high - later, far: extent - low - later }
    : { near: low - later, far: high - later };
}

function checkFence({ setting, run, part, feature }: Cut, { near, far }: Walls, job: Job): SetCheck[] {
  // A cut that opens to the datum itself is set by its inner wall, against a sacrificial face.
  const opens = isEqual(near, 0);
  const wanted = opens ? far : near;
  const checks: SetCheck[] = [];
  if (setting.sacrificial !== opens) {
    checks.push(
      failure(
        "fence",
        [part],
        `Setting ${setting.n} ${setting.sacrificial ? "asks for a" : "has no"} sacrificial face, but the ${feature.kind} of ${nameOf(part)} ${opens ? "opens to" : "stays clear of"} its datum ${run.datum}. Change: ${opens ? "let the cutter run into one" : "leave it out"}.`,
      ),
    );
  }
  if (isEqual(setting.fence, wanted)) return checks;
  return [
    ...checks,
    failure(
      "fence",
      [part],
      `Setting ${setting.n} has the fence at ${amount(setting.fence, job)}, but the ${feature.kind} of ${nameOf(part)} is ${amount(wanted, job)} from its datum ${run.datum}. Change: set the fence to ${amount(wanted, job)}.`,
    ),
  ];
}
