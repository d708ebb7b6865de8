/** Drawers, before anything is laid: a style for those that are asked for, and figures that its slides and joints can be made with. */
import { type Mm, SAME } from "../../base/length.ts";
import type { Problem } from "../../base/problem.ts";
import { drawerBays } from "../case/bays.ts";
import type { Case } from "../case.ts";
import {
  HELD_STEPS,
  LEAST_BESIDE,
  LEAST_SLIDE_CLEARANCE,
  LEAST_TONGUE,
  TONGUE,
  UNDERMOUNT_BELOW,
  UNDERMOUNT_RECESS,
} from "../defaults.ts";
import type { Drawers } from "../drawers.ts";
import type { Project } from "../project.ts";
import { type DrawerRole, ROLE_NAMES } from "../role.ts";
import type { Stock } from "../stock.ts";
import { type CaseFaults, faultsOf } from "./case-faults.ts";
import { stockIn } from "./clear-inside.ts";

export function checkDrawers(project: Project, design: Case): Problem[] {
  const faults = faultsOf(project, design);
  const { problems, addInput, name } = faults;
  const { drawers } = design;
  const [bay] = drawerBays(design.bays);
  if (drawers === null) {
    if (bay !== undefined) {
      const key = `${bay.path.slice(design.path.length + 1)}.drawers`;
      addInput(
        key,
        `drawers in a bay of ${name}, which does not say how its drawers are made`,
        '"drawers" of the case: stock, slides and front',
        'add "drawers": { "stock": { ... }, "slides": { ... }, "front": { ... } } to the case',
      );
    }
    return problems;
  }
  if (bay === undefined) {
    addInput(
      "drawers",
      `how the drawers of ${name} are made, and no bay of it has any`,
      'a bay with "drawers": [ ... ]',
      "give a bay its drawers, or take this out",
    );
    return problems;
  }
  const stock = (role: DrawerRole): Stock => stockIn(design, project.stock, role);
  checkStocks(design, drawers, stock, faults);
  checkSlides(drawers, stock, faults);
  checkBottom(project, design, stock, faults);
  checkGaps(drawers, stock, faults);
  return problems;
}

type StockOf = (role: DrawerRole) => Stock;

/** Which comes in boards and which in sheets, and whether it is thick enough. */
function checkStocks(design: Case, drawers: Drawers, stock: StockOf, { addInput, add, name, show }: CaseFaults): void {
  const bottom = stock("drawerBottom");
  if (bottom.boards !== null || bottom.solid) {
    addInput(
      "drawers.stock.bottom",
      `drawer bottoms of ${bottom.name}, solid wood, held on every side`,
      "a panel, which keeps its size",
      "choose plywood for the bottoms",
    );
  }
  const packing = stock("packing");
  if (design.frame !== null && drawers.slides.kind !== "wooden runners" && packing.boards === null) {
    addInput(
      "drawers.stock.packing",
      `packing strips of ${packing.name}, which comes in sheets`,
      'a stock with "boards": strips are planed to what the stiles lap inside',
      'choose solid wood, or leave "packing" out',
    );
  }
  for (const role of ["drawerSide", "drawerFront", "drawerBack"] as const) {
    const { nominal, thickness } = stock(role);
    const least = drawers.joint === "dado and rabbet" ? LEAST_TONGUED : LEAST_BOX;
    if (nominal >= least - SAME) continue;
    add(
      "drawers.stock",
      `a ${ROLE_NAMES[role]} of ${name} ${show(thickness)} thick, joined by ${JOINED_BY[drawers.joint]}`,
      `at least ${show(least)}`,
      "choose a thicker stock for the boxes",
    );
  }
}

const JOINED_BY = { rabbet: "rabbets", "dado and rabbet": "dados and rabbets", dovetail: "dovetails" };

/** A side half as thick as this is left beside a rabbet; a tongue needs as much beside it (common practice, no source). */
const LEAST_BOX: Mm = 8;
const LEAST_TONGUED: Mm = Math.max(LEAST_TONGUE / TONGUE, LEAST_TONGUE + LEAST_BESIDE + 4);
/** Screws for side-mounted slides hold in no thinner side (common practice, no source). */
const LEAST_SCREWED: Mm = 11;

const SLIDE_WORDS = {
  "side-mounted": "at each side of a box on side-mounted slides",
  undermount: "between the opening and the inside of a box on undermount slides",
  "wooden runners": "at each side of a box on wooden runners",
};

