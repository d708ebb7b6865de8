/**
 * Follows a printed sheet layout at the saw: its own rectangles in millimetres, nothing shared with the planner. Each function returns
 * what is wrong, in words; an empty list is a layout that can be cut.
 */
import type { SetSheet } from "../../../src/set/schema.ts";

export type Wanted = { id: string; mark: string; stock: string; length: number; width: number; mayTurn: boolean };

const SAME = 1e-6; // mm
const OFFCUT = [150, 300] as const; // least width and length worth keeping

type Rect = { x0: number; x1: number; y0: number; y1: number };
/** A piece on the bench: which of its edges still are the factory's. */
type Piece = Rect & { raw: Set<string> };

const near = (a: number, b: number): boolean => Math.abs(a - b) < SAME;
const sameRect = (a: Rect, b: Rect): boolean =>
  near(a.x0, b.x0) && near(a.x1, b.x1) && near(a.y0, b.y0) && near(a.y1, b.y1);
/** Less than nothing where they overlap. */
const gapBetween = (a: Rect, b: Rect): number => Math.max(b.x0 - a.x1, a.x0 - b.x1, b.y0 - a.y1, a.y0 - b.y1);
const show = (r: Rect): string => `${r.x0}..${r.x1} x ${r.y0}..${r.y1}`;
const rectOf = (r: { x: number; y: number }, alongX: number, alongY: number): Rect => ({
  x0: r.x,
  x1: r.x + alongX,
  y0: r.y,
  y1: r.y + alongY,
});
const placeOf = (part: SetSheet["parts"][number]): Rect =>
  part.turned ? rectOf(part, part.width, part.length) : rectOf(part, part.length, part.width);

export function checkLayout(sheets: readonly SetSheet[], wanted: readonly Wanted[]): string[] {
  return [...checkComplete(sheets, wanted), ...sheets.flatMap((sheet) => [...checkPlaces(sheet), ...checkCuts(sheet)])];
}

function checkComplete(sheets: readonly SetSheet[], wanted: readonly Wanted[]): string[] {
  const wrong: string[] = [];
  sheets.forEach((sheet, i) => {
    if (sheet.n !== i + 1) wrong.push(`sheet ${sheet.n} is the ${i + 1}th`);
    if (sheet.parts.length === 0) wrong.push(`sheet ${sheet.n} is empty`);
  });
  for (const piece of wanted) {
    const found = sheets.flatMap((sheet) =>
      sheet.parts.filter((p) => p.id === piece.id).map((part) => ({ sheet, part })),
    );
    if (found.length !== 1) wrong.push(`${piece.id} is cut ${found.length} times`);
    for (const { sheet, part } of found) {
      if (sheet.stock !== piece.stock) wrong.push(`${piece.id} is cut from ${sheet.stock}`);
      if (part.mark !== piece.mark) wrong.push(`${piece.id} is marked ${part.mark}`);
      if (part.length !== piece.length || part.width !== piece.width) wrong.push(`${piece.id} has another size`);
      if (part.turned && !piece.mayTurn) wrong.push(`${piece.id} lies against the grain`);
    }
  }
  const known = new Set(wanted.map((piece) => piece.id));
  for (const part of sheets.flatMap((sheet) => sheet.parts)) {
    if (!known.has(part.id)) wrong.push(`${part.id} is not wanted`);
  }
  return wrong;
}

function checkPlaces(sheet: SetSheet): string[] {
  const wrong: string[] = [];
  const inner: Rect = { x0: sheet.trim, x1: sheet.length - sheet.trim, y0: sheet.trim, y1: sheet.width - sheet.trim };
  sheet.parts.forEach((part, i) => {
    const a = placeOf(part);
    if (a.x0 < inner.x0 - SAME || a.x1 > inner.x1 + SAME || a.y0 < inner.y0 - SAME || a.y1 > inner.y1 + SAME) {
      wrong.push(`${part.id} at ${show(a)} is not inside the trimmed sheet ${show(inner)}`);
    }
    for (const defect of sheet.defects.map((one) => rectOf(one, one.length, one.width))) {
      if (gapBetween(a, defect) < -SAME) wrong.push(`${part.id} takes in the defect ${show(defect)}`);
    }
    for (const next of sheet.parts.slice(i + 1)) {
      const gap = gapBetween(a, placeOf(next));
      if (gap < sheet.kerf - SAME) wrong.push(`${part.id} and ${next.id} are only ${gap} apart`);
    }
  });
  return wrong;
}

/** What lies of a rectangle to the left and to the right of every defect in it. */
function clearIn(r: Rect, defects: SetSheet["defects"]): Rect[] {
  const inside = defects
    .map((one) => rectOf(one, one.length, one.width))
    .filter((one) => gapBetween(r, one) < -SAME)
    .sort((a, b) => a.x0 - b.x0);
  const ends = [r.x0, ...inside.map(({ x1 }) => x1)];
  return ends.map((x0, i) => ({ ...r, x0, x1: inside[i]?.x0 ?? r.x1 }));
}

