/** How doors are made, whatever they hang on: cut when their openings are measured, grooved, their panels finished, their horns trimmed. */
import { formatLengthWithUnit, type Unit } from "../../base/length.ts";
import { listInWords } from "../../base/words.ts";
import type { SetDoor, SetPart } from "../../set/schema.ts";
import { doorBoxes } from "../groups.ts";
import { finishCautions, finishTexts } from "./finish.ts";
import { machine } from "./parts.ts";
import { waitedInWords } from "./sheet-cuts.ts";
import { spoiledInWords } from "./spoiled.ts";
import { type Draft, ofGroup, type StepsInput, step } from "./step.ts";

export type MadeDoor = Pick<SetDoor, "assembly" | "case" | "horns">;

/** All that comes before the first of them is put together: the doors of all cases, so that what they share is set once. */
export function makeDoors(input: StepsInput): Draft[] {
  const own = ofGroup("doors", input);
  const doors = doorsOf(input);
  const spoiled = spoiledInWords("doors", ["sheets", "boards"], input);
  return [
    ...cut(doors, doorBoxes(input), own, { waited: waitedInWords("doors", input), spoiled }),
    ...machine(own),
    ...finishPanels(doors, own),
  ];
}

const doorsOf = ({ doors, sliders, tracks }: StepsInput): MadeDoor[] => [
  ...doors,
  ...[...sliders, ...tracks].flatMap((one) => one.doors.map((door) => ({ ...door, case: one.case }))),
];

export const marksOf = (parts: readonly SetPart[]): string[] => parts.map(({ mark }) => mark);
const isOf = (part: SetPart, role: SetPart["role"]): boolean => part.role === role;

const MACHINES =
  "No piece shorter or thinner than the jointer's and the planer's manuals allow; push blocks at the jointer, a push stick for narrow rips, guards on. Eye, ear and dust protection.";

function cut(
  doors: readonly MadeDoor[],
  boxes: Draft["boxes"],
  { parts, stock, unit }: StepsInput,
  { waited, spoiled }: Record<"waited" | "spoiled", readonly string[]>,
): Draft[] {
  const home = listInWords([...new Set(doors.map((door) => door.case))]);
  const isBoard = (part: SetPart): boolean => stock.find(({ id }) => id === part.material)!.boards !== null;
  const boards = parts.filter(isBoard);
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
        ...waited,
        stiles.length === 0
          ? "Mark the front face and the upper end of each."
          : "Choose the straightest grain for stiles. Mark the front face of every member, and letter both members of each joint alike.",
        ...spoiled,
      ],
      {
        parts: marksOf(parts),
        drawings: ["doors", "cut list", "sheet layouts", "board layouts", "settings"],
        boxes,
        cautions: boards.length === 0 ? [] : [MACHINES],
      },
    ),
  ];
}

function finishPanels(doors: readonly MadeDoor[], { parts, stock, finishes }: StepsInput): Draft[] {
  const panels = parts.filter((part) => isOf(part, "doorPanel"));
  if (panels.length === 0) return [];
  const isSolid = panels.some(({ material }) => stock.some(({ id, solid }) => id === material && solid));
  const after = finishes.filter(({ before }) => !before);
  return [
    step(
      `Finish the panels of ${listInWords(doors.map(({ assembly }) => assembly))}`,
      [
        `Sand and finish both faces and all edges of each panel before it goes in: ${isSolid ? "solid wood that dries in its frame shows a bare stripe otherwise" : "no brush reaches into the corners of its frame later"}, and glue squeezed out does not hold it fast. Sand the inner edges of the members too. Keep finish off the tongues.`,
        ...finishTexts(after, marksOf(panels)),
      ],
      { parts: marksOf(panels), cautions: finishCautions(after) },
    ),
  ];
}

export function trimHorns(doors: readonly MadeDoor[], parts: readonly SetPart[], unit: Unit): Draft[] {
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
