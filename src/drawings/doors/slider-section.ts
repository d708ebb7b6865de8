/**
 * The grooves of sliding doors cut across, the front at the left: above and below at full size, with the doors as they stand in them; and, at the
 * scale of the drawing, how one goes in.
 *
 *      +-----------------      part above
 *      |   +-+   +-+
 *      |   | |   | |           its grooves
 *      +---+|+---+|+-----
 *           |     |            doors
 */
import type { Mm } from "../../base/length.ts";
import { lines, polygonSteps, stroke } from "../../paper/draw.ts";
import type { Point, Rect, Shape } from "../../paper/shape.ts";
import type { DryfitSet, SetSliders } from "../../set/schema.ts";
import { partOf } from "../../set/words.ts";
import { type Block, unionOf } from "../draughting/block.ts";
import { type DimensionStyle, drawDimensions, drawSpan, figureRise } from "../draughting/dimension.ts";
import { hatch } from "../draughting/hatch.ts";
import { VIEW_FIGURE } from "../draughting/picture.ts";
import { captioned } from "../draughting/view-title.ts";

const SPACING: Mm = 1.6;
const STUB: Mm = 20; // of a door, from the face of what its groove is in
const SPAN_AIR: Mm = 3.5; // between the part below and what its dimension says
const BEHIND: Mm = 12; // of that part, behind the second groove

type Spans = readonly (readonly [Mm, Mm])[];

/** What is cut, from the case's front edge: its grooves, and the doors in them, by their thickness. */
type Cut = { thickness: Mm; grooves: Spans; doors: Spans; end: Mm };

function cutOf(set: DryfitSet, told: SetSliders, which: "above" | "below"): Cut {
  const front = told.opening.at[1];
  const grooves = told.tracks.map((from) => [from - front, from - front + told.groove] as const);
  const doors = ([0, 1] as const).map((track) => {
    const { assembly } = told.doors.find((door) => door.track === track)!;
    const { place, size } = set.assemblies.find(({ name }) => name === assembly)!;
    return [place.at[1] - front, place.at[1] - front + size[1]] as const;
  });
  return { thickness: partOf(set, told[which].mark).thickness, grooves, doors, end: grooves[1]![1] + BEHIND };
}

/** Upper and lower grooves at full size. */
export const sectionBlocks = (set: DryfitSet, told: SetSliders): Block[] => [
  sectionBlock(set, told, "above"),
  sectionBlock(set, told, "below"),
];

function sectionBlock(set: DryfitSet, told: SetSliders, which: "above" | "below"): Block {
  const cut = cutOf(set, told, which);
  const { depth, mark } = told[which];
  // The part's face at 0; into its wood is up above, down below.
  const into = which === "above" ? -1 : 1;
  const at = (y: Mm): Mm => into * y;
  const box = (x0: Mm, x1: Mm, y0: Mm, y1: Mm): Rect => ({
    x: x0,
    y: Math.min(at(y0), at(y1)),
    width: x1 - x0,
    height: Math.abs(y1 - y0),
  });
  const { thickness, grooves, doors, end } = cut;
  const reach = which === "above" ? told.held : depth;
  const edges = [0, ...grooves.flat(), end];
  const face = grooves.flatMap(([a, b]): Point[] => [
    [a, at(0)],
    [a, at(depth)],
    [b, at(depth)],
    [b, at(0)],
  ]);
  const outline: Point[] = [[end, at(0)], ...face.reverse(), [0, at(0)], [0, at(thickness)], [end, at(thickness)]];
  const wood = [box(0, end, depth, thickness), ...[0, 2, 4].map((i) => box(edges[i]!, edges[i + 1]!, 0, depth))];
  const shapes: Shape[] = [
    hatch(wood, "falling", SPACING),
    lines(
      "outline",
      outline.slice(1).map((point, i) => [outline[i]!, point] as const),
    ),
    hatch(
      doors.map(([a, b]) => box(a, b, -STUB, reach)),
      "rising",
      SPACING,
    ),
    ...doors.map(([a, b]) =>
      lines("outline", [
        [
          [a, at(-STUB)],
          [a, at(reach)],
        ],
        [
          [a, at(reach)],
          [b, at(reach)],
        ],
        [
          [b, at(reach)],
          [b, at(-STUB)],
        ],
      ]),
    ),
  ];
  const style: DimensionStyle = { unit: set.job.unit, ratio: 1, size: VIEW_FIGURE };
  const across = drawDimensions(
    which === "above" ? "above" : "below",
    at(thickness),
    [{ kind: "spans", spans: [[0, grooves[0]![0]], grooves[0]!, [grooves[0]![1], grooves[1]![0]], grooves[1]!] }],
    style,
  );
  const span = (a: Mm, b: Mm): readonly [Mm, Mm] => [Math.min(at(a), at(b)), Math.max(at(a), at(b))];
  const deep = drawDimensions("left", 0, [{ kind: "spans", spans: [span(0, depth)] }], style);
  const held =
    which === "above" ? [drawDimensions("right", end, [{ kind: "spans", spans: [span(0, reach)] }], style)] : [];
  const all = [across, deep, ...held];
  const part = partOf(set, mark);
  return captioned(
    {
      shapes: [...shapes, ...all.flatMap((one) => one.shapes)],
      box: unionOf([box(0, end, -STUB, thickness), ...all.flatMap(({ boxes }) => boxes)]),
    },
    `Grooves in ${part.name} ${mark}`,
    "full size, cut across; the front at the left",
    box(0, end, -STUB, thickness),
  );
}

