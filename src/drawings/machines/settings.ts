/** All that is set up at a machine, group by group: sizing, settings, what is done by hand after them, drilling. */
import type { Rect } from "../../paper/shape.ts";
import type { DryfitSet, SetGroup } from "../../set/schema.ts";
import type { Draft } from "../draughting/draft.ts";
import { type FlowGroup, flow, flowEvenly } from "../draughting/flow.ts";
import { drawingSpace } from "../draughting/frame.ts";
import { numberDrafts } from "../draughting/numbered.ts";
import { type Earlier, earlierOf } from "../draughting/revised.ts";
import { drillingGroups } from "./drilling.ts";
import { gateOf, groupHead } from "./gate.ts";
import { handWorkGroups } from "./hand-work.ts";
import { GRADES, type Grade, setSetting } from "./setting.ts";
import { setIntro } from "./settings-intro.ts";
import { sizingGroups } from "./sizing.ts";

/** In the order of the work: a group's gate, its sizes, then its grooves. */
function workOf(set: DryfitSet, group: SetGroup, space: Rect, earlier: Earlier | null, grade: Grade): FlowGroup[] {
  const settings = set.settings.filter((one) => one.group === group.n);
  const work = [
    ...sizingGroups(set, group, space),
    ...(settings.length === 0 ? [] : [gateOf(group, settings[0]!.n, space.width)]),
    ...settings.map((setting) => setSetting(set, setting, space, earlier, grade)),
    ...handWorkGroups(set, group, space.width),
    ...drillingGroups(set, group, space),
  ];
  return work.length === 0 ? [] : [groupHead(set, group, space.width), ...work];
}

/** `older`: the set whose figures these are laid beside; what changed stands in clouds. */
export function drawSettings(set: DryfitSet, older: DryfitSet | null = null): Draft[] {
  const space = drawingSpace(set);
  const earlier = earlierOf(set, older);
  const columns = (): Rect[] => [space];
  const intro = setIntro(set, space);
  const work = (grade: Grade) => (group: SetGroup) => workOf(set, group, space, earlier, grade);
  const told = set.groups.map(work(GRADES[0]));
  const all = (): FlowGroup[] => [...intro, ...told.flat()];
  if (all().length === 0) return [];
  const drawings = flow(all(), columns).length;
  // Group by group as large as it can be without a further drawing.
  set.groups.forEach((group, i) => {
    if (!set.settings.some((one) => one.group === group.n)) return;
    const plain = told[i]!;
    const larger = GRADES.slice(1)
      .reverse()
      .find((grade) => {
        told[i] = work(grade)(group);
        return flow(all(), columns).length === drawings;
      });
    if (larger === undefined) told[i] = plain;
  });
  return numberDrafts("settings", "Settings", flowEvenly(all(), columns));
}
