/** The label formats of the shop's list, as a project reads them, and labels of any size in the open. */
import { readFileSync } from "node:fs";
import { parse } from "jsonc-parser";
import { readProjectText } from "../../../src/project/read.ts";
import type { DryfitSet } from "../../../src/set/schema.ts";
import { testFile } from "../jobs/examples.ts";

export type LabelFormat = DryfitSet["paper"]["labels"];

export const FORMAT_NAMES = [...readFileSync("shared/paper.json", "utf8").matchAll(/^ {4}"([^"]+)": \{$/gm)]
  .map(([, name]) => name!)
  .filter((name) => /\d x \d|plain/.test(name));

export function formatCalled(name: string): LabelFormat {
  const job = parse(readFileSync(testFile("example-a-in"), "utf8"));
  const text = JSON.stringify({ ...job, paper: { ...job.paper, labels: name } });
  return readProjectText(text, "labels.json").project.paper.labels;
}

/** One label in the middle of a page that leaves it all its edges. */
export const labelOf = (format: LabelFormat, width: number, height: number): LabelFormat => ({
  ...format,
  label: { width, height },
  page: { name: "open", width: width + 20, height: height + 20 },
  columns: 1,
  rows: 1,
  left: 10,
  top: 10,
});
