/** Steps: the order of work from the print check to standing the piece up, from the plans made so far. */
import type { SetStep } from "../set/schema.ts";
import { planAssemblySteps } from "./steps/assemble.ts";
import { planPartSteps } from "./steps/parts.ts";
import { planStandSteps } from "./steps/stand.ts";
import type { StepsInput } from "./steps/step.ts";

export const planSteps = (input: StepsInput): SetStep[] =>
  [
    ...planPartSteps(input),
    ...input.orders.flatMap((order) => planAssemblySteps(order, input)),
    ...planStandSteps(input),
  ].map((draft, i) => ({ n: i + 1, ...draft }));
