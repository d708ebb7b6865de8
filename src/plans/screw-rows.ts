/** Where the screws of a face joint go that the joint itself does not place: along its middle, in sound wood of both parts, clear of all that is cut or stands there. */
import { AXES, type AxisIndex, axesOf, axisOf, type Box, boxToOuter, type Place, signOf } from "../base/geometry.ts";
import { MM_PER_INCH, type Mm, SAME, type Unit } from "../base/length.ts";
import { FASTENER } from "../project/defaults.ts";
import { axisOfFace, LOCAL_AXES, type LocalAxis } from "../set/facing.ts";
import type { Face, SetJoint, SetPart } from "../set/schema.ts";

/** Along the row, between a screw's middle and anything cut there or a part that stands there; beside the row room for its head (common practice, no source). */
const CLEAR: Mm = 12;
const HEAD: Mm = 4.5;
/** Two screws stand no closer (common practice, no source). */
const APART: Mm = 40;
/** Marked with a tape from the end: no finer than is worth while. */
const STEP: Record<Unit, Mm> = { mm: 1, in: MM_PER_INCH / 16 };
/** Half of a screw, which is all that need go in beside another part that lies in one plane with it: the head may touch that (common practice, no source). */
const SHANK: Mm = 2;
/** Where the middle of a face is taken, a quarter in from either edge. */
const ACROSS = [1 / 2, 1 / 4, 3 / 4];

/** `from`: the end of the part that is drilled through, which `positions` are measured from; `in`: from the edge beside it to the row. */
export type ScrewRow = { through: SetPart; from: Face; positions: Mm[]; edge: Face; in: Mm };

const boxOf = (part: SetPart): Box =>
  boxToOuter(part.place as Place, [
    [0, 0, 0],
    [part.length, part.width, part.thickness],
  ]);

const featuresOf = (part: SetPart): Box[] =>
  part.features.map(({ box }) => boxToOuter(part.place as Place, box as Box));

/** The part's own axis that lies along an axis of its assembly. */
const ownAxis = ({ place }: SetPart, axis: AxisIndex): LocalAxis =>
  LOCAL_AXES[axesOf(place as Place).findIndex((one) => axisOf(one) === axis)]!;

const startOf = (part: SetPart, axis: AxisIndex): Face => {
  const own = ownAxis(part, axis);
  const signed = axesOf(part.place as Place)[LOCAL_AXES.indexOf(own)]!;
  return `${own}${signOf(signed) === 1 ? 0 : 1}`;
};

type Line = { along: AxisIndex; across: AxisIndex; deep: AxisIndex; at: Mm };

/** Where along a line of screws something is in their way, between two depths. */
const taken = (
  { along, across, deep, at }: Line,
  [from, to]: readonly [Mm, Mm],
  solids: readonly Box[],
  half = HEAD,
): [Mm, Mm][] =>
  solids
    .filter(
      ([low, high]) =>
        low[across] < at + half - SAME &&
        high[across] > at - half + SAME &&
        low[deep] < to - SAME &&
        high[deep] > from + SAME,
    )
    .map(([low, high]) => [low[along] - CLEAR, high[along] + CLEAR]);

/** The nearest to what is wanted that is free; null where there is none between the two ends. */
function freeNear(
  wanted: Mm,
  [low, high]: readonly [Mm, Mm],
  blocked: readonly [Mm, Mm][],
  { origin, step }: { origin: Mm; step: Mm },
): Mm | null {
  const isFree = (at: Mm): boolean =>
    at > low - SAME && at < high + SAME && blocked.every(([from, to]) => at < from + SAME || at > to - SAME);
  const onStep = (at: Mm, round: (n: number) => number): Mm => origin + round((at - origin) / step) * step;
  const tried = [
    onStep(wanted, Math.round),
    ...blocked.flatMap(([from, to]) => [
      onStep(from, (n) => Math.floor(n + SAME)),
      onStep(to, (n) => Math.ceil(n - SAME)),
    ]),
  ];
  return tried.filter(isFree).sort((a, b) => Math.abs(a - wanted) - Math.abs(b - wanted) || a - b)[0] ?? null;
}

