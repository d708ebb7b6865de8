/** Doors that slide by each other in wooden grooves, behind the front of their bay: each an assembly of its own, its grooves cut into what bounds the bay. */
import type { Vec } from "../../base/geometry.ts";
import { formatLengthWithUnit, type Mm, SAME } from "../../base/length.ts";
import type { Problem } from "../../base/problem.ts";
import { sliderBays } from "../../project/case/bays.ts";
import { LEAST_CLEAR, SLIDER_GROOVES } from "../../project/defaults.ts";
import type { Sliders } from "../../project/doors.ts";
import { type Project, whereIn } from "../../project/project.ts";
import { stockOf } from "../cases/carcase.ts";
import { bayOpening, entranceOf } from "../front-openings.ts";
import type { Grid } from "../grid.ts";
import { type AssemblyModel, BARE, type Bore, type Hardware, type Lean, type Part, type Slider } from "../model.ts";
import type { Ground, Stage } from "../stage.ts";
import { crampedBy, layMembers } from "./door-members.ts";
import { cutGroove } from "./slider-grooves.ts";
import { heightsIn, leanOf, rangesOf, tracksIn, type Widths, widthsIn } from "./slider-sizes.ts";

/** The doors follow the openings as measured; their grooves are in parts cut before. */
export const SLIDERS: Stage = {
  heeds: "as built",
  lay: (standing, ground, made) => standing.flatMap((one) => laySliders(one, standing, ground, made)),
  faults: faultsOf,
};

type Around = { standing: readonly AssemblyModel[]; ground: Ground; made: readonly AssemblyModel[] };

function laySliders(
  one: AssemblyModel,
  standing: readonly AssemblyModel[],
  ground: Ground,
  made: readonly AssemblyModel[],
): AssemblyModel[] {
  const { sliders } = one.design;
  if (one.kind !== "case" || sliders === null) return [];
  return sliderBays(one.design.bays).flatMap(({ path }, bay) =>
    layBay({ path, one, sliders, first: bay * sliders.count }, { standing, ground, made }),
  );
}

/** Let down so far below what its upper end came in under (common practice, no source). */
const UNDER: Mm = 1;

type Asked = { path: string; one: AssemblyModel; sliders: Sliders; first: number };

/** All doors of one bay. */
function layBay({ path, one, sliders, first }: Asked, { standing, ground, made }: Around): AssemblyModel[] {
  const { grid, stock } = ground;
  const { opening, x, z } = bayOpening(path, one);
  const door = stockOf(stock, one.design.stock[sliders.make.kind === "slab" ? "slab" : "doorStile"]);
  const widths = widthsIn(x[1] - x[0], sliders.count, sliders.overlap, grid);
  const { upper, lower, height, spare, held, up } = heightsIn(z[1] - z[0], sliders.grooves, grid);
  const tracks = tracksIn(sliders.grooves, door.thickest, grid);
  const size: Vec = [widths.width, door.thickness, height];
  const play = tracks.width - door.thickness;
  const printed = made.find(({ name }) => name === one.name)!;
  const parts = new Map([...printed.parts, ...printed.borrowed].map((part) => [part.key, part]));
  const entrance = entranceOf(path, one, standing);
  const ranges = rangesOf(widths, x[1] - x[0]);
  return widths.x.map((off, index): AssemblyModel => {
    const name = `${one.name} sliding door ${first + index + 1}`;
    const track = index % 2 === 0 ? 0 : 1;
    const at: Vec = [x[0] + off, one.at[1] + tracks.from[track] + play / 2, z[0] - lower];
    const before = at[1] + play / 2 - entrance.front;
    const down = Math.max(0, at[2] + height + up + UNDER - entrance.z[1]);
    const laid = layMembers({ name, path, one, make: sliders.make, size }, ground);
    const holds = (end: "top" | "bottom"): string =>
      (laid.find(({ key }) => key.endsWith(`/rail-${end}`)) ?? laid[0]!).key;
    const y = [tracks.from[track], tracks.from[track] + tracks.width] as const;
    // Doors in one groove are told of by the first of them.
    const cuts =
      index > 1
        ? []
        : [
            cutGroove({ y, depth: upper, holds: holds("top") }, true, opening, parts, grid),
            cutGroove({ y, depth: lower, holds: holds("bottom") }, false, opening, parts, grid),
          ];
    const slider: Slider = {
      case: one.name,
      bay: opening.name,
      opening: { x: [...x], z: [...z], front: one.at[1] },
      entrance: { x: [...entrance.x], z: [...entrance.z], front: entrance.front },
      index,
      track,
      above: { part: opening.above, depth: upper },
      below: { part: opening.below, depth: lower },
      groove: {
        from: one.at[1] + tracks.from[track],
        width: tracks.width,
        apart: tracks.apart,
        play: sliders.grooves.play,
      },
      overlap: widths.overlap,
      spare,
      held,
      lean: {
        ...leanOf({ height, thickness: door.thickness, before, down }, ground.project.unit),
        along: insertedAt(at[0], widths.width, entrance.x),
        up,
        back: play / 2,
      },
      ...handlesOf(sliders, index, widths, grid),
      stick: sliders.make.kind === "slab" ? null : grid.end(sliders.make.stick),
      horns: sliders.make.kind === "slab" ? 0 : grid.atLeast(sliders.make.horns),
    };
    return withHandles({
      ...BARE,
      name,
      kind: "door",
      design: one.design,
      at,
      size,
      parts: laid,
      travel: { kind: "slide", axis: "+x", range: ranges[index]! },
      cuts,
      slider,
    });
  });
}