function checkCuts(sheet: SetSheet): string[] {
  const wrong: string[] = [];
  const whole = `S${sheet.n}`;
  const bench = new Map<string, Piece>();
  bench.set(whole, { x0: 0, x1: sheet.length, y0: 0, y1: sheet.width, raw: new Set(["x0", "x1", "y0", "y1"]) });
  const wastes: Rect[] = [];
  const trims = sheet.trim > 0 ? 4 : 0;
  sheet.cuts.forEach((cut, i) => {
    const say = (text: string): void => void wrong.push(`sheet ${sheet.n}, cut ${cut.n}: ${text}`);
    if (cut.n !== i + 1) say(`is the ${i + 1}th`);
    const piece = bench.get(cut.piece);
    if (!piece) {
      say(`there is no piece ${cut.piece}`);
      return;
    }
    bench.delete(cut.piece);
    const [lo, hi] = cut.across === "x" ? [piece.x0, piece.x1] : [piece.y0, piece.y1];
    const [from, to] = cut.across === "x" ? [piece.y0, piece.y1] : [piece.x0, piece.x1];
    if (!near(cut.from, from) || !near(cut.to, to)) say(`does not run from edge to edge of ${cut.piece}`);
    if (cut.at + sheet.kerf <= lo + SAME || cut.at >= hi - SAME) say(`does not touch ${cut.piece}`);
    const [low, high] = cut.across === "x" ? (["x0", "x1"] as const) : (["y0", "y1"] as const);
    if (cut.reference !== low && cut.reference !== high) say(`${cut.reference} is not parallel to the cut`);
    const fence = cut.reference === low ? cut.at - lo : hi - (cut.at + sheet.kerf);
    if (!near(fence, cut.fence) || fence < 0)
      say(`fence ${cut.fence}, but the blade is ${fence} from ${cut.reference}`);
    const opposite = cut.reference === low ? high : low;
    if (sheet.trim > 0 && piece.raw.has(cut.reference) && !piece.raw.has(opposite)) {
      say(`the raw edge ${cut.reference} is against the fence, though ${opposite} is fresh`);
    }
    const made: Piece[] = [];
    if (cut.at > lo + SAME) made.push({ ...piece, [high]: cut.at, raw: without(piece.raw, high) });
    if (cut.at + sheet.kerf < hi - SAME)
      made.push({ ...piece, [low]: cut.at + sheet.kerf, raw: without(piece.raw, low) });
    if (made.length !== cut.makes.length) {
      say(`makes ${made.length} pieces, not ${cut.makes.join(", ")}`);
      return;
    }
    cut.makes.forEach((id, m) => {
      if (id === "waste") wastes.push(made[m]!);
      else if (bench.has(id)) say(`there already is a piece ${id}`);
      else bench.set(id, made[m]!);
    });
    if (i < trims && !bench.has(whole) && i < trims - 1) say(`trims away ${whole}`);
    if (i === trims - 1) {
      const [left] = bench.values();
      const { length, width, trim } = sheet;
      if (!left || !sameRect(left, { x0: trim, x1: length - trim, y0: trim, y1: width - trim })) {
        say("the sheet is not trimmed");
      }
    }
  });
  const expected = [
    ...sheet.parts.map((part) => ({ id: part.id, rect: placeOf(part) })),
    ...sheet.offcuts.map((offcut) => ({ id: offcut.id, rect: rectOf(offcut, offcut.length, offcut.width) })),
  ];
  for (const { id, rect } of expected) {
    const piece = bench.get(id) ?? (sheet.cuts.length === 0 ? bench.get(whole) : undefined);
    if (!piece) wrong.push(`sheet ${sheet.n}: ${id} is never cut free`);
    else if (!sameRect(piece, rect))
      wrong.push(`sheet ${sheet.n}: ${id} is cut at ${show(piece)}, drawn at ${show(rect)}`);
    else if (trims > 0 && piece.raw.size > 0) wrong.push(`sheet ${sheet.n}: ${id} keeps a raw edge`);
  }
  for (const id of bench.keys()) {
    if (sheet.cuts.length > 0 && !expected.some((each) => each.id === id))
      wrong.push(`sheet ${sheet.n}: ${id} is left on the bench`);
  }
  const isKept = (r: Rect): boolean => {
    const [short, long] = [r.x1 - r.x0, r.y1 - r.y0].toSorted((a, b) => a - b) as [number, number];
    return short >= OFFCUT[0] - SAME && long >= OFFCUT[1] - SAME;
  };
  for (const waste of wastes)
    if (clearIn(waste, sheet.defects).some(isKept))
      wrong.push(`sheet ${sheet.n}: the waste ${show(waste)} is worth keeping`);
  for (const offcut of sheet.offcuts) {
    if (!isKept(rectOf(offcut, offcut.length, offcut.width)))
      wrong.push(`sheet ${sheet.n}: ${offcut.id} is too small to keep`);
  }
  return wrong;
}

const without = (edges: Set<string>, edge: string): Set<string> => new Set([...edges].filter((each) => each !== edge));
