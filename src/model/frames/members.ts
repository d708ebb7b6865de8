/** The members of a face frame, and the openings that they leave: outer stiles, a stile before the joint of two cases, rails, and what stands before dividers and shelves. */
import type { Vec } from "../../base/geometry.ts";
import type { Mm } from "../../base/length.ts";
import type { Bay } from "../../project/bay.ts";
import type { Case } from "../../project/case.ts";
import type { FaceFrame } from "../../project/face-frame.ts";
import { PLAIN } from "../cases/carcase.ts";
import type { Grid } from "../grid.ts";
import type { AssemblyModel, Frame, Opening, Part } from "../model.ts";

const UPRIGHT: Frame = { l: "+z", w: "+x", t: "+y" };
const LEVEL: Frame = { l: "+x", w: "+z", t: "-y" };

type Range = readonly [Mm, Mm];
type Around = { left: string; right: string; below: string; above: string };

/** `at`: in the room. `design`: of the case that the frame is told with. */
type Ground = { name: string; design: Case; at: Vec; size: Vec; grid: Grid };

/** A case behind it: what is to be added to its own coordinates, right and up. */
type Behind = { one: AssemblyModel; right: Mm; up: Mm };

const partOf = ({ one }: Behind, id: string): Part => one.parts.find(({ key }) => key === `${one.name}/${id}`)!;

/** `row`: the cases that it goes before, from left to right. */
export function layMembers(
  row: readonly AssemblyModel[],
  frame: FaceFrame,
  { name: prefix, design, at, size, grid }: Ground,
): { parts: Part[]; openings: Opening[] } {
  const [width, thickness, height] = size;
  const wide = (given: Mm): Mm => grid.place(given);
  const cases = row.map((one): Behind => ({ one, right: one.at[0] - at[0], up: one.at[2] - at[2] }));
  const parts: Part[] = [];
  const openings: Opening[] = [];
  const add = (role: "stile" | "rail", id: string, name: string, x: Range, z: Range): string => {
    const key = `${prefix}/${id}`;
    parts.push({
      ...PLAIN,
      key,
      path: frame.path,
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

  const reached = Math.min(...cases.map((one) => coverOf(one).box[0][2] + one.up));
  const ceiling = frame.topRail === null ? height - grid.end(height - reached) : height - wide(frame.topRail);
  const above = add("rail", "rail-top", "top rail", inner, [ceiling, height]);
  const level = (end: 0 | 1): Mm => Math.min(...cases.map((one) => partOf(one, "bottom").box[end][2] + one.up));
  let floor = Math.max(0, grid.place(level(0)));
  let below = "";
  if (frame.bottomRail !== null) {
    const upper = grid.place(level(1));
    floor = upper;
    const lower = frame.bottomRail === "to the end" ? 0 : upper - wide(frame.bottomRail);
    below = add("rail", "rail-bottom", "bottom rail", inner, [lower, upper]);
    if (frame.lower !== null) {
      const { form } = frame.lower;
      const [wideFoot, rise, relief] = [wide(frame.lower.foot), wide(frame.lower.rise), wide(frame.lower.relief)];
      parts.at(-1)!.shape = { form, edge: "-z", from: wideFoot, to: width - wideFoot, rise, relief };
    }
  }

  /** `place`: the bay's path in the tree, "" for the whole case. */
  const lay = (behind: Behind, bay: Bay, x: Range, z: Range, around: Around, place: string): void => {
    const { name: home } = behind.one;
    const rows = bay.kind === "rows" && frame.midRail === null;
    if (bay.kind === "open" || rows) {
      const own = bay.name ?? (place === "" ? "opening" : `opening ${place}`);
      const name = row.length === 1 ? own : `${own} of ${home}`;
      openings.push({ name, home, path: bay.path, ...around, depth: thickness });
      return;
    }
    const columns = bay.kind === "columns";
    const idOf = (i: number): string => `${place === "" ? "" : `${place}.`}${i + 1}`;
    const members = bay.bays.slice(1).map((_, i) => {
      const member = partOf(behind, `${columns ? "divider" : "shelf"}-${idOf(i)}`).box;
      if (columns) {
        const middle = (member[0][0] + member[1][0]) / 2 + behind.right;
        return { range: centred(middle, wide(frame.midStile), grid), key: "" };
      }
      const over = frame.midRailAt === "flush" ? 0 : (wide(frame.midRail!) - (member[1][2] - member[0][2])) / 2;
      const upper = grid.place(member[1][2] + behind.up + over);
      return { range: [upper - wide(frame.midRail!), upper] as const, key: "" };
    });
    // Names of members stay when another case comes under the frame.
    const own = row.length === 1 ? "" : `${home}/`;
    for (const [i, member] of members.entries()) {
      member.key = columns
        ? add("stile", `${own}stile-${idOf(i)}`, "mid stile", member.range, z)
        : add("rail", `${own}rail-${idOf(i)}`, "mid rail", x, member.range);
    }
    bay.bays.forEach((child, i) => {
      const [before, after] = [members[i - 1], members[i]];
      const whole = columns ? x : z;
      const span: Range = [before?.range[1] ?? whole[0], after?.range[0] ?? whole[1]];
      const beside: Around = {
        ...around,
        ...(before ? { [columns ? "left" : "below"]: before.key } : {}),
        ...(after ? { [columns ? "right" : "above"]: after.key } : {}),
      };
      lay(behind, child, columns ? span : x, columns ? z : span, beside, idOf(i));
    });
  };
  const joints = cases.slice(1).map((next, i) => {
    const range = centred(jointMiddle(cases[i]!, next), wide(frame.jointStile), grid);
    return { range, key: add("stile", `${next.one.name}/stile-joint`, "mid stile", range, [floor, ceiling]) };
  });
  cases.forEach((behind, i) => {
    const [before, after] = [joints[i - 1], joints[i]];
    const x: Range = [before?.range[1] ?? inner[0], after?.range[0] ?? inner[1]];
    const around: Around = { left: before?.key ?? left, right: after?.key ?? right, below, above };
    lay(behind, behind.one.design.bays, x, [floor, ceiling], around, "");
  });
  // Open to the floor, it is no opening with four sides.
  const clear = openings.filter(({ below: under }) => under !== "");
  return { parts, openings: clear };
}

function centred(middle: Mm, across: Mm, grid: Grid): Range {
  const from = grid.place(middle - across / 2);
  return [from, from + across];
}

const coverOf = (one: Behind): Part => partOf(one, one.one.design.top.fit === "stretchers" ? "stretcher-front" : "top");

/** Of the two sides that stand against each other, or of the one that both cases share. */
function jointMiddle(before: Behind, next: Behind): Mm {
  const from = partOf(before, "side-right").box[0][0] + before.right;
  const own: Part | undefined = partOf(next, "side-left");
  const to = (own === undefined ? 0 : own.box[1][0]) + next.right;
  return (from + to) / 2;
}
