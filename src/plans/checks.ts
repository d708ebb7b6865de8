/** Checks on the printed model that the dry fit does not make: webs, rounding, stock, look-alikes, tall pieces. Each says what, where, how much. */

import { AXES } from "../base/geometry.ts";
import { formatLength, formatLengthWithUnit, type Mm, SAME, type Unit } from "../base/length.ts";
import { listInWords } from "../base/words.ts";
import type { Model } from "../model/model.ts";
import type { DryfitSet, SetAssembly, SetCheck, SetFeature, SetPart } from "../set/schema.ts";
import type { Marks } from "./parts.ts";

type Input = Pick<DryfitSet, "parts" | "joints" | "assemblies" | "stock"> & {
  unit: Unit;
  step: Mm;
  exact: Model;
  printed: Model;
  marks: Marks;
};

export function planChecks(input: Input): SetCheck[] {
  return [
    ...checkRounding(input),
    ...checkThirds(input),
    ...checkWebs(input),
    ...checkReadings(input),
    ...checkAlike(input),
    ...checkTall(input),
  ];
}

/** How far the printed model lies from the exact one, face by face. */
function roundings({ exact, printed }: Input): { key: string; by: Mm }[] {
  return exact.cases.flatMap((one, i) =>
    one.parts.flatMap(({ key, box }, j) => {
      const round = printed.cases[i]!.parts[j]!.box;
      return AXES.flatMap((axis) =>
        ([0, 1] as const).map((side) => ({ key, by: Math.abs(box[side][axis] - round[side][axis]) })),
      );
    }),
  );
}

/** The largest rounding of any length or wall; what it leaves at the joints the dry fit tells. */
function checkRounding(input: Input): SetCheck[] {
  const { marks, unit, step } = input;
  const largest = roundings(input).reduce((most, one) => (one.by > most.by ? one : most));
  const text = (mm: Mm): string => formatLengthWithUnit(mm, unit);
  if (largest.by < SAME) {
    return [
      {
        id: "lengths",
        level: "ok",
        parts: [],
        text: `Every length is exact at the step of ${text(step)}: none was rounded.`,
        rule: null,
        change: null,
      },
    ];
  }
  return [
    {
      id: "lengths",
      level: "note",
      parts: [marks.get(largest.key)!],
      text: `Lengths are printed to ${text(step)}. The largest rounding moved an end or face by ${text(largest.by)}. Thicknesses and the widths of grooves are never rounded.`,
      rule: null,
      change: null,
    },
  ];
}

/** Where two grooves stand back to back and each was cut down to a third. */
function checkThirds({ printed, marks, unit }: Input): SetCheck[] {
  return printed.cases.flatMap(({ thirds }) =>
    thirds.map(({ receiving, entering, depth }): SetCheck => {
      const mark = marks.get(receiving)!;
      const [a, b] = entering.map((key) => marks.get(key)!);
      return {
        id: "web-thirds",
        level: "note",
        parts: [mark, a!, b!],
        text: `${a} and ${b} enter ${mark} back to back: both grooves are ${formatLengthWithUnit(depth, unit)} deep, a third of the thickness, so that a third is left between. The ends of ${a} and ${b} differ for it.`,
        rule: null,
        change: null,
      };
    }),
  );
}

/** A web under a third of the thickness; less than half a thickness of wood between grooves on one face, or to the part's end. */
function checkWebs({ parts, unit }: Input): SetCheck[] {
  return parts.flatMap((part) => {
    const housings = part.features.filter(({ kind }) => kind !== "notch");
    const thin = housings
      .filter(({ depth }) => part.thickness - depth < part.thickness / 3 - SAME)
      .map(
        (feature): SetCheck =>
          warn(
            part,
            `leaves a web of ${formatLengthWithUnit(part.thickness - feature.depth, unit)} under the groove for ${feature.holds}, less than a third of the thickness: make the joint shallower`,
          ),
      );
    const crowded = housings.flatMap((one, i) =>
      housings.slice(i + 1).flatMap((other): SetCheck[] => {
        if (one.face !== other.face || one.along !== other.along || !runsBeside(one, other)) return [];
        const wood = Math.max(other.at - (one.at + one.width), one.at - (other.at + other.width));
        if (wood >= part.thickness / 2 - SAME || wood <= SAME) return [];
        return [
          warn(
            part,
            `has only ${formatLength(wood, unit)} ${unit} of wood between the grooves for ${one.holds} and ${other.holds}, less than half its thickness: move one of them`,
          ),
        ];
      }),
    );
    const nearEnd = housings
      .filter(({ kind }) => kind === "groove")
      .flatMap((feature): SetCheck[] => {
        const far = (["l", "w", "t"] as const).find((axis) => axis !== feature.along && axis !== feature.face[0])!;
        const size = far === "l" ? part.length : part.width;
        const wood = Math.min(feature.at, size - feature.at - feature.width);
        if (wood >= part.thickness / 2 - SAME || wood <= SAME) return [];
        return [
          warn(
            part,
            `has only ${formatLengthWithUnit(wood, unit)} of wood between the groove for ${feature.holds} and its own ${far === "l" ? "end" : "edge"}, less than half its thickness: it breaks out easily`,
          ),
        ];
      });
    return [...thin, ...crowded, ...nearEnd];
  });
}

