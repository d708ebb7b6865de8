/** What is wrong with text that is not JSON, in a maker's words. */
import { type ParseErrorCode, printParseErrorCode } from "jsonc-parser";
import { quote } from "./words.ts";

export type Fault = { found: string; expected: string; remedy: string };

const INCH_MARK: Fault = {
  found: "a quote right after a closing quote",
  expected: "a comma, or the end of the entry",
  remedy: 'write an inch mark inside text as \\", or write "in"',
};

/** What a complaint points at, and what stands around it. */
type Spot = { before: string; text: string; after: string };

export const TRAILING_COMMA: Fault = {
  found: "a comma with nothing after it",
  expected: "a comma only between two entries",
  remedy: "take the comma out",
};

const STRAY = "check the quotes, commas and brackets of this line and the one before";

/** A bare word, or what follows a number: the two slips that deserve their own remedy. */
function symbolFault({ text, after }: Spot): Fault {
  const found = `found ${quote(text)}`;
  if (/^\s*:/.test(after))
    return { found, expected: "a key in double quotes", remedy: `write ${quote(text.replace(/'/g, ""))}` };
  if (/^\.\d/.test(text)) return { found, expected: "a number such as 12 or 12.5", remedy: `write 0${text}` };
  return { found, expected: "a number, text in double quotes, { or [", remedy: "put text in double quotes" };
}

/** After these the parser has lost the thread, and whatever else it complains of is guesswork. */
export const isLastWord = (code: ParseErrorCode): boolean => printParseErrorCode(code).startsWith("UnexpectedEndOf");

/** One parser complaint, and the text it points at. */
export function faultOf(code: ParseErrorCode, spot: Spot): Fault {
  const { text, before } = spot;
  if (text.startsWith('"') && before.endsWith('"')) return INCH_MARK;
  const found = text.trim() === "" ? "the text ends here" : `found ${quote(text)}`;
  switch (printParseErrorCode(code)) {
    case "CommaExpected":
      if (/^[\d/]/.test(text)) {
        return { found, expected: "a comma after the number", remedy: 'put a fraction in quotes: "3 1/4"' };
      }
      return { found, expected: "a comma before the next entry", remedy: "put a comma after the entry before" };
    case "ColonExpected":
      return { found, expected: "a colon after the key", remedy: 'write "key": value' };
    case "PropertyNameExpected":
      return { found, expected: "a key in double quotes", remedy: 'write "key": value, the key in double quotes' };
    case "ValueExpected":
      return { found, expected: "a value", remedy: "write a number, text in double quotes, { } or [ ]" };
    case "InvalidSymbol":
      return symbolFault(spot);
    case "InvalidNumberFormat":
    case "UnexpectedEndOfNumber":
      return { found, expected: "a number such as 12 or 12.5", remedy: 'put a fraction in quotes: "3 1/4"' };
    case "CloseBraceExpected":
      return { found, expected: 'a closing "}"', remedy: "close each { with a }" };
    case "CloseBracketExpected":
      return { found, expected: 'a closing "]"', remedy: "close each [ with a ]" };
    case "EndOfFileExpected":
      return { found, expected: "nothing after the closing bracket of the file", remedy: STRAY };
    case "InvalidCommentToken":
    case "UnexpectedEndOfComment":
      return { found: "a comment without an end", expected: "a comment closed by */", remedy: "put */ at its end" };
    case "UnexpectedEndOfString":
      return {
        found: "text without a closing quote",
        expected: "text in double quotes",
        remedy: 'put a " at its end; an inch mark inside text is written \\"',
      };
    case "InvalidUnicode":
    case "InvalidEscapeCharacter":
      return {
        found,
        expected: 'text in which \\ stands only before " \\ / b f n r t or u',
        remedy: "write a backslash as \\\\",
      };
    case "InvalidCharacter":
      return {
        found: "a control character inside text",
        expected: "text on one line",
        remedy: "take it out, or write a tab as \\t",
      };
    default:
      return { found, expected: "JSON", remedy: STRAY };
  }
}
