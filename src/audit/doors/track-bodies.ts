/** What moves with a door on a track, and what stays where it is bolted on: boxes in the room. */
import type { Box } from "../../base/geometry.ts";
import type { Mm } from "../../base/length.ts";
import type { SetTrack } from "../../set/schema.ts";
import { drawnOut } from "../solids/boxes.ts";
import type { Body } from "./body.ts";
import { extentOf, type Hanging, type OnTrack } from "./hanging.ts";

/** Wood, knobs, and hangers as boxes: the strap before the face, and above the door all from the strap to the door's back. */
export function movingOf(hanging: Hanging, { track }: OnTrack): Body[] {
  const { door, wood } = hanging;
  const { hangers, bar, knob } = track;
  const [left] = extentOf(hanging, 0);
  const [front, back] = extentOf(hanging, 1);
  const [under, top] = extentOf(hanging, 2);
  const straps = door.hangers.flatMap((at, i): Body[] => {
    const x: [Mm, Mm] = [left + at - hangers.width / 2, left + at + hangers.width / 2];
    const words = `the ${i === 0 ? "left" : "right"} hanger of ${door.assembly}`;
    const low = top - Math.max(...hangers.holes) - hangers.hole;
    return [
      {
        part: null,
        words,
        box: [
          [x[0], front - hangers.projection, low],
          [x[1], front, top],
        ],
      },
      {
        part: null,
        words,
        box: [
          [x[0], front - hangers.projection, top],
          [x[1], back, top + hangers.drop + bar.height + hangers.above],
        ],
      },
    ];
  });
  const knobs = door.knobs.flatMap(([x, z]): Body[] =>
    knob === null
      ? []
      : [
          {
            part: null,
            words: `the knob of ${door.assembly}`,
            box: [
              [left + x - knob.diameter / 2, front - knob.projection, under + z - knob.diameter / 2],
              [left + x + knob.diameter / 2, front, under + z + knob.diameter / 2],
            ],
          },
        ],
  );
  return [...wood, ...knobs, ...straps];
}

/** The bars, the one nearer to the front of the case first. */
export function barsOf({ bar, at, length, tracks }: SetTrack, words: string): Body[] {
  return Array.from({ length: tracks }, (_, i): Body => {
    const middle = at[1] - bar.standOff - i * bar.apart - bar.thickness / 2;
    return {
      part: null,
      words,
      box: [
        [at[0], middle - bar.thickness / 2, at[2] - bar.height / 2],
        [at[0] + length, middle + bar.thickness / 2, at[2] + bar.height / 2],
      ],
    };
  });
}

/** Drawn out along its way; it stands closed. */
export const swept = ({ door }: Hanging, box: Box): Box =>
  drawnOut(box, 0, box[0][0] + Math.min(0, door.from - door.closed), box[1][0] + Math.max(0, door.to - door.closed));
