/** A face frame hides the front edges of the sides behind it: at both ends, and where two cases stand against each other. */
import type { Box } from "../../base/geometry.ts";
import type { DryfitSet, SetAssembly, SetCheck } from "../../set/schema.ts";
import { around, cutAwayAll, drawnOut, TOUCH } from "../solids/boxes.ts";
import { roomBox, type Solid } from "../solids/solid.ts";
import { amount, failure, nameOf } from "../words.ts";
import { casesBehind } from "./behind.ts";

export function checkFrameCovers(set: DryfitSet, solids: readonly Solid[]): SetCheck[] {
  return set.assemblies.filter(({ kind }) => kind === "frame").flatMap((frame) => showing(frame, set, solids));
}

/** As high as its openings are: below a rail that does not reach the floor, or is shaped, the edge of a side may be seen in the shade. */
function showing(frame: SetAssembly, { job, assemblies, openings }: DryfitSet, solids: readonly Solid[]): SetCheck[] {
  const own = openings.filter((one) => one.case === frame.name);
  if (own.length === 0) return [];
  const inRoom = (solid: Solid, box: Box): Box => roomBox(solid.assembly, assemblies, box);
  const front = frame.place.at[1];
  const behind = new Set(casesBehind(frame, assemblies).map(({ name }) => name));
  const members = solids
    .filter(({ assembly }) => assembly.name === frame.name)
    .flatMap((solid) => solid.hull.map((box) => drawnOut(inRoom(solid, box), 1, front, front + 1)));
  const [low, high] = [
    Math.min(...own.map(({ at }) => at[2])) + frame.place.at[2],
    Math.max(...own.map(({ at, height }) => at[2] + height)) + frame.place.at[2],
  ];
  return solids
    .filter(({ part, assembly }) => part.role === "side" && behind.has(assembly.name))
    .flatMap((solid) => {
      const edge = drawnOut(drawnOut(inRoom(solid, solid.bounds), 1, front, front + 1), 2, low, high);
      const shown = cutAwayAll([edge], members).filter(
        ([lo, hi]) => hi[0] - lo[0] > job.step + TOUCH && hi[2] - lo[2] > TOUCH,
      );
      if (shown.length === 0) return [];
      const [lo, hi] = around(shown);
      return failure(
        "frame-cover",
        [solid.part],
        `The front edge of ${nameOf(solid.part)} shows by ${amount(hi[0] - lo[0], job)} beside a stile of ${frame.name}. Change: a wider stile before it.`,
      );
    });
}
