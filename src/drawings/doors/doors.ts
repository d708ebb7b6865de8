/** Doors: each kind from the front with its members, hinges and knob, and its joints at full size; then all of a case's, closed. */

import { boxToInner, boxToOuter, type Place } from "../../base/geometry.ts";
import { isSame, type Mm } from "../../base/length.ts";
import { listInWords } from "../../base/words.ts";
import { circleSteps, lines, stroke } from "../../paper/draw.ts";
import type { Shape } from "../../paper/shape.ts";
import { massOfAssembly } from "../../set/mass.ts";
import type { DryfitSet, SetAssembly, SetDoor } from "../../set/schema.ts";
import { behindFrame, frameBefore } from "../../set/standing.ts";
import { formatMass } from "../../set/words.ts";
import { type CaseGroup, groupsOf, isAlone, nameOfCase, standingSolids } from "../cases/case-group.ts";
import { makeWords } from "../cases/elevation.ts";
import { asItStands } from "../cases/exploded.ts";
import { markView, NO_MARKS, withAbove } from "../cases/marking.ts";
import { type Block, unionOf } from "../draughting/block.ts";
import { type Atom, figure, setLines, stackBlocks, words } from "../draughting/cell.ts";
import { type DimensionStyle, drawDimensions, type Row } from "../draughting/dimension.ts";
import type { Draft } from "../draughting/draft.ts";
import { filledShare } from "../draughting/filled.ts";
import { drawingSpace } from "../draughting/frame.ts";
import { drawView, type Picture, VIEW_FIGURE } from "../draughting/picture.ts";
import { draftViews } from "../draughting/several.ts";
import { captioned } from "../draughting/view-title.ts";
import { type Solid, solidsOf } from "../solids/solid.ts";
import { FROM_FRONT, type View, viewOf } from "../solids/view.ts";
import { jointBlocks } from "./door-joint.ts";
import { makingNotes } from "./door-notes.ts";
import { acrossOn, memberRows, NOTE_GAP, type Span } from "./door-view.ts";
import { drawTracks } from "./track.ts";

export const drawDoors = (set: DryfitSet): Draft[] => [
  ...drawClosed(set),
  ...groupsOf(set, "door")
    .filter(({ drawn }) => set.doors.some(({ assembly }) => assembly === drawn.name))
    .flatMap((group, i) => drawDoor(set, group, i)),
  ...drawTracks(set),
];

const doorOf = (set: DryfitSet, { name }: SetAssembly): SetDoor => set.doors.find(({ assembly }) => assembly === name)!;

/** Where a hinge stands, as a short bar at the edge. */
function hingeMarks(door: SetDoor, { size }: SetAssembly, picture: Picture): Shape {
  const { side, middles, size: tall } = door.hinges;
  const x = picture.x(side === "left" ? 0 : size[0]);
  const out = side === "left" ? -1.6 : 1.6;
  return lines(
    "outline",
    middles.flatMap((z): [[Mm, Mm], [Mm, Mm]][] => {
      const [low, high] = [picture.y(z - tall / 2), picture.y(z + tall / 2)];
      return [
        [
          [x + out, low],
          [x + out, high],
        ],
        [
          [x, low],
          [x + out, low],
        ],
        [
          [x, high],
          [x + out, high],
        ],
      ];
    }),
  );
}

export const knobMark = ({ knob }: Pick<SetDoor, "knob">, picture: Picture, ratio: number): Shape[] =>
  knob === null
    ? []
    : [
        stroke(
          "outline",
          circleSteps([picture.x(knob.at[0]), picture.y(knob.at[1])], Math.max(1, (knob.diameter / 2) * ratio)),
        ),
      ];

function doorBlock(set: DryfitSet, assembly: SetAssembly, view: View, ratio: number, withMarks: boolean): Block {
  const door = doorOf(set, assembly);
  const style: DimensionStyle = { unit: set.job.unit, ratio, size: VIEW_FIGURE };
  const picture = drawView(view, ratio);
  const { box } = picture;
  const { across, up } = memberRows(set, assembly, picture);
  const [width] = assembly.size;
  const isLeft = door.hinges.side === "left";
  const running = (at: Mm[]): Row => ({ kind: "running", datum: picture.y(0), at: at.map(picture.y) });
  const hinges = [running(door.hinges.middles)];
  const knob = door.knob === null ? [] : [running([door.knob.at[1]])];
  const HINGE_ROOM = 3;
  const sides = [
    drawDimensions("below", 0, across, style),
    drawDimensions("left", isLeft ? -HINGE_ROOM : 0, [...(isLeft ? hinges : knob), ...up], style),
    drawDimensions("right", box.width + (isLeft ? 0 : HINGE_ROOM), isLeft ? knob : hinges, style),
    drawDimensions(
      "above",
      box.y,
      door.knob === null
        ? []
        : [{ kind: "spans", spans: acrossOn(picture, [isLeft ? [door.knob.at[0], width] : [0, door.knob.at[0]]]) }],
      style,
    ),
  ];
  const boxes = sides.flatMap((one) => one.boxes);
  const marking = withMarks ? markView(view.seen, picture, boxes, box) : NO_MARKS;
  return captioned(
    {
      shapes: [
        ...picture.shapes,
        hingeMarks(door, assembly, picture),
        ...knobMark(door, picture, ratio),
        ...sides.flatMap((one) => one.shapes),
        ...marking.shapes,
      ],
      box: unionOf([box, ...boxes, ...marking.boxes]),
    },
    "From the front",
    marking.note,
  );
}

