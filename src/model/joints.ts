/** Joints: what contact between two roles makes, how deep, how loose. */
import { AXES, type AxisIndex, axisOf } from "../base/geometry.ts";
import type { Mm, Unit } from "../base/length.ts";
import type { Case, DepthRule, JointChoice } from "../project/case.ts";
import { BACK_GROOVE, DEEPEST_HOLE, dowelFor, LEAST_HOUSING, TONGUE } from "../project/defaults.ts";
import type { FrameJoint } from "../project/face-frame.ts";
import { looseTenon, stubTenon } from "../project/frame-joints.ts";
import { JOINT_RULES, type JointRule } from "../project/joint-rules.ts";
import type { Stock } from "../project/stock.ts";
import { type StockTable, stockOf } from "./cases/carcase.ts";
import { applyWebRule } from "./cases/webs.ts";
import { type Contact, findContacts, opposite, thicknessAxis } from "./contacts.ts";
import { panelSetIn } from "./doors/door-sizes.ts";
import type { Direction, Joint, Part, PinRow, Shoulder, ThirdRule } from "./model.ts";

export type TooThin = { part: Part; stock: Stock };
export type JointPlan = {
  joints: Joint[];
  thirds: ThirdRule[];
  tooThin: TooThin[];
};

export type JointGround = {
  designOf: (part: Part) => Case;
  mayMeet: (entering: Part, receiving: Part) => boolean;
  stock: StockTable;
  unit: Unit;
};

/** Depths of joints and pin rows are cut down by the web rule in place. */
export function planJoints(parts: readonly Part[], pinRows: readonly PinRow[], ground: JointGround): JointPlan {
  const tooThin: TooThin[] = [];
  const { stock } = ground;
  const joints: Joint[] = [];
  for (const contact of findContacts(parts, ground.mayMeet)) {
    // Two edges, or two faces, meet each other alike: told once.
    const isTold = joints.some(
      (joint) =>
        contact.how !== "end" &&
        joint.entering === contact.receiving.key &&
        joint.receiving === contact.entering.key &&
        joint.direction === opposite(contact.direction),
    );
    if (isTold) continue;
    const made = makeJoint(contact, ground);
    if (made === "too thin") tooThin.push({ part: contact.receiving, stock: stockOf(stock, contact.receiving.stock) });
    else if (made !== null) joints.push(made);
  }
  const thirds = applyWebRule(joints, pinRows, parts, stock);
  return { joints, thirds, tooThin };
}

function makeJoint(contact: Contact, { designOf, stock, unit }: JointGround): Joint | "too thin" | null {
  const { entering, receiving, direction } = contact;
  const design = designOf(entering);
  const rule = ruleFor(contact, design, stock);
  if (rule === null) return null;
  const depth = rule.kind === "housed" || rule.kind === "tongue" ? depthOf(receiving, rule, design, stock, unit) : 0;
  if (depth === null) return "too thin";
  const { thickness, thickest, nominal } = stockOf(stock, entering.stock);
  const shoulders =
    rule.kind === "lap"
      ? [{ face: "-y" as const, depth: thickness / 2 }]
      : rule.kind !== "tongue"
        ? []
        : design.frame !== null && isMember(entering)
          ? frameShoulders(thickest, stubTenon(thickness, design.frame.tenon, unit).thickness)
          : entering.role === "doorRail"
            ? stubShoulders(design, stock)
            : [shoulderOf(entering, thickness, rule.tongue ?? nominal * TONGUE)];
  const enters = thickest - shoulders.reduce((sum, { depth: taken }) => sum + taken, 0);
  return {
    entering: entering.key,
    receiving: receiving.key,
    direction,
    kind: rule.kind,
    fit: rule.fit,
    fixing: rule.fixing,
    depth,
    slip: slipOf(entering, direction, rule, design),
    width: depth > 0 ? enters + design.joinery.allowance : 0,
    shoulders,
    contact: contact.contact,
    ledge: contact.ledge,
    stop: design.joinery.setBack,
    rearStop: rearStopOf(design, stock),
    gap: 0,
    tenon: rule.fixing === "loose tenons" ? tenonIn(contact, thickness, design, unit) : null,
    tails: rule.kind === "dovetail" ? design.drawers!.tails : null,
    dowel: rule.kind === "butt" && rule.fixing === "dowels" ? dowelIn(contact, dowelFor(thickness)) : null,
    fasteners: null,
  };
}

