/** The kinds of field that the project file and the shop's files are made of. */
import { z } from "zod";
import { readLoad } from "../file/load.ts";
import { readMass } from "../file/mass.ts";

/** What a field's error carries: what is expected, and what to try. */
export const says = (expected: string, remedy: string): { error: string } => ({ error: `${expected}\n${remedy}` });

export const twoWays = (a: string, b: string): { error: string } => says(`"${a}" or "${b}"`, "choose one of the two");

/** The two halves of what `says` joined; null for a sentence of the library's own. */
export function saidBy(message: string): { expected: string; remedy: string } | null {
  const [expected, remedy] = message.split("\n");
  return expected === undefined || remedy === undefined ? null : { expected, remedy };
}

const textSays = says(
  "text on one line, in double quotes",
  "write some text; leave the key out where it may be left out",
);
/** One line of text with something in it; markup characters are only characters, control characters are not text. */
export const text = z
  .string(textSays)
  .max(500, says("text of at most 500 characters", "shorten it"))
  .regex(/^[^\p{Cc}\p{Cs}\p{Zl}\p{Zp}]*[^\p{Cc}\p{Cs}\p{Z}][^\p{Cc}\p{Cs}\p{Zl}\p{Zp}]*$/u, textSays);

const MOST_ALIKE = 50;
const countSays = says(`a whole number from 1 to ${MOST_ALIKE}`, "write it like 2, without quotes");
export const count = z.number(countSays).int(countSays).min(1, countSays).max(MOST_ALIKE, countSays);

export const yesOrNo = z.boolean(says("true or false", "write it without quotes"));

const minutesSays = says("minutes above zero, at most a day", "write it like 10, without quotes");
export const minutes = z.number(minutesSays).positive(minutesSays).max(1440, minutesSays);

const loadSays = says(
  "a load on a length of shelf, above zero and at most 1000 kg/m",
  'write it like "20 lb/ft" or "30 kg/m"',
);
/** Load on a length of shelf, as text. */
export const shelfLoad = z
  .string(loadSays)
  .refine((written) => readLoad(written) !== null, loadSays)
  .describe('what a running length of shelf carries, such as "20 lb/ft" or "30 kg/m"');

const massSays = says("a mass above zero, at most 500 kg", 'write it like "20 lb" or "45 kg"');
export const mass = z.string(massSays).refine((written) => readMass(written) !== null, massSays);

/** How small a length field may be. A length's value is read after its shape is checked, when the job's unit is known. */
export type LengthKind = { least: "above zero" | "zero" | "any" };
export const lengthKinds = z.registry<LengthKind>();

const someLength = (kind: LengthKind) =>
  z
    .union(
      [z.number(), z.string()],
      says('a length, such as 30, "30 1/4" or "762 mm"', "write a number in the job's unit, or text with a unit"),
    )
    .register(lengthKinds, kind);

export const size = someLength({ least: "above zero" });
export const lengthOrZero = someLength({ least: "zero" });
export const length = someLength({ least: "any" });

/** Fields that name a stock: which one stands in the lists is looked up when the file's shape is checked. */
export const stockIds = z.registry<{ names: "a stock" }>();
export const stockId = (what = "id of a stock, from shared/stock.json or this job's own") =>
  text.describe(what).register(stockIds, { names: "a stock" });
