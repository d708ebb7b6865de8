/** A track with the doors that hang from it and all that stands still round them, in the room. */
import type { Mm } from "../../base/length.ts";
import type { DryfitSet, SetAssembly, SetTrack, SetTrackDoor } from "../../set/schema.ts";
import type { Solid } from "../solids/solid.ts";
import type { Body } from "./body.ts";

/** One door with its wood; `width` as its wood measures. */
export type Hanging = {
  door: SetTrackDoor;
  assembly: SetAssembly;
  solids: Solid[];
  wood: Body[];
  width: Mm;
  marks: string[];
};

/** A track with its doors, the wood that stands still round it, and `beside` it walls, knobs of doors that hang or slide otherwise, bars of other tracks. */
export type OnTrack = { set: DryfitSet; track: SetTrack; hanging: Hanging[]; still: Body[]; beside: Body[] };

/** Its wood from edge to edge along one axis, in the room. */
export const extentOf = ({ wood }: Pick<Hanging, "wood">, axis: 0 | 1 | 2): [Mm, Mm] => [
  Math.min(...wood.map(({ box }) => box[0][axis])),
  Math.max(...wood.map(({ box }) => box[1][axis])),
];
