/** What a job asks of the layouts of its sheets and boards. */
import type { Mm } from "../base/length.ts";

/** `levels`: of cutting, beyond which only a sheet saved is worth going; null: as is usual for so many parts. `first`: what each sheet is cut by first; null: whichever serves best. */
export type Layout = {
  seed: number;
  effort: LayoutEffort;
  levels: number | null;
  first: "rip" | "crosscut" | null;
  keep: Keep | null;
  grain: (Named & { grain: "wish" | "none" })[];
  together: (Named & { must: boolean })[];
  oversize: (Named & { length: Mm; width: Mm })[];
  early: Named | null;
};

/** Parts by role or key, in words of the file. */
export type Named = { path: string; parts: string[] };

/** The least offcut worth keeping; null: as is usual. */
export type Keep = { length: Mm; width: Mm };

/** How long better layouts are looked for; of normal effort no job waits longer than a second or two. */
export type LayoutEffort = "quick" | "normal" | "long";
