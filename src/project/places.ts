/** The parts of a case by id, as the project file may name them, and which enter which so that the job may choose the joint. */

import type { Bay } from "./bay.ts";
import type { Case, DepthRule, JointChoice } from "./case.ts";
import { JOINT_RULES, type JointRule } from "./joint-rules.ts";
import type { Role } from "./role.ts";

export type Place = { id: string; role: Role };
/** `shared`: what receives is the side of the case beside. */
export type Pair = { entering: Place; receiving: Place; shared: boolean };

/** How a pair is joined: by the table, or as the job chooses. */
export type PairJoint = Pair & { kind: JointRule["kind"]; depth: DepthRule; choice: JointChoice | null };

type Around = { left: Place; right: Place; below: Place[]; above: Place[] };

const place = (role: Role, id: string): Place => ({ role, id });

/** Every part of the case itself, in the order of building: a plinth's and the side of another case are none of it. */
export function placesIn(design: Case): Place[] {
  const { bays, top, back, kick, shares } = design;
  const { dividers, shelves, loose, upper } = insideOf(bays);
  const sections = back.fit !== "none" && back.sections && bays.kind === "columns" ? bays.bays.length : 1;
  return [
    ...(shares === null ? [place("side", "side-left")] : []),
    place("side", "side-right"),
    place("bottom", "bottom"),
    ...(top.fit === "stretchers"
      ? [place("stretcher", "stretcher-front"), place("stretcher", "stretcher-rear")]
      : [place("top", "top")]),
    ...dividers,
    ...shelves,
    ...(back.fit === "none"
      ? []
      : Array.from({ length: sections }, (_, i) => place("back", sections === 1 ? "back" : `back-${i + 1}`))),
    ...(kick === null ? [] : [place("kick", "kick")]),
    ...(top.fillers === null
      ? []
      : [
          ...["front", "rear", "left", "right"].map((end) => place("filler", `filler-${end}`)),
          ...upper.map(({ id }) => place("filler", id.replace("divider", "filler"))),
        ]),
    ...loose,
  ];
}

type Inside = { dividers: Place[]; shelves: Place[]; loose: Place[]; upper: Place[]; pairs: [Place, Place][] };

/** What stands and lies inside, bay by bay; `upper`: the dividers that reach the top. */
function insideOf(root: Bay, around: Around = NOTHING_AROUND): Inside {
  const inside: Inside = { dividers: [], shelves: [], loose: [], upper: [], pairs: [] };
  const walk = (bay: Bay, at: string, { left, right, below, above }: Around): void => {
    const id = (role: string, i: number): string => `${role}-${at === "" ? "" : `${at}.`}${i + 1}`;
    if (bay.kind === "open") {
      for (let i = 0; i < bay.loose; i++) inside.loose.push(place("looseShelf", id("loose", i)));
      return;
    }
    const columns = bay.kind === "columns";
    const between = bay.bays
      .slice(1)
      .map((_, i) => place(columns ? "divider" : "shelf", id(columns ? "divider" : "shelf", i)));
    inside[columns ? "dividers" : "shelves"].push(...between);
    if (columns && above === around.above) inside.upper.push(...between);
    for (const one of between)
      for (const other of columns ? [...below, ...above] : [left, right]) inside.pairs.push([one, other]);
    bay.bays.forEach((child, i) => {
      const [low, high] = [between[i - 1], between[i]];
      walk(
        child,
        at === "" ? `${i + 1}` : `${at}.${i + 1}`,
        columns
          ? { left: low ?? left, right: high ?? right, below, above }
          : { left, right, below: low ? [low] : below, above: high ? [high] : above },
      );
    });
  };
  walk(root, "", around);
  return inside;
}
const NOTHING_AROUND: Around = { left: place("side", ""), right: place("side", ""), below: [], above: [] };

/** Which part enters which, in its end or edge; the back and what hangs on it left out, and so all that the job cannot choose. */
export function pairsIn(design: Case): Pair[] {
  const [left, right] = [place("side", "side-left"), place("side", "side-right")];
  const [bottom, top] = [place("bottom", "bottom"), place("top", "top")];
  const stretchers = [place("stretcher", "stretcher-front"), place("stretcher", "stretcher-rear")];
  const isUnder = design.bottom.fit === "under";
  const ceiling = design.top.fit === "stretchers" ? stretchers : [top];
  const own = design.shares === null ? [left, right] : [right];
  const pairs: [Place, Place][] = [];
  // A panel under or over the sides takes in their ends; a shared side is the other case's, and takes in its end all the same.
  const meetSides = (panel: Place, lies: boolean): void => {
    for (const side of [left, right]) {
      if (lies && own.includes(side)) pairs.push([side, panel]);
      else pairs.push([panel, side]);
    }
  };
  meetSides(bottom, isUnder);
  for (const one of ceiling) meetSides(one, design.top.fit === "over");
  pairs.push(...insideOf(design.bays, { left, right, below: [bottom], above: ceiling }).pairs);
  return pairs.map(([entering, receiving]) => ({
    entering,
    receiving,
    shared: design.shares !== null && receiving.id === left.id,
  }));
}

const names = (name: string, { id, role }: Place): boolean => name === role || name === id;

export const isFor = (choice: JointChoice, { entering, receiving }: Pair): boolean =>
  names(choice.entering, entering) && names(choice.receiving, receiving);

export const mayChoose = ({ entering, receiving }: Pair): boolean =>
  JOINT_RULES[entering.role]?.[receiving.role]?.chosen === true;

/** Pairs of a case with their joints: the last choice that fits holds. */
export function jointsIn(design: Case): PairJoint[] {
  return pairsIn(design).flatMap((pair): PairJoint[] => {
    const rule = JOINT_RULES[pair.entering.role]?.[pair.receiving.role];
    if (rule === undefined) return [];
    const choice = rule.chosen ? design.joints.findLast((one) => isFor(one, pair)) : undefined;
    return [{ ...pair, kind: choice?.kind ?? rule.kind, depth: choice?.depth ?? null, choice: choice ?? null }];
  });
}
