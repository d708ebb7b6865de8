/** Faults of dovetailed corners: one socket two steps off its tail or pin, deeper, straight-walled, missing. */
import type { SetFeature, SetPart } from "../../../src/set/schema.ts";
import type { Planter } from "./faults.ts";

/** Corners moved, and the box with them. */
function moved(feature: SetFeature, move: (corner: [number, number], i: number) => [number, number]): void {
  feature.outline = feature.outline.map(([a, b], i) => move([a, b], i));
  const [u, v] = feature.axis === "t" ? [0, 1] : [1, 2];
  const [us, vs] = [feature.outline.map(([a]) => a), feature.outline.map(([, b]) => b)];
  feature.box[0][u!] = Math.min(...us);
  feature.box[1][u!] = Math.max(...us);
  feature.box[0][v!] = Math.min(...vs);
  feature.box[1][v!] = Math.max(...vs);
  feature.at = feature.box[0][1];
  feature.width = feature.box[1][1] - feature.box[0][1];
  feature.depth = feature.box[1][0] - feature.box[0][0];
}

export function plantSocket(planter: Planter, part: SetPart, index: number): void {
  const { mark } = part;
  const feature = part.features[index]!;
  const w = feature.axis === "t" ? 1 : 0;
  const change = (kind: string, spoil: (own: SetFeature) => void): void =>
    planter.plant(`socket ${kind}`, mark, (each) => spoil(each.features[index]!));
  const shifted = (corner: [number, number], by: number): [number, number] => {
    const next: [number, number] = [...corner];
    next[w] += by;
    return next;
  };
  const middle = (feature.box[0][1] + feature.box[1][1]) / 2;
  const isFree = feature.box[0][1] > 1e-6 && feature.box[1][1] < part.width - 1e-6;
  const { off } = planter;
  if (isFree) {
    for (const by of [off, -off])
      change(by > 0 ? "off, upwards" : "off, downwards", (own) => moved(own, (corner) => shifted(corner, by)));
    change("wider", (own) => moved(own, (corner) => shifted(corner, corner[w] > middle ? off : -off)));
    change("without a slope", (own) =>
      moved(own, (corner, i) => {
        // The first two corners are where the tails end; the third stands over the second.
        const tip = own.outline[i < 2 ? i : 3 - i]!;
        const next: [number, number] = [...corner];
        next[w] = tip[w]!;
        return next;
      }),
    );
  }
  change("deeper", (own) => {
    const high = own.face[1] === "1";
    if (own.axis === "t") moved(own, (corner, i) => (i < 2 ? corner : [corner[0] + (high ? -off : off), corner[1]]));
    else {
      if (high) own.box[0][0] -= off;
      else own.box[1][0] += off;
      own.depth += off;
    }
  });
  planter.plant("socket missing", mark, (each) => {
    each.features.splice(index, 1);
  });
}
