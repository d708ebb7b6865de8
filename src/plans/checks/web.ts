/** Webs: what is left under a groove or hole, between two back to back, and beside a groove on its own face. */
import { AXES, type AxisIndex } from "../../base/geometry.ts";
import { type Mm, SAME } from "../../base/length.ts";
import { listInWords } from "../../base/words.ts";
import { LEAST_APART } from "../../project/defaults.ts";
import type { SetCheck, SetFeature, SetPart } from "../../set/schema.ts";
import { isSlideway, sliding } from "../../set/slideways.ts";
import { type CheckInput, capital, checkOf, nameOf, PRACTICE, shown, sizeAlong } from "./input.ts";

const THIRD = `at least a third of the measured thickness is left (${PRACTICE})`;
const HALF = `at least half a thickness of wood beside a groove (${PRACTICE})`;
const APART = "grooves that doors slide in are 6 mm or more apart (Fine Woodworking 2004)";
/** Half of what a sheet is sold by and half of what it measures differ by less than this: no difference to the wood. */
const HAIR: Mm = 0.5;

/** Each kind of thin place is found once in a part, where it is thinnest. */
type Thin = { left: Mm; text: string; change: string; rule: string };

export function checkWebs({ parts, unit, step, sliders }: CheckInput): SetCheck[] {
  const show = (length: Mm): string => shown(length, unit);
  const slides = sliding({ parts, sliders });
  const least = (part: SetPart, one: SetFeature, other: SetFeature): Mm =>
    isSlideway(part, one, slides) && isSlideway(part, other, slides) ? LEAST_APART[unit] : part.thickness / 2;
  const found = parts.flatMap((part) =>
    [...under(part, show), ...backToBack(part, show), ...beside(part, show, least)].map((thin) =>
      checkOf("web", "warning", [part.mark], { ...thin, text: `${capital(nameOf(part))} ${thin.text}.` }),
    ),
  );
  return found.length > 0 ? found : soundWebs(parts, show, step, slides);
}

/** Where nothing is thin: the thinnest web of the job, so that one sees how much there is to spare. */
function soundWebs(
  parts: readonly SetPart[],
  show: (length: Mm) => string,
  step: Mm,
  slides: ReadonlySet<string>,
): SetCheck[] {
  const webs = parts.flatMap((part) => [
    ...recessesOf(part).map(({ depth }) => ({ part, left: part.thickness - depth })),
    ...pairsOf(part).map(({ left }) => ({ part, left })),
  ]);
  if (webs.length === 0) return [];
  const { part, left } = webs.reduce((least, one) =>
    one.left / one.part.thickness < least.left / least.part.thickness - SAME ? one : least,
  );
  const share = Math.round((100 * left) / part.thickness);
  return [
    checkOf("web", "ok", [], {
      text: `The thinnest web is ${show(left)}, ${share} % of the thickness, in ${nameOf(part)}. Beside every groove there is at least half a thickness of wood${slides.size > 0 ? ", between two that doors slide in 6 mm" : ""}. Depths are rounded down by less than ${show(step)}, so no web is thinner than printed.`,
      rule: slides.size > 0 ? `${THIRD}; ${HALF}; ${APART}` : `${THIRD}; ${HALF}`,
    }),
  ];
}

/** What goes into a broad face. Where a lipping ends nothing is cut; a notch, a slot and the hole for a bolt go right through. */
const recessesOf = (part: SetPart): SetFeature[] =>
  part.features.filter(
    ({ kind, face, lipping, depth }) =>
      kind !== "notch" &&
      kind !== "slot" &&
      !(kind === "hole" && depth > part.thickness - SAME) &&
      !lipping &&
      face.startsWith("t"),
  );

const isHole = ({ kind }: SetFeature): boolean => kind === "hole";

const purpose = (feature: SetFeature): string => {
  if (feature.kind === "shoulder") return "the shoulder of its tongue";
  if (isHole(feature)) return feature.row === null ? "a hole" : "a row of holes";
  return `the ${feature.kind}${feature.holds === null ? "" : ` for ${feature.holds}`}`;
};

function under(part: SetPart, show: (length: Mm) => string): Thin[] {
  const third = part.thickness / 3;
  const thin = recessesOf(part).filter(({ depth }) => part.thickness - depth < third - SAME);
  const byPurpose = new Map(thin.map((feature) => [purpose(feature), feature]));
  return [...byPurpose].map(([name, { depth, kind }]) => ({
    left: part.thickness - depth,
    text: `keeps ${show(part.thickness - depth)} under ${name}; a third would be ${show(third)}`,
    change:
      kind === "shoulder"
        ? `a tongue at least ${show(third)} thick`
        : `cut it at most ${show(part.thickness - third)} deep, or make the part of thicker stock`,
    rule: THIRD,
  }));
}

type Pair = { one: SetFeature; other: SetFeature; left: Mm };

