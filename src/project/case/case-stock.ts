/** The stock of every role of a case. */

import type { Case } from "../case.ts";
import { STOCK_AS } from "../defaults.ts";
import { inputProblem } from "../file/problems.ts";
import { quote } from "../file/words.ts";
import { ROLES, type Role } from "../role.ts";
import type { CaseFile } from "../schema/case.ts";
import { isDoorRole } from "./doors.ts";
import { drawerStock, isDrawerRole } from "./drawers.ts";
import type { Reading } from "./joinery.ts";

/** What the file names for a role: its own, else that of the role it stands in for, else that of all; undefined where it names none. */
export function namedStock({ stock, frame, drawers, doors, track }: CaseFile, role: Role): string | undefined {
  if (isDoorRole(role)) return role === "doorPanel" ? (doors ?? track)?.panel?.stock : (doors ?? track)?.stock;
  if (role === "stile" || role === "rail") return frame?.stock;
  if (isDrawerRole(role)) return drawerStock({ frame, drawers }, role);
  if (role === "return" || role === "returnStrip") return frame?.returns?.stock ?? frame?.stock;
  if (role === "worktop") return undefined;
  if (typeof stock === "string") return stock;
  const like = STOCK_AS[role];
  return stock[role] ?? (like === undefined ? undefined : stock[like]) ?? stock.all;
}

/** A role that the case has no part for is given the side's stock, so that every role has one. */
export function stockByRole(
  file: CaseFile,
  path: string,
  used: Record<Role, boolean>,
  { source, problems }: Reading,
): Case["stock"] {
  const missing = ROLES.filter((role) => used[role] && namedStock(file, role) === undefined);
  if (missing.length > 0) {
    const list = missing.map(quote).join(", ");
    problems.push(
      inputProblem(
        source,
        `${path}.stock`,
        `no stock for ${list}`,
        "a stock for every part of the case",
        `add ${list}, or "all"`,
      ),
    );
  }
  const entries = ROLES.map((role) => [role, namedStock(file, used[role] ? role : "side") ?? ""] as const);
  return Object.fromEntries(entries) as Case["stock"];
}
