/** The moisture of the job's solid wood, in percent. */
import { moistureIn } from "../../base/moisture.ts";
import type { Reading } from "../case/joinery.ts";
import { MOISTURE } from "../defaults.ts";
import { inputProblem } from "../file/problems.ts";
import { readTemperature } from "../file/temperature.ts";
import type { Moisture } from "../project.ts";
import type { MoistureFile } from "../schema/moisture.ts";

type Moist = MoistureFile["made"];

function pointsOf(moist: Moist): number | null {
  if (moist === undefined || typeof moist === "number") return moist ?? null;
  const { humidity, temperature } = moist;
  return moistureIn({ humidity, ...readTemperature(temperature)! });
}

const shown = (points: number): string => `${Math.round(points * 10) / 10} %`;

export function moistureOf(file: MoistureFile | undefined, { source, problems }: Omit<Reading, "unit">): Moisture {
  const driest = pointsOf(file?.driest) ?? MOISTURE.driest;
  const wettest = pointsOf(file?.wettest) ?? MOISTURE.wettest;
  if (driest >= wettest) {
    problems.push(
      inputProblem(
        source,
        "moisture",
        `solid wood at ${shown(driest)} in the driest season and at ${shown(wettest)} in the wettest`,
        'more moisture in "wettest" than in "driest"',
        "change them over, or measure again",
      ),
    );
  }
  return { made: pointsOf(file?.made), driest, wettest };
}
