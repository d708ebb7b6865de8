/** One drawer at its butt sizes: two sides, front and back between them, bottom and applied front, on the grid. */
import type { Vec } from "../../base/geometry.ts";
import type { Mm } from "../../base/length.ts";
import type { Level } from "../../project/drawer-stack.ts";
import type { Drawers } from "../../project/drawers.ts";
import type { DrawerRole } from "../../project/role.ts";
import { FACING_LEVEL, PLAIN } from "../cases/carcase.ts";
import type { Grid } from "../grid.ts";
import type { Direction, Frame, Part } from "../model.ts";
import type { BayOfDrawers } from "./drawer-place.ts";

const SIDE: Frame = { l: "+y", w: "+z", t: "+x" };
const LYING: Frame = { l: "+x", w: "+y", t: "+z" };

type Range = readonly [Mm, Mm];

export type BoxGround = {
  name: string; // of the assembly
  path: string;
  drawers: Drawers;
  stock: (role: DrawerRole) => { id: string; thickness: Mm; goodFaces: 1 | 2 };
  grid: Grid;
  /** The highest that the box of the uppermost drawer may reach, over the opening's lower edge. */
  most: Mm;
};

/** `at`, and the outsides of box and front, in the room. */
export type LaidBox = {
  at: Vec;
  size: Vec;
  parts: Part[];
  box: { x: Range; y: Range; z: Range };
  face: { x: Range; z: Range };
};

export function layDrawerBox(place: BayOfDrawers, level: Level, ground: BoxGround): LaidBox {
  const { grid, drawers, stock } = ground;
  const thick = (role: DrawerRole): Mm => stock(role).thickness;
  const { front } = drawers;
  const beside = front.fit === "inset" ? front.gap : -front.overlap;
  const [left, right] = place.x.box;
  const [faceLeft, faceRight] = [place.x.face[0] + beside, place.x.face[1] - beside];
  const boxLeft = left + place.clearance;
  const x0 = Math.min(faceLeft, boxLeft);

  const [side, wall] = [thick("drawerSide"), thick("drawerFront")];
  const inner = grid.atLeast(boxLeft - x0);
  const rightWall = grid.end(right - place.clearance - side - x0);
  const x: Range = [inner, rightWall + side];
  const faceX: Range = [grid.atLeast(faceLeft - x0), grid.end(faceRight - x0)];

  // Off the grid the applied front would lie apart from the box.
  const y0 = grid.atLeast(thick("drawerFace"));
  const y1 = y0 + place.depth;
  // Dovetailed it is flush with the ends of the sides, wherever that is.
  const behind = y1 - thick("drawerBack");
  const backWall = drawers.joint === "dovetail" ? behind : grid.end(behind);

  const from = grid.atLeast(level.box[0]);
  const to = grid.end(Math.min(level.box[1], ground.most));
  const [faceFrom, faceTo] = [grid.atLeast(level.front[0]), grid.end(level.front[1])];
  const low = Math.min(from, faceFrom);
  const z: Range = [from - low, to - low];
  const faceZ: Range = [faceFrom - low, faceTo - low];

  const bottomAt = z[0] + grid.place(drawers.bottom.up);
  const bottomOn = bottomAt + thick("drawerBottom");
  const slidIn = drawers.bottom.grooves === 3;

  const part = (
    role: DrawerRole,
    id: string,
    name: string,
    frame: Frame,
    [a, b]: readonly [Vec, Vec],
    inside: Direction | null,
    show: Direction[] = [],
  ): Part => ({
    ...PLAIN,
    key: `${ground.name}/${id}`,
    path: ground.path,
    name,
    role,
    stock: stock(role).id,
    frame,
    box: [a, b],
    inside,
    show: stock(role).goodFaces === 1 ? show : [],
  });
  const [inLeft, inRight] = [x[0] + side, rightWall];
  const parts = [
    part(
      "drawerSide",
      "side-left",
      "left drawer side",
      SIDE,
      [
        [x[0], y0, z[0]],
        [inLeft, y1, z[1]],
      ],
      "+x",
      ["-x"],
    ),
    part(
      "drawerSide",
      "side-right",
      "right drawer side",
      SIDE,
      [
        [inRight, y0, z[0]],
        [x[1], y1, z[1]],
      ],
      "-x",
      ["+x"],
    ),
    part(
      "drawerFront",
      "front",
      "drawer front",
      FACING_LEVEL,
      [
        [inLeft, y0, z[0]],
        [inRight, y0 + wall, z[1]],
      ],
      "+y",
    ),
    part(
      "drawerBack",
      "back",
      "drawer back",
      FACING_LEVEL,
      [
        [inLeft, backWall, slidIn ? bottomOn : z[0]],
        [inRight, backWall + thick("drawerBack"), z[1]],
      ],
      "-y",
    ),
    part(
      "drawerBottom",
      "bottom",
      "drawer bottom",
      LYING,
      [
        [inLeft, y0 + wall, bottomAt],
        [inRight, slidIn ? y1 : backWall, bottomOn],
      ],
      "+z",
      ["+z"],
    ),
    part(
      "drawerFace",
      "face",
      "applied front",
      FACING_LEVEL,
      [
        [faceX[0], y0 - thick("drawerFace"), faceZ[0]],
        [faceX[1], y0, faceZ[1]],
      ],
      "+y",
      ["-y"],
    ),
  ];
  const at: Vec = [x0, place.boxFront - y0, place.z[0] + low];
  const moved = ([a, b]: Range, axis: 0 | 1 | 2): Range => [at[axis] + a, at[axis] + b];
  return {
    at,
    size: [Math.max(x[1], faceX[1]), y1, Math.max(z[1], faceZ[1])],
    parts,
    box: { x: moved(x, 0), y: moved([y0, y1], 1), z: moved(z, 2) },
    face: { x: moved(faceX, 0), z: moved(faceZ, 2) },
  };
}
