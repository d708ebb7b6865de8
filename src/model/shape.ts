/** A shaped or mitred edge: what a part's own line takes out of it. */
import { axisOf } from "../base/geometry.ts";
import type { Mm } from "../base/length.ts";
import { trim } from "./cases/notch.ts";
import type { EdgeProfile, Feature, Part } from "./model.ts";

/** Made for no part that enters it, and one of no row. */
const ALONE = { holds: null, runOuts: [], row: null, lipping: false } satisfies Partial<Feature>;

/** What is cut out of an edge, through the thickness. */
export function shapeOf(part: Part): Feature[] {
  if (part.shape === null) return [];
  const { edge, from, to, rise, form, relief } = part.shape;
  const along = axisOf(part.frame.l);
  const lo: [Mm, Mm, Mm] = [...part.box[0]];
  const hi: [Mm, Mm, Mm] = [...part.box[1]];
  trim(lo, hi, edge, rise);
  lo[along] = from;
  hi[along] = to;
  return [
    {
      kind: "shape",
      face: edge,
      along,
      box: [lo, hi],
      ends: ["square", "square"],
      ...ALONE,
      form: { form, relief },
      reason: form === "arch" ? "an arch between the feet" : "open between the feet",
    },
  ];
}

/** How far a profile goes in from the edge, and down from the face. */
const takesOf = ({ shape, radius }: Pick<EdgeProfile, "shape" | "radius">): Mm =>
  shape === "ogee" ? 2 * radius : radius;

/** What a bit with a bearing takes off its upper edges, each from end to end. The bit is as it is bought: nothing of it is rounded. */
export function mouldedEdges(part: Part): Feature[] {
  const { profile } = part;
  if (profile === null) return [];
  return profile.edges.map((edge): Feature => {
    const lo: [Mm, Mm, Mm] = [...part.box[0]];
    const hi: [Mm, Mm, Mm] = [...part.box[1]];
    trim(lo, hi, edge, takesOf(profile));
    trim(lo, hi, part.frame.t, takesOf(profile));
    return {
      kind: "edge",
      face: edge,
      along: axisOf(edge) === axisOf(part.frame.w) ? axisOf(part.frame.l) : axisOf(part.frame.w),
      box: [lo, hi],
      ends: ["through", "through"],
      ...ALONE,
      profile: profile.shape,
      reason: profile.shape,
    };
  });
}

/** The corner that a mitre takes off: as wide as the part is thick, from end to end. */
export function mitreOf(part: Part): Feature[] {
  if (part.mitre === null) return [];
  const { edge, shorter } = part.mitre;
  const thick = axisOf(shorter);
  const lo: [Mm, Mm, Mm] = [...part.box[0]];
  const hi: [Mm, Mm, Mm] = [...part.box[1]];
  trim(lo, hi, edge, part.box[1][thick] - part.box[0][thick]);
  return [
    {
      kind: "mitre",
      face: edge,
      along: axisOf(part.frame.l),
      box: [lo, hi],
      ends: ["through", "through"],
      ...ALONE,
      shorter,
      reason: "mitred with the frame's return",
    },
  ];
}