/** Left free between an entering end and its seat. */
function slipOf({ frame, slips }: Part, direction: Direction, { fit }: Chosen, { joinery, pins }: Case): Mm {
  if (fit === "floating") return pins.clearance;
  if (fit !== "slip") return 0;
  if (slips === null) return joinery.slip;
  return axisOf(frame.l) === axisOf(direction) ? slips.l : slips.w;
}

/** Into an edge a dowel goes as far as into the end that meets it; never farther than the wood there bears. */
function dowelIn({ how, receiving, direction }: Contact, dowel: ReturnType<typeof dowelFor>): Joint["dowel"] {
  const { diameter, length, inFace, spare } = dowel;
  const axis = axisOf(direction);
  const bears = DEEPEST_HOLE * (receiving.box[1][axis] - receiving.box[0][axis]);
  return { diameter, length, spare, depth: Math.min(how === "edges" ? length / 2 : inFace, bears) };
}

/** As wide as what ends there allows, and as deep as the other bears. */
function tenonIn(
  { entering, receiving, direction }: Contact,
  thickness: Mm,
  { frame }: Case,
  unit: Unit,
): Joint["tenon"] {
  if (frame === null) throw new Error(`${entering.key} is of a frame, and its case has none`);
  const [across, into] = [axisOf(entering.frame.w), axisOf(direction)];
  const width = entering.box[1][across] - entering.box[0][across];
  return looseTenon({ thickness, width, behind: receiving.box[1][into] - receiving.box[0][into] }, frame.tenon, unit);
}

/** Behind a back in grooves a groove may stop no sooner than where the back's own groove ends. */
function rearStopOf(design: Case, stock: StockTable): Mm {
  const { setBack, allowance } = design.joinery;
  if (design.back.fit !== "captured") return setBack;
  const { thickness, thickest } = stockOf(stock, design.stock.back);
  return Math.max(0, Math.min(setBack, design.back.setIn - (thickest + allowance - thickness)));
}

type Chosen = Omit<JointRule, "fixing"> & Pick<JointChoice, "fixing" | "tongue"> & { own: DepthRule };

/** What the table says of the two roles, or what the job chooses instead for them or for this very place. */
function ruleFor({ entering, receiving, direction, how }: Contact, design: Case, stock: StockTable): Chosen | null {
  const rule = JOINT_RULES[entering.role]?.[receiving.role];
  if (rule === undefined || !rule.how.includes(how)) return null;
  const { fixing } = rule;
  if (fixing === "as the frame") {
    // Of two edges in contact, the one that is an end butts against the other.
    if (axisOf(entering.frame.l) !== axisOf(direction) || design.frame === null) return null;
    return { ...rule, ...FRAME_JOINTS[design.frame.joint], tongue: null, own: null };
  }
  if (rule.ofDrawers) return { ...rule, ...drawn(rule, receiving, design, stock), fixing, tongue: null };
  const isHousing = receiving.role === "back" && design.back.fit !== "none" && design.back.houses;
  const usual: JointRule = isHousing && rule.housedIf === "back houses" ? { ...rule, kind: "housed" } : rule;
  const choice = how === "end" && rule.chosen ? lastChoice(design.joints, entering, receiving) : undefined;
  if (choice === undefined) return { ...usual, fixing, tongue: null, own: null };
  return { ...usual, kind: choice.kind, fixing: choice.fixing, tongue: choice.tongue, own: choice.depth };
}

/** Of a drawer: front and back enter half the side, or are dovetailed with it; its bottom as deep as the case's drawers have it. */
function drawn(
  { kind, fit }: JointRule,
  receiving: Part,
  { drawers }: Case,
  stock: StockTable,
): Pick<Chosen, "kind" | "own"> {
  if (drawers === null) throw new Error(`${receiving.key} is of a drawer, and its case has none`);
  if (fit === "slip") return { kind, own: { cut: drawers.bottom.depth } };
  if (drawers.joint === "dovetail") return { kind: "dovetail", own: null };
  const half = stockOf(stock, receiving.stock).nominal / 2;
  return { kind: drawers.joint === "dado and rabbet" ? "tongue" : kind, own: { cut: half } };
}

