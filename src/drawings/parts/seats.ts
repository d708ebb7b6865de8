/** How far a part goes into those that receive it, end by end, and what its seats leave open. */
import {
  asPrinted,
  closingGap,
  closingSum,
  isSame,
  isToldExactly,
  type Mm,
  SAME,
  type Unit,
} from "../../base/length.ts";
import { listInWords } from "../../base/words.ts";
import { faceWords, isHigh } from "../../set/facing.ts";
import type { DryfitSet, SetJoint, SetPart } from "../../set/schema.ts";
import { type StandingBack, standingBack } from "../../set/standing-back.ts";
import { byMark, partOf } from "../../set/words.ts";
import { type Atom, figure, TEXT, word, words } from "../draughting/cell.ts";

/** Ends that go equally deep and leave the same gap. */
type Seat = { depth: Mm; gap: Mm; isSlip: boolean; ends: { end: string; into: string[] }[] };

const TOLD: Mm = 1e-4; // the set's lengths have six places

const isSeated = ({ kind }: SetJoint): boolean => kind === "housed" || kind === "tongue";

/** With what the cut list's sum has in the groove, a last place more where that closes it, the gap makes up the depth. */
function printedGap({ sums }: SetPart, { enteringEnd, depth, gap: [, gap] }: SetJoint, unit: Unit): Mm {
  if (gap <= SAME) return gap;
  const sum = sums.find(({ axis }) => axis === enteringEnd[0]);
  const end = isHigh(enteringEnd) ? 1 : 0;
  const isSummed = sum !== undefined && Math.abs(sum.joints[end] - (depth - gap)) < TOLD;
  if (isSummed) return closingGap(gap, closingSum(sum.between, sum.joints, sum.total, unit)[end + 1]!, depth, unit);
  // A half of the last place would go up in both.
  return isToldExactly(depth, unit) ? closingGap(gap, asPrinted(depth - gap, unit), depth, unit) : gap;
}

function seatsOf(set: DryfitSet, part: SetPart): Seat[] {
  const { unit } = set.job;
  const seats: Seat[] = [];
  for (const joint of set.joints) {
    if (joint.entering !== part.mark || !isSeated(joint)) continue;
    const end = faceWords(part, joint.enteringEnd);
    const isSlip = joint.fit === "slip";
    const gap = printedGap(part, joint, unit);
    const known = seats.find((one) => isSame(one.depth, joint.depth) && isSame(one.gap, gap) && one.isSlip === isSlip);
    const seat = known ?? { depth: joint.depth, gap, isSlip, ends: [] };
    if (known === undefined) seats.push(seat);
    const same = seat.ends.find((one) => one.end === end);
    if (same === undefined) seat.ends.push({ end, into: [joint.receiving] });
    else same.into.push(joint.receiving);
  }
  return seats;
}

/** "left end into 9 and right end into 11, 9 deep; gap 0.4 from rounding" */
function seatAtoms({ depth, gap, isSlip, ends }: Seat, unit: Unit, isLast: boolean): Atom[] {
  const where = listInWords(ends.map(({ end, into }) => `${end} into ${listInWords([...into].sort(byMark))}`));
  const stop = isLast ? "" : ";";
  if (gap <= SAME) return [...words(`${where},`), figure(depth, unit), ...words(`deep, no gap${stop}`)];
  return [
    ...words(`${where},`),
    figure(depth, unit),
    ...words("deep, gap"),
    figure(gap, unit),
    ...words(`${isSlip ? "to slip" : "from rounding"}${stop}`),
  ];
}

const keyOf = (seats: readonly Seat[]): string =>
  JSON.stringify(seats.map(({ depth, gap, ends }) => [depth.toFixed(4), gap.toFixed(4), ends]));

/** A line for the parts of a drawing that are received alike; those received otherwise have lines of their own. */
export function seatLines(set: DryfitSet, marks: readonly string[]): Atom[][] {
  const heaps: { seats: Seat[]; marks: string[] }[] = [];
  for (const mark of marks) {
    const seats = seatsOf(set, partOf(set, mark));
    if (seats.length === 0) continue;
    const known = heaps.find((heap) => keyOf(heap.seats) === keyOf(seats));
    if (known === undefined) heaps.push({ seats, marks: [mark] });
    else known.marks.push(mark);
  }
  return heaps.map(({ seats, marks: own }) => [
    word(heaps.length === 1 ? "Goes in:" : `${listInWords(own)} ${own.length === 1 ? "goes" : "go"} in:`, TEXT, "bold"),
    ...seats.flatMap((seat, i) => seatAtoms(seat, set.job.unit, i === seats.length - 1)),
  ]);
}

/** "Stands back: its front edge 192.3 behind that of 1": nothing else on paper says where it stands from front to back. */
export function standingBackLines(set: DryfitSet, marks: readonly string[]): Atom[][] {
  const heaps: { back: StandingBack; marks: string[] }[] = [];
  for (const mark of marks) {
    const back = standingBack(set, partOf(set, mark));
    if (back === null) continue;
    const known = heaps.find((heap) => isSame(heap.back.by, back.by) && `${heap.back.behind}` === `${back.behind}`);
    if (known === undefined) heaps.push({ back, marks: [mark] });
    else known.marks.push(mark);
  }
  return heaps.map(({ back, marks: own }) => [
    word(
      own.length === marks.length
        ? "Stands back:"
        : `${listInWords(own)} ${own.length === 1 ? "stands" : "stand"} back:`,
      TEXT,
      "bold",
    ),
    ...words("its front edge"),
    figure(back.by, set.job.unit),
    ...words(`behind ${back.behind.length === 1 ? "that" : "those"} of ${listInWords(back.behind)}`),
  ]);
}
