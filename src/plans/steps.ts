/** Steps: the order of work from the print check to standing the piece up, from the plans made so far. */
import type { SetAssembly, SetOrder, SetStep } from "../set/schema.ts";
import { planAssemblySteps } from "./steps/assemble.ts";
import { planDoorSteps } from "./steps/doors.ts";
import { planDrawerSteps } from "./steps/drawers.ts";
import { planFinishBefore } from "./steps/finish.ts";
import { planFrameSteps } from "./steps/frame.ts";
import { needsOf } from "./steps/needs.ts";
import { planPartSteps } from "./steps/parts.ts";
import { planSliderSteps } from "./steps/sliders.ts";
import { planStandSteps } from "./steps/stand.ts";
import type { Draft, StepsInput } from "./steps/step.ts";
import { planWorktopSteps } from "./steps/worktop.ts";

type Planner = (order: SetOrder, input: StepsInput) => Draft[];

/** What follows from the case as built: nothing of it is cut before, and it is made kind after kind, in this order. */
const FOLLOWING: Partial<Record<SetAssembly["kind"], Planner>> = {
  frame: planFrameSteps,
  door: planDoor,
  drawer: planDrawerSteps,
  worktop: planWorktopSteps,
};

/** On hinges, or in grooves. */
function planDoor(order: SetOrder, input: StepsInput): Draft[] {
  const slides = input.sliders.some(({ doors }) => doors.some(({ assembly }) => assembly === order.assembly));
  return slides ? planSliderSteps(order, input) : planDoorSteps(order, input);
}

export function planSteps(input: StepsInput): SetStep[] {
  const kindOf = (name: string): SetAssembly["kind"] => input.assemblies.find((one) => one.name === name)!.kind;
  const follows = (name: string): boolean => kindOf(name) in FOLLOWING;
  const first = input.orders.filter(({ assembly }) => !follows(assembly));
  return numbered([
    ...planPartSteps(withoutFollowing(input, follows)),
    ...planFinishBefore(withoutFollowing(input, follows)),
    ...first.flatMap((order) => planAssemblySteps(order, input)),
    ...Object.entries(FOLLOWING).flatMap(([kind, plan]) =>
      input.orders.filter(({ assembly }) => kindOf(assembly) === kind).flatMap((order) => plan(order, input)),
    ),
    ...planStandSteps(input),
  ]);
}

function numbered(drafts: readonly Draft[]): SetStep[] {
  const needs = needsOf(drafts);
  return drafts.map(({ beside: _, ...draft }, i) => ({ n: i + 1, needs: needs[i]!, ...draft }));
}

function withoutFollowing(input: StepsInput, follows: (assembly: string) => boolean): StepsInput {
  const packing = new Set(input.assemblies.filter(({ kind }) => kind === "packing").map(({ name }) => name));
  const parts = input.parts.filter(({ assembly }) => !follows(assembly) && !packing.has(assembly));
  // What is cut for others alone waits for them.
  const settings = input.settings.filter(({ runs }) =>
    runs.some(({ mark }) => parts.some((part) => part.mark === mark)),
  );
  const drilling = input.drilling.flatMap((one) => {
    const rows = one.rows.filter(({ mark }) => parts.some((part) => part.mark === mark));
    return rows.length === 0 ? [] : [{ ...one, rows }];
  });
  const handWork = input.handWork.filter(({ mark }) => parts.some((part) => part.mark === mark));
  return { ...input, parts, drilling, settings, handWork };
}