/**
 * The outer ones as far in as in a butt joint, the others evenly between, no two farther apart; one that would stand in a groove, a notch, a
 * hole, or before the end of another part goes to the nearest place beside it. Empty where there is no such place at all. Null for parts of
 * two assemblies, which the joint does not place beside each other. `others`: the parts of the assembly.
 */
export function screwRow(
  joint: SetJoint,
  { through, into, length }: { through: SetPart; into: SetPart; length: Mm },
  others: readonly SetPart[],
  unit: Unit,
): ScrewRow | null {
  if (through.place === null || into.place === null || through.assembly !== into.assembly) return null;
  const [a, b] = [boxOf(through), boxOf(into)];
  const deep = axisOf(
    through.place[axisOfFace(joint.receiving === through.mark ? joint.receivingFace : joint.enteringEnd)],
  );
  const [one, two] = AXES.filter((axis) => axis !== deep) as [AxisIndex, AxisIndex];
  const low = (axis: AxisIndex): Mm => Math.max(a[0][axis], b[0][axis]);
  const high = (axis: AxisIndex): Mm => Math.min(a[1][axis], b[1][axis]);
  const [along, across] = high(one) - low(one) >= high(two) - low(two) ? [one, two] : [two, one];
  const run = high(along) - low(along);
  const inset = Math.min(FASTENER.inset, run / 4);
  const spaces = run < FASTENER.two ? 0 : Math.max(1, Math.ceil((run - 2 * inset) / FASTENER.farthest - SAME));
  const first = spaces === 0 ? low(along) + run / 2 : low(along) + inset;
  const each = spaces === 0 ? 0 : (run - 2 * inset) / spaces;
  const wanted = Array.from({ length: spaces + 1 }, (_, i) => first + i * each);
  // From the head to the point; and just before the head, where a part would leave no room for it.
  const isUp = b[0][deep] + b[1][deep] > a[0][deep] + a[1][deep];
  const inward = (from: Mm, to: Mm): [Mm, Mm] => {
    const [head, way] = isUp ? [a[0][deep], 1] : [a[1][deep], -1];
    const ends = [head + way * from, head + way * to];
    return [Math.min(...ends), Math.max(...ends)];
  };
  const thick = a[1][deep] - a[0][deep];
  const rest = others.filter((part) => part !== through && part !== into && part.place !== null).map(boxOf);
  const isFlat = ownAxis(into, deep) === "t";
  const inTheWay = (line: Line): [Mm, Mm][] => [
    ...taken(line, inward(0, thick), featuresOf(through)),
    // Rounding may leave a step of air before it.
    ...taken(line, inward(thick + 1, length), featuresOf(into)),
    ...taken(line, inward(-1, length), rest, isFlat ? HEAD : SHANK),
  ];
  const size = high(across) - low(across);
  for (const share of isFlat ? ACROSS : [1 / 2]) {
    const middle = low(across) + size * share;
    // On a face a line is drawn with a tape; in an edge the middle is the middle.
    const at = isFlat ? a[0][across] + Math.round((middle - a[0][across]) / STEP[unit]) * STEP[unit] : middle;
    const blocked = inTheWay({ along, across, deep, at });
    const positions: Mm[] = [];
    for (const place of wanted) {
      const found = freeNear(place, [low(along) + inset / 2, high(along) - inset / 2], blocked, {
        origin: a[0][along],
        step: STEP[unit],
      });
      if (found !== null && positions.every((one) => Math.abs(one - found) > APART - SAME)) positions.push(found);
    }
    if (positions.length < Math.min(2, wanted.length)) continue;
    return {
      through,
      from: startOf(through, along),
      positions: positions.sort((x, y) => x - y).map((place) => place - a[0][along]),
      edge: startOf(through, across),
      in: at - a[0][across],
    };
  }
  return { through, from: startOf(through, along), positions: [], edge: startOf(through, across), in: 0 };
}
