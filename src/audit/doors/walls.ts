/** The walls that a piece stands between, as far as a door comes to them. */
import type { Mm } from "../../base/length.ts";
import type { DryfitSet } from "../../set/schema.ts";
import type { Body } from "./body.ts";

/** Beyond any door's reach. */
const FAR: Mm = 1e5;

/** Walls run forward beside the outermost cases, at the clear distance that the job gives. */
export function wallsOf({ job, assemblies }: DryfitSet): Body[] {
  const cases = assemblies.filter(({ kind }) => kind === "case");
  const low = Math.min(...cases.map(({ place }) => place.at[0]));
  const high = Math.max(...cases.map(({ place, size }) => place.at[0] + size[0]));
  const wall = (words: string, from: Mm, to: Mm): Body => ({
    part: null,
    words,
    box: [
      [from, -FAR, -FAR],
      [to, FAR, FAR],
    ],
  });
  const { left, right } = job.walls;
  return [
    ...(left === null ? [] : [wall("the wall at the left", low - left - FAR, low - left)]),
    ...(right === null ? [] : [wall("the wall at the right", high + right, high + right + FAR)]),
  ];
}
