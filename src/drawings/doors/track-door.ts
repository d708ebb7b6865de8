/** A door that slides, from the front: its members, the holes of its hangers from its upper end, its knobs; its joints at full size. */

import type { Mm } from "../../base/length.ts";
import { circleSteps, stroke } from "../../paper/draw.ts";
import type { Rect, Shape } from "../../paper/shape.ts";
import { massOfAssembly } from "../../set/mass.ts";
import type { DryfitSet, SetAssembly, SetTrack, SetTrackDoor } from "../../set/schema.ts";
import { formatMass } from "../../set/words.ts";
import type { CaseGroup } from "../cases/case-group.ts";
import { makeWords } from "../cases/elevation.ts";
import { markView, NO_MARKS } from "../cases/marking.ts";
import { type Block, unionOf } from "../draughting/block.ts";
import { type Atom, figure, setLines, stackBlocks, words } from "../draughting/cell.ts";
import { type DimensionStyle, drawDimensions } from "../draughting/dimension.ts";
import type { Draft } from "../draughting/draft.ts";
import { figuresInWords } from "../draughting/figures-in-words.ts";
import { drawView, VIEW_FIGURE } from "../draughting/picture.ts";
import { draftViews } from "../draughting/several.ts";
import { captioned } from "../draughting/view-title.ts";
import { solidsOf } from "../solids/solid.ts";
import { FROM_FRONT, type View, viewOf } from "../solids/view.ts";
import { jointBlocks } from "./door-joint.ts";
import { makingNotes } from "./door-notes.ts";
import { memberRows, NOTE_GAP } from "./door-view.ts";

type Sliding = { track: SetTrack; door: SetTrackDoor };

/** The track of a door, and how it hangs there; null for one on hinges. */
export function slidingDoor({ tracks }: DryfitSet, assembly: string): Sliding | null {
  for (const track of tracks) {
    const door = track.doors.find((one) => one.assembly === assembly);
    if (door !== undefined) return { track, door };
  }
  return null;
}

export function drawSlidingDoor(set: DryfitSet, group: CaseGroup, i: number, space: Rect): Draft[] {
  const { drawn } = group;
  const view = viewOf(solidsOf(set, drawn), FROM_FRONT);
  const note = stackBlocks(
    notesOf(set, group).map((atoms) => setLines(atoms, space.width)),
    NOTE_GAP,
  );
  const details = jointBlocks(set, drawn.name);
  const name = `Door, ${[drawn.name, ...group.others.map(({ assembly }) => assembly.name)].join(", ")}`;
  return draftViews({ unit: set.job.unit, space, note, key: `track-door-${i + 1}`, name }, (ratio, withMarks) => [
    frontBlock(set, drawn, view, ratio, withMarks),
    ...details,
  ]);
}

function frontBlock(set: DryfitSet, assembly: SetAssembly, view: View, ratio: number, withMarks: boolean): Block {
  const { track, door } = slidingDoor(set, assembly.name)!;
  const style: DimensionStyle = { unit: set.job.unit, ratio, size: VIEW_FIGURE };
  const picture = drawView(view, ratio);
  const { box } = picture;
  const [, , height] = assembly.size;
  const { across, up } = memberRows(set, assembly, picture);
  const holes = track.hangers.holes.map((down) => height - down);
  const sides = [
    drawDimensions("below", 0, across, style),
    drawDimensions("left", 0, up, style),
    drawDimensions(
      "right",
      box.width,
      [
        { kind: "running", datum: picture.y(height), at: holes.map(picture.y) },
        ...(door.knobs.length === 0
          ? []
          : [{ kind: "running" as const, datum: picture.y(0), at: [picture.y(door.knobs[0]![1])] }]),
      ],
      style,
    ),
    drawDimensions("above", box.y, [{ kind: "running", datum: picture.x(0), at: door.hangers.map(picture.x) }], style),
  ];
  const boxes = sides.flatMap((one) => one.boxes);
  const marking = withMarks ? markView(view.seen, picture, boxes, box) : NO_MARKS;
  const circle = (x: Mm, z: Mm, diameter: Mm, least: Mm): Shape =>
    stroke("outline", circleSteps([picture.x(x), picture.y(z)], Math.max(least, (diameter / 2) * ratio)));
  return captioned(
    {
      shapes: [
        ...picture.shapes,
        ...door.hangers.flatMap((x) => holes.map((z) => circle(x, z, track.hangers.hole, 0.5))),
        ...(track.knob === null ? [] : door.knobs.map(([x, z]) => circle(x, z, track.knob!.diameter, 1))),
        ...sides.flatMap((one) => one.shapes),
        ...marking.shapes,
      ],
      box: unionOf([box, ...boxes, ...marking.boxes]),
    },
    "From the front",
    marking.note,
    box,
  );
}

/** What it hangs on, what it weighs, what its panel has free, and who is made alike. */
function notesOf(set: DryfitSet, group: CaseGroup): Atom[][] {
  const { unit } = set.job;
  const { drawn } = group;
  const { track, door } = slidingDoor(set, drawn.name)!;
  const { hangers, knob } = track;
  const mass = massOfAssembly(set.parts, drawn.name);
  return [
    [
      ...words("Hangs on two hangers"),
      figure(hangers.width, unit, 3),
      ...words("wide: holes of"),
      figure(hangers.hole, unit, 3),
      ...words("right through, their middles"),
      ...figuresInWords(hangers.holes, unit),
      ...words(
        `from the upper end, drilled when a hanger has been measured. The door weighs ${formatMass(mass, unit)}${knob === null ? "" : " without its knob"}; each hanger is rated for ${formatMass(hangers.rating, unit)}.`,
      ),
    ],
    ...makingNotes(set, drawn.name, door.horns),
    ...(knob === null
      ? []
      : [
          [
            ...words(door.knobs.length > 1 ? "Knobs" : "Knob"),
            figure(knob.diameter, unit, 3),
            ...words("across, standing out"),
            figure(knob.projection, unit, 3),
            ...words("in front of the face, its middle"),
            figure(Math.min(door.knobs[0]![0], drawn.size[0] - door.knobs[0]![0]), unit, 3),
            ...words(
              `from the ${door.knobs.length > 1 ? "edges" : door.knobs[0]![0] < drawn.size[0] / 2 ? "left edge" : "right edge"}: drilled when the door hangs.`,
            ),
          ],
        ]),
    words(makeWords(group)),
  ].filter((atoms) => atoms.length > 0);
}
