/** Faults of drilled holes: one hole, or a whole row of them, two steps from where it belongs. */
import type { SetPart } from "../../../src/set/schema.ts";
import { acrossOf, axisOfFace, type Corner, reshape, runOf, sizeOf } from "./fault-shapes.ts";
import type { Planter } from "./faults.ts";

/** The first hole of each row stands for all; a row moved as one is a fault of its own. */
export function plantHoles(planter: Planter, part: SetPart): void {
  const rows = new Map<string, number[]>();
  part.features.forEach(({ kind, row, face }, i) => {
    if (kind === "hole") rows.set(`${row} ${face}`, [...(rows.get(`${row} ${face}`) ?? []), i]);
  });
  for (const indices of rows.values()) plantRow(planter, part, indices);
}

function plantRow(planter: Planter, part: SetPart, indices: readonly number[]): void {
  const { mark } = part;
  const feature = part.features[indices[0]!]!;
  const [run, across, depth] = [runOf(feature), acrossOf(feature), axisOfFace(feature.face)];
  const size = sizeOf(part);
  const { off } = planter;
  const reshaped = (kind: string, which: readonly number[], change: (lo: Corner, hi: Corner) => void): void =>
    planter.plant(kind, mark, (each) => {
      for (const i of which) reshape(each, each.features[i]!, change);
    });
  for (const [words, axis] of [
    ["along its row", run],
    ["across its row", across],
  ] as const) {
    for (const by of [off, -off]) {
      const way = by > 0 ? "away from the datum" : "towards the datum";
      const moved = (lo: Corner, hi: Corner): void => {
        lo[axis] += by;
        hi[axis] += by;
      };
      const leaves = (i: number): boolean =>
        part.features[i]!.box[0][axis] + by < 0 || part.features[i]!.box[1][axis] + by > size[axis];
      if (indices.some(leaves)) planter.leaveOut(`hole off ${words}`, mark, "would leave the part");
      else {
        reshaped(`hole off ${words}, ${way}`, indices.slice(0, 1), moved);
        reshaped(`row of holes off ${words}, ${way}`, indices, moved);
      }
    }
  }
  planter.plant("hole missing", mark, (each) => {
    each.features.splice(indices[0]!, 1);
  });
  planter.plant("row of holes missing", mark, (each) => {
    each.features = each.features.filter((_, i) => !indices.includes(i));
  });
  for (const by of [off, -off]) {
    const diameter = feature.width + by;
    if (diameter <= 1e-6)
      planter.leaveOut("hole too narrow", mark, "two steps are its whole width: planted as missing");
    else
      reshaped(by > 0 ? "hole too wide" : "hole too narrow", indices.slice(0, 1), (lo, hi) => {
        for (const axis of [run, across]) {
          lo[axis] -= by / 2;
          hi[axis] += by / 2;
        }
      });
    const deep = feature.depth + by;
    const kind = by > 0 ? "hole too deep" : "hole too shallow";
    if (deep <= 1e-6) planter.leaveOut(kind, mark, "two steps are its whole depth: planted as missing");
    else if (deep >= size[depth]) planter.leaveOut(kind, mark, "two steps more go through the part");
    else
      planter.plantFigure(kind, mark, (each) =>
        reshape(each, each.features[indices[0]!]!, (lo, hi) => {
          if (feature.face[1] === "1") lo[depth] -= by;
          else hi[depth] += by;
        }),
      );
  }
  planter.plant("hole on the wrong face", mark, (each) => {
    const wrong = each.features[indices[0]!]!;
    wrong.face = `${wrong.face[0]}${wrong.face[1] === "1" ? "0" : "1"}` as typeof wrong.face;
    reshape(each, wrong, (lo, hi) => {
      [lo[depth], hi[depth]] = [size[depth] - hi[depth], size[depth] - lo[depth]];
    });
  });
}
