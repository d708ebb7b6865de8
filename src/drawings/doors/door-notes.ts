/** What the drawings of all doors say of their making, however these hang. */
import type { Mm } from "../../base/length.ts";
import { listInWords } from "../../base/words.ts";
import type { DryfitSet } from "../../set/schema.ts";
import { type Atom, figure, words } from "../draughting/cell.ts";

/** What its panel has free, and what its stiles keep until it is glued up; nothing of a door in one piece. */
export function makingNotes(set: DryfitSet, assembly: string, horns: Mm): Atom[][] {
  const { unit } = set.job;
  const panels = set.parts.filter((part) => part.assembly === assembly && part.role === "doorPanel");
  const [panel] = panels;
  const marks = listInWords(panels.map(({ mark }) => mark));
  const free = set.joints.filter(({ entering }) => entering === panel?.mark);
  const gapAt = (axis: string): Mm => free.find(({ enteringEnd }) => enteringEnd[0] === axis)!.gap[0];
  return [
    ...(panel === undefined
      ? []
      : [
          [
            ...words(
              panels.length === 1
                ? `Panel ${marks} is finished first and stays loose, no glue: free at each end`
                : `Panels ${marks} are finished first and stay loose, no glue: free at each end`,
            ),
            figure(gapAt("l"), unit, 3),
            ...words("and at each edge"),
            figure(gapAt("w"), unit, 3),
            ...words("in the groove, which runs from end to end of each member. Rails are glued by their tongues."),
          ],
        ]),
    ...(horns > 0
      ? [
          [
            ...words("Stiles keep a horn of"),
            figure(horns, unit, 3),
            ...words("beyond each end until the door is glued up; lengths here are without them."),
          ],
        ]
      : []),
  ];
}
