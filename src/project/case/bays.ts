/** Bays of the file as bays of the project. */
import type { Mm, Unit } from "../../base/length.ts";
import { lengthOf } from "../../base/parse-length.ts";
import type { Problem } from "../../base/problem.ts";
import type { Bay, BaySize } from "../bay.ts";
import { inputProblem } from "../file/problems.ts";
import type { Source } from "../file/source.ts";
import type { BayFile } from "../schema/bay.ts";
import { stackOf } from "./drawers.ts";

export function bayOf(file: BayFile, path: string, source: Source, unit: Unit, problems: Problem[]): Bay {
  const once = (one: keyof BayFile, other: keyof BayFile, remedy: string): void => {
    if (file[one] === undefined || file[other] === undefined) return;
    problems.push(
      inputProblem(source, `${path}.${other}`, `"${one}" and "${other}" in one bay`, "one of the two", remedy),
    );
  };
  once("columns", "rows", "put the rows inside one of the columns, or the columns inside one of the rows");
  once("size", "share", "keep the size, or share what the sizes leave over");
  const divided = "put the loose shelves into one of the bays that it is divided into";
  once("columns", "loose", divided);
  once("rows", "loose", divided);
  const stacked = "put the drawers into one of the bays that it is divided into";
  once("columns", "drawers", stacked);
  once("rows", "drawers", stacked);
  once("loose", "drawers", "keep the shelves or the drawers, or divide the bay between them");

  const mm = (value: number | string): Mm => lengthOf(value, unit);
  const size: BaySize = file.size === undefined ? { share: file.share ?? 1 } : { clear: mm(file.size) };
  const head = { path, name: file.name ?? null, size, door: file.door ?? null };
  const kind = file.columns !== undefined ? "columns" : "rows";
  const list = file[kind];
  if (list === undefined) {
    const drawers = stackOf(file.drawers, `${path}.drawers`, { source, unit, problems });
    return { ...head, kind: "open", loose: file.loose ?? 0, drawers };
  }
  return { ...head, kind, bays: list.map((bay, i) => bayOf(bay, `${path}.${kind}[${i}]`, source, unit, problems)) };
}

/** Whether parts of this role stand between the bays anywhere in the tree. */
export const hasBetween = (bay: Bay, role: "divider" | "shelf"): boolean =>
  bay.kind !== "open" &&
  (bay.kind === (role === "divider" ? "columns" : "rows") || bay.bays.some((child) => hasBetween(child, role)));

/** Bays with loose shelves in them, in the order of the file. */
export const looseBays = (bay: Bay): Bay[] =>
  bay.kind === "open" ? (bay.loose > 0 ? [bay] : []) : bay.bays.flatMap(looseBays);

export const hasLoose = (bay: Bay): boolean => looseBays(bay).length > 0;

/** Bays with drawers in them, in the order of the file. */
export const drawerBays = (bay: Bay): Extract<Bay, { kind: "open" }>[] =>
  bay.kind === "open" ? (bay.drawers.length > 0 ? [bay] : []) : bay.bays.flatMap(drawerBays);
/** Bays with a hung door before them, whole or divided, in the order of the file. */
export const doorBays = (bay: Bay): Bay[] => [
  ...(bay.door === null || bay.door === "sliding" ? [] : [bay]),
  ...(bay.kind === "open" ? [] : bay.bays.flatMap(doorBays)),
];
/** Bays that doors slide in, in the order of the file. */
export const sliderBays = (bay: Bay): Bay[] => [
  ...(bay.door === "sliding" ? [bay] : []),
  ...(bay.kind === "open" ? [] : bay.bays.flatMap(sliderBays)),
];
