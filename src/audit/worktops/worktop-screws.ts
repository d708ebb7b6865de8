/** The screws of a worktop, one by one: through wood, in a slot that lets them travel, into the worktop and not out of it; and its boards. */
import type { Box } from "../../base/geometry.ts";
import { isSame, type Mm } from "../../base/length.ts";
import type { DryfitSet, SetCheck, SetFeature, SetWorktop } from "../../set/schema.ts";
import { TOUCH } from "../solids/boxes.ts";
import type { Solid } from "../solids/solid.ts";
import { amount, failure, nameOf } from "../words.ts";
import { slotBox, type Top } from "./worktop-top.ts";

type Screw = SetWorktop["screws"][number];
type Slot = { solid: Solid; feature: SetFeature; box: Box };

/** Wood that stays over a screw's tip, that it holds at least, and round its slot: less shows, lets go or splits (common practice, no source). */
const COVER: Mm = 3;
const HOLD: Mm = 8;
const WOOD: Mm = 5;

export function checkScrews(set: DryfitSet, top: Top): SetCheck[] {
  const { told, solid } = top;
  const slots = top.below.flatMap(({ solid: one }) =>
    one.part.features
      .filter(({ kind, holds }) => kind === "slot" && (holds === told.mark || holds === null))
      .map((feature): Slot => ({ solid: one, feature, box: slotBox(set, one, feature.box) })),
  );
  const used = new Set<Slot>();
  const faults = told.screws.flatMap((screw) => faultsOf(set, top, screw, slots, used));
  const spare = slots.filter((slot) => !used.has(slot));
  const idle = spare.map((slot) =>
    failure(
      "worktop-slot",
      [slot.solid.part],
      `A slot of ${nameOf(slot.solid.part)} at ${amount(slot.feature.at + slot.feature.width / 2, set.job)} takes no screw of ${nameOf(solid.part)}. Change: leave it out, or tell its screw.`,
    ),
  );
  const few = told.over
    .filter((name) => told.screws.filter((screw) => screw.case === name).length < 2)
    .map((name) =>
      failure(
        "worktop-screw",
        [solid.part],
        `${nameOf(solid.part)} is held to ${name} by fewer than 2 screws. Change: screws in two places at least.`,
      ),
    );
  return [...faults, ...idle, ...few, ...checkFixedLine(set, top, slots)];
}

function faultsOf(set: DryfitSet, top: Top, screw: Screw, slots: readonly Slot[], used: Set<Slot>): SetCheck[] {
  const { job } = set;
  const { told, solid, box, below } = top;
  const [x, y] = [box[0][0] + screw.at[0], box[0][1] + screw.at[1]];
  const { diameter, length } = told.screw;
  const at = `at ${amount(screw.at[0], job)} from the left end and ${amount(screw.at[1], job)} from the front edge of ${nameOf(solid.part)}`;
  const say = (text: string, parts = [solid.part]): SetCheck => failure("worktop-screw", parts, text);
  const checks: SetCheck[] = [];
  if (screw.at.some((value, i) => value < WOOD || value > (i === 0 ? solid.part.length : solid.part.width) - WOOD))
    checks.push(say(`A screw ${at} misses it. Change: where it goes.`));
  // What stands in the screw's way, from the worktop downwards as far as one lies on another.
  const column = below
    .filter(({ box: [lo, hi] }) => lo[0] < x - TOUCH && hi[0] > x + TOUCH && lo[1] < y - TOUCH && hi[1] > y + TOUCH)
    .sort((a, b) => b.box[1][2] - a.box[1][2]);
  let plane = box[0][2];
  const met: Solid[] = [];
  for (const one of column) {
    if (Math.abs(one.box[1][2] - plane) > job.step + TOUCH) break;
    met.push(one.solid);
    plane = one.box[0][2];
  }
  const names = met.map(({ part }) => part.mark);
  if (names.join() !== screw.through.join()) {
    const goes = names.length === 0 ? "nothing" : met.map(({ part }) => nameOf(part)).join(" and ");
    checks.push(
      say(
        `A screw ${at} goes through ${goes}, and ${screw.through.length === 0 ? "nothing" : screw.through.join(" and ")} is stated. Change: where it goes.`,
        [solid.part, ...met.map(({ part }) => part)],
      ),
    );
    return checks;
  }
  const through = box[0][2] - plane;
  const held = length - through;
  const under = solid.part.thickness - held;
  if (under < COVER - TOUCH)
    checks.push(
      say(
        under < 0
          ? `A screw of ${amount(length, job)} ${at} comes out of its upper face by ${amount(-under, job)}. Change: a screw of ${amount(through + solid.part.thickness - COVER, job)} or less.`
          : `A screw of ${amount(length, job)} ${at} ends ${amount(under, job)} under its upper face. Change: a screw of ${amount(through + solid.part.thickness - COVER, job)} or less.`,
      ),
    );
  if (held < HOLD - TOUCH)
    checks.push(
      say(
        `A screw of ${amount(length, job)} ${at} holds ${amount(Math.max(0, held), job)} of it. Change: a screw of ${amount(through + HOLD, job)} or more.`,
      ),
    );
  for (const one of met) checks.push(...slotFaults(set, top, screw, { x, y, diameter, at }, one, slots, used));
  return checks;
}

