/** Clamps for a glue-up: how many at once, how far they open, and the struts that stand against them where no part does. */
import { AXES, type AxisIndex, axisOf, type Box, boxToOuter, type Place } from "../../base/geometry.ts";
import { formatLengthWithUnit, MM_PER_INCH, type Mm, SAME, type Unit } from "../../base/length.ts";
import { listInWords } from "../../base/words.ts";
import { axisOfFace } from "../../set/facing.ts";
import type { SetAssembly, SetJoint, SetOrder, SetPart, SetStep } from "../../set/schema.ts";
import { screwsOf } from "../screws.ts";
import { beyondReach, CAUL, caulsInWords, caulsReady, placesOn, type Row, reachedOn, within } from "./cauls.ts";
import { paced } from "./paced.ts";
import { type ByMark, byMarkIn, namesOf, type StepsInput } from "./step.ts";

/** So thick a block lies at both jaws (common practice, no source). */
const BLOCK: Mm = 25;

/** `beyond`: what no clamp reaches. */
export type Clamping = { clamps: SetStep["clamps"]; beyond: string[]; struts: string[] };

/** A row of joints that one row of clamps presses: parts in line with each other along `axis`, seen along it as large as `rect`; from jaw to jaw `from` to `to`. */
type Line = { axis: AxisIndex; parts: { part: SetPart; box: Box }[]; rect: Box; from: Mm; to: Mm };

/** Null where nothing is clamped: no joint of it is glued, or screws pull them all together. */
export function clampingOf(order: SetOrder, assembly: SetAssembly, input: StepsInput, byMark: ByMark): Clamping | null {
  const glued = input.joints.filter(
    ({ entering, fit, kind, fixings, fasteners }) =>
      byMark.get(entering)?.assembly === assembly.name &&
      fit === "seated" &&
      (kind === "housed" || kind === "tongue" || kind === "butt" || kind === "lap" || kind === "dovetail") &&
      fixings.startsWith("glue") &&
      fasteners?.kind !== "screw",
  );
  const strips = input.joints.filter(
    (joint) =>
      byMark.get(joint.entering)?.assembly === assembly.name &&
      joint.kind === "face" &&
      joint.fixings.startsWith("glue") &&
      screwsOf(joint, byMark, input.unit) === null,
  );
  const weights = strips.flatMap(({ entering }) => weightsInWords(byMark.get(entering)!, assembly, input));
  if (glued.length === 0) return weights.length === 0 ? null : { clamps: null, beyond: weights, struts: [] };
  const groupOf = (mark: string): number =>
    order.moves.find(({ bring }) => bring.some(({ parts }) => parts.includes(mark)))?.group ?? 0;
  // A joint is closed when the later of its two parts comes.
  const groups = new Map<number, SetJoint[]>();
  for (const joint of glued) {
    const group = Math.max(groupOf(joint.entering), groupOf(joint.receiving));
    groups.set(group, [...(groups.get(group) ?? []), joint]);
  }
  const numbers = [...groups.keys()].sort((a, b) => a - b);
  const all = numbers.map((n) => linesOf(groups.get(n)!, byMark));
  const reached = all.map((lines) => lines.map((line) => reachedOn(rowOf(line), assembly, input.throat)));
  const cauls = reached.map((lines) => lines.flatMap((one) => one.cauls ?? []));
  // With struts in line a clamp goes over everything.
  const lines = all.flat().map((line) => ({ line, struts: strutsFor(line, assembly, input) }));
  const spans = lines.map(({ line: { axis, from, to }, struts }) =>
    struts === null ? to - from : assembly.size[axis],
  );
  return {
    clamps: {
      count: Math.max(...reached.map((one) => one.reduce((sum, { clamps }) => sum + clamps, 0))),
      opens: jawsFor(Math.max(...spans), input.unit),
      cauls: caulsReady(cauls),
    },
    beyond: [...caulsInWords(new Map(numbers.map((n, i) => [n, cauls[i]!])), input, byMark), ...weights],
    struts: strutsInWords(
      lines.flatMap(({ struts }) => struts ?? []),
      byMark,
    ),
  };
}

/** A strip too thin for screws, flat on a panel: clamps from the edges as far as they reach, weights on the rest. */
function weightsInWords(
  part: SetPart,
  assembly: SetAssembly,
  { throat, unit }: Pick<StepsInput, "throat" | "unit">,
): string[] {
  const row: Row = { axis: axisOf(part.place!.t), rect: blankOf(part), marks: [part.mark] };
  const near = within(row, assembly, throat);
  const far = placesOn(row).length - near;
  if (far === 0) return [];
  return [
    `No screw holds ${part.name} ${part.mark}, and no clamp with a throat of ${formatLengthWithUnit(throat, unit)} reaches all of it: ${far} ${far === 1 ? "weight" : "weights"} along it${near === 0 ? "" : `, beside ${near} ${near === 1 ? "clamp" : "clamps"} from the edges`}, on a batten as long as the strip.`,
  ];
}

const rowOf = ({ axis, parts, rect }: Line): Row => ({
  axis,
  rect,
  marks: parts.map(({ part: { mark } }) => mark),
});

/**
 * A frame glued on to what it goes before, from its face to the rear edges there: each member has its row of clamps, and where none reaches, a
 * caul lies from outer stile to outer stile over it, at this height of the frame.
 */
