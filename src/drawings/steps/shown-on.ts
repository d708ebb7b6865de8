/** On which drawings a step finds what it is done by. */
import type { SetStep } from "../../set/schema.ts";
import type { Draft } from "../draughting/draft.ts";

type Noun = SetStep["drawings"][number];

/** Numbers of drawings from first to last, one pair for each run of them; none for what is no drawing of the set. */
export type PagesOf = (noun: Noun) => (readonly [number, number])[];

const isUnder =
  (bookmark: string) =>
  (draft: Draft): boolean =>
    draft.bookmark[0] === bookmark;
const isNamed =
  (pattern: RegExp) =>
  ({ key, also = [] }: Draft): boolean =>
    [key, ...also].some((one) => pattern.test(one));

const SPECIAL = /^(face-frame|door|sliding-doors|track|drawer|front-views?-with|taken-apart)/;

const SHOWN: Record<Noun, (draft: Draft) => boolean> = {
  views: (draft) => isUnder("Views")(draft) && !isNamed(SPECIAL)(draft),
  "taken apart": isNamed(/^taken-apart/),
  "face frame": isNamed(/^face-frame/),
  doors: isNamed(/^(door|sliding-doors|track|front-views?-with)/),
  drawers: isNamed(/^drawer/),
  worktop: isNamed(/^worktop/),
  "purchase list": isUnder("Purchase list"),
  "thickness and rounding": isUnder("Thickness and rounding"),
  "cut list": isUnder("Cut list"),
  "sheet layouts": isNamed(/^sheet-layout/),
  "board layouts": isNamed(/^board-layout/),
  settings: isUnder("Settings"),
  "part drawings": isUnder("Part drawings"),
  "story sticks": () => false,
};

/** `from`: the number of the first of these drawings. */
export const pagesAmong =
  (drafts: readonly Draft[], from: number): PagesOf =>
  (noun) => {
    const runs: [number, number][] = [];
    drafts.forEach((draft, i) => {
      if (!SHOWN[noun](draft)) return;
      const last = runs.at(-1);
      if (last !== undefined && last[1] === from + i - 1) last[1] = from + i;
      else runs.push([from + i, from + i]);
    });
    return runs;
  };