type Spot = { x: Mm; y: Mm; diameter: Mm; at: string };

/** As wide as the screw, across the worktop's grain, and as long as it travels there either way. */
function slotFaults(
  { job }: DryfitSet,
  { told, solid, box, travel }: Top,
  screw: Screw,
  { x, y, diameter, at }: Spot,
  one: Solid,
  slots: readonly Slot[],
  used: Set<Slot>,
): SetCheck[] {
  const parts = [solid.part, one.part];
  const isThere = ({ box: [lo, hi] }: Slot): boolean =>
    lo[0] < x + TOUCH && hi[0] > x - TOUCH && lo[1] < y + TOUCH && hi[1] > y - TOUCH;
  const slot = slots.find((each) => each.solid === one && isThere(each));
  if (slot === undefined)
    return [failure("worktop-slot", parts, `A screw ${at} has no hole in ${nameOf(one.part)}. Change: a slot for it.`)];
  used.add(slot);
  const { feature } = slot;
  if (feature.box[0][2] > TOUCH || feature.box[1][2] < one.part.thickness - TOUCH)
    return [
      failure(
        "worktop-slot",
        parts,
        `The slot in ${nameOf(one.part)} for a screw ${at} is ${amount(feature.depth, job)} deep and does not go through. Change: cut it through ${amount(one.part.thickness, job)}.`,
      ),
    ];
  const [lo, hi] = slot.box;
  const [long, wide] = [hi[1] - lo[1], hi[0] - lo[0]];
  if (wide > diameter + TOUCH && wide > long + TOUCH)
    return [
      failure(
        "worktop-slot",
        parts,
        `The slot in ${nameOf(one.part)} for a screw ${at} runs along the grain of ${nameOf(solid.part)}, which moves across it. Change: turn it.`,
      ),
    ];
  const checks: SetCheck[] = [];
  if (wide < diameter - TOUCH || wide > diameter + job.step + TOUCH || Math.abs((lo[0] + hi[0]) / 2 - x) > TOUCH)
    checks.push(
      failure(
        "worktop-slot",
        parts,
        `The slot in ${nameOf(one.part)} for a screw ${at} is ${amount(wide, job)} wide, for one of ${amount(diameter, job)} in its middle. Change: its width, or where it lies.`,
      ),
    );
  // It moves away from its fixed line when it swells.
  const line = box[0][1] + told.line;
  const { out, in: back } = travel(Math.abs(y - line));
  const [toFront, toRear] = told.fixed === "front" ? [back, out] : [out, back];
  const free = [y - diameter / 2 - lo[1], hi[1] - y - diameter / 2] as const;
  const short = [toFront - free[0], toRear - free[1]];
  if (Math.max(...short) > TOUCH)
    checks.push(
      failure(
        "worktop-slot",
        parts,
        `The slot in ${nameOf(one.part)} for a screw ${at}, ${amount(Math.abs(y - line), job)} from the fixed line, leaves it ${amount(free[0], job)} to the front and ${amount(free[1], job)} to the back; the wood moves ${amount(toFront, job)} and ${amount(toRear, job)}. Change: a slot ${amount(diameter + toFront + toRear, job)} long.`,
      ),
    );
  if (Math.abs(free[0] - screw.front) > TOUCH || Math.abs(free[1] - screw.rear) > TOUCH)
    checks.push(
      failure(
        "worktop-slot",
        parts,
        `The slot in ${nameOf(one.part)} for a screw ${at} leaves it ${amount(free[0], job)} and ${amount(free[1], job)}; ${amount(screw.front, job)} and ${amount(screw.rear, job)} are stated. Change: one of the two.`,
      ),
    );
  const own = slotsWood(slot);
  if (own < WOOD - TOUCH)
    checks.push(
      failure(
        "worktop-slot",
        parts,
        `The slot in ${nameOf(one.part)} for a screw ${at} leaves ${amount(Math.max(0, own), job)} of wood at its side. Change: where it lies, or a wider part.`,
      ),
    );
  return checks;
}

