/** Doors on tracks: hung where they are told to, closed over their bays, with a track as long as their way. */
import type { Mm } from "../../base/length.ts";
import type { DryfitSet, SetCheck, SetTrackDoor } from "../../set/schema.ts";
import { TOUCH } from "../solids/boxes.ts";
import type { Solid } from "../solids/solid.ts";
import { amount, failureOf, nameOf, partsOf } from "../words.ts";
import { woodOf } from "./doors.ts";
import { extentOf, type Hanging, type OnTrack } from "./hanging.ts";
import { checkBacking } from "./track-backing.ts";
import { checkBoltMarks } from "./track-marks.ts";
import { besideTrack, checkHinged, checkTracksTogether } from "./track-neighbours.ts";
import { checkWays } from "./track-way.ts";

export function checkTracks(set: DryfitSet, solids: readonly Solid[]): SetCheck[] {
  const whole: OnTrack[] = [];
  const each = set.tracks.flatMap((track) => {
    const hanging = track.doors.flatMap((door) => hangingOf(set, door, solids));
    const gone = track.doors.filter((door) => !hanging.some((one) => one.door === door));
    if (gone.length > 0)
      return gone.map(({ assembly }) =>
        failureOf(
          "track",
          [],
          `${assembly} is told to slide, but no such door stands in the set. Change: its parts, or leave it out.`,
        ),
      );
    const own = new Set(track.doors.map(({ assembly }) => assembly));
    const still = solids.filter(({ assembly }) => !own.has(assembly.name)).flatMap((solid) => woodOf(set, solid));
    const one: OnTrack = { set, track, hanging, still, beside: besideTrack(set, track) };
    whole.push(one);
    return [
      ...hanging.flatMap((hung) => checkHangs(hung, one)),
      ...hanging.flatMap((hung) => checkGrooves(hung, one)),
      ...checkLength(one),
      ...checkStops(one),
      ...checkOrder(one),
      ...checkOpenings(one),
      ...hanging.flatMap((hung) => checkLaps(hung, one)),
      ...checkPassing(one),
      ...checkBacking(one),
      ...checkBoltMarks(set, track, solids),
      ...checkWays(one),
    ];
  });
  return [...each, ...checkTracksTogether(whole), ...whole.flatMap((one) => checkHinged(one, solids))];
}

function hangingOf(set: DryfitSet, door: SetTrackDoor, solids: readonly Solid[]): Hanging[] {
  const assembly = set.assemblies.find(({ name }) => name === door.assembly);
  const own = solids.filter((solid) => solid.assembly.name === door.assembly);
  if (assembly === undefined || own.length === 0) return [];
  const wood = own.flatMap((solid) => woodOf(set, solid));
  const low = Math.min(...wood.map(({ box }) => box[0][0]));
  const high = Math.max(...wood.map(({ box }) => box[1][0]));
  return [{ door, assembly, solids: own, wood, width: high - low, marks: partsOf(own).map(({ mark }) => mark) }];
}

/** The groove for a door's panel is as deep in one member as in the others: the one that differs from most is told. */
function checkGrooves({ door, solids }: Hanging, { set }: OnTrack): SetCheck[] {
  const { job } = set;
  const depths = solids.flatMap(({ part, channels }) =>
    channels.map(({ feature }) => ({ part, depth: feature.depth })),
  );
  const alike = (depth: Mm): number => depths.filter((one) => Math.abs(one.depth - depth) <= TOUCH).length;
  const most = Math.max(0, ...depths.map(({ depth }) => alike(depth)));
  const usual = depths.find(({ depth }) => alike(depth) === most)?.depth;
  return depths
    .filter(({ depth }) => alike(depth) < most)
    .map(({ part, depth }) =>
      failureOf(
        "track",
        [part.mark],
        `The groove in ${nameOf(part)} is ${amount(depth, job)} deep, and ${amount(usual!, job)} in the other members of ${door.assembly}. Change: its depth, or the width of the part.`,
      ),
    );
}

