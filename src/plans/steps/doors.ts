/** The steps of a case's doors: cut when their openings are measured, each put together by itself, then hung. */
import { formatLengthWithUnit, isSame, type Mm, type Unit } from "../../base/length.ts";
import { listInWords } from "../../base/words.ts";
import type { SetDoor, SetOrder, SetPart } from "../../set/schema.ts";
import { planAssemblySteps } from "./assemble.ts";
import { drill, groove } from "./parts.ts";
import { type Draft, type StepsInput, step } from "./step.ts";

export function planDoorSteps(order: SetOrder, input: StepsInput): Draft[] {
  const door = input.doors.find(({ assembly }) => assembly === order.assembly)!;
  const all = input.doors.filter((one) => one.case === door.case);
  const parts = input.parts.filter(({ assembly }) => all.some((one) => one.assembly === assembly));
  const own = parts.filter(({ assembly }) => assembly === order.assembly);
  const isSlab = own.length === 1;
  return [
    ...(door === all[0] ? [...cut(all, parts, input), ...machine(parts, input), ...finishPanels(all, parts)] : []),
    ...(isSlab ? [] : planAssemblySteps(order, input)),
    ...(door === all.at(-1) ? [...trimHorns(all, parts, input.unit), hang(all, parts, input)] : []),
  ];
}

const marksOf = (parts: readonly SetPart[]): string[] => parts.map(({ mark }) => mark);
const isOf = (part: SetPart, role: SetPart["role"]): boolean => part.role === role;

/** Each opening once, with what it is to measure. */
function openingBoxes(doors: readonly SetDoor[]): Draft["boxes"] {
  const openings = doors.filter(
    ({ opening }, i) => doors.findIndex((one) => JSON.stringify(one.opening) === JSON.stringify(opening)) === i,
  );
  return openings.flatMap(({ opening, assembly, meets }) => {
    const before = meets === null ? assembly : `${assembly} and ${meets}`;
    return [
      { label: `Opening of ${before}, width`, target: opening.width },
      { label: `Opening of ${before}, height`, target: opening.height },
    ];
  });
}

const MACHINES =
  "No piece shorter or thinner than the jointer's and the planer's manuals allow; push blocks at the jointer, a push stick for narrow rips, guards on. Eye, ear and dust protection.";

function cut(doors: readonly SetDoor[], parts: readonly SetPart[], { stock, unit }: StepsInput): Draft[] {
  const home = doors[0]!.case;
  const isBoard = (part: SetPart): boolean => stock.find(({ id }) => id === part.material)!.boards !== null;
  const [boards, panels] = [parts.filter(isBoard), parts.filter((part) => !isBoard(part))];
  const thicknesses = [...new Set(boards.map(({ thickness }) => formatLengthWithUnit(thickness, unit)))];
  const horns = Math.max(...doors.map((door) => door.horns));
  const stiles = boards.filter((part) => isOf(part, "doorStile"));
  return [
    step(
      `Measure the openings, then cut the doors of ${home}`,
      [
        `First measure each opening as it stands, at both ends of either way, and take the smaller figure. Where it differs from what is printed, it goes into the project file as "asBuilt" before anything is cut: the doors follow it.`,
        ...(boards.length === 0
          ? []
          : [
              `Cut the boards in the rough, longer and wider than their parts. Joint a face and an edge, plane to ${listInWords(thicknesses)}, all members in one pass for each setting of the planer; rip to width, then crosscut to length, members of one length against one stop.`,
            ]),
        ...(horns > 0
          ? [
              `Leave stiles ${listInWords(marksOf(stiles))} longer by a horn of ${formatLengthWithUnit(horns, unit)} at each end, and square both end lines across: all lengths are from these, the horns come off when the door is glued up.`,
            ]
          : []),
        ...(panels.length === 0
          ? []
          : [
              `Size ${listInWords(panels.map(({ name, mark }) => `${name} ${mark}`))} now, as the sheet layouts have them.`,
            ]),
        "Choose the straightest grain for stiles. Mark the front face of every member, and letter both members of each joint alike.",
      ],
      { parts: marksOf(parts), boxes: openingBoxes(doors), cautions: boards.length === 0 ? [] : [MACHINES] },
    ),
  ];
}

function machine(parts: SetPart[], input: StepsInput): Draft[] {
  const marks = marksOf(parts);
  const settings = input.settings.filter(({ runs }) => runs.every(({ mark }) => marks.includes(mark)));
  const drilling = input.drilling.flatMap((one) => {
    const rows = one.rows.filter(({ mark }) => marks.includes(mark));
    return rows.length === 0 ? [] : [{ ...one, rows }];
  });
  return [...groove({ settings, parts }), ...drill({ drilling })];
}

function finishPanels(doors: readonly SetDoor[], parts: readonly SetPart[]): Draft[] {
  const panels = parts.filter((part) => isOf(part, "doorPanel"));
  if (panels.length === 0) return [];
  return [
    step(
      `Finish the panels of ${listInWords(doors.map(({ assembly }) => assembly))}`,
      [
        "Sand and finish both faces and all edges of each panel before it goes in: solid wood that dries in its frame shows a bare stripe otherwise, and glue squeezed out does not hold it fast. Sand the inner edges of the members too. Keep finish off the tongues.",
      ],
      { parts: marksOf(panels) },
    ),
  ];
}

function trimHorns(doors: readonly SetDoor[], parts: readonly SetPart[], unit: Unit): Draft[] {
  const horned = doors.filter(({ horns }) => horns > 0);
  if (horned.length === 0) return [];
  const stiles = parts.filter(
    (part) => isOf(part, "doorStile") && horned.some(({ assembly }) => assembly === part.assembly),
  );
  return [
    step(
      `Trim the horns of ${listInWords(horned.map(({ assembly }) => assembly))}`,
      [
        `Saw the horns off a little proud of the rails and plane them flush, from the outside in, so that no end grain splits away. Each door is then as high as its stiles are on the cut list: ${listInWords([...new Set(stiles.map(({ length }) => formatLengthWithUnit(length, unit)))])}.`,
      ],
      { parts: marksOf(stiles) },
    ),
  ];
}

function hang(doors: readonly SetDoor[], parts: readonly SetPart[], input: StepsInput): Draft {
  const { unit } = input;
  const home = doors[0]!.case;
  const show = (length: Mm): string => formatLengthWithUnit(length, unit);
  const places = doors.map(({ assembly, hinges: { side, middles }, knob }) => {
    const at = listInWords(middles.map(show));
    const pull = knob === null ? "" : ` Its knob: ${show(knob.at[1])} from the lower end.`;
    return `${assembly}, hinges on its ${side} edge: middles ${at} from its lower end.${pull}`;
  });
  const { fit, hinges } = doors[0]!;
  return step(
    `Hang the doors of ${home}`,
    [
      fit === "inset"
        ? `Stand each door in its opening on shims, with ${gapsOf(doors, show)}. Mark the hinges on door and opening together, from the door as it stands.`
        : `Hold each door before its opening, over its edges by ${lapsOf(doors, show)}. Mark the hinges on door and case together.`,
      ...places,
      hinges.kind === "butt"
        ? "Measure a hinge first. Let the leaves in as deep as they are thick, or half the gap less than folded; one screw in each, try the door, then the others. Screws shorter than the wood they enter is thick."
        : "Measure a hinge and its plate first, and read its own paper: cups by the drilling, plates on the case at the same heights. Set the gaps by the hinges' own screws.",
      "Open each door all the way: it clears what stands beside it, as the dry fit found.",
    ],
    {
      parts: marksOf(parts),
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
