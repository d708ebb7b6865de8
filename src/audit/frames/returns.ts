/** Side returns: what takes a face frame round an end of its case closes with the outer stile and lies on the side, on all of its length. */
import type { AxisIndex, Box, Vec } from "../../base/geometry.ts";
import type { Mm } from "../../base/length.ts";
import type { DryfitSet, SetCheck, SetPart, SetReturn } from "../../set/schema.ts";
import { TOUCH } from "../solids/boxes.ts";
import { between, movedSlant, type Slant } from "../solids/slants.ts";
import { roomBox, type Solid } from "../solids/solid.ts";
import { amount, failure, failureOf, nameOf } from "../words.ts";

type Piece = { part: SetPart; box: Box; slants: Slant[] };

export function checkReturns(set: DryfitSet, solids: readonly Solid[]): SetCheck[] {
  const inRoom = (mark: string | null): Piece | null => {
    const solid = solids.find(({ part }) => part.mark === mark);
    if (solid === undefined) return null;
    const move = (box: Box): Box => roomBox(solid.assembly, set.assemblies, box);
    const slants = solid.slants.map((slant) => movedSlant(slant, (p: Vec) => move([p, p])[0]));
    return { part: solid.part, box: move(solid.bounds), slants };
  };
  return [...set.returns.flatMap((told) => checkReturn(set, told, inRoom)), ...checkMates(set, solids)];
}

/** A mitre is for another one: every part that has one is told of among the returns. */
function checkMates({ returns }: DryfitSet, solids: readonly Solid[]): SetCheck[] {
  const told = returns.flatMap(({ fit, mark, stile }) => (fit === "mitred" ? [mark, stile] : []));
  return solids
    .filter(({ part }) => part.features.some(({ kind }) => kind === "mitre") && !told.includes(part.mark))
    .map(({ part }) =>
      failure(
        "return",
        [part],
        `${nameOf(part)} is mitred, and nothing is mitred with it. Change: leave its edge square.`,
      ),
    );
}

function checkReturn(set: DryfitSet, told: SetReturn, inRoom: (mark: string | null) => Piece | null): SetCheck[] {
  const { job } = set;
  const [upright, stile, against] = [told.mark, told.stile, told.against].map(inRoom);
  if (!upright || !stile || !against)
    return [
      failureOf("return", [told.mark], `The ${told.side} return of ${told.case} lacks a part. Change: what it names.`),
    ];
  const checks: SetCheck[] = [];
  const out = told.side === "left" ? -1 : 1;
  const reach = ({ box }: Piece, axis: AxisIndex, sign: number): number => box[sign > 0 ? 1 : 0][axis];
  /** `gap`: below zero where there is wood in wood, which is told as an overlap; `most`: what rounding may leave. */
  const close = (other: Piece, one: Piece, gap: Mm, where: string): void => {
    if (gap >= -TOUCH && gap <= job.step + TOUCH) return;
    checks.push(
      failure(
        "return",
        [one.part, other.part],
        `${nameOf(one.part)} ${gap < 0 ? "reaches" : "stands off"} ${nameOf(other.part)} ${where} by ${amount(Math.abs(gap), job)}, and rounding opens at most ${amount(job.step, job)}. Change: its size, or where it stands, by as much.`,
      ),
    );
  };
  const onSide = (piece: Piece): void =>
    close(against, piece, (reach(piece, 0, -out) - reach(against, 0, out)) * out, "at the side");
  onSide(upright);
  for (const sign of [-1, 1])
    close(
      stile,
      upright,
      Math.abs(reach(stile, 2, sign) - reach(upright, 2, sign)),
      `at the ${sign > 0 ? "upper" : "lower"} end`,
    );
  const proud = (reach(stile, 0, out) - reach(upright, 0, out)) * out;
  if (Math.abs(proud - told.proud) > TOUCH || proud < -TOUCH || proud > job.step + TOUCH)
    checks.push(
      failure(
        "return",
        [upright.part, stile.part],
        `The outer face of ${nameOf(upright.part)} lies ${amount(Math.abs(proud), job)} ${proud < 0 ? "outside" : "inside"} the edge of ${nameOf(stile.part)}, told as ${amount(told.proud, job)}; rounding leaves at most ${amount(job.step, job)} to be planed off. Change: its thickness, or the width of the frame.`,
      ),
    );
  if (told.fit === "mitred") checks.push(...checkMitre(set, told, upright, stile));
  else close(stile, upright, reach(upright, 1, -1) - reach(stile, 1, 1), "behind it");
  const strip = inRoom(told.strip);
  if (told.strip !== null && strip === null)
    checks.push(
      failureOf(
        "return",
        [told.mark],
        `The ${told.side} return of ${told.case} lacks its strip. Change: what it names.`,
      ),
    );
  if (strip) {
    onSide(strip);
    close(upright, strip, reach(strip, 1, -1) - reach(upright, 1, 1), "behind it");
    close(upright, strip, Math.abs(reach(strip, 2, -1) - reach(upright, 2, -1)), "at the lower end");
    close(upright, strip, Math.abs(reach(strip, 0, out) - reach(upright, 0, out)), "at the outer face");
    close(against, strip, Math.abs(reach(against, 1, 1) - reach(strip, 1, 1)), "at the rear end");
  }
  return checks;
}

/** Both at 45 degrees, their planes against each other, their points at the corner of the frame. */
function checkMitre({ job }: DryfitSet, told: SetReturn, upright: Piece, stile: Piece): SetCheck[] {
  const fault = (text: string): SetCheck[] => [failure("return", [upright.part, stile.part], text)];
  const [a, b] = [upright.slants[0], stile.slants[0]];
  if (upright.slants.length !== 1 || stile.slants.length !== 1 || a === undefined || b === undefined)
    return fault(
      `${nameOf(upright.part)} and ${nameOf(stile.part)} are said to be mitred, and not both have one mitre. Change: saw both at 45 degrees.`,
    );
  const gap = between(b, a);
  if (gap === null)
    return fault(
      `The mitre of ${nameOf(upright.part)} does not look at that of ${nameOf(stile.part)}. Change: the edge that is sawn, or the face that its point is on.`,
    );
  if (Math.abs(gap) <= TOUCH) return [];
  return fault(
    `The mitre of ${nameOf(upright.part)} and that of ${nameOf(stile.part)} ${gap < 0 ? "overlap" : "are open"} by ${amount(Math.abs(gap), job)}, square to the joint, where ${told.mating} is marked. Change: where the return stands, by ${amount(Math.abs(gap) * Math.SQRT2, job)}.`,
  );
}
