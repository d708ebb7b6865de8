/** Dovetailed corners as a part's features tell them: where the tails are, how deep, how steep. */
import { isSame, type Mm, SAME } from "../base/length.ts";
import type { Face, SetFeature, SetPart } from "./schema.ts";

export type Dovetail = {
  end: Face; // of the part, that the corner is at
  has: "tails" | "pins";
  holds: string;
  tips: Face; // the end, or of a pin board the face, in which the tails are widest
  tails: [from: Mm, to: Mm][]; // there, across the part, from w0
  span: [from: Mm, to: Mm]; // of the pins, from the lowest's lower edge to the highest's upper one
  flare: Mm; // how much farther in each flank lies at the tails' roots
  baseline: Mm; // from the end: the other part's thickness
  slope: number; // one in so many
  features: number[];
};

/** A socket right through a part is between two tails; one that goes in from its end is between two pins. */
export const isBetweenTails = ({ axis }: Pick<SetFeature, "axis">): boolean => axis === "t";

/** Where a socket is from and to across the part: in the plane of the tails' ends, and at their roots. */
export function socketAt(
  part: Pick<SetPart, "length" | "width" | "thickness">,
  { axis, face, outline }: SetFeature,
): { tips: Face; at: [Mm, Mm]; roots: [Mm, Mm] } {
  // Of the two axes of the outline one is across the part; the other leads from the tails' ends to their roots.
  const [w, deep] = axis === "t" ? ([1, 0] as const) : ([0, 1] as const);
  const tip = outline[0]![deep];
  const range = (isTip: boolean): [Mm, Mm] => {
    const across = outline.filter((corner) => isSame(corner[deep], tip) === isTip).map((corner) => corner[w]);
    return [Math.min(...across), Math.max(...across)];
  };
  return {
    tips: axis === "t" ? face : `t${tip > part.thickness / 2 ? 1 : 0}`,
    at: range(true),
    roots: range(false),
  };
}

export function dovetailsOf(part: SetPart): Dovetail[] {
  return (["l0", "l1"] as const).flatMap((end): Dovetail[] => {
    const found = part.features
      .map((feature, index) => ({ feature, index }))
      .filter(({ feature }) => feature.kind === "socket" && feature.face === end)
      .sort((a, b) => a.feature.at - b.feature.at);
    const [first] = found;
    if (first === undefined) return [];
    const sockets = found.map(({ feature }) => socketAt(part, feature));
    const hasTails = isBetweenTails(first.feature);
    const tails = hasTails
      ? sockets.slice(1).map(({ at }, i): [Mm, Mm] => [sockets[i]!.at[1], at[0]])
      : sockets.map(({ at }) => at);
    const flares = sockets.flatMap(({ at, roots }) => [Math.abs(at[0] - roots[0]), Math.abs(at[1] - roots[1])]);
    const flare = Math.max(...flares);
    const deep = hasTails ? first.feature.depth : part.thickness;
    return [
      {
        end,
        has: hasTails ? "tails" : "pins",
        holds: first.feature.holds!,
        tips: sockets[0]!.tips,
        tails,
        span: hasTails ? [sockets[0]!.at[0], sockets.at(-1)!.at[1]] : [0, part.width],
        flare,
        baseline: first.feature.depth,
        slope: flare < SAME ? Number.POSITIVE_INFINITY : Math.round(deep / flare),
        features: found.map(({ index }) => index),
      },
    ];
  });
}
