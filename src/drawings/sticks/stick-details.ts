/**
 * Joints at full size, to hold the work against: the part that takes the groove cut across its run, its grooved face up, seen from its
 * lower end or front edge; in the groove stands what enters. Where an edge is near, parts of either hand have a detail of their own.
 *
 *           |///|      measured thickness
 *      -----|///|--------+
 *      \\\\\|///|\\\\\\\\|  depth
 *      \\\\\+---+\\\\\\\\|  web
 *      ------------------+
 *      | to the edge |
 */
import { axesOf, axisOf, boxToOuter, signOf } from "../../base/geometry.ts";
import { formatLengthWithUnit, isSame, type Mm } from "../../base/length.ts";
import { group, lines } from "../../paper/draw.ts";
import type { Point, Rect, Shape } from "../../paper/shape.ts";
import { thirdAxis } from "../../set/facing.ts";
import type { DryfitSet, SetFeature, SetJoint, SetPart } from "../../set/schema.ts";
import { byMark, partOf, stockOf } from "../../set/words.ts";
import { unionOf } from "../draughting/block.ts";
import { type Block, setLines, TEXT, words } from "../draughting/cell.ts";
import { drawDimensions } from "../draughting/dimension.ts";
import { columnsOf, flow, flowItem } from "../draughting/flow.ts";
import { hatch } from "../draughting/hatch.ts";
import { VIEW_FIGURE } from "../draughting/picture.ts";

type Span = readonly [Mm, Mm];

/** One groove cut across: u along the paper, 0 at the middle of the groove. */
type Detail = {
  takers: string[];
  enters: string[];
  stock: string;
  kind: SetFeature["kind"];
  thickness: Mm; // of the part that takes the groove
  groove: Span;
  depth: Mm;
  end: Mm; // where the entering part's end stands, from the face down
  standing: Span; // what stands in the groove
  body: Span; // what stands over the face
  /** The part's near edges or ends; null where it goes on. */
  edges: [Mm | null, Mm | null];
  loose: Mm;
};

const NEAR: Mm = 40; // an edge farther off is not drawn
const ROUND: Mm = 22; // of the part, to either side of the groove
const STANDING: Mm = 24; // of the entering part, over the face
const SPACING: Mm = 1.6;
const GAP: Mm = 8;
const COLUMN: Mm = 88;
const STROKES: Mm = 1.5; // how far a dimension's strokes reach beyond its figures and the part

/** Pages of details, in the space that a page of sticks leaves. */
export function drawDetails(set: DryfitSet, space: Rect): Shape[][] {
  const printed = set.reprint === null ? null : set.reprint.parts.map(({ mark }) => mark);
  const details = detailsOf(set).filter(
    ({ takers, enters }) => printed === null || [...takers, ...enters].some((mark) => printed.includes(mark)),
  );
  if (details.length === 0) return [];
  const columns = columnsOf(space, Math.max(1, Math.floor((space.width + GAP) / (COLUMN + GAP))), GAP);
  const items = details.map((detail) => [flowItem(drawDetail(set, detail, columns[0]!.width), { above: GAP })]);
  return flow(items, () => columns);
}

/** Every groove and rabbet that holds a part; those that look alike are one detail. */
function detailsOf(set: DryfitSet): Detail[] {
  const found = new Map<string, Detail>();
  for (const part of set.parts) {
    for (const feature of part.features) {
      const detail = detailOf(set, part, feature);
      if (detail === null) continue;
      const key = JSON.stringify([
        detail.kind,
        detail.stock,
        [detail.thickness, detail.depth, detail.end, ...detail.groove, ...detail.standing, ...detail.body].map(fine),
        detail.edges.map((edge) => edge !== null && fine(edge)),
      ]);
      const same = found.get(key);
      if (same === undefined) found.set(key, detail);
      else {
        same.takers = joined(same.takers, detail.takers);
        same.enters = joined(same.enters, detail.enters);
      }
    }
  }
  return [...found.values()];
}

const fine = (at: Mm): number => Math.round(at * 1e4);
const joined = (a: string[], b: string[]): string[] => [...new Set([...a, ...b])].sort(byMark);

