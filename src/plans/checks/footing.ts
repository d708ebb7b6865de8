/** The way of the load to the floor, piece by piece; what feet carry, and how uneven a floor they make good. */

import { SAME } from "../../base/length.ts";
import { massOf } from "../../set/mass.ts";
import type { SetAssembly, SetCheck, SetPart } from "../../set/schema.ts";
import { baseUnder } from "../../set/standing.ts";
import { formatMass } from "../../set/words.ts";
import { planStandings } from "../standing.ts";
import { type CheckInput, checkOf, nameAlike, PRACTICE, shown } from "./input.ts";
import { type Piece, standingPieces } from "./piece.ts";

const RULE = `what carries is followed from the shelves down to the floor (${PRACTICE})`;

export const checkFooting = (input: CheckInput): SetCheck[] => [
  ...input.assemblies.filter(({ kind }) => kind === "case").flatMap((one) => loadPath(one, input)),
  ...standingPieces(input).flatMap((piece) => checkRating(piece, input)),
  ...checkRange(input),
];

const own = (one: SetAssembly, parts: readonly SetPart[], role: SetPart["role"]): SetPart[] =>
  parts.filter(
    (part) =>
      part.place !== null && part.role === role && (part.assembly === one.name || one.borrows.includes(part.mark)),
  );

/** Whether a bottom runs under the sides: it is as wide as the case. */
const isUnder = (bottom: SetPart, one: SetAssembly): boolean => bottom.length > one.size[0] - SAME;

function loadPath(one: SetAssembly, { assemblies, parts, unit }: CheckInput): SetCheck[] {
  const [sides, bottoms] = [own(one, parts, "side"), own(one, parts, "bottom")];
  const bottom = bottoms[0];
  if (bottom === undefined || sides.length === 0) return [];
  const base = baseUnder(one, assemblies);
  const [side, floor] = [nameAlike(sides), nameAlike([bottom])];
  const under = isUnder(bottom, one);
  const isHung = planStandings({ assemblies, parts, unit }).some(
    (each) => each.kind === "hang" && each.case === one.name,
  );
  const onto = base === null ? (one.place.at[2] > SAME ? "what it stands on" : "the floor") : "";
  const marks = [...sides, bottom].map(({ mark }) => mark);
  const told = (text: string, level: SetCheck["level"] = "ok", change: string | null = null): SetCheck[] => [
    checkOf("footing", level, marks, { text: `${one.name}: ${text}`, rule: RULE, change }),
  ];
  if (isHung) return told(`shelves, top and ${floor} by their joints into ${side}; all of it hangs on the wall.`);
  if (base === null) {
    return told(
      under
        ? `shelves and top by ${side} on to ${floor}, which lies on ${onto}.`
        : `shelves, top and ${floor} by their joints into ${side}, which stand on ${onto}.`,
    );
  }
  if (base.feet !== null) {
    const { middles } = base.feet;
    const beside = Math.min(...middles.map(([x]) => x)) - (under ? 0 : sides[0]!.thickness);
    return told(
      under
        ? `shelves and top by ${side} on to ${floor}, and through it into ${middles.length} feet.`
        : `shelves and top by ${side} into the joints of ${floor}, and through it into ${middles.length} feet, their middles ${shown(beside, unit)} inside the sides: the joints of the bottom carry all of it.`,
    );
  }
  const inset = base.place.at[0] - one.place.at[0];
  if (inset < sides[0]!.thickness - SAME) {
    return told(`shelves and top by ${side}${under ? ` and ${floor}` : ""} straight on to the ends of ${base.name}.`);
  }
  return told(
    `${base.name} stands ${shown(inset, unit)} inside the ends, so that ${side} ${under ? `press on ${floor} beyond it` : `hang on the joints of ${floor}`}.`,
    "note",
    "a base that comes out under the sides carries them straight",
  );
}

/** Mass of the piece itself, and the load on each metre of its shelves and bottoms that their sag is reckoned with. */
function checkRating(piece: Piece, { unit, printed }: CheckInput): SetCheck[] {
  const bases = piece.assemblies.filter(({ feet }) => feet !== null && feet.rating !== null);
  if (bases.length === 0) return [];
  const load = piece.parts
    .filter(({ role }) => role === "shelf" || role === "bottom" || role === "looseShelf")
    .reduce((sum, part) => {
      const design = printed.assemblies.find(({ name }) => name === part.assembly)!.design;
      return sum + (design.shelfLoad * part.length) / 1000;
    }, 0);
  const feet = bases.reduce((sum, base) => sum + base.feet!.middles.length, 0);
  const carried = massOf(piece.parts) + load;
  const most = Math.min(...bases.map((base) => base.feet!.rating!));
  const each = carried / feet;
  const show = (kg: number): string => formatMass(kg, unit);
  return [
    checkOf("feet", each > most ? "warning" : "ok", [], {
      text: `${piece.name} weighs ${show(carried)} with its shelves loaded (${show(load)}), ${show(each)} on each of ${feet} feet; one carries ${show(most)}.`,
      rule: `evenly spread, no foot carries more than its rating (${PRACTICE}); a floor out of level spreads it less evenly`,
      change: each > most ? "more feet, stronger ones, or a plinth" : null,
    }),
  ];
}

function checkRange({ assemblies, floorOut, unit }: CheckInput): SetCheck[] {
  if (floorOut === null || floorOut < SAME) return [];
  const standing = assemblies.filter((one) => one.kind === "base" || (one.kind === "case" && one.place.at[2] < SAME));
  return standing.map((one): SetCheck => {
    const range = one.feet?.range ?? null;
    const room = range === null ? 0 : range.down + range.up;
    const floor = `the floor is out by ${shown(floorOut, unit)}`;
    if (range === null) {
      return checkOf("level", "note", [], {
        text: `${one.name} has nothing to level it with, and ${floor}.`,
        rule: `a case out of level goes out of square (${PRACTICE})`,
        change:
          "level it with packing under it, covered by a strip scribed to the floor, or stand it on levelling feet",
      });
    }
    return checkOf("level", room < floorOut - SAME ? "warning" : "ok", [], {
      text: `${one.name} can be set ${shown(room, unit)} from its lowest to its highest, and ${floor}.`,
      rule: `levelling feet reach from the floor's lowest point to its highest (${PRACTICE})`,
      change: room < floorOut - SAME ? "feet with a longer thread, or packing under them" : null,
    });
  });
}
