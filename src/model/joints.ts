/** Joints: what contact between two roles makes, how deep, how loose. */
import { AXES, type AxisIndex, axisOf } from "../base/geometry.ts";
import { type Mm, SAME, type Unit } from "../base/length.ts";
import { BACK_GROOVE } from "../project/defaults.ts";
import type { Case, Role, Stock } from "../project/project.ts";
import { type StockTable, stockOf } from "./carcase.ts";
import { type Contact, findContacts, thicknessAxis } from "./contacts.ts";
import type { Joint, JointKind, Part, ThirdRule } from "./model.ts";

type Rule = { kind: JointKind; fit: "seated" | "slip" };

const HOUSED: Rule = { kind: "housed", fit: "seated" };
const SLIP: Rule = { kind: "housed", fit: "slip" };
const BUTT: Rule = { kind: "butt", fit: "seated" };
const FACE: Rule = { kind: "face", fit: "seated" };

/** The table of role pairs: entering role, then receiving role. A pair that is not here makes no joint. DEVELOPERS.md prints it. */
export const JOINT_RULES: Partial<Record<Role, Partial<Record<Role, Rule>>>> = {
  bottom: { side: HOUSED, back: FACE },
  top: { side: HOUSED, back: FACE },
  shelf: { side: HOUSED, divider: HOUSED, back: BUTT },
  divider: { bottom: HOUSED, top: HOUSED, shelf: HOUSED, back: BUTT },
  side: { back: FACE },
  back: { side: SLIP, bottom: SLIP, top: SLIP },
  kick: { side: BUTT, bottom: BUTT },
};

/** A part thinner than this houses nothing unless the job says how deep (common practice, no source). */
export const LEAST_HOUSING: Mm = 12;

export type TooThin = { part: Part; stock: Stock };
export type JointPlan = {
  joints: Joint[];
  thirds: ThirdRule[];
  tooThin: TooThin[];
};

export function planJoints(parts: readonly Part[], design: Case, stock: StockTable, unit: Unit): JointPlan {
  const tooThin: TooThin[] = [];
  const joints = findContacts(parts).flatMap((contact): Joint[] => {
    const rule = ruleFor(contact);
    if (!rule) return [];
    const depth = rule.kind === "housed" ? depthOf(contact.receiving, rule, design, stock, unit) : 0;
    if (depth === null) {
      tooThin.push({ part: contact.receiving, stock: stockOf(stock, contact.receiving.stock) });
      return [];
    }
    const entering = stockOf(stock, contact.entering.stock);
    return [
      {
        entering: contact.entering.key,
        receiving: contact.receiving.key,
        direction: contact.direction,
        ...rule,
        depth,
        slip: rule.fit === "slip" ? design.joinery.slip : 0,
        width: rule.kind === "housed" ? entering.thickest + design.joinery.allowance : 0,
        contact: contact.contact,
        stop: design.joinery.setBack,
        rearStop: rearStopOf(design, stock),
      },
    ];
  });
  const thirds = applyWebRule(joints, parts, stock);
  return { joints, thirds, tooThin };
}

/** Behind a back in grooves a groove may stop no sooner than where the back's own groove ends. */
function rearStopOf(design: Case, stock: StockTable): Mm {
  const { setBack, allowance } = design.joinery;
  if (design.back.fit !== "captured") return setBack;
  const { thickness, thickest } = stockOf(stock, design.stock.back);
  return Math.max(0, Math.min(setBack, design.back.setIn - (thickest + allowance - thickness)));
}

const ruleFor = ({ entering, receiving }: Contact): Rule | undefined => JOINT_RULES[entering.role]?.[receiving.role];

/** Depth of the groove, or null where the receiving part is too thin to house anything by default. */
function depthOf(receiving: Part, rule: Rule, design: Case, stock: StockTable, unit: Unit): Mm | null {
  const { nominal, thickness } = stockOf(stock, receiving.stock);
  if (rule.fit === "slip") return design.joinery.backDepth ?? Math.min(BACK_GROOVE[unit], nominal / 2);
  const { depth } = design.joinery;
  if (depth === null) return nominal < LEAST_HOUSING ? null : nominal / 2;
  return "cut" in depth ? depth.cut : thickness - depth.leave;
}

/**
 * Grooves on opposite faces of one part that overlap, or pass within half its thickness of each other: where both depths together
 * exceed two thirds of the measured thickness, each becomes a third. Changes the joints given.
 */
function applyWebRule(joints: Joint[], parts: readonly Part[], stock: StockTable): ThirdRule[] {
  const thirds: ThirdRule[] = [];
  for (const part of parts) {
    const { thickness } = stockOf(stock, part.stock);
    const received = joints.filter((joint) => joint.receiving === part.key && joint.depth > 0);
    const full = new Map(received.map((joint) => [joint, joint.depth]));
    received.forEach((one, i) => {
      for (const other of received.slice(i + 1)) {
        if (one.direction === other.direction || !areClose(one, other, part, thickness / 2)) continue;
        if (full.get(one)! + full.get(other)! <= (2 / 3) * thickness + SAME) continue;
        one.depth = Math.min(one.depth, thickness / 3);
        other.depth = Math.min(other.depth, thickness / 3);
        thirds.push({ receiving: part.key, entering: [one.entering, other.entering], depth: thickness / 3 });
      }
    });
  }
  return thirds;
}

/** Whether two contacts on opposite faces of a part overlap in its plane, or pass within `reach` of each other. */
function areClose(one: Joint, other: Joint, part: Part, reach: Mm): boolean {
  return AXES.filter((axis): axis is AxisIndex => axis !== thicknessAxis(part)).every((axis) => {
    const gap =
      Math.max(one.contact[0][axis], other.contact[0][axis]) - Math.min(one.contact[1][axis], other.contact[1][axis]);
    return gap < reach - SAME;
  });
}

/** The axis along which a joint's groove runs: in the receiving face, across the entering part's thickness. */
export function runAxis(joint: Joint, entering: Part): AxisIndex {
  const run = AXES.find((axis) => axis !== axisOf(joint.direction) && axis !== thicknessAxis(entering));
  if (run === undefined) throw new Error(`Joint of ${joint.entering} in ${joint.receiving} has no run`);
  return run;
}
