/** What a drawer runs on: where its slides are screwed to the case, the strips that pack them out behind a face frame, wooden runners, and what is bought. */
import type { Vec } from "../../base/geometry.ts";
import { MM_PER_INCH, type Mm, SAME, type Unit } from "../../base/length.ts";
import { PACKING_WIDTH, SLIDE_SCREWS } from "../../project/defaults.ts";
import type { Drawers } from "../../project/drawers.ts";
import type { DrawerRole } from "../../project/role.ts";
import { PLAIN } from "../cases/carcase.ts";
import type { Grid } from "../grid.ts";
import type { Frame, Hardware, Opening, Part } from "../model.ts";
import type { SlideLine } from "./drawer.ts";
import type { LaidBox } from "./drawer-box.ts";
import type { BayOfDrawers } from "./drawer-place.ts";

type Range = readonly [Mm, Mm];
const HANDS = ["left", "right"] as const;

/** Height of a slide's line in the room: its middle; of undermount slides and runners, the box's underside, which lies on them. */
export const slideHeight = ({ slides }: Drawers, { box }: LaidBox): Mm =>
  slides.kind === "side-mounted" ? (box.z[0] + box.z[1]) / 2 : box.z[0];

/** From the case's front edge back, on the grid. */
function runOf(place: BayOfDrawers, { slides }: Drawers, grid: Grid): Range {
  const front = place.opening.case.at[1];
  const from = front + grid.atLeast(place.behind + slides.setBack - front);
  return [from, from + grid.end(place.length)];
}

/** The line on each part beside the bay. */
export function slideLines(
  place: BayOfDrawers,
  laid: LaidBox,
  behind: Opening,
  drawers: Drawers,
  grid: Grid,
): SlideLine[] {
  const { at } = place.opening.case;
  const y = runOf(place, drawers, grid);
  const z = at[2] + grid.place(slideHeight(drawers, laid) - at[2]);
  const inset = Math.min(SLIDE_SCREWS, (y[1] - y[0]) / 4);
  const screws = [y[0] + inset, (y[0] + y[1]) / 2, y[1] - inset].map((one) => at[1] + grid.place(one - at[1]));
  return HANDS.map((hand): SlideLine => ({ part: behind[hand], face: hand === "left" ? "+x" : "-x", z, y, screws }));
}

const STANDING: Frame = { l: "+y", w: "+z", t: "+x" };
const LYING: Frame = { l: "+y", w: "+x", t: "-z" };

export type StripGround = {
  name: string; // of the assembly
  path: string;
  drawers: Drawers;
  stock: (role: DrawerRole) => { id: string; thickness: Mm };
  grid: Grid;
};

/**
 * Strips of one drawer in the coordinates of the bay: from its left face, the case's front edge and its floor. Packing fills what the stiles
 * lap inside; a runner reaches from the case's own part under the side of the box.
 */
export function layStrips(place: BayOfDrawers, laid: LaidBox, index: number, ground: StripGround): Part[] {
  const { opening, lap } = place;
  const { drawers, grid, stock } = ground;
  const { inside } = opening;
  const [from, to] = runOf(place, drawers, grid).map((y) => y - opening.case.at[1]) as [Mm, Mm];
  const width = inside.x[1] - inside.x[0];
  const z = (room: Mm): Mm => room - inside.z[0];
  const strip = (hand: "left" | "right", role: "packing" | "runner", frame: Frame, box: readonly [Vec, Vec]): Part => ({
    ...PLAIN,
    key: `${ground.name}/${role}-${index}-${hand}`,
    path: ground.path,
    name: `${hand} ${role === "packing" ? "packing strip" : "runner"}`,
    role,
    stock: stock(role).id,
    frame,
    box,
    inside: role === "runner" ? "+z" : hand === "left" ? "+x" : "-x",
  });
  return HANDS.flatMap((hand): Part[] => {
    if (drawers.slides.kind === "wooden runners") {
      const upper = z(laid.box.z[0]);
      const { thickness } = stock("runner");
      const under = stock("drawerSide").thickness;
      const reach = hand === "left" ? laid.box.x[0] + under - inside.x[0] : inside.x[1] - laid.box.x[1] + under;
      const wall = grid.end(width);
      const x: Range = hand === "left" ? [0, grid.end(reach)] : [wall - grid.end(reach - (width - wall)), wall];
      return [
        strip(hand, "runner", LYING, [
          [x[0], from, upper - thickness],
          [x[1], to, upper],
        ]),
      ];
    }
    const thick = lap[hand];
    if (thick === 0) return [];
    const middle = z(slideHeight(drawers, laid));
    const high = grid.end(Math.min(PACKING_WIDTH, laid.box.z[1] - laid.box.z[0]));
    const lower = drawers.slides.kind === "undermount" ? Math.max(0, middle - high / 2) : middle - high / 2;
    const at = grid.atLeast(lower);
    const x: Range = hand === "left" ? [0, thick] : [width - thick, width];
    return [
      strip(hand, "packing", STANDING, [
        [x[0], 0, at],
        [x[1], to, at + high],
      ]),
    ];
  });
}

/** Screws for slides as they are sold (common practice, no source). */
const SOLD: Record<Unit, readonly Mm[]> = {
  mm: [10, 12, 16],
  in: [3 / 8, 1 / 2, 5 / 8].map((one) => one * MM_PER_INCH),
};
/** Left under a screw's point, with the slide's own metal before the wood (common practice, no source). */
const UNDER_POINT: Mm = 1.5;

/** The longest screw that does not come out at the other face; null where none is short enough. */
export const slideScrew = (wood: Mm, unit: Unit): Mm | null =>
  SOLD[unit].findLast((one) => one <= wood - UNDER_POINT + SAME) ?? null;

const SLIDES = { "side-mounted": "Side-mounted slides", undermount: "Undermount slides, with their front locks" };

/** A pair of slides with its screws, into the case and into the box. */
export function slideHardware(
  length: Mm,
  { slides }: Drawers,
  lines: readonly SlideLine[],
  wood: { case: Mm; box: Mm },
  box: { sides: string[]; name: string; unit: Unit },
): Hardware[] {
  if (slides.kind === "wooden runners") return [];
  const { sides, name, unit } = box;
  const parts = [...lines.map(({ part }) => part), ...sides];
  const screws = (what: string, thick: Mm, on: string[]): Hardware[] => {
    const size = slideScrew(thick, unit);
    const count = lines.reduce((sum, line) => sum + line.screws.length, 0);
    return size === null
      ? []
      : [{ kind: "slide screws", what, sizes: [size], count, unit: "screws", parts: on, where: "for", of: name }];
  };
  return [
    {
      kind: "slides",
      what: SLIDES[slides.kind],
      sizes: [length],
      count: 1,
      unit: "pairs",
      parts,
      where: "for",
      of: name,
    },
    ...screws(
      "Screws for the slides, into the case",
      wood.case,
      lines.map(({ part }) => part),
    ),
    ...(slides.kind === "side-mounted" ? screws("Screws for the slides, into the drawer sides", wood.box, sides) : []),
  ];
}
