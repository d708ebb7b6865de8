/** A settings row turned back into the groove it makes, by one who stands at the machine and knows the row alone: fence, cutter, face, datum, run. */
import { expect } from "vitest";
import type { DryfitSet, SetPart, SetSetting } from "../../../src/set/schema.ts";

type Range = readonly [number, number];
type Cut = { mark: string; face: string; l: Range; w: Range; t: Range };
type Run = SetSetting["runs"][number];

const AXES = ["l", "w", "t"] as const;
type Axis = (typeof AXES)[number];

export const sizeOf = (part: SetPart, axis: Axis): number =>
  ({ l: part.length, w: part.width, t: part.thickness })[axis];

/** The axis along the cut. */
export const alongOf = ({ face, datum }: Run): Axis => AXES.find((axis) => axis !== face[0] && axis !== datum[0])!;

/** What is glued to an edge after the cut: the part comes to the machine without it. */
export const missingAt = (part: SetPart, face: string): number =>
  part.lippings.find(({ edge, lipped }) => edge === face && lipped === "after")?.thickness ?? 0;

type Feature = SetPart["features"][number];

const IS_IN_ROWS: Record<Feature["kind"], boolean> = {
  groove: true,
  rabbet: true,
  shoulder: true,
  lap: true,
  notch: false,
  socket: false,
  "stub mortise": false,
  hole: false,
  mortise: false,
  slot: false,
  shape: false,
  edge: false,
  mitre: false,
};

/** Whether a row of the settings makes it; the drilling and the hand work make the rest. */
export const isInRows = (feature: Feature): feature is Feature & { kind: SetSetting["operation"] } =>
  IS_IN_ROWS[feature.kind];

/** Grooves in one line are one pass of the cutter, where nothing but another groove lies between them. */
export function passOf(part: SetPart, feature: Feature): Pick<Feature, "from" | "to" | "ends"> {
  const text = ({ kind, face, along, at, width, depth }: Feature): string =>
    [kind, face, along, ...[at, width, depth].map((one) => Math.round(one * 1000 + 0.31))].join(" ");
  const line = part.features.filter((one) => text(one) === text(feature)).sort((a, b) => a.from - b.from);
  const isOpenBetween = (a: Feature, b: Feature): boolean =>
    b.from - a.to < 1e-4 ||
    part.features.some(
      (one) =>
        (one.kind === "groove" || one.kind === "rabbet") &&
        one.face === a.face &&
        one.along !== a.along &&
        one.at < a.to + 1e-4 &&
        one.at + one.width > b.from - 1e-4 &&
        one.from < a.at + a.width / 2 &&
        one.to > a.at + a.width / 2,
    );
  const passes: Feature[][] = [];
  for (const one of line) {
    const last = passes.at(-1)?.at(-1);
    if (last?.ends[1] === "open" && one.ends[0] === "open" && isOpenBetween(last, one)) passes.at(-1)!.push(one);
    else passes.push([one]);
  }
  const own = passes.find((pass) => pass.includes(feature))!;
  return { from: own[0]!.from, to: own.at(-1)!.to, ends: [own[0]!.ends[0], own.at(-1)!.ends[1]] };
}

/** What a person with only the row would take out of the part. */
export function cutBy(setting: SetSetting, run: Run, part: SetPart): Cut {
  const into = run.face[0] as Axis;
  const across = run.datum[0] as Axis;
  const size = sizeOf(part, across);
  const near = (setting.sacrificial ? setting.fence - setting.width : setting.fence) + missingAt(part, run.datum);
  const fromDatum: Range = [near, near + setting.width];
  const walls: Range = run.datum.endsWith("0") ? fromDatum : [size - fromDatum[1], size - fromDatum[0]];
  const deep: Range = run.face.endsWith("0")
    ? [0, setting.depth]
    : [sizeOf(part, into) - setting.depth, sizeOf(part, into)];
  const ranges = { [into]: deep, [across]: walls, [alongOf(run)]: [run.from, run.to] } as Record<Axis, Range>;
  return { mark: part.mark, face: run.face, ...ranges };
}

/** What the router would take out, from where its straightedge lies: half the base and half the bit away, pass by pass. */
export function routedBy(setting: SetSetting, run: Run, part: SetPart): Range {
  const { base, bit, near, far } = setting.straightedge!;
  // The straightedge is on the router's one side in all passes; the groove's near wall tells on which.
  const side = near < setting.fence ? 1 : -1;
  const centres = [near, far ?? near].map((at) => at + (side * base) / 2);
  const from = Math.min(...centres) - bit / 2 + missingAt(part, run.datum);
  const to = Math.max(...centres) + bit / 2 + missingAt(part, run.datum);
  const size = sizeOf(part, run.datum[0] as Axis);
  return run.datum.endsWith("0") ? [from, to] : [size - to, size - from];
}

