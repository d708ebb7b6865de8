/** Every groove by the settings alone: cut by the setting's figure, width and depth into the parts that it lists, and held against the part drawings. */
import type { Box, Vec } from "../../../src/base/geometry.ts";
import type { Face } from "../../../src/set/schema.ts";
import { leastFaults, turned } from "./alike.ts";
import { edgeCalled, faceCalled } from "./called.ts";
import type { ReadPart } from "./part/part.ts";
import { blockFaults } from "./run-ins.ts";
import type { ReadRun, ReadSetting } from "./settings.ts";
import { woodDiffers } from "./wood.ts";

const LOCAL = { l: 0, w: 1, t: 2 } as const;

const axisOf = (face: Face): 0 | 1 | 2 => LOCAL[face[0] as "l"];
const isHigh = (face: Face): boolean => face[1] === "1";

/** Two figures added, each rounded as printed. */
const WITHIN = { mm: 0.0205, in: 0.00205 };

const sizeOf = ({ caption }: ReadPart): Vec => [caption.length, caption.width, caption.thickness];

/** What one run takes out of the part. */
export function grooveOf(read: ReadPart, setting: ReadSetting, run: ReadRun): Box {
  const size = sizeOf(read);
  const span = (face: Face, from: number, to: number): [number, number] =>
    isHigh(face) ? [size[axisOf(face)] - to, size[axisOf(face)] - from] : [from, to];
  const cut = faceCalled(read, run.face);
  const { face: datum, inset } = edgeCalled(read, run.datum);
  const across = axisOf(datum);
  const near = inset + (setting.inner ? 0 : setting.fence);
  const spans: [number, number][] = [];
  spans[axisOf(cut)] = span(cut, 0, setting.depth);
  spans[across] = span(datum, near, inset + (setting.inner ? setting.fence : setting.fence + setting.width));
  const along = (3 - axisOf(cut) - across) as 0 | 1 | 2;
  const ends: [number, number] = [0, size[along]];
  for (const { end, leave } of run.stops) {
    const { face, inset: under } = edgeCalled(read, end);
    if (axisOf(face) !== along) throw new Error(`part ${run.mark}: it cannot stop at the ${end}`);
    if (isHigh(face)) ends[1] -= under + leave;
    else ends[0] += under + leave;
  }
  spans[along] = ends;
  return [spans.map(([lo]) => lo) as unknown as Vec, spans.map(([, hi]) => hi) as unknown as Vec];
}

const BY_SETTINGS = ["groove", "rabbet", "shoulder", "lap"];

/** Where the settings leave wood that the part drawing has cut away, or the other way round. */
export function settingFaults(
  settings: readonly ReadSetting[],
  parts: readonly ReadPart[],
  unit: "mm" | "in",
): string[] {
  const within = WITHIN[unit];
  const twice = settings
    .filter(({ inner, fence, width }) => inner && Math.abs(fence - width) > within)
    .map(({ n, fence, width }) => `setting ${n}: ${fence} to the far wall of what is ${width} wide`);
  const cuts = parts.flatMap((read) =>
    read.caption.marks.flatMap((mark, i) => {
      const runs = settings.flatMap((setting) =>
        setting.runs.filter((run) => run.mark === mark).map((run) => grooveOf(read, setting, run)),
      );
      const best = leastFaults(i, (flips) =>
        cutsDiffer(
          read,
          runs.map((box) => turned(box, flips, sizeOf(read))),
          unit,
        ),
      );
      return best.slice(0, 2).map((fault) => `part ${mark}: ${fault}`);
    }),
  );
  return [...settings.flatMap(({ faults }) => faults), ...twice, ...cuts, ...blockFaults(settings, parts, unit)];
}

function cutsDiffer(read: ReadPart, runs: readonly Box[], unit: "mm" | "in"): string[] {
  const drawn = read.features.filter(({ kind }) => BY_SETTINGS.includes(kind)).map(({ box }) => box);
  // What is notched away by hand may have been grooved before, and so may what a lipping covers that is put on later.
  const gone = [
    ...read.features.filter(({ kind }) => kind === "notch").map(({ box }) => box),
    ...read.notes.flatMap((note) =>
      note.kind === "lipping" && note.when === "after" ? [underLipping(read, note)] : [],
    ),
  ];
  return woodDiffers(runs, drawn, sizeOf(read), WITHIN[unit], (at) => !gone.some((box) => isIn(box, at))).map(
    ({ at, cutBy }) =>
      `at ${at.map((one) => one.toFixed(2))} cut by ${cutBy === "first" ? "the settings" : "the part drawing"} alone`,
  );
}

function underLipping(read: ReadPart, { edge, thickness }: { edge: string; thickness: number }): Box {
  const face = faceCalled(read, edge);
  const [lo, hi]: [number[], number[]] = [[0, 0, 0], [...sizeOf(read)]];
  if (isHigh(face)) lo[axisOf(face)] = hi[axisOf(face)]! - thickness;
  else hi[axisOf(face)] = thickness;
  return [lo as unknown as Vec, hi as unknown as Vec];
}

const isIn = ([lo, hi]: Box, at: Vec): boolean => at.every((one, i) => lo[i]! < one && one < hi[i]!);