/** The least way from where it stands closed to where it is within the clear opening of the front. */
function insertedAt(from: Mm, width: Mm, [low, high]: readonly [Mm, Mm]): Lean["along"] {
  const [least, most] = [low - from, high - width - from];
  return least > 0 ? least : Math.min(0, most);
}

/** At the edge that no other door covers; of one between two others beyond what these cover. */
function handlesOf(
  { knob, pull, count }: Sliders,
  index: number,
  { width, overlap }: Widths,
  grid: Grid,
): Pick<Slider, "knob" | "pull"> {
  const isLast = index === count - 1;
  const covered = index > 0 && !isLast && index % 2 === 1 ? overlap : 0;
  const across = (fromEdge: Mm): Mm => {
    const at = grid.place(fromEdge + covered);
    return isLast ? width - at : at;
  };
  return {
    knob:
      knob === null
        ? null
        : {
            at: [across(knob.fromEdge), grid.place(knob.height)],
            diameter: knob.diameter,
            projection: knob.projection,
          },
    pull:
      pull === null
        ? null
        : {
            at: [across(pull.fromEdge), grid.place(pull.height)],
            diameter: pull.diameter,
            depth: grid.end(pull.depth),
          },
  };
}

export const PULLS = "finger pulls";

/** The slab, or the stile that is nearest to there. */
function partUnder({ parts, size }: AssemblyModel, x: Mm): Part {
  const stiles = parts.filter(({ role }) => role === "doorStile");
  return stiles.length === 0 ? parts[0]! : x <= size[0] / 2 ? stiles[0]! : stiles[1]!;
}

/** The recess to pull it by, and its knob. */
function withHandles(laid: AssemblyModel): AssemblyModel {
  const { knob, pull } = laid.slider!;
  const under = (x: Mm): Part => partUnder(laid, x);
  const hardware: Hardware[] =
    knob === null
      ? []
      : [
          {
            kind: "knob",
            what: "knob",
            sizes: [knob.diameter],
            count: 1,
            unit: "knobs",
            parts: [under(knob.at[0]).key],
            where: "on",
            of: laid.name,
          },
        ];
  if (pull === null) return { ...laid, hardware };
  const bore: Bore = {
    row: PULLS,
    face: "-y",
    diameter: pull.diameter,
    depth: pull.depth,
    middles: [pull.at],
    reason: "to pull the door by",
  };
  const into = under(pull.at[0]);
  return { ...laid, hardware, parts: laid.parts.map((part) => (part === into ? { ...part, bores: [bore] } : part)) };
}

