/** The views of parts on a drawing: each face with its names, its dimensions and the marks of what enters. */
import { type DimensionRow, dimensionRows, type Way } from "./dimensions.ts";
import { type Outline, outlinesOn, titleTop } from "./outline.ts";
import { isDrawnWith, type SeenPage, type Spot } from "./page.ts";
import { type Line, linesOfProse, type Prose, proseOf, textOfProse } from "./prose.ts";
import { type ScrewTable, screwTablesOn } from "./screw-table.ts";

type Word = SeenPage["words"][number];
export type Side = "left" | "right" | "above" | "below";

/** Marks at a place along a side: what enters there. */
export type Letters = { way: Way; at: number; marks: string[]; word: Word };

export type FaceView = {
  outline: Outline;
  mark: string | null;
  face: string | null;
  sides: Partial<Record<Side, string>>;
  rows: DimensionRow[];
  letters: Letters[];
};

/** A section or a detail: hatched all over. */
export type SectionView = { outline: Outline; rows: DimensionRow[] };

export type PartPage = {
  unit: "mm" | "in";
  step: number;
  faces: FaceView[];
  sections: SectionView[];
  prose: Prose[];
  tables: ScrewTable[];
  page: SeenPage;
};

const FULL = 0.6; // of a view hatched: more, and it is a section
const FROM_OUTLINE = 1; // where an extension line begins

export function readPartPage(page: SeenPage): PartPage {
  const bottom = titleTop(page);
  const { unit, step } = unitOf(page);
  const rows = dimensionRows(page);
  const used = new Set<Word>(
    rows.flatMap(({ dimensions, zero }) => [
      ...dimensions.map(({ figure }) => figure.token),
      ...(zero === null ? [] : [zero.token]),
    ]),
  );
  const tables = screwTablesOn(page, unit);
  for (const word of tables.flatMap(({ words }) => words)) used.add(word);
  const faces: FaceView[] = [];
  const sections: SectionView[] = [];
  for (const outline of outlinesOn(page)) {
    const own = rows.filter(({ ends }) => ends.some((end) => isBeside(outline, end)));
    if (!isMeasured(own, outline) || outline.cut > FULL) {
      sections.push({ outline, rows: own });
      continue;
    }
    const letters = lettersOf(page, outline);
    for (const { word } of letters) used.add(word);
    faces.push({ outline, ...namesIn(page, outline, used), rows: own, letters });
  }
  // Brackets stand by their figures.
  const isLoose = (word: Word): boolean =>
    !used.has(word) &&
    word.y1 < bottom &&
    ![...used].some(
      (one) =>
        (word.text === "(" || word.text === ")") &&
        Math.abs(one.y1 - word.y1) < 0.1 &&
        (Math.abs(one.x0 - word.x1) < 0.6 || Math.abs(word.x0 - one.x1) < 0.6),
    );
  const loose = page.words.filter(isLoose).filter((word) => !isInside(faces, word) && !isBySection(sections, word));
  const titled = titlesUnder(sections, loose);
  const prose = proseOf(loose.filter((word) => !titled.words.includes(word))).filter(
    (block) => !nameUnder(faces, titled.untitled, block),
  );
  return { unit, step, faces, sections, prose, tables, page };
}

const NAME_UNDER =
  /^(\d+)(?: [LR],)? ([a-z]+ face)((?:; [a-z]+ (?:end|edge) (?:above|below|at the left|at the right))*)$/;

const TITLE_OFF = 5; // at most, from a section to the foot of its title
const NAME_OFF = 12; // so near over a section, a name could be its title

