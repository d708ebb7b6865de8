/** Where the drawers of a bay stand in their opening, and what they run on: or why they cannot. All in the room. */
import { formatLengthWithUnit, type Mm, SAME, type Unit } from "../../base/length.ts";
import type { Bay } from "../../project/bay.ts";
import { LEAST_DRAWER, LEAST_DRAWER_WIDTH, LEAST_LAP } from "../../project/defaults.ts";
import { crampedBy } from "../../project/dovetails.ts";
import { type Level, stackIn } from "../../project/drawer-stack.ts";
import type { Drawers } from "../../project/drawers.ts";
import type { DrawerRole } from "../../project/role.ts";
import type { FrontOpening } from "../front-openings.ts";
import type { Grid } from "../grid.ts";
import type { Refusal } from "../model.ts";

type Range = readonly [Mm, Mm];

/** What all drawers of a bay have in common. */
export type BayOfDrawers = {
  opening: FrontOpening;
  x: { face: Range; box: Range }; // clear for the applied front, and for box and slides
  z: Range;
  clearance: Mm; // at each side of the box
  faceFront: Mm; // y of the applied front's face
  boxFront: Mm;
  behind: Mm; // y from which slides are fixed: behind the frame, or where the box begins
  length: Mm; // of the slides
  depth: Mm; // of the boxes
  levels: Level[]; // over the opening's lower edge
  lap: { left: Mm; right: Mm }; // of the frame inside the bay
};

export type BayGround = {
  drawers: Drawers;
  bay: Extract<Bay, { kind: "open" }>;
  thickness: (role: DrawerRole) => Mm;
  unit: Unit;
  grid: Grid;
};

export function placeInBay(opening: FrontOpening, ground: BayGround): BayOfDrawers | Refusal {
  const { drawers, bay, thickness, unit, grid } = ground;
  const { slides, front } = drawers;
  const show = (length: Mm): string => formatLengthWithUnit(Math.max(0, length), unit);
  const name = bay.name === null ? "this bay" : `"${bay.name}"`;
  const refuse = (found: string, expected: string, remedy: string): Refusal => ({
    path: `${bay.path}.drawers`,
    found,
    expected,
    remedy,
  });
  const { inside } = opening;
  const x: Range = [Math.max(opening.x[0], inside.x[0]), Math.min(opening.x[1], inside.x[1])];
  const z: Range = [Math.max(opening.z[0], inside.z[0]), Math.min(opening.z[1], inside.z[1])];

  const side = thickness("drawerSide");
  const clearance = slides.kind === "undermount" ? slides.clearance / 2 - side : slides.clearance;
  const taken = 2 * (clearance + side);
  const clear = x[1] - x[0];
  if (clear - taken < LEAST_DRAWER_WIDTH - SAME) {
    return refuse(
      `drawers in ${name}, ${show(clear)} wide, where slides and sides take ${show(taken)}`,
      `at least ${show(taken + LEAST_DRAWER_WIDTH)}`,
      "make the bay wider, or give it no drawers",
    );
  }

  const stack = stackIn(z[1] - z[0], drawers, bay.drawers);
  if ("over" in stack) {
    const { over } = stack;
    return refuse(
      over > 0
        ? `drawers that with their gaps take ${show(over)} more than the ${show(z[1] - z[0])} that ${name} is high in front`
        : `drawers that with their gaps leave ${show(-over)} of the ${show(z[1] - z[0])} that ${name} is high in front`,
      "heights and gaps that add up to the opening",
      over > 0
        ? "make one of them lower, or give it no size"
        : "leave the size of one of them out, and it takes the rest",
    );
  }
  const low = stack.levels.findIndex(({ box }) => box[1] - box[0] < LEAST_DRAWER - SAME);
  if (low >= 0) {
    const [from, to] = stack.levels[low]!.box;
    return refuse(
      `a box ${show(to - from)} high, drawer ${low + 1} of ${name}, counted from the lowest`,
      `at least ${show(LEAST_DRAWER)}`,
      "fewer drawers, or less for the others",
    );
  }

  if (drawers.joint === "dovetail") {
    const cramped = crampedIn(stack.levels, ground);
    if (cramped !== null)
      return refuse(
        `${cramped.found} of drawer ${cramped.level + 1} of ${name}, counted from the lowest`,
        cramped.expected,
        cramped.remedy,
      );
  }

  const faceFront = front.fit === "inset" ? opening.front : opening.front - thickness("drawerFace");
  const boxFront = faceFront + thickness("drawerFace");
  const caseFront = opening.case.at[1];
  const behind = slides.kind === "undermount" ? boxFront : Math.max(boxFront, caseFront);
  const room = opening.rear - slides.rear - behind - slides.setBack;
  const length = slides.lengths.findLast((one) => one <= room + SAME);
  if (length === undefined) {
    return refuse(
      `${name} is ${show(opening.rear - behind)} deep behind ${behind > boxFront + SAME ? "the face frame" : "the drawer's applied front"}, of which ${show(slides.rear + slides.setBack)} stay free, and the shortest slides are ${show(slides.lengths[0]!)} long`,
      `slides of ${show(room)} or less`,
      'name shorter ones in "lengths", or make the case deeper',
    );
  }

  const laps = { left: x[0] - inside.x[0], right: inside.x[1] - x[1] };
  const isPacked = slides.kind !== "wooden runners";
  const lap = (one: Mm): Mm => (isPacked && one > LEAST_LAP ? one : 0);
  const thick = isPacked && (lap(laps.left) > 0 || lap(laps.right) > 0) ? thickness("packing") : 0;
  const most = Math.max(lap(laps.left), lap(laps.right));
  if (most > thick + SAME) {
    return refuse(
      `stiles that lap ${show(most)} inside ${name}, and packing strips of ${show(thick)}`,
      `a stock at least ${show(most)} thick, planed to the lap`,
      'choose a thicker stock for "packing", or narrower stiles',
    );
  }
  return {
    opening,
    x: { face: opening.x, box: x },
    z,
    clearance,
    faceFront,
    boxFront,
    behind,
    length,
    depth: grid.end(behind - boxFront + length),
    levels: front.fit === "inset" ? toOpening(stack.levels, z, opening.z) : stack.levels,
    lap: isPacked ? { left: lap(laps.left), right: lap(laps.right) } : laps,
  };
}

