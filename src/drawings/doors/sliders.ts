/** Doors that slide in grooves: the front closed and open at either end; then a bay's doors with their grooves in section and how they go in. */
import { boxToInner, boxToOuter, type Place } from "../../base/geometry.ts";
import { isSame, type Mm } from "../../base/length.ts";
import { circleSteps, group as groupShapes, stroke } from "../../paper/draw.ts";
import type { Rect, Shape } from "../../paper/shape.ts";
import type { DryfitSet, SetAssembly, SetSliders } from "../../set/schema.ts";
import { formatMass } from "../../set/words.ts";
import { keyOfCase, nameOfCase, standingSolids } from "../cases/case-group.ts";
import { markView, NO_MARKS, withAbove } from "../cases/marking.ts";
import { AIR, arrange, type Block, fitAll, placeBlock, unionOf } from "../draughting/block.ts";
import { type Atom, figure, setLines, stackBlocks, words } from "../draughting/cell.ts";
import { type DimensionStyle, drawDimensions, type Row } from "../draughting/dimension.ts";
import type { Draft } from "../draughting/draft.ts";
import { drawingSpace } from "../draughting/frame.ts";
import { drawView, type Picture, VIEW_FIGURE } from "../draughting/picture.ts";
import { captioned } from "../draughting/view-title.ts";
import { type Solid, solidsOf } from "../solids/solid.ts";
import { FROM_FRONT, type View, viewOf } from "../solids/view.ts";
import { chainOf, columnOf, membersOf, type Span } from "./door-view.ts";
import { knobMark, rowsOf } from "./doors.ts";
import { leanBlock, sectionBlocks } from "./slider-section.ts";

const NOTE_AIR: Mm = 3;
const NOTE_GAP: Mm = 1.2;

type SetSlider = SetSliders["doors"][number];

export const drawSliders = (set: DryfitSet): Draft[] => [
  ...set.assemblies
    .filter((one) => one.kind === "case" && set.sliders.some((told) => told.case === one.name))
    .map((one) => drawFront(set, one)),
  ...set.sliders.filter((told, i) => alikeTo(set, told, set.sliders) === i).map((told, i) => drawBay(set, told, i)),
];

const doorOf = (set: DryfitSet, { assembly }: SetSlider): SetAssembly =>
  set.assemblies.find(({ name }) => name === assembly)!;

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

/** Where the doors are: closed, or each groove's own pushed together at one end. */
type Pushed = "closed" | "left" | "right";

/** How far a door then stands to the right of where it stands closed. */
function shiftOf(set: DryfitSet, told: SetSliders, door: SetSlider, pushed: Pushed): Mm {
  if (pushed === "closed") return 0;
  const own = told.doors.filter(({ track }) => track === door.track);
  const { place, size } = doorOf(set, door);
  const i = own.indexOf(door);
  const { at, width } = told.opening;
  const to = pushed === "left" ? at[0] + i * size[0] : at[0] + width - (own.length - i) * size[0];
  return to - place.at[0];
}

function solidsWith(set: DryfitSet, one: SetAssembly, pushed: Pushed): Solid[] {
  const own = one.place as Place;
  const doors = set.sliders
    .filter((told) => told.case === one.name)
    .flatMap((told) =>
      told.doors.flatMap((door) => {
        const { place } = doorOf(set, door);
        const [x, y, z] = place.at;
        const moved = { ...place, at: [x + shiftOf(set, told, door, pushed), y, z] } as Place;
        return solidsOf(set, doorOf(set, door)).map((solid) => ({
          ...solid,
          boxes: solid.boxes.map((box) => boxToInner(own, boxToOuter(moved, box))),
        }));
      }),
    );
  return [...standingSolids(set, one, true), ...doors];
}

