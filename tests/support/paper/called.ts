/** Which end, edge or face of a part is called so on its drawing. */
import type { Face } from "../../../src/set/schema.ts";
import type { ReadPart } from "./part/part.ts";

export function faceCalled(read: ReadPart, name: string): Face {
  const found = Object.entries(read.names).find(([, own]) => own === name);
  if (found === undefined) throw new Error(`part ${read.caption.marks}: nothing is called ${name}`);
  return found[0] as Face;
}

/** From a named end or edge of the part; one before lipping lies under what is put on later. */
export function edgeCalled(read: ReadPart, name: string): { face: Face; inset: number } {
  const plain = name.replace(" before lipping", "");
  const lipping = read.notes.find((note) => note.kind === "lipping" && note.when === "after" && note.edge === plain);
  const inset = name === plain || lipping?.kind !== "lipping" ? 0 : lipping.thickness;
  return { face: faceCalled(read, plain), inset };
}
