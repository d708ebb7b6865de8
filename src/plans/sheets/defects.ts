/**
 * An offcut or a board with defects, such as knots and splits: it is crosscut beside each, and what is clear between them is laid out as
 * pieces of their own. All lengths in whole units of the layout; of the pieces that the layout sees, a kerf is folded in.
 */
import type { Mm } from "../../base/length.ts";
import type { LayoutSheet } from "../layout/engine.ts";
import type { Taken } from "../layout/mix.ts";
import { type Tree, waste } from "../layout/tree.ts";
import { type Nm, toNm } from "../layout/units.ts";

type Flawed = { length: Mm; width: Mm; defects: readonly { from: Mm; to: Mm }[] };

/** A run that is clear, real size, of the offcut of that place in the list. */
export type Clear = { offcut: number; from: Nm; to: Nm; width: Nm };

/** From its labelled end on; an offcut without defects is clear from end to end. */
export const clearOf = (offcuts: readonly Flawed[], kerf: Mm): Clear[] =>
  offcuts.flatMap(({ length, width, defects }, offcut) => {
    const blade = toNm(kerf);
    const runs: Clear[] = [];
    let low = 0;
    for (const defect of defects.toSorted((a, b) => a.from - b.from)) {
      const [from, to] = [toNm(defect.from), toNm(defect.to)];
      if (from > low) runs.push({ offcut, from: low, to: from, width: toNm(width) });
      low = beyond(Math.max(from, low), to, blade);
    }
    const end = toNm(length);
    return end > low ? [...runs, { offcut, from: low, to: end, width: toNm(width) }] : runs;
  });

/** What falls out between two cuts is at least so wide: the second would else only skim the end that the first has left. */
const SLIVER = toNm(1);

/** Where the next run begins: one cut takes all of a defect no wider than the blade, else there is one on each side of it. */
function beyond(cleared: Nm, to: Nm, blade: Nm): Nm {
  if (cleared === 0) return Math.max(to, blade + SLIVER);
  return to - cleared <= blade ? cleared + blade : Math.max(to, cleared + 2 * blade + SLIVER);
}

export const roomIn = ({ from, to, width }: Clear, kerf: Mm): LayoutSheet => ({
  length: to - from + toNm(kerf),
  width: width + toNm(kerf),
});

/**
 * What was taken of the runs, as what is cut from the offcuts: `runs` lists them in the order in which the layout saw them. A run that
 * holds nothing, and is not worth keeping by itself, falls out with the defects beside it.
 */
export function onOffcuts(
  taken: readonly Taken[],
  runs: readonly Clear[],
  offcuts: readonly Flawed[],
  kerf: Mm,
  isKept: (size: { length: Nm; width: Nm }) => boolean,
): Taken[] {
  const whole = offcuts.flatMap((offcut, index): Taken[] => {
    const used = taken.filter(({ of, index: run }) => of === "offcut" && runs[run]!.offcut === index);
    if (used.length === 0) return [];
    const own = runs.flatMap((run, i) => {
      if (run.offcut !== index) return [];
      const tree = used.find((one) => one.index === i)?.tree;
      if (tree !== undefined) return [{ run, tree }];
      const room = roomIn(run, kerf);
      return isKept({ length: run.to - run.from, width: run.width })
        ? [{ run, tree: waste(room.length, room.width) }]
        : [];
    });
    return [{ of: "offcut", index, tree: rejoined(own, toNm(offcut.length), toNm(kerf)) }];
  });
  return [...whole, ...taken.filter(({ of }) => of === "size")];
}

/** The runs in their places, the defects between them. */
function rejoined(own: readonly { run: Clear; tree: Tree }[], length: Nm, blade: Nm): Tree {
  const children: Tree[] = [];
  let low = 0;
  const width = own[0]!.tree.width;
  const skip = (to: Nm): void => {
    if (to > low) children.push({ ...waste(to - low, width), isDefect: true });
    low = to;
  };
  for (const { run, tree } of own) {
    skip(run.from);
    children.push(tree);
    low = run.to + blade;
  }
  skip(length + blade);
  return children.length === 1
    ? children[0]!
    : { kind: "cut", across: "x", length: length + blade, width, children, ordered: true };
}