/** Each door's extent, or what is open of each bay, along the front. */
function spansOf(set: DryfitSet, one: SetAssembly, pushed: Pushed): Span[] {
  const x = one.place.at[0];
  const told = set.sliders.filter((each) => each.case === one.name);
  const spans = told.flatMap((each): Span[] => {
    const { at, width } = each.opening;
    if (pushed === "closed")
      return each.doors.map((door) => {
        const { place, size } = doorOf(set, door);
        return [place.at[0] - x, place.at[0] - x + size[0]];
      });
    const taken = Math.max(
      ...([0, 1] as const).map((track) =>
        each.doors.filter((door) => door.track === track).reduce((sum, door) => sum + doorOf(set, door).size[0], 0),
      ),
    );
    return [pushed === "left" ? [at[0] + taken - x, at[0] + width - x] : [at[0] - x, at[0] + width - taken - x]];
  });
  return spans.filter(([a, b], i) => spans.findIndex((other) => isSame(other[0], a) && isSame(other[1], b)) === i);
}

const TITLES: Record<Pushed, string> = {
  closed: "Closed",
  left: "All doors at the left",
  right: "All doors at the right",
};

function frontBlock(
  set: DryfitSet,
  one: SetAssembly,
  { view, pushed, ratio, withMarks }: { view: View; pushed: Pushed; ratio: number; withMarks: boolean },
): Block {
  const style: DimensionStyle = { unit: set.job.unit, ratio, size: VIEW_FIGURE };
  const picture = drawView(view, ratio);
  const { box } = picture;
  const rows = rowsOf(spansOf(set, one, pushed)).map(
    (spans): Row => ({ kind: "spans", spans: spans.map(([a, b]) => [picture.x(a), picture.x(b)]) }),
  );
  const dimensions = drawDimensions("below", 0, rows, style);
  const sliding = new Set(set.sliders.flatMap((told) => told.doors.map(({ assembly }) => assembly)));
  const isOfDoor = (mark: string): boolean =>
    set.parts.some((part) => part.mark === mark && sliding.has(part.assembly));
  const seen = new Map([...view.seen].filter(([mark]) => isOfDoor(mark)));
  const pulls = pullsOf(set, one, picture, { pushed, ratio });
  const taken = [...dimensions.boxes, ...pulls.flatMap(({ boxes }) => boxes)];
  const marking = withMarks ? markView(seen, picture, taken, withAbove(box)) : NO_MARKS;
  return captioned(
    {
      shapes: [...picture.shapes, ...pulls.flatMap((pull) => pull.shapes), ...dimensions.shapes, ...marking.shapes],
      box: unionOf([box, ...dimensions.boxes, ...marking.boxes]),
    },
    TITLES[pushed],
    pushed === "closed" ? marking.note : "the figure: what is open",
  );
}

function drawFront(set: DryfitSet, one: SetAssembly): Draft {
  const views = (["closed", "left", "right"] as const).map((pushed) => ({
    pushed,
    view: viewOf(solidsWith(set, one, pushed), FROM_FRONT),
  }));
  const { shapes, scale } = fitAll(
    set.job.unit,
    drawingSpace(set),
    (ratio, withMarks) => views.map(({ pushed, view }) => frontBlock(set, one, { view, pushed, ratio, withMarks })),
    // In one line, or the two that are open beside each other under the one that is closed.
    (blocks, room) => {
      const [closed, ...open] = blocks as [Block, ...Block[]];
      return arrange(blocks, room) ?? arrange([closed, rowOf(open)], room);
    },
  );
  const name = nameOfCase(set, "Front views with sliding doors", one);
  return {
    key: keyOfCase(set, "front-views-with-sliding-doors", one),
    name,
    bookmark: ["Views", name],
    scale: scale.name,
    projected: true,
    shapes,
  };
}

/** Blocks side by side, as one. */
function rowOf(blocks: readonly Block[]): Block {
  const height = Math.max(...blocks.map(({ box }) => box.height));
  let x = 0;
  const shapes = blocks.map((block) => {
    const placed = placeBlock(block, [x, (height - block.box.height) / 2]);
    x += block.box.width + 2 * AIR;
    return placed;
  });
  return { shapes, box: { x: 0, y: 0, width: x - 2 * AIR, height } };
}

/** `at`: where it lies in the view. No mark stands on it. */
function pullMark(
  { pull }: SetSlider,
  picture: Picture,
  ratio: number,
  at: readonly [Mm, Mm] | null = null,
): { shapes: Shape[]; boxes: Rect[] } {
  if (pull === null) return { shapes: [], boxes: [] };
  const [x, y] = [picture.x((at ?? pull.at)[0]), picture.y((at ?? pull.at)[1])];
  const radius = Math.max(1, (pull.diameter / 2) * ratio);
  return {
    shapes: [stroke("outline", circleSteps([x, y], radius))],
    boxes: [{ x: x - radius, y: y - radius, width: 2 * radius, height: 2 * radius }],
  };
}

