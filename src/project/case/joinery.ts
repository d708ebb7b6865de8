/** How parts enter one another, as the file says it: for the job, for a case, for a pair or a place. */
import type { Mm, Unit } from "../../base/length.ts";
import { lengthOf } from "../../base/parse-length.ts";
import type { Problem } from "../../base/problem.ts";
import type { DepthRule, Joinery, JointChoice } from "../case.ts";
import { ALLOWANCE, FIXING, SET_BACK, SLIP } from "../defaults.ts";
import { inputProblem } from "../file/problems.ts";
import type { Source } from "../file/source.ts";
import { quote } from "../file/words.ts";
import type { JoineryFile, JointFile } from "../schema/case.ts";

export type Reading = { source: Source; unit: Unit; problems: Problem[] };

const depthRuleOf = (file: { depth?: Length; leave?: Length } | undefined, unit: Unit): DepthRule => {
  if (file?.depth !== undefined) return { cut: lengthOf(file.depth, unit) };
  return file?.leave === undefined ? null : { leave: lengthOf(file.leave, unit) };
};
type Length = number | string | undefined;

/** The case's own joinery over the job's over the defaults. */
export function joineryOf(
  own: JoineryFile | undefined,
  common: JoineryFile | undefined,
  path: string,
  unit: Unit,
): Joinery {
  const pick = (key: "backDepth" | "allowance" | "slip" | "setBack"): Mm | null => {
    const value = own?.[key] ?? common?.[key];
    return value === undefined ? null : lengthOf(value, unit);
  };
  const ownDepth = depthRuleOf(own, unit);
  const depth = ownDepth ?? depthRuleOf(common, unit);
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

/** Joints chosen for a pair or a place; `path` is that of their list. */
export function choicesOf(files: readonly JointFile[] | undefined, path: string, unit: Unit): JointChoice[] {
  return (files ?? []).map((file, i) => ({
    path: `${path}[${i}]`,
    entering: file.entering,
    receiving: file.receiving,
    kind: file.kind,
    depth: depthRuleOf(file, unit),
    tongue: file.tongue === undefined ? null : lengthOf(file.tongue, unit),
    fixing: file.fixing ?? FIXING[file.kind],
  }));
}

const LOOSEST: Mm = 2; // a groove looser than this holds nothing (common practice, no source)

export function checkJoinery(file: JoineryFile | undefined, path: string, reading: Reading): void {
  const { source, unit, problems } = reading;
  checkOneDepth(file, path, reading);
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

function checkOneDepth(
  file: { depth?: Length; leave?: Length } | undefined,
  path: string,
  { source, problems }: Reading,
): void {
  if (file?.depth === undefined || file.leave === undefined) return;
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

/** Keys that the kind of joint has no use for. */
export function checkChoices(files: readonly JointFile[] | undefined, path: string, reading: Reading): void {
  const { source, problems } = reading;
  files?.forEach((file, i) => {
    const at = `${path}[${i}]`;
    checkOneDepth(file, at, reading);
    const only = (key: "depth" | "leave" | "tongue" | "fixing", kinds: readonly JointFile["kind"][]): void => {
      if (file[key] === undefined || kinds.includes(file.kind)) return;
      const list = kinds.map(quote).join(" or ");
      problems.push(
        inputProblem(
          source,
          `${at}.${key}`,
          `${quote(key)} for a joint that is ${quote(file.kind)}`,
          `${quote(key)} only with a kind of ${list}`,
          "take it out",
        ),
      );
    };
    only("depth", ["housed", "tongue"]);
    only("leave", ["housed", "tongue"]);
    only("tongue", ["tongue"]);
    only("fixing", ["butt"]);
  });
}
