/** The pieces that the cuts of one sheet make, each where it lies on the sheet. */
import type { Mm } from "../../base/length.ts";
import type { SetSheet } from "../../set/schema.ts";

/** On the sheet: x along its length, y across it, from the raw corner. */
export type SheetPiece = { name: string; x: Mm; y: Mm; length: Mm; width: Mm };

const WASTE = "waste";

/** Every named piece that is cut again, as it lies after the cuts that make it and before those that divide it. */
export function piecesOf(sheet: SetSheet): SheetPiece[] {
  const [first] = sheet.cuts;
  if (first === undefined) return [];
  const now = new Map<string, SheetPiece>([
    [first.piece, { name: first.piece, x: 0, y: 0, length: sheet.length, width: sheet.width }],
  ]);
  const made: SheetPiece[] = [];
  for (const cut of sheet.cuts) {
    const piece = now.get(cut.piece);
    if (piece === undefined)
      throw new Error(`Internal error: cut ${cut.n} divides ${cut.piece}, which no cut has made`);
    const [low, high] = halves(piece, cut, sheet.kerf);
    const sides = cut.makes.length === 2 ? [low, high] : [cut.at > middleOf(piece, cut.across) ? low : high];
    cut.makes.forEach((name, i) => {
      if (name === WASTE) return;
      const result = { ...sides[i]!, name };
      now.set(name, result);
      if (name !== cut.piece) made.push(result);
    });
  }
  return made.filter((piece) => sheet.cuts.some((cut) => cut.piece === piece.name));
}

const middleOf = (piece: SheetPiece, across: "x" | "y"): Mm =>
  across === "x" ? piece.x + piece.length / 2 : piece.y + piece.width / 2;

function halves(piece: SheetPiece, cut: SetSheet["cuts"][number], kerf: Mm): [SheetPiece, SheetPiece] {
  const after = cut.at + kerf;
  return cut.across === "x"
    ? [
        { ...piece, length: cut.at - piece.x },
        { ...piece, x: after, length: piece.x + piece.length - after },
      ]
    : [
        { ...piece, width: cut.at - piece.y },
        { ...piece, y: after, width: piece.y + piece.width - after },
      ];
}

/** Equal for sheets that are cut alike, whatever the marks of the parts on them. */
export const layoutKey = (sheet: SetSheet): string =>
  JSON.stringify([
    sheet.stock,
    sheet.offcut,
    sheet.length,
    sheet.width,
    sheet.defects,
    sheet.trim,
    sheet.kerf,
    sheet.parts.map(({ x, y, length, width, turned }) => [x, y, length, width, turned]),
    sheet.cuts.map(({ across, at, from, to, fence, reference }) => [across, at, from, to, fence, reference]),
    sheet.offcuts.map(({ x, y, length, width }) => [x, y, length, width]),
  ]);

/** Sheets cut alike together, in the order of the first of each. */
export function alikeSheets(sheets: readonly SetSheet[]): SetSheet[][] {
  const groups = new Map<string, SetSheet[]>();
  for (const sheet of sheets) {
    const key = layoutKey(sheet);
    groups.set(key, [...(groups.get(key) ?? []), sheet]);
  }
  return [...groups.values()];
}
