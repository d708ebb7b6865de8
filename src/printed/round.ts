/**
 * The rounding stage: from the exact model to the printed one. Nothing after it rounds.
 *
 * Every axis of a case has one datum, 0, and a grid of whole rounding steps from it. What enters has its wall brought to the grid, so all
 * parts that hold it agree on where it is; ends and edges are brought to the grid inwards, so nothing is ever too long and a gap of less
 * than a step is left at a seat; depths are rounded down, so no web is ever thinner than meant. A thickness, and the width of a groove,
 * are never rounded.
 */
import type { Vec } from "../base/geometry.ts";
import { isSame, type Mm, SAME } from "../base/length.ts";
import { type Rounder, rounderOf } from "../base/step.ts";
import { standOf } from "../model/cases/pins.ts";
import { rowsOf } from "../model/cases/row.ts";
import { thicknessAxis } from "../model/contacts.ts";
import { fitRow } from "../model/derive.ts";
import type { Grid } from "../model/grid.ts";
import type { AssemblyModel, Joint, Model, Part, PinRow, Shoulder } from "../model/model.ts";
import { layStages } from "../model/stages.ts";
import type { LooseTenon } from "../project/frame-joints.ts";
import type { Project } from "../project/project.ts";

export function roundModel(model: Model, project: Project): Model {
  const round = rounderOf(project.step);
  const isFirst = ({ kind }: AssemblyModel): boolean => kind === "case" || kind === "base";
  const exact = new Map(model.assemblies.map((one) => [one.name, one]));
  const rows = rowsOf(model.assemblies.filter(isFirst)).map((row) => roundRow(row, round));
  const cases = settle(rows, exact);
  const printed = new Map(cases.map((one) => [one.name, one]));
  const stock = new Map(project.stock.map((one) => [one.id, one]));
  const grid = gridOf(round);
  return {
    // What follows is laid anew from what was printed, for it covers and fills what came to stand there; its joints are those of the exact one.
    assemblies: layStages(
      model.assemblies.filter(isFirst).map(({ name }) => printed.get(name)!),
      { project, stock, grid },
      (laid) => {
        const joints = exact.get(laid.name)!.joints.map((joint) => roundJoint(joint, 0, round));
        return fitRow([{ ...laid, joints }], grid)[0]!;
      },
    ),
  };
}

/** What stood on another stands on it as printed: where that came out lower, it comes down with it. */
function settle(rows: readonly AssemblyModel[][], exact: ReadonlyMap<string, AssemblyModel>): AssemblyModel[] {
  const exactOf = ({ name }: AssemblyModel): AssemblyModel => exact.get(name)!;
  const settled: AssemblyModel[] = [];
  for (const row of [...rows].sort((a, b) => exactOf(a[0]!).at[2] - exactOf(b[0]!).at[2])) {
    const under = settled.find((other) => row.some((one) => standsOn(exactOf(one), exactOf(other))));
    const sinks = under === undefined ? 0 : row[0]!.at[2] - (under.at[2] + under.size[2]);
    settled.push(...row.map((one): AssemblyModel => ({ ...one, at: [one.at[0], one.at[1], one.at[2] - sinks] })));
  }
  return settled;
}

/** Its underside on the other's upper faces. */
const standsOn = (one: AssemblyModel, other: AssemblyModel): boolean =>
  isSame(one.at[2], other.at[2] + other.size[2]) &&
  ([0, 1] as const).every((i) => one.at[i] < other.at[i] + other.size[i] && other.at[i] < one.at[i] + one.size[i]);

const gridOf = (round: Rounder): Grid => ({
  // Laid on its printed wall already, in its own case.
  wall: (part) => part.box[0][thicknessAxis(part)],
  start: round.up,
  end: round.down,
  atLeast: round.up,
  place: round.nearest,
});

/** Cases that share sides stand as far apart as the printed width of the one between says. */
function roundRow(row: readonly AssemblyModel[], round: Rounder): AssemblyModel[] {
  const sized = row.map((one): AssemblyModel => {
    const size: Vec = [round.down(one.size[0]), round.down(one.size[1]), round.down(one.size[2])];
    return {
      ...one,
      size,
      joints: one.joints.map((joint) => roundJoint(joint, one.size[1] - size[1], round)),
      pinRows: one.pinRows.map((pins) => roundPins(pins, round)),
      feet: one.feet && { ...one.feet, middles: roundMiddles(one.feet.middles, round) },
      thirds: one.thirds.map((third) => ({ ...third, depth: round.down(third.depth) })),
    };
  });
  const placed: AssemblyModel[] = [];
  for (const one of sized) placed.push({ ...one, at: placeBeside(placed, one, row, round) });
  const laid = placed.map((one, i): AssemblyModel => {
    const wallOf = (part: Part): Mm => printedWall(part, row[i]!, one, round);
    return { ...one, parts: one.parts.map((part) => roundPart(part, one, wallOf, round)) };
  });
  return fitRow(laid, gridOf(round));
}

/** A case that shares a side begins where that side's printed outer face lies; the first of a row stays where the job has it. */
function placeBeside(
  before: readonly AssemblyModel[],
  one: AssemblyModel,
  row: readonly AssemblyModel[],
  round: Rounder,
): Vec {
  const lender = before.find(({ name }) => name === one.design.shares?.left);
  if (lender === undefined) return one.at;
  const exact = row.find(({ name }) => name === lender.name)!;
  const off = (axis: 1 | 2): Mm => lender.at[axis] + round.nearest(one.at[axis] - exact.at[axis]);
  return [lender.at[0] + lender.size[0], off(1), off(2)];
}

