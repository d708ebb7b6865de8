/** What every page of the site says at its top and foot. */
import type { DryfitSet } from "../set/schema.ts";
import { lengthView, unitName } from "./words.ts";

export function pageHead(set: DryfitSet, pageTitle: string, root: string) {
  const { job } = set;
  return {
    pageTitle,
    root,
    style: `${root}style/site.css`,
    draft: job.draft,
    jobTitle: job.title,
    number: job.number,
    revision: job.revision,
    date: job.date,
    unit: job.unit,
    unitName: unitName(job.unit),
    step: lengthView(job.step, job.unit),
  };
}