function detailOf(set: DryfitSet, part: SetPart, feature: SetFeature): Detail | null {
  const { kind, face, along, at, width, depth, holds } = feature;
  const isChannel = (kind === "groove" || kind === "rabbet") && face.startsWith("t");
  const joint = set.joints.find(({ entering, receiving }) => entering === holds && receiving === part.mark);
  if (!isChannel || holds === null || joint === undefined || part.place === null) return null;
  const across = thirdAxis(along, "t") as "l" | "w";
  // Seen along the run with the grooved face up: l x w = t says which way across runs to the right.
  const isForward = (across === "l") === (face === "t1");
  const middle = at + width / 2;
  const size = across === "l" ? part.length : part.width;
  const entering = partOf(set, holds);
  const standing = standingIn(part, feature, joint, across);
  const body = joint.kind === "tongue" ? (bodyOf(part, entering, across) ?? standing) : standing;
  const isNear = [at < NEAR, size - at - width < NEAR];
  const spans = { groove: [at, at + width], standing, body, part: [0, size] } as const;
  const turned = ([from, to]: Span): Span => (isForward ? [from - middle, to - middle] : [middle - to, middle - from]);
  const [low, high] = turned(spans.part);
  const [nearLow, nearHigh] = isForward ? isNear : [...isNear].reverse();
  const detail: Detail = {
    takers: [part.mark],
    enters: [holds],
    stock: entering.material,
    kind,
    thickness: part.thickness,
    groove: turned(spans.groove),
    depth,
    // What rounding left at a seat is not drawn: it differs from joint to joint.
    end: depth - Math.max(0, joint.gap[1] - joint.rounding),
    standing: turned(standing),
    body: turned(body),
    edges: [nearLow ? low : null, nearHigh ? high : null],
    loose: joint.loose,
  };
  // Without an edge to show its hand, one detail serves both ways.
  return nearLow || nearHigh || detail.standing[0] - detail.groove[0] < 1e-6 ? detail : flipped(detail);
}

const flip = ([from, to]: Span): Span => [-to, -from];
const flipped = (detail: Detail): Detail => ({
  ...detail,
  groove: flip(detail.groove),
  standing: flip(detail.standing),
  body: flip(detail.body),
});

/** What stands between the walls: against the exact one, which is the lower one in the case. */
function standingIn(part: SetPart, { at, width }: SetFeature, joint: SetJoint, across: "l" | "w"): Span {
  const isLow = signOf(axesOf(part.place!)[across === "l" ? 0 : 1]!) > 0;
  return isLow ? [at, at + width - joint.loose] : [at + joint.loose, at + width];
}

/** The whole of a part with a tongue, in the axes of what it enters; null in another assembly, whose place is another. */
function bodyOf(part: SetPart, entering: SetPart, across: "l" | "w"): Span | null {
  if (entering.place === null || entering.assembly !== part.assembly) return null;
  const [lo, hi] = boxToOuter(entering.place, [
    [0, 0, 0],
    [entering.length, entering.width, entering.thickness],
  ]);
  const axis = axesOf(part.place!)[across === "l" ? 0 : 1]!;
  const local = [lo, hi].map((corner) => signOf(axis) * (corner[axisOf(axis)] - part.place!.at[axisOf(axis)]));
  return [Math.min(...local), Math.max(...local)];
}

