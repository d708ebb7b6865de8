/** Grooves that a door slides in: cut into parts that it does not belong to, and never filled. */
import type { DryfitSet, SetFeature, SetPart } from "./schema.ts";

type Known = Pick<DryfitSet, "parts" | "sliders">;

/** Marks of the parts of every sliding door. */
export function sliding({ parts, sliders }: Known): ReadonlySet<string> {
  const doors = new Set(sliders.flatMap((one) => one.doors.map(({ assembly }) => assembly)));
  return new Set(parts.filter(({ assembly }) => doors.has(assembly)).map(({ mark }) => mark));
}

/** `slides`: what `sliding` found. A door's own grooves hold its own parts. */
export const isSlideway = (part: SetPart, { kind, holds }: SetFeature, slides: ReadonlySet<string>): boolean =>
  kind === "groove" && holds !== null && slides.has(holds) && !slides.has(part.mark);
