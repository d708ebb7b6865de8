/** Signs that the face has, in place of the letters that a keyboard has: what the set holds as plain text is lettered with them. */

const FIGURE = String.raw`\d[^\s,;]*`;
/** What stands before a multiplication sign: a figure with its unit or none, or a word of a formula. */
const FACTOR = new RegExp(String.raw`(?<=(?:${FIGURE}(?: in| mm)?|[Ww]idth|[Ll]ength|coefficient)) x (?=\S)`, "g");

/** "-8.750", "96 x 48 in", "width x coefficient" with a minus and multiplication signs; "along x" as it is. */
export const typeset = (content: string): string =>
  content.replace(FACTOR, " \u00d7 ").replace(/(?<=^|[\s(])-(?=\d)/g, "\u2212");

const WHOLE = /^[^\d\s]*\d+$/; // "24", "(24", "\u221224"
const OVER = /^\d+\/\d+/;
const MEASURED = /^[^\d\s]*\d[\d.,/]*$/; // "24", "5/32", "0.703", "1,016"
const UNIT = /^(?:in|ft|mm|cm|m|lb|kg|ml|lb\/ft|kg\/m|%|degrees?)(?![\w/])/;

/** The words of a text, a mixed number and its unit as one: "24 5/32 in" is never parted by a line's end. */
export function unparted(content: string): string[] {
  const kept: string[] = [];
  let before = ""; // the last word, alone
  for (const one of content.split(/\s+/)) {
    if (one === "") continue;
    const belongs = (WHOLE.test(before) && OVER.test(one)) || (MEASURED.test(before) && UNIT.test(one));
    if (belongs) kept[kept.length - 1] += ` ${one}`;
    else kept.push(one);
    before = one;
  }
  return kept;
}
