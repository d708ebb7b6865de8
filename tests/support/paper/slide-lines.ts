/**
 * Lines of slides on the parts of a case that stands: on either side of a bay they lie level, begin and end alike, and have their
 * screws as far back, for a drawer runs level and square.
 */
import { type Box, boxToOuter } from "../../../src/base/geometry.ts";
import { CLOSES, type Placed } from "./case.ts";
import type { ReadPart } from "./part/part.ts";

type Lines = ReadPart["lines"];

/** `looks`: the way along x that its face looks; the screws by how far back they are. */
type Level = { mark: string; holds: string[]; home: number; x: number; looks: number; figures: number[] };

function levelsOf({ mark, home, place, read }: Placed): Level[] {
  const { thickness } = read.caption;
  const spot = (along: "l" | "w", run: number, at: number, t: number): Box[0] => {
    const [l, w] = along === "l" ? [run, at] : [at, run];
    return boxToOuter(place, [
      [l, w, t],
      [l, w, t],
    ])[0];
  };
  return read.lines.flatMap(({ marks, face, along, at, from, to }: Lines[number]): Level[] => {
    const t = face === "t1" ? thickness : 0;
    const [start, end] = [from, to].map((run) => spot(along, run, at, t)) as [Box[0], Box[0]];
    const looks = Math.sign(start[0] - spot(along, from, at, thickness / 2)[0]);
    if (looks === 0 || Math.abs(start[2] - end[2]) > 1e-6) return [];
    // Both strokes of a cross tell it.
    const screws = read.screws
      .filter((screw) => screw.face === face)
      .map(({ l, w }) => (along === "l" ? { run: l, across: w } : { run: w, across: l }))
      .filter(({ across }) => Math.abs(across - at) < 1e-6)
      .map(({ run }) => spot(along, run, at, t)[1])
      .sort((a, b) => a - b)
      .filter((one, i, all) => i === 0 || one - all[i - 1]! > 1e-6);
    const ends = [start[1], end[1]].sort((a, b) => a - b);
    return [{ mark, holds: marks, home, x: start[0], looks, figures: [start[2], ...ends, ...screws] }];
  });
}

/** Where only one side of the bays has lines, the other is held by what is no part of the case. */
export function slideFaults(placed: readonly Placed[], unit: "mm" | "in"): string[] {
  const levels = placed.flatMap(levelsOf);
  return levels.flatMap((one) => {
    const facing = levels.filter(
      (other) => other.home === one.home && other.looks === -one.looks && (other.x - one.x) * one.looks > 0,
    );
    const isLevel = ({ figures }: Level): boolean =>
      figures.length === one.figures.length &&
      figures.every((figure, i) => Math.abs(figure - one.figures[i]!) <= CLOSES[unit]);
    return facing.length === 0 || facing.some(isLevel)
      ? []
      : [`part ${one.mark}: the line for ${one.holds} is level with none on the other side: ${one.figures}`];
  });
}
