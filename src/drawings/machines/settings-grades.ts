/** How large each setting is told: the figures and pictures grow into the room that their drawings have to spare. */
import type { Rect, Shape } from "../../paper/shape.ts";
import type { DryfitSet, SetGroup, SetSetting } from "../../set/schema.ts";
import { filledShare, LEAST_FILLED } from "../draughting/filled.ts";
import { type Columns, type FlowGroup, flow, flowInRuled, heightOf } from "../draughting/flow.ts";
import { GRADES, type Grade } from "./setting.ts";

const LARGEST_FIRST: readonly Grade[] = [...GRADES].reverse();

export type GradeOf = (setting: SetSetting) => Grade;

type Telling = {
  intro: readonly FlowGroup[];
  work: (group: SetGroup, gradeOf: GradeOf) => FlowGroup[];
  columns: Columns;
  drawing: Rect;
};

/** Whether what a column holds whole it still does when drawn larger. */
const areWhole = (larger: readonly FlowGroup[], plain: readonly FlowGroup[], { height }: Rect): boolean =>
  larger.every((group, i) => heightOf(group, true) <= height || heightOf(plain[i]!, true) > height);

/**
 * Group by group as large as it can be without a further drawing; then, where a drawing stays nearly blank all the same,
 * setting by setting. None where there is nothing to set up.
 */
export function tellLarge(set: DryfitSet, { intro, work, columns, drawing }: Telling): Shape[][] {
  const grades = new Map<SetSetting, Grade>(set.settings.map((setting) => [setting, GRADES[0]]));
  const gradeOf: GradeOf = (setting) => grades.get(setting)!;
  const told = set.groups.map((group) => work(group, gradeOf));
  const all = (): FlowGroup[] => [...intro, ...told.flat()];
  if (all().length === 0) return [];
  const [column] = columns(0) as [Rect];
  const count = flow(all(), columns).length;
  const isMade = (i: number, settings: readonly SetSetting[], grade: Grade, isBetter: () => boolean): boolean => {
    const plain = told[i]!;
    const before = settings.map(gradeOf);
    for (const setting of settings) grades.set(setting, grade);
    told[i] = work(set.groups[i]!, gradeOf);
    if (areWhole(told[i]!, plain, column) && flow(all(), columns).length === count && isBetter()) return true;
    told[i] = plain;
    settings.forEach((setting, n) => void grades.set(setting, before[n]!));
    return false;
  };
  set.groups.forEach((group, i) => {
    const own = set.settings.filter((one) => one.group === group.n);
    if (own.length > 0) LARGEST_FIRST.slice(0, -1).find((grade) => isMade(i, own, grade, () => true));
  });
  /** How much of a third the drawings lack; the last is as full as it comes. */
  const lacking = (): number =>
    flowInRuled(all(), columns)
      .slice(0, -1)
      .reduce((sum, shapes) => sum + Math.max(0, LEAST_FILLED - filledShare(shapes, drawing)), 0);
  let lack = lacking();
  for (const setting of set.settings) {
    if (lack === 0) break;
    const i = set.groups.findIndex(({ n }) => n === setting.group);
    const larger = LARGEST_FIRST.slice(0, LARGEST_FIRST.indexOf(gradeOf(setting)));
    larger.find((grade) => isMade(i, [setting], grade, () => lacking() < lack));
    lack = lacking();
  }
  return flowInRuled(all(), columns);
}
