/** A worktop: boards glued up, or a panel, laid on the upper faces of one case or of several beside each other, and screwed down from below. */
import type { Vec } from "../../base/geometry.ts";
import { formatLengthWithUnit, type Mm, SAME, type Unit } from "../../base/length.ts";
import type { Problem } from "../../base/problem.ts";
import { WORKTOP_SCREWS } from "../../project/defaults.ts";
import { type Project, whereIn } from "../../project/project.ts";
import type { Stock } from "../../project/stock.ts";
import type { LevelEdge, Worktop } from "../../project/worktop.ts";
import { gluedUp } from "../../project/worktop-boards.ts";
import { PLAIN, stockOf } from "../cases/carcase.ts";
import { frameOn } from "../frames/framed.ts";
import type { AssemblyModel, Direction, Feature, Frame, Part, WorktopModel } from "../model.ts";
import { BARE } from "../model.ts";
import type { Ground, Stage } from "../stage.ts";
import { type ScrewSpot, spotsOf, travelAt } from "./worktop-screws.ts";

const LEVEL: Frame = { l: "+x", w: "+y", t: "+z" };

const TOWARDS: Record<LevelEdge, Direction> = { front: "-y", back: "+y", left: "-x", right: "+x" };

export const WORKTOPS: Stage = {
  // It is glued up oversize and trimmed to what stands; its slots are in parts already cut.
  heeds: "as printed",
  // A part of the job alone may be derived, without some of the cases under a worktop.
  lay: (standing, ground) =>
    ground.project.worktops
      .filter(({ over }) => over.every((name) => ground.project.cases.some((one) => one.name === name)))
      .map((top) => layWorktop(top, standing, ground)),
  faults: faultsOf,
};

function layWorktop(top: Worktop, standing: readonly AssemblyModel[], ground: Ground): AssemblyModel {
  const { project, grid } = ground;
  const { scribe } = project.walls;
  const stock = stockOf(ground.stock, top.stock);
  const cases = standing.filter(({ kind, design }) => kind === "case" && top.over.includes(design.name));
  const frames = cases.flatMap((one) => frameOn(one, standing) ?? []);
  const under = [...cases, ...frames];
  const hang = (edge: LevelEdge): Mm => grid.place(top.overhang[edge]);
  const low: Vec = [
    Math.min(...under.map(({ at }) => at[0])) - hang("left"),
    Math.min(...under.map(({ at }) => at[1])) - hang("front"),
    // Rounding may leave a top panel that lies over the sides a little under the case's height.
    Math.max(...under.flatMap(({ at, parts }) => parts.map(({ box }) => at[2] + box[1][2]))),
  ];
  const end = (axis: 0 | 1): Mm => Math.max(...under.map(({ at, size }) => at[axis] + size[axis]));
  const length = grid.place(end(0) + hang("right") - low[0]);
  const width = grid.place(end(1) + hang("back") - low[1]);
  const key = `${top.name}/worktop`;
  const part: Part = {
    ...PLAIN,
    key,
    path: top.path,
    name: "worktop",
    role: "worktop",
    stock: top.stock,
    frame: LEVEL,
    box: [
      [0, 0, 0],
      [length, width, stock.thickness],
    ],
    show: ["+z"],
    profile:
      top.edge === null
        ? null
        : { shape: top.edge.shape, radius: top.edge.radius, edges: top.edge.edges.map((edge) => TOWARDS[edge]) },
    lippings: (top.lipping?.edges ?? []).map((edge) => ({
      edge: TOWARDS[edge],
      name: top.lipping!.name,
      thickness: top.lipping!.thickness,
      lipped: "before",
    })),
  };
  const { worktop, cuts } = screwDown(top, low, cases, stock, ground);
  return {
    ...BARE,
    name: top.name,
    kind: "worktop",
    design: cases[0]!.design,
    at: low,
    size: [length, width, stock.thickness],
    parts: [part],
    worktop: {
      ...worktop,
      part: key,
      over: cases.map(({ name }) => name),
      overhang: {
        front: hang("front"),
        back: low[1] + width - end(1),
        left: hang("left"),
        right: low[0] + length - end(0),
      },
      glued:
        stock.boards === null
          ? null
          : gluedUp(
              top,
              // What is scribed to a wall stays on when it is trimmed.
              { length: length + 2 * Math.max(scribe.left, scribe.right), width: width + 2 * scribe.back },
              {
                boards: stock.boards,
                jointer: project.tooling.jointer,
                unit: project.unit,
                atLeast: grid.atLeast,
              },
            ),
    },
    cuts,
    hardware: [
      {
        kind: "worktop screws",
        what: "Screws, pan head, with washers",
        sizes: [worktop.screw.diameter, worktop.screw.length],
        count: worktop.screws.length,
        unit: "screws",
        parts: [key],
        where: "from below, into",
        of: top.name,
      },
    ],
  };
}

type Screwed = {
  worktop: Pick<WorktopModel, "fixed" | "line" | "screws" | "screw" | "through" | "coefficient" | "edge" | "sawn">;
  cuts: AssemblyModel["cuts"];
};

