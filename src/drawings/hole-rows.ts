/** The rows of holes drilled into a part, as its drawing dimensions and words them. */
import type { DryfitSet, SetDrilling, SetPart } from "../set/schema.ts";

export type HoleRow = { drilling: SetDrilling; row: SetDrilling["rows"][number] };

export const holeRows = (set: DryfitSet, part: SetPart): HoleRow[] =>
  set.drilling.flatMap((drilling) =>
    drilling.rows.filter((row) => row.mark === part.mark).map((row) => ({ drilling, row })),
  );