/** Inset fronts end at what is round the opening, also where a shelf behind it, which the boxes must pass, stands farther in. */
const toOpening = (levels: readonly Level[], inner: Range, outer: Range): Level[] =>
  levels.map((level, i): Level => {
    const below = i === 0 ? outer[0] - inner[0] : 0;
    const above = i === levels.length - 1 ? outer[1] - inner[1] : 0;
    return { ...level, front: [level.front[0] + below, level.front[1] + above] };
  });

/** The first corner whose tails find no room, or would be cut through by the groove of the bottom. */
function crampedIn(
  levels: readonly Level[],
  { drawers, thickness, unit }: BayGround,
): { level: number; found: string; expected: string; remedy: string } | null {
  const show = (length: Mm): string => formatLengthWithUnit(Math.max(0, length), unit);
  const { up, grooves } = drawers.bottom;
  const side = thickness("drawerSide");
  const on = up + thickness("drawerBottom");
  for (const [level, { box }] of levels.entries()) {
    const height = box[1] - box[0];
    // Over a bottom that is slid in under it the back is less high, and has no groove.
    const corners = [
      { what: "front", height, pinBoard: thickness("drawerFront"), groove: [up, on] as [Mm, Mm] },
      grooves === 4
        ? { what: "back", height, pinBoard: thickness("drawerBack"), groove: [up, on] as [Mm, Mm] }
        : { what: "back", height: height - on, pinBoard: thickness("drawerBack"), groove: null },
    ];
    for (const { what, ...corner } of corners) {
      const cramped = crampedBy(corner.height, { side, tails: drawers.tails, ...corner });
      if (cramped === null) continue;
      const at = `${show(cramped.from)} to ${show(cramped.to)} up at its root`;
      return cramped.what === "root"
        ? {
            level,
            found: `a ${what} ${show(corner.height)} high, dovetailed: its lowest tail is ${at}`,
            expected: `a tail at least ${show(drawers.tails.pin)} wide at its root`,
            remedy: 'make the drawer higher, or choose another "joint"',
          }
        : {
            level,
            found: `a groove for the bottom ${show(up)} to ${show(on)} up, and the lowest tail at the ${what} ${at}: it would come out through a pin`,
            expected: "a groove within the lowest tail",
            remedy: `lay the bottom ${up < cramped.from ? "higher" : "lower"}: "up" of ${show(up < cramped.from ? cramped.from : cramped.to - (on - up))}${up < cramped.from ? " or more" : " or less"}`,
          };
    }
  }
  return null;
}
