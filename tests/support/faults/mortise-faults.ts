/** Faults of mortises for loose tenons: one of them two steps off, in place, size or depth. */
import type { SetPart } from "../../../src/set/schema.ts";
import { acrossOf, axisOfFace, type Corner, reshape, runOf, sizeOf } from "./fault-shapes.ts";
import type { Planter } from "./faults.ts";

export function plantMortise(planter: Planter, part: SetPart, index: number): void {
  const { mark } = part;
  const feature = part.features[index]!;
  const [run, across, depth] = [runOf(feature), acrossOf(feature), axisOfFace(feature.face)];
  const size = sizeOf(part);
  const { off } = planter;
  const high = feature.face[1] === "1";
  const reshaped = (kind: string, change: (lo: Corner, hi: Corner) => void): void =>
    planter.plantJoined(`mortise ${kind}`, mark, (each) => reshape(each, each.features[index]!, change));
  for (const by of [off, -off]) {
    const way = by > 0 ? "away from the datum" : "towards the datum";
    for (const [words, axis] of [
      ["along", run],
      ["off the middle", across],
    ] as const)
      reshaped(`${words}, ${way}`, (lo, hi) => {
        lo[axis] += by;
        hi[axis] += by;
      });
    reshaped(by > 0 ? "too long" : "too short", (_, hi) => {
      hi[run] += by;
    });
    reshaped(by > 0 ? "too wide" : "too narrow", (lo, hi) => {
      lo[across] -= by / 2;
      hi[across] += by / 2;
    });
    reshaped(by > 0 ? "too deep" : "too shallow", (lo, hi) => {
      if (high) lo[depth] -= by;
      else hi[depth] += by;
    });
  }
  planter.plantJoined("mortise missing", mark, (each) => {
    each.features.splice(index, 1);
  });
  planter.plantJoined("mortise on the wrong face", mark, (each) => {
    const wrong = each.features[index]!;
    wrong.face = `${wrong.face[0]}${high ? "0" : "1"}` as typeof wrong.face;
    reshape(each, wrong, (lo, hi) => {
      [lo[depth], hi[depth]] = [size[depth] - hi[depth], size[depth] - lo[depth]];
    });
  });
}
