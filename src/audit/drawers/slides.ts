/** What a drawer runs on: a line for its slide on either side, at the right height, with wood along all of it; packing and runners against the case. */
import type { Box } from "../../base/geometry.ts";
import type { Mm } from "../../base/length.ts";
import type { DryfitSet, SetCheck } from "../../set/schema.ts";
import { nearMissReach } from "../limits.ts";
import { cutAwayAll, TOUCH } from "../solids/boxes.ts";
import { drawnLine } from "../solids/drawn-line.ts";
import { amount, failure, nameOf } from "../words.ts";
import { type Drawn, nearest, partsOf, type Standing } from "./drawn.ts";

const HANDS = [
  { hand: "left", sign: -1 },
  { hand: "right", sign: 1 },
] as const;

/** So deep behind the face a slide's screws hold, and so far above and below its line there is wood for it. */
const BEHIND: Mm = 0.5;
const BESIDE: Mm = 2;

export function checkSlides(drawn: Drawn, set: DryfitSet): SetCheck[] {
  const { drawer, box, own, others, job } = drawn;
  const { kind } = drawer.slides;
  const marks = own.map(({ part }) => part.mark);
  const lines = others.flatMap((one) =>
    one.part.lines
      .filter(({ holds }) => holds.some((mark) => marks.includes(mark)))
      .map((line) => ({ one, line, at: drawnLine(one.solid, line, [line.from, line.to], set.assemblies) })),
  );
  const wanted = kind === "side-mounted" ? (box[0][2] + box[1][2]) / 2 : box[0][2];
  const strips: (Standing | null)[] = [];
  const checks = HANDS.flatMap(({ hand, sign }): SetCheck[] => {
    const found = lines.filter(({ at }) => (sign === -1 ? at[0][0] < box[0][0] : at[0][0] > box[1][0]));
    const [slide] = found;
    if (slide === undefined || found.length > 1) {
      return [
        failure(
          "drawer-slide",
          partsOf(drawn),
          `${drawer.assembly} has ${found.length} lines for its ${hand} slide. Change: one line on the part beside it.`,
        ),
      ];
    }
    const { at, one, line } = slide;
    const parts = [one.part, ...partsOf(drawn)];
    const told: string[] = [];
    const off = at[0][2] - wanted;
    if (Math.abs(off) > job.step + TOUCH)
      told.push(`lies ${amount(Math.abs(off), job)} ${off > 0 ? "above" : "below"} where its box has it`);
    const size = at[1][1] - at[0][1];
    if (size < drawer.slides.length - job.step - TOUCH || size > drawer.slides.length + TOUCH)
      told.push(`is ${amount(size, job)} long for slides of ${amount(drawer.slides.length, job)}`);
    if (Math.abs(at[0][1] - drawer.slides.from) > TOUCH)
      told.push(`begins ${amount(Math.abs(at[0][1] - drawer.slides.from), job)} off where the slide does`);
    if (line.points.length === 0 || line.points.some((point) => point < line.from || point > line.to))
      told.push("has screws beyond its ends");
    if (kind !== "wooden runners") {
      const plane = drawer.opening.x[sign === -1 ? 0 : 1];
      const [lo, hi] = sign === -1 ? [plane - BEHIND, plane] : [plane, plane + BEHIND];
      const strip: Box = [
        [lo, at[0][1], at[0][2] - BESIDE],
        [hi, at[1][1], at[0][2] + BESIDE],
      ];
      const bare = cutAwayAll(
        [strip],
        others.flatMap(({ cells }) => cells),
      );
      // A lap that is not packed out leaves no more than a card's thickness.
      if (bare.some(([a, b]) => b[1] - a[1] > job.step + TOUCH && b[0] - a[0] > BEHIND - TOUCH))
        told.push("has no wood behind all of it");
    }
    const faults =
      told.length === 0
        ? []
        : [
            failure(
              "drawer-slide",
              parts,
              `The line for the ${hand} slide of ${drawer.assembly} on ${nameOf(one.part)} ${told.join("; it ")}. Change: the line, or the box.`,
            ),
          ];
    const strip = stripAt(drawn, at, sign);
    strips.push(strip);
    return [...faults, ...checkStrip(drawn, strip, at, sign)];
  });
  return [...checks, ...checkLevel(drawn, strips)];
}

