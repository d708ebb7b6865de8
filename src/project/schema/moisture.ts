/** How moist the job's solid wood is when it is made, and between what it lives. */
import { z } from "zod";
import { readTemperature } from "../file/temperature.ts";
import { says } from "./fields.ts";

const pointsSays = says(
  "moisture content in percent from 2 to 25, or the air it comes from",
  'write it like 8, or { "humidity": 45, "temperature": "68 F" }',
);
const humiditySays = says("relative humidity in percent from 5 to 95", "write it like 45, without quotes");
const temperatureSays = says("a temperature from 30 to 200 F or from 0 to 95 C", 'write it like "68 F" or "20 C"');

const moist = z.union(
  [
    z.number().min(2, pointsSays).max(25, pointsSays),
    z.strictObject({
      humidity: z.number(humiditySays).min(5, humiditySays).max(95, humiditySays),
      temperature: z
        .string(temperatureSays)
        .refine((text) => readTemperature(text) !== null, temperatureSays)
        .describe('text such as "68 F" or "20 C"'),
    }),
  ],
  pointsSays,
);

export const moisture = z
  .strictObject({
    made: moist.optional().describe("when it is made; left out: not known, and slots are as long both ways"),
    driest: moist.optional().describe("in the driest season where it will stand"),
    wettest: moist.optional().describe("in the wettest"),
  })
  .describe("moisture content of solid wood in percent, or the air that it comes to rest in: how much it moves");

export type MoistureFile = z.infer<typeof moisture>;
