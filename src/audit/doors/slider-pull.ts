/** The recess that a sliding door is pulled by: one hole in its front face, as wide and as deep and where it is told. */
import type { Mm } from "../../base/length.ts";
import type { SetCheck } from "../../set/schema.ts";
import { TOUCH } from "../solids/boxes.ts";
import { amount, failure, type Job } from "../words.ts";
import type { Slid } from "./slid.ts";

export function checkPull({ slider: { pull, assembly }, holes, parts }: Slid, job: Job): SetCheck[] {
  const faults: string[] = [];
  const wanted = pull === null ? 0 : 1;
  if (holes.length !== wanted) faults.push(`has ${holes.length} holes in it, not ${wanted}`);
  const say = (what: string, told: Mm, found: Mm): void => {
    if (Math.abs(told - found) > TOUCH)
      faults.push(`has its recess ${what} ${amount(found, job)}, not ${amount(told, job)}`);
  };
  for (const { box, depth, inward } of pull === null ? [] : holes) {
    const [lo, hi] = box;
    // Into the wood from the front.
    if (depth !== 1 || inward !== 1 || Math.abs(lo[1]) > TOUCH) faults.push("has its recess in another face");
    say("across", pull!.diameter, hi[0] - lo[0]);
    say("deep", pull!.depth, hi[1] - lo[1]);
    say("from its left edge", pull!.at[0], (lo[0] + hi[0]) / 2);
    say("from its lower end", pull!.at[1], (lo[2] + hi[2]) / 2);
  }
  if (faults.length === 0) return [];
  return [failure("slider-pull", parts, `${assembly} ${faults.join("; ")}. Change: the hole, or what is told of it.`)];
}
