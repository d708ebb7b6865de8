/** Doors: all of a case's, closed; each kind from the front with its members, hinges and knob, and its joints at full size; those on a track. */
import type { Mm } from "../../base/length.ts";
import { circleSteps, lines, stroke } from "../../paper/draw.ts";
import type { Rect, Shape } from "../../paper/shape.ts";
import { massOfAssembly } from "../../set/mass.ts";
import type { DryfitSet, SetAssembly, SetDoor } from "../../set/schema.ts";
import { formatMass } from "../../set/words.ts";
import { type CaseGroup, groupsOf } from "../cases/case-group.ts";
import { makeWords } from "../cases/elevation.ts";
import { markView, NO_MARKS } from "../cases/marking.ts";
import { type Block, grow, unionOf } from "../draughting/block.ts";
import { type Atom, figure, setLines, stackBlocks, words } from "../draughting/cell.ts";
import { type DimensionStyle, drawDimensions, type Row } from "../draughting/dimension.ts";
import type { Draft } from "../draughting/draft.ts";
import { drawingSpace } from "../draughting/frame.ts";
import { drawView, type Picture, VIEW_FIGURE } from "../draughting/picture.ts";
import { draftViews } from "../draughting/several.ts";
import { type Movable, movable } from "../draughting/sharing.ts";
import { captioned, subtitleOf } from "../draughting/view-title.ts";
import { solidsOf } from "../solids/solid.ts";
import { FROM_FRONT, type View, viewOf } from "../solids/view.ts";
import { drawClosed } from "./closed-doors.ts";
import { jointBlocks } from "./door-joint.ts";
import { makingNotes } from "./door-notes.ts";
import { acrossOn, levelWith, memberRows, NOTE_GAP, withMate } from "./door-view.ts";
import { drawTracks } from "./track.ts";

export const drawDoors = (set: DryfitSet): Movable[] => [
  ...drawClosed(set),
  ...groupsOf(set, "door")
    .filter(({ drawn }) => set.doors.some(({ assembly }) => assembly === drawn.name))
    .flatMap((group, i) => {
      const view = viewOf(solidsOf(set, group.drawn), FROM_FRONT);
      return movable(drawingSpace(set), (space) => drawDoor(set, group, view, i, space));
    }),
  ...drawTracks(set),
];

const doorOf = (set: DryfitSet, { name }: SetAssembly): SetDoor => set.doors.find(({ assembly }) => assembly === name)!;

const HINGE_OUT: Mm = 1.6; // beyond the edge

/** Where a hinge stands, as a short bar at the edge. */
function hingeMarks(door: SetDoor, { size }: SetAssembly, picture: Picture): Shape {
  const { side, middles, size: tall } = door.hinges;
  const x = picture.x(side === "left" ? 0 : size[0]);
  const out = side === "left" ? -HINGE_OUT : HINGE_OUT;
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

function doorBlock(
  set: DryfitSet,
  assembly: SetAssembly,
  view: View,
  title: string,
  ratio: number,
  withMarks: boolean,
): Block {
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
    title,
    marking.note,
    box,
  );
}

function drawDoor(set: DryfitSet, group: CaseGroup, view: View, i: number, space: Rect): Draft[] {
  const { drawn } = group;
  const { unit } = set.job;
  const note = stackBlocks(
    notesOf(set, group).map((atoms) => setLines(atoms, space.width)),
    NOTE_GAP,
  );
  const details = jointBlocks(set, drawn.name);
  const first = set.doors.find(({ assembly }) => assembly === drawn.name)!;
  const name = `Door, ${[first.assembly, ...group.others.map(({ assembly }) => assembly.name)].join(", ")}`;
  const drafts = (mates: readonly SetAssembly[]): Draft[] =>
    draftViews({ unit, space, note, key: `door-${i + 1}`, name }, (ratio, withMarks) => {
      const title = mates.length === 0 ? "From the front" : `${drawn.name}, from the front`;
      const own = doorBlock(set, drawn, view, title, ratio, withMarks);
      return [own, ...mates.map((mate) => levelWith(own, mateBlock(set, mate, ratio, withMarks))), ...details];
    });
  return withMate(drafts, mateOf(set, group), space);
}

/** The first of those made alike that hangs by its other edge. */
function mateOf(set: DryfitSet, { drawn, others }: CaseGroup): SetAssembly | null {
  const { side } = doorOf(set, drawn).hinges;
  return others.find(({ assembly }) => doorOf(set, assembly).hinges.side !== side)?.assembly ?? null;
}

/** As it hangs, without a figure: these stand at the door that it is made like. */
function mateBlock(set: DryfitSet, assembly: SetAssembly, ratio: number, withMarks: boolean): Block {
  const door = doorOf(set, assembly);
  const view = viewOf(solidsOf(set, assembly), FROM_FRONT);
  const picture = drawView(view, ratio);
  const marking = withMarks ? markView(view.seen, picture, [], picture.box) : NO_MARKS;
  return captioned(
    {
      shapes: [
        ...picture.shapes,
        hingeMarks(door, assembly, picture),
        ...knobMark(door, picture, ratio),
        ...marking.shapes,
      ],
      box: unionOf([grow(picture.box, HINGE_OUT), ...marking.boxes]),
    },
    `${assembly.name}: the same`,
    subtitleOf(`hinges on its ${door.hinges.side} edge`, marking.note),
    picture.box,
  );
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
      ...words(door.fit === "inset" ? "Inset: a gap of" : "Overlay: it covers the front round its opening by"),
      figure(door.least, unit, 3),
      ...words(`${door.fit === "inset" ? "all round" : "on every edge"}${door.meets === null ? "." : ","}`),
      ...(door.meets === null
        ? []
        : [...words("and a gap of"), figure(door.between, unit, 3), ...words("to the other door.")]),
      ...words(`It hangs on ${hinges.middles.length} ${hinges.kind} hinges,`),
      figure(hinges.size, unit, 3),
      ...words(
        `${hinges.kind === "butt" ? "high" : "across"}; figures are to their middles, from the lower end. Measure a hinge before anything is cut for it. The door weighs ${formatMass(mass, unit)}.`,
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
            ...words("in front of the face: drilled when the door hangs."),
          ],
        ]),
    words(makeWords(group)),
  ].filter((atoms) => atoms.length > 0);
}