function roundJoint(joint: Joint, lostDepth: Mm, round: Rounder): Joint {
  const { shoulders } = joint;
  const [first, second] = shoulders;
  const isStub = first !== undefined && second !== undefined;
  const shallower = isStub || first === undefined ? 0 : first.depth - round.down(first.depth);
  return {
    ...joint,
    depth: round.down(joint.depth),
    // A shoulder cut less deep leaves a thicker tongue.
    width: joint.width + shallower,
    shoulders: isStub
      ? stubRounded(first, second, round)
      : shoulders.map((shoulder) => ({ ...shoulder, depth: round.down(shoulder.depth) })),
    tenon: joint.tenon === null ? null : roundTenon(joint.tenon, round),
    stop: round.nearest(joint.stop),
    rearStop: round.down(Math.max(0, joint.rearStop - lostDepth)),
  };
}

/** As wide as its mortise, whose ends are marked out; its thickness is the bit's. */
const roundTenon = (tenon: LooseTenon, round: Rounder): LooseTenon => ({
  ...tenon,
  width: round.down(tenon.width),
  depth: round.down(tenon.depth),
  spare: round.up(tenon.spare),
  slack: 2 * round.nearest(tenon.slack / 2),
});

/** Between two shoulders the tongue keeps its thickness, as the groove does: the first is set out, the second cut until the tongue fits. */
function stubRounded(first: Shoulder, second: Shoulder, round: Rounder): Shoulder[] {
  const depth = round.nearest(first.depth);
  return [
    { ...first, depth },
    { ...second, depth: second.depth + first.depth - depth },
  ];
}

/** The first hole and the distance from the front are measured; the pitch is the jig's own, and stays. */
const roundPins = (pins: PinRow, round: Rounder): PinRow => ({
  ...pins,
  first: round.nearest(pins.first),
  at: round.nearest(pins.at),
  depth: round.down(pins.depth),
});

/** Set out from the same corner, whatever they are in. */
const roundMiddles = (middles: readonly (readonly [Mm, Mm])[], round: Rounder): [Mm, Mm][] =>
  middles.map(([a, b]) => [round.nearest(a), round.nearest(b)]);

/** A part on its printed wall; its ends and edges come to the grid when it is seated. */
function roundPart(part: Part, { parts }: AssemblyModel, wallOf: (part: Part) => Mm, round: Rounder): Part {
  const axis = thicknessAxis(part);
  const lo: [Mm, Mm, Mm] = [...part.box[0]];
  const hi: [Mm, Mm, Mm] = [...part.box[1]];
  lo[axis] = wallOf(part);
  hi[axis] = lo[axis] + (part.box[1][axis] - part.box[0][axis]);
  // Nothing holds a loose shelf off the back, so it keeps its distance from where that came to lie.
  const back = parts.find(({ role }) => role === "back");
  if (part.standsOn !== null && back !== undefined) hi[1] += Math.min(0, wallOf(back) - back.box[0][1]);
  const rearOf = (key: string): Mm => {
    const behind = parts.find((other) => other.key === key)!;
    return wallOf(behind) + (behind.box[1][1] - behind.box[0][1]);
  };
  return {
    ...part,
    box: [lo, hi],
    bores: part.bores.map((bore) => ({
      ...bore,
      depth: round.down(bore.depth),
      middles: roundMiddles(bore.middles, round),
    })),
    notches: part.notches.map((notch) => ({
      ...notch,
      depth: round.nearest(notch.depth),
      width: notch.against === null ? round.nearest(notch.width) : round.up(rearOf(notch.against)),
    })),
  };
}

/** Where a part's lower, left or front face comes to lie. Outer faces keep the case's outside size; all else goes to the nearest step. */
function printedWall(part: Part, exact: AssemblyModel, printed: AssemblyModel, round: Rounder): Mm {
  const axis = thicknessAxis(part);
  const lower = part.box[0][axis];
  const thickness = part.box[1][axis] - lower;
  const size = printed.size[axis];
  if (part.standsOn !== null) {
    const { row, hole } = part.standsOn;
    return standOf(printed.pinRows.find(({ name }) => name === row)!, hole);
  }
  if (part.role === "filler") {
    // It lies on the top panel, wherever that came to lie.
    const top = exact.parts.find(({ role }) => role === "top")!;
    return printedWall(top, exact, printed, round) + (top.box[1][2] - top.box[0][2]);
  }
  // Set down by a strip's own thickness: lower rather than higher, so that no strip stands out over the sides.
  if (part.role === "top" && exact.design.top.fillers !== null) return round.down(lower - (exact.size[2] - size));
  const meetsOutside = Math.abs(part.box[1][axis] - exact.size[axis]) < SAME;
  // A back never comes nearer to the rear than meant, so that a groove that stops short of a rear edge still clears it.
  if (!meetsOutside) return part.role === "back" ? round.down(lower) : round.nearest(lower);
  // Nothing holds these faces in a groove, so they may lie off the grid, flush with the outside.
  if ((part.role === "side" && !isHeld(exact)) || part.role === "plinth" || isApplied(part, exact))
    return size - thickness;
  return round.down(size - thickness);
}

/** Whether the sides enter a top panel over them or a bottom under them. */
const isHeld = ({ design }: AssemblyModel): boolean => design.top.fit === "over" || design.bottom.fit === "under";

const isApplied = (part: Part, { design }: AssemblyModel): boolean =>
  part.role === "back" && design.back.fit === "applied";