/** The titles right under sections, from their left edges; and the sections that have none. */
function titlesUnder(
  sections: readonly SectionView[],
  words: readonly Word[],
): { words: Word[]; untitled: SectionView[] } {
  const titles = linesOfProse(words).filter(({ text }) => /^section (along the length|across)$/.test(text));
  const isUnder = ({ x0, y }: Line, { outline }: SectionView): boolean =>
    Math.abs(x0 - outline.x0) < 0.2 && y > outline.y1 && y - outline.y1 < TITLE_OFF;
  for (const title of titles)
    if (!sections.some((section) => isUnder(title, section))) throw new Error(`under no section: ${title.text}`);
  return {
    words: titles.flatMap((title) => title.words),
    untitled: sections.filter((section) => !titles.some((title) => isUnder(title, section))),
  };
}

/** The name of a face that has no room for it stands under its view, at its left; a section right under the name has a title of its own, or would take it. */
function nameUnder(faces: readonly FaceView[], untitled: readonly SectionView[], block: Prose): boolean {
  const match = NAME_UNDER.exec(textOfProse(block));
  if (match === null) return false;
  const [, mark, face, names] = match;
  const over = faces
    .filter(({ outline }) => Math.abs(outline.x0 - block.x0) < 0.2 && outline.y1 < block.y0)
    .sort((a, b) => b.outline.y1 - a.outline.y1)[0];
  if (over === undefined) throw new Error(`under no view: ${match[0]}`);
  const isOverUntitled = untitled.some(
    ({ outline: { x0, x1, y0 } }) => x0 < block.x1 && block.x0 < x1 && y0 > block.y1 && y0 - block.y1 < NAME_OFF,
  );
  if (isOverUntitled) throw new Error(`reads as the title of the section under it: ${match[0]}`);
  over.mark = mark!;
  over.face = face!;
  for (const [, name, side] of names!.matchAll(/; ([a-z]+ (?:end|edge)) (above|below|at the left|at the right)/g)) {
    over.sides[side!.replace("at the ", "") as Side] = name!;
  }
  return true;
}

/** A face is measured over it and at its left; a detail at its right alone. */
const isMeasured = (rows: readonly DimensionRow[], { x0, y0 }: Outline): boolean =>
  rows.some(({ ends }) => ends.some(([, y]) => Math.abs(y - y0 + FROM_OUTLINE) < 0.03)) &&
  rows.some(({ ends }) => ends.some(([x]) => Math.abs(x - x0 + FROM_OUTLINE) < 0.03));

const isInside = (faces: readonly FaceView[], word: Word): boolean =>
  faces.some(({ outline: { x0, x1, y0, y1 } }) => word.x0 > x0 && word.x1 < x1 && word.y1 > y0 && word.y1 < y1);

/** Marks over and under a detail: bold, and larger than words. */
const isBySection = (sections: readonly SectionView[], word: Word): boolean =>
  word.bold &&
  word.size > 3.4 &&
  word.size < 3.6 &&
  /^\d+(, \d+)*$/.test(word.text) &&
  sections.some(
    ({ rows, outline: { x0, x1, y0, y1 } }) =>
      rows.length > 0 && word.x1 > x0 - 12 && word.x0 < x1 + 12 && word.y1 > y0 - 8 && word.y0 < y1 + 8,
  );

function unitOf(page: SeenPage): { unit: "mm" | "in"; step: number } {
  for (const { text } of page.words) {
    const match = /^(mm|in), to (?:(\d+)\/(\d+)|(\d+(?:\.\d+)?))$/.exec(text);
    if (match === null) continue;
    const [, unit, over, under, decimal] = match;
    return { unit: unit as "mm", step: decimal === undefined ? Number(over) / Number(under) : Number(decimal) };
  }
  throw new Error("no unit in the title block");
}

/** One millimetre off an edge of the outline, in line with it. */
function isBeside({ x0, x1, y0, y1 }: Outline, [x, y]: Spot): boolean {
  const is = (a: number, b: number): boolean => Math.abs(a - b) < 0.03;
  const inX = x > x0 - 0.03 && x < x1 + 0.03;
  const inY = y > y0 - 0.03 && y < y1 + 0.03;
  return (
    (inX && (is(y, y0 - FROM_OUTLINE) || is(y, y1 + FROM_OUTLINE))) ||
    (inY && (is(x, x0 - FROM_OUTLINE) || is(x, x1 + FROM_OUTLINE)))
  );
}

