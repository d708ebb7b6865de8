/** Jobs of plywood casework like the reference jobs, drawn from other seeds: cases of two depths, each with its sides, panels and shelves. */
import { randomFrom } from "../../../src/plans/layout/random.ts";
import type { LayoutPiece } from "../../../src/plans/sheets/index.ts";
import { type ReferenceJob, stockOf } from "./reference-jobs.ts";

const COUNTS = [10, 10, 16, 20, 20, 25, 30, 30, 40, 40, 50, 60, 60, 80, 80, 100, 100, 120, 150, 150, 200, 200];
const GRAINS = ["fixed", "free", "mixed"] as const;
const WIDTHS = [300, 400, 450, 500, 600, 800, 900, 1000]; // of cases
const SHALLOW = { depth: 300, heights: [400, 600, 720, 900, 1200, 1800] };
const DEEP = { depth: 560, heights: [720, 780, 2100] };
const RAIL = [100, 120, 140] as const;

type Sized = { length: number; width: number; copies: number };

/** Two sides, bottom and top housed in them, shelves a little short and shallow, a kick or two rails. */
function caseOf(random: ReturnType<typeof randomFrom>): Sized[] {
  const { depth, heights } = random.once(2) ? DEEP : SHALLOW;
  const inside = WIDTHS[random.below(WIDTHS.length)]! - 24;
  return [
    { length: heights[random.below(heights.length)]!, width: depth, copies: 2 },
    { length: inside, width: depth, copies: 2 },
    { length: inside - 3, width: depth - 20, copies: random.below(5) },
    { length: inside, width: RAIL[random.below(RAIL.length)]!, copies: random.below(3) },
  ];
}

export const freshJobs = (): ReferenceJob[] =>
  COUNTS.map((count, job) => {
    const random = randomFrom(7001 + job);
    const grain = GRAINS[job % GRAINS.length]!;
    const pieces: (LayoutPiece & { turn: boolean })[] = [];
    while (pieces.length < count) {
      for (const { length, width, copies } of caseOf(random)) {
        const turn = grain === "free" || (grain === "mixed" && random.once(2));
        for (let c = 0; c < copies && pieces.length < count; c++) {
          const id = `${pieces.length + 1}`;
          pieces.push({ id, mark: id, stock: "ply", length, width, turn });
        }
      }
    }
    const stock = random.once(3) ? stockOf(3050, 1525, 10, true) : stockOf(2440, 1220, 10, true);
    return { id: `fresh-${count}-${grain}-${job}`, kerf: 3, stock, pieces };
  });
