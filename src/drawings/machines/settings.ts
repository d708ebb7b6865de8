/** All that is set up at a machine, group by group: sizing, settings, drilling, what is done by hand after them. */
import type { Mm } from "../../base/length.ts";
import type { Rect } from "../../paper/shape.ts";
import type { DryfitSet, SetGroup } from "../../set/schema.ts";
import type { Draft } from "../draughting/draft.ts";
import { columnsOf, type FlowGroup } from "../draughting/flow.ts";
import { drawingSpace } from "../draughting/frame.ts";
import { numberDrafts } from "../draughting/numbered.ts";
import { type Earlier, earlierOf } from "../draughting/revised.ts";
import { drillingGroups } from "./drilling.ts";
import { gateOf, groupHead } from "./gate.ts";
import { handWorkGroups } from "./hand-work.ts";
import { setSetting } from "./setting-forms.ts";
import { type GradeOf, tellLarge } from "./settings-grades.ts";
import { setIntro } from "./settings-intro.ts";
import { sizingGroups } from "./sizing.ts";

const LEAST_COLUMN: Mm = 170; // figure, two pictures and a table of the parts: as wide as A4 held upright has them
const GUTTER: Mm = 9;

/** In the order of the steps: a group's gate, its sizes, its grooves, its holes, its hand work. */
function workOf(set: DryfitSet, group: SetGroup, space: Rect, earlier: Earlier | null, gradeOf: GradeOf): FlowGroup[] {
  const settings = set.settings.filter((one) => one.group === group.n);
  const work = [
    ...sizingGroups(set, group, space),
    ...(settings.length === 0 ? [] : [gateOf(group, settings[0]!.n, space.width)]),
    ...settings.map((setting) => setSetting(set, setting, space, earlier, gradeOf(setting))),
    // A notched edge is no datum: holes are measured from it first.
    ...drillingGroups(set, group, space),
    ...handWorkGroups(set, group, space.width),
  ];
  return work.length === 0 ? [] : [groupHead(set, group, space.width), ...work];
}

/**
 * On wide paper in columns, the first read down before the second. `older`: the set whose figures these are laid beside;
 * what changed stands in clouds.
 */
export function drawSettings(set: DryfitSet, older: DryfitSet | null = null): Draft[] {
  const whole = drawingSpace(set);
  const earlier = earlierOf(set, older);
  const abreast = columnsOf(whole, Math.max(1, Math.floor((whole.width + GUTTER) / (LEAST_COLUMN + GUTTER))), GUTTER);
  const space = abreast[0]!;
  const drawings = tellLarge(set, {
    intro: setIntro(set, space),
    work: (group, gradeOf) => workOf(set, group, space, earlier, gradeOf),
    columns: () => abreast,
    drawing: whole,
  });
  return numberDrafts("settings", "Settings", drawings);
}