/** Those that are seen: a door that stands behind another is pulled by its edge. */
const pullsOf = (
  set: DryfitSet,
  one: SetAssembly,
  picture: Picture,
  { pushed, ratio }: { pushed: Pushed; ratio: number },
): ReturnType<typeof pullMark>[] =>
  set.sliders
    .filter((told) => told.case === one.name)
    .flatMap((told) =>
      told.doors
        .filter(({ track }) => pushed === "closed" || track === 0)
        .map((door) => {
          const [x, , z] = doorOf(set, door).place.at;
          const [along, up] = door.pull?.at ?? [0, 0];
          const left = x + shiftOf(set, told, door, pushed) - one.place.at[0];
          return pullMark(door, picture, ratio, [left + along, z - one.place.at[2] + up]);
        }),
    );

/** One door from the front: its sizes, its members, where it is pulled. */
function doorBlock(set: DryfitSet, door: SetSlider, view: View, ratio: number, withMarks: boolean): Block {
  const assembly = doorOf(set, door);
  const style: DimensionStyle = { unit: set.job.unit, ratio, size: VIEW_FIGURE };
  const picture = drawView(view, ratio);
  const { box } = picture;
  const { across, up } = membersOf(set, assembly);
  const onX = (spans: readonly Span[]): Span[] => spans.map(([a, b]) => [picture.x(a), picture.x(b)]);
  const onY = (spans: readonly Span[]): Span[] => spans.map(([a, b]) => [picture.y(b), picture.y(a)]);
  const [width, , height] = assembly.size;
  const chain = (places: Mm[], whole: Mm, on: (spans: readonly Span[]) => Span[]): Row[] => [
    ...(places.length > 2 ? [{ kind: "spans" as const, spans: on(chainOf(places)) }] : []),
    { kind: "spans", spans: on([[0, whole]]) },
  ];
  const handle = (door.pull ?? door.knob)?.at;
  const isLeft = handle !== undefined && handle[0] <= width / 2;
  const sides = [
    drawDimensions("below", 0, chain(across, width, onX), style),
    drawDimensions("left", 0, chain(up, height, onY), style),
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
            [{ kind: "spans", spans: onX([isLeft ? [0, handle[0]] : [handle[0], width]]) }],
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

function drawBay(set: DryfitSet, told: SetSliders, i: number): Draft {
  const { unit } = set.job;
  const space = drawingSpace(set);
  const [first] = told.doors as [SetSlider];
  const view = viewOf(solidsOf(set, doorOf(set, first)), FROM_FRONT);
  const note = stackBlocks(
    notesOf(set, told).map((atoms) => setLines(atoms, space.width)),
    NOTE_GAP,
  );
  const room: Rect = { ...space, height: space.height - note.height - NOTE_AIR };
  const sections = columnOf(sectionBlocks(set, told));
  const { shapes, scale } = fitAll(
    unit,
    room,
    (ratio, withMarks) => [doorBlock(set, first, view, ratio, withMarks), leanBlock(set, told, ratio), ...sections],
    arrange,
  );
  const name = `Sliding doors, ${told.doors.map(({ assembly }) => assembly).join(", ")}`;
  return {
    key: `sliding-doors-${i + 1}`,
    name,
    bookmark: ["Views", name],
    scale: scale.name,
    projected: true,
    shapes: [...shapes, groupShapes(note.shapes, { move: [space.x, space.y + space.height - note.height] })],
  };
}

/** How the doors stand and run, what differs from the one drawn, and which bays are made alike. */
function notesOf(set: DryfitSet, told: SetSliders): Atom[][] {
  const { unit } = set.job;
  const [first, ...others] = told.doors as [SetSlider, ...SetSlider[]];
  const own = set.parts.filter(({ assembly }) => assembly === first.assembly);
  const mass = own.reduce((sum, part) => sum + part.mass, 0);
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
