/** The figures of a part as they are set out and cut, each by name: its size, the walls and ends of its grooves, notches and holes. */
import type { Mm } from "../base/length.ts";
import {
  axisOfFace,
  edgeThen,
  faceWords,
  frontFace,
  isHigh,
  type LocalAxis,
  lippedAfter,
  thirdAxis,
} from "../set/facing.ts";
import type { Face, SetFeature, SetPart } from "../set/schema.ts";

/** `key` is the same at every thickness of the stock; `what` says it in words, once it is known to change. */
export type Figure = { key: string; mark: string; what: () => string; value: Mm };

/** `drawn` gives marks, words and lippings; sizes and features may be those of another thickness. */
export function printedFigures(
  drawn: SetPart,
  { length, width, thickness, features }: Pick<SetPart, "length" | "width" | "thickness" | "features">,
): Figure[] {
  const { mark, cut } = drawn;
  const figures: Figure[] = [];
  const add = (key: string, value: Mm, what: () => string): void => {
    figures.push({ key: `${mark} ${key}`, mark, what, value });
  };
  const sizes: Record<LocalAxis, Mm> = { l: length, w: width, t: thickness };
  const lipped = { length: drawn.length - cut.length, width: drawn.width - cut.width };
  add("length", length - lipped.length, () => (lipped.length > 0 ? "length of the panel" : "length"));
  add("width", width - lipped.width, () => (lipped.width > 0 ? "width of the panel" : "width"));
  const seen = new Map<string, number>();
  for (const feature of features) {
    const id = idOf(feature);
    const nth = seen.get(id) ?? 0;
    seen.set(id, nth + 1);
    // Of a row of holes the first alone: the jig's pitch makes the others.
    if (feature.lipping || (feature.kind === "hole" && nth > 0)) continue;
    const named = nameOf(feature, features);
    for (const { key, value, what } of figuresOf(drawn, feature, sizes, named)) add(`${id} ${nth} ${key}`, value, what);
  }
  return figures;
}

type Named = Pick<Figure, "key" | "what" | "value">;

const idOf = ({ kind, face, along, holds, row }: SetFeature): string => `${kind} ${face} ${along} ${holds} ${row}`;

/** "the groove for 5", or "slot 2 of 6 for 33": of several alike on a face, counted from its low end and edge. */
function nameOf(feature: SetFeature, features: readonly SetFeature[]): string {
  const { kind, holds } = feature;
  const alike = features.filter((one) => idOf(one) === idOf(feature)).sort((a, b) => a.at - b.at || a.from - b.from);
  return alike.length === 1
    ? `the ${kind} for ${holds}`
    : `${kind} ${alike.indexOf(feature) + 1} of ${alike.length} for ${holds}`;
}

function figuresOf(part: SetPart, feature: SetFeature, sizes: Record<LocalAxis, Mm>, named: string): Named[] {
  const { kind, face, at, width, depth, from, holds } = feature;
  const across = thirdAxis(axisOfFace(face), feature.along);
  switch (kind) {
    case "groove":
    case "rabbet":
    case "stub mortise":
      return [
        fromLow(part, across, `to ${named}`, at),
        { key: "width", value: width, what: () => (kind === "groove" ? "width of the groove" : `width of ${named}`) },
        { key: "depth", value: depth, what: () => `depth of ${named}` },
        ...stops(part, feature, sizes, named),
      ];
    // A tenon has one on either face.
    case "shoulder":
    case "lap": {
      const where = (): string => `${named} on the ${faceWords(part, face)}`;
      return [
        { key: "width", value: width, what: () => `width of ${where()}` },
        { key: "depth", value: depth, what: () => `depth of ${where()}` },
      ];
    }
    case "notch": {
      const where = (): string => `the notch${holds === null ? "" : ` for ${holds}`} at the ${faceWords(part, face)}`;
      return [
        { key: "depth", value: depth, what: () => `depth of ${where()}` },
        { key: "width", value: width, what: () => `width of ${where()}` },
      ];
    }
    // As the bit has it, whatever a stock measures.
    case "edge":
      return [];
    case "shape":
      return [
        fromLow(part, feature.along, "to the foot", from),
        { key: "width", value: feature.to - from, what: () => "width of what is cut out between the feet" },
        { key: "depth", value: depth, what: () => "height of what is cut out between the feet" },
      ];
    case "mitre":
      return [];
    // Set out at the end that the tails are widest at; how deep it goes is the other part's thickness.
    case "socket":
      return [
        fromLow(part, across, `to ${named}`, at),
        { key: "width", value: width, what: () => `width of ${named}` },
        { key: "depth", value: depth, what: () => `depth of ${named}` },
      ];
    case "mortise":
      return [
        fromLow(part, feature.along, `to the first end of ${named}`, from),
        { key: "length", value: feature.to - from, what: () => `length of ${named}` },
        { key: "depth", value: depth, what: () => `depth of ${named}` },
      ];
    case "slot": {
      const end = width / 2;
      return [
        fromLow(part, across, `to the middle of ${named}`, at + end),
        fromLow(part, feature.along, `to the first end of ${named}`, from + end),
        { key: "length", value: feature.to - from, what: () => `length of ${named}` },
      ];
    }
    case "hole": {
      const middle = width / 2;
      const row = holds === null ? `the row of ${nameOfRow(feature.row ?? "")}` : `the holes for ${holds}`;
      return [
        across === "t" && frontFace(part) === "t1"
          ? fromFront(part, `to the middle of ${row}`, sizes.t - at - middle)
          : fromLow(part, across, `to the middle of ${row}`, at + middle),
        fromLow(part, feature.along, `to the first of ${row}`, from + middle),
        { key: "depth", value: depth, what: () => `depth of ${row}` },
      ];
    }
  }
}

/** "case/pins 2 left front" without its case: the part's mark tells that. */
const nameOfRow = (row: string): string => row.slice(row.indexOf("/") + 1);

/** Measured from the low end or edge as it is when the cut is made: before its lipping is on, from the panel's own. */
function fromLow(part: SetPart, axis: LocalAxis, to: string, at: Mm): Named {
  const datum: Face = `${axis}0`;
  return { key: datum, value: at - lippedAfter(part, datum), what: () => `${edgeThen(part, datum)} ${to}` };
}

/** Of what stands in a front, whose upper face looks to the front. */
const fromFront = (part: SetPart, to: string, at: Mm): Named => ({
  key: "t1",
  value: at,
  what: () => `${edgeThen(part, "t1")} ${to}`,
});

/** How far a groove stops short of the end or edge that it does not reach. */
const stops = (part: SetPart, feature: SetFeature, sizes: Record<LocalAxis, Mm>, named: string): Named[] =>
  ([0, 1] as const).flatMap((end): Named[] => {
    if (feature.ends[end] === "through" || feature.along === "t") return [];
    const datum: Face = `${feature.along}${end}`;
    const short = isHigh(datum) ? sizes[feature.along] - feature.to : feature.from;
    const value = short - lippedAfter(part, datum);
    return [{ key: `end ${datum}`, value, what: () => `${edgeThen(part, datum)} to the end of ${named}` }];
  });
