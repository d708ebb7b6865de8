/** Faults of half laps: one of two that lie in each other, two steps off. */
import type { SetPart } from "../../../src/set/schema.ts";
import { acrossOf, axisOfFace, type Corner, reshape, sizeOf } from "./fault-shapes.ts";
import type { Planter } from "./faults.ts";

export function plantLap(planter: Planter, part: SetPart, index: number): void {
  const { mark } = part;
  const feature = part.features[index]!;
  const [across, depth] = [acrossOf(feature), axisOfFace(feature.face)];
  const size = sizeOf(part);
  const { off } = planter;
  const high = feature.face[1] === "1";
  const reshaped = (kind: string, change: (lo: Corner, hi: Corner) => void): void =>
    planter.plant(`lap ${kind}`, mark, (each) => reshape(each, each.features[index]!, change));
  const atEnd = feature.box[0][across] < 1e-6 ? "low" : feature.box[1][across] > size[across] - 1e-6 ? "high" : null;
  for (const by of [off, -off]) {
    reshaped(by > 0 ? "too long" : "too short", (lo, hi) => {
      if (atEnd === "high") lo[across] -= by;
      else hi[across] += by;
    });
    reshaped(by > 0 ? "too deep" : "too shallow", (lo, hi) => {
      if (high) lo[depth] -= by;
      else hi[depth] += by;
    });
    if (atEnd === null)
      reshaped(by > 0 ? "off, away from the datum" : "off, towards the datum", (lo, hi) => {
        lo[across] += by;
        hi[across] += by;
      });
  }
  planter.plant("lap missing", mark, (each) => {
    each.features.splice(index, 1);
  });
  planter.plant("lap on the wrong face", mark, (each) => {
    const wrong = each.features[index]!;
    wrong.face = `${wrong.face[0]}${high ? "0" : "1"}` as typeof wrong.face;
    reshape(each, wrong, (lo, hi) => {
      [lo[depth], hi[depth]] = [size[depth] - hi[depth], size[depth] - lo[depth]];
    });
  });
}
