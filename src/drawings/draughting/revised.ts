/** Which figures of a text an earlier set did not print: the words of both are laid side by side, and what is new stands in a cloud. */
import type { DryfitSet, SetPart } from "../../set/schema.ts";
import { type Atom, glue } from "./cell.ts";
import { clouded, revisionTag } from "./cloud.ts";

/** The set that changes are told against, and the letter that tells them. */
export type Earlier = { set: DryfitSet; letter: string };

export const earlierOf = (set: DryfitSet, older: DryfitSet | null): Earlier | null =>
  older === null ? null : { set: older, letter: set.job.revision };

/** What these marks were in the earlier set; a part that is new was nothing. */
export const partsBefore = ({ set }: Earlier, marks: readonly string[]): SetPart[] =>
  set.parts.filter(({ mark }) => marks.includes(mark));

type Placed = Exclude<Atom, { kind: "break" }>;

const leavesOf = (atoms: readonly Atom[]): Placed[] =>
  atoms.flatMap((atom): Placed[] => {
    if (atom.kind === "break") return [];
    return atom.kind === "drawn" && atom.glued !== undefined ? leavesOf(atom.glued.atoms) : [atom];
  });

const keyOf = (atom: Placed): string => (atom.kind === "word" ? atom.text : JSON.stringify(atom.shapes));

/** Of a list, those that the longest common run of both, in order, leaves out. */
function missing(now: readonly string[], before: readonly string[]): Set<number> {
  const longest = Array.from({ length: now.length + 1 }, () => new Array<number>(before.length + 1).fill(0));
  for (let i = now.length - 1; i >= 0; i--) {
    for (let j = before.length - 1; j >= 0; j--) {
      longest[i]![j] =
        now[i] === before[j] ? longest[i + 1]![j + 1]! + 1 : Math.max(longest[i + 1]![j]!, longest[i]![j + 1]!);
    }
  }
  const left = new Set<number>();
  let j = 0;
  now.forEach((one, i) => {
    while (j < before.length && one !== before[j] && longest[i]![j + 1]! > longest[i + 1]![j]!) j += 1;
    if (j < before.length && one === before[j]) j += 1;
    else left.add(i);
  });
  return left;
}

/** A length, its decimal, or the word that a groove has in place of one. */
const isFigure = (atom: Placed): boolean => atom.isFigure === true || (atom.kind === "word" && atom.text === "through");

/** Figures that stand beside each other in one list share a cloud. */
function inClouds(atoms: readonly Atom[], isNew: (atom: Placed) => boolean): Atom[] {
  const told: Atom[] = [];
  let open: Placed[] = [];
  const close = (): void => {
    if (open.length > 0) told.push(clouded(open.length === 1 ? open[0]! : (glue(open) as Placed)));
    open = [];
  };
  for (const atom of atoms) {
    if (atom.kind !== "break" && isNew(atom)) {
      open.push(atom);
      continue;
    }
    close();
    const isGlued = atom.kind === "drawn" && atom.glued !== undefined && leavesOf([atom]).some(isNew);
    told.push(isGlued ? glue(inClouds(atom.glued!.atoms, isNew), atom.glued!.gap) : atom);
  }
  close();
  return told;
}

/** The figures that one of the texts before did not have there, each in a cloud. Where there was no text before, all is new, and nothing is told from the rest. */
export function revised(atoms: readonly Atom[], before: readonly (readonly Atom[])[]): Atom[] {
  const leaves = leavesOf(atoms);
  const keys = leaves.map(keyOf);
  const fresh = new Set<Placed>();
  for (const text of before) {
    for (const i of missing(keys, leavesOf(text).map(keyOf))) if (isFigure(leaves[i]!)) fresh.add(leaves[i]!);
  }
  return fresh.size === 0 ? [...atoms] : inClouds(atoms, (atom) => fresh.has(atom));
}

/** Whether any atom of these is in a cloud. */
export const isClouded = (atoms: readonly Atom[], plain: readonly Atom[]): boolean =>
  leavesOf(atoms).map(keyOf).join() !== leavesOf(plain).map(keyOf).join();

/** A line of notes, as it is compared. */
type Line = { keys: string[]; marks: readonly string[] };

/** The marks a line begins with: "3, 5 and 8: groove ..." */
function marksOf(leaves: readonly Placed[]): string[] {
  const end = leaves.findIndex((atom) => atom.kind !== "word" || atom.weight !== "bold" || atom.text.endsWith(":"));
  const last = leaves[end];
  if (last?.kind !== "word" || !last.text.endsWith(":")) return [];
  return leaves.slice(0, end + 1).flatMap((atom) => (atom.kind === "word" ? (/^\d+/.exec(atom.text)?.[0] ?? []) : []));
}

const lineOf = (atoms: readonly Atom[]): Line => {
  const leaves = leavesOf(atoms);
  return { keys: leaves.map(keyOf), marks: marksOf(leaves) };
};

/** What of a line is in none of some others: in the one it has most in common with, which must be half of it. */
function freshIn({ keys }: Line, others: readonly Line[]): Iterable<number> {
  const left = others.map((one) => missing(keys, one.keys));
  const fewest = Math.min(...left.map(({ size }) => size));
  return fewest * 2 > keys.length ? keys.keys() : left.find(({ size }) => size === fewest)!;
}

/**
 * The same of lines of notes, which part and join as parts come to be cut alike: a line is laid beside what was said of
 * each of its marks. One with a new figure begins with the letter.
 */
export function revisedLines(
  lines: readonly (readonly Atom[])[],
  before: readonly (readonly (readonly Atom[])[])[],
  letter: string,
): Atom[][] {
  const texts = before.map((text) => text.map(lineOf));
  return lines.map((atoms) => {
    const line = lineOf(atoms);
    const leaves = leavesOf(atoms);
    const fresh = new Set<Placed>();
    for (const then of texts) {
      const ofMarks = line.marks
        .map((mark) => then.filter(({ marks }) => marks.includes(mark)))
        .filter((some) => some.length > 0);
      for (const others of ofMarks.length > 0 ? ofMarks : [then]) {
        for (const at of freshIn(line, others)) if (isFigure(leaves[at]!)) fresh.add(leaves[at]!);
      }
    }
    return fresh.size === 0 ? [...atoms] : [revisionTag(letter), ...inClouds(atoms, (atom) => fresh.has(atom))];
  });
}
