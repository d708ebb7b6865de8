/** Cases with all that belongs to them, closed, as they will stand: base, face frame and its returns, doors, drawers, worktop. */
import { type Place, toInner, toOuter } from "../../base/geometry.ts";
import type { DryfitSet, SetAssembly } from "../../set/schema.ts";
import { frameBefore } from "../../set/standing.ts";
import { BOUGHT, moveSolid, type Solid, solidsOf } from "../solids/solid.ts";
import { standingSolids } from "./case-group.ts";

/** In the axes of the first case; `without`: what is made for it and others together. */
export type Whole = { solids: Solid[]; without: string[] };

export function wholeOf(set: DryfitSet, cases: readonly [SetAssembly, ...SetAssembly[]]): Whole {
  const own = cases[0].place as Place;
  const isOf = (name: string): boolean => cases.some((one) => one.name === name);
  const moved = (from: SetAssembly, solids: readonly Solid[]): Solid[] =>
    solids.map((solid) => moveSolid(solid, (spot) => toInner(own, toOuter(from.place as Place, spot))));
  const over = set.worktops.filter((top) => top.over.some(isOf));
  const isWhole = (top: (typeof over)[number]): boolean => top.over.every(isOf);
  const names = [
    ...set.doors.filter((door) => isOf(door.case)).map(({ assembly }) => assembly),
    ...[...set.tracks, ...set.sliders]
      .filter((one) => isOf(one.case))
      .flatMap(({ doors }) => doors.map(({ assembly }) => assembly)),
    ...over.filter(isWhole).map(({ assembly }) => assembly),
  ];
  const fronts = set.assemblies
    .filter(({ name }) => names.includes(name))
    .flatMap((one) => moved(one, solidsOf(set, one)));
  // A frame over several cases stands with all of them or with none: its members would run on past one.
  const behind = cases.map((one) => standingSolids(set, one, cases.length > 1 && one === cases[0] ? "any" : "own"));
  const solids = behind.flatMap((some, i) => moved(cases[i]!, some)).filter(({ mark }) => mark !== BOUGHT);
  const seen = new Set<string>();
  const once = [...solids, ...fronts].filter(({ mark }) => !seen.has(mark) && seen.add(mark));
  const hasFrame = cases.some((one) => frameBefore(one, set.assemblies) !== null);
  const isFramed = set.parts.some((part) => seen.has(part.mark) && frameOf(set, cases).includes(part.assembly));
  return {
    solids: once,
    without: [...(hasFrame && !isFramed ? ["face frame"] : []), ...(over.every(isWhole) ? [] : ["worktop"])],
  };
}

const frameOf = (set: DryfitSet, cases: readonly SetAssembly[]): string[] =>
  cases.flatMap((one) => frameBefore(one, set.assemblies)?.name ?? []);
