/** Joint depths against the parts that receive the grooves, before anything is derived. */
import { formatLengthWithUnit, type Mm, SAME } from "../base/length.ts";
import type { Problem } from "../base/problem.ts";
import { BACK_GROOVE } from "./defaults.ts";
import { designProblem } from "./problems.ts";
import type { Bay, Case, Joinery, Project, Role, Stock } from "./project.ts";
import { quote } from "./words.ts";

const ROLE_NAMES: Record<Role, string> = {
  side: "side",
  bottom: "bottom",
  top: "top panel",
  divider: "divider",
  shelf: "shelf",
  back: "back",
  kick: "kick",
};

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
  const stockOf = (role: Role): Stock => project.stock.find(({ id }) => id === design.stock[role])!;
  const problems: Problem[] = [];
  const placeOf = (key: keyof Joinery): string => {
    const own = `${design.path}.joinery.${key}`;
    return own in project.lines ? own : `joinery.${key}`;
  };

  const tooDeep = (path: string, depth: Mm, role: Role): void => {
    const { nominal } = stockOf(role);
    if (depth <= nominal / 2 + SAME) return;
    problems.push(
      designProblem(
        project,
        path,
        `a joint ${show(depth)} deep in a ${ROLE_NAMES[role]} of ${quote(design.name)}, which is ${show(nominal)} thick`,
        `at most half the nominal thickness, ${show(nominal / 2)}`,
        "make the joint less deep, or that part of thicker stock",
      ),
    );
  };

  if (joinery.depth !== null) {
    for (const role of receivingRoles(design)) {
      const depth = "cut" in joinery.depth ? joinery.depth.cut : stockOf(role).thickness - joinery.depth.leave;
      if (depth > SAME) tooDeep(joinery.depthPath, depth, role);
      else {
        problems.push(
          designProblem(
            project,
            joinery.depthPath,
            `a joint that leaves as much as a ${ROLE_NAMES[role]} of ${quote(design.name)} is thick, ${show(stockOf(role).thickness)}`,
            "less to be left than the part's measured thickness",
            "leave less under the groove",
          ),
        );
      }
    }
  }
  if (design.back.fit === "captured") {
    const given = joinery.backDepth;
    const halves = HOLD_BACK.map((role) => stockOf(role).nominal / 2);
    const depth = given ?? Math.min(BACK_GROOVE[project.unit], ...halves);
    if (given !== null) for (const role of HOLD_BACK) tooDeep(placeOf("backDepth"), given, role);
    if (joinery.slip >= depth - SAME) {
      problems.push(
        designProblem(
          project,
          placeOf("slip"),
          `the back of ${quote(design.name)} stays clear of its grooves by the slip of ${show(joinery.slip)}`,
          `less than the grooves' depth of ${show(depth)}`,
          "make the slip smaller, or the grooves for the back deeper",
        ),
      );
    }
  }
  return oncePerText(problems);
}

/** Side and divider may be of one stock, and then have one fault. */
const oncePerText = (problems: Problem[]): Problem[] =>
  problems.filter((one, i) => problems.findIndex((other) => other.found === one.found) === i);