const EDGE = /^(left|right|front|back|bottom|top) (end|edge)$/;
const FACE = /^(left|right|front|back|bottom|top|inside|outside|upper|lower) face$/;
const LABEL = /^(\d+)(?: [LR],?)?(?: (.+))?$/;

function namesIn(page: SeenPage, outline: Outline, used: Set<Word>): Pick<FaceView, "mark" | "face" | "sides"> {
  const { x0, x1, y0, y1 } = outline;
  const isIn = (one: { x0: number; x1: number; y0: number; y1: number }): boolean =>
    one.x0 > x0 && one.x1 < x1 && one.y0 > y0 - 0.01 && one.y1 < y1 + 0.01;
  let mark: string | null = null;
  let face: string | null = null;
  const sides: FaceView["sides"] = {};
  for (const word of page.words.filter(isIn)) {
    if (EDGE.test(word.text)) {
      sides[word.y0 - y0 < y1 - word.y1 ? "above" : "below"] = word.text;
      used.add(word);
    } else if (word.bold && FACE.test(word.text)) {
      face = word.text;
      used.add(word);
    } else if (word.bold) {
      const label = LABEL.exec(word.text);
      if (label === null || (label[2] !== undefined && !FACE.test(label[2]))) continue;
      mark = label[1]!;
      face = label[2] ?? face;
      used.add(word);
    }
  }
  for (const word of page.upright.filter(isIn)) {
    if (EDGE.test(word.text)) sides[word.x0 - x0 < x1 - word.x1 ? "left" : "right"] = word.text;
  }
  return { mark, face, sides };
}

const TEXT_GAP = 0.9;

/** Marks stand below and on the right, each at the end of a thin line that begins beside the view. */
function lettersOf(page: SeenPage, outline: Outline): Letters[] {
  const thin = page.strokes.filter((one) => isDrawnWith(one, "thin"));
  const marks = page.words.filter((word) => word.bold && word.size > 3.4 && /^(\d+(, \d+)*|–)$/.test(word.text));
  const found: Letters[] = [];
  for (const word of marks) {
    const height = word.size;
    for (const way of ["x", "y"] as const) {
      const tip: Spot =
        way === "x"
          ? [(word.x0 + word.x1) / 2, word.y1 - height - TEXT_GAP]
          : [word.x0 - TEXT_GAP, word.y1 - height / 2];
      const start = followIn(thin, tip, way, outline);
      if (start !== null) found.push({ way, at: start, marks: word.text.split(", "), word });
    }
  }
  return found;
}

/** From the outer end of a mark's line back to where it begins, one millimetre off the view. */
function followIn(thin: SeenPage["strokes"], tip: Spot, way: Way, outline: Outline): number | null {
  const out = way === "x" ? 1 : 0;
  const edge = (way === "x" ? outline.y1 : outline.x1) + FROM_OUTLINE;
  let at = tip;
  for (let step = 0; step < 4; step++) {
    const along = at[1 - out]!;
    const [low, high] = way === "x" ? [outline.x0, outline.x1] : [outline.y0, outline.y1];
    if (Math.abs(at[out]! - edge) < 0.03) return along > low - 0.03 && along < high + 0.03 ? along : null;
    const next = thin
      .flatMap(
        ({ from, to }) =>
          [
            [from, to],
            [to, from],
          ] as const,
      )
      .find(([a, b]) => Math.abs(a[0] - at[0]) < 0.05 && Math.abs(a[1] - at[1]) < 0.05 && b[out]! < a[out]! - 1e-3);
    if (next === undefined) return null;
    at = next[1];
  }
  return null;
}

export const wordsOfPage = ({ prose }: PartPage): string[] => prose.map(textOfProse);
