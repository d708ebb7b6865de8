/** A face frame: stiles and rails of solid wood before a case's front edges, an assembly of its own. It follows from the case as it stands. */
import type { Box, Vec } from "../../base/geometry.ts";
import { formatLengthWithUnit, type Mm, SAME } from "../../base/length.ts";
import type { Problem } from "../../base/problem.ts";
import type { Bay } from "../../project/bay.ts";
import { frameFoot } from "../../project/checks/clear-inside.ts";
import { LEAST_CLEAR } from "../../project/defaults.ts";
import type { FaceFrame } from "../../project/face-frame.ts";
import { type Project, whereIn } from "../../project/project.ts";
import { PLAIN, type StockTable, stockOf } from "../cases/carcase.ts";
import type { Grid } from "../grid.ts";
import { type AssemblyModel, BARE, type Frame, type Opening, type Part } from "../model.ts";
import type { Stage } from "../stage.ts";

const UPRIGHT: Frame = { l: "+z", w: "+x", t: "+y" };
const LEVEL: Frame = { l: "+x", w: "+z", t: "-y" };

type Range = readonly [Mm, Mm];
type Around = { left: string; right: string; below: string; above: string };

export const frameName = (ofCase: string): string => `${ofCase} frame`;

/** The frames of the cases as these stand. */
export const FRAMES: Stage = {
  heeds: "as built",
  lay: (standing, { stock, grid }) => standing.flatMap((one) => layFrame(one, stock, grid)),
  faults: (frame, project) => [...cramped(frame, project), ...lapsOnOneAnother(frame, project)],
};

/** The frame of a case as that stands, its members on the grid; none where the design has none. Not yet joined. */
function layFrame(one: AssemblyModel, stock: StockTable, grid: Grid): AssemblyModel[] {
  const { frame } = one.design;
  if (one.kind !== "case" || frame === null) return [];
  const { thickness } = stockOf(stock, one.design.stock.stile);
  const foot = grid.place(frameFoot(one.design));
  const { width, left: overhang } = acrossOf(one, frame, stock, grid);
  const size: Vec = [width, thickness, grid.place(one.size[2] - foot)];
  const { parts, openings } = layMembers(one, frame, { overhang, foot, size, grid });
  return [
    {
      ...BARE,
      name: frameName(one.name),
      kind: "frame",
      design: one.design,
      at: [one.at[0] - overhang, one.at[1] - thickness, one.at[2] + foot],
      size,
      parts,
      openings,
    },
  ];
}

/** As wide as its case and what it stands out; with returns at least so wide that it covers them, and what is over shared out between them. */
function acrossOf(
  one: AssemblyModel,
  { overhang, returns }: FaceFrame,
  stock: StockTable,
  grid: Grid,
): { width: Mm; left: Mm } {
  const usual = grid.place(overhang);
  const sides = returns?.sides ?? [];
  if (sides.length === 0) return { width: grid.place(one.size[0] + 2 * usual), left: usual };
  const { thickness } = stockOf(stock, one.design.stock.return);
  const [left, right] = (["left", "right"] as const).map((side) => (sides.includes(side) ? thickness : usual));
  const width = grid.atLeast(one.size[0] + left! + right!);
  const over = (width - one.size[0] - left! - right!) / sides.length;
  return { width, left: left! + (sides.includes("left") ? over : 0) };
}

type Ground = { overhang: Mm; foot: Mm; size: Vec; grid: Grid };

