/**
 * Cuts that end in a groove which crosses them. The part drawing has no figure for where: it is as far as what they hold goes into the
 * part that stands in that groove, and the block lets the router go on to that groove's far wall at the most.
 */
import { axisOf, type Box, boxToOuter, signOf, type Vec } from "../../../src/base/geometry.ts";
import { edgeCalled } from "./called.ts";
import { type Placed, wayOf } from "./case.ts";
import type { ReadPart } from "./part/part.ts";
import type { ReadRun, ReadSetting, ReadStop } from "./settings.ts";

/** Figures of two drawings, each rounded as it is printed. */
const WITHIN = { mm: 0.0205, in: 0.00205 };

const stopsOf = ({ runs }: ReadSetting): { run: ReadRun; stop: ReadStop & { into: string } }[] =>
  runs.flatMap((run) =>
    run.stops.flatMap((stop) => (stop.into === null ? [] : [{ run, stop: { ...stop, into: stop.into } }])),
  );

/** Each block stands for a groove that crosses, or for what is left, and each cut has its block. */
export function blockFaults(settings: readonly ReadSetting[], parts: readonly ReadPart[], unit: "mm" | "in"): string[] {
  return settings.flatMap((setting) => {
    if (setting.blocks.length === 0) return [];
    const walls = stopsOf(setting).map(({ run, stop }) => ({
      what: `${run.mark} into the groove for ${stop.into}`,
      end: stop.end,
      leaves: wallsOf(parts.find(({ caption }) => caption.marks.includes(run.mark))!, stop)[0],
    }));
    const ends = setting.runs.flatMap(({ stops }) =>
      stops.flatMap(({ end, leave, into }) => (into === null ? [{ what: "", end, leaves: leave }] : [])),
    );
    const isFor = (block: ReadSetting["blocks"][number]) => (one: { end: string; leaves: number }) =>
      one.end === block.end && Math.abs(one.leaves - block.leaves) <= WITHIN[unit];
    return [
      ...walls
        .filter((wall) => !setting.blocks.some((block) => isFor(block)(wall)))
        .map(({ what, leaves }) => `setting ${setting.n}: no block lets ${what} come within ${leaves}`),
      ...setting.blocks
        .filter((block) => ![...walls, ...ends].some(isFor(block)))
        .map(({ end, leaves }) => `setting ${setting.n}: a block leaves ${leaves} at the ${end}`),
    ];
  });
}

const LOCAL = { l: 0, w: 1, t: 2 } as const;
const sizesOf = ({ caption }: ReadPart): Vec => [caption.length, caption.width, caption.thickness];

/** From the end to the walls of the groove for that part, as drawn: the far one, then the near one. */
function wallsOf(read: ReadPart, { end, into }: { end: string; into: string }): readonly [number, number] {
  const { face, inset } = edgeCalled(read, end);
  const i = LOCAL[face[0] as "l"];
  const walls = read.features
    .filter(({ kind, holds, also }) => (kind === "groove" || kind === "rabbet") && [holds, ...also].includes(into))
    .map(({ box: [lo, hi] }) =>
      face[1] === "0" ? [lo[i], hi[i]] : [sizesOf(read)[i] - hi[i], sizesOf(read)[i] - lo[i]],
    );
  return [Math.min(...walls.map(([far]) => far!)) - inset, Math.min(...walls.map(([, near]) => near!)) - inset];
}

/** What is left at such an end: up to where what is held there ends, or to the near wall where that is let in no farther; what slides is held in no case. */
export function runInFaults(settings: readonly ReadSetting[], placed: readonly Placed[], unit: "mm" | "in"): string[] {
  return settings.flatMap((setting) =>
    stopsOf(setting).flatMap(({ run, stop }) => {
      const own = placed.find(({ mark }) => mark === run.mark);
      const way = own === undefined ? null : wayOf(stop.end, own.name);
      if (own === undefined || way === null) return [];
      const [far, near] = wallsOf(own.read, stop);
      const i = axisOf(way);
      const [lo, hi] = boundsOf(own);
      const held = placed
        .filter(({ mark, home }) => home === own.home && setting.holds.includes(mark))
        .map(boundsOf)
        .map(([low, high]) => (signOf(way) === 1 ? hi[i] - high[i] : low[i] - lo[i]))
        .map((left) => left - edgeCalled(own.read, stop.end).inset);
      const isSo =
        held.length === 0
          ? stop.leave > far && stop.leave <= near + WITHIN[unit]
          : [...held, near].some((one) => Math.abs(one - stop.leave) <= WITHIN[unit]);
      if (isSo) return [];
      return [`setting ${setting.n}: ${run.mark} keeps ${stop.leave} at the ${stop.end}, and what it holds ${held}`];
    }),
  );
}

const boundsOf = ({ place, read }: Placed): Box => boxToOuter(place, [[0, 0, 0], sizesOf(read)]);
