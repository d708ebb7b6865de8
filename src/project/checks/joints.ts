/** Joint depths against the parts that receive the grooves, before anything is derived. */

import { formatLengthWithUnit, type Mm, SAME } from "../../base/length.ts";
import type { Problem } from "../../base/problem.ts";
import { listInWords } from "../../base/words.ts";
import { hasBetween } from "../case/bays.ts";
import type { Case, DepthRule, JointChoice } from "../case.ts";
import { BACK_GROOVE, HELD_STEPS, LEAST_BESIDE, LEAST_FASTENED, LEAST_TONGUE, TONGUE } from "../defaults.ts";
import { designProblem } from "../file/problems.ts";
import { quote } from "../file/words.ts";
import { jointsIn, type PairJoint } from "../places.ts";
import { joineryPath, type Project } from "../project.ts";
import { ROLE_NAMES, type Role } from "../role.ts";
import type { Stock } from "../stock.ts";
import { stockIn } from "./clear-inside.ts";

/** A role that takes in a groove, and what it is cut from: a shared side is the other case's. */
type Receiver = { role: Role; stock: Stock };

export function checkJoints(project: Project, design: Case): Problem[] {
  const joints = jointsIn(design);
  return [
    ...checkUsualDepth(project, design, joints),
    ...checkChosen(project, design, joints),
    ...checkBackGrooves(project, design),
  ];
}

/** The case whose right side is this one's left. */
const lenderOf = (project: Project, design: Case): Case | undefined =>
  project.cases.find(({ name }) => name === design.shares?.left);

const stockOf = (project: Project, design: Case, role: Role, shared = false): Stock =>
  stockIn((shared ? lenderOf(project, design) : null) ?? design, project.stock, role);

const receiversOf = (project: Project, design: Case, joints: readonly PairJoint[]): Receiver[] =>
  joints.map(({ receiving, shared }) => ({
    role: receiving.role,
    stock: stockOf(project, design, receiving.role, shared),
  }));

/** Housings that no choice gives a depth of its own. */
function checkUsualDepth(project: Project, design: Case, joints: readonly PairJoint[]): Problem[] {
  const { depth, depthPath } = design.joinery;
  if (depth === null) return [];
  const receivers = receiversOf(
    project,
    design,
    joints.filter((joint) => joint.kind !== "butt" && joint.depth === null),
  );
  const { back } = design;
  if (back.fit !== "none" && back.houses && design.bays.kind !== "open")
    receivers.push({ role: "back", stock: stockOf(project, design, "back") });
  return checkDepths(project, design, depthPath, receivers, depthFrom(depth));
}

const depthFrom =
  (depth: NonNullable<DepthRule>) =>
  ({ thickness }: Stock): Mm =>
    "cut" in depth ? depth.cut : thickness - depth.leave;

/** One problem for each stock, however many parts are cut from it. */
function checkDepths(
  project: Project,
  design: Case,
  path: string,
  receivers: readonly Receiver[],
  depthIn: (stock: Stock) => Mm,
): Problem[] {
  const show = (length: Mm): string => formatLengthWithUnit(length, project.unit);
  const held = HELD_STEPS * project.step;
  const problems: Problem[] = [];
  const add = (found: string, expected: string, remedy: string): void => {
    problems.push(designProblem(project, path, found, expected, remedy));
  };
  for (const stock of new Set(receivers.map((one) => one.stock))) {
    const depth = depthIn(stock);
    const roles = new Set(receivers.filter((one) => one.stock === stock).map(({ role }) => ROLE_NAMES[role]));
    const parts = `${listInWords([...roles])} of ${quote(design.name)}`;
    if (depth < SAME) {
      add(
        `joints that leave as much as there is in ${parts}, measured ${show(stock.thickness)} thick`,
        `less than ${show(stock.thickness)} to be left`,
        "leave less under the groove",
      );
    } else if (depth < held - SAME) {
      add(
        `joints ${show(depth)} deep in ${parts}, where rounding may take up to ${show(held)}`,
        `at least ${HELD_STEPS} rounding steps, ${show(held)}`,
        'make the joints deeper, or "step" finer',
      );
    }
    if (depth > stock.nominal / 2 + SAME) {
      add(
        `joints ${show(depth)} deep in ${parts}, nominally ${show(stock.nominal)} thick`,
        `at most half the nominal thickness, ${show(stock.nominal / 2)}`,
        "make the joints less deep, or choose a thicker stock",
      );
    }
  }
  return problems;
}