function layMembers(
  { name: home, design, parts: caseParts }: AssemblyModel,
  frame: FaceFrame,
  { overhang, foot, size, grid }: Ground,
): { parts: Part[]; openings: Opening[] } {
  const prefix = frameName(home);
  const [width, thickness, height] = size;
  const wide = (given: Mm): Mm => grid.place(given);
  const parts: Part[] = [];
  const openings: Opening[] = [];
  const add = (role: "stile" | "rail", id: string, name: string, x: Range, z: Range): string => {
    const key = `${prefix}/${id}`;
    parts.push({
      ...PLAIN,
      key,
      path: `${design.path}.frame`,
      name,
      role,
      stock: design.stock[role],
      frame: role === "stile" ? UPRIGHT : LEVEL,
      box: [
        [x[0], 0, z[0]],
        [x[1], thickness, z[1]],
      ],
      inside: "+y",
      show: ["-y"],
    });
    return key;
  };
  const partOf = (id: string): Part => caseParts.find(({ key }) => key === `${home}/${id}`)!;
  const stile = wide(frame.stile);
  const left = add("stile", "stile-left", "left stile", [0, stile], [0, height]);
  const right = add("stile", "stile-right", "right stile", [width - stile, width], [0, height]);
  if (frame.returns?.fit === "mitred")
    for (const side of frame.returns.sides)
      parts.find(({ key }) => key === (side === "left" ? left : right))!.mitre = {
        edge: side === "left" ? "-x" : "+x",
        shorter: "+y",
      };
  const inner: Range = [stile, width - stile];

  const cover = design.top.fit === "stretchers" ? "stretcher-front" : "top";
  const topRail = frame.topRail === null ? height + foot - partOf(cover).box[0][2] : frame.topRail;
  const ceiling = frame.topRail === null ? height - grid.end(topRail) : height - wide(topRail);
  const above = add("rail", "rail-top", "top rail", inner, [ceiling, height]);
  const bottom = partOf("bottom").box;
  let floor = Math.max(0, grid.place(bottom[0][2] - foot));
  let below = "";
  if (frame.bottomRail !== null) {
    const upper = grid.place(bottom[1][2] - foot);
    floor = upper;
    const lower = frame.bottomRail === "to the end" ? 0 : upper - wide(frame.bottomRail);
    below = add("rail", "rail-bottom", "bottom rail", inner, [lower, upper]);
    if (frame.lower !== null) {
      const { form } = frame.lower;
      const [wideFoot, rise, relief] = [wide(frame.lower.foot), wide(frame.lower.rise), wide(frame.lower.relief)];
      parts.at(-1)!.shape = { form, edge: "-z", from: wideFoot, to: width - wideFoot, rise, relief };
    }
  }

  /** `at`: the bay's path in the tree, "" for the whole case. */
  const lay = (bay: Bay, x: Range, z: Range, around: Around, at: string): void => {
    const rows = bay.kind === "rows" && frame.midRail === null;
    if (bay.kind === "open" || rows) {
      openings.push({
        name: bay.name ?? (at === "" ? "opening" : `opening ${at}`),
        path: bay.path,
        ...around,
        depth: thickness,
      });
      return;
    }
    const columns = bay.kind === "columns";
    const idOf = (i: number): string => `${at === "" ? "" : `${at}.`}${i + 1}`;
    const members = bay.bays.slice(1).map((_, i) => {
      const member = partOf(`${columns ? "divider" : "shelf"}-${idOf(i)}`).box;
      if (columns) {
        const middle = (member[0][0] + member[1][0]) / 2 + overhang;
        const across = wide(frame.midStile);
        const from = grid.place(middle - across / 2);
        return { range: [from, from + across] as const, key: "" };
      }
      const over = frame.midRailAt === "flush" ? 0 : (wide(frame.midRail!) - (member[1][2] - member[0][2])) / 2;
      const upper = grid.place(member[1][2] - foot + over);
      return { range: [upper - wide(frame.midRail!), upper] as const, key: "" };
    });
    for (const [i, member] of members.entries()) {
      member.key = columns
        ? add("stile", `stile-${idOf(i)}`, "mid stile", member.range, z)
        : add("rail", `rail-${idOf(i)}`, "mid rail", x, member.range);
    }
    bay.bays.forEach((child, i) => {
      const [before, after] = [members[i - 1], members[i]];
      const whole = columns ? x : z;
      const span: Range = [before?.range[1] ?? whole[0], after?.range[0] ?? whole[1]];
      const own: Around = {
        ...around,
        ...(before ? { [columns ? "left" : "below"]: before.key } : {}),
        ...(after ? { [columns ? "right" : "above"]: after.key } : {}),
      };
      lay(child, columns ? span : x, columns ? z : span, own, idOf(i));
    });
  };
  lay(design.bays, inner, [floor, ceiling], { left, right, below, above }, "");
  // Open to the floor, it is no opening with four sides.
  const clear = openings.filter(({ below: under }) => under !== "");
  return { parts, openings: clear };
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
