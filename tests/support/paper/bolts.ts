/** What a part drawing says of the bolts of a track that enter the part, and whether that is so. */
import { edgeThen, faceWords, thirdAxis } from "../../../src/set/facing.ts";
import type { Face, SetPart } from "../../../src/set/schema.ts";

export type BoltsNote = {
  kind: "bolts";
  what: string;
  count: number;
  face: string;
  off: number;
  edge: string;
  at: number[];
  end: string;
  diameter: number;
  into: number;
  /** Whether they are said to go on into what lies behind. */
  through: boolean;
};

export const boltsNote = (
  [, what, count, face, off, edge, at, end, diameter, into, through]: string[],
  figures: (text: string) => number[],
): BoltsNote => ({
  kind: "bolts",
  what: what!,
  count: Number(count),
  face: face!,
  off: figures(off!)[0]!,
  edge: edge!,
  at: figures(at!),
  end: end!,
  diameter: figures(diameter!)[0]!,
  into: figures(into!)[0]!,
  through: through !== undefined,
});

/** Whether one of the notes says a line of bolts as the part has it; `mm`: a figure as the paper gives it, in millimetres. */
export function areBoltsTold(
  notes: readonly BoltsNote[],
  part: SetPart,
  { face, along, at, points, bolt, what }: SetPart["lines"][number],
  mm: (value: number) => number,
  within: number,
): boolean {
  const near = (said: number, is: number): boolean => Math.abs(mm(said) - is) <= within;
  const size = { l: part.length, w: part.width, t: part.thickness }[face[0] as "l" | "w" | "t"];
  return notes.some(
    (note) =>
      note.what === what &&
      note.face === faceWords(part, face) &&
      note.edge === faceWords(part, `${thirdAxis(along, face[0] as "l" | "w" | "t")}0` as Face) &&
      note.end === edgeThen(part, `${along}0`) &&
      near(note.off, at) &&
      near(note.diameter, bolt!.diameter) &&
      near(note.into, bolt!.into) &&
      note.count === points.length &&
      note.at.length === points.length &&
      points.every((point, i) => near(note.at[i]!, point)) &&
      note.through === bolt!.into > size + within,
  );
}
