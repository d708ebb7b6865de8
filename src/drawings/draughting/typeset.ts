/** Signs that the face has, in place of the letters that a keyboard has: what the set holds as plain text is lettered with them. */

const FIGURE = String.raw`\d[^\s,;]*`;
/** What stands before a multiplication sign: a figure with its unit or none, or a word of a formula. */
const FACTOR = new RegExp(String.raw`(?<=(?:${FIGURE}(?: in| mm)?|[Ww]idth|[Ll]ength|coefficient)) x (?=\S)`, "g");

/** "-8.750", "96 x 48 in", "width x coefficient" with a minus and multiplication signs; "along x" as it is. */
export const typeset = (content: string): string =>
  content.replace(FACTOR, " \u00d7 ").replace(/(?<=^|[\s(])-(?=\d)/g, "\u2212");
