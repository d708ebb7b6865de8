/** The numbers of a sheet's cuts in circles: beyond the sheet's edge, on the cut's own line, or near it with a leader. */
import type { Mm } from "../../base/length.ts";
import { line } from "../../paper/draw.ts";
import type { Point, Rect, Shape } from "../../paper/shape.ts";
import type { SetSheet } from "../../set/schema.ts";
import { balloonRadius, drawBalloon } from "../draughting/balloon.ts";
import { grow, isWithin } from "../draughting/block.ts";
import { clipToBox } from "../draughting/clip.ts";
import { type Placed, placeItem, type Spot } from "../draughting/placing.ts";
import { marginsOf, NOTHING, NUMBER, type Paper } from "./sheet-paper.ts";

type SetCut = SetSheet["cuts"][number];

/** Where a number's middle may stand, and the point of its cut that its leader goes to. */
type Place = { centre: Point; reach: Point; cost: number };

const OUT: Mm = 1.2; // of a circle from the edge it stands beyond
const BETWEEN: Mm = 0.8; // two circles
const BESIDE = 6; // places to either side along an edge, the leader aslant
const ON_LINE = 10;
const TURNS = 16;
const RINGS = 40;

/** The cut on paper: along its line, `share` from its start, and `beyond` outwards from the sheet. */
function lineOf(cut: SetCut, sheet: SetSheet, paper: Paper): { point: (along: Mm, beyond?: Mm) => Point; edge: Mm } {
  const at = cut.at + sheet.kerf / 2;
  return cut.across === "y"
    ? { point: (along, beyond = 0) => [paper.x(along) + beyond, paper.y(at)], edge: sheet.length }
    : { point: (along, beyond = 0) => [paper.x(at), paper.y(along) - beyond], edge: sheet.width };
}

/** Level cuts are numbered at the right, for strip names stand at the left; upright ones below, then above. */
function beyondEdges(cut: SetCut, sheet: SetSheet, paper: Paper, radius: Mm): Place[] {
  const { point, edge } = lineOf(cut, sheet, paper);
  const isLevel = cut.across === "y";
  const isAtStart = cut.from <= sheet.trim + 1;
  const isAtEnd = edge - cut.to <= sheet.trim + 1;
  const step = 2 * radius + BETWEEN;
  const aside = ([x, y]: Point, by: Mm): Point => (isLevel ? [x, y + by] : [x + by, y]);
  const row = (start: Point, reach: Point, cost: number): Place[] =>
    Array.from({ length: 2 * BESIDE + 1 }, (_, i) => i - BESIDE).map((by) => ({
      centre: aside(start, (by * step) / 2),
      reach,
      cost: cost + (by === 0 ? 0 : 1 + Math.abs(by)),
    }));
  const places: Place[] = [];
  for (const [nth, out] of [OUT + radius, OUT + radius + step].entries()) {
    if (isLevel && isAtEnd) places.push(...row(point(edge, out), point(cut.to), nth));
    if (!isLevel && isAtStart) places.push(...row(point(0, -out), point(cut.from), nth));
    if (!isLevel && isAtEnd && nth === 0) places.push(...row(point(edge, out), point(cut.to), 0.5));
  }
  return places;
}

/** On the line, near an end of it first: the middle is where the sizes of the parts beside it stand. */
function onLine(cut: SetCut, sheet: SetSheet, paper: Paper, radius: Mm): Place[] {
  const { point } = lineOf(cut, sheet, paper);
  const ratio = cut.across === "y" ? paper.ratios.along : paper.ratios.across; // the cut runs along the other axis
  const run = (cut.to - cut.from) * ratio;
  const step = 2 * radius + BETWEEN;
  const places: Place[] = [];
  for (let along = Math.min(run / 2, radius + 0.6); along <= run / 2; along += step / 2) {
    for (const from of [along, run - along]) {
      const spot = point(cut.from + from / ratio);
      places.push({ centre: spot, reach: spot, cost: ON_LINE + along / step + (from === along ? 0 : 0.1) });
    }
  }
  return places;
}

