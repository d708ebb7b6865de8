/** What is asked of the layouts beyond being whole: grain, strips cut in one, cuts to begin with, and what the set says was kept. */
import { isSame, type Mm } from "../../base/length.ts";
import type { DryfitSet, SetCheck, SetPart, SetSheet } from "../../set/schema.ts";
import { TOUCH } from "../solids/boxes.ts";
import { placeBox } from "../solids/solid.ts";
import { amount, failureOf } from "../words.ts";

type Wish = DryfitSet["layout"]["wishes"][number];
type Laid = SetSheet["parts"][number] & { on: SetSheet };

export function checkLayoutWishes(set: DryfitSet): SetCheck[] {
  const all = [...set.sheets, ...set.boards];
  if (all.length === 0) return [];
  const laid = new Map(all.flatMap((on) => on.parts.map((part): [string, Laid] => [part.id, { ...part, on }])));
  return [
    ...checkGrain(set, laid),
    ...set.layout.wishes.flatMap((wish) => {
      if (wish.kind === "grain") return checkWished(wish, laid);
      if (wish.kind === "together" && wish.kept) return checkStrip(set, wish, laid);
      if (wish.kind === "first") return checkFirst(set, wish, laid);
      return [];
    }),
  ];
}

/** A stock with a grain holds its pieces along it, but for those that the job frees of it. */
function checkGrain({ pieces, stock }: DryfitSet, laid: ReadonlyMap<string, Laid>): SetCheck[] {
  return pieces.flatMap(({ id, mark, grain, stock: name }) => {
    const piece = laid.get(id);
    const hasGrain = stock.find((one) => one.id === name)?.grain ?? false;
    if (piece === undefined || !piece.turned || !hasGrain || grain !== "along") return [];
    return [
      failureOf(
        "layout",
        [mark],
        `Piece ${id} lies across the grain of ${name}. Change: turn it, its length along the sheet's.`,
      ),
    ];
  });
}

/** Pieces that were wished along the grain are told as they lie. */
const checkWished = ({ pieces, kept }: Wish, laid: ReadonlyMap<string, Laid>): SetCheck[] =>
  pieces.flatMap((id) => {
    const piece = laid.get(id);
    if (piece === undefined || piece.turned === !kept) return [];
    const [told, lies] = kept ? ["along", "across"] : ["across", "along"];
    return [
      failureOf(
        "layout",
        [piece.mark],
        `Piece ${id} is told to lie ${told} the grain, and lies ${lies} it. Change: what is told.`,
      ),
    ];
  });

const EDGES = 4; // trimmed before a sheet is divided

/** Sheets as they are bought are divided along the one axis first, wherever they are cut along it at all; and told as they are. */
function checkFirst({ layout }: DryfitSet, { pieces, kept }: Wish, laid: ReadonlyMap<string, Laid>): SetCheck[] {
  const across = layout.first === "rip" ? "y" : "x";
  const [told, other] = layout.first === "rip" ? ["rips", "crosscuts"] : ["crosscuts", "rips"];
  const sheets = new Set(pieces.flatMap((id) => laid.get(id)?.on ?? []));
  const otherwise = [...sheets].filter(({ offcut, trim, cuts }) => {
    const own = cuts.slice(trim > 0 ? EDGES : 0);
    return offcut === null && own.length > 0 && own[0]!.across !== across && own.some((cut) => cut.across === across);
  });
  if ((otherwise.length === 0) === kept) return [];
  const marks = [...new Set(pieces.flatMap((id) => laid.get(id)?.mark ?? []))];
  const [first] = otherwise;
  return [
    failureOf(
      "layout",
      first === undefined ? marks : first.parts.map(({ mark }) => mark),
      first === undefined
        ? `No sheet is told to begin with ${told}, and all of them do. Change: what is told.`
        : `Every sheet is told to begin with ${told}, and sheet ${first.n} of ${first.stock} begins with ${other}. Change: the layout, or what is told.`,
    ),
  ];
}

