/** Doors that slide in grooves: each case from the front, then each bay with its door, how one goes in, its grooves and its joints. */
import type { Mm } from "../../base/length.ts";
import { group as groupShapes } from "../../paper/draw.ts";
import type { Rect, Shape } from "../../paper/shape.ts";
import type { DryfitSet, SetSliders } from "../../set/schema.ts";
import { arrange, type Block, columnOf, fitAllOrNone, noRoomFor, type Placed } from "../draughting/block.ts";
import { setLines, stackBlocks } from "../draughting/cell.ts";
import type { Draft } from "../draughting/draft.ts";
import { drawingSpace } from "../draughting/frame.ts";
import type { Scale } from "../draughting/scale.ts";
import { type Movable, movable } from "../draughting/sharing.ts";
import { solidsOf } from "../solids/solid.ts";
import { FROM_FRONT, viewOf } from "../solids/view.ts";
import { jointBlocks } from "./door-joint.ts";
import { levelWith, NOTE_GAP, withMate } from "./door-view.ts";
import { doorOf, rowOf, type SetSlider } from "./slider-blocks.ts";
import { doorBlock, mateBlock, mateOf } from "./slider-door.ts";
import { drawFront } from "./slider-fronts.ts";
import { alikeTo, notesOf } from "./slider-notes.ts";
import { leanBlock, sectionBlocks } from "./slider-section.ts";

const NOTE_AIR: Mm = 3;

export const drawSliders = (set: DryfitSet): Movable[] => [
  ...set.assemblies
    .filter((one) => one.kind === "case" && set.sliders.some((told) => told.case === one.name))
    .flatMap((one) => drawFront(set, one)),
  ...set.sliders.filter((told, i) => alikeTo(set, told, set.sliders) === i).flatMap((told, i) => drawBay(set, told, i)),
];

/** By the case, and by the bay where it has several. */
function nameOfBay(set: DryfitSet, told: SetSliders): string {
  const several = set.sliders.filter((one) => one.case === told.case).length > 1;
  return several ? `Sliding doors, ${told.case}, ${told.bay}` : `Sliding doors, ${told.case}`;
}

/** What is drawn of a bay: its first door, or this and its mate, beside how one goes in, at the scale of the drawing; all else at full size. */
type Bay = {
  doors: (mates: readonly SetSlider[]) => (ratio: number, withMarks: boolean) => [Block, Block];
  mate: SetSlider | null;
  sections: Block[];
  joints: Block[];
};

function bayOf(set: DryfitSet, told: SetSliders): Bay {
  const doors = told.doors as [SetSlider, ...SetSlider[]];
  const [first] = doors;
  const view = viewOf(solidsOf(set, doorOf(set, first)), FROM_FRONT);
  return {
    doors: (mates) => (ratio, withMarks) => {
      const own = doorBlock(set, first, view, ratio, withMarks);
      const others = mates.map((mate) => levelWith(own, mateBlock(set, mate, ratio, withMarks)));
      return [others.length === 0 ? own : rowOf([own, ...others]), leanBlock(set, told, ratio)];
    },
    mate: mateOf(set, doors),
    sections: sectionBlocks(set, told),
    joints: jointBlocks(set, first.assembly),
  };
}

type Fitted = { shapes: Shape[]; scale: Scale } | null;

/** What is at full size in columns beside the door, or in a row under it, or in rows. */
const besideOrUnder =
  (details: readonly Block[][]) =>
  (doors: readonly Block[], room: Rect): Placed | null =>
    arrange([...doors, ...details.flatMap(columnOf)], room) ??
    arrange([rowOf(doors), rowOf(details.flat())], room) ??
    arrange([rowOf(doors), ...details.map(rowOf)], room);

/** All of a bay on one drawing, the joints of framed doors too where that leaves it its scale; where the paper has no room for that, what is at full size on drawings of its own. */
function drawBay(set: DryfitSet, told: SetSliders, i: number): Movable[] {
  const { unit } = set.job;
  const space = drawingSpace(set);
  const { doors, mate, sections, joints } = bayOf(set, told);
  const name = nameOfBay(set, told);
  const drafts = (tail: string, what: string, fitted: Fitted): Draft[] => {
    const called = what === "" ? name : `${name}: ${what}`;
    const key = `sliding-doors-${i + 1}${tail}`;
    return fitted === null
      ? []
      : [
          {
            key,
            name: called,
            bookmark: ["Views", called],
            scale: fitted.scale.name,
            projected: true,
            shapes: fitted.shapes,
          },
        ];
  };
  const overNotes = (details: readonly Block[][]): Movable[] =>
    movable(space, (room) => {
      const lines = notesOf(set, told).map((atoms) => setLines(atoms, room.width));
      const note = stackBlocks(lines, NOTE_GAP);
      const over: Rect = { ...room, height: room.height - note.height - NOTE_AIR };
      const foot = groupShapes(note.shapes, { move: [room.x, room.y + room.height - note.height] });
      const place = details.length === 0 ? arrange : besideOrUnder(details);
      const drawn = (mates: readonly SetSlider[]): Draft[] => {
        const fitted = fitAllOrNone(unit, over, doors(mates), place);
        return drafts("", "", fitted && { ...fitted, shapes: [...fitted.shapes, foot] });
      };
      return withMate(drawn, mate, room);
    });
  const atFullSize = (tail: string, what: string, ...rows: readonly Block[][]): Movable[] =>
    movable(space, (room) => {
      const place = (all: readonly Block[][], around: Rect): Placed | null =>
        all.length === 1 ? arrange(all[0]!, around) : arrange(columnOf(all.map((row) => rowOf(row))), around);
      return drafts(
        tail,
        what,
        fitAllOrNone(unit, room, () => [...rows], place),
      );
    });
  const apart = (tail: string, what: string, blocks: Block[]): Movable[] =>
    blocks.length === 0 ? [] : orRefused(atFullSize(tail, what, blocks), space);
  const whole = overNotes([sections]);
  if (whole.length > 0) {
    const all = joints.length === 0 ? whole : overNotes([sections, joints]);
    return all[0]?.scale === whole[0]!.scale ? all : [...whole, ...apart("-joints", "joints", joints)];
  }
  const together = joints.length === 0 ? [] : atFullSize("-full-size", "grooves and joints", sections, joints);
  const details =
    together.length > 0 ? together : [...apart("-grooves", "grooves", sections), ...apart("-joints", "joints", joints)];
  return [...orRefused(overNotes([]), space), ...details];
}

/** Throws ProblemsFound where the paper has no room for a drawing that must be. */
function orRefused(drawings: Movable[], space: Rect): Movable[] {
  if (drawings.length === 0) throw noRoomFor(space);
  return drawings;
}
