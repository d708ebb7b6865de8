import type { Box } from "../../base/geometry.ts";
import type { SetPart } from "../../set/schema.ts";

/** Wood, or a knob, in the room. */
export type Body = { part: SetPart | null; words: string; box: Box };