const runsBeside = (one: SetFeature, other: SetFeature): boolean =>
  one.from < other.to - SAME && other.from < one.to - SAME;

const warn = (part: SetPart, text: string): SetCheck => ({
  id: "web",
  level: "warning",
  parts: [part.mark],
  text: `${part.name} ${part.mark} ${text}.`,
  rule: null,
  change: null,
});

/** Readings that spread beyond the fit allowance: grooves follow the thickest, and a thin place rattles. */
function checkReadings({ stock, parts, assemblies, unit }: Input): SetCheck[] {
  const allowance = Math.min(...assemblies.map(({ fits }) => fits.allowance));
  return stock.flatMap(({ id, name, readings, thickness, nominal }): SetCheck[] => {
    const using = parts.filter(({ material }) => material === id).map(({ mark }) => mark);
    if (readings.length === 0) {
      return [
        {
          id: "stock-unmeasured",
          level: "warning",
          parts: using,
          text: `${name} has not been measured: its nominal ${formatLengthWithUnit(nominal, unit)} was used. Measure it and build again before cutting grooves.`,
          rule: null,
          change: null,
        },
      ];
    }
    const spread = Math.max(...readings) - Math.min(...readings);
    if (spread <= allowance + SAME) return [];
    const grooves = parts.flatMap((part) =>
      part.features
        .filter(({ kind, holds }) => kind !== "notch" && holds !== null && using.includes(holds))
        .map(({ holds }) => `${holds} in ${part.mark}`),
    );
    return [
      {
        id: "stock-spread",
        level: "warning",
        parts: using,
        text: `${name} was measured from ${formatLength(Math.min(...readings), unit)} to ${formatLengthWithUnit(Math.max(...readings), unit)}, a spread of ${formatLengthWithUnit(spread, unit)} about a mean of ${formatLengthWithUnit(thickness, unit)}: more than the fit allowance. Grooves follow the thickest; test each with the part itself: ${grooves.join(", ")}.`,
        rule: null,
        change: null,
      },
    ];
  });
}

/** How good the sheet layouts are, stock by stock. */
export function checkLayouts({ sheets, stock }: Pick<DryfitSet, "sheets" | "stock">): SetCheck[] {
  return stock.flatMap(({ id, name }): SetCheck[] => {
    const used = sheets.filter((sheet) => sheet.stock === id);
    if (used.length === 0) return [];
    return [
      { id: "layout-bound", level: "ok", parts: [], text: `${name}: ${used[0]!.boundText}.`, rule: null, change: null },
    ];
  });
}

/** One note for each heap of parts that are easily taken for one another. */
function checkAlike({ parts }: Input): SetCheck[] {
  const heaps: SetPart[][] = [];
  for (const part of parts) {
    const near = heaps.filter((heap) => heap.some(({ mark }) => part.alike.includes(mark)));
    const rest = heaps.filter((heap) => !near.includes(heap));
    heaps.splice(0, heaps.length, ...rest, [...near.flat(), part]);
  }
  return heaps
    .filter((heap) => heap.length > 1)
    .map((heap): SetCheck => {
      const list = listInWords(heap.map(({ name, mark }) => `${name} ${mark}`));
      return {
        id: "look-alike",
        level: "note",
        parts: heap.map(({ mark }) => mark),
        text: `${list} are easily taken for one another: go by the labels.`,
        rule: null,
        change: null,
      };
    });
}

/** 27 in (686 mm) or more, or higher than three times the depth: clothing-storage safety rules name the height, common practice the ratio. */
const TALL: Mm = 685.8;
const SLENDER = 3;

export const isTall = ({ size }: Pick<SetAssembly, "size">): boolean =>
  size[2] >= TALL - SAME || size[2] > SLENDER * size[1];

function checkTall({ assemblies, parts, unit }: Input): SetCheck[] {
  return assemblies.filter(isTall).map((one) => ({
    id: "tipping",
    level: "note",
    parts: parts.filter(({ assembly, role }) => assembly === one.name && role === "back").map(({ mark }) => mark),
    text: `${one.name} stands ${formatLengthWithUnit(one.size[2], unit)} high on a depth of ${formatLengthWithUnit(one.size[1], unit)}: anchor it to the wall (27 in, 686 mm, or more, or higher than three times its depth).`,
    rule: null,
    change: null,
  }));
}
