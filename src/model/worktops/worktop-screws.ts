/** Where a worktop is screwed down from below, and how far each screw must be free to travel as the wood moves. */
import { type Mm, SAME } from "../../base/length.ts";
import { movementOf } from "../../base/moisture.ts";
import { WORKTOP_SCREWS } from "../../project/defaults.ts";
import type { Moisture } from "../../project/project.ts";
import type { Grid } from "../grid.ts";
import type { AssemblyModel, Part } from "../model.ts";

/** A line of screws in one case, in its own coordinates; `through`: the parts it goes through, the upper one first. */
type Line = { y: Mm; xs: Mm[]; through: Part[] };

/** Where one screw goes, in its case's coordinates. */
export type ScrewSpot = { case: AssemblyModel; x: Mm; y: Mm; through: Part[] };

const byId = ({ name, parts }: AssemblyModel, id: string): Part | undefined =>
  parts.find(({ key }) => key === `${name}/${id}`);

/** Every spot of a case: near its front, near its rear, and between where these lie far apart. */
export function spotsOf(one: AssemblyModel, grid: Grid): ScrewSpot[] {
  return linesOf(one, grid).flatMap(({ y, xs, through }) => xs.map((x) => ({ case: one, x, y, through })));
}

function linesOf(one: AssemblyModel, grid: Grid): Line[] {
  const { top } = one.design;
  if (top.fit === "stretchers") {
    return ["stretcher-front", "stretcher-rear"].flatMap((id) => {
      const part = byId(one, id)!;
      return { y: middleOf(part, 1, grid), xs: along(one, [part], grid), through: [part] };
    });
  }
  const panel = byId(one, "top")!;
  if (top.fillers !== null) return [...stripLines(one, panel, grid)];
  const { inset, apart } = WORKTOP_SCREWS;
  const rear = Math.min(
    panel.box[1][1],
    ...one.parts.filter(({ role }) => role === "back").map(({ box }) => box[0][1]),
  );
  const [front, back] = [grid.place(panel.box[0][1] + inset), grid.place(rear - inset)];
  const spaces = Math.max(1, Math.ceil((back - front) / apart - SAME));
  return Array.from({ length: spaces + 1 }, (_, i) => ({
    y: grid.place(front + ((back - front) * i) / spaces),
    xs: along(one, [panel], grid),
    through: [panel],
  }));
}

/** Through the strips along front and rear; where these lie far apart, through those at the sides and over dividers as well. */
function stripLines(one: AssemblyModel, panel: Part, grid: Grid): Line[] {
  const [front, rear] = [byId(one, "filler-front")!, byId(one, "filler-rear")!];
  const rows = [front, rear].map((strip) => ({
    y: middleOf(strip, 1, grid),
    xs: along(one, [strip, panel], grid),
    through: [strip, panel],
  }));
  const [from, to] = [rows[0]!.y, rows[1]!.y];
  const spaces = Math.ceil((to - from) / WORKTOP_SCREWS.apart - SAME);
  const between = Array.from({ length: Math.max(0, spaces - 1) }, (_, i) =>
    grid.place(from + ((to - from) * (i + 1)) / spaces),
  );
  const strips = one.parts.filter(({ role, key }) => role === "filler" && ![front.key, rear.key].includes(key));
  return [
    ...rows,
    ...between.flatMap((y) =>
      strips.flatMap((strip): Line[] => {
        const x = clearSpot(one, strip, panel, grid);
        return x === null ? [] : [{ y, xs: [x], through: [strip, panel] }];
      }),
    ),
  ];
}

const middleOf = ({ box }: Part, axis: 0 | 1, grid: Grid): Mm => grid.place((box[0][axis] + box[1][axis]) / 2);

type Range = readonly [Mm, Mm];

/** Where an upright part stands right under these, with so much beside it that a driver needs. */
function taken({ parts }: AssemblyModel, through: readonly Part[]): Range[] {
  const underside = Math.min(...through.map(({ box }) => box[0][2]));
  return parts
    .filter(({ role, box }) => (role === "side" || role === "divider") && box[1][2] > underside - WORKTOP_SCREWS.beside)
    .map(({ box }) => [box[0][0] - WORKTOP_SCREWS.beside, box[1][0] + WORKTOP_SCREWS.beside]);
}

/** Evenly from side to side, clear of what stands below. */
function along(one: AssemblyModel, through: readonly Part[], grid: Grid): Mm[] {
  const from = Math.max(...through.map(({ box }) => box[0][0]));
  const to = Math.min(...through.map(({ box }) => box[1][0]));
  const uprights = taken(one, through);
  const sides = one.parts.filter(({ role }) => role === "side");
  const inner: Range = [
    Math.max(from, ...sides.filter(({ box }) => box[0][0] <= from + SAME).map(({ box }) => box[1][0])),
    Math.min(to, ...sides.filter(({ box }) => box[1][0] >= to - SAME).map(({ box }) => box[0][0])),
  ];
  const { inset, apart, least } = WORKTOP_SCREWS;
  const [low, high] = [inner[0] + inset, inner[1] - inset];
  if (high < low) return [grid.place((inner[0] + inner[1]) / 2)];
  const spaces = Math.max(1, Math.ceil((high - low) / apart - SAME));
  const even = Array.from({ length: spaces + 1 }, (_, i) => low + ((high - low) * i) / spaces);
  const moved = even.map((x) => grid.place(clearOf(x, uprights)));
  return moved.filter((x, i) => i === 0 || x - moved[i - 1]! > least);
}

/** The nearest place that no upright takes. */
function clearOf(x: Mm, uprights: readonly Range[]): Mm {
  const hit = uprights.find(([from, to]) => x > from && x < to);
  if (hit === undefined) return x;
  return x - hit[0] < hit[1] - x ? hit[0] : hit[1];
}

/** In a strip that runs from front to rear: its middle, or beside the divider that it lies over; null where there is no room. */
function clearSpot(one: AssemblyModel, strip: Part, panel: Part, grid: Grid): Mm | null {
  const x = grid.place(clearOf((strip.box[0][0] + strip.box[1][0]) / 2, taken(one, [strip, panel])));
  const wood = Math.min(x - strip.box[0][0], strip.box[1][0] - x);
  return wood < WORKTOP_SCREWS.wood ? null : x;
}

/** How far the worktop moves at so much from its fixed line: outwards as it gets wetter, inwards as it dries; both ways where it is not known how it is made. */
export function travelAt(distance: Mm, coefficient: number, { made, driest, wettest }: Moisture): { out: Mm; in: Mm } {
  if (made === null) {
    const all = movementOf(distance, coefficient, wettest - driest);
    return { out: all, in: all };
  }
  return {
    out: movementOf(distance, coefficient, Math.max(0, wettest - made)),
    in: movementOf(distance, coefficient, Math.max(0, made - driest)),
  };
}
