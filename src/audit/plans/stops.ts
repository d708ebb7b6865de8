/** Where the runs of a setting stop, how deep the cutter stands pass by pass, and which end of a part goes first: reckoned again from the parts. */
import type { Mm } from "../../base/length.ts";
import type { DryfitSet, Face, SetCheck, SetFeature, SetPart, SetSetting } from "../../set/schema.ts";
import { TOUCH } from "../solids/boxes.ts";
import { faceAxis, isHighFace, localAxis, sizeOf } from "../solids/solid.ts";
import { amount, failure, featureName, type Job } from "../words.ts";

type Run = SetSetting["runs"][number];
type Stop = Run["stops"][number];
type Cut = { setting: SetSetting; run: Run; part: SetPart; feature: SetFeature };

const isEqual = (a: Mm, b: Mm): boolean => Math.abs(a - b) <= TOUCH;

/** What an edge still lacks when the groove is cut. */
const laterAt = (part: SetPart, edge: Face): Mm =>
  part.lippings
    .filter((one) => one.edge === edge && one.lipped === "after")
    .reduce((sum, { thickness }) => sum + thickness, 0);

const isCut = ({ kind }: SetFeature): boolean => kind === "groove" || kind === "rabbet";

/** The groove across an open end, with its walls. */
function acrossAt(part: SetPart, feature: SetFeature, end: 0 | 1): { low: Mm; high: Mm } | null {
  const at = end === 0 ? feature.from : feature.to;
  const middle = feature.at + feature.width / 2;
  const across = part.features.find(
    (one) =>
      isCut(one) &&
      one.face === feature.face &&
      one.along !== feature.along &&
      one.at <= at + TOUCH &&
      one.at + one.width >= at - TOUCH &&
      one.from < middle &&
      one.to > middle,
  );
  return across === undefined ? null : { low: across.at, high: across.at + across.width };
}

/** Where the cutter gets to that goes straight on from an open end: through the groove beyond, as wide and as deep, and what carries that on. */
function farthest(part: SetPart, feature: SetFeature, end: 0 | 1): SetFeature {
  if (feature.ends[end] !== "open") return feature;
  const across = acrossAt(part, feature, end);
  const at = end === 0 ? feature.from : feature.to;
  const room = across === null ? [at, at] : [Math.min(at, across.low), Math.max(at, across.high)];
  const inLine = part.features.filter(
    (one) =>
      one !== feature &&
      one.kind === feature.kind &&
      one.face === feature.face &&
      one.along === feature.along &&
      isEqual(one.at, feature.at) &&
      isEqual(one.width, feature.width) &&
      isEqual(one.depth, feature.depth) &&
      one.ends[1 - end] === "open",
  );
  const next = inLine.find((one) => {
    const begins = end === 0 ? one.to : one.from;
    return begins >= room[0]! - TOUCH && begins <= room[1]! + TOUCH;
  });
  return next === undefined ? feature : farthest(part, next, end);
}

type Found = Pick<Stop, "edge" | "leave"> & { until: Mm };

/**
 * The ends of the run, low and high, each with the edge of the panel there and what stays uncut before it; none where it runs out at that edge.
 * `until`: how near to the edge the cutter may come, which in a groove across the end is that one's far wall.
 */
export function stopsIn(part: SetPart, feature: SetFeature): Found[] {
  const size = sizeOf(part)[localAxis(feature.along)];
  return ([0, 1] as const).flatMap((end) => {
    const edge: Face = `${feature.along}${end}`;
    const last = farthest(part, feature, end);
    const later = laterAt(part, edge);
    const leave = (end === 0 ? last.from : size - last.to) - later;
    const kind = last.ends[end];
    if (kind === "through" || (kind === "square" && isEqual(leave, 0))) return [];
    const across = kind === "open" ? acrossAt(part, last, end) : null;
    const until = across === null ? leave : (end === 0 ? across.low : size - across.high) - later;
    return [{ edge, leave, until }];
  });
}

/** `block`: the router's base runs against it before the bit's rim passes the end; at the saw the leading end does, the whole length ahead. */
function wantedStops({ setting, part, feature }: Cut): Stop[] {
  const length =
    sizeOf(part)[localAxis(feature.along)] - laterAt(part, `${feature.along}0`) - laterAt(part, `${feature.along}1`);
  return stopsIn(part, feature).map(({ edge, leave, until }) => {
    const { straightedge } = setting;
    const block = straightedge === null ? length - until : until + straightedge.bit / 2 - straightedge.ahead;
    return { edge, leave, block };
  });
}

export function checkStops(cut: Cut, job: Job): SetCheck[] {
  const { setting, run, part, feature } = cut;
  const name = featureName(part, feature, job);
  const wanted = wantedStops(cut);
  const told = (stops: readonly Stop[]): string =>
    stops
      .map(({ edge, leave, block }) => `${amount(leave, job)} from ${edge}, block at ${amount(block, job)}`)
      .join("; ") || "nowhere";
  const agree =
    run.stops.length === wanted.length &&
    run.stops.every(({ edge, leave, block }, i) => {
      const other = wanted[i]!;
      return edge === other.edge && isEqual(leave, other.leave) && isEqual(block, other.block);
    });
  const checks: SetCheck[] = [];
  if (!agree) {
    checks.push(
      failure(
        "setting",
        [part],
        `Setting ${setting.n} stops ${name} ${told(run.stops)}, but it stops ${told(wanted)}. Change: stop it there.`,
      ),
    );
  }
  return [...checks, ...checkEntry(cut, wanted, name)];
}

