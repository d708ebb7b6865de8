/** Words in a row, as the platform's own list of languages sets them: "a, b and c", "a, b or c". One language, whatever the machine's. */

const AND = new Intl.ListFormat("en-GB", { type: "conjunction" });
const OR = new Intl.ListFormat("en-GB", { type: "disjunction" });

export const listInWords = (words: readonly string[]): string => AND.format(words);
export const choiceInWords = (words: readonly string[]): string => OR.format(words);
