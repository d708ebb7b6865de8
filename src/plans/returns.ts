/** Side returns as the printed model has them: which stile and side each meets, and what is planed off where it does. */

import { frameName } from "../model/frames/frame.ts";
import { returnName } from "../model/frames/returns.ts";
import type { Model } from "../model/model.ts";
import type { DryfitSet } from "../set/schema.ts";
import { letterOf } from "./joint-list.ts";
import { type Marks, markIn } from "./parts.ts";

export const planReturns = ({ assemblies }: Model, marks: Marks): DryfitSet["returns"] =>
  assemblies.flatMap((one) => {
    const returns = one.design.frame?.returns ?? null;
    if (one.kind !== "case" || returns === null) return [];
    const frame = assemblies.find(({ name }) => name === frameName(one.name))!;
    return returns.sides.map((side, i) => {
      const made = assemblies.find(({ name }) => name === returnName(one.name, side))!;
      const [upright, strip] = made.parts as [(typeof made.parts)[number], (typeof made.parts)[number] | undefined];
      const outer = (which: typeof one): number => which.at[0] + (side === "left" ? 0 : which.size[0]);
      return {
        assembly: made.name,
        case: one.name,
        frame: frame.name,
        side,
        mark: markIn(marks, upright.key),
        strip: strip === undefined ? null : markIn(marks, strip.key),
        stile: markIn(marks, `${frame.name}/stile-${side}`),
        against: markIn(marks, `${one.name}/side-${side}`),
        fit: returns.fit,
        mating: letterOf(frame.joints.length + i),
        proud: Math.abs(outer(made) - outer(frame)),
      };
    });
  });
