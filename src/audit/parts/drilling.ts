/** Drilled rows: each hole once, at its row's first hole and pitch, so far from its edge, and nowhere through what it is drilled into. */
import type { Mm } from "../../base/length.ts";
import type { DryfitSet, SetCheck, SetDrilling, SetFeature, SetPart } from "../../set/schema.ts";
import { TOUCH } from "../solids/boxes.ts";
import { axesOfFeature, faceAxis, isHighFace, sizeOf } from "../solids/solid.ts";
import { amount, failure, type Job, nameOf } from "../words.ts";

type Row = SetDrilling["rows"][number];

const isWhole = (length: Mm, step: Mm): boolean => Math.abs(length - Math.round(length / step) * step) < TOUCH;

export function checkDrilling(set: DryfitSet): SetCheck[] {
  const { job } = set;
  const rows = set.drilling.flatMap((drilling) => drilling.rows.map((row) => ({ drilling, row })));
  const loose = set.parts.flatMap((part) => {
    const counts = part.features.map((feature, i) => ({
      feature,
      times: rows.filter(({ row }) => row.mark === part.mark && row.features.includes(i)).length,
    }));
    const wrong = counts.filter(({ feature, times }) => feature.kind === "hole" && times !== 1);
    if (wrong.length === 0) return [];
    const times = wrong[0]?.times ?? 0;
    return [
      failure(
        "drilling",
        [part],
        `${wrong.length} ${wrong.length === 1 ? "hole" : "holes"} of ${nameOf(part)} ${wrong.length === 1 ? "stands" : "stand"} in ${times === 0 ? "no row" : `${times} rows`} of the drilling. Change: one row for each hole.`,
      ),
    ];
  });
  return [...loose, ...rows.flatMap(({ drilling, row }) => checkRow(drilling, row, set, job)), ...checkThrough(set)];
}

function checkRow(drilling: SetDrilling, row: Row, set: DryfitSet, job: Job): SetCheck[] {
  const part = set.parts.find(({ mark }) => mark === row.mark);
  const holes = part ? row.features.flatMap((i) => part.features[i] ?? []) : [];
  if (!part || holes.length !== row.count || holes.some(({ kind }) => kind !== "hole")) {
    return [
      failure(
        "drilling",
        part ? [part] : [],
        `A row of ${row.count} holes in part ${row.mark} has ${holes.length} of them. Change: list the holes that the part has.`,
      ),
    ];
  }
  const told = [...differences(drilling, row, part, holes, job), ...offGrid(drilling, row, part, holes, job)];
  if (told.length === 0) return [];
  return [
    failure(
      "drilling",
      [part],
      `The row of ${row.count} holes in ${row.face} of ${nameOf(part)} is not drilled as told: ${told.join("; ")}. Change: the row, or the holes.`,
    ),
  ];
}

/** A part that is lipped afterwards is measured from the panel's own edge. */
const lacking = (part: SetPart, face: string): Mm =>
  part.lippings.find(({ edge, lipped }) => edge === face && lipped === "after")?.thickness ?? 0;

function differences(drilling: SetDrilling, row: Row, part: SetPart, holes: readonly SetFeature[], job: Job): string[] {
  const words: string[] = [];
  const compare = (what: string, told: Mm, made: Mm): void => {
    if (Math.abs(told - made) > TOUCH) words.push(`${what} ${amount(told, job)}, but it is ${amount(made, job)}`);
  };
  const along = faceAxis(row.datum);
  const across = faceAxis(row.edge);
  const size = sizeOf(part);
  const middle = ({ box }: SetFeature, axis: 0 | 1 | 2): Mm => (box[0][axis] + box[1][axis]) / 2;
  const from = (face: Row["datum"], at: Mm): Mm =>
    (isHighFace(face) ? size[faceAxis(face)] - at : at) - lacking(part, face);
  const firsts = holes.map((hole) => from(row.datum, middle(hole, along))).sort((a, b) => a - b);
  firsts.forEach((at, i) => {
    compare(`hole ${i + 1} at`, row.first + i * row.pitch, at);
  });
  for (const hole of holes) {
    const axes = axesOfFeature(hole);
    if (!axes) continue;
    compare("distance", row.distance, from(row.edge, middle(hole, across)));
    compare("diameter", drilling.diameter, hole.box[1][axes.across] - hole.box[0][axes.across]);
    compare("diameter", drilling.diameter, hole.box[1][axes.run] - hole.box[0][axes.run]);
    compare("depth", drilling.depth, hole.depth);
    if (hole.face !== row.face) words.push(`face ${row.face}, but it is ${hole.face}`);
  }
  return [...new Set(words)];
}

/** The first hole is measured, and so is a pin row's distance from its edge; a dowel sits in the middle of a thickness. */
function offGrid(drilling: SetDrilling, row: Row, part: SetPart, holes: readonly SetFeature[], job: Job): string[] {
  const figures: [string, Mm][] = [["first hole", row.first + lacking(part, row.datum)]];
  if (drilling.holds !== "dowels") figures.push(["distance", row.distance + lacking(part, row.edge)]);
  // Right through is as deep as the stock measures.
  const through = sizeOf(part)[faceAxis(row.face)];
  for (const hole of holes.slice(0, 1)) if (Math.abs(hole.depth - through) > TOUCH) figures.push(["depth", hole.depth]);
  return figures
    .filter(([, length]) => !isWhole(length, job.step))
    .map(([what, length]) => `the ${what} of ${amount(length, job)} is no whole number of steps`);
}

/** Wood left behind a hole: the next face, or a groove or hole on the other side. */
function checkThrough(set: DryfitSet): SetCheck[] {
  const { job } = set;
  return set.parts.flatMap((part) => {
    const holes = part.features.filter(({ kind }) => kind === "hole");
    const behind = part.features.filter(({ kind }) => kind !== "notch");
    const met = holes.flatMap((hole) =>
      behind.filter(
        (other) =>
          other !== hole &&
          other.face !== hole.face &&
          ([0, 1, 2] as const).every((i) => other.box[0][i] < hole.box[1][i] && other.box[1][i] > hole.box[0][i]),
      ),
    );
    if (met.length === 0) return [];
    const [first] = met as [SetFeature];
    return [
      failure(
        "drilling",
        [part],
        `${met.length} ${met.length === 1 ? "hole" : "holes"} of ${nameOf(part)} ${met.length === 1 ? "breaks" : "break"} into the ${first.kind} on face ${first.face}, at ${amount(first.at, job)}. Change: drill less deep, or move the row.`,
      ),
    ];
  });
}
