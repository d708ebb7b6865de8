import type { Mm } from "../../base/length.ts";
import { group as groupShapes } from "../../paper/draw.ts";
import type { Rect } from "../../paper/shape.ts";
import { massOfAssembly } from "../../set/mass.ts";
import type { DryfitSet, SetSliders } from "../../set/schema.ts";
import { formatMass } from "../../set/words.ts";
import { markView, NO_MARKS } from "../cases/marking.ts";
import { arrange, type Block, columnOf, fitAll, fitAllOrNone, unionOf } from "../draughting/block.ts";
import { type Atom, figure, setLines, stackBlocks, words } from "../draughting/cell.ts";
import { type DimensionStyle, drawDimensions } from "../draughting/dimension.ts";
import type { Draft } from "../draughting/draft.ts";
import { drawingSpace } from "../draughting/frame.ts";
import { drawView, VIEW_FIGURE } from "../draughting/picture.ts";
import { captioned } from "../draughting/view-title.ts";
import { solidsOf } from "../solids/solid.ts";
import { FROM_FRONT, type View, viewOf } from "../solids/view.ts";
import { jointBlocks } from "./door-joint.ts";
import { makingNotes } from "./door-notes.ts";
import { acrossOn, memberRows, NOTE_GAP } from "./door-view.ts";
import { knobMark } from "./doors.ts";
import { doorOf, pullMark, rowOf, type SetSlider } from "./slider-blocks.ts";
import { drawFront } from "./slider-fronts.ts";
import { leanBlock, sectionBlocks } from "./slider-section.ts";

const NOTE_AIR: Mm = 3;

export const drawSliders = (set: DryfitSet): Draft[] => [
  ...set.assemblies
    .filter((one) => one.kind === "case" && set.sliders.some((told) => told.case === one.name))
    .map((one) => drawFront(set, one)),
  ...set.sliders.filter((told, i) => alikeTo(set, told, set.sliders) === i).flatMap((told, i) => drawBay(set, told, i)),
];

/** All that a bay's drawing shows but for its marks and its place: the first bay that agrees in it has the drawing. */
function alikeTo(set: DryfitSet, told: SetSliders, all: readonly SetSliders[]): number {
  const figures = ({ doors, opening, entrance, above, below, tracks, groove, case: home }: SetSliders): string =>
    JSON.stringify([
      opening.width,
      opening.height,
      entrance.width,
      entrance.height,
      above.depth,
      below.depth,
      tracks,
      groove,
      set.assemblies.find(({ name }) => name === home)!.place.at[1],
      doors.map((door) => [
        door.track,
        door.lean,
        door.pull,
        door.knob,
        set.parts.filter(({ assembly }) => assembly === door.assembly).map(({ pattern }) => pattern),
      ]),
    ]);
  return all.findIndex((one) => figures(one) === figures(told));
}

/** One door from the front: its sizes, its members, where it is pulled. */
function doorBlock(set: DryfitSet, door: SetSlider, view: View, ratio: number, withMarks: boolean): Block {
  const assembly = doorOf(set, door);
  const style: DimensionStyle = { unit: set.job.unit, ratio, size: VIEW_FIGURE };
  const picture = drawView(view, ratio);
  const { box } = picture;
  const { across, up } = memberRows(set, assembly, picture);
  const [width] = assembly.size;
  const handle = (door.pull ?? door.knob)?.at;
  const isLeft = handle !== undefined && handle[0] <= width / 2;
  const sides = [
    drawDimensions("below", 0, across, style),
    drawDimensions("left", 0, up, style),
    ...(handle === undefined
      ? []
      : [
          drawDimensions(
            "right",
            box.width,
            [{ kind: "running", datum: picture.y(0), at: [picture.y(handle[1])] }],
            style,
          ),
          drawDimensions(
            "above",
            box.y,
            [{ kind: "spans", spans: acrossOn(picture, [isLeft ? [0, handle[0]] : [handle[0], width]]) }],
            style,
          ),
        ]),
  ];
  const boxes = sides.flatMap((one) => one.boxes);
  const pull = pullMark(door, picture, ratio);
  const marking = withMarks ? markView(view.seen, picture, [...boxes, ...pull.boxes], box) : NO_MARKS;
  return captioned(
    {
      shapes: [
        ...picture.shapes,
        ...knobMark(door, picture, ratio),
        ...pull.shapes,
        ...sides.flatMap((one) => one.shapes),
        ...marking.shapes,
      ],
      box: unionOf([box, ...boxes, ...marking.boxes]),
    },
    door.assembly,
    marking.note === "" ? "from the front" : `from the front; ${marking.note}`,
  );
}

/** By the case, and by the bay where it has several. */
function nameOfBay(set: DryfitSet, told: SetSliders): string {
  const several = set.sliders.filter((one) => one.case === told.case).length > 1;
  return several ? `Sliding doors, ${told.case}, ${told.bay}` : `Sliding doors, ${told.case}`;
}

