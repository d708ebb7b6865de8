/** What is done by hand after the grooves, read from its table: notches and mortises say again what the part drawings show. */
import { leastFaults, turned } from "./alike.ts";
import { faceCalled } from "./called.ts";
import { ROUNDED, saidBy } from "./figure.ts";
import type { SeenPage } from "./page.ts";
import type { ReadFeature, ReadPart } from "./part/part.ts";
import { tablesWith, textOfCell } from "./table.ts";

const HEADS = ["Part", "Name", "Work"];

type Corner = { end: string; edge: string; along: number; across: number };
type Mortise = {
  face: string;
  width: number;
  depth: number;
  wall: { by: number; face: string } | null;
  from: string;
  runs: { low: number; high: number; holds: string }[];
};
type Cut = { edge: string; from: number; end: string; width: number; height: number; slope: number };
export type HandWork = { marks: string[]; corners: Corner[]; mortises: Mortise[]; cuts: Cut[] };

const F = "([\\d ./]+?) (?:mm|in)";
const SIDE = "(?:left|right|front|back|bottom|top|inside|outside|upper|lower) (?:end|edge|face)";
const NOTCH = new RegExp(
  `^Notch (?:the corner|both corners) at the (${SIDE}), (${SIDE}(?: and ${SIDE})?): ${F} in from the (end|edge), ${F} in from the (end|edge), `,
);
const MORTISE = new RegExp(
  `^Mortises? in the (${SIDE}), ${F} wide(?: in the middle of the thickness|, its near wall ${F} from the (${SIDE})), ${F} deep(?:, ends square)?; from the (${SIDE}): (.+)\\.$`,
);
const RUN = new RegExp(`^${F} to ${F}(?:, (?:slotted|tight),)? for .*?(\\d+)$`);
const CUT_OUT = new RegExp(
  `^Cut out of the (${SIDE}), ${F} from the (${SIDE}): (?:an arch )?${F} wide and ${F} high(?:, its ends sloping in by ${F})?\\. `,
);

const figure = (text: string): number => {
  const value = saidBy(text);
  if (value === null) throw new Error(`no figure: ${text}`);
  return value;
};

function cornersIn(said: string): Corner[] {
  const match = NOTCH.exec(said);
  if (match === null) return [];
  const [, side, sides, first, from, second] = match as unknown as [string, string, string, string, string, string];
  const [along, across] = (from === "end" ? [first, second] : [second, first]).map(figure) as [number, number];
  return sides.split(" and ").map((one) => {
    const [end, edge] = one.endsWith("end") ? [one, side] : [side, one];
    return { end, edge, along, across };
  });
}

function mortisesIn(said: string): Mortise[] {
  const match = MORTISE.exec(said);
  if (match === null) return [];
  const [, face, width, by, wall, depth, from, runs] = match;
  return [
    {
      face: face!,
      width: figure(width!),
      depth: figure(depth!),
      wall: by === undefined ? null : { by: figure(by), face: wall! },
      from: from!,
      runs: runs!.split("; ").map((run) => {
        const found = RUN.exec(run);
        if (found === null) throw new Error(`not read: ${run}`);
        return { low: figure(found[1]!), high: figure(found[2]!), holds: found[3]! };
      }),
    },
  ];
}

function cutsIn(said: string): Cut[] {
  const match = CUT_OUT.exec(said);
  if (match === null) return [];
  const [, edge, from, end, width, height, slope] = match;
  return [
    {
      edge: edge!,
      from: figure(from!),
      end: end!,
      width: figure(width!),
      height: figure(height!),
      slope: slope === undefined ? 0 : figure(slope),
    },
  ];
}

export const readHandWork = (pages: readonly SeenPage[]): HandWork[] =>
  pages.flatMap((page) =>
    tablesWith(page, HEADS).flatMap(({ rows }) =>
      rows.map((row): HandWork => {
        if ("heading" in row) throw new Error(`no hand work: ${row.heading}`);
        const [marks, , work] = row.cells.map(textOfCell) as [string, string, string];
        return {
          marks: marks.match(/\d+/g) ?? [],
          corners: cornersIn(work),
          mortises: mortisesIn(work),
          cuts: cutsIn(work),
        };
      }),
    ),
  );

/** Corners of the drawing's notes by what they are called; of what is made alike with the first, which may lie turned round, by their sizes. */
function cornerFaults(read: ReadPart, mark: string, i: number, told: readonly Corner[]): string[] {
  const drawn = read.notes.flatMap((note) =>
    note.kind !== "notch"
      ? []
      : note.corners.map(({ end, edge }) => ({ end, edge, along: note.along.value, across: note.across.value })),
  );
  const names = ({ end, edge, along, across }: Corner): string =>
    `${i === 0 ? `${end} at the ${edge}: ` : ""}${along} along, ${across} across`;
  const [a, b] = [drawn, told].map((all) => all.map(names).sort().join("; "));
  return a === b ? [] : [`part ${mark}: notched by its drawing ${a}, by hand ${b}`];
}

