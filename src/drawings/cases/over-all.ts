/** What a case, or a row of cases, measures with all that is fixed to it, closed: face frame, fronts and worktop. Knobs are not counted. */
import { AXES, type Box, boxAround, boxSize, boxToOuter, type Place, type Vec } from "../../base/geometry.ts";
import { SAME } from "../../base/length.ts";
import type { DryfitSet, SetAssembly } from "../../set/schema.ts";
import { baseUnder, behindFrame } from "../../set/standing.ts";
import { solidsOf } from "../solids/solid.ts";
import { boxOfAssembly } from "./case-row.ts";

/** `by`: what makes it more than the cases and their bases measure, each beyond those before it. */
export type OverAll = { size: Vec; by: string[] };

export function overAll(set: DryfitSet, cases: readonly SetAssembly[]): OverAll {
  const { assemblies } = set;
  const isOf = (name: string): boolean => cases.some((one) => one.name === name);
  const called = (names: readonly string[]): SetAssembly[] => assemblies.filter(({ name }) => names.includes(name));
  const frames = assemblies.filter((one) => {
    const behind = behindFrame(one, assemblies);
    return behind.length > 0 && behind.every(({ name }) => isOf(name));
  });
  const named = (all: readonly { case: string; assembly: string }[]): string[] =>
    all.filter((one) => isOf(one.case)).map(({ assembly }) => assembly);
  const slid = set.tracks.filter((track) => isOf(track.case)).flatMap(({ doors }) => doors);
  const fixed: [string, SetAssembly[]][] = [
    ["face frame", frames],
    [
      "side returns",
      called(
        set.returns.filter((one) => frames.some(({ name }) => name === one.frame)).map(({ assembly }) => assembly),
      ),
    ],
    ["doors", called([...named(set.doors), ...slid.map(({ assembly }) => assembly)])],
    ["drawer fronts", called(named(set.drawers))],
    ["worktop", called(set.worktops.filter(({ over }) => over.every(isOf)).map(({ assembly }) => assembly))],
  ];
  const own = boxAround(cases.flatMap((one) => [one, baseUnder(one, assemblies) ?? []].flat().map(boxOfAssembly)));
  const by: string[] = [];
  let whole = own;
  for (const [what, all] of fixed) {
    const more = boxAround([whole, ...all.flatMap((one) => woodOf(set, one))]);
    if (AXES.some((i) => more[0][i] < whole[0][i] - SAME || more[1][i] > whole[1][i] + SAME)) by.push(what);
    whole = more;
  }
  return { size: boxSize(whole), by };
}

const woodOf = (set: DryfitSet, assembly: SetAssembly): Box[] =>
  solidsOf(set, assembly).flatMap(({ boxes }) => boxes.map((box) => boxToOuter(assembly.place as Place, box)));
