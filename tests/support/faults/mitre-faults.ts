/** Faults of mitres: one of two that meet is left square, sawn at another angle, or has its point on the other face. */
import type { SetFeature, SetPart } from "../../../src/set/schema.ts";
import type { Planter } from "./faults.ts";

type Corner = [w: number, t: number];

/** The outline's corners are point, heel and what is sawn off; the box is the one around them. */
function redrawn(feature: SetFeature, corners: readonly [Corner, Corner, Corner]): void {
  feature.outline = corners.map(([w, t]): Corner => [w, t]);
  for (const [i, axis] of [0, 1].entries()) {
    const along = corners.map((corner) => corner[axis]!);
    feature.box[0][(i + 1) as 1 | 2] = Math.min(...along);
    feature.box[1][(i + 1) as 1 | 2] = Math.max(...along);
  }
  feature.at = feature.box[0][1];
  feature.width = feature.box[1][1] - feature.box[0][1];
}

export function plantMitre(planter: Planter, part: SetPart, index: number): void {
  const { mark } = part;
  const change = (kind: string, spoil: (own: SetFeature, corners: [Corner, Corner, Corner]) => void): void =>
    planter.plant(`mitre ${kind}`, mark, (each) => {
      const own = each.features[index]!;
      spoil(own, own.outline.map(([w, t]): Corner => [w!, t!]) as [Corner, Corner, Corner]);
    });
  planter.plant("mitre missing", mark, (each) => {
    each.features.splice(index, 1);
  });
  for (const [kind, by] of [
    ["sawn flatter", planter.off],
    ["sawn steeper", -planter.off],
  ] as const)
    change(kind, (own, [point, heel, waste]) => {
      const inwards = Math.sign(heel[0] - point[0]);
      redrawn(own, [point, [heel[0] + inwards * by, heel[1]], waste]);
    });
  change("with its point on the other face", (own, [point, heel, waste]) => {
    redrawn(own, [
      [point[0], heel[1]],
      [heel[0], point[1]],
      [waste[0], waste[1] === point[1] ? heel[1] : point[1]],
    ]);
  });
}