/** Joints chosen for a pair or a place: what holds in this case of each. */
function checkChosen(project: Project, design: Case, joints: readonly PairJoint[]): Problem[] {
  return design.joints.flatMap((choice) => {
    const chosen = joints.filter((joint) => joint.choice === choice);
    if (chosen.length === 0) return [];
    const { depth, kind, fixing, path } = choice;
    const depths =
      depth === null
        ? []
        : checkDepths(
            project,
            design,
            `${path}.${"cut" in depth ? "depth" : "leave"}`,
            receiversOf(project, design, chosen),
            depthFrom(depth),
          );
    const entering = [...new Set(chosen.map((joint) => joint.entering.role))];
    const ends = entering.flatMap((role) => {
      if (kind === "tongue") return checkTongue(project, design, choice, role);
      return kind === "butt" && fixing !== "glue" ? checkFastened(project, design, choice, role) : [];
    });
    return [...depths, ...ends];
  });
}

/** Neither the tongue nor what is taken off beside it may be too thin. */
function checkTongue(project: Project, design: Case, { tongue, path }: JointChoice, role: Role): Problem[] {
  const show = (length: Mm): string => formatLengthWithUnit(length, project.unit);
  const { nominal, thickness } = stockOf(project, design, role);
  const thick = tongue ?? nominal * TONGUE;
  const most = thickness - LEAST_BESIDE;
  if (thick >= LEAST_TONGUE - SAME && thick <= most + SAME) return [];
  return [
    designProblem(
      project,
      `${path}.tongue`,
      `a tongue ${show(thick)} thick on the ${ROLE_NAMES[role]} of ${quote(design.name)}, measured ${show(thickness)} thick`,
      most < LEAST_TONGUE
        ? `a part of at least ${show(LEAST_TONGUE + LEAST_BESIDE)}`
        : `from ${show(LEAST_TONGUE)} to ${show(most)}: ${show(LEAST_BESIDE)} or more are taken off beside it`,
      most < LEAST_TONGUE ? "choose a thicker stock, or another joint" : 'give another "tongue", or another joint',
    ),
  ];
}

/** Screws and dowels go into the edge of what enters. */
function checkFastened(project: Project, design: Case, { fixing, path }: JointChoice, role: Role): Problem[] {
  const show = (length: Mm): string => formatLengthWithUnit(length, project.unit);
  const { nominal } = stockOf(project, design, role);
  if (nominal >= LEAST_FASTENED - SAME) return [];
  return [
    designProblem(
      project,
      `${path}.fixing`,
      `${fixing} into the edge of the ${ROLE_NAMES[role]} of ${quote(design.name)}, nominally ${show(nominal)} thick`,
      `a part of ${show(LEAST_FASTENED)} or more, which does not split`,
      "choose a thicker stock, or house it",
    ),
  ];
}

/** Roles that hold a back in grooves or rabbets. */
function rolesAroundBack({ top, back, bays }: Case): Role[] {
  const isBetweenDividers = back.fit === "captured" && back.sections && hasBetween(bays, "divider");
  return [
    "side",
    "bottom",
    ...(top.fit === "stretchers" ? [] : (["top"] as const)),
    ...(isBetweenDividers ? (["divider"] as const) : []),
  ];
}

/** Is the back held, once the slip and the rounding have taken their part? */
function checkBackGrooves(project: Project, design: Case): Problem[] {
  const { fit } = design.back;
  if (fit === "none" || fit === "applied") return [];
  const { step } = project;
  const show = (length: Mm): string => formatLengthWithUnit(length, project.unit);
  const grooves = fit === "captured" ? "grooves" : "rabbets";
  const { backDepth, slip } = design.joinery;
  const receivers = rolesAroundBack(design).map((role) => ({ role, stock: stockOf(project, design, role) }));
  const problems =
    backDepth === null
      ? []
      : checkDepths(project, design, joineryPath(project, design, "backDepth"), receivers, () => backDepth);
  const groove = Math.min(
    ...receivers.map(({ role, stock }) => {
      const depth = backDepth ?? Math.min(BACK_GROOVE[project.unit], stock.nominal / 2);
      // Grooves back to back in a divider are a third of it each, where they would take more than two thirds.
      return role === "divider" && 2 * depth > (2 / 3) * stock.thickness + SAME ? stock.thickness / 3 : depth;
    }),
  );
  if (slip >= groove - SAME) {
    problems.push(
      designProblem(
        project,
        joineryPath(project, design, "slip"),
        `the back of ${quote(design.name)} stays clear of its ${grooves} by the slip of ${show(slip)}`,
        `less than the ${grooves}' depth of ${show(groove)}`,
        `make the slip smaller, or the ${grooves} for the back deeper`,
      ),
    );
  } else if (groove - slip < HELD_STEPS * step - SAME) {
    problems.push(
      designProblem(
        project,
        joineryPath(project, design, backDepth === null ? "slip" : "backDepth"),
        `the back of ${quote(design.name)} is held by ${show(groove - slip)}, its ${grooves}' depth of ${show(groove)} less the slip of ${show(slip)}, and rounding may take up to ${show(HELD_STEPS * step)}`,
        `at least ${HELD_STEPS} rounding steps, ${show(HELD_STEPS * step)}`,
        `make the slip smaller, the ${grooves} for the back deeper, or "step" finer`,
      ),
    );
  }
  return problems;
}