function drawDoor(set: DryfitSet, group: CaseGroup, i: number): Draft[] {
  const { drawn } = group;
  const { unit } = set.job;
  const space = drawingSpace(set);
  const view = viewOf(solidsOf(set, drawn), FROM_FRONT);
  const note = stackBlocks(
    notesOf(set, group).map((atoms) => setLines(atoms, space.width)),
    NOTE_GAP,
  );
  const details = jointBlocks(set, drawn.name);
  const first = set.doors.find(({ assembly }) => assembly === drawn.name)!;
  const name = `Door, ${[first.assembly, ...group.others.map(({ assembly }) => assembly.name)].join(", ")}`;
  return draftViews({ unit, space, note, key: `door-${i + 1}`, name }, (ratio, withMarks) => [
    doorBlock(set, drawn, view, ratio, withMarks),
    ...details,
  ]);
}

/** How it stands, on what it hangs, what the panel has free, and who is made alike. */
function notesOf(set: DryfitSet, group: CaseGroup): Atom[][] {
  const { unit } = set.job;
  const { drawn } = group;
  const door = doorOf(set, drawn);
  const mass = massOfAssembly(set.parts, drawn.name);
  const { hinges, knob } = door;
  const hung = (one: SetDoor): string => `${one.assembly}: hinges on its ${one.hinges.side} edge.`;
  const all = [door, ...group.others.map(({ assembly }) => doorOf(set, assembly))];
  const isMixed = all.some((one) => one.hinges.side !== hinges.side);
  return [
    [
      ...words(door.fit === "inset" ? "Inset, with a gap of" : "Overlay, lying over the opening by"),
      figure(door.least, unit, 3),
      ...words(door.fit === "inset" ? "all round" : "on every edge"),
      ...(door.meets === null ? [] : [...words("and"), figure(door.between, unit, 3), ...words("to the other door")]),
      ...words(`on ${hinges.middles.length} ${hinges.kind} hinges`),
      figure(hinges.size, unit, 3),
      ...words(
        `${hinges.kind === "butt" ? "high" : "across"}: figures are to their middles, from the lower end. Measure a hinge before anything is cut for it. The door weighs ${formatMass(mass, unit)}.`,
      ),
    ],
    ...(isMixed ? [words(all.map(hung).join(" "))] : []),
    ...makingNotes(set, drawn.name, door.horns),
    ...(knob === null
      ? []
      : [
          [
            ...words("Knob"),
            figure(knob.diameter, unit, 3),
            ...words("across, standing out"),
            figure(knob.projection, unit, 3),
            ...words("before the face: drilled when the door hangs."),
          ],
        ]),
    words(makeWords(group)),
  ].filter((atoms) => atoms.length > 0);
}

/** Cases that one frame goes before, seen as one; in the axes of the first. */
type CaseRow = readonly [SetAssembly, ...SetAssembly[]];

const isBefore = (row: CaseRow, door: SetDoor): boolean => row.some(({ name }) => name === door.case);

/** The cases with their frame and their doors closed. */
function closedSolids(set: DryfitSet, row: CaseRow): Solid[] {
  const own = row[0].place as Place;
  const doors = set.assemblies.filter(({ name }) =>
    set.doors.some((door) => door.assembly === name && isBefore(row, door)),
  );
  const hung = doors.flatMap((door) =>
    solidsOf(set, door).map((solid) => ({
      ...solid,
      boxes: solid.boxes.map((box) => boxToInner(own, boxToOuter(door.place as Place, box))),
    })),
  );
  const beside = row.slice(1).flatMap((other) =>
    standingSolids(set, other, "own").map((solid) => ({
      ...solid,
      boxes: solid.boxes.map((box) => boxToInner(own, boxToOuter(other.place as Place, box))),
    })),
  );
  return [...standingSolids(set, row[0], "any"), ...beside, ...hung];
}