/** Least wood between a slot and the ends and edges of its part. */
function slotsWood({ feature, solid }: Slot): Mm {
  const [lo, hi] = feature.box;
  return Math.min(lo[0], lo[1], solid.part.length - hi[0], solid.part.width - hi[1]);
}

/** Solid wood is held without play along one line, and that is where it is said to be. */
function checkFixedLine({ job }: DryfitSet, { told, solid, box, travel }: Top, slots: readonly Slot[]): SetCheck[] {
  const still = told.screws.filter(({ at, through }) =>
    slots.some(
      ({ solid: one, box: [lo, hi] }) =>
        through.includes(one.part.mark) &&
        hi[1] - lo[1] < told.screw.diameter + TOUCH &&
        lo[0] < box[0][0] + at[0] &&
        hi[0] > box[0][0] + at[0] &&
        lo[1] < box[0][1] + at[1] &&
        hi[1] > box[0][1] + at[1],
    ),
  );
  const lines = still
    .map(({ at }) => at[1])
    .sort((a, b) => a - b)
    .filter((line, i, all) => i === 0 || line - all[i - 1]! > TOUCH);
  const whole = travel(solid.part.width);
  const moves = whole.out + whole.in > TOUCH;
  if (lines.length === 0)
    return [
      failure(
        "worktop-fixed",
        [solid.part],
        `${nameOf(solid.part)} is held without play nowhere. Change: round holes along one line.`,
      ),
    ];
  const [first, last] = [lines[0]!, lines.at(-1)!];
  if (moves && last - first > job.step + TOUCH) {
    const all = travel(last - first);
    return [
      failure(
        "worktop-fixed",
        [solid.part],
        `${nameOf(solid.part)} is held without play along ${lines.length} lines, ${amount(last - first, job)} apart, and moves ${amount(all.out + all.in, job)} between them: it will split or bow. Change: slots along all but one.`,
      ),
    ];
  }
  if (!moves || lines.some((line) => Math.abs(line - told.line) < TOUCH)) return [];
  return [
    failure(
      "worktop-fixed",
      [solid.part],
      `${nameOf(solid.part)} is said to be fixed ${amount(told.line, job)} from its front edge, and is ${amount(first, job)} from it. Change: one of the two.`,
    ),
  ];
}

/** Boards side by side from edge to edge of the panel, wide enough as milled, and enough of it to trim. */
export function checkGluedBoards(set: DryfitSet, { told, solid }: Top): SetCheck[] {
  const { glued } = told;
  const { job, pieces } = set;
  const { part } = solid;
  if (glued === null) return [];
  const fault = (text: string): SetCheck => failure("worktop-boards", [part], text);
  const checks: SetCheck[] = [];
  const sum = glued.boards.reduce((all, { width }) => all + width, 0);
  if (!isSame(sum, glued.width))
    checks.push(
      fault(
        `The boards of ${nameOf(part)} are ${amount(sum, job)} wide together, and ${amount(glued.width, job)} is stated. Change: their widths.`,
      ),
    );
  const trimmed = [
    ["long", glued.length - 2 * glued.trim.ends, part.length],
    ["wide", glued.width - 2 * glued.trim.edges, part.width],
  ] as const;
  for (const [what, left, wanted] of trimmed) {
    if (isSame(left, wanted)) continue;
    checks.push(
      fault(
        `${nameOf(part)} is ${amount(left, job)} ${what} once it is trimmed, not ${amount(wanted, job)}. Change: what is trimmed off.`,
      ),
    );
  }
  let from = -glued.trim.edges;
  for (const board of glued.boards) {
    if (Math.abs(board.from - from) > TOUCH)
      checks.push(
        fault(
          `Board ${board.piece} of ${nameOf(part)} begins ${amount(board.from - from, job)} off the one before it. Change: where it lies.`,
        ),
      );
    from += board.width;
    const piece = pieces.find(({ id }) => id === board.piece);
    if (piece === undefined || piece.kind !== "board" || piece.width < board.width || piece.length < glued.length)
      checks.push(
        fault(
          `No piece is cut for board ${board.piece} of ${nameOf(part)}, ${amount(glued.length, job)} x ${amount(board.width, job)}. Change: a board at least so large.`,
        ),
      );
  }
  return checks;
}