/** The strip at a slide's line; null where a stile laps nothing, or no runner lies. */
function stripAt({ drawer, box, others, job }: Drawn, line: Box, sign: 1 | -1): Standing | null {
  const reach = nearMissReach(job.step);
  const i = sign === -1 ? 0 : 1;
  const own = others.find(
    ({ part, bounds }) =>
      (part.role === "packing" || part.role === "runner") &&
      (sign === -1 ? bounds[0][0] < box[0][0] : bounds[1][0] > box[1][0]) &&
      bounds[0][2] < line[0][2] + TOUCH &&
      bounds[1][2] > line[0][2] - job.step - TOUCH &&
      Math.abs(bounds[0][0] - line[0][0]) < drawer.opening.x[1] - drawer.opening.x[0] &&
      Math.abs(bounds[i][0] - line[i][0]) < reach,
  );
  return own ?? null;
}

/** The strips left and right of a drawer lie at one height. */
function checkLevel(drawn: Drawn, [left, right]: readonly (Standing | null)[]): SetCheck[] {
  if (!left || !right) return [];
  const off = ([0, 1] as const).map((i) => Math.abs(left.bounds[i][2] - right.bounds[i][2]));
  if (Math.max(...off) <= TOUCH) return [];
  return [
    failure(
      "drawer-slide",
      [left.part, right.part],
      `${nameOf(left.part)} and ${nameOf(right.part)} of ${drawn.drawer.assembly} do not lie level: ${amount(Math.max(...off), drawn.job)} apart. Change: the size or the place of one.`,
    ),
  ];
}

/** A strip lies against the case, as long as from the frame to the slide's end, with the line on it. */
function checkStrip(drawn: Drawn, own: Standing | null, line: Box, sign: 1 | -1): SetCheck[] {
  const { drawer, box, others, job } = drawn;
  const { kind } = drawer.slides;
  if (own === null) {
    if (kind !== "wooden runners") return [];
    return [
      failure(
        "drawer-slide",
        [],
        `${drawer.assembly} has no runner at its ${sign === -1 ? "left" : "right"}. Change: the runner, or the slides.`,
      ),
    ];
  }
  const { part, bounds } = own;
  const told: string[] = [];
  const beside = nearest(
    bounds,
    0,
    sign,
    others.filter((one) => one !== own),
  );
  if (beside === null || beside.gap > job.step + TOUCH) told.push("does not lie against the case");
  if (Math.abs(bounds[1][1] - line[1][1]) > TOUCH)
    told.push(`ends ${amount(Math.abs(bounds[1][1] - line[1][1]), job)} off where the slide does`);
  if (kind === "wooden runners") {
    if (Math.abs(bounds[0][1] - line[0][1]) > TOUCH)
      told.push(`begins ${amount(Math.abs(bounds[0][1] - line[0][1]), job)} off where its line does`);
    const inner = sign === -1 ? bounds[1][0] - box[0][0] : box[1][0] - bounds[0][0];
    const under = drawer.sides;
    if (inner < under - job.step - TOUCH || inner > under + TOUCH)
      told.push(`reaches ${amount(inner, job)} under a side ${amount(under, job)} thick`);
  } else {
    const before = nearest(bounds, 1, -1, others);
    if (before === null || before.gap > job.step + TOUCH) told.push("does not begin at the frame");
    const middle = (bounds[0][2] + bounds[1][2]) / 2;
    if (kind === "side-mounted" && Math.abs(middle - line[0][2]) > job.step + TOUCH)
      told.push(`has its middle ${amount(Math.abs(middle - line[0][2]), job)} off the line`);
    if (Math.abs(sign === -1 ? bounds[1][0] - drawer.opening.x[0] : drawer.opening.x[1] - bounds[0][0]) > TOUCH)
      told.push("is not flush with the opening");
  }
  if (told.length === 0) return [];
  return [
    failure(
      "drawer-slide",
      [part],
      `${nameOf(part)} of ${drawer.assembly} ${told.join("; it ")}. Change: its size, or its place.`,
    ),
  ];
}
