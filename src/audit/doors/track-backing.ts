/** What a track and its guides are screwed to: solid wood behind every bolt and every bracket, and a bracket below a door wherever that stands. */
import type { Box } from "../../base/geometry.ts";
import type { Mm } from "../../base/length.ts";
import type { SetCheck } from "../../set/schema.ts";
import { cutAwayAll, TOUCH } from "../solids/boxes.ts";
import { amount, failureOf, nameOf } from "../words.ts";
import type { Body } from "./body.ts";
import type { OnTrack } from "./hanging.ts";

/** Wood round a bolt's middle, in diameters. */
const EDGE = 1.5;
/** Screws of a light bracket go in so far: common practice, no source. */
const BRACKET: Mm = 12;
/** A seam at the face lets a bolt in between two parts: one part alone is to be there, so deep. */
const FACE: Mm = 3;

export const checkBacking = (one: OnTrack): SetCheck[] => [...checkBolts(one), ...checkGuides(one)];

type Area = { x: readonly [Mm, Mm]; z: readonly [Mm, Mm] };
type Backed = { mark: string | null; depth: Mm };

/** The part at the face that alone fills an area, and how deep solid wood goes on behind it. */
function backedAt({ x, z }: Area, face: Mm, most: Mm, still: readonly Body[]): Backed {
  const column = (depth: Mm): Box => [
    [x[0], face, z[0]],
    [x[1], face + depth, z[1]],
  ];
  const marks = [...new Set(still.flatMap(({ part }) => (part === null ? [] : [part.mark])))];
  const first = marks.find((mark) => {
    const own = still.filter(({ part }) => part?.mark === mark).map(({ box }) => box);
    return cutAwayAll([column(FACE)], own).length === 0;
  });
  if (first === undefined) return { mark: null, depth: 0 };
  const left = cutAwayAll(
    [column(most)],
    still.map(({ box }) => box),
  );
  return { mark: first, depth: Math.min(most, ...left.map(([lo]) => lo[1] - face)) };
}

/** Each so far from the next, on the bar, in wood that is deep enough. */
function checkBolts({ set, track, still }: OnTrack): SetCheck[] {
  const { job } = set;
  const { bolts, at, length } = track;
  const places = bolts.at.map((bolt) => bolt.at);
  const reach = EDGE * bolts.diameter;
  const areaAt = (along: Mm): Area => ({
    x: [at[0] + along - reach, at[0] + along + reach],
    z: [at[2] - reach, at[2] + reach],
  });
  const near = nearTo(still, at[1], bolts.into);
  const backed = (along: Mm): Backed => backedAt(areaAt(along), at[1], bolts.into, near);
  const apart = places.slice(1).map((place, i) => place - places[i]!);
  const spaced =
    places.length > 1 &&
    places.every((place) => place > -TOUCH && place < length + TOUCH) &&
    apart.every((gap) => gap > TOUCH && gap <= bolts.spacing + job.step + TOUCH);
  const checks = spaced
    ? []
    : [
        failureOf(
          "track-bolt",
          [],
          `The bolts of the track in front of ${track.case} stand ${places.map((place) => amount(place, job)).join(", ")} from its left end, and it is ${amount(length, job)} long. Change: two or more on it, no more than ${amount(bolts.spacing, job)} apart.`,
        ),
      ];
  return [
    ...checks,
    ...bolts.at.flatMap(({ at: along, mark }, i): SetCheck[] => {
      const found = backed(along);
      if (found.mark !== null && found.depth >= bolts.into - TOUCH) {
        if (found.mark === mark) return [];
        return [
          failureOf(
            "track-bolt",
            [found.mark],
            `Bolt ${i + 1} of the track in front of ${track.case} is told to be in ${mark ?? "nothing"}, and is in ${found.mark}. Change: what is told.`,
          ),
        ];
      }
      const part = set.parts.find((one) => one.mark === found.mark);
      const what =
        part === undefined
          ? `has no part with ${amount(reach, job)} of solid wood all round its middle behind it`
          : `finds ${amount(found.depth, job)} of solid wood in ${nameOf(part)} and behind it, and goes in ${amount(bolts.into, job)}`;
      return [
        failureOf(
          "track-bolt",
          mark === null ? [] : [mark],
          `Bolt ${i + 1} of the track in front of ${track.case}, ${amount(along, job)} from its left end, ${what}. Change: ${insteadOf(
            along,
            length,
            near,
            at[0],
            reach,
            (place) => backed(place).depth >= bolts.into - TOUCH,
            (by) => amount(by, job),
          )}.`,
        ),
      ];
    }),
  ];
}

/** What can lie behind the face within so much. */
const nearTo = (still: readonly Body[], face: Mm, depth: Mm): Body[] =>
  still.filter(({ box }) => box[0][1] < face + depth && box[1][1] > face);

/** The nearest place along the bar that would do, or what else helps. */
function insteadOf(
  along: Mm,
  length: Mm,
  near: readonly Body[],
  start: Mm,
  reach: Mm,
  isGood: (place: Mm) => boolean,
  show: (by: Mm) => string,
): string {
  const edges = near.flatMap(({ box }) => [box[0][0] - start + reach, box[1][0] - start - reach]);
  const good = [...new Set(edges)]
    .filter((place) => place >= 0 && place <= length && isGood(place))
    .sort((a, b) => Math.abs(a - along) - Math.abs(b - along));
  const [best] = good;
  return best === undefined
    ? "solid wood there, a higher top rail or one farther out, or shorter bolts"
    : `${show(Math.abs(best - along))} to the ${best > along ? "right" : "left"} there is enough: another "spacing" or "fromEnd", or solid wood behind it`;
}

/** Every place of every door is over the whole width of a bracket, and every bracket is on wood. */
function checkGuides({ set, track, hanging, still }: OnTrack): SetCheck[] {
  const { job } = set;
  const { guides, at } = track;
  const half = guides.width / 2;
  const loose = hanging.flatMap(({ door, width, marks }) => {
    const own = guides.at.filter((guide) => guide.track === door.track).map((guide) => guide.at);
    // Left edges at which the door is over this one.
    const held = own.map((place): [Mm, Mm] => [place + half - width, place - half]).sort((a, b) => a[0] - b[0]);
    let reached = door.from;
    for (const [from, to] of held) if (from <= reached + TOUCH) reached = Math.max(reached, to);
    if (held.some(([from]) => from <= door.from + TOUCH) && reached >= door.to - TOUCH) return [];
    return [
      failureOf(
        "track-guide",
        marks,
        `${door.assembly} hangs free with its left edge ${amount(reached, job)} from the track's left end: no guide is below it. Change: one more guide there.`,
      ),
    ];
  });
  const under = Math.min(...hanging.flatMap(({ wood }) => wood.map(({ box }) => box[0][2])));
  const near = nearTo(still, at[1], BRACKET);
  const off = guides.at.flatMap(({ at: along }, i) => {
    const area: Area = {
      x: [at[0] + along - half, at[0] + along + half],
      z: [under - guides.height, under],
    };
    const found = backedAt(area, at[1], BRACKET, near);
    if (found.mark !== null && found.depth >= BRACKET - TOUCH) return [];
    return [
      failureOf(
        "track-guide",
        [],
        `Guide ${i + 1} of the doors of ${track.case}, ${amount(along, job)} from the track's left end, has no wood behind all of its ${amount(guides.height, job)} below the doors. Change: less "below", a lower bracket, or a wider bottom rail.`,
      ),
    ];
  });
  return [...loose, ...off];
}
