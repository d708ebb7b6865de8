/** A face frame from the front: the width of every member, every clear opening, and how its members are joined. */
import { listInWords } from "../../base/words.ts";
import { group as groupShapes } from "../../paper/draw.ts";
import type { Rect } from "../../paper/shape.ts";
import { faceWords } from "../../set/facing.ts";
import type { DryfitSet, SetAssembly, SetJoint, SetReturn } from "../../set/schema.ts";
import { behindFrame } from "../../set/standing.ts";
import { fitBlocks } from "../draughting/block.ts";
import { type Atom, figure, setLines, stackBlocks, words } from "../draughting/cell.ts";
import type { Draft } from "../draughting/draft.ts";
import { drawingSpace } from "../draughting/frame.ts";
import { shapesIn } from "../draughting/shaped.ts";
import { type Movable, movable } from "../draughting/sharing.ts";
import { solidsOf } from "../solids/solid.ts";
import { FROM_FRONT, type View, viewOf } from "../solids/view.ts";
import { type CaseGroup, groupsOf, keyOfCase, nameOfCase } from "./case-group.ts";
import { frontBlock, makeWords } from "./elevation.ts";

const NOTE_AIR = 3;
const NOTE_GAP = 1.2;
const TITLE = "Face frame";

export const drawFaceFrames = (set: DryfitSet): Movable[] =>
  groupsOf(set, "frame").flatMap((group) => {
    const view = viewOf(solidsOf(set, group.drawn), FROM_FRONT);
    return movable(drawingSpace(set), (space) => [drawFaceFrame(set, group, view, space)]);
  });

function drawFaceFrame(set: DryfitSet, group: CaseGroup, view: View, space: Rect): Draft {
  const { drawn } = group;
  const notes = [...notesOf(set, drawn), words(makeWords(group))].filter((atoms) => atoms.length > 0);
  const note = stackBlocks(
    notes.map((atoms) => setLines(atoms, space.width)),
    NOTE_GAP,
  );
  const room: Rect = { ...space, height: space.height - note.height - NOTE_AIR };
  const { shapes, scale } = fitBlocks(set.job.unit, room, (ratio, withMarks) => [
    frontBlock(set, drawn, view, ratio, withMarks, "Face frame, from the front"),
  ]);
  const name = nameOfCase(set, TITLE, drawn);
  return {
    key: keyOfCase(set, "face-frame", drawn),
    name,
    bookmark: ["Views", name],
    scale: scale.name,
    projected: true,
    shapes: [...shapes, groupShapes(note.shapes, { move: [space.x, space.y + space.height - note.height] })],
  };
}

const heldBy = ({ kind, fixings }: SetJoint): string =>
  kind === "lap" ? "half laps, glued" : kind === "tongue" ? "stub tenons, glued" : fixings;

/** Thickness and stock, how far it stands beyond the case, and what holds its joints. */
function notesOf(set: DryfitSet, frame: SetAssembly): Atom[][] {
  const { unit } = set.job;
  const members = set.parts.filter(({ assembly }) => assembly === frame.name);
  const stock = set.stock.find(({ id }) => id === members[0]!.material)!;
  const row = behindFrame(frame, set.assemblies);
  const behind = row[0];
  const names = listInWords(row.map(({ name }) => name));
  const joints = set.joints.filter(({ entering }) => members.some(({ mark }) => mark === entering));
  const fixings = [...new Set(joints.map(heldBy))];
  const pairs = joints.map(({ mating, entering, receiving }) => `${mating} ${entering} with ${receiving}`);
  const own = set.returns.filter((one) => one.frame === frame.name);
  const over = behind === undefined ? 0 : behind.place.at[0] - frame.place.at[0];
  const stands: Atom[] =
    behind === undefined
      ? []
      : own.length === 1
        ? words(`It stands out beyond ${names} at the ${own[0]!.side} by the thickness of the return there.`)
        : over > 0
          ? [
              ...words(`It stands out beyond ${names} by`),
              figure(over, unit, 3),
              ...words(row.length > 1 ? "at each end." : "at each side."),
            ]
          : words(`It ends flush with the sides of ${names}.`);
  const measured = set.asBuilt.filter(({ assembly }) => row.some(({ name }) => name === assembly));
  return [
    ...measured.map(({ assembly, opening, way, measured: found, printed }) => [
      ...words(`Made to ${opening === null ? assembly : `${opening} of ${assembly}`} as measured:`),
      figure(found, unit, 3, "bold"),
      ...words(`${way === "width" ? "across" : "in height"}, printed`),
      figure(printed, unit, 3),
      ...words("."),
    ]),
    [...words(`${stock.name},`), figure(stock.thickness, unit, 3), ...words("thick."), ...stands],
    ...members.flatMap((part) =>
      shapesIn(part).map(({ from, to, depth, outline, face }) => [
        ...words(
          `Shape of the ${faceWords(part, face)} of ${part.name} ${part.mark}: ${outline.length === 2 ? "an arch" : "open"} from`,
        ),
        figure(from, unit, 3),
        ...words("to"),
        figure(to, unit, 3),
        ...words("of its length,"),
        figure(depth, unit, 3),
        ...words("high; the full-size template is with the sticks."),
      ]),
    ),
    ...own.flatMap((one) => returnAtoms(set, one)),
    words(
      `Rails between stiles: ${fixings.join("; ")}. Mark the inside face of every member, and both members of each joint with its letter: ${pairs.join(", ")}.`,
    ),
  ];
}

/** What goes round an end of the case: its sizes, and where it meets the stile. */
function returnAtoms(set: DryfitSet, { side, mark, strip, stile, against, fit, mating, proud }: SetReturn): Atom[][] {
  const { unit } = set.job;
  const [upright, behind] = [mark, strip].map((one) => set.parts.find((part) => part.mark === one));
  return [
    [
      ...words(`Return at the ${side}: ${upright!.name} ${mark},`),
      figure(upright!.width, unit, 3),
      ...words(
        fit === "mitred"
          ? `wide to its point, at 45° with stile ${stile}, letter ${mating} on both;`
          : `wide, its front edge against the back of stile ${stile}, letter ${mating} on both;`,
      ),
      ...words(`glued to the outside of side ${against}, ends flush with the stile's.`),
      ...(behind === undefined
        ? []
        : [
            ...words(`Behind it ${behind.name} ${behind.mark},`),
            figure(behind.width, unit, 3),
            ...words("wide, along the lower edge to the rear of the side."),
          ]),
      ...(proud > PLANED
        ? [
            ...words("The stile stands out in front of it by up to"),
            figure(proud, unit, 3),
            ...words("to be planed flush."),
          ]
        : []),
    ],
  ];
}

/** Less than this is nobody's shaving. */
const PLANED = 0.05;
