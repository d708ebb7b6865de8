/** What is carried and what stands as one: cases joined by a shared side, and these on the bases under them. */

import { type Box, boxAround, boxSize, type Vec } from "../../base/geometry.ts";
import { listInWords } from "../../base/words.ts";
import { massOf } from "../../set/mass.ts";
import type { DryfitSet, SetAssembly, SetPart } from "../../set/schema.ts";
import { baseUnder, caseAround, frameBefore, isInside, returnsOf } from "../../set/standing.ts";
import { blankOf, moved } from "./input.ts";

export type Piece = {
  name: string;
  assemblies: SetAssembly[];
  parts: SetPart[];
  at: Vec; // in the room
  size: Vec; // over all
};

type Input = Pick<DryfitSet, "assemblies" | "parts">;

/** As far as its wood goes: a drawer is laid out on the grid, and what is left beside its own front there is air. Bought feet have their size alone. */
function extentsOf({ name, place, size }: SetAssembly, parts: readonly SetPart[]): Box {
  const wood = parts.flatMap((part): Box[] => {
    const blank = part.assembly === name ? blankOf(part) : null;
    return blank === null ? [] : [blank];
  });
  return moved(wood.length === 0 ? [[0, 0, 0], size] : boxAround(wood), place.at);
}

function pieceOf(assemblies: SetAssembly[], name: string, parts: readonly SetPart[]): Piece {
  const box = boxAround(assemblies.map((one) => extentsOf(one, parts)));
  return {
    name,
    assemblies,
    parts: parts.filter(({ assembly }) => assemblies.some((one) => one.name === assembly)),
    at: box[0],
    size: boxSize(box),
  };
}

/** Cases that lend each other sides are one body, however they were made, each with the frame glued to it and the drawers in it; a base is a body of its own. */
function bodies({ assemblies, parts }: Input): SetAssembly[][] {
  const groups: SetAssembly[][] = [];
  for (const one of assemblies) {
    const lenders = parts.filter(({ mark }) => one.borrows.includes(mark)).map(({ assembly }) => assembly);
    lenders.push(...assemblies.filter((other) => frameBefore(other, assemblies) === one).map(({ name }) => name));
    lenders.push(...assemblies.filter((other) => returnsOf(other, assemblies).includes(one)).map(({ name }) => name));
    const around = caseAround(one, assemblies);
    if (around !== null) lenders.push(around.name);
    const joined = groups.filter((group) => group.some(({ name }) => lenders.includes(name)));
    const rest = groups.filter((group) => !joined.includes(group));
    groups.splice(0, groups.length, ...rest, [...joined.flat(), one]);
  }
  return groups;
}

/** A frame and drawers go without saying where their case is named. */
const named = (assemblies: readonly SetAssembly[]): string => {
  const cases = assemblies.filter((one) => one.kind !== "frame" && one.kind !== "return" && !isInside(one));
  return listInWords((cases.length === 0 ? assemblies : cases).map(({ name }) => name));
};

/** Pieces built alike are told once: those of one size and mass, by all their names. */
export function alikePieces(pieces: readonly Piece[]): { name: string; piece: Piece; count: number }[] {
  const groups = new Map<string, Piece[]>();
  for (const piece of pieces) {
    const mass = massOf(piece.parts);
    const key = [...piece.size, mass].map((figure) => figure.toFixed(4)).join(" ");
    groups.set(key, [...(groups.get(key) ?? []), piece]);
  }
  return [...groups.values()].map((group) => ({
    name: listInWords(group.map(({ name }) => name)),
    piece: group[0]!,
    count: group.length,
  }));
}

/** What goes through the door and is lifted as one. */
export const carriedPieces = (input: Input): Piece[] =>
  bodies(input)
    .filter((group) => group.some(({ feet }) => feet === null)) // bought feet are screwed on where it is set up
    .map((group) => pieceOf(group, named(group), input.parts));

/** What stands on the floor as one, named for its cases. */
export const standingPieces = (input: Input): Piece[] =>
  bodies(input)
    .filter((group) => group.some(({ kind }) => kind === "case"))
    .map((group) => {
      const under = group.flatMap((one) => baseUnder(one, input.assemblies) ?? []);
      return pieceOf([...group, ...under], named(group), input.parts);
    });
