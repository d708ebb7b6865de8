/** Before anything is written: every character of every page must be one the lettering has. */
import { type Problem, ProblemsFound } from "../base/problem.ts";
import { missingCharacters, type Weight } from "../paper/lettering.ts";
import type { Page, Shape, TextShape } from "../paper/shape.ts";

/** A character by its look, where it has one, and its number, which a font or a text editor can be searched for. */
function nameOf(character: string): string {
  const number = `U+${character.codePointAt(0)!.toString(16).toUpperCase().padStart(4, "0")}`;
  return /[\p{C}\p{Z}]/u.test(character) ? number : `${character} (${number})`;
}

const VISIBLE_LENGTH = 60;

/** The text as a message can show it: on one line, without control characters, and not for pages on end. */
function shown(text: string): string {
  const letters = [...text.replace(/[\p{Cc}\p{Cs}\p{Zl}\p{Zp}]/gu, "\ufffd")];
  return letters.length > VISIBLE_LENGTH ? `${letters.slice(0, VISIBLE_LENGTH).join("")}\u2026` : letters.join("");
}

function letteringProblem(text: string, page: string): Problem | null {
  const missing = missingCharacters(text);
  if (missing.length === 0) return null;
  return {
    level: "error",
    kind: "input",
    where: null,
    found: `"${shown(text)}" on page "${page}" has characters that cannot be lettered: ${missing.map(nameOf).join(", ")}`,
    expected: "letters of Latin, Greek or Cyrillic writing, figures and common signs",
    remedy: "write it in these letters",
  };
}

function eachText(shapes: readonly Shape[], visit: (shape: TextShape) => void): void {
  for (const shape of shapes) {
    if (shape.kind === "text") visit(shape);
    if (shape.kind === "group") eachText(shape.shapes, visit);
  }
}

/** Throws every problem it finds; returns the weights that are used, heaviest last. */
export function checkLettering(pages: readonly Page[]): Weight[] {
  const seen = new Set<string>();
  const weights = new Set<Weight>();
  const problems: Problem[] = [];
  const check = (text: string, page: Page) => {
    if (seen.has(text)) return;
    seen.add(text);
    const problem = letteringProblem(text, page.key);
    if (problem !== null) problems.push(problem);
  };
  for (const page of pages) {
    check(page.title, page);
    eachText(page.shapes, (shape) => {
      weights.add(shape.weight);
      check(shape.text, page);
    });
  }
  if (problems.length > 0) throw new ProblemsFound(problems);
  return (["regular", "bold"] as const).filter((weight) => weights.has(weight));
}