function drawDetail(set: DryfitSet, detail: Detail, width: Mm): Block {
  const { groove, depth, thickness, standing, body, end, edges } = detail;
  const left = edges[0] ?? groove[0] - ROUND;
  const right = edges[1] ?? groove[1] + ROUND;
  const style = { unit: set.job.unit, ratio: 1, size: VIEW_FIGURE };
  const isOpen = { left: isSame(left, groove[0]), right: isSame(right, groove[1]) }; // a rabbet
  const solid: Rect[] = [
    { x: left, y: 0, width: groove[0] - left, height: depth },
    { x: groove[1], y: 0, width: right - groove[1], height: depth },
    { x: left, y: depth, width: right - left, height: thickness - depth },
  ].filter((rect) => rect.width > 1e-6);
  const [s0, s1] = standing;
  const [b0, b1] = body;
  const isTongue = !isSame(s0, b0) || !isSame(s1, b1);
  const entering: Rect[] = [
    { x: b0, y: -STANDING, width: b1 - b0, height: STANDING },
    { x: s0, y: 0, width: s1 - s0, height: end },
  ];
  const taker: Point[][] = [
    ...(isOpen.left ? [] : [[[left, 0] as Point, [groove[0], 0] as Point, [groove[0], depth] as Point]]),
    [
      [groove[0], depth],
      [groove[1], depth],
    ],
    ...(isOpen.right ? [] : [[[groove[1], depth] as Point, [groove[1], 0] as Point, [right, 0] as Point]]),
    [
      [left, thickness],
      [right, thickness],
    ],
    ...(edges[0] === null ? [] : [[[left, isOpen.left ? depth : 0] as Point, [left, thickness] as Point]]),
    ...(edges[1] === null ? [] : [[[right, isOpen.right ? depth : 0] as Point, [right, thickness] as Point]]),
  ];
  const standingLine: Point[] = isTongue
    ? [
        [b0, -STANDING],
        [b0, 0],
        [s0, 0],
        [s0, end],
        [s1, end],
        [s1, 0],
        [b1, 0],
        [b1, -STANDING],
      ]
    : [
        [s0, -STANDING],
        [s0, end],
        [s1, end],
        [s1, -STANDING],
      ];
  const shapes: Shape[] = [
    hatch(solid, "falling", SPACING),
    hatch(entering, "rising", SPACING),
    lines("outline", taker.flatMap(legs)),
    lines("outline", legs(standingLine)),
  ];
  const toEdge: Span[] = [
    ...(edges[0] === null || isOpen.left ? [] : [[left, groove[0]] as const]),
    ...(edges[1] === null || isOpen.right ? [] : [[groove[1], right] as const]),
  ];
  const across = drawDimensions("below", thickness, [{ kind: "spans", spans: [groove, ...toEdge] }], style);
  const deep = drawDimensions(
    "right",
    right,
    [
      {
        kind: "spans",
        spans: [
          [0, depth],
          [depth, thickness],
        ],
      },
    ],
    style,
  );
  const over = drawDimensions("above", -STANDING, [{ kind: "spans", spans: [standing] }], style);
  const dimensions = [across, deep, over];
  const box = unionOf([
    { x: left, y: -STANDING, width: right - left, height: STANDING + thickness },
    ...dimensions.flatMap(({ boxes }) => boxes),
  ]);
  const title = setLines(words(titleOf(detail), TEXT, "bold"), width);
  const told = setLines(words(measuredWords(set, detail), TEXT), width);
  const top = title.height + told.height + 4;
  return {
    width: Math.max(width, box.width + STROKES),
    height: top + box.height,
    baseline: title.baseline,
    shapes: [
      group(title.shapes, { move: [0, 0] }),
      group(told.shapes, { move: [0, title.height + 1] }),
      group([...shapes, ...dimensions.flatMap((one) => one.shapes)], { move: [STROKES - box.x, top - box.y] }),
    ],
  };
}

/** An open run of points as the lines between them. */
const legs = (points: Point[]): [Point, Point][] => points.slice(1).map((point, i) => [points[i]!, point]);

/** Ends in a colon: the stock under it may begin with a figure. */
const titleOf = ({ takers, enters, kind }: Detail): string =>
  `In ${takers.join(", ")}, ${kind} for ${enters.join(", ")}:`;

function measuredWords(set: DryfitSet, { stock, loose, depth, end }: Detail): string {
  const { unit } = set.job;
  const said = (length: Mm): string => formatLengthWithUnit(length, unit);
  const { name, thickness, readings } = stockOf(set, stock);
  const taken = readings.length === 0 ? "taken" : "measured";
  const clear = isSame(end, depth) ? "" : `, ${said(depth - end)} clear at the end`;
  return `${name}, ${taken} as ${said(thickness)}; ${said(loose)} of play${clear}`;
}