/** About the ends and the middle of the line. */
function nearLine(cut: SetCut, sheet: SetSheet, paper: Paper, radius: Mm): Place[] {
  const { point } = lineOf(cut, sheet, paper);
  return [point((cut.from + cut.to) / 2), point(cut.from), point(cut.to)].flatMap((reach) =>
    Array.from({ length: RINGS }, (_, ring) => radius + OUT + ring * radius).flatMap((run) =>
      Array.from({ length: TURNS }, (_, turn): Place => {
        const angle = (2 * Math.PI * turn) / TURNS;
        const centre: Point = [reach[0] + Math.cos(angle) * run, reach[1] + Math.sin(angle) * run];
        return { centre, reach, cost: run };
      }),
    ),
  );
}

/** Whether the circle touches no cut but its own, and its leader covers no lettering. */
function clear(
  sheet: SetSheet,
  paper: Paper,
  cut: SetCut,
  radius: Mm,
  taken: readonly Placed[],
): (place: Place) => boolean {
  const others = sheet.cuts
    .filter((other) => other !== cut)
    .map((other) => {
      const { point } = lineOf(other, sheet, paper);
      return [point(other.from), point(other.to)] as const;
    });
  return ({ centre, reach }) =>
    others.every(([a, b]) => clipToBox(a, b, grow(boxOf(centre, radius), 0.3)) === null) &&
    taken.every(({ box }) => clipToBox(centre, reach, box) === null);
}

const boxOf = ([x, y]: Point, radius: Mm): Rect => ({
  x: x - radius,
  y: y - radius,
  width: 2 * radius,
  height: 2 * radius,
});

const STEP: Mm = 1.5;

/** A leader, in short lengths, as what later lettering keeps clear of. */
export function alongLeader([x0, y0]: Point, [x1, y1]: Point): Placed[] {
  const count = Math.ceil(Math.hypot(x1 - x0, y1 - y0) / STEP);
  return Array.from({ length: count }, (_, i) => {
    const share = (i + 0.5) / count;
    return { box: { x: x0 + (x1 - x0) * share, y: y0 + (y1 - y0) * share, width: 0, height: 0 }, block: NOTHING };
  });
}

/** A number on each cut, clear of what is `taken`. */
export function placeNumbers(
  sheet: SetSheet,
  paper: Paper,
  taken: readonly Placed[],
): { shapes: Shape[]; placed: Placed[] } {
  const margins = marginsOf(sheet);
  const space: Rect = {
    x: 0,
    y: 0,
    width: margins.left + paper.box.width + margins.right,
    height: paper.box.height + margins.top + margins.bottom,
  };
  const placed: Placed[] = [...taken];
  const leaders: Shape[] = [];
  const balloons: Shape[] = [];
  for (const cut of sheet.cuts) {
    const label = String(cut.n);
    const radius = balloonRadius(label, NUMBER);
    const find = (places: readonly Place[]): Place | null => {
      const spots = places
        .map((place): Spot & Place => ({ ...place, x: place.centre[0] - radius, y: place.centre[1] - radius }))
        .filter(({ centre }) => isWithin(boxOf(centre, radius), space));
      const found = placeItem(
        { forms: [{ block: { ...NOTHING, width: 2 * radius, height: 2 * radius }, spots }] },
        placed,
      );
      return found === null ? null : spots.find(({ x, y }) => x === found.box.x && y === found.box.y)!;
    };
    const first = [...beyondEdges(cut, sheet, paper, radius), ...onLine(cut, sheet, paper, radius)];
    // Where every place is taken, the number stands on its line all the same: a cut without one could not be followed.
    const near = (): Place[] => nearLine(cut, sheet, paper, radius);
    const place =
      find(first) ?? find(near().filter(clear(sheet, paper, cut, radius, placed))) ?? find(near()) ?? first.at(-1)!;
    placed.push({ box: boxOf(place.centre, radius), block: NOTHING }, ...alongLeader(place.reach, place.centre));
    leaders.push(line("thin", place.reach, place.centre));
    balloons.push(...drawBalloon(place.centre, label, NUMBER));
  }
  return { shapes: [...leaders, ...balloons], placed };
}
