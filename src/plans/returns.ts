/** Side returns as the printed model has them: which stile and side each meets, and what is planed off where it does. */

import { framedRows, frameOn } from "../model/frames/framed.ts";
import { endOf, returnName } from "../model/frames/returns.ts";
import type { Model } from "../model/model.ts";
import type { DryfitSet } from "../set/schema.ts";
import { letterOf } from "./joint-list.ts";
import { type Marks, markIn } from "./parts.ts";

export const planReturns = ({ assemblies }: Model, marks: Marks): DryfitSet["returns"] =>
  framedRows(assemblies).flatMap((row) => {
    const returns = row[0]!.design.frame?.returns ?? null;
    if (returns === null) return [];
    const frame = frameOn(row[0]!, assemblies)!;
    return returns.sides.map((side, i) => {
      const one = endOf(row, side);
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
