/** Worktops as the printed model has them: their boards, and each screw from the left end and the front edge. */
import type { Mm, Unit } from "../base/length.ts";
import { MM_PER_INCH } from "../base/length.ts";
import type { Model, WorktopModel } from "../model/model.ts";
import { travelAt } from "../model/worktops/worktop-screws.ts";
import type { Moisture } from "../project/project.ts";
import type { SetWorktop } from "../set/schema.ts";
import { type Marks, markIn } from "./parts.ts";
import { pieceId } from "./pieces.ts";

/** A clamp about so often, above and below by turns, the outer ones near the ends: common practice, no source. */
const CLAMPS: Record<Unit, Mm> = { mm: 250, in: 10 * MM_PER_INCH };
const FEWEST_CLAMPS = 3;

export const planWorktops = (
  { assemblies }: Model,
  marks: Marks,
  { moisture, unit }: { moisture: Moisture; unit: Unit },
): SetWorktop[] =>
  assemblies.flatMap(({ name, size, worktop }): SetWorktop[] => {
    if (worktop === null) return [];
    const { part, over, overhang, edge, fixed, line, coefficient, screw, screws } = worktop;
    const mark = markIn(marks, part);
    const moves = travelAt(size[1], coefficient, moisture);
    return [
      {
        assembly: name,
        mark,
        over: [...over],
        overhang: { ...overhang },
        edge: edge === null ? null : { ...edge, edges: [...edge.edges] },
        glued: gluedOf(worktop, mark, size, unit),
        fixed,
        line,
        coefficient,
        moves: { wider: moves.out, narrower: moves.in },
        screw: { ...screw },
        screws: screws.map(({ case: one, at, through, front, rear }) => ({
          case: one,
          at: [...at],
          through: through.map((key) => markIn(marks, key)),
          front,
          rear,
        })),
      },
    ];
  });

/** Flat-sawn boards with the heart up and down by turns, so that what cups does not cup all one way. */
function gluedOf(
  { glued, sawn }: WorktopModel,
  mark: string,
  size: readonly [Mm, Mm, Mm],
  unit: Unit,
): SetWorktop["glued"] {
  if (glued === null) return null;
  const { length, width, boards } = glued;
  const trim = { ends: (length - size[0]) / 2, edges: (width - size[1]) / 2 };
  let from = -trim.edges;
  return {
    length,
    width,
    sawn,
    boards: boards.map((each, i) => {
      const board = {
        piece: pieceId(mark, i),
        width: each,
        heart: sawn === "quarter" ? null : i % 2 === 0 ? ("down" as const) : ("up" as const),
        from,
      };
      from += each;
      return board;
    }),
    trim,
    clamps: Math.max(FEWEST_CLAMPS, Math.ceil(length / CLAMPS[unit]) + 1),
  };
}
