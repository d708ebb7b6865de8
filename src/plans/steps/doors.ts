/** The steps of a case's doors: each put together by itself, then hung. */
import { formatLengthWithUnit, isSame, type Mm } from "../../base/length.ts";
import { listInWords } from "../../base/words.ts";
import type { SetDoor, SetOrder, SetPart } from "../../set/schema.ts";
import { planAssemblySteps } from "./assemble.ts";
import { marksOf, trimHorns } from "./make-doors.ts";
import { capital, type Draft, hardwareOf, type StepsInput, step } from "./step.ts";
import { planTrackDoorSteps } from "./tracks.ts";

export function planDoorSteps(order: SetOrder, input: StepsInput): Draft[] {
  const door = input.doors.find(({ assembly }) => assembly === order.assembly);
  if (door === undefined) return planTrackDoorSteps(order, input);
  const all = input.doors.filter((one) => one.case === door.case);
  const parts = input.parts.filter(({ assembly }) => all.some((one) => one.assembly === assembly));
  const own = parts.filter(({ assembly }) => assembly === order.assembly);
  const isSlab = own.length === 1;
  return [
    ...(isSlab ? [] : planAssemblySteps(order, input)),
    ...(door === all.at(-1) ? [...trimHorns(all, parts, input.unit), hang(all, parts, input)] : []),
  ];
}

function hang(doors: readonly SetDoor[], parts: readonly SetPart[], input: StepsInput): Draft {
  const { unit } = input;
  const home = doors[0]!.case;
  const show = (length: Mm): string => formatLengthWithUnit(length, unit);
  const places = doors.map(({ assembly, hinges: { side, middles }, knob }) => {
    const at = listInWords(middles.map(show));
    const pull = knob === null ? "" : ` Its knob: ${show(knob.at[1])} from the lower end.`;
    return `${capital(assembly)}, hinges on its ${side} edge: middles ${at} from its lower end.${pull}`;
  });
  const { fit, hinges } = doors[0]!;
  return step(
    `Hang the doors of ${home}`,
    [
      fit === "inset"
        ? `Stand each door in its opening on shims, with ${gapsOf(doors, show)}. Mark the hinges on door and opening together, from the door as it stands.`
        : `Hold each door in front of its opening, over its edges by ${lapsOf(doors, show)}. Mark the hinges on door and case together.`,
      ...places,
      hinges.kind === "butt"
        ? "Measure a hinge first. Let the leaves in as deep as they are thick, or half the gap less than folded; one screw in each, try the door, then the others. Screws shorter than the wood they enter is thick."
        : "Measure a hinge and its plate first, and read its own paper: cups by the drilling, plates on the case at the same heights. Set the gaps by the hinges' own screws.",
      "Open each door all the way: it clears what stands beside it, as the dry fit found.",
    ],
    {
      parts: marksOf(parts),
      hardware: hardwareOf(
        doors.map(({ assembly }) => assembly),
        input,
      ),
      boxes: doors.map(({ assembly }) => {
        const size = input.assemblies.find(({ name }) => name === assembly)!.size;
        return { label: `${assembly}, width over all`, target: size[0] };
      }),
    },
  );
}

/** "3/32 in all round and 3/32 in between a pair"; where rounding opened them, the widest. */
function gapsOf(doors: readonly SetDoor[], show: (length: Mm) => string): string {
  const all = doors.flatMap(({ edges }) => [edges.left, edges.right, edges.below, edges.above]);
  const { least } = doors[0]!;
  const isExact = all.every((gap) => isSame(gap, least));
  return isExact ? `a gap of ${show(least)} all round` : `even gaps all round, a hair over ${show(least)}`;
}

const lapsOf = ([door]: readonly SetDoor[], show: (length: Mm) => string): string =>
  `${show(door!.least)}, alike on opposite edges`;
