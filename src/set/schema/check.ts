/** What was looked at, and how it was found. */
import { z } from "zod";
import { mark } from "./values.ts";

export const check = z.strictObject({
  id: z.string(),
  level: z.enum(["ok", "note", "warning", "failure"]),
  parts: z.array(mark),
  text: z.string().describe("what, where, how much"),
  rule: z.string().nullable().describe("the rule it was held against, and its source"),
  change: z.string().nullable().describe("what to change"),
});
