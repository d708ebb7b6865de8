/** How a message writes what it found in a file. */
import { choiceInWords } from "../../base/words.ts";

export type Path = readonly (string | number)[];

/** ["cases", 0, "width"] as "cases[0].width". */
export const pathText = (path: Path): string =>
  path.reduce<string>((text, step) => {
    if (typeof step === "number") return `${text}[${step}]`;
    return text === "" ? step : `${text}.${step}`;
  }, "");

const LONGEST = 60;

/** Text from a file, quoted and shortened, with nothing in it that a terminal would obey or a reader not see. */
export function quote(text: string): string {
  const short = text.length > LONGEST ? `${text.slice(0, LONGEST - 3)}...` : text;
  return JSON.stringify(short).replace(/[\p{Cc}\p{Cf}\p{Cs}\p{Zl}\p{Zp}]/gu, (character) =>
    character
      .split("")
      .map((unit) => `\\u${unit.charCodeAt(0).toString(16).padStart(4, "0")}`)
      .join(""),
  );
}

/** A value of a file in few words. */
export function valueText(value: unknown): string {
  if (typeof value === "string") return quote(value);
  if (Array.isArray(value)) return `a list of ${value.length}`;
  if (typeof value === "object" && value !== null) return "an object { }";
  return String(value);
}

/** "a", "b" or "c". */
export const choice = (words: readonly string[]): string => choiceInWords(words.map(quote));