/** The screws of all its cases, and a slot or a round hole for each in what it goes through. */
function screwDown(
  top: Worktop,
  low: Vec,
  cases: readonly AssemblyModel[],
  stock: Stock,
  { project, grid }: Ground,
): Screwed {
  const spots = cases.flatMap((one) => spotsOf(one, grid));
  const inRoom = ({ case: one, y }: ScrewSpot): Mm => one.at[1] + y;
  const ys = spots.map(inRoom);
  const line = top.fixed === "front" ? Math.min(...ys) : Math.max(...ys);
  const coefficient = stock.species === null ? 0 : stock.species[top.sawn === "flat" ? "tangential" : "radial"];
  const sign = top.fixed === "front" ? 1 : -1;
  const { diameter } = top.screw;
  const screws = spots.map((spot) => {
    const travel = travelAt(Math.abs(inRoom(spot) - line), coefficient, project.moisture);
    const [out, back] = [grid.atLeast(travel.out), grid.atLeast(travel.in)];
    const [front, rear] = sign > 0 ? [back, out] : [out, back];
    return { spot, front, rear };
  });
  const through = Math.max(...spots.map(({ through: parts }) => thicknessOf(parts)));
  return {
    worktop: {
      fixed: top.fixed,
      sawn: top.sawn,
      line: line - low[1],
      through,
      coefficient,
      edge: top.edge,
      screw: { diameter, length: top.screw.length ?? longestScrew(through, stock.thickness, project.unit) },
      screws: screws.map(({ spot, front, rear }) => ({
        case: spot.case.name,
        at: [spot.case.at[0] + spot.x - low[0], inRoom(spot) - low[1]],
        through: spot.through.map(({ key }) => key),
        front,
        rear,
      })),
    },
    cuts: screws.flatMap(({ spot, front, rear }) =>
      spot.through.map((part) => ({
        part: part.key,
        feature: slotIn(part, spot, diameter, { front, rear }, `${top.name}/worktop`),
        spare: Math.min(
          spot.y - front - diameter / 2 - part.box[0][1],
          part.box[1][1] - (spot.y + rear + diameter / 2),
        ),
      })),
    ),
  };
}

const thicknessOf = (parts: readonly Part[]): Mm => parts.reduce((sum, { box }) => sum + (box[1][2] - box[0][2]), 0);

/** As long as leaves wood over its tip, in the steps that screws are sold in. */
function longestScrew(through: Mm, thickness: Mm, unit: Unit): Mm {
  const { sold, cover } = WORKTOP_SCREWS;
  const most = through + thickness - Math.max(cover, thickness / 4);
  return Math.floor(most / sold[unit] + SAME) * sold[unit];
}

/** From end to end of the screw's travel, as wide as its shank: right through the part. */
function slotIn(
  part: Part,
  { x, y }: ScrewSpot,
  diameter: Mm,
  { front, rear }: { front: Mm; rear: Mm },
  holds: string,
): Feature {
  const radius = diameter / 2;
  return {
    kind: "slot",
    face: "-z",
    along: 1,
    box: [
      [x - radius, y - front - radius, part.box[0][2]],
      [x + radius, y + rear + radius, part.box[1][2]],
    ],
    ends: ["round", "round"],
    holds,
    runOuts: [],
    row: null,
    lipping: false,
    reason: front + rear < SAME ? "takes a screw of" : "lets a screw travel with",
  };
}

/** A slot that leaves the strip too little wood, and a screw that holds nothing. */
function faultsOf(laid: AssemblyModel, project: Project): Problem[] {
  const { worktop } = laid;
  if (worktop === null) return [];
  const top = project.worktops.find(({ name }) => name === laid.name)!;
  const show = (length: Mm): string => formatLengthWithUnit(length, project.unit);
  const problems: Problem[] = [];
  const add = (key: string, found: string, expected: string, remedy: string): void => {
    problems.push({
      level: "error",
      kind: "design",
      where: whereIn(project, `${top.path}${key}`),
      found,
      expected,
      remedy,
    });
  };
  const wood = Math.min(...laid.cuts.map(({ spare }) => spare));
  if (wood < WORKTOP_SCREWS.wood - SAME) {
    const longest = Math.max(...worktop.screws.map(({ front, rear }) => front + rear)) + worktop.screw.diameter;
    add(
      "",
      `slots up to ${show(longest)} long for the screws of "${laid.name}", which leave ${show(Math.max(0, wood))} of wood at their ends`,
      `at least ${show(WORKTOP_SCREWS.wood)} of wood all round`,
      'wider strips or stretchers, "made" under "moisture" if it is not known yet, or quarter-sawn boards',
    );
  }
  const held = worktop.screw.length - worktop.through;
  if (top.screw.length === null && held < WORKTOP_SCREWS.hold - SAME) {
    add(
      "",
      `screws of ${show(worktop.screw.length)} through ${show(worktop.through)} of case, which hold ${show(Math.max(0, held))} of "${laid.name}"`,
      `at least ${show(WORKTOP_SCREWS.hold)} in the worktop`,
      "a thicker worktop, or thinner filler strips",
    );
  }
  return problems;
}
