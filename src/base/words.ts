/** Words in a row, as the platform's own list of languages sets them: "a, b and c", "a, b or c". One language, whatever the machine's. */

const AND = new Intl.ListFormat("en-GB", { type: "conjunction" });
const OR = new Intl.ListFormat("en-GB", { type: "disjunction" });

export const listInWords = (words: readonly string[]): string => AND.format(words);
/** "shelves", "filler strips", "ribs of the plinth": as many of the trade's nouns want it. */
export function pluralOf(noun: string): string {
  const [, head, of] = /^(.+?)( of .+)?$/.exec(noun)!;
  if (head!.endsWith("shelf")) return `${head!.slice(0, -1)}ves${of ?? ""}`;
  return `${head}${/(s|x|ch|sh)$/.test(head!) ? "es" : "s"}${of ?? ""}`;
}
export const choiceInWords = (words: readonly string[]): string => OR.format(words);
