/**
 * An order in which a case goes together. Bays alternate: a node of rows is stacked upwards, a node of columns joined from left to right,
 * each from its own sub-assemblies; then bottom, back, top, and the sides from their ends, so nothing is capped before what slides in
 * behind it. Every move is straight, across the face of the groove it enters.
 */
import type { CaseModel, Part } from "../model/model.ts";
import type { Bay } from "../project/project.ts";

export type Way = "down" | "from below" | "from the left" | "from the right" | "from behind" | "from the front";

/** One motion: `parts` (joined already, where there are several) against `to`, the parts standing ready that they join. Keys. */
export type Move = { parts: string[]; to: string[]; way: Way };

export function planAssembly(one: CaseModel): Move[] {
  const moves: Move[] = [];
  const joined = (a: string, b: string): boolean =>
    one.joints.some(
      ({ entering, receiving }) => (entering === a && receiving === b) || (entering === b && receiving === a),
    );
  const bring = (parts: string[], ready: string[], way: Way): void => {
    const to = ready.filter((key) => parts.some((part) => joined(part, key)));
    moves.push({ parts, to, way });
  };
  const member = (bay: Bay, place: string, i: number): string => {
    const role = bay.kind === "columns" ? "divider" : "shelf";
    return `${one.name}/${role}-${place === "" ? "" : `${place}.`}${i + 1}`;
  };

  /** Joins all that stands in a bay; returns the groups that now hold together, each a list of keys. */
  const join = (bay: Bay, place: string): string[][] => {
    if (bay.kind === "open") return [];
    const way: Way = bay.kind === "columns" ? "from the right" : "down";
    let groups: string[][] = [];
    /** Brings a group on to all it joins of what stands here already, or leaves it by itself. */
    const add = (group: string[]): void => {
      const touching = groups.filter((ready) => ready.some((key) => group.some((part) => joined(part, key))));
      if (touching.length > 0) bring(group, touching.flat(), way);
      groups = [...groups.filter((ready) => !touching.includes(ready)), [...touching.flat(), ...group]];
    };
    bay.bays.forEach((child, i) => {
      for (const group of join(child, place === "" ? `${i + 1}` : `${place}.${i + 1}`)) add(group);
      if (i < bay.bays.length - 1) add([member(bay, place, i)]);
    });
    return groups;
  };

  const key = (id: string): string => `${one.name}/${id}`;
  const byRole = (role: Part["role"]): string[] =>
    one.parts.filter((part) => part.role === role).map((part) => part.key);
  const content = join(one.design.bays, "");
  const standing = content.filter((group) => group.some((part) => joined(part, key("bottom"))));
  for (const group of standing) bring(group, [key("bottom")], "down");
  const back = byRole("back");
  const captured = one.design.back.fit === "captured";
  if (captured) bring(back, [key("bottom")], "down");
  const core = [key("bottom"), ...standing.flat(), ...(captured ? back : [])];
  // What ends in the top panel alone hangs from it, and comes down with it.
  const hanging = content.filter(
    (group) => !standing.includes(group) && group.some((part) => joined(part, key("top"))),
  );
  for (const group of hanging) bring(group, [key("top")], "from below");
  const cap = [key("top"), ...hanging.flat()];
  if (core.some((below) => cap.some((part) => joined(below, part)))) bring(cap, core, "down");
  const ends = [...core, key("top"), ...content.flat()].filter((part, i, all) => all.indexOf(part) === i);
  bring([key("side-left")], ends, "from the left");
  bring([key("side-right")], ends, "from the right");
  const box = [...ends, key("side-left"), key("side-right")];
  if (back.length > 0 && !captured) bring(back, box, "from behind");
  const kick = byRole("kick");
  if (kick.length > 0) bring(kick, box, "from the front");
  return moves;
}