/** One after another, a kerf apart, their low edges in line, in the order in which they stand in the room. */
function checkStrip(set: DryfitSet, { pieces, run }: Wish, laid: ReadonlyMap<string, Laid>): SetCheck[] {
  const strip = pieces.flatMap((id) => laid.get(id) ?? []);
  const marks = strip.map(({ mark }) => mark);
  const names = pieces.join(", ");
  const fault = (text: string): SetCheck[] => [failureOf("layout", marks, text)];
  const [first] = strip;
  if (first === undefined || strip.length !== pieces.length || strip.some(({ on }) => on !== first.on))
    return fault(
      `Pieces ${names} are told to come from one strip, and lie on several sheets. Change: the layout, or what is told.`,
    );
  if (strip.some(({ turned }) => turned))
    return fault(`Pieces ${names} come from one strip, and some lie across the grain. Change: turn them.`);
  const low = (piece: Laid): Mm => (run === "x" ? piece.x : piece.y);
  const beside = (piece: Laid): Mm => (run === "x" ? piece.y : piece.x);
  const size = (piece: Laid): Mm => (run === "x" ? piece.length : piece.width);
  const { kerf } = first.on;
  const apart = strip.slice(1).flatMap((piece, i) => {
    const gap = low(piece) - low(strip[i]!) - size(strip[i]!);
    return isSame(gap, kerf) && isSame(beside(piece), beside(first)) ? [] : [`${strip[i]!.id} and ${piece.id}`];
  });
  if (apart.length > 0)
    return fault(
      `Pieces ${apart.join(", ")} are told to come from one strip, and do not lie in line, one kerf of ${amount(kerf, set.job)} apart. Change: the layout, or what is told.`,
    );
  const standing = strip.map(({ mark }) => placedPart(set, mark));
  const isInOrder = standing.slice(1).every((part, i) => follows(standing[i]!, part, run!));
  return isInOrder
    ? []
    : fault(`Pieces ${names} lie in their strip in another order than they stand in. Change: their order.`);
}

type Standing = { middle: readonly number[]; grain: number };

function placedPart({ parts, assemblies }: DryfitSet, mark: string): Standing {
  const part = parts.find((one) => one.mark === mark) as SetPart;
  const boxes = [part, { length: 1, width: 0, thickness: 0 }].map(({ length, width, thickness }) => {
    let box = placeBox(part.place!, [
      [0, 0, 0],
      [length, width, thickness],
    ]);
    let own = assemblies.find(({ name }) => name === part.assembly);
    while (own !== undefined) {
      box = placeBox(own.place, box);
      const outer = own.in;
      own = assemblies.find(({ name }) => name === outer);
    }
    return box;
  });
  const [whole, along] = boxes as [(typeof boxes)[0], (typeof boxes)[0]];
  return {
    middle: whole[0].map((at, axis) => (at + whole[1][axis]!) / 2),
    grain: along[0].findIndex((at, axis) => along[1][axis]! - at > 0.5),
  };
}

/**
 * Whether what comes next in a strip also stands next. The sheet lies before the piece, good face forward: as drawn where its grain is level, or
 * turned a quarter to the left, its left end down, where its grain is upright. Then its y goes up, or to the left.
 */
function follows(a: Standing, b: Standing, run: "x" | "y"): boolean {
  const [RIGHT, BACK, UP] = [0, 1, 2];
  const step = b.middle.map((at, axis) => at - a.middle[axis]!);
  const isAhead = (axis: number): boolean => step[axis]! > -TOUCH;
  if (run === "x") return isAhead(a.grain);
  if (a.grain === UP) return Math.abs(step[RIGHT]!) > TOUCH ? step[RIGHT]! < 0 : isAhead(BACK);
  return Math.abs(step[UP]!) > TOUCH ? isAhead(UP) : a.grain === RIGHT ? isAhead(BACK) : isAhead(RIGHT);
}
