/** What is said of doors that slide in grooves, and which bays are made alike. */
import { massOfAssembly } from "../../set/mass.ts";
import type { DryfitSet, SetSliders } from "../../set/schema.ts";
import { formatMass } from "../../set/words.ts";
import { type Atom, figure, words } from "../draughting/cell.ts";
import { makingNotes } from "./door-notes.ts";
import type { SetSlider } from "./slider-blocks.ts";

/** All that a bay's drawing shows but for its marks and its place: the first bay that agrees in it has the drawing. */
export function alikeTo(set: DryfitSet, told: SetSliders, all: readonly SetSliders[]): number {
  const figures = ({ doors, opening, entrance, above, below, tracks, groove, case: home }: SetSliders): string =>
    JSON.stringify([
      opening.width,
      opening.height,
      entrance.width,
      entrance.height,
      above.depth,
      below.depth,
      tracks,
      groove,
      set.assemblies.find(({ name }) => name === home)!.place.at[1],
      doors.map((door) => [
        door.track,
        door.lean,
        door.pull,
        door.knob,
        set.parts.filter(({ assembly }) => assembly === door.assembly).map(({ pattern }) => pattern),
      ]),
    ]);
  return all.findIndex((one) => figures(one) === figures(told));
}

/** How the doors stand and run, what differs from the one drawn, and which bays are made alike. */
export function notesOf(set: DryfitSet, told: SetSliders): Atom[][] {
  const { unit } = set.job;
  const [first, ...others] = told.doors as [SetSlider, ...SetSlider[]];
  const mass = massOfAssembly(set.parts, first.assembly);
  const { pull } = first;
  const alike = set.sliders.filter(
    (one) => one !== told && alikeTo(set, one, set.sliders) === set.sliders.indexOf(told),
  );
  const front = told.doors.filter(({ track }) => track === 0).map(({ assembly }) => assembly);
  const rear = told.doors.filter(({ track }) => track === 1).map(({ assembly }) => assembly);
  return [
    [
      ...words(`${front.join(" and ")} in the groove in front, ${rear.join(" and ")} behind; each covers the next by`),
      figure(told.overlap, unit, 3),
      ...words("closed. A door stands on the floor of its lower groove, held"),
      figure(told.held, unit, 3),
      ...words("deep by the upper one, with"),
      figure(told.play, unit, 3),
      ...words("of play by the thickest reading. Lifted all the way it has"),
      figure(told.spare, unit, 3),
      ...words(`to spare over the wood below. It weighs ${formatMass(mass, unit)}.`),
    ],
    ...makingNotes(set, first.assembly, first.horns),
    ...(pull === null
      ? []
      : [
          [
            ...words("Recess to pull by:"),
            figure(pull.diameter, unit, 3),
            ...words("across and"),
            figure(pull.depth, unit, 3),
            ...words("deep, drilled in the face in front; measured from the nearer edge."),
          ],
        ]),
    words(
      `${others.map(({ assembly }) => assembly).join(", ")}: the same size${(first.pull ?? first.knob) ? ", pulled at the edge that no other door covers: see its part drawing" : ""}.`,
    ),
    ...alike.map((one) => words(`Made alike: ${one.doors.map(({ assembly }) => assembly).join(", ")}.`)),
  ];
}