/** One door going in, from its end: leaning, its upper end at the floor of its groove; and, broken, as it then stands. */
export function leanBlock(set: DryfitSet, told: SetSliders, ratio: number): Block {
  const door = told.doors.find(({ track }) => track === 1)!;
  const { place, size } = set.assemblies.find(({ name }) => name === door.assembly)!;
  const front = told.opening.at[1];
  const [upper, lower] = [cutOf(set, told, "above"), cutOf(set, told, "below")];
  const { height } = told.opening;
  const { out, back, degrees } = door.lean;
  const y0 = place.at[1] - front;
  const paper = ([y, z]: Point): Point => [y * ratio, -z * ratio];
  const poly = (points: readonly Point[]): Shape => stroke("outline", polygonSteps(points.map(paper)));
  const profile = (cut: Cut, depth: Mm, sign: 1 | -1, at: Mm): Point[] => [
    [0, at],
    ...cut.grooves.flatMap(([a, b]): Point[] => [
      [a, at],
      [a, at + sign * depth],
      [b, at + sign * depth],
      [b, at],
    ]),
    [cut.end, at],
    [cut.end, at + sign * cut.thickness],
    [0, at + sign * cut.thickness],
  ];
  const pivot: Point = [y0 + back, height + told.above.depth];
  const angle = (-degrees * Math.PI) / 180;
  const leaning = (
    [
      [0, 0],
      [size[1], 0],
      [size[1], -size[2]],
      [0, -size[2]],
    ] as const
  ).map(
    ([y, z]): Point => [
      pivot[0] + y * Math.cos(angle) - z * Math.sin(angle),
      pivot[1] + y * Math.sin(angle) + z * Math.cos(angle),
    ],
  );
  const seated: Point[] = [
    [y0, -told.below.depth],
    [y0 + size[1], -told.below.depth],
    [y0 + size[1], -told.below.depth + size[2]],
    [y0, -told.below.depth + size[2]],
  ];
  const style: DimensionStyle = { unit: set.job.unit, ratio, size: VIEW_FIGURE };
  const [from, to] = [paper([pivot[0] - out, 0]), paper([pivot[0], 0])];
  const rise = figureRise(style);
  const under = lower.thickness * ratio + SPAN_AIR + rise.up + rise.down;
  const span = drawSpan([from[0], under], [to[0], under], style);
  const frame = told.entrance.at[1] - front;
  const rails =
    frame < -1e-6
      ? [
          [told.entrance.at[2] + told.entrance.height - told.opening.at[2], height + upper.thickness],
          [-lower.thickness, told.entrance.at[2] - told.opening.at[2]],
        ].map(([a, b]) =>
          poly([
            [frame, a!],
            [0, a!],
            [0, b!],
            [frame, b!],
          ]),
        )
      : [];
  const corners = [...leaning, ...seated, [upper.end, height + upper.thickness], [frame, -lower.thickness]].map((one) =>
    paper(one as Point),
  );
  const xs = corners.map(([x]) => x);
  const ys = corners.map(([, y]) => y);
  const box: Rect = {
    x: Math.min(...xs),
    y: Math.min(...ys),
    width: Math.max(...xs) - Math.min(...xs),
    height: Math.max(...ys) - Math.min(...ys),
  };
  return captioned(
    {
      shapes: [
        poly(profile(upper, told.above.depth, 1, height)),
        poly(profile(lower, told.below.depth, -1, 0)),
        ...rails,
        stroke("hidden", polygonSteps(seated.map(paper))),
        poly(leaning),
        ...span.shapes,
      ],
      box: unionOf([box, span.box, span.line]),
    },
    "Leaned in",
    "from its end; broken: as it stands",
    box,
  );
}
