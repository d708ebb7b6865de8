/** What the figures of a set are made of. */
import { z } from "zod";

export const mm = z.number();
export const vec = z.tuple([mm, mm, mm]);
export const signedAxis = z.enum(["+x", "-x", "+y", "-y", "+z", "-z"]);
export const place = z
  .strictObject({ at: vec, l: signedAxis, w: signedAxis, t: signedAxis })
  .describe("Local origin and the direction of the local l, w and t axes, in the frame around");
export const face = z.enum(["l0", "l1", "w0", "w1", "t0", "t1"]);
export const axis = z.enum(["l", "w", "t"]);
export const mark = z.string();
/** Ranges along the length of an offcut. */
export const defects = z.array(z.strictObject({ from: mm, to: mm }));
export const paperSize = z.strictObject({ name: z.string(), width: mm, height: mm });