/** It stands where its figures say, under the bar and in line with it, its hangers' holes where they are measured; it slides as told. */
function checkHangs(hanging: Hanging, { set, track }: OnTrack): SetCheck[] {
  const { door, assembly, marks, solids } = hanging;
  const { job } = set;
  const { bar, hangers, at } = track;
  const tell = (words: string): SetCheck[] => [failureOf("track", marks, `${door.assembly} ${words}`)];
  const [left, right] = extentOf(hanging, 0);
  const [front, back] = extentOf(hanging, 1);
  const [, top] = extentOf(hanging, 2);
  const middle = at[1] - bar.standOff - (door.track - 1) * bar.apart - bar.thickness / 2;
  const off: [string, Mm][] = [
    ["its left edge is told from the track's left end", left - at[0] - door.closed],
    ["its upper edge below the bar", at[2] - bar.height / 2 - hangers.drop - top],
    ["its middle in line with the bar", (front + back) / 2 - middle],
  ];
  const { travel } = assembly;
  const slides =
    travel.kind === "slide" &&
    travel.axis === "+x" &&
    Math.abs(travel.range[0] - (door.from - door.closed)) <= TOUCH &&
    Math.abs(travel.range[1] - (door.to - door.closed)) <= TOUCH;
  const holes = solids.flatMap(({ holes: all, assembly: home }) =>
    all.map(({ box, depth, inward }) => ({
      fromFront: depth === 1 && inward === 1,
      x: (box[0][0] + box[1][0]) / 2 - home.origin[0],
      z: (box[0][2] + box[1][2]) / 2 - home.origin[2],
      wide: box[1][0] - box[0][0],
      deep: box[1][1] - box[0][1],
    })),
  );
  const wanted = door.hangers.flatMap((x) =>
    hangers.holes.map((down) => ({ x, z: top - assembly.place.at[2] - down })),
  );
  const missed = wanted.filter(
    ({ x, z }) =>
      !holes.some(
        (hole) =>
          hole.fromFront &&
          Math.abs(hole.x - x) <= TOUCH &&
          Math.abs(hole.z - z) <= job.step &&
          Math.abs(hole.wide - hangers.hole) <= TOUCH &&
          Math.abs(hole.deep - (back - front)) <= TOUCH,
      ),
  );
  const strap = hangers.fromEdge + hangers.width / 2;
  const astray = [door.hangers[0], right - left - door.hangers[1]].filter((x) => Math.abs(x - strap) > job.step);
  return [
    ...off
      .filter(([, by]) => Math.abs(by) > TOUCH)
      .flatMap(([what, by]) =>
        tell(`is ${amount(Math.abs(by), job)} off where ${what}. Change: its place, or the figure.`),
      ),
    ...(slides ? [] : tell("is not said to slide from end to end of its way. Change: its travel.")),
    ...(missed.length === 0 && holes.length === wanted.length
      ? []
      : tell(
          `has ${holes.length} holes for ${wanted.length} bolts of its hangers, ${missed.length} of them missed. Change: a hole right through from the front, at each bolt.`,
        )),
    ...(astray.length === 0
      ? []
      : tell(
          `has a hanger ${amount(astray[0]!, job)} from its edge, where ${amount(strap, job)} is asked for. Change: the hanger.`,
        )),
  ];
}

/** Half length = door + stop - hanger + half the bumper, for a door that goes its own width; so for any way of the doors. */
function checkLength({ set, track, hanging }: OnTrack): SetCheck[] {
  const { job } = set;
  const { openings, stops, hangers, reach } = track;
  const lap = track.passing ? track.beyond : track.overlap;
  const first = openings[0]!;
  const last = openings.at(-1)!;
  const low = Math.min(first.at[0] - lap, ...hanging.map((one) => extentOf(one, 0)[0])) - reach.left;
  const high = Math.max(last.at[0] + last.width + lap, ...hanging.map((one) => extentOf(one, 0)[1])) + reach.right;
  const needed = high - low + 2 * (stops.fromEnd + stops.bumper / 2 - hangers.fromEdge);
  const marks = hanging.flatMap((one) => one.marks);
  // Each end of the way, and what lies beyond it, may be rounded up.
  const spare = 6 * job.step;
  if (track.needed < needed - job.step || track.needed > needed + spare)
    return [
      failureOf(
        "track-length",
        marks,
        `The track in front of ${track.case} is said to need ${amount(track.needed, job)}; the way of its doors, ${amount(high - low, job)}, and the stops need ${amount(needed, job)}. Change: the figure.`,
      ),
    ];
  if (track.length >= track.needed - TOUCH) return [];
  return [
    failureOf(
      "track-length",
      marks,
      `The track in front of ${track.case} is ${amount(track.length, job)} long; the way of its doors needs ${amount(track.needed, job)}: ${amount(track.needed - track.length, job)} too short. Change: a track of ${amount(track.needed, job)} or more, stops nearer to its ends, or hangers farther in from the doors' edges.`,
    ),
  ];
}

