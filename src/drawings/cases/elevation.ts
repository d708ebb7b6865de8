/** A case from the front, with every clear size and every mark that shows. */
import { boxToOuter, type Place } from "../../base/geometry.ts";
import type { Mm } from "../../base/length.ts";
import type { Shape } from "../../paper/shape.ts";
import type { DryfitSet, SetAssembly } from "../../set/schema.ts";
import { type Block, unionOf } from "../draughting/block.ts";
import { type DimensionStyle, drawDimensions, type Row } from "../draughting/dimension.ts";
import { drawView, type Picture, VIEW_FIGURE } from "../draughting/picture.ts";
import { drawShaped, shapesIn } from "../draughting/shaped.ts";
import { stackStretches } from "../draughting/stretch.ts";
import { captioned } from "../draughting/view-title.ts";
import { FROM_FRONT, type View, viewOf } from "../solids/view.ts";
import { baseOf, chainOf, heightSpans } from "./base-sizes.ts";
import {
  acrossOf,
  chainsOf,
  distinct,
  drawInner,
  nameBays,
  openingsOf,
  type Spans,
  setDowns,
  upOf,
  withMembers,
} from "./bay-sizes.ts";
import { type CaseGroup, standingSolids } from "./case-group.ts";
import type { CaseView } from "./case-view.ts";
import { cutsOf, drawCutMarks, MARKS_SPACE } from "./cutting.ts";
import { drawPinsFromFront } from "./loose-shelves.ts";
import { markView, NO_MARKS, withAbove } from "./marking.ts";
import { drawMating } from "./mating.ts";

/** The front of a case or of a frame, with every clear size; of a frame its members' widths as well. */
export function frontBlock(
  set: DryfitSet,
  assembly: SetAssembly,
  view: View,
  ratio: number,
  withMarks: boolean,
  title: string,
): Block {
  const style: DimensionStyle = { unit: set.job.unit, ratio, size: VIEW_FIGURE };
  const picture = drawView(view, ratio);
  const openings = openingsOf(set, assembly);
  const isFrame = assembly.kind === "frame";
  const clear = chainsOf(openings);
  const chains = isFrame ? withMembers(clear, assembly.size) : clear;
  const onX = (spans: Spans): Spans => spans.map(([a, b]) => [picture.x(a), picture.x(b)]);
  const onY = (spans: Spans): Spans => spans.map(([a, b]) => [picture.y(a), picture.y(b)]);
  const all = (size: Mm): Spans => [[0, size]];
  const base = baseOf(set, assembly);
  const { box } = picture;
  const inner = drawInner(chains, picture, style);
  const rowsOf = (spans: Spans): Row[] => stackStretches(spans).map((row) => ({ kind: "spans", spans: row }));
  const dimensions = [
    drawDimensions(
      "below",
      0,
      [
        { kind: "spans", spans: onX(chains.below) },
        ...rowsOf(onX(distinct(inner.crowdedAcross.map(acrossOf)))),
        { kind: "spans", spans: onX(base === null ? [] : chainOf(assembly.size[0], base.across)) },
        { kind: "spans", spans: onX(all(assembly.size[0])) },
      ],
      style,
      MARKS_SPACE,
    ),
    drawDimensions(
      "left",
      0,
      [
        { kind: "spans", spans: onY([...chains.left, ...(isFrame ? [] : setDowns(set, assembly, openings))]) },
        ...heightSpans(assembly.size[2], base).map((spans): Row => ({ kind: "spans", spans: onY(spans) })),
      ],
      style,
      MARKS_SPACE,
    ),
    drawDimensions(
      "right",
      box.width,
      [{ kind: "spans", spans: onY(chains.right) }, ...rowsOf(onY(distinct(inner.crowdedUp.map(upOf))))],
      style,
      MARKS_SPACE,
    ),
  ];
  const cutMarks = isFrame ? { shapes: [], boxes: [] } : drawCutMarks(cutsOf(set, assembly), picture);
  const mating = withMarks && isFrame ? drawMating(set, assembly, picture) : { shapes: [], boxes: [] };
  const marking = withMarks
    ? markView(view.seen, picture, [...inner.boxes, ...cutMarks.boxes, ...mating.boxes], withAbove(box))
    : NO_MARKS;
  const names = withMarks
    ? nameBays(openings, picture, [...inner.boxes, ...cutMarks.boxes, ...mating.boxes], marking)
    : [];
  return captioned(
    {
      shapes: [
        ...picture.shapes,
        ...drawShapedParts(set, assembly, picture),
        ...dimensions.flatMap((d) => d.shapes),
        ...inner.shapes,
        ...drawPinsFromFront(set, assembly, picture),
        ...cutMarks.shapes,
        ...mating.shapes,
        ...marking.shapes,
        ...names,
      ],
      box: unionOf([box, ...cutMarks.boxes, ...marking.boxes, ...dimensions.flatMap((d) => d.boxes)]),
    },
    title,
    marking.note,
    box,
  );
}

/** Shaped edges of parts that lie across the view: each in its own place, as it runs. */
const drawShapedParts = (set: DryfitSet, { name }: SetAssembly, picture: Picture): Shape[] =>
  set.parts
    .filter((part) => part.assembly === name && part.place !== null)
    .flatMap((part) =>
      shapesIn(part).flatMap((shape) =>
        drawShaped(
          shape,
          (l, w) => {
            const [[x, , z]] = boxToOuter(part.place as Place, [
              [l, w, 0],
              [l, w, 0],
            ]);
            return [picture.x(x), picture.y(z)];
          },
          "outline",
        ),
      ),
    );

const FRONT = "Front view";

/** "make 2", and which marks the other ones carry. */
export function makeWords(group: CaseGroup): string {
  if (group.others.length === 0) return "";
  const others = group.others.map(
    ({ assembly, marks }) =>
      `Marks in ${assembly.name}: ${marks.map(({ drawn, other }) => `${other} for ${drawn}`).join(", ")}.`,
  );
  return `Make ${group.others.length + 1}. ${others.join(" ")}`;
}

export function frontOf(set: DryfitSet, drawn: SetAssembly): CaseView {
  const view = viewOf(standingSolids(set, drawn, "none"), FROM_FRONT);
  return {
    kind: "front",
    stands: "front",
    draw: (ratio, withMarks) => frontBlock(set, drawn, view, ratio, withMarks, FRONT),
  };
}