/** All of a bay on one drawing; where the paper has no room for that, its sections on one of their own; the joints of framed doors on the next. */
function drawBay(set: DryfitSet, told: SetSliders, i: number): Draft[] {
  const { unit } = set.job;
  const space = drawingSpace(set);
  const [first] = told.doors as [SetSlider];
  const view = viewOf(solidsOf(set, doorOf(set, first)), FROM_FRONT);
  const note = stackBlocks(
    notesOf(set, told).map((atoms) => setLines(atoms, space.width)),
    NOTE_GAP,
  );
  const room: Rect = { ...space, height: space.height - note.height - NOTE_AIR };
  const sections = sectionBlocks(set, told);
  const doors = (ratio: number, withMarks: boolean): [Block, Block] => [
    doorBlock(set, first, view, ratio, withMarks),
    leanBlock(set, told, ratio),
  ];
  const name = nameOfBay(set, told);
  const draft = (more: string, called: string, { shapes, scale }: ReturnType<typeof fitAll>): Draft => ({
    key: `sliding-doors-${i + 1}${more}`,
    name: called,
    bookmark: ["Views", called],
    scale: scale.name,
    projected: true,
    shapes,
  });
  const notes = groupShapes(note.shapes, { move: [space.x, space.y + space.height - note.height] });
  const withNotes = ({ shapes, scale }: ReturnType<typeof fitAll>): ReturnType<typeof fitAll> => ({
    scale,
    shapes: [...shapes, notes],
  });
  const whole = fitAllOrNone(
    unit,
    room,
    (ratio, withMarks) => [...doors(ratio, withMarks), ...sections],
    // The sections under one another beside the door, or beside one another under it.
    ([door, lean, above, below], around) => {
      const full = [above!, below!];
      return (
        arrange([door!, lean!, ...columnOf(full)], around) ?? arrange([rowOf([door!, lean!]), rowOf(full)], around)
      );
    },
  );
  const joints = jointBlocks(set, first.assembly);
  const fullSize = (more: string, what: string, blocks: Block[]): Draft[] =>
    blocks.length === 0
      ? []
      : [
          draft(
            more,
            `${name}: ${what}`,
            fitAll(unit, space, () => blocks, arrange),
          ),
        ];
  if (whole !== null) return [draft("", name, withNotes(whole)), ...fullSize("-joints", "joints", joints)];
  const together = fitAllOrNone(
    unit,
    space,
    () => [...sections, ...joints],
    (blocks, around) => arrange(columnOf([rowOf(blocks.slice(0, 2)), rowOf(blocks.slice(2))]), around),
  );
  return [
    draft("", name, withNotes(fitAll(unit, room, doors, arrange))),
    ...(together !== null && joints.length > 0
      ? [draft("-full-size", `${name}: grooves and joints`, together)]
      : [...fullSize("-grooves", "grooves", sections), ...fullSize("-joints", "joints", joints)]),
  ];
}

/** How the doors stand and run, what differs from the one drawn, and which bays are made alike. */
function notesOf(set: DryfitSet, told: SetSliders): Atom[][] {
  const { unit } = set.job;
  const [first, ...others] = told.doors as [SetSlider, ...SetSlider[]];
  const mass = massOfAssembly(set.parts, first.assembly);
  const { pull } = first;
  const alike = set.sliders.filter(
    (one) => one !== told && alikeTo(set, one, set.sliders) === set.sliders.indexOf(told),
  );
  const front = told.doors.filter(({ track }) => track === 0).map(({ assembly }) => assembly);
  const rear = told.doors.filter(({ track }) => track === 1).map(({ assembly }) => assembly);
  return [
    [
      ...words(`${front.join(" and ")} in the groove in front, ${rear.join(" and ")} behind; each covers the next by`),
      figure(told.overlap, unit, 3),
      ...words("closed. A door stands on the floor of its lower groove, held"),
      figure(told.held, unit, 3),
      ...words("deep by the upper one, with"),
      figure(told.play, unit, 3),
      ...words("of play by the thickest reading. Lifted all the way it has"),
      figure(told.spare, unit, 3),
      ...words(`to spare over the wood below. It weighs ${formatMass(mass, unit)}.`),
    ],
    ...makingNotes(set, first.assembly, first.horns),
    ...(pull === null
      ? []
      : [
          [
            ...words("Recess to pull by:"),
            figure(pull.diameter, unit, 3),
            ...words("across and"),
            figure(pull.depth, unit, 3),
            ...words("deep, drilled in the face in front; measured from the nearer edge."),
          ],
        ]),
    words(
      `${others.map(({ assembly }) => assembly).join(", ")}: the same size${(first.pull ?? first.knob) ? ", pulled at the edge that no other door covers: see its part drawing" : ""}.`,
    ),
    ...alike.map((one) => words(`Made alike: ${one.doors.map(({ assembly }) => assembly).join(", ")}.`)),
  ];
}