/** Each stop on the track, and where the hanger of the outermost door is when that has gone all the way. */
function checkStops({ set, track, hanging }: OnTrack): SetCheck[] {
  const { job } = set;
  const { stops, hangers, length } = track;
  const half = stops.bumper / 2;
  const tell = (words: string): SetCheck =>
    failureOf("track-stop", [], `The stops of the track in front of ${track.case} ${words}`);
  if (stops.at[0] < half - TOUCH || stops.at[1] > length - half + TOUCH)
    return [tell("stand off its ends. Change: where they are, or the length of the track.")];
  return ([1, 2] as const).flatMap((n) => {
    const own = hanging.filter(({ door }) => door.track === n);
    if (own.length === 0) return [];
    const low = Math.min(...own.map(({ door }) => door.from + hangers.fromEdge)) - (stops.at[0] + half);
    const high = stops.at[1] - half - Math.max(...own.map(({ door, width }) => door.to + width - hangers.fromEdge));
    return [low, high]
      .filter((gap) => Math.abs(gap) > TOUCH)
      .map((gap) =>
        tell(
          `${gap > 0 ? "leave" : "would let a hanger go through"} ${amount(Math.abs(gap), job)} at the end of its way. Change: where they are, or how far the doors go.`,
        ),
      );
  });
}

/** Doors of one track follow each other, closed and pushed to either end, and none is where it cannot go. */
function checkOrder({ set, track, hanging }: OnTrack): SetCheck[] {
  const { job } = set;
  const { between } = track;
  const told = hanging.flatMap(({ door, marks }) =>
    door.closed >= door.from - TOUCH && door.closed <= door.to + TOUCH
      ? []
      : [
          failureOf(
            "track-meet",
            marks,
            `${door.assembly} cannot be closed: it would stand ${amount(Math.max(door.from - door.closed, door.closed - door.to), job)} beyond its way. Change: a longer track, fewer doors on it, or less "overlap".`,
          ),
        ],
  );
  const pairs = ([1, 2] as const).flatMap((n) => {
    const own = hanging.filter(({ door }) => door.track === n);
    return own.slice(1).map((next, i) => [own[i]!, next] as const);
  });
  const meets = pairs.flatMap(([one, next]) =>
    (["closed", "from", "to"] as const).flatMap((where) => {
      const gap = next.door[where] - (one.door[where] + one.width);
      if (gap >= between - TOUCH) return [];
      const when = { closed: "closed", from: "pushed to the left", to: "pushed to the right" }[where];
      return [
        failureOf(
          "track-meet",
          [...one.marks, ...next.marks],
          `${one.door.assembly} and ${next.door.assembly}, ${when}, ${gap >= 0 ? `stand ${amount(gap, job)} apart` : `would be ${amount(-gap, job)} in one another`}; ${amount(between, job)} is the least between two on one track. Change: ${where === "closed" ? `less "overlap", by ${amount((between - gap) / 2, job)} or more, a wider stile between their bays, or one of them on a second track` : "how far they go"}.`,
        ),
      ];
    }),
  );
  return [...told, ...meets];
}

