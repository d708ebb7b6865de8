/** What a job asks of the layouts of its sheets and boards. */
import type { Mm } from "../base/length.ts";

export type Layout = {
  seed: number;
  effort: LayoutEffort;
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