/** Recesses on opposite faces that overlap in the part's plane, or pass within half its thickness of each other. */
function pairsOf(part: SetPart): Pair[] {
  // The shoulder of a tongue meets the groove for a back in one small corner, which the joint closes.
  const recesses = recessesOf(part).filter(({ kind }) => kind !== "shoulder");
  const reach = part.thickness / 2;
  const plane: AxisIndex[] = AXES.filter((axis) => axis !== 2);
  return recesses.flatMap((one, i) =>
    recesses.slice(i + 1).flatMap((other): Pair[] => {
      if (one.face === other.face) return [];
      const isClose = plane.every((axis) => gapOf(one, other, axis) < reach - SAME);
      return isClose ? [{ one, other, left: part.thickness - one.depth - other.depth }] : [];
    }),
  );
}

const gapOf = (one: SetFeature, other: SetFeature, axis: AxisIndex): Mm =>
  Math.max(one.box[0][axis], other.box[0][axis]) - Math.min(one.box[1][axis], other.box[1][axis]);

function backToBack(part: SetPart, show: (length: Mm) => string): Thin[] {
  const third = part.thickness / 3;
  const thin = pairsOf(part).filter(({ left }) => left < third - SAME);
  const byPurpose = new Map(thin.map((pair) => [`${purpose(pair.one)} and ${purpose(pair.other)}`, pair]));
  return [...byPurpose].map(([names, { one, other, left }]) => ({
    left,
    text: `keeps ${left > SAME ? show(left) : "nothing"} between ${names} on its two faces (${show(one.depth)} and ${show(other.depth)} deep of ${show(part.thickness)}); a third would be ${show(third)}`,
    change: `cut both at most ${show(third)} deep, or set them farther apart`,
    rule: THIRD,
  }));
}

/** How much wood is enough between two grooves: doors slide by each other close together. */
type Least = (part: SetPart, one: SetFeature, other: SetFeature) => Mm;

/** Between neighbouring grooves on one face, and from a groove to the part's own end or edge. */
function beside(part: SetPart, show: (length: Mm) => string, least: Least): Thin[] {
  const half = part.thickness / 2;
  const isThin = (wood: Mm, enough = half): boolean => wood > SAME && wood < enough - HAIR;
  const grooves = recessesOf(part).filter(({ kind }) => kind === "groove" || kind === "rabbet");
  const more = {
    rule: HALF,
    change: `at least ${show(half)} there: set it farther in, or make the part of thinner stock`,
  };
  const neighbours = grooves.flatMap((one, i) =>
    grooves.slice(i + 1).flatMap((other): Thin[] => {
      if (one.face !== other.face || one.along !== other.along || !runsBeside(one, other)) return [];
      const left = Math.max(other.at - (one.at + one.width), one.at - (other.at + other.width));
      if (!isThin(left, least(part, one, other))) return [];
      return [
        {
          ...more,
          left,
          text: `has only ${show(left)} of wood between ${purpose(one)} and ${purpose(other)}, where half its thickness is ${show(half)}`,
          change: `move one of them by ${show(half - left)} or more`,
        },
      ];
    }),
  );
  const toEnds = grooves
    .filter(({ kind }) => kind === "groove")
    .flatMap((groove): Thin[] => {
      const across = groove.along === "l" ? "w" : "l";
      const left = Math.min(groove.at, sizeAlong(part, across) - groove.at - groove.width);
      if (!isThin(left)) return [];
      return [
        {
          ...more,
          left,
          text: `has only ${show(left)} of wood between ${purpose(groove)} and its own ${across === "l" ? "end" : "edge"}, where half its thickness is ${show(half)}: it breaks out easily`,
        },
      ];
    });
  return [...neighbours, ...toEnds];
}

const runsBeside = (one: SetFeature, other: SetFeature): boolean =>
  one.from < other.to - SAME && other.from < one.to - SAME;

/** Where recesses stand back to back and each was cut down to a third: once for every part that has such. */
export function checkThirds({ printed, marks, parts, unit }: CheckInput): SetCheck[] {
  const thirds = printed.assemblies.flatMap((one) => one.thirds);
  const receiving = [...new Set(thirds.map((third) => third.receiving))];
  return receiving.map((key): SetCheck => {
    const own = thirds.filter((third) => third.receiving === key);
    const mark = marks.get(key)!;
    const part = parts.find((one) => one.mark === mark)!;
    const entered = [...new Set(own.flatMap(({ entering }) => entering.flatMap((one) => marks.get(one) ?? [])))];
    // A row of holes is told by its own name, and nothing enters it.
    const names = own.map(({ entering }) => entering.map((one) => marks.get(one) ?? "holes").join(" and "));
    const depth = Math.max(...own.map((third) => third.depth));
    // Dowels of a frame go into the edges of a stile.
    const isEdged = part.role === "stile" || part.role === "rail";
    const differ = entered.length === 0 ? "" : ` The ends of ${listInWords(entered)} differ for it.`;
    return checkOf("web-thirds", "note", [mark, ...entered], {
      text: `Back to back in ${nameOf(part)} stand ${[...new Set(names)].join("; ")}: each goes ${shown(depth, unit)} deep, a third of its ${shown(isEdged ? part.width : part.thickness, unit)}, so that a third is left between.${differ}`,
      rule: THIRD,
      change: "nothing; for the full depth set them half a thickness apart, or use thicker stock",
    });
  });
}
