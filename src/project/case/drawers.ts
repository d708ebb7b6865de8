/** What a case of the file says of its drawers, in millimetres, with what holds where it says nothing. */
import type { Mm } from "../../base/length.ts";
import { lengthOf } from "../../base/parse-length.ts";
import {
  BACK_GROOVE,
  DRAWER_BOTTOM_UP,
  INSET_GAP,
  OVERLAY,
  SLIDE_CLEARANCE,
  SLIDE_LENGTHS,
  SLIDE_REAR,
  SLIDE_SET_BACK,
  STACK_GAPS,
} from "../defaults.ts";
import { DOVETAILS } from "../dovetails.ts";
import type { DrawerSize, Drawers } from "../drawers.ts";
import { readMass } from "../file/mass.ts";
import { inputProblem } from "../file/problems.ts";
import type { DrawerRole, Role } from "../role.ts";
import type { CaseFile } from "../schema/case.ts";
import type { StackFile } from "../schema/drawers.ts";
import type { Stock } from "../stock.ts";
import type { Reading } from "./joinery.ts";

const DRAWER_ROLES: readonly Role[] = [
  "drawerFront",
  "drawerSide",
  "drawerBack",
  "drawerBottom",
  "drawerFace",
  "packing",
  "runner",
] satisfies DrawerRole[];

export const isDrawerRole = (role: Role): role is DrawerRole => DRAWER_ROLES.includes(role);

/** Front and back are as the box, packing as the face frame, when not named. */
export function drawerStock(
  { frame, drawers }: Pick<CaseFile, "frame" | "drawers">,
  role: DrawerRole,
): string | undefined {
  if (drawers === undefined) return undefined;
  const { box, front, back, bottom, face, packing, runner } = drawers.stock;
  switch (role) {
    case "drawerFront":
      return front ?? box;
    case "drawerSide":
      return box;
    case "drawerBack":
      return back ?? box;
    case "drawerBottom":
      return bottom;
    case "drawerFace":
      return face;
    case "packing":
      return packing ?? frame?.stock;
    case "runner":
      return runner ?? box;
  }
}

const usualSlope = (side: Stock | undefined): number =>
  (side?.density ?? 0) < DOVETAILS.hardFrom ? DOVETAILS.slope.soft : DOVETAILS.slope.hard;

/** `table`: every stock that the job could name. */
export function drawersOf(
  file: CaseFile,
  table: ReadonlyMap<string, Stock>,
  path: string,
  { source, unit, problems }: Reading,
): Drawers | null {
  const { drawers } = file;
  if (drawers === undefined) return null;
  const { slides, front, gaps, bottom } = drawers;
  const mm = (value: number | string | undefined, usual: Mm): Mm =>
    value === undefined ? usual : lengthOf(value, unit);
  const stock = (role: DrawerRole): Stock | undefined => table.get(drawerStock(file, role) ?? "");
  if (front.fit === "inset" && front.overlap !== undefined) {
    problems.push(
      inputProblem(
        source,
        `${path}.drawers.front.overlap`,
        '"overlap" for a front that is "inset"',
        '"overlap" only with "overlay"',
        "take it out",
      ),
    );
  }
  if (drawers.slope !== undefined && drawers.joint !== "dovetail") {
    problems.push(
      inputProblem(
        source,
        `${path}.drawers.slope`,
        `a "slope" for corners joined by ${drawers.joint ?? "rabbet"}`,
        'a slope of tails only with "joint": "dovetail"',
        "take it out, or dovetail the corners",
      ),
    );
  }
  const usual = STACK_GAPS[slides.kind][unit];
  // A runner lies under each box, within the gap there.
  const runner = slides.kind === "wooden runners" ? (stock("runner")?.thickness ?? 0) : 0;
  const least = Math.min(...(["drawerFront", "drawerSide"] as const).map((role) => stock(role)?.nominal ?? 0));
  return {
    slides: {
      kind: slides.kind,
      lengths: (slides.lengths?.map((one) => lengthOf(one, unit)) ?? SLIDE_LENGTHS[unit]).sort((a, b) => a - b),
      clearance: mm(slides.clearance, SLIDE_CLEARANCE[slides.kind][unit]),
      rating: slides.rating === undefined ? null : readMass(slides.rating)!,
      rear: mm(slides.rear, SLIDE_REAR[unit]),
      setBack: mm(slides.setBack, slides.kind === "wooden runners" ? 0 : SLIDE_SET_BACK[unit]),
    },
    joint: drawers.joint ?? "rabbet",
    tails: { slope: drawers.slope ?? usualSlope(stock("drawerSide")), pin: DOVETAILS.pin[unit] },
    bottom: {
      up: mm(bottom?.up, DRAWER_BOTTOM_UP[unit]),
      depth: mm(bottom?.depth, Math.min(BACK_GROOVE[unit], least / 2)),
      grooves: bottom?.grooves ?? 4,
    },
    front:
      front.fit === "inset"
        ? { fit: "inset", gap: mm(front.gap, INSET_GAP[unit]) }
        : { fit: "overlay", overlap: mm(front.overlap, OVERLAY[unit].overlap), gap: mm(front.gap, OVERLAY[unit].gap) },
    gaps: {
      above: mm(gaps?.above, usual.above),
      below: mm(gaps?.below, usual.below) + runner,
      between: mm(gaps?.between, usual.between) + runner,
    },
    load: drawers.load === undefined ? null : readMass(drawers.load)!,
  };
}

export const stackOf = (
  files: StackFile | undefined,
  path: string,
  { source, unit, problems }: Reading,
): DrawerSize[] =>
  (files ?? []).map((file, i): DrawerSize => {
    const at = `${path}[${i}]`;
    const given = (["size", "front", "share"] as const).filter((key) => file[key] !== undefined);
    if (given.length > 1) {
      problems.push(
        inputProblem(
          source,
          `${at}.${given[1]}`,
          `${given.map((key) => `"${key}"`).join(" and ")} of one drawer`,
          "one of them",
          "keep the box's size, the front's height, or a share",
        ),
      );
    }
    const head = { path: at, name: file.name ?? null };
    if (file.size !== undefined) return { ...head, size: { box: lengthOf(file.size, unit) } };
    if (file.front !== undefined) return { ...head, size: { front: lengthOf(file.front, unit) } };
    return { ...head, size: { share: file.share ?? 1 } };
  });