export function frameClamping(
  { size }: SetAssembly,
  behind: SetAssembly,
  members: readonly SetPart[],
  { throat, unit }: Pick<StepsInput, "throat" | "unit">,
): Pick<Clamping, "clamps" | "beyond"> {
  const rows = members.map((part): Row => ({ axis: 1, rect: blankOf(part), marks: [part.mark] }));
  const far = rows.flatMap((row) => beyondReach(row, { size }, throat).map((height) => ({ height, row })));
  const heights = [...new Set(far.map(({ height }) => height))].sort((a, b) => a - b);
  const show = (length: Mm): string => formatLengthWithUnit(length, unit);
  const named = [...new Set(far.flatMap(({ row }) => row.marks))];
  return {
    clamps: {
      // At both ends of each caul one.
      count: rows.reduce((sum, row) => sum + within(row, { size }, throat), 0) + 2 * heights.length,
      opens: jawsFor(size[1] + behind.size[1], unit),
      cauls: heights.length === 0 ? [] : [{ count: heights.length, length: size[0] }],
    },
    beyond:
      heights.length === 0
        ? []
        : [
            `No clamp with a throat of ${show(throat)} reaches all of ${namesOf(named, byMarkIn(members))}: lay a caul across the frame, from outer stile to outer stile, ${listInWords(heights.map((height) => show(paced(height, unit))))} up from its lower end. A caul is ${CAUL}.`,
          ],
  };
}

/** Clamps are told apart by whole inches or centimetres. */
const WHOLE: Record<Unit, Mm> = { in: MM_PER_INCH, mm: 10 };

/** What a clamp opens over so much wood and a block at both jaws. */
export const jawsFor = (wood: Mm, unit: Unit): Mm => Math.ceil((wood + 2 * BLOCK) / WHOLE[unit] - SAME) * WHOLE[unit];

function linesOf(joints: readonly SetJoint[], byMark: ByMark): Line[] {
  const lines: Line[] = [];
  for (const { entering, receiving, enteringEnd } of joints) {
    const part = byMark.get(entering)!;
    const box = blankOf(part);
    const axis = axisOf(part.place![axisOfFace(enteringEnd)]);
    const other = byMark.get(receiving);
    // A side that another case lends stands where the part ends.
    const seat = other?.assembly === part.assembly ? blankOf(other) : box;
    const [from, to] = [Math.min(box[0][axis], seat[0][axis]), Math.max(box[1][axis], seat[1][axis])];
    const line = lines.find((one) => one.axis === axis && isInLine(one.rect, box, axis));
    if (line === undefined) {
      lines.push({ axis, parts: [{ part, box }], rect: box, from, to });
      continue;
    }
    if (!line.parts.some((one) => one.part === part)) line.parts.push({ part, box });
    line.from = Math.min(line.from, from);
    line.to = Math.max(line.to, to);
  }
  return lines;
}

/** One line to what is alike; once why. */
function strutsInWords(all: readonly Strutted[], byMark: ByMark): string[] {
  if (all.length === 0) return [];
  const alike = new Map<string, Set<string>>();
  for (const { beside, struts } of all) alike.set(struts, (alike.get(struts) ?? new Set()).add(beside));
  return [
    "Struts, as long as the bay is wide or high, go where nothing else stands against the clamps:",
    ...[...alike].map(([struts, marks]) => `In line with ${namesOf([...marks], byMark)}: ${struts}.`),
  ];
}

const blankOf = (part: SetPart): Box =>
  boxToOuter(part.place as Place, [
    [0, 0, 0],
    [part.length, part.width, part.thickness],
  ]);

/** Seen along the axis, they cover each other for more than half of the smaller one, either way. */
const isInLine = (a: Box, b: Box, axis: AxisIndex): boolean =>
  AXES.filter((one) => one !== axis).every((one) => {
    const common = Math.min(a[1][one], b[1][one]) - Math.max(a[0][one], b[0][one]);
    return common > Math.min(a[1][one] - a[0][one], b[1][one] - b[0][one]) / 2;
  });

/** What stands between bays. */
const IN_BAYS: readonly SetPart["role"][] = ["shelf", "divider", "stile", "rail"];

/** "17.1 in across bay 2.2", in line with a part. */
type Strutted = { beside: string; struts: string };

/** Where a row of clamps goes across a bay in which nothing stands in line: what lies between would bend. */
function strutsFor(
  { axis, parts, rect }: Line,
  { name }: SetAssembly,
  { openings, unit }: StepsInput,
): Strutted | null {
  if (axis === 1 || !parts.some(({ part: { role } }) => IN_BAYS.includes(role))) return null;
  const up: AxisIndex = axis === 0 ? 2 : 0;
  const middle = (rect[0][up] + rect[1][up]) / 2;
  const size = (i: AxisIndex, one: StepsInput["openings"][number]): Mm => (i === 0 ? one.width : one.height);
  const open = openings.filter(
    (one) =>
      one.case === name &&
      one.at[up] < middle &&
      middle < one.at[up] + size(up, one) &&
      parts.every(
        ({ box }) => Math.min(box[1][axis], one.at[axis] + size(axis, one)) - Math.max(box[0][axis], one.at[axis]) < 1,
      ),
  );
  if (open.length === 0) return null;
  const { part } = parts[0]!;
  const each = open.map(
    (one) => `${formatLengthWithUnit(size(axis, one), unit)} ${axis === 0 ? "across" : "up"} ${one.name}`,
  );
  return { beside: part.mark, struts: listInWords(each) };
}
