/** Cases of the file as cases of the project: millimetres, every default filled in, a stock for every role. */
import type { Vec } from "../base/geometry.ts";
import type { Mm, Unit } from "../base/length.ts";
import { lengthOf } from "../base/parse-length.ts";
import type { Problem } from "../base/problem.ts";
import { bayOf, hasBetween } from "./bays.ts";
import {
  ALLOWANCE,
  BACK_FIT,
  BACK_GRAIN,
  BACK_SET_IN,
  EDGES,
  KICK_SET_BACK,
  PINS,
  SET_BACK,
  SHELF_LOAD,
  SLIP,
} from "./defaults.ts";
import { inputProblem } from "./problems.ts";
import { type Case, type DepthRule, type Joinery, ROLES, type Role } from "./project.ts";
import type { CaseFile, JoineryFile, ProjectFile } from "./schema.ts";
import type { Source } from "./source.ts";
import { quote } from "./words.ts";

type Reading = { source: Source; unit: Unit; problems: Problem[] };

export function casesOf(file: ProjectFile, source: Source, problems: Problem[]): Case[] {
  const reading = { source, unit: file.unit, problems };
  checkJoinery(file.joinery, "joinery", reading);
  let beside: Vec = [0, 0, 0]; // where the next case stands, unless it says so itself
  return file.cases.map((one, i) => {
    const design = caseOf(one, `cases[${i}]`, file.joinery, beside, reading);
    beside = [design.at[0] + design.quantity * design.width, design.at[1], design.at[2]];
    return design;
  });
}

function caseOf(file: CaseFile, path: string, common: JoineryFile | undefined, beside: Vec, reading: Reading): Case {
  const { source, unit, problems } = reading;
  const mm = (value: number | string): Mm => lengthOf(value, unit);
  const down = file.top === undefined ? 0 : mm(file.top.down);
  const up = file.bottom === undefined ? 0 : mm(file.bottom.up);
  const at: Vec = file.at === undefined ? beside : [mm(file.at[0]), mm(file.at[1]), mm(file.at[2])];
  const bays = bayOf(file.bays ?? {}, `${path}.bays`, source, unit, problems);
  checkJoinery(file.joinery, `${path}.joinery`, reading);
  const back = backOf(file, path, reading);
  const kick =
    file.kick === undefined
      ? null
      : {
          fit: "between" as const,
          setBack: file.kick.setBack === undefined ? KICK_SET_BACK[unit] : mm(file.kick.setBack),
        };
  const used: Record<Role, boolean> = {
    side: true,
    bottom: true,
    top: true,
    divider: hasBetween(bays, "divider"),
    shelf: hasBetween(bays, "shelf"),
    back: back.fit !== "none",
    kick: kick !== null,
    stretcher: false,
    filler: false,
    looseShelf: false,
    plinth: false,
  };
  return {
    path,
    name: file.name,
    quantity: file.quantity ?? 1,
    at,
    width: mm(file.width),
    height: mm(file.height),
    depth: mm(file.depth),
    stock: stockByRole(file, path, used, reading),
    joinery: joineryOf(file.joinery, common, path, unit),
    edges: {
      front: file.edges?.front ?? EDGES.front,
      back: file.edges?.back ?? EDGES.back,
      top: file.edges?.top ?? EDGES.top(down > 0),
      bottom: file.edges?.bottom ?? EDGES.bottom,
    },
    joints: [],
    lippings: [],
    pins: PINS[unit],
    bottom: { fit: "between", up },
    top: { fit: down > 0 ? "lowered" : "flush", down, stretcher: 0, fillers: null },
    back,
    kick,
    plinth: null,
    shares: null,
    finished: [],
    shelfLoad: SHELF_LOAD,
    bays,
  };
}

function backOf(file: CaseFile, path: string, { source, unit, problems }: Reading): Case["back"] {
  const fit = file.back?.fit ?? BACK_FIT;
  const grain = file.back?.grain ?? BACK_GRAIN;
  const setIn = file.back?.setIn;
  if (fit === "captured")
    return {
      fit,
      setIn: setIn === undefined ? BACK_SET_IN[unit] : lengthOf(setIn, unit),
      grain,
      houses: false,
      sections: false,
    };
  if (setIn !== undefined) {
    problems.push(
      inputProblem(
        source,
        `${path}.back.setIn`,
        `"setIn" for a back that is ${quote(fit)}`,
        '"setIn" only with "captured"',
        "take it out",
      ),
    );
  }
  return fit === "none" ? { fit } : { fit, grain, houses: false, sections: false };
}

/** A role that the case has no part for is given the side's stock, so that every role has one. */
function stockByRole(
  file: CaseFile,
  path: string,
  used: Record<Role, boolean>,
  { source, problems }: Reading,
): Case["stock"] {
  const { stock } = file;
  const named = (role: Role): string | undefined => (typeof stock === "string" ? stock : (stock[role] ?? stock.all));
  const missing = ROLES.filter((role) => used[role] && named(role) === undefined);
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
  const entries = ROLES.map((role) => [role, (used[role] ? named(role) : named("side")) ?? ""] as const);
  return Object.fromEntries(entries) as Case["stock"];
}

/** The case's own joinery over the job's over the defaults. */
function joineryOf(own: JoineryFile | undefined, common: JoineryFile | undefined, path: string, unit: Unit): Joinery {
  const rule = (file: JoineryFile | undefined): DepthRule => {
    if (file?.depth !== undefined) return { cut: lengthOf(file.depth, unit) };
    return file?.leave === undefined ? null : { leave: lengthOf(file.leave, unit) };
  };
  const pick = (key: "backDepth" | "allowance" | "slip" | "setBack"): Mm | null => {
    const value = own?.[key] ?? common?.[key];
    return value === undefined ? null : lengthOf(value, unit);
  };
  const ownDepth = rule(own);
  const depth = ownDepth ?? rule(common);
  const key = depth !== null && "leave" in depth ? "leave" : "depth";
  const depthPath = ownDepth !== null ? `${path}.joinery.${key}` : depth !== null ? `joinery.${key}` : path;
  return {
    depth,
    depthPath,
    backDepth: pick("backDepth"),
    allowance: pick("allowance") ?? ALLOWANCE,
    slip: pick("slip") ?? SLIP[unit],
    setBack: pick("setBack") ?? SET_BACK[unit],
  };
}

const LOOSEST: Mm = 2; // a groove looser than this holds nothing (common practice, no source)

function checkJoinery(file: JoineryFile | undefined, path: string, { source, unit, problems }: Reading): void {
  if (file?.depth !== undefined && file.leave !== undefined) {
    problems.push(
      inputProblem(
        source,
        `${path}.leave`,
        '"depth" and "leave" together',
        "one of the two",
        "say how deep, or how much to leave",
      ),
    );
  }
  if (file?.allowance !== undefined && lengthOf(file.allowance, unit) > LOOSEST) {
    problems.push(
      inputProblem(
        source,
        `${path}.allowance`,
        `a fit allowance of more than ${LOOSEST} mm`,
        "some tenths of a millimetre",
        "check the unit",
      ),
    );
  }
}
