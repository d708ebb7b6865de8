/** A face frame: stiles and rails of solid wood before a case's front edges, an assembly of its own. It follows from the case as it stands. */
import type { Box, Vec } from "../../base/geometry.ts";
import { formatLengthWithUnit, type Mm, SAME } from "../../base/length.ts";
import type { Problem } from "../../base/problem.ts";
import { frameFoot } from "../../project/checks/clear-inside.ts";
import { LEAST_CLEAR } from "../../project/defaults.ts";
import type { FaceFrame } from "../../project/face-frame.ts";
import { isTold } from "../../project/framed.ts";
import { type Project, whereIn } from "../../project/project.ts";
import { type StockTable, stockOf } from "../cases/carcase.ts";
import type { Grid } from "../grid.ts";
import { type AssemblyModel, BARE, type Part } from "../model.ts";
import type { Stage } from "../stage.ts";
import { framedRows, frameName } from "./framed.ts";
import { layMembers } from "./members.ts";

type Range = readonly [Mm, Mm];

/** The frames of the cases as these stand. */
export const FRAMES: Stage = {
  heeds: "as built",
  lay: (standing, { stock, grid }) => framedRows(standing).map((row) => layFrame(row, stock, grid)),
  faults: (frame, project) => [...cramped(frame, project), ...lapsOnOneAnother(frame, project)],
};

/** The frame of a row of cases as these stand, its members on the grid. Not yet joined. */
function layFrame(row: readonly AssemblyModel[], stock: StockTable, grid: Grid): AssemblyModel {
  // The case that it is told with says how it is made.
  const { design } = row.find((one) => isTold(one.design.frame!, one.design))!;
  const frame = design.frame!;
  const { thickness } = stockOf(stock, design.stock.stile);
  const foot = grid.place(frameFoot(design));
  const [first] = row as [AssemblyModel];
  const low = first.at[2] + foot;
  const high = Math.max(...row.map(({ at, size }) => at[2] + size[2]));
  const { width, left } = acrossOf(row, frame, stockOf(stock, design.stock.return).thickness, grid);
  const size: Vec = [width, thickness, grid.place(high - low)];
  const at: Vec = [first.at[0] - left, first.at[1] - thickness, low];
  const name = frameName(row);
  return {
    ...BARE,
    name,
    kind: "frame",
    design,
    at,
    size,
    before: row.map((one) => one.name),
    ...layMembers(row, frame, { name, design, at, size, grid }),
  };
}

/** As wide as its cases and what it stands out; with returns at least so wide that it covers them, and what is over shared out between them. */
function acrossOf(
  row: readonly AssemblyModel[],
  { overhang, returns }: FaceFrame,
  thickness: Mm,
  grid: Grid,
): { width: Mm; left: Mm } {
  const [first, last] = [row[0]!, row.at(-1)!];
  const cases = first === last ? first.size[0] : last.at[0] + last.size[0] - first.at[0];
  const usual = grid.place(overhang);
  const sides = returns?.sides ?? [];
  if (sides.length === 0) return { width: grid.place(cases + 2 * usual), left: usual };
  const [left, right] = (["left", "right"] as const).map((side) => (sides.includes(side) ? thickness : usual));
  const width = grid.atLeast(cases + left! + right!);
  const over = (width - cases - left! - right!) / sides.length;
  return { width, left: left! + (sides.includes("left") ? over : 0) };
}

/** Members of a frame so wide that an opening between them is closed, or too narrow to use. */
function cramped(frame: AssemblyModel, project: Project): Problem[] {
  const show = (length: Mm): string => formatLengthWithUnit(length, project.unit);
  const boxOf = (key: string): Box => frame.parts.find((part) => part.key === key)!.box;
  const sizes = frame.openings.map(({ name, left, right, below, above }) => ({
    name,
    least: Math.min(boxOf(right)[0][0] - boxOf(left)[1][0], boxOf(above)[0][2] - boxOf(below)[1][2]),
  }));
  return sizes
    .filter(({ least }) => least < LEAST_CLEAR)
    .map(({ name, least }) => ({
      level: "error",
      kind: "design",
      where: whereIn(project, `${frame.design.path}.frame`),
      found: `stiles or rails that leave ${show(Math.max(0, least))} of the frame's opening "${name}"`,
      expected: `at least ${show(LEAST_CLEAR)}`,
      remedy: "make the members narrower, or the bay larger",
    }));
}

/** Half laps from both sides of one member at one height: there is only one half of it to lie on. */
function lapsOnOneAnother({ design, parts }: AssemblyModel, project: Project): Problem[] {
  if (design.frame?.joint !== "half laps") return [];
  const rails = parts.filter(({ role }) => role === "rail");
  const isBetween = (one: Range, other: Range): boolean => one[0] < other[1] - SAME && other[0] < one[1] - SAME;
  const span = ({ box }: Part, axis: 0 | 2): Range => [box[0][axis], box[1][axis]];
  const crossed = parts
    .filter(({ role }) => role === "stile")
    .filter((stile) => {
      const [before, behind] = ([0, 1] as const).map((end) =>
        rails.filter(({ box }) => Math.abs(box[1 - end]![0] - stile.box[end]![0]) < SAME),
      );
      return before!.some((one) => behind!.some((other) => isBetween(span(one, 2), span(other, 2))));
    });
  if (crossed.length === 0) return [];
  return [
    {
      level: "error",
      kind: "design",
      where: whereIn(project, `${design.path}.frame.joint`),
      found: `half laps of two rails on one mid stile of "${design.name}", from both sides at one height`,
      expected: "rails that end on a mid stile at different heights, or another joint",
      remedy: 'choose "loose tenons" or "stub tenons", or rows of other heights beside each other',
    },
  ];
}
