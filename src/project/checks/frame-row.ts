/** One face frame before several cases: do these stand beside each other, fronts, bottoms and upper ends in line, and are their sides covered? */
import { isSame, type Mm, SAME } from "../../base/length.ts";
import type { Case } from "../case.ts";
import type { FaceFrame } from "../face-frame.ts";
import { quote } from "../file/words.ts";
import type { Project } from "../project.ts";
import type { CaseFaults } from "./case-faults.ts";
import { frameFoot, thicknessIn } from "./clear-inside.ts";

/** Cases under one frame stand so near, or what lies between them shows behind the rails and leaves nothing to screw through (common practice, no source). */
const APART: Mm = 2;

/** `row`: from left to right. */
export function checkFrameRow(project: Project, row: readonly Case[], frame: FaceFrame, faults: CaseFaults): void {
  const { add, show } = faults;
  const [first] = row as [Case];
  const bottom = (one: Case): Mm => one.at[2] + one.bottom.up + thicknessIn(one, project.stock)("bottom");
  const levels: [what: string, level: (one: Case) => Mm, remedy: string][] = [
    ["front edges", ({ at }) => at[1], 'stand them in line, by the second figure of "at"'],
    ["upper ends", ({ at, height }) => at[2] + height, "give them one height"],
    ["lower ends, where the frame begins", (one) => one.at[2] + frameFoot(one), "give them one base, or one kick"],
    ...(frame.bottomRail === null
      ? []
      : ([["bottoms", bottom, 'set one of them otherwise, by "up" of its "bottom"']] as [
          string,
          typeof bottom,
          string,
        ][])),
  ];
  for (const [what, level, remedy] of levels) {
    const other = row.find((one) => Math.abs(level(one) - level(first)) > project.step + SAME);
    if (other === undefined) continue;
    add(
      "frame.over",
      `${what} of ${quote(other.name)} ${show(Math.abs(level(other) - level(first)))} ${what === "front edges" ? "behind or before" : "above or below"} those of ${quote(first.name)}, under one face frame`,
      "one plane",
      remedy,
    );
  }
  row.slice(1).forEach((one, i) => {
    const before = row[i]!;
    const gap = one.at[0] - (before.at[0] + before.quantity * before.width);
    if (Math.abs(gap) > APART)
      add(
        "frame.over",
        `${quote(before.name)} and ${quote(one.name)}, ${gap > 0 ? `${show(gap)} apart` : "one over the other"}, under one face frame`,
        "cases that stand against each other",
        'stand them side by side, by "at", or give each a frame of its own',
      );
  });
  checkJoints(project, row, frame, faults);
}

/** Between two cases stand two sides, or one that both share; in the front of each its edge has to be hidden. */
function checkJoints(
  project: Project,
  row: readonly Case[],
  { jointStile }: FaceFrame,
  { add, show }: CaseFaults,
): void {
  const side = (one: Case): Mm => thicknessIn(one, project.stock)("side");
  const joints = row.flatMap((one, i): { names: string; takes: Mm }[] => {
    const next = row[i + 1];
    const takes = next === undefined ? 0 : side(one) + (next.shares === null ? side(next) : 0);
    return [
      ...(one.quantity > 1 ? [{ names: `one ${quote(one.name)} and the next`, takes: 2 * side(one) }] : []),
      ...(next === undefined ? [] : [{ names: `${quote(one.name)} and ${quote(next.name)}`, takes }]),
    ];
  });
  const widest = joints.find(({ takes }) => takes === Math.max(...joints.map((one) => one.takes)))!;
  if (jointStile > widest.takes - SAME || isSame(jointStile, widest.takes)) return;
  add(
    "frame.jointStile",
    `a stile ${show(jointStile)} wide before the joint of ${widest.names}, whose sides take ${show(widest.takes)}`,
    `at least ${show(widest.takes)}, so that no edge of a side shows`,
    'make "jointStile" wider',
  );
}