function checkSlides({ slides }: Drawers, stock: StockOf, { add, name, show }: CaseFaults): void {
  const { kind, clearance } = slides;
  const least = LEAST_SLIDE_CLEARANCE[kind];
  if (clearance < least - SAME) {
    add(
      "drawers.slides.clearance",
      `${show(clearance)} ${SLIDE_WORDS[kind]} in ${name}`,
      `at least ${show(least)}: ${kind === "wooden runners" ? "less, and it binds in damp weather" : "less, and the slides do not go in"}`,
      'give the figure from the slides\' sheet, or leave "clearance" out',
    );
  }
  const side = stock("drawerSide");
  if (kind === "undermount" && clearance / 2 - side.thickness < LEAST_BESIDE_BOX - SAME) {
    add(
      "drawers.stock",
      `sides ${show(side.thickness)} thick on undermount slides in ${name}, which leave ${show(clearance / 2)} from the opening to the inside of the box`,
      `at most ${show(clearance / 2 - LEAST_BESIDE_BOX)}, so that the box passes the opening`,
      "choose thinner sides, or slides for thicker ones",
    );
  }
  if (kind === "side-mounted" && side.thickness < LEAST_SCREWED - SAME) {
    add(
      "drawers.stock",
      `sides ${show(side.thickness)} thick in ${name}, into which side-mounted slides are screwed`,
      `at least ${show(LEAST_SCREWED)}: no screw is short enough for less`,
      "choose thicker sides, or undermount slides",
    );
  }
}

/** Beside a box on undermount slides (common practice, no source). */
const LEAST_BESIDE_BOX: Mm = 1;

function checkBottom(project: Project, design: Case, stock: StockOf, { add, name, show }: CaseFaults): void {
  const { bottom, slides } = design.drawers!;
  const { slip } = design.joinery;
  const nominal = Math.min(
    ...(["drawerSide", "drawerFront", "drawerBack"] as const).map((role) => stock(role).nominal),
  );
  if (bottom.depth > nominal / 2 + SAME) {
    add(
      "drawers.bottom.depth",
      `grooves ${show(bottom.depth)} deep for the bottom, in boxes of ${name} nominally ${show(nominal)} thick`,
      `at most half the nominal thickness, ${show(nominal / 2)}`,
      "make the grooves less deep, or the boxes thicker",
    );
  }
  const held = bottom.depth - slip;
  if (held < HELD_STEPS * project.step - SAME) {
    add(
      "drawers.bottom.depth",
      `bottoms held by ${show(Math.max(0, held))} in ${name}: grooves ${show(bottom.depth)} deep, less the slip of ${show(slip)}`,
      `at least ${HELD_STEPS} rounding steps, ${show(HELD_STEPS * project.step)}`,
      'make the grooves deeper, or "step" finer',
    );
  }
  const least = slides.kind === "undermount" ? UNDERMOUNT_RECESS : LEAST_UNDER_BOTTOM;
  if (bottom.up < least - project.step - SAME) {
    add(
      "drawers.bottom.up",
      `bottoms ${show(bottom.up)} up in ${name}`,
      slides.kind === "undermount"
        ? `at least ${show(least)}: undermount slides lie under them`
        : `at least ${show(least)}, so that wood is left under the groove`,
      "lay them higher",
    );
  }
}

/** Wood under the bottom's groove (common practice, no source). */
const LEAST_UNDER_BOTTOM: Mm = 6;

function checkGaps({ gaps, slides, front }: Drawers, stock: StockOf, { add, name, show }: CaseFaults): void {
  const runner = slides.kind === "wooden runners" ? stock("runner").thickness : 0;
  if (slides.kind === "undermount") {
    for (const key of ["below", "between"] as const) {
      if (gaps[key] >= UNDERMOUNT_BELOW - SAME) continue;
      add(
        `drawers.gaps.${key}`,
        `${show(gaps[key])} ${key === "below" ? "below the lowest box" : "between boxes"} of ${name} on undermount slides`,
        `at least ${show(UNDERMOUNT_BELOW)}: the slides hang below the box`,
        `leave "${key}" out, or give the figure from the slides' sheet`,
      );
    }
  }
  for (const key of ["above", "between"] as const) {
    const free = key === "between" ? gaps.between - runner : gaps.above;
    if (free >= LEAST_OVER_BOX - SAME) continue;
    add(
      `drawers.gaps.${key}`,
      `${show(free)} ${key === "above" ? "above the uppermost box" : "between boxes"} of ${name}`,
      `at least ${show(LEAST_OVER_BOX)}, so that a box does not rub`,
      "leave more",
    );
  }
  if (front.gap < LEAST_FRONT_GAP - SAME) {
    add(
      "drawers.front.gap",
      `a gap of ${show(front.gap)} round the fronts of ${name}`,
      `at least ${show(LEAST_FRONT_GAP)}: a coat of finish on both edges takes some of it`,
      "leave more",
    );
  }
}

/** Over a box, so that it does not rub when it tips forward drawn out; round a front, for finish and the season (common practice, no source). */
const LEAST_OVER_BOX: Mm = 1;
const LEAST_FRONT_GAP: Mm = 1;
