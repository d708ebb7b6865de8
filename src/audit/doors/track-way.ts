/**
 * The way of doors on a track. A door slides along one axis, so that all it passes through is its own boxes drawn out from one end of its way
 * to the other: exact, with no place left out. Doors of two tracks may each be anywhere, so their ways are laid against each other.
 */
import type { Box } from "../../base/geometry.ts";
import type { Mm } from "../../base/length.ts";
import type { SetCheck } from "../../set/schema.ts";
import { drawnOut, sharedBox, TOUCH } from "../solids/boxes.ts";
import { amount, failureOf } from "../words.ts";
import type { Body } from "./body.ts";
import { extentOf, type Hanging, type OnTrack } from "./hanging.ts";
import { barsOf, movingOf, swept } from "./track-bodies.ts";

export function checkWays(one: OnTrack): SetCheck[] {
  const bodies = one.hanging.map((hanging) => ({ hanging, moving: movingOf(hanging, one) }));
  return bodies.flatMap(({ hanging, moving }, i) => [
    ...checkPasses(hanging, moving, [...one.still, ...one.beside, ...fixturesFor(hanging, one)], one),
    ...checkLift(hanging, moving, one),
    ...bodies.slice(i + 1).flatMap((other) => checkBoth(hanging, moving, other.hanging, other.moving, one)),
  ]);
}

/** The cheeks of the other track's guides, and its bar; a door's own bar runs in its hangers, and its own guides hold it. */
function fixturesFor({ door }: Hanging, { track, hanging }: OnTrack): Body[] {
  const { at, guides } = track;
  const bars = barsOf(track, "the bar of the other track").filter((_, i) => i + 1 !== door.track);
  const cheeks = guides.at.flatMap((guide): Body[] => {
    const held = hanging.find((one) => one.door.track === guide.track);
    if (guide.track === door.track || held === undefined) return [];
    const [front, back] = extentOf(held, 1);
    const [under] = extentOf(held, 2);
    const cheek = (from: Mm): Body => ({
      part: null,
      words: "a guide of the other track",
      box: [
        [at[0] + guide.at - guides.width / 2, from, under],
        [at[0] + guide.at + guides.width / 2, from + guides.cheek, under + guides.reach],
      ],
    });
    return [cheek(front - guides.cheek), cheek(back)];
  });
  return [...bars, ...cheeks];
}

const marksIn = (bodies: readonly Body[]): string[] => bodies.flatMap(({ part }) => (part === null ? [] : [part.mark]));

/** How far two boxes are in one another, front to back or up and down, whichever is less. */
const inEachOther = (hit: Box): { by: Mm; deep: boolean } => {
  const [deep, high] = [hit[1][1] - hit[0][1], hit[1][2] - hit[0][2]];
  return { by: Math.min(deep, high), deep: deep <= high };
};

function checkPasses(hanging: Hanging, moving: readonly Body[], others: readonly Body[], one: OnTrack): SetCheck[] {
  const { job } = one.set;
  const worst = new Map<string, { own: Body; other: Body; by: Mm; deep: boolean }>();
  for (const own of [...moving, ...cheeksOf(hanging, one)]) {
    const way = swept(hanging, own.box);
    for (const other of others) {
      const hit = sharedBox(way, other.box);
      if (hit === null) continue;
      const found = inEachOther(hit);
      const known = worst.get(other.words);
      if (known === undefined || found.by > known.by) worst.set(other.words, { own, other, ...found });
    }
  }
  return [...worst.values()].map(({ own, other, by, deep }) =>
    failureOf(
      "track-way",
      [...hanging.marks, ...marksIn([own, other])],
      `${hanging.door.assembly} cannot slide: ${own.words} meets ${other.words} on its way, ${amount(by, job)} in it. Change: ${deep ? `a "standOff" longer by ${amount(by, job)} or more, or less that stands out there` : `${amount(by, job)} more room above or below, or less that stands out there`}.`,
    ),
  );
}

/** The rear cheek of a door's own guides has to find room behind it. */
function cheeksOf(hanging: Hanging, { track }: OnTrack): Body[] {
  const { guides } = track;
  const [left, right] = extentOf(hanging, 0);
  const [, back] = extentOf(hanging, 1);
  const [under] = extentOf(hanging, 2);
  return [
    {
      part: null,
      words: "the rear cheek of its guide",
      box: [
        [left, back, under],
        [right, back + guides.cheek, under + guides.reach],
      ],
    },
  ];
}

/** Raised to go over the bar, anywhere on its way. */
function checkLift(hanging: Hanging, moving: readonly Body[], { set, track, still, beside }: OnTrack): SetCheck[] {
  const { job } = set;
  const { lift } = track.hangers;
  const found = new Map<string, { own: Body; other: Body; short: Mm; beyond: Mm }>();
  for (const own of moving) {
    const way = swept(hanging, own.box);
    const raised = drawnOut(way, 2, way[0][2], way[1][2] + lift);
    for (const other of [...still, ...beside]) {
      const hit = sharedBox(raised, other.box);
      // What it meets without being raised is told by itself.
      if (hit === null || sharedBox(way, other.box) !== null) continue;
      const short = way[1][2] + lift - other.box[0][2];
      const known = found.get(other.words);
      const beyond = way[1][1] - other.box[0][1];
      if (known === undefined || short > known.short) found.set(other.words, { own, other, short, beyond });
    }
  }
  return [...found.values()].map(({ own, other, short, beyond }) =>
    failureOf(
      "track-lift",
      [...hanging.marks, ...marksIn([other])],
      `${hanging.door.assembly} cannot be lifted over its track: ${own.words} is raised ${amount(lift, job)}, and finds ${amount(lift - short, job)} under ${other.words}. Change: ${amount(short, job)} more room there, by a wider top rail or a lower track; or ${other.words} to stand out less, by ${amount(beyond, job)}.`,
    ),
  );
}

/** Two tracks: each door somewhere on its way. Of one track the order keeps them apart. */
function checkBoth(
  one: Hanging,
  own: readonly Body[],
  other: Hanging,
  theirs: readonly Body[],
  { set }: OnTrack,
): SetCheck[] {
  if (one.door.track === other.door.track) return [];
  const hits = own.flatMap((a) =>
    theirs.flatMap((b) => {
      const hit = sharedBox(swept(one, a.box), swept(other, b.box));
      return hit === null ? [] : [{ a, b, by: hit[1][1] - hit[0][1] }];
    }),
  );
  const [worst] = hits.sort((x, y) => y.by - x.by);
  if (worst === undefined || worst.by <= TOUCH) return [];
  const { a, b, by } = worst;
  return [
    failureOf(
      "track-way",
      [...one.marks, ...other.marks],
      `${one.door.assembly} and ${other.door.assembly} cannot pass each other: ${a.words} comes ${amount(by, set.job)} into ${b.words}. Change: tracks farther "apart", by ${amount(by, set.job)} or more, or what stands out less.`,
    ),
  ];
}
