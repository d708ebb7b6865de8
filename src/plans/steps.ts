/** Steps: the order of work from the print check to standing the piece up, from the plans made so far. */
import type { SetStep } from "../set/schema.ts";
import { planAssemblySteps } from "./steps/assemble.ts";
import { planFrameSteps } from "./steps/frame.ts";
import { planPartSteps } from "./steps/parts.ts";
import { planStandSteps } from "./steps/stand.ts";
import type { StepsInput } from "./steps/step.ts";

export function planSteps(input: StepsInput): SetStep[] {
  const isFrame = (name: string): boolean => input.assemblies.find((one) => one.name === name)!.kind === "frame";
  const frames = input.orders.filter(({ assembly }) => isFrame(assembly));
  const others = input.orders.filter((order) => !frames.includes(order));
  return [
    ...planPartSteps(withoutFrames(input, isFrame)),
    ...others.flatMap((order) => planAssemblySteps(order, input)),
    // A frame follows from the case as built: nothing of it is cut before.
    ...frames.flatMap((order) => planFrameSteps(order, input)),
    ...planStandSteps(input),
  ].map((draft, i) => ({ n: i + 1, ...draft }));
}

function withoutFrames(input: StepsInput, isFrame: (assembly: string) => boolean): StepsInput {
  const parts = input.parts.filter(({ assembly }) => !isFrame(assembly));
  const drilling = input.drilling.flatMap((one) => {
    const rows = one.rows.filter(({ mark }) => parts.some((part) => part.mark === mark));
    return rows.length === 0 ? [] : [{ ...one, rows }];
  });
  return { ...input, parts, drilling };
}
