/** What goes over the wood, coat by coat. */
import { z } from "zod";
import { readCoverage } from "../file/coverage.ts";
import { choice } from "../file/words.ts";
import { ROLES } from "../role.ts";
import { says, text, yesOrNo } from "./fields.ts";

const MOST_COATS = 12;
const coatsSays = says(`a whole number from 1 to ${MOST_COATS}`, "write it like 2, without quotes");
const coverageSays = says(
  "an area for an amount, as the data sheet gives it",
  'write it like "10 m2/l" or "400 sq ft/gal"',
);
const hoursSays = says("hours above zero, at most two weeks", "write it like 4, without quotes");
const kindSays = says('"film" or "oil"', "choose one of the two");
const partsSays = says(`a list of roles: ${choice(ROLES)}`, 'write it like ["stile", "rail"], or leave it out for all');
const finishSays = says(
  "a list of finishes",
  'write [{ "name": "primer", "coats": 1, "coverage": "10 m2/l", "dry": 4 }]',
);

export const finish = z
  .array(
    z.strictObject({
      name: text.describe("as it stands on the buying list"),
      kind: z
        .enum(["film", "oil"], kindSays)
        .optional()
        .describe(
          "film: lies on the wood, as paint and varnish do; oil: soaks in, and its rags can catch fire; film when left out",
        ),
      parts: z
        .array(z.enum(ROLES as [string, ...string[]], partsSays), partsSays)
        .min(1, partsSays)
        .optional()
        .describe("roles of the parts that it goes on; all when left out"),
      coats: z.number(coatsSays).int(coatsSays).min(1, coatsSays).max(MOST_COATS, coatsSays),
      coverage: z
        .string(coverageSays)
        .refine((written) => readCoverage(written) !== null, coverageSays)
        .describe('what an amount covers with one coat, by its data sheet: "10 m2/l", "400 sq ft/gal"'),
      dry: z
        .number(hoursSays)
        .positive(hoursSays)
        .max(336, hoursSays)
        .describe("hours from coat to coat, by its data sheet"),
      before: yesOrNo
        .optional()
        .describe(
          "true: before the parts are put together, joints masked; false, on the finished piece, when left out",
        ),
    }),
    finishSays,
  )
  .max(20, finishSays)
  .describe("what goes over the wood, in the order in which it goes on; the step says only to finish it when left out");
