import type { Mm } from "../base/length.ts";
import type { AssemblyModel, Model, Part, Travel } from "../model/model.ts";
import type { DryfitSet, SetAssembly, SetOpening } from "../set/schema.ts";
import { type Marks, markIn, partsAround } from "./parts.ts";

export function planOpenings(model: Model): SetOpening[] {
  return model.assemblies.flatMap((one) => {
    const byKey = partsAround(one);
    const box = (key: string): Part["box"] => byKey.get(key)!.box;
    return one.openings.map(({ name, left, right, below, above }): SetOpening => {
      const x = box(left)[1][0];
      const z = box(below)[1][2];
      const width = box(right)[0][0] - x;
      const height = box(above)[0][2] - z;
      const rear = one.parts.find(({ role }) => role === "back");
      const depth = rear ? rear.box[0][1] : one.size[1];
      return { name, case: one.name, at: [x, 0, z], width, height, depth, diagonal: Math.hypot(width, height) };
    });
  });
}

/** The set's own arrays: what a model holds is not to be changed. */
const travelOf = (travel: Travel): SetAssembly["travel"] =>
  travel.kind === "none"
    ? travel
    : travel.kind === "swing"
      ? { ...travel, pivot: [...travel.pivot], range: [...travel.range] }
      : { ...travel, range: [...travel.range] };

function feetOf({ feet }: AssemblyModel): SetAssembly["feet"] {
  if (feet === null) return null;
  const { height, diameter, middles, range, rating } = feet;
  return {
    height,
    diameter,
    middles: middles.map(([x, y]) => [x, y]),
    hole: { ...feet.hole },
    range: range && { ...range },
    rating,
  };
}

/** Cases and their bases as assemblies standing in the room. */
export function planAssemblies(model: Model, marks: Marks): DryfitSet["assemblies"] {
  return model.assemblies.map((one) => ({
    name: one.name,
    kind: one.kind,
    in: null,
    place: { at: [...one.at], l: "+x", w: "+y", t: "+z" },
    size: [...one.size],
    travel: travelOf(one.travel),
    feet: feetOf(one),
    borrows: one.borrowed.map(({ key }) => markIn(marks, key)),
    fits: {
      allowance: one.design.joinery.allowance,
      ...slipsOf(one),
      clearance: one.pinRows.length > 0 ? one.design.pins.clearance : 0,
    },
    diagonals: diagonalsOf(one),
  }));
}

/** Of a back in the case; of the panel in a door. */
function slipsOf({ parts, design }: AssemblyModel): { slip: Mm; slipAcross: Mm } {
  const slips = parts.find((part) => part.slips !== null)?.slips;
  const { slip } = design.joinery;
  return slips ? { slip: slips.l, slipAcross: slips.w } : { slip, slipAcross: slip };
}

const lengthOf = ([from, to]: readonly [number, number]): number => to - from;

/** Over the outer corners, from the front; of a base, a worktop or a drawer's box, lying, from above; of a frame, over its own. */
function diagonalsOf({ kind, size, parts, drawer }: AssemblyModel): DryfitSet["assemblies"][number]["diagonals"] {
  if (kind === "base" || kind === "worktop" || drawer !== null) {
    const [width, depth] = drawer === null ? size : [lengthOf(drawer.box.x), lengthOf(drawer.box.y)];
    const diagonal = Math.hypot(width, depth);
    return { outside: diagonal, front: diagonal, width, height: depth };
  }
  if (kind === "frame" || kind === "packing" || kind === "return" || kind === "door") {
    const diagonal = Math.hypot(size[0], size[2]);
    return { outside: diagonal, front: diagonal, width: size[0], height: size[2] };
  }
  const shell = parts.filter(({ role }) => role === "side" || role === "bottom" || role === "top");
  const height = Math.max(...shell.map(({ box }) => box[1][2])) - Math.min(...shell.map(({ box }) => box[0][2]));
  // A toe space takes the lower front corners; the next ones up are where it ends.
  const toe = Math.max(
    0,
    ...shell.flatMap(({ notches }) => notches.filter(({ edge }) => edge === "-y").map(({ depth }) => depth)),
  );
  return {
    outside: Math.hypot(size[0], height),
    front: Math.hypot(size[0], height - toe),
    width: size[0],
    height,
  };
}