/** Case and id of a part's key. */
const splitKey = ({ key }: Part): [string, string] => [key.slice(0, key.indexOf("/")), key.slice(key.indexOf("/") + 1)];

const lastChoice = (choices: readonly JointChoice[], entering: Part, receiving: Part): JointChoice | undefined => {
  const [home, id] = splitKey(entering);
  const [other, otherId] = splitKey(receiving);
  // The side of the case beside is this one's left side.
  const ids = [id, other === home ? otherId : "side-left"] as const;
  return choices.findLast(
    (choice) =>
      [entering.role, ids[0]].includes(choice.entering) && [receiving.role, ids[1]].includes(choice.receiving),
  );
};

/** Depth of the groove, or null where the receiving part is too thin to house anything by default. */
function depthOf(receiving: Part, rule: Chosen, design: Case, stock: StockTable, unit: Unit): Mm | null {
  const { nominal, thickness } = stockOf(stock, receiving.stock);
  if (isMember(receiving)) return stubTenon(thickness, design.frame!.tenon, unit).length;
  if (receiving.role === "doorStile" || receiving.role === "doorRail") return stickOf(design);
  if (rule.fit === "slip" && rule.own === null)
    return design.joinery.backDepth ?? Math.min(BACK_GROOVE[unit], nominal / 2);
  const depth = rule.own ?? design.joinery.depth;
  if (depth === null) return nominal < LEAST_HOUSING ? null : nominal / 2;
  return "cut" in depth ? depth.cut : thickness - depth.leave;
}

/**
 * The rabbet that leaves a tongue. The tongue stays at the part's lower, left or front face; on a bottom at its upper one, and on the front
 * of a drawer at its rear one, or its groove would lie at the very ends of the sides.
 */
const shoulderOf = (entering: Part, thickness: Mm, tongue: Mm): Shoulder => {
  const axis = (["x", "y", "z"] as const)[thicknessAxis(entering)];
  const isUpper = entering.role === "bottom" || entering.role === "drawerFront";
  return { face: isUpper ? `-${axis}` : `+${axis}`, depth: thickness - tongue };
};

function stickOf({ doors, sliders, track }: Case): Mm | null {
  const make = (doors ?? sliders ?? track)?.make;
  return make?.kind === "frame and panel" ? make.stick : null;
}

/** On both faces of a door's rail, so that its tongue fits the groove of the panel: as thick as the panel, and in line with it. */
function stubShoulders(design: Case, stock: StockTable): Shoulder[] {
  const [rail, panel] = [stockOf(stock, design.stock.doorRail), stockOf(stock, design.stock.doorPanel)];
  const before = panelSetIn(rail, panel);
  return [
    { face: "-y", depth: before },
    { face: "+y", depth: rail.thickest - before - panel.thickest },
  ];
}

const isMember = ({ role }: Part): boolean => role === "stile" || role === "rail";

/** How a frame's members meet, by what its case says of them. */
const FRAME_JOINTS: Record<FrameJoint, Pick<Chosen, "kind" | "fixing">> = {
  dowels: { kind: "butt", fixing: "dowels" },
  "pocket screws": { kind: "butt", fixing: "pocket screws" },
  "loose tenons": { kind: "butt", fixing: "loose tenons" },
  "stub tenons": { kind: "tongue", fixing: "glue" },
  "half laps": { kind: "lap", fixing: "glue" },
};

/** The tenon lies in the middle: what is beside it comes off both faces alike. */
const frameShoulders = (thickest: Mm, tenon: Mm): Shoulder[] => [
  { face: "-y", depth: (thickest - tenon) / 2 },
  { face: "+y", depth: (thickest - tenon) / 2 },
];

/** The axis along which a joint's groove runs: in the receiving face, across the entering part's thickness. */
export function runAxis(joint: Joint, entering: Part): AxisIndex {
  const run = AXES.find((axis) => axis !== axisOf(joint.direction) && axis !== thicknessAxis(entering));
  if (run === undefined) throw new Error(`Joint of ${joint.entering} in ${joint.receiving} has no run`);
  return run;
}