/** Each door's own extent along one axis of its case. */
function extents(set: DryfitSet, row: CaseRow, axis: 0 | 2): Span[] {
  const [one] = row;
  const spans = set.doors
    .filter((door) => isBefore(row, door))
    .map(({ assembly }): Span => {
      const { place, size } = set.assemblies.find(({ name }) => name === assembly)!;
      const from = place.at[axis] - one.place.at[axis];
      return [from, from + size[axis]];
    });
  return spans.filter(([a, b], i) => spans.findIndex((other) => isSame(other[0], a) && isSame(other[1], b)) === i);
}

/** Spans that overlap stand in rows of their own. */
export function rowsOf(spans: readonly Span[]): Span[][] {
  const rows: Span[][] = [];
  for (const span of [...spans].sort((a, b) => a[0] - b[0])) {
    const row = rows.find((one) => one.at(-1)![1] <= span[0] + 1e-6);
    if (row === undefined) rows.push([span]);
    else row.push(span);
  }
  return rows;
}

function closedBlock(set: DryfitSet, row: CaseRow, view: View, ratio: number, withMarks: boolean): Block {
  const style: DimensionStyle = { unit: set.job.unit, ratio, size: VIEW_FIGURE };
  const picture = drawView(view, ratio);
  const { box } = picture;
  const below = rowsOf(extents(set, row, 0)).map(
    (spans): Row => ({ kind: "spans", spans: spans.map(([a, b]) => [picture.x(a), picture.x(b)]) }),
  );
  const left = rowsOf(extents(set, row, 2)).map(
    (spans): Row => ({ kind: "spans", spans: spans.map(([a, b]) => [picture.y(b), picture.y(a)]) }),
  );
  const dimensions = [drawDimensions("below", 0, below, style), drawDimensions("left", 0, left, style)];
  const boxes = dimensions.flatMap((each) => each.boxes);
  // Every other part has its mark where it is seen better.
  const isOfDoor = (mark: string): boolean =>
    set.parts.some((part) => part.mark === mark && set.doors.some(({ assembly }) => assembly === part.assembly));
  const seen = new Map([...view.seen].filter(([mark]) => isOfDoor(mark)));
  const marking = withMarks ? markView(seen, picture, boxes, withAbove(box)) : NO_MARKS;
  return captioned(
    {
      shapes: [...picture.shapes, ...dimensions.flatMap((each) => each.shapes), ...marking.shapes],
      box: unionOf([box, ...boxes, ...marking.boxes]),
    },
    row.length === 1
      ? nameOfCase(set, "Front view, doors closed", row[0])
      : `Front view, doors closed, ${listInWords(row.map(({ name }) => name))}`,
    marking.note,
  );
}

/** All cases that have doors, on one drawing where they have room there. */
function drawClosed(set: DryfitSet): Draft[] {
  const { unit } = set.job;
  const cases = set.assemblies.filter((one) => one.kind === "case" && set.doors.some((door) => door.case === one.name));
  if (cases.length === 0) return [];
  const rows = cases.map((one): CaseRow => {
    const frame = frameBefore(one, set.assemblies);
    const behind = frame === null ? [one] : behindFrame(frame, set.assemblies);
    return behind as [SetAssembly, ...SetAssembly[]];
  });
  const views = rows
    .filter(([first], i) => rows.findIndex(([other]) => other === first) === i)
    .map((row) => ({ row, view: viewOf(closedSolids(set, row), FROM_FRONT) }));
  const names = listInWords(cases.map(({ name }) => name));
  const name = isAlone(set) ? "Front view with doors" : `Front view with doors, ${names}`;
  const space = drawingSpace(set);
  const drafts = (beside: readonly Block[]): Draft[] =>
    draftViews({ unit, space, note: null, key: "front-view-with-doors", name }, (ratio, withMarks) => [
      ...views.map(({ row, view }) => closedBlock(set, row, view, ratio, withMarks)),
      ...beside,
    ]);
  const bare = drafts([]);
  const [one, ...others] = bare;
  if (others.length > 0 || filledShare(one!.shapes, space) > SPARSE) return bare;
  // A drawing nearly blank shows the piece as it stands beside its view, as large as leaves the view its scale.
  const picture = asItStands(closedSolids(set, views[0]!.row));
  for (const share of SHARES) {
    const room = { x: 0, y: 0, width: share * space.width, height: space.height / 2 };
    const tried = picture.isLarge(picture.ratioIn(room)) ? drafts([{ shapes: picture.draw(room), box: room }]) : bare;
    if (tried !== bare && tried.length === 1 && tried[0]!.scale === one!.scale) return tried;
  }
  return bare;
}

const SPARSE = 0.4; // of a drawing
const SHARES = [0.5, 0.4, 0.3, 0.2]; // of its width
