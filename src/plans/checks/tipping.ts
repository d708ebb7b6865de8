/** Tipping: where an empty piece has its middle of mass, and what pull at its top edge brings it over its front feet. */
import { AXES, type AxisIndex, type Box, boxSize, boxToOuter, boxVolume, type Vec } from "../../base/geometry.ts";
import { type Mm, SAME } from "../../base/length.ts";
import type { SetCheck, SetPart } from "../../set/schema.ts";
import { isTall, standingHeight, TALL_RULE } from "../../set/standing.ts";
import { formatMass } from "../../set/words.ts";
import { unionCells } from "../mass.ts";
import { planStandings } from "../standing.ts";
import { blankOf, type CheckInput, checkOf, computed, moved, shown } from "./input.ts";
import { alikePieces, type Piece, standingPieces } from "./piece.ts";

const GRAVITY = 9.81; // m/s2
const NEWTONS_PER_POUND = 4.4482216152605; // pound-force, exact by its definition

export type Statics = {
  mass: number; // kg
  centre: Vec; // from the piece's own corner
  feet: Mm; // front feet behind the piece's front
  angle: number; // degrees it leans forward before it goes on by itself; below zero: it falls by itself
  pull: number; // N, level and forward at the upper edge
};

/** Middle of a body made of boxes, some of them taken away: their middles weighed by volume. */
function middleOf(blank: Box, taken: readonly Box[]): Vec {
  const cells = unionCells(taken);
  const middle = (box: Box, axis: AxisIndex): Mm => (box[0][axis] + box[1][axis]) / 2;
  const volume = boxVolume(blank) - cells.reduce((sum, cell) => sum + boxVolume(cell), 0);
  const along = (axis: AxisIndex): Mm =>
    (boxVolume(blank) * middle(blank, axis) -
      cells.reduce((sum, cell) => sum + boxVolume(cell) * middle(cell, axis), 0)) /
    volume;
  return [along(0), along(1), along(2)];
}

/** A part's blank and what is cut from it, from the piece's own corner. Null for a spare. */
function solidIn(part: SetPart, piece: Piece): { blank: Box; taken: Box[] } | null {
  const blank = blankOf(part);
  if (blank === null) return null;
  const { at } = piece.assemblies.find(({ name }) => name === part.assembly)!.place;
  const by: Vec = [at[0] - piece.at[0], at[1] - piece.at[1], at[2] - piece.at[2]];
  // A corner left open for a lipping holds the panel of another part: next to nothing either way.
  return {
    blank: moved(blank, by),
    taken: part.features.map(({ box }) => moved(boxToOuter(part.place!, box), by)),
  };
}

/** How far back the first wood lies that touches the floor: toe space is cut away over the part's whole thickness. */
function frontOnFloor({ blank, taken }: { blank: Box; taken: readonly Box[] }): Mm {
  if (blank[0][2] > SAME) return Number.POSITIVE_INFINITY;
  const toeSpace = taken
    .filter((box) => box[0][2] < SAME && boxSize(box)[0] >= boxSize(blank)[0] - SAME)
    .sort((a, b) => a[0][1] - b[0][1]);
  return toeSpace.reduce((front, box) => (box[0][1] <= front + SAME ? Math.max(front, box[1][1]) : front), blank[0][1]);
}

/** How far back bought feet begin. */
const footFronts = ({ assemblies, at }: Piece): Mm[] =>
  assemblies.flatMap(({ place, feet }) =>
    (feet?.middles ?? []).map(([, y]) => place.at[1] - at[1] + y - feet!.diameter / 2),
  );

export function staticsOf(piece: Piece): Statics {
  const solids = piece.parts.flatMap((part) => {
    const solid = solidIn(part, piece);
    return solid === null ? [] : [{ ...solid, mass: part.mass }];
  });
  const mass = solids.reduce((sum, one) => sum + one.mass, 0);
  const middles = solids.map((one) => ({ mass: one.mass, at: middleOf(one.blank, one.taken) }));
  const [x, y, z] = AXES.map((axis) => middles.reduce((sum, one) => sum + one.mass * one.at[axis], 0) / mass) as [
    Mm,
    Mm,
    Mm,
  ];
  const feet = Math.min(...solids.map(frontOnFloor), ...footFronts(piece));
  return {
    mass,
    centre: [x, y, z],
    feet,
    angle: (Math.atan2(y - feet, z) * 180) / Math.PI,
    pull: (mass * GRAVITY * (y - feet)) / piece.size[2],
  };
}

const RULE = `an empty piece goes over when its middle of mass comes over its front feet (statics); anchored at ${TALL_RULE}`;

export function checkTipping(input: CheckInput): SetCheck[] {
  const { assemblies, unit } = input;
  const force = (newtons: number): string => {
    const metric = `${newtons.toFixed(0)} N`;
    return unit === "mm" ? metric : `${(newtons / NEWTONS_PER_POUND).toFixed(1)} lbf (${metric})`;
  };
  const hung = planStandings(input).flatMap((one) => (one.kind === "hang" ? [one.case] : []));
  // What hangs on the wall has no feet to go over.
  const standing = standingPieces(input).filter((piece) => !piece.assemblies.some(({ name }) => hung.includes(name)));
  return alikePieces(standing).map(({ name, piece }): SetCheck => {
    const { mass, centre, feet, angle, pull } = staticsOf(piece);
    const isAnchored = piece.assemblies.some((one) => isTall(one, assemblies));
    const top = Math.max(...piece.assemblies.map((one) => standingHeight(one, assemblies)));
    const above = top > piece.size[2] + SAME ? `, its upper edge ${shown(top, unit)} above the floor` : "";
    const stands = `${name}: ${shown(piece.size[2], unit)} high${above}, ${shown(piece.size[1], unit)} deep, ${formatMass(mass, unit)} empty; middle of mass ${computed(centre[2], unit)} up`;
    const toe = feet > SAME ? `, which are ${shown(feet, unit)} behind its front` : "";
    if (centre[1] - feet < SAME) {
      return checkOf("tipping", "warning", [], {
        text: `${stands} and ${computed(feet - centre[1], unit)} in front of its front feet${toe}. It falls forward by itself.`,
        rule: RULE,
        change: "less toe space or set-back, or fasten it to the wall before it is let go",
      });
    }
    return checkOf("tipping", isAnchored ? "note" : "ok", [], {
      text: `${stands} and ${computed(centre[1] - feet, unit)} behind its front feet${toe}. It goes over leaning ${angle.toFixed(1)}° forward, or pulled level with ${force(pull)} at its upper edge.${isAnchored ? " Tall: anchor it to the wall." : ""}`,
      rule: RULE,
      change: isAnchored
        ? "anchor it to the wall before it is loaded, by fixings that suit the wall; heavy things low"
        : null,
    });
  });
}
