/** Faults of the drilling: the holes are right, and one figure of one row is not. */
import type { DryfitSet, Face, SetDrilling } from "../../../src/set/schema.ts";
import type { Excluded, Fault, Planted } from "./faults.ts";

type Row = SetDrilling["rows"][number];

export function plantDrillingFaults(set: DryfitSet): Planted {
  const faults: Fault[] = [];
  const excluded: Excluded[] = [];
  const off = 2 * set.job.step;
  set.drilling.forEach((drilling, i) => {
    drilling.rows.forEach((row, j) => {
      const plant = (kind: string, edit: (row: Row, drilling: SetDrilling) => void): void => {
        const copy = structuredClone(set.drilling);
        edit(copy[i]!.rows[j]!, copy[i]!);
        faults.push({ kind: `drilling ${kind}`, mark: row.mark, blame: [row.mark], set: { ...set, drilling: copy } });
      };
      for (const by of [off, -off]) {
        const more = by > 0 ? "too far" : "too near";
        plant(`with the first hole ${more}`, (each) => {
          each.first += by;
        });
        plant(`with the row ${more} from its edge`, (each) => {
          each.distance += by;
        });
        if (row.count > 1)
          plant(by > 0 ? "with a pitch too long" : "with a pitch too short", (each) => {
            each.pitch += by;
          });
        plant(by > 0 ? "too wide" : "too narrow", (_, each) => {
          each.diameter += by;
        });
        plant(by > 0 ? "too deep" : "too shallow", (_, each) => {
          each.depth += by;
        });
      }
      if (row.count === 1) excluded.push({ kind: "drilling pitch", mark: row.mark, reason: "one hole has no pitch" });
      plant("with a hole more than there are", (each) => {
        each.count += 1;
      });
      plant("on the other face", (each) => {
        each.face = `${each.face[0]}${each.face[1] === "0" ? "1" : "0"}` as Face;
      });
      plant("with a row missing", (_, each) => {
        each.rows.splice(j, 1);
      });
      plant("with a row twice", (each, all) => {
        all.rows.push(structuredClone(each));
      });
    });
  });
  return { faults, excluded };
}
