/**
 * The rounding stage: from the exact model to the printed one. Nothing after it rounds.
 *
 * Every axis of a case has one datum, 0, and a grid of whole rounding steps from it. What enters has its wall brought to the grid, so all
 * parts that hold it agree on where it is; ends and edges are brought to the grid inwards, so nothing is ever too long and a gap of less
 * than a step is left at a seat; depths are rounded down, so no web is ever thinner than meant. A thickness, and the width of a groove,
 * are never rounded.
 */
import type { Vec } from "../base/geometry.ts";
import { type Mm, SAME } from "../base/length.ts";
import { type Rounder, rounderOf } from "../base/step.ts";
import { thicknessAxis } from "../model/contacts.ts";
import { cut } from "../model/cut.ts";
import type { CaseModel, Joint, Model, Part } from "../model/model.ts";
import { type Grid, seat } from "../model/seat.ts";
import type { Project } from "../project/project.ts";

export function roundModel(model: Model, project: Project): Model {
  const round = rounderOf(project.step);
  return { cases: model.cases.map((one) => roundCase(one, round)) };
}

function roundCase(exact: CaseModel, round: Rounder): CaseModel {
  const size: Vec = [round.down(exact.size[0]), round.down(exact.size[1]), round.down(exact.size[2])];
  const joints = exact.joints.map(
    (joint): Joint => ({
      ...joint,
      depth: round.down(joint.depth),
      stop: round.nearest(joint.stop),
      rearStop: round.down(Math.max(0, joint.rearStop - (exact.size[1] - size[1]))),
    }),
  );
  const parts = exact.parts.map(
    (part): Part => ({
      ...part,
      notches: part.notches.map((notch) => ({
        ...notch,
        depth: round.nearest(notch.depth),
        width: round.nearest(notch.width),
      })),
    }),
  );
  const grid: Grid = {
    wall: (part) => printedWall(part, exact, size, round),
    start: round.up,
    end: round.down,
    atLeast: round.up,
  };
  return {
    ...exact,
    size,
    joints,
    parts: cut(seat(parts, joints, grid), joints, grid),
    thirds: exact.thirds.map((third) => ({ ...third, depth: round.down(third.depth) })),
  };
}

/** Where a part's lower, left or front face comes to lie. Outer faces keep the case's outside size; all else goes to the nearest step. */
function printedWall(part: Part, exact: CaseModel, size: Vec, round: Rounder): Mm {
  const axis = thicknessAxis(part);
  const lower = part.box[0][axis];
  const thickness = part.box[1][axis] - lower;
  const meetsOutside = Math.abs(part.box[1][axis] - exact.size[axis]) < SAME;
  // A back never comes nearer to the rear than meant, so that a groove that stops short of a rear edge still clears it.
  if (!meetsOutside) return part.role === "back" ? round.down(lower) : round.nearest(lower);
  // Nothing holds these faces in a groove, so they may lie off the grid, flush with the outside.
  if (part.role === "side" || isApplied(part, exact)) return size[axis] - thickness;
  return round.down(size[axis] - thickness);
}

const isApplied = (part: Part, { design }: CaseModel): boolean => part.role === "back" && design.back.fit === "applied";
