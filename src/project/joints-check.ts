/** Joint depths against the parts that receive the grooves, before anything is derived. */

import { formatLengthWithUnit, type Mm, SAME } from "../base/length.ts";
import type { Problem } from "../base/problem.ts";
import { listInWords } from "../base/words.ts";
import { stockIn } from "./clear-inside.ts";
import { BACK_GROOVE, HELD_STEPS } from "./defaults.ts";
import { designProblem } from "./problems.ts";
import { type Bay, type Case, joineryPath, type Project, ROLE_NAMES, type Role, type Stock } from "./project.ts";
import { quote } from "./words.ts";

const HOLD_BACK: readonly Role[] = ["side", "bottom", "top"];

type Around = { left: Role; right: Role; below: Role; above: Role };

/** Roles that another part of the case is housed in. Sides always are: they hold the bottom and the top panel. */
function receivingRoles(design: Case): Set<Role> {
  const roles = new Set<Role>(["side"]);
  const walk = (bay: Bay, around: Around): void => {
    if (bay.kind === "open") return;
    const columns = bay.kind === "columns";
    const [low, high] = columns ? (["left", "right"] as const) : (["below", "above"] as const);
    const between: Role = columns ? "divider" : "shelf";
    // A divider goes into what is below and above it, a shelf into what is left and right of it.
    for (const role of columns ? [around.below, around.above] : [around.left, around.right]) roles.add(role);
    bay.bays.forEach((child, i) => {
      walk(child, {
        ...around,
        [low]: i === 0 ? around[low] : between,
        [high]: i === bay.bays.length - 1 ? around[high] : between,
      });
    });
  };
  walk(design.bays, { left: "side", right: "side", below: "bottom", above: "top" });
  return roles;
}

export function checkJoints(project: Project, design: Case): Problem[] {
  const { joinery } = design;
  const show = (length: Mm): string => formatLengthWithUnit(length, project.unit);
  const stockOf = (role: Role): Stock => stockIn(design, project.stock, role);
  const { step } = project;
  const problems: Problem[] = [];
  /** One problem for each stock, however many parts are cut from it. */
  const checkDepths = (path: string, roles: readonly Role[], depthIn: (stock: Stock) => Mm): void => {
    for (const stock of new Set(roles.map(stockOf))) {
      const depth = depthIn(stock);
      const parts = `${listInWords(roles.filter((role) => stockOf(role) === stock).map((role) => ROLE_NAMES[role]))} of ${quote(design.name)}`;
      if (depth < SAME) {
        problems.push(
          designProblem(
            project,
            path,
            `joints that leave as much as there is in ${parts}, measured ${show(stock.thickness)} thick`,
            `less than ${show(stock.thickness)} to be left`,
            "leave less under the groove",
          ),
        );
      } else if (depth < HELD_STEPS * step - SAME) {
        problems.push(
          designProblem(
            project,
            path,
            `joints ${show(depth)} deep in ${parts}, where rounding may take up to ${show(HELD_STEPS * step)}`,
            `at least ${HELD_STEPS} rounding steps, ${show(HELD_STEPS * step)}`,
            'make the joints deeper, or "step" finer',
          ),
        );
      }
      if (depth > stock.nominal / 2 + SAME) {
        problems.push(
          designProblem(
            project,
            path,
            `joints ${show(depth)} deep in ${parts}, nominally ${show(stock.nominal)} thick`,
            `at most half the nominal thickness, ${show(stock.nominal / 2)}`,
            "make the joints less deep, or choose a thicker stock",
          ),
        );
      }
    }
  };

  const { depth } = joinery;
  if (depth !== null) {
    const roles = [...receivingRoles(design)];
    checkDepths(joinery.depthPath, roles, ({ thickness }) => ("cut" in depth ? depth.cut : thickness - depth.leave));
  }
  const { fit } = design.back;
  if (fit === "none" || fit === "applied") return problems;
  const grooves = fit === "captured" ? "grooves" : "rabbets";
  const { backDepth } = joinery;
  if (backDepth !== null) checkDepths(joineryPath(project, design, "backDepth"), HOLD_BACK, () => backDepth);
  const groove =
    backDepth ?? Math.min(BACK_GROOVE[project.unit], ...HOLD_BACK.map((role) => stockOf(role).nominal / 2));
  if (joinery.slip >= groove - SAME) {
    problems.push(
      designProblem(
        project,
        joineryPath(project, design, "slip"),
        `the back of ${quote(design.name)} stays clear of its ${grooves} by the slip of ${show(joinery.slip)}`,
        `less than the ${grooves}' depth of ${show(groove)}`,
        `make the slip smaller, or the ${grooves} for the back deeper`,
      ),
    );
  } else if (groove - joinery.slip < HELD_STEPS * step - SAME) {
    problems.push(
      designProblem(
        project,
        joineryPath(project, design, backDepth === null ? "slip" : "backDepth"),
        `the back of ${quote(design.name)} is held by ${show(groove - joinery.slip)}, its ${grooves}' depth of ${show(groove)} less the slip of ${show(joinery.slip)}, and rounding may take up to ${show(HELD_STEPS * step)}`,
        `at least ${HELD_STEPS} rounding steps, ${show(HELD_STEPS * step)}`,
        `make the slip smaller, the ${grooves} for the back deeper, or "step" finer`,
      ),
    );
  }
  return problems;
}
