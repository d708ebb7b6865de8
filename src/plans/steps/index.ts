/** Steps: the order of work from the print check to standing the piece up, from the plans made so far. */
import type { SetAssembly, SetOrder, SetStep } from "../../set/schema.ts";
import { planAssemblySteps } from "./assemble.ts";
import { planDoorSteps } from "./doors.ts";
import { planDrawerSteps } from "./drawers.ts";
import { planFinishBefore } from "./finish.ts";
import { planFrameSteps } from "./frame.ts";
import { makeDoors } from "./make-doors.ts";
import { needsOf } from "./needs.ts";
import { planPartSteps } from "./parts.ts";
import { planSliderSteps } from "./sliders.ts";
import { planJoinSteps, planStandSteps } from "./stand.ts";
import { type Draft, ofGroup, ofKind, type StepsInput, shownBy } from "./step.ts";
import { planWorktopSteps } from "./worktop.ts";

type Planner = (order: SetOrder, input: StepsInput) => Draft[];

/** What follows from the case as built: nothing of it is cut before, and it is made kind after kind, in this order. */
const FOLLOWING: Partial<Record<SetAssembly["kind"], Planner>> = {
  frame: planFrameSteps,
  door: planDoor,
  drawer: planDrawerSteps,
  worktop: planWorktopSteps,
};

const SHOWN_ON: Partial<Record<SetAssembly["kind"], Draft["drawings"]>> = {
  frame: ["face frame"],
  door: ["doors"],
  drawer: ["drawers"],
  worktop: ["worktop"],
};

/** On hinges, or in grooves; all doors of the job are cut together, before the first is put together. */
function planDoor(order: SetOrder, input: StepsInput): Draft[] {
  const slides = input.sliders.some(({ doors }) => doors.some(({ assembly }) => assembly === order.assembly));
  const isFirst = ofKind("door", input)[0] === order;
  return [
    ...(isFirst ? makeDoors(input) : []),
    ...(slides ? planSliderSteps(order, input) : planDoorSteps(order, input)),
  ];
}

export function planSteps(input: StepsInput): SetStep[] {
  const kindOf = (name: string): SetAssembly["kind"] => input.assemblies.find((one) => one.name === name)!.kind;
  const follows = (name: string): boolean => kindOf(name) in FOLLOWING;
  const first = input.orders.filter(({ assembly }) => !follows(assembly));
  return numbered(input, [
    ...planPartSteps(ofGroup("case", input)),
    ...shownBy(["cut list"], planFinishBefore(ofGroup("case", input))),
    ...shownBy(
      ["views", "taken apart", "story sticks"],
      first.flatMap((order) => planAssemblySteps(order, input)),
    ),
    ...shownBy(["views"], planJoinSteps(input)),
    ...(Object.keys(FOLLOWING) as SetAssembly["kind"][]).flatMap((kind) =>
      shownBy(
        SHOWN_ON[kind] ?? [],
        ofKind(kind, input).flatMap((order) => FOLLOWING[kind]!(order, input)),
      ),
    ),
    ...shownBy(["views"], planStandSteps(input)),
  ]);
}

function numbered({ sheets, stock }: StepsInput, drafts: readonly Draft[]): SetStep[] {
  const needs = needsOf(drafts);
  // A job without any has no page of them.
  const none: Draft["drawings"] = [
    ...(sheets.length === 0 ? (["sheet layouts"] as const) : []),
    ...(stock.every(({ boards }) => boards === null) ? (["board layouts"] as const) : []),
  ];
  return drafts.map(({ beside: _, ...draft }, i) => ({
    n: i + 1,
    needs: needs[i]!,
    ...draft,
    drawings: draft.drawings.filter((one) => !none.includes(one)),
  }));
}