type End = { from: number; until: number };

/**
 * Where the cutter gets to at the low and the high end, by the row alone: to the panel's own edge where nothing stops it; else to where the
 * block stops it, if not sooner. `from`: where the wood that is left begins, as the row has it; `until`: where the block ends all.
 */
function endsBy(setting: SetSetting, run: Run, part: SetPart): [End, End] {
  const axis = alongOf(run);
  const [low, high] = [missingAt(part, `${axis}0`), sizeOf(part, axis) - missingAt(part, `${axis}1`)];
  const end = (edge: string, at: number, inward: 1 | -1): End => {
    const stop = run.stops.find((one) => one.edge === edge);
    if (stop === undefined) return { from: at, until: at };
    const router = setting.straightedge;
    // The router's base meets the block, and the bit's rim is so far ahead of it; at the saw the leading end has gone so far.
    const left = router === null ? high - low - stop.block : stop.block + router.ahead - router.bit / 2;
    return { from: at + inward * stop.leave, until: at + inward * left };
  };
  return [end(`${axis}0`, low, 1), end(`${axis}1`, high, -1)];
}

/** A cut ends where its groove does; only in another groove across its end it may go on, as far as that one's far wall. */
function expectStopsToEndTheGrooves(setting: SetSetting, run: Run, part: SetPart): void {
  const where = `setting ${setting.n}, part ${part.mark}`;
  const feature = part.features[run.feature]!;
  const pass = passOf(part, feature);
  endsBy(setting, run, part).forEach(({ from, until }, i) => {
    const isStopped = run.stops.some(({ edge }) => edge === `${alongOf(run)}${i}`);
    const end = i === 0 ? pass.from : pass.to;
    // What runs out at the panel's own edge may go on through a lipping that comes later.
    const short = isStopped ? Math.abs(end - from) : i === 0 ? end - from : from - end;
    expect(short, where).toBeLessThan(5e-4);
    if (Math.abs(until - from) < 1e-3) return;
    expect(pass.ends[i], where).toBe("open");
    const [near, far] = i === 0 ? [until, from] : [from, until];
    const across = part.features.some(
      (one) =>
        one.face === feature.face &&
        one.along !== feature.along &&
        one.at <= near + 1e-3 &&
        one.at + one.width >= far - 1e-3,
    );
    expect(across, `${where}: runs on into wood`).toBe(true);
  });
  if (setting.ramp === null) return;
  // A circle of the cutter's radius through the face at the stop, its lowest point at full depth.
  const { radius, length } = setting.ramp;
  expect(Math.hypot(length, radius - setting.depth), where).toBeCloseTo(radius, 6);
}

/** To a micrometre; the shift keeps whole steps, which float noise may push either way, off the edge of rounding. */
const rounded = (range: Range): string => range.map((value) => Math.round(value * 1000 + 0.31)).join("..");
const textOf = ({ mark, face, l, w, t }: Cut): string => `${mark} ${face} ${rounded(l)} ${rounded(w)} ${rounded(t)}`;

/** Exactly the model's grooves, each once; and the router's passes clear just as much. */
export function expectRowsToMakeTheGrooves({ parts, settings }: Pick<DryfitSet, "parts" | "settings">): void {
  const rows = settings.flatMap((setting) =>
    setting.runs.map((run) => ({ setting, run, part: parts.find(({ mark }) => mark === run.mark)! })),
  );
  const made = rows.map(({ setting, run, part }) => textOf(cutBy(setting, run, part)));
  const wanted = parts.flatMap((part) =>
    part.features
      .filter(isInRows)
      .map(({ face, box: [lo, hi] }) =>
        textOf({ mark: part.mark, face, l: [lo[0], hi[0]], w: [lo[1], hi[1]], t: [lo[2], hi[2]] }),
      ),
  );
  expect(made.sort()).toEqual(wanted.sort());
  for (const { setting, run, part } of rows) {
    expectStopsToEndTheGrooves(setting, run, part);
    if (setting.straightedge === null) continue;
    const cut = cutBy(setting, run, part);
    expect(rounded(routedBy(setting, run, part)), `setting ${setting.n}, part ${part.mark}`).toBe(
      rounded(cut[run.datum[0] as Axis]),
    );
  }
}
