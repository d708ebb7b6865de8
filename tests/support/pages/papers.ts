/** The papers that drawings are tested on, and a set put on one of them. */
import type { DryfitSet } from "../../../src/set/schema.ts";

export const PAPERS = {
  letter: [279.4, 215.9],
  a4: [297, 210],
  tabloid: [431.8, 279.4],
  a3: [420, 297],
  "letter upright": [215.9, 279.4],
  "a4 upright": [210, 297],
  "tabloid upright": [279.4, 431.8],
  "a3 upright": [297, 420],
} as const;

export type PaperName = keyof typeof PAPERS;
export const PAPER_NAMES = Object.keys(PAPERS) as PaperName[];
export const UPRIGHT = PAPER_NAMES.filter((name) => PAPERS[name][0] < PAPERS[name][1]);
export const LYING = PAPER_NAMES.filter((name) => !UPRIGHT.includes(name));

export function onPaper(set: DryfitSet, name: PaperName): DryfitSet {
  const [width, height] = PAPERS[name];
  return { ...set, paper: { ...set.paper, drawings: { name, width, height } } };
}