/** Each edge of an opening as it is told is an edge of wood in the front. */
function checkOpenings({ set, track, still }: OnTrack): SetCheck[] {
  const { job } = set;
  if (set.asBuilt.some(({ assembly }) => assembly === track.case || assembly.startsWith(`${track.case} `))) return [];
  return track.openings.flatMap(({ name, at, width, height }) => {
    const front = still.filter(({ box }) => Math.abs(box[0][1] - at[1]) <= TOUCH);
    const reaches = (axis: 0 | 2, edge: Mm, side: 0 | 1): boolean => {
      const other = axis === 0 ? 2 : 0;
      const [from, to] = [at[other], at[other] + (axis === 0 ? height : width)];
      return front.some(
        ({ box }) =>
          Math.abs(box[side][axis] - edge) <= TOUCH &&
          Math.min(box[1][other], to) - Math.max(box[0][other], from) > TOUCH,
      );
    };
    const sides: [string, boolean][] = [
      ["left", reaches(0, at[0], 1)],
      ["right", reaches(0, at[0] + width, 0)],
      ["lower", reaches(2, at[2], 1)],
      ["upper", reaches(2, at[2] + height, 0)],
    ];
    const wrong = sides.filter(([, is]) => !is).map(([words]) => words);
    if (wrong.length === 0) return [];
    return [
      failureOf(
        "track-opening",
        [],
        `The opening "${name}" of ${track.case}, ${amount(width, job)} x ${amount(height, job)}, has no wood at its ${wrong.join(" and ")} edge. Change: its place or its size.`,
      ),
    ];
  });
}

type Lap = { side: string; by: Mm; least: Mm; remedy: string };

/** Closed, over every edge of what it covers. */
function checkLaps(hanging: Hanging, { set, track }: OnTrack): SetCheck[] {
  const { door, marks } = hanging;
  const { job } = set;
  const bays = track.passing ? track.openings : door.covers.flatMap((i) => track.openings[i] ?? []);
  if (bays.length === 0)
    return [failureOf("track-lap", marks, `${door.assembly} covers no bay. Change: say which it is before.`)];
  const [left, right] = extentOf(hanging, 0);
  const [under, top] = extentOf(hanging, 2);
  const first = bays[0]!;
  const last = bays.at(-1)!;
  const laps: Lap[] = [
    ...(track.passing
      ? []
      : [
          { side: "left", by: first.at[0] - left, least: track.overlap, remedy: "a wider door" },
          { side: "right", by: right - (last.at[0] + last.width), least: track.overlap, remedy: "a wider door" },
        ]),
    {
      side: "below",
      by: Math.min(...bays.map(({ at }) => at[2])) - under,
      least: track.below,
      remedy: "a higher door",
    },
    {
      side: "above",
      by: top - Math.max(...bays.map(({ at, height }) => at[2] + height)),
      least: track.above,
      remedy: 'a track bolted on higher, a lower bar, or less "drop"',
    },
  ];
  return laps
    .filter(({ by, least }) => by < least - TOUCH)
    .map(({ side, by, least, remedy }) =>
      failureOf(
        "track-lap",
        marks,
        `${door.assembly} ${by >= 0 ? `laps ${amount(by, job)}` : `ends ${amount(-by, job)} short of the edge`} ${side}; ${amount(least, job)} was asked for. Change: ${remedy}, by ${amount(least - by, job)}.`,
      ),
    );
}

/** Doors that pass each other cover the whole front, each lapping the next. */
function checkPassing({ set, track, hanging }: OnTrack): SetCheck[] {
  if (!track.passing) return [];
  const { job } = set;
  const along = hanging.map((one) => ({ one, at: extentOf(one, 0) }));
  const first = along[0]!;
  const last = along.at(-1)!;
  const front: [Mm, Mm] = [track.openings[0]!.at[0], track.openings.at(-1)!.at[0] + track.openings.at(-1)!.width];
  const laps = [
    { of: [first.one], by: front[0] - first.at[0], least: track.beyond, words: "over the left edge of the front" },
    { of: [last.one], by: last.at[1] - front[1], least: track.beyond, words: "over the right edge of the front" },
    ...along.slice(1).map(({ one, at }, i) => ({
      of: [along[i]!.one, one],
      by: along[i]!.at[1] - at[0],
      least: track.overlap,
      words: "over the next",
    })),
  ];
  return laps
    .filter(({ by, least }) => by < least - TOUCH)
    .map(({ of, by, least, words }) =>
      failureOf(
        "track-lap",
        of.flatMap(({ marks }) => marks),
        `${of.map(({ door }) => door.assembly).join(" and ")}: ${amount(by, job)} ${words}, where ${amount(least, job)} was asked for. Change: wider doors, by ${amount(least - by, job)} in all.`,
      ),
    );
}
