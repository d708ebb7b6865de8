/** Stacks of doors and drawers: which stand over each other, and between which heights, before the uprights of a frame or a case. */
import { type AxisIndex, axesOf, axisOf, signOf } from "../../base/geometry.ts";
import { type Mm, SAME } from "../../base/length.ts";
import type { DryfitSet, SetAssembly, SetPart } from "../../set/schema.ts";
import { frameBefore } from "../../set/standing.ts";

type Placed = SetPart & { place: NonNullable<SetPart["place"]> };
type Front = { mark: string; from: Mm; to: Mm };
export type Stack = { uprights: Placed[]; fronts: Front[] };

type StackSet = Pick<DryfitSet, "parts" | "assemblies">;
const [ACROSS, UP] = [0, 2] as const;

/** Every stack of two or more, each once, its heights in the assembly's own axes; none of a case that a frame stands before. */
export function frontsOver(set: StackSet, assembly: SetAssembly): Stack[] {
  const isBehind = assembly.kind === "case" && frameBefore(assembly, set.assemblies) !== null;
  if (isBehind || !["case", "frame"].includes(assembly.kind) || assembly.in !== null) return [];
  const uprights = outerUprights(set, assembly);
  const columns = columnsOf(set.assemblies.filter((one) => isBefore(one, assembly)));
  const found = new Map<string, Stack>();
  for (const column of columns) {
    const fronts = column
      .map((one): Front => {
        const [from, to] = spanOf(one, UP).map((at) => at - assembly.place.at[UP]) as [Mm, Mm];
        return { mark: frontMark(set, one), from, to };
      })
      .sort((a, b) => a.from - b.from);
    const isStacked = fronts.length > 1 && fronts.every((front, i) => i === 0 || fronts[i - 1]!.to < front.from + SAME);
    if (!isStacked) continue;
    // Two stacks of one layout are marked from one stick.
    const key = fronts.map(({ from, to }) => `${Math.round(from * 1e6)} ${Math.round(to * 1e6)}`).join();
    const same = found.get(key);
    if (same === undefined) found.set(key, { uprights, fronts });
    else same.fronts.push(...fronts);
  }
  return [...found.values()];
}

const spanOf = (one: SetAssembly, axis: AxisIndex): [Mm, Mm] => [
  one.place.at[axis],
  one.place.at[axis] + one.size[axis],
];
const isOver = ([a, b]: [Mm, Mm], [c, d]: [Mm, Mm]): boolean => a < d - SAME && c < b - SAME;

function isBefore(one: SetAssembly, assembly: SetAssembly): boolean {
  if (!["door", "drawer"].includes(one.kind) || one.in !== null) return false;
  const [from, to] = spanOf(one, ACROSS);
  const [left, right] = spanOf(assembly, ACROSS);
  return (from + to) / 2 > left && (from + to) / 2 < right && isOver(spanOf(one, UP), spanOf(assembly, UP));
}

/** Fronts that stand over each other: what laps in the width is of one column. */
function columnsOf(fronts: readonly SetAssembly[]): SetAssembly[][] {
  const columns: SetAssembly[][] = [];
  for (const front of fronts) {
    const column = columns.find((some) => some.some((one) => isOver(spanOf(one, ACROSS), spanOf(front, ACROSS))));
    if (column === undefined) columns.push([front]);
    else column.push(front);
  }
  return columns;
}

/** The outermost members that stand, left and right. */
function outerUprights(set: StackSet, assembly: SetAssembly): Placed[] {
  const standing = set.parts
    .filter((part): part is Placed => part.assembly === assembly.name && part.place !== null)
    .filter(({ role }) => role === "side" || role === "stile")
    .sort((a, b) => lowest(a, ACROSS) - lowest(b, ACROSS));
  return standing.length < 2 ? [] : [standing[0]!, standing.at(-1)!];
}

/** What shows of a front: the member as high as the whole. */
function frontMark(set: StackSet, one: SetAssembly): string {
  const own = set.parts.filter((part): part is Placed => part.assembly === one.name && part.place !== null);
  const whole = own.find((part) => Math.abs(sizeUp(part) - one.size[UP]) < SAME);
  return (whole ?? own[0]!).mark;
}

const sidesOf = (part: Placed): [Mm, Mm, Mm] => [part.length, part.width, part.thickness];
const localOn = (part: Placed, axis: AxisIndex): number => axesOf(part.place).findIndex((one) => axisOf(one) === axis);
const sizeUp = (part: Placed): Mm => sidesOf(part)[localOn(part, UP)]!;

function lowest(part: Placed, axis: AxisIndex): Mm {
  const local = localOn(part, axis);
  return part.place.at[axis] + Math.min(0, signOf(axesOf(part.place)[local]!) * sidesOf(part)[local]!);
}
