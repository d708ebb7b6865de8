/** Doors: does a solid panel move freely and stay held, and do the hinges carry the door? */

import { type Mm, SAME } from "../../base/length.ts";
import { movementOf } from "../../base/moisture.ts";
import { HINGE_COUNTS, PANEL_HELD } from "../../project/defaults.ts";
import { massOf } from "../../set/mass.ts";
import type { SetCheck, SetDoor, SetPart } from "../../set/schema.ts";
import { formatMass } from "../../set/words.ts";
import {
  type CheckInput,
  capital,
  checkOf,
  computed,
  nameOf,
  PRACTICE,
  shown,
  stockOfPart,
  tapeDown,
} from "./input.ts";

export const checkDoors = (input: CheckInput): SetCheck[] => [
  ...checkPanels(input),
  ...(input.doors.length === 0 ? [] : checkHinges(input)),
];

const GROWS =
  "width x coefficient x points of moisture (Wood Handbook 2010, chapter 13); flat-sawn, from the moisture at making to the wettest, or over the whole range where that is not known";

function checkPanels(input: CheckInput): SetCheck[] {
  const panels = input.parts.filter(({ role }) => role === "doorPanel");
  if (panels.length === 0) return [];
  const solid = panels.filter((panel) => stockOfPart(panel, input.stock).solid);
  const found = solid.flatMap((panel) => checkPanel(panel, input));
  if (found.length > 0) return found;
  const text =
    solid.length === 0
      ? `${panels.length === 1 ? "The door panel is" : `All ${panels.length} door panels are`} plywood, which keeps its size.`
      : `${solid.length === 1 ? "The solid door panel has" : `All ${solid.length} solid door panels have`} room for the wettest season, and ${solid.length === 1 ? "is" : "are"} held in the driest.`;
  return [checkOf("door-panel", "ok", [], { text, rule: GROWS })];
}

/** What moves is what lies between the two grooves' floors, less the clearance: the panel's own width. */
function checkPanel(panel: SetPart, { joints, stock, moisture, unit, parts }: CheckInput): SetCheck[] {
  const { species, name } = stockOfPart(panel, stock);
  if (species === null)
    return [
      checkOf("door-panel", "warning", [panel.mark], {
        text: `${capital(nameOf(panel))} is solid wood, and ${name} does not say of what species: how far it moves is not reckoned.`,
        rule: GROWS,
        change: `give ${name} its "species", or take a panel of plywood`,
      }),
    ];
  const { made, driest, wettest } = moisture;
  const edges = joints.filter(({ entering, enteringEnd }) => entering === panel.mark && enteringEnd[0] === "w");
  const clear = edges.reduce((sum, { gap }) => sum + gap[0], 0);
  const growth = movementOf(panel.width, species.tangential, wettest - (made ?? driest));
  const shrinks = movementOf(panel.width, species.tangential, (made ?? wettest) - driest);
  const held = Math.min(...edges.map(({ depth, gap }) => depth - gap[1])) - shrinks / 2;
  const marks = [
    panel.mark,
    ...parts.filter(({ mark }) => edges.some(({ receiving }) => receiving === mark)).map(({ mark }) => mark),
  ];
  const checks: SetCheck[] = [];
  if (clear < growth - SAME)
    checks.push(
      checkOf("door-panel", "failure", marks, {
        text: `${capital(nameOf(panel))} is ${shown(panel.width, unit)} of ${species.name} and grows ${computed(growth, unit)} to ${percent(wettest)} moisture; its grooves leave ${clear < SAME ? "nothing" : computed(clear, unit)}: it would burst the door.`,
        rule: GROWS,
        change: `leave "clearance" out, or make it ${computed(growth, unit)} or more; or take a panel of plywood`,
      }),
    );
  const least = PANEL_HELD[unit];
  if (held < least - SAME)
    checks.push(
      checkOf("door-panel", "warning", marks, {
        text: `${capital(nameOf(panel))} shrinks ${computed(shrinks, unit)} to ${percent(driest)} moisture, and is then held by ${held > SAME ? computed(held, unit) : "nothing"} at each side.`,
        rule: `at the driest a panel is still held by ${shown(least, unit)} a side (trade magazines)`,
        change: `a "stickDepth" deeper by ${computed(least - held, unit)}, or two narrower doors, or a panel of plywood`,
      }),
    );
  return checks;
}

const percent = (points: number): string => `${Math.round(points * 10) / 10} %`;

/** More than the table's last row is another one for each so much. */
const countFor = (height: Mm, mass: number): number => {
  const row = HINGE_COUNTS.find((one) => height <= one.height + SAME && mass <= one.mass);
  return row?.count ?? HINGE_COUNTS.at(-1)!.count + 1;
};

function checkHinges({ doors, parts, assemblies, unit }: CheckInput): SetCheck[] {
  const rule = `hinges by height and weight of the door: ${HINGE_COUNTS.map(({ count, height, mass }) => `${count} to ${shown(tapeDown(height, unit), unit)} and ${formatMass(mass, unit)}`).join(", ")} (${PRACTICE})`;
  const own = (door: SetDoor): SetPart[] => parts.filter(({ assembly }) => assembly === door.assembly);
  const sized = doors.map((door) => ({
    door,
    height: assemblies.find(({ name }) => name === door.assembly)!.size[2],
    mass: massOf(own(door)),
  }));
  const few = sized.filter(({ door, height, mass }) => door.hinges.middles.length < countFor(height, mass));
  if (few.length > 0)
    return few.map(({ door, height, mass }) =>
      checkOf(
        "door-hinges",
        "warning",
        own(door).map(({ mark }) => mark),
        {
          text: `${capital(door.assembly)} is ${shown(height, unit)} high and weighs ${formatMass(mass, unit)} without its knob; ${door.hinges.middles.length} hinges carry less.`,
          rule,
          change: `"count": ${countFor(height, mass)} under "hinges", or a lighter door`,
        },
      ),
    );
  const heaviest = sized.reduce((most, one) => (one.mass > most.mass ? one : most));
  return [
    checkOf("door-hinges", "ok", [], {
      text: `Every door has hinges enough; the heaviest, ${heaviest.door.assembly}, weighs ${formatMass(heaviest.mass, unit)} and has ${heaviest.door.hinges.middles.length}.`,
      rule,
    }),
  ];
}
