/** Tipping while in use: a piece with all its doors open and all its drawers drawn out and laden, and what its foremost edge still bears. */

import { type Mm, SAME } from "../../base/length.ts";
import { listInWords } from "../../base/words.ts";
import { massOf, massOfAssembly } from "../../set/mass.ts";
import type { SetAssembly, SetCheck, SetDrawer, SetPart } from "../../set/schema.ts";
import { formatMass } from "../../set/words.ts";
import { blankOf, type CheckInput, checkOf, computed, shown } from "./input.ts";
import { type Piece, standingPieces } from "./piece.ts";
import { staticsOf } from "./tipping.ts";

/** A body by its mass in kg and how far its middle lies behind the piece's own front; below zero: before it. */
type Weight = { mass: number; forward: Mm };

/** Laid open, how far before the piece's own front it reaches. */
type Open = Weight & { reach: Mm };

const RULE =
  "a piece goes over when its middle of mass comes before its front feet (statics; load by the job, or 8.5 lb to the cubic foot: ASTM F2057-23, 16 CFR 1261)";

export const checkOpen = (input: CheckInput): SetCheck[] =>
  standingPieces(input).flatMap((piece) => {
    const open = staticsOpen(piece, input);
    return open === null ? [] : [told(piece, open, input)];
  });

/** `behind`: the middle of mass behind the front feet; `reach`: the foremost edge before these; `bears`: kg on that edge that bring it over. */
export type StaticsOpen = {
  doors: number;
  drawers: number;
  load: number; // kg in the drawers
  mass: number;
  behind: Mm;
  reach: Mm;
  bears: number;
};

/** Everything on hinges and slides of a piece as far forward as it goes; null where it has none. What lies on top is left out. */
export function staticsOpen(piece: Piece, { assemblies, drawers, doors, parts }: CheckInput): StaticsOpen | null {
  const names = piece.assemblies.map(({ name }) => name);
  const own = drawers.filter(({ assembly }) => names.includes(assembly));
  const hung = doors.filter((door) => names.includes(door.case));
  if (own.length + hung.length === 0) return null;
  const open = [
    ...own.map((drawer) => drawnOut(drawer, piece, parts)),
    ...hung.map((door) => swungOpen(assemblies.find(({ name }) => name === door.assembly)!, piece, parts)),
  ];
  const still = staticsOf(piece);
  // Drawers are among the parts of the piece, closed: what draws them out moves their own mass by as much.
  const moved = own.reduce((sum, one) => sum + massOfAssembly(parts, one.assembly) * one.slides.length, 0);
  const mass = still.mass + open.reduce((sum, one) => sum + one.mass, 0);
  const turning = still.mass * still.centre[1] - moved + open.reduce((sum, one) => sum + one.mass * one.forward, 0);
  const behind = turning / mass - still.feet;
  const reach = Math.max(...open.map((one) => one.reach)) + still.feet;
  const load = own.reduce((sum, one) => sum + one.load, 0);
  return { doors: hung.length, drawers: own.length, load, mass, behind, reach, bears: (mass * behind) / reach };
}

const many = (count: number, one: string): string =>
  count === 1 ? `its ${one}` : count === 2 ? `both ${one}s` : `all ${count} ${one}s`;

function told(piece: Piece, open: StaticsOpen, { unit }: CheckInput): SetCheck {
  const { doors, drawers, load, mass, behind, reach, bears } = open;
  const show = (kg: number): string => formatMass(kg, unit);
  const ways = [
    ...(doors === 0 ? [] : [`${many(doors, "door")} open`]),
    ...(drawers === 0
      ? []
      : [`${many(drawers, "drawer")} drawn out and ${show(load)} in ${drawers === 1 ? "it" : "them"}`]),
  ];
  const stands = `${piece.name} with ${listInWords(ways)}, ${show(mass)} in all: middle of mass ${computed(Math.abs(behind), unit)} ${behind >= 0 ? "behind" : "in front of"} its front feet`;
  if (behind <= SAME) {
    return checkOf("tipping", "warning", [], {
      text: `${stands}. It goes over.`,
      rule: RULE,
      change:
        "anchor it to the wall before anything is put in it, by fixings that suit the wall; heavy things low; one drawer or door at a time",
    });
  }
  return checkOf("tipping", "ok", [], {
    text: `${stands}. ${show(bears)} leaning on its foremost edge, ${shown(reach, unit)} in front of its feet, bring it over.`,
    rule: RULE,
  });
}

/** What lies in a drawer, in the middle of its box, drawn out by the length of its slides; and how far its front comes out. */
function drawnOut(drawer: SetDrawer, piece: Piece, parts: readonly SetPart[]): Open {
  const { slides, load, sums, opening, free } = drawer;
  const deep = sums.find(({ what }) => what === "depth")!.makes;
  const rear = opening.rear - free.behind;
  const face = parts.find(({ mark }) => mark === drawer.face)!;
  const front = drawer.front.fit === "inset" ? opening.front : opening.front - face.thickness;
  return {
    mass: load,
    forward: rear - deep / 2 - slides.length - piece.at[1],
    reach: piece.at[1] - front + slides.length,
  };
}

const RADIANS = Math.PI / 180;

/** A hinged door at the angle, among those it turns through, at which its middle is foremost. */
function swungOpen(door: SetAssembly, piece: Piece, parts: readonly SetPart[]): Open {
  if (door.travel.kind !== "swing") throw new Error(`${door.name} hangs on hinges and does not swing`);
  const { pivot, range } = door.travel;
  const own = parts.filter((part) => part.assembly === door.name);
  const mass = massOf(own);
  const middle = (axis: 0 | 1): Mm =>
    own.reduce((sum, part) => {
      const [lo, hi] = blankOf(part)!;
      return sum + (part.mass * (lo[axis] + hi[axis])) / 2;
    }, 0) / mass;
  const [x, y] = [middle(0) - pivot[0], middle(1) - pivot[1]];
  const corners = [0, door.size[0]].flatMap((cx) => [0, door.size[1]].map((cy) => [cx, cy] as const));
  const from = (dx: Mm, dy: Mm): Mm => foremost(dx, dy, range);
  const home = door.place.at[1] + pivot[1] - piece.at[1];
  return {
    mass,
    forward: home + from(x, y),
    reach: -(home + Math.min(...corners.map(([cx, cy]) => from(cx - pivot[0], cy - pivot[1])))),
  };
}

/** The least y that a point takes while it turns about the origin, anticlockwise seen from above, through a range of degrees. */
function foremost(x: Mm, y: Mm, [low, high]: readonly [number, number]): Mm {
  const at = (degrees: number): Mm => x * Math.sin(degrees * RADIANS) + y * Math.cos(degrees * RADIANS);
  // Straight before the pivot: where the point's own direction has turned to -90 degrees.
  const straight = -90 - Math.atan2(y, x) / RADIANS;
  const turns = [-360, 0, 360].map((whole) => straight + whole).filter((angle) => angle > low && angle < high);
  return Math.min(...[low, high, ...turns].map(at));
}