/** From the named end to where it begins along the edge, how wide, high and sloping it is, as its corners are drawn. */
function cutFaults(read: ReadPart, mark: string, told: readonly Cut[], unit: "mm" | "in"): string[] {
  const { length, width } = read.caption;
  const drawn = read.cutOuts.map(({ edge, corners }) => {
    const deep = corners.map(({ l, w }) => ({ l, in: edge === "w0" ? w : width - w }));
    const height = Math.max(...deep.map((one) => one.in));
    const along = (isCrown: boolean): number[] =>
      deep.filter((one) => one.in > height / 2 === isCrown && !Number.isNaN(one.l)).map(({ l }) => l);
    const [low, high] = [Math.min(...along(false)), Math.max(...along(false))];
    const slope = along(true).length === 0 ? 0 : Math.min(...along(true)) - low;
    return { edge, low, high, height, slope };
  });
  const isSo = (cut: Cut, one: (typeof drawn)[number]): boolean => {
    const begins = faceCalled(read, cut.end) === "l0" ? one.low : length - one.high;
    return (
      faceCalled(read, cut.edge) === one.edge &&
      [cut.from - begins, cut.width - (one.high - one.low), cut.height - one.height, cut.slope - one.slope].every(
        (off) => Math.abs(off) <= 2 * ROUNDED[unit],
      )
    );
  };
  return drawn.length === told.length && told.every((cut) => drawn.some((one) => isSo(cut, one)))
    ? []
    : [`part ${mark}: cut out otherwise by its drawing than by hand`];
}

const LOCAL = { l: 0, w: 1, t: 2 } as const;

function mortiseBoxes(read: ReadPart, { face, width, depth, wall, from, runs }: Mortise): ReadFeature[] {
  const { length, width: across, thickness } = read.caption;
  const size = [length, across, thickness] as const;
  const [into, end] = [faceCalled(read, face), faceCalled(read, from)];
  const [deep, run] = [LOCAL[into[0] as "l"], LOCAL[end[0] as "l"]];
  const near = wall === null ? (thickness - width) / 2 : wall.by;
  const isUp = wall === null || faceCalled(read, wall.face) === "t0";
  return runs.map(({ low, high, holds }): ReadFeature => {
    const [lo, hi]: [number[], number[]] = [[0, 0, 0], [...size]];
    [lo[2], hi[2]] = isUp ? [near, near + width] : [thickness - near - width, thickness - near];
    [lo[deep], hi[deep]] = into[1] === "0" ? [0, depth] : [size[deep] - depth, size[deep]];
    [lo[run], hi[run]] = end[1] === "0" ? [low, high] : [size[run] - high, size[run] - low];
    const box = [lo, hi] as unknown as ReadFeature["box"];
    return { kind: "mortise", face: into, along: end[0] as "l", box, holds, also: [], short: [true, true] };
  });
}

/** What the hand work says otherwise than the drawing. */
export function handWorkFaults(work: readonly HandWork[], parts: readonly ReadPart[], unit: "mm" | "in"): string[] {
  const within = 2 * ROUNDED[unit];
  const isSame = (a: readonly number[], b: readonly number[]): boolean =>
    a.every((one, i) => Math.abs(one - b[i]!) <= within);
  return parts.flatMap((read) =>
    read.caption.marks.flatMap((mark, i) => {
      const own = work.filter(({ marks }) => marks.includes(mark));
      const size = [read.caption.length, read.caption.width, read.caption.thickness] as const;
      const told = own.flatMap(({ mortises }) => mortises.flatMap((one) => mortiseBoxes(read, one)));
      const drawn = read.features.filter(({ kind }) => kind === "mortise");
      const mortised = leastFaults(i, (flips) => {
        const boxes = told.map(({ box }) => turned(box, flips, [...size]));
        const odd = [
          ...boxes.filter((box) => !drawn.some((one) => isSame(one.box.flat(), box.flat()))),
          ...drawn.map(({ box }) => box).filter((box) => !boxes.some((one) => isSame(one.flat(), box.flat()))),
        ];
        return odd.map((box) => `part ${mark}: a mortise at ${box.flat()} by its drawing or by hand alone`);
      });
      return [
        ...cornerFaults(
          read,
          mark,
          i,
          own.flatMap(({ corners }) => corners),
        ),
        ...mortised.slice(0, 2),
        ...(i === 0
          ? cutFaults(
              read,
              mark,
              own.flatMap(({ cuts }) => cuts),
              unit,
            )
          : []),
      ];
    }),
  );
}
