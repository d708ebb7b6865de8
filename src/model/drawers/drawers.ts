/** Drawers: for each of a bay's stack a box with an applied front, made for the opening as it stands; and the strips beside them. */
import type { Mm } from "../../base/length.ts";
import type { Problem } from "../../base/problem.ts";
import { drawerBays } from "../../project/case/bays.ts";
import type { Drawers } from "../../project/drawers.ts";
import { type Project, whereIn } from "../../project/project.ts";
import type { DrawerRole } from "../../project/role.ts";
import type { Stock } from "../../project/stock.ts";
import { stockOf } from "../cases/carcase.ts";
import { frontOpening } from "../front-openings.ts";
import { type AssemblyModel, BARE, type Opening, type Part, type Refusal } from "../model.ts";
import type { Ground, Stage } from "../stage.ts";
import { type LaidBox, layDrawerBox } from "./drawer-box.ts";
import { type BayOfDrawers, placeInBay } from "./drawer-place.ts";
import { layStrips, slideHardware, slideLines } from "./slides.ts";

export const DRAWERS: Stage = {
  heeds: "as built",
  lay: (standing, ground) => standing.flatMap((one) => layDrawers(one, standing, ground)),
  faults: refusalOf,
};

type DrawerBay = ReturnType<typeof drawerBays>[number];

function layDrawers(one: AssemblyModel, standing: readonly AssemblyModel[], ground: Ground): AssemblyModel[] {
  const { drawers } = one.design;
  if (one.kind !== "case" || drawers === null) return [];
  const laid: AssemblyModel[] = [];
  let count = 0;
  drawerBays(one.design.bays).forEach((bay, i) => {
    laid.push(...layBay(bay, { one, drawers, standing, ground, first: count + 1, nth: i + 1 }));
    count += bay.drawers.length;
  });
  return laid;
}

type Around = {
  one: AssemblyModel;
  drawers: Drawers;
  standing: readonly AssemblyModel[];
  ground: Ground;
  first: number; // number of the bay's lowest drawer in the case
  nth: number; // of the bays with drawers
};

function layBay(bay: DrawerBay, { one, drawers, standing, ground, first, nth }: Around): AssemblyModel[] {
  const { grid, project } = ground;
  const stock = (role: DrawerRole): Stock => stockOf(ground.stock, one.design.stock[role]);
  const nameOf = (i: number): string => `${one.name} drawer ${first + i}`;
  const refused = (refusal: Refusal): AssemblyModel[] => [
    {
      ...BARE,
      name: nameOf(0),
      kind: "drawer",
      design: one.design,
      at: one.at,
      size: [0, 0, 0],
      parts: [],
      refused: refusal,
    },
  ];
  const opening = frontOpening(bay.path, one, standing);
  const behind = one.openings.find(({ path }) => path === bay.path);
  if (opening === null || behind === undefined) {
    return refused({
      path: `${bay.path}.drawers`,
      found: "drawers in a bay that has no opening of its own in the face frame",
      expected: "a rail or stile round each bay with drawers",
      remedy: 'take "midRail" or "bottomRail" out of "omit", or give the drawers to the bay as a whole',
    });
  }
  const place = placeInBay(opening, {
    drawers,
    bay,
    thickness: (role) => stock(role).thickness,
    unit: project.unit,
    grid,
  });
  if ("found" in place) return refused(place);
  const boxes = place.levels.map((level, i) =>
    layDrawerBox(place, level, {
      name: nameOf(i),
      path: `${bay.path}.drawers`,
      drawers,
      stock,
      grid,
      most: place.z[1] - place.z[0] - drawers.gaps.above,
    }),
  );
  const strips = `${one.name} packing ${nth}`;
  const parts = boxes.flatMap((laid, i) =>
    layStrips(place, laid, i + 1, { name: strips, path: `${bay.path}.drawers`, drawers, stock, grid }),
  );
  return [
    ...packingOf(strips, parts, one, place),
    ...boxes.map((laid, i) => drawerOf(laid, { i, name: nameOf(i), bay, behind, one, drawers, place, ground, stock })),
  ];
}

/** The strips beside a bay's drawers: no part of the case, which stands before they are cut, and none of the drawers, which move. */
function packingOf(name: string, parts: Part[], one: AssemblyModel, { opening }: BayOfDrawers): AssemblyModel[] {
  if (parts.length === 0) return [];
  const { inside, case: home } = opening;
  const most = (axis: 0 | 1 | 2): Mm => Math.max(...parts.map(({ box }) => box[1][axis]));
  return [
    {
      ...BARE,
      name,
      kind: "packing",
      design: one.design,
      at: [inside.x[0], home.at[1], inside.z[0]],
      size: [most(0), most(1), most(2)],
      parts,
    },
  ];
}

type OneDrawer = {
  i: number;
  name: string;
  bay: DrawerBay;
  behind: Opening;
  one: AssemblyModel;
  drawers: Drawers;
  place: BayOfDrawers;
  ground: Ground;
  stock: (role: DrawerRole) => Stock;
};

function drawerOf(
  laid: LaidBox,
  { i, name, bay, behind, one, drawers, place, ground, stock }: OneDrawer,
): AssemblyModel {
  const lines = slideLines(place, laid, behind, drawers, ground.grid);
  const { at, size, parts, box, face } = laid;
  const [first] = lines;
  return {
    ...BARE,
    name,
    kind: "drawer",
    design: one.design,
    at,
    size,
    parts,
    travel: { kind: "pull", axis: "-y", range: [0, place.length] },
    hardware: slideHardware(
      place.length,
      drawers,
      lines,
      { case: woodBehind(lines, place, one, ground), box: stock("drawerSide").thickness },
      { sides: [`${name}/side-left`, `${name}/side-right`], name, unit: ground.project.unit },
    ),
    drawer: {
      case: one.name,
      place: i + 1,
      of: bay.drawers.length,
      name: bay.drawers[i]!.name,
      opening: { x: place.x.box, z: place.z, front: place.opening.front, rear: place.opening.rear },
      box,
      face,
      slide: { length: place.length, from: first!.y[0] },
      lap: place.lap,
      lines,
    },
  };
}

/** What slide screws go into: packing and the part behind it, at the thinner of the two sides. */
function woodBehind(lines: { part: string }[], { lap }: BayOfDrawers, one: AssemblyModel, { stock }: Ground): Mm {
  const thick = lines.map(({ part }, i) => {
    const found = [...one.parts, ...one.borrowed].find(({ key }) => key === part)!;
    return stockOf(stock, found.stock).thickness + (i === 0 ? lap.left : lap.right);
  });
  return Math.min(...thick);
}

function refusalOf({ refused, design, name }: AssemblyModel, project: Project): Problem[] {
  if (refused === null) return [];
  // Cases of one design are refused alike: told once.
  if (design.quantity > 1 && !name.startsWith(`${design.name} 1 `)) return [];
  const { path, found, expected, remedy } = refused;
  return [{ level: "error", kind: "design", where: whereIn(project, path), found, expected, remedy }];
}
