/** The steps of doors that slide in grooves: put together, then leaned into their grooves, those behind first. */
import { formatLengthWithUnit, type Mm, SAME } from "../../base/length.ts";
import { listInWords } from "../../base/words.ts";
import type { SetOrder, SetSliders } from "../../set/schema.ts";
import { planAssemblySteps } from "./assemble.ts";
import { marksOf, trimHorns } from "./make-doors.ts";
import { capital, type Draft, type StepsInput, step } from "./step.ts";

type Show = (length: Mm) => string;

/** What comes last is told with a case's last door. */
export function planSliderSteps(order: SetOrder, input: StepsInput): Draft[] {
  const home = input.sliders.find(({ doors }) => doors.some(({ assembly }) => assembly === order.assembly))!.case;
  const bays = input.sliders.filter((one) => one.case === home);
  const doors = bays.flatMap((bay) => bay.doors.map(({ assembly, horns }) => ({ assembly, case: home, horns })));
  const parts = input.parts.filter(({ assembly }) => doors.some((one) => one.assembly === assembly));
  const isSlab = parts.filter(({ assembly }) => assembly === order.assembly).length === 1;
  return [
    ...(isSlab ? [] : planAssemblySteps(order, input)),
    ...(order.assembly === doors.at(-1)!.assembly
      ? [...trimHorns(doors, parts, input.unit), slideIn(home, bays, marksOf(parts), input)]
      : []),
  ];
}

function slideIn(home: string, bays: readonly SetSliders[], marks: string[], input: StepsInput): Draft {
  const show: Show = (length) => formatLengthWithUnit(length, input.unit);
  const [first] = bays as [SetSliders];
  const sizeOf = (name: string) => input.assemblies.find((one) => one.name === name)!.size;
  const doors = bays.flatMap((bay) => bay.doors);
  return step(
    `Slide the doors of ${home} into their grooves`,
    [
      `Ease the corners of each door's upper and lower edge with a block plane. In its groove a door has ${show(first.groove - sizeOf(doors[0]!.assembly)[1])} of play: it slides from end to end by a finger's push.`,
      ...bays.flatMap((bay) => inOrder(bay, show)),
      `Each door then stands on the floor of its lower groove and is held above by ${show(first.held)}. Lifted all the way it clears the wood below by ${show(first.spare)}, and comes out the way it went in. One that does not lift clear is planed at its upper edge, a shaving at a time.`,
      "Slide each door to both ends: it stands against the side, or against the next one in its groove, and touches none in the other.",
      "Then take the doors out again. Before any finish goes on, mask every groove and the edges that run in it: they slide on bare wood. When the finish is hard, rub candle wax into the grooves, never before it, and put the doors back.",
    ],
    {
      parts: marks,
      boxes: doors.map(({ assembly }) => ({ label: `${assembly}, height`, target: sizeOf(assembly)[2] })),
      cautions: [
        "A door that is let go before it stands in both grooves falls out to the front: hold it with both hands.",
      ],
    },
  );
}

/** The groove behind cannot be reached past a door in the one in front. */
function inOrder({ doors, entrance }: SetSliders, show: Show): string[] {
  return ([1, 0] as const).map((track) => {
    const own = doors.filter((door) => door.track === track);
    const [{ lean }] = own as [SetSliders["doors"][number]];
    const moved = own.filter((door) => Math.abs(door.lean.along) > SAME);
    const aside =
      moved.length === 0
        ? ""
        : ` Between the stiles, ${show(entrance.width)} apart: ${listInWords(moved.map((door) => `${door.assembly} ${show(Math.abs(door.lean.along))} to the ${door.lean.along > 0 ? "right" : "left"} of where it stands closed`))}.`;
    const where = track === 1 ? "into the grooves behind" : "into those in front";
    return `${capital(listInWords(own.map((door) => door.assembly)))} ${track === 1 ? "first, " : ""}${where}: hold it leaning, its lower end about ${show(lean.out)} nearer to you, push its upper edge up to the floor of the upper groove, swing the lower end in and let it down.${aside}`;
  });
}
