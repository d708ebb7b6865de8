/** The skirting of the wall behind: nothing stands in it, and what is cut out for it leaves its clearance and no more than a rounding step beyond. */
import type { Box } from "../../base/geometry.ts";
import type { Mm } from "../../base/length.ts";
import type { DryfitSet, SetCheck } from "../../set/schema.ts";
import { sharedBoxes, TOUCH } from "../solids/boxes.ts";
import { type Notch, roomBox, type Solid } from "../solids/solid.ts";
import { amount, extent, failure, nameOf, where } from "../words.ts";

const FAR: Mm = 1e5;

/** The skirting in the room, along the whole wall; null where none has to be passed. */
function skirtingOf({ job, assemblies }: DryfitSet): Box | null {
  const { back } = job.walls;
  if (back?.pass !== "notch") return null;
  const wall = Math.max(
    ...assemblies.filter(({ kind }) => kind === "case").map(({ place, size }) => place.at[1] + size[1]),
  );
  return [
    [-FAR, wall - back.skirting.thickness, -FAR],
    [FAR, wall + FAR, back.skirting.height],
  ];
}

export function checkSkirting(set: DryfitSet, solids: readonly Solid[]): SetCheck[] {
  const skirting = skirtingOf(set);
  if (skirting === null) return [];
  return solids.flatMap((solid): SetCheck[] => {
    const inRoom = solid.cells.map((cell) => roomBox(solid.assembly, set.assemblies, cell));
    const [clash] = sharedBoxes(inRoom, [skirting]);
    if (clash === undefined) return [];
    return [
      failure(
        "skirting",
        [solid.part],
        `${nameOf(solid.part)} stands in the skirting of the wall behind by ${extent(clash, set.job)}. Change: notch it over the skirting, or let the cases stand off the wall.`,
      ),
    ];
  });
}

/** Whether a notch lies at the rear and the floor of a side, over the skirting. */
export const isOverSkirting = (set: DryfitSet, { owner, box }: Notch): boolean =>
  set.job.walls.back?.pass === "notch" &&
  owner.part.role === "side" &&
  owner.bounds[1][1] - box[1][1] < TOUCH &&
  box[0][2] - owner.bounds[0][2] < TOUCH;

export function checkSkirtingNotch(set: DryfitSet, { owner, feature, box }: Notch): SetCheck[] {
  const { job, assemblies } = set;
  const [front, up] = [1, 2] as const;
  const skirting = skirtingOf(set)!;
  const { clearance } = job.walls.back!;
  const [lo, hi] = roomBox(owner.assembly, assemblies, box);
  const off = [skirting[0][front] - lo[front] - clearance, hi[up] - skirting[1][up] - clearance];
  const worst = off.find((by) => Math.abs(by) > job.step + TOUCH);
  if (worst === undefined) return [];
  return [
    failure(
      "notch",
      [owner.part],
      `The notch at ${feature.face} of ${nameOf(owner.part)} is ${amount(Math.abs(worst), job)} ${worst > 0 ? "larger" : "smaller"} than the skirting and its clearance of ${amount(clearance, job)}, ${where(box, owner.assembly, job)}; rounding leaves at most ${amount(job.step, job)}. Change: cut it to the skirting and its clearance.`,
    ),
  ];
}
