/**
 * How a sliding door goes in, looked at from its end and backwards, as it is taken out: moved to the rear walls of its grooves, lifted to the floor
 * of the upper one, turned about its front upper edge until its lower end leans out, let down past what is in front, taken away forwards.
 */
import type { Box } from "../../base/geometry.ts";
import type { Mm } from "../../base/length.ts";
import type { SetCheck, SetSliders } from "../../set/schema.ts";
import { TOUCH } from "../solids/boxes.ts";
import { depthMoved, sectionOf, shifted } from "../solids/section.ts";
import { type Outline, type Point, turned } from "../solids/turned.ts";
import { amount, failure, type Job } from "../words.ts";
import type { Body } from "./body.ts";
import type { Slid } from "./slid.ts";
import { clashOf } from "./swing.ts";

/** Beyond whatever stands before a case. */
const AWAY: Mm = 1e4;
/** Let down so far below what its upper end came in under. */
const BELOW: Mm = 1;

type Found = { own: Body; other: Body; depth: Mm; when: string };

export function checkLift(
  told: SetSliders,
  door: Slid,
  all: readonly Slid[],
  still: readonly Body[],
  job: Job,
): SetCheck[] {
  const { slider, bounds } = door;
  const { degrees, along, up, back } = slider.lean;
  // Those behind stand there already; those in front come later.
  const behind = all.filter((one) => one.slider.track > slider.track).flatMap(({ bodies }) => bodies);
  const pivot: Point = [bounds[0][1] + back, bounds[1][2] + up];
  const lean = (-degrees * Math.PI) / 180;
  const top = told.entrance.at[2] + told.entrance.height;
  const down: Point = [0, Math.min(0, top - BELOW - pivot[1])];
  const found: Found[] = [];
  for (const own of door.bodies)
    for (const other of [...still, ...behind]) {
      if (!besides(own.box, other.box, along)) continue;
      const look = (when: string, depth: Mm): void => {
        if (depth > TOUCH) found.push({ own, other, depth, when });
      };
      const [moving, fixed] = [sectionOf(own.box), sectionOf(other.box)];
      look("moved back", depthMoved(moving, [back, 0], fixed));
      const against: Outline = shifted(moving, [back, 0]);
      look("lifted", depthMoved(against, [0, up], fixed));
      const lifted = shifted(against, [0, up]);
      const clash = clashOf(lifted, fixed, { pivot, from: lean, to: 0 });
      if (clash !== null)
        look(`leaning out by ${Math.round((Math.abs(clash.angle) * 1800) / Math.PI) / 10}°`, clash.depth);
      const leaning = turned(lifted, pivot, lean);
      look("let down", depthMoved(leaning, down, fixed));
      look("taken away", depthMoved(shifted(leaning, down), [-AWAY, 0], fixed));
    }
  const [left, right] = [told.entrance.at[0], told.entrance.at[0] + told.entrance.width];
  const beside = Math.max(left - bounds[0][0] - along, bounds[1][0] + along - right);
  const checks: SetCheck[] = [];
  if (beside > TOUCH)
    checks.push(
      failure(
        "slider-lift",
        door.parts,
        `${slider.assembly} is told to go in ${amount(beside, job)} beside the opening of the front. Change: where it goes in, or a narrower door.`,
      ),
    );
  const worst = found.reduce<Found | null>((most, one) => (most && most.depth >= one.depth ? most : one), null);
  if (worst !== null)
    checks.push(
      failure(
        "slider-lift",
        [...door.parts, ...(worst.other.part === null ? [] : [worst.other.part])],
        `${slider.assembly} cannot be put in or taken out: ${worst.when}, ${worst.own.words} comes ${amount(worst.depth, job)} into ${worst.other.words}. Change: more "spare" with an "upper" as much deeper, more "play", or less "setIn"${worst.other.part?.role === "rail" ? `; or a narrower ${worst.other.part.name}` : ""}.`,
      ),
    );
  return checks;
}

/** Whether one is beside the other from left to right, the door where it goes in. */
const besides = (door: Box, other: Box, along: Mm): boolean =>
  Math.min(door[1][0] + along, other[1][0]) - Math.max(door[0][0] + along, other[0][0]) > TOUCH;