const OTHER = { "0": "1", "1": "0" } as const;
const opposite = (face: Face): Face => `${face[0]}${OTHER[face[1] as "0" | "1"]}` as Face;

/** The face that looks forward, away from the operator: up x right, in right-handed local axes. */
function forward(up: Face, right: Face): Face {
  const [i, j] = [faceAxis(up), faceAxis(right)];
  const k = 3 - i - j;
  const turn = (j - i + 3) % 3 === 1 ? 1 : -1;
  const sign = turn * (isHighFace(up) ? 1 : -1) * (isHighFace(right) ? 1 : -1);
  return `${"lwt"[k]}${sign > 0 ? 1 : 0}` as Face;
}

/** At the saw the cut face is down; a stopped cut enters at its open end, or a part is dropped on to the turning cutter. */
function checkEntry({ setting, run, part }: Cut, stops: readonly Stop[], name: string): SetCheck[] {
  const { n, tool, side } = setting;
  if ((tool === "table saw") !== (side !== null)) {
    return [
      failure(
        "setting",
        [part],
        `Setting ${n} of the ${tool} has ${side === null ? "no side" : `its guide on the ${side}`}. Change: left or right at the saw, none at the router.`,
      ),
    ];
  }
  if (side === null || faceAxis(run.face) === faceAxis(run.datum)) return [];
  const first = forward(opposite(run.face), side === "right" ? run.datum : opposite(run.datum));
  if (stops.length === 0 ? side === "right" : stops.length === 1 && stops[0]!.edge !== first) return [];
  return [
    failure(
      "setting",
      [part],
      stops.length === 0
        ? `Setting ${n} has its guide on the left of the cutter for ${name}, which runs through. Change: right.`
        : `Setting ${n} would enter ${name} at its stop: ${first} goes first. Change: the guide on the other side of the cutter, or the router.`,
    ),
  ];
}

/** Pass by pass deeper, the last as deep as the groove; and the slope that the saw's cutter leaves at a stop. */
export function checkPlunges(
  { n, tool, depth, depths, ramp, stopped }: SetSetting,
  parts: readonly SetPart[],
  job: Job,
): SetCheck[] {
  const checks: SetCheck[] = [];
  const rises = depths.every((one, i) => one > (depths[i - 1] ?? 0) + TOUCH);
  if (!rises || !isEqual(depths.at(-1) ?? 0, depth) || (tool === "table saw" && depths.length > 1)) {
    checks.push(
      failure(
        "setting",
        parts,
        `Setting ${n} is cut ${depths.map((one) => amount(one, job)).join(", ") || "to no depth"}, but the groove is ${amount(depth, job)} deep. Change: deeper pass by pass, to that depth.`,
      ),
    );
  }
  const sloped = tool === "table saw" && stopped;
  const wanted = ramp === null ? null : Math.sqrt(ramp.radius ** 2 - (ramp.radius - depth) ** 2);
  if (sloped !== (ramp !== null) || (ramp !== null && !isEqual(ramp.length, wanted!))) {
    checks.push(
      failure(
        "setting",
        parts,
        `Setting ${n} leaves ${ramp === null ? "no slope" : `a slope of ${amount(ramp.length, job)}`}, but ${sloped ? (wanted === null ? "the saw's round cutter leaves one" : `its cutter leaves ${amount(wanted, job)}`) : "none is left by it"}. Change: reckon it from the cutter's radius.`,
      ),
    );
  }
  return checks;
}

/** Every cut of the sheet layouts is told in one sizing setting, at its own fence distance. */
export function checkSizing({ sheets, sizing }: DryfitSet): SetCheck[] {
  const told = sizing.flatMap(({ fence, cuts }) =>
    cuts.flatMap(({ sheet, cuts: numbers }) => numbers.map((n) => ({ key: `cut ${n} of sheet ${sheet}`, fence }))),
  );
  const wanted = sheets.flatMap(({ n: sheet, cuts }) =>
    cuts.map(({ n, fence }) => ({ key: `cut ${n} of sheet ${sheet}`, fence })),
  );
  const wrong = wanted.filter(({ key, fence }) => {
    const own = told.filter((one) => one.key === key);
    return own.length !== 1 || !isEqual(own[0]!.fence, fence);
  });
  const unknown = told.filter(({ key }) => !wanted.some((one) => one.key === key));
  const names = [...wrong, ...unknown].map(({ key }) => key);
  if (names.length === 0) return [];
  return [
    failure(
      "sizing",
      [],
      `The sizing settings do not agree with the sheet layouts: ${[...new Set(names)].join(", ")}. Change: list each cut once, at its own fence distance.`,
    ),
  ];
}