/** Doors too small, or covering too little or all of each other; doors that cannot be leaned in; grooves beside the wood. */
function faultsOf(laid: AssemblyModel, project: Project): Problem[] {
  const { slider, size, parts, name, design, cuts } = laid;
  if (slider === null) return [];
  const show = (length: Mm): string => formatLengthWithUnit(length, project.unit);
  const problems: Problem[] = [];
  const add = (key: string, found: string, expected: string, remedy: string): void => {
    const where = whereIn(project, `${design.path}.doors${key}`);
    problems.push({ level: "error", kind: "design", where, found, expected, remedy });
  };
  const [width, , height] = size;
  const little = crampedBy({ parts, size });
  if (little !== null)
    add(
      "",
      `"${name}", ${show(Math.max(0, width))} wide and ${show(Math.max(0, height))} high${little.of === "slab" ? "" : `, whose stiles and rails leave ${show(Math.max(0, little.clear))} for its panel`}`,
      `at least ${show(LEAST_CLEAR)}`,
      little.of === "slab" ? "make the bay larger" : "make stiles and rails narrower, or the bay larger",
    );
  else if (slider.overlap > width / 2)
    add(
      ".overlap",
      `"${name}", ${show(width)} wide, and the next one ${show(slider.overlap)} over it`,
      `at most half of it, ${show(width / 2)}`,
      'less "overlap", or fewer doors',
    );
  leanFaults(laid, add, show);
  if (slider.pull !== null) {
    const { at, diameter } = slider.pull;
    const [lo, hi] = partUnder(laid, at[0]).box;
    const room = Math.min(at[0] - lo[0], hi[0] - at[0], at[1] - lo[2], hi[2] - at[1]) - diameter / 2;
    if (room < -SAME)
      add(
        ".pull",
        `the recess of "${name}", ${show(diameter)} across, whose middle ${show(Math.min(at[0], width - at[0]))} from its edge, clear of the next door, and ${show(at[1])} up is too near the edge of what it is in`,
        "wood all round it",
        'a smaller recess, wider stiles, less "overlap", or another place',
      );
  }
  const wood = Math.min(...cuts.map(({ spare }) => spare));
  if (wood < SLIDER_GROOVES.mm.apart - SAME)
    add(
      ".grooves",
      `the grooves of "${name}", which leave ${show(Math.max(0, wood))} of wood beside them in what they are cut into`,
      `at least ${show(SLIDER_GROOVES.mm.apart)}`,
      'more "setIn", or a wider stretcher, or a deeper case',
    );
  return problems;
}

type Add = (key: string, found: string, expected: string, remedy: string) => void;

/**
 * Turned upright with its upper edge at the groove's floor a door passes the angle at which its diagonal stands upright; and leaning, its front
 * face comes to the front lip of the groove, which so must be wider than the door by depth x tangent.
 */
function leanFaults({ slider, size, name }: AssemblyModel, add: Add, show: (length: Mm) => string): void {
  const { spare, above, groove, lean, entrance, opening } = slider!;
  const [width, thickness, height] = size;
  const least = Math.hypot(height, thickness) - height;
  if (spare < least - SAME)
    add(
      ".grooves.spare",
      `"${name}", ${show(thickness)} thick and ${show(height)} high, which is ${show(least)} more from corner to corner: with ${show(spare)} to spare it cannot be turned upright under its groove`,
      `at least ${show(least)} to spare`,
      `a "spare" of ${show(Math.ceil(least * 2) / 2)}, and "upper" as much deeper`,
    );
  const play = groove.width - thickness;
  const needed = above.depth * Math.tan((lean.degrees * Math.PI) / 180);
  if (needed > play + SAME)
    add(
      ".grooves.play",
      `"${name}", which must lean out by ${Math.round(lean.degrees * 10) / 10}° to pass the front edge below: ${show(above.depth)} up in its groove it then takes ${show(needed)} more than its thickness, and has ${show(play)}`,
      `"play" of at least ${show(needed)}`,
      'more "play", less "setIn" or "apart", or an "upper" less deep',
    );
  const [low, high] = entrance.x;
  const isFramed = high - low < opening.x[1] - opening.x[0] - SAME;
  if (isFramed && width > high - low + SAME)
    add(
      "",
      `"${name}", ${show(width)} wide, which does not go in between stiles ${show(high - low)} apart`,
      `a door at most ${show(high - low)} wide`,
      'a larger "count", less "overlap", or narrower stiles',
    );
}
