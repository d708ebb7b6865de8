/** What stands or moves beside a track and is no part of it: walls, doors that hang on hinges, and the tracks of other cases. */
import type { Mm } from "../../base/length.ts";
import type { DryfitSet, SetCheck, SetTrack } from "../../set/schema.ts";
import { sharedBox, TOUCH } from "../solids/boxes.ts";
import type { Solid } from "../solids/solid.ts";
import { amount, failureOf, partsOf } from "../words.ts";
import type { Body } from "./body.ts";
import { type Hung, hungOf, knobOf, outlineOf } from "./doors.ts";
import type { Hanging, OnTrack } from "./hanging.ts";
import { clashOf } from "./swing.ts";
import { barsOf, movingOf, swept } from "./track-bodies.ts";
import { wallsOf } from "./walls.ts";

const barWords = ({ case: home }: SetTrack): string => `the bar of the track in front of ${home}`;

/** Walls, knobs of doors that hang or slide in grooves, closed, and the bars of the other tracks. */
export function besideTrack(set: DryfitSet, track: SetTrack): Body[] {
  const knobbed = [...set.doors, ...set.sliders.flatMap(({ doors }) => doors)];
  const knobs = knobbed.flatMap((door) => {
    const assembly = set.assemblies.find(({ name }) => name === door.assembly);
    return assembly === undefined ? [] : knobOf(door, assembly);
  });
  const bars = set.tracks.filter((other) => other !== track).flatMap((other) => barsOf(other, barWords(other)));
  return [...wallsOf(set), ...knobs, ...bars];
}

/** A bar in a wall or in another track's; doors of two tracks that come to one place, each somewhere on its way. */
export function checkTracksTogether(tracks: readonly OnTrack[]): SetCheck[] {
  return tracks.flatMap((one, i) => [
    ...checkBars(one, tracks.slice(0, i)),
    ...tracks
      .slice(i + 1)
      .flatMap((other) => one.hanging.flatMap((a) => other.hanging.flatMap((b) => checkApart(a, one, b, other)))),
  ]);
}

function checkBars({ set, track }: OnTrack, before: readonly OnTrack[]): SetCheck[] {
  const others = [...wallsOf(set), ...before.flatMap((one) => barsOf(one.track, barWords(one.track)))];
  const hits = barsOf(track, "").flatMap((bar) =>
    others.flatMap((other) => {
      const hit = sharedBox(bar.box, other.box);
      return hit === null ? [] : [{ other, along: hit[1][0] - hit[0][0] }];
    }),
  );
  const worst = new Map<string, Mm>();
  for (const { other, along } of hits) worst.set(other.words, Math.max(along, worst.get(other.words) ?? 0));
  return [...worst].map(([words, along]) =>
    failureOf(
      "track-meet",
      [],
      `The track in front of ${track.case} lies ${amount(along, set.job)} in ${words}. Change: more room between them by as much, less "reach" or "overlap", or stops nearer to its ends.`,
    ),
  );
}

function checkApart(a: Hanging, one: OnTrack, b: Hanging, other: OnTrack): SetCheck[] {
  const theirs = movingOf(b, other).map((body) => ({ body, way: swept(b, body.box) }));
  const hits = movingOf(a, one).flatMap((own) => {
    const way = swept(a, own.box);
    return theirs.flatMap(({ body, way: their }) => {
      const hit = sharedBox(way, their);
      return hit === null ? [] : [{ own, body, along: hit[1][0] - hit[0][0] }];
    });
  });
  const [worst] = hits.sort((x, y) => y.along - x.along);
  if (worst === undefined || worst.along <= TOUCH) return [];
  return [
    failureOf(
      "track-way",
      [...a.marks, ...b.marks],
      `${a.door.assembly} and ${b.door.assembly}, each on a track of its own, can meet: their ways have ${amount(worst.along, one.set.job)} in common, where ${worst.own.words} comes to ${worst.body.words}. Change: stops that end one of the ways sooner, less "reach", or one track farther out.`,
    ),
  ];
}

/** A door on hinges opens past the doors on the track, closed, their knobs and the bar; where one of them can be slid before it, whoever opens it must know. */
export function checkHinged(one: OnTrack, solids: readonly Solid[]): SetCheck[] {
  const { set, track } = one;
  return set.doors
    .flatMap((door) => hungOf(set, door, solids))
    .flatMap((hung) => [
      ...checkFittings(
        hung,
        [...one.hanging.flatMap((hanging) => movingOf(hanging, one)), ...barsOf(track, barWords(track))],
        one,
      ),
      ...one.hanging.flatMap((hanging) => checkBefore(hung, hanging, one)),
    ]);
}

const levels = ({ box: a }: Body, { box: b }: Body): boolean =>
  Math.min(a[1][2], b[1][2]) - Math.max(a[0][2], b[0][2]) > TOUCH;

/** Wood is looked at among all that stands still. */
function checkFittings({ door, whole, swing, solids }: Hung, others: readonly Body[], { set }: OnTrack): SetCheck[] {
  if (swing === null) return [];
  const worst = new Map<string, { own: Body; depth: Mm }>();
  for (const other of others.filter(({ part }) => part === null))
    for (const own of whole.filter((body) => levels(body, other))) {
      const clash = clashOf(outlineOf(own.box), outlineOf(other.box), swing);
      if (clash !== null && clash.depth > (worst.get(other.words)?.depth ?? 0))
        worst.set(other.words, { own, depth: clash.depth });
    }
  return [...worst].map(([words, { own, depth }]) =>
    failureOf(
      "door-swing",
      partsOf(solids).map(({ mark }) => mark),
      `${door.assembly} cannot open: ${own.words} comes ${amount(depth, set.job)} into ${words}. Change: hinges on the other side, less "opens", or ${words} farther off.`,
    ),
  );
}

function checkBefore({ door, whole, swing, solids }: Hung, hanging: Hanging, one: OnTrack): SetCheck[] {
  if (swing === null) return [];
  const ways = movingOf(hanging, one).map((body) => ({ ...body, box: swept(hanging, body.box) }));
  const meets = ways.some((way) =>
    whole.some((own) => levels(own, way) && clashOf(outlineOf(own.box), outlineOf(way.box), swing) !== null),
  );
  if (!meets) return [];
  return [
    {
      ...failureOf(
        "doors-meet",
        [...partsOf(solids).map(({ mark }) => mark), ...hanging.marks],
        `${door.assembly} does not open while ${hanging.door.assembly} is slid before it. Change: a stop that keeps it from there, or slide it away first.`,
      ),
      level: "warning",
    },
  ];
}
