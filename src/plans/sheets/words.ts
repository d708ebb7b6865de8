/** What the paper says of a layout: how many sheets or boards, and how it is known that they are the fewest. */
import type { SetSheet } from "../../set/schema.ts";
import type { Bound } from "../layout/bound.ts";
import type { Mix } from "../layout/mix.ts";
import type { Noun } from "./piece.ts";

/** How good the layout is, and how that is known. `rack`: how many sizes and offcuts there are. */
export function wordsOf(
  { taken, proof }: Mix,
  rack: { sizes: number; offcuts: number },
  bought: number,
  noun: Noun,
): Pick<SetSheet, "bound" | "boundText" | "boundProof"> {
  const offcuts = taken.length - bought;
  const beside = offcuts === 0 ? "" : ` beside ${offcuts === 1 ? "1 offcut" : `${offcuts} offcuts`} of the rack`;
  if (proof === null) {
    return {
      bound: 1,
      boundText: `${count(bought, noun)}${beside}: the cheapest found of ${rack.sizes} sizes`,
      boundProof: "",
    };
  }
  const { least } = proof;
  if (bought === 0)
    return {
      bound: least,
      boundText: `0 ${noun}s to buy: ${offcuts === 1 ? "1 offcut holds" : `${offcuts} offcuts hold`} them`,
      boundProof: "",
    };
  return {
    bound: least,
    boundText: boundText(bought, least, noun, beside),
    boundProof: rack.offcuts > 0 ? proofBeside(proof, rack.offcuts, noun) : boundProof(proof, noun),
  };
}

const count = (n: number, noun: Noun): string => (n === 1 ? `1 ${noun}` : `${n} ${noun}s`);

function boundText(sheets: number, bound: number, noun: Noun, beside: string): string {
  const those = `${count(sheets, noun)}${beside}`;
  if (sheets > bound) return `${those}; at most ${sheets - bound} over the least`;
  if (sheets === 1) return those;
  return `${those}: proved the least; ${sheets - 1} cannot hold ${beside === "" ? "them" : "the rest"}`;
}

/** So that it can be added up again: each part's length and width taken by the two functions, as shares of the sheet's, multiplied. */
const boundProof = ({ least, sum, lengths, widths }: Bound, noun: Noun): string =>
  least < 2
    ? ""
    : `Least number: lengths by ${lengths}, widths by ${widths}, a kerf added to each, the parts come to ${sum.toFixed(3)} ${noun}s, and no ${noun} holds more than 1.`;

/** The offcuts of the rack count as full. */
const proofBeside = ({ least, sum, lengths, widths }: Bound, offcuts: number, noun: Noun): string =>
  least < 2
    ? ""
    : `Least number: lengths by ${lengths}, widths by ${widths}, a kerf added to each, the parts come to ${sum.toFixed(3)} ${noun}s more than the ${offcuts === 1 ? "offcut holds" : `${offcuts} offcuts hold`} by the same, and no ${noun} holds more than 1.`;
