/**
 * A face frame's upper corner at full size, with the case behind it as measured: cut level through the joint of stile and top rail, and
 * cut upright through top rail and bottom rail with what they cover; before several cases cut level through the stile over each joint as
 * well. The corner at the left, or at the right where only that has a return. The front lies below, or to the left.
 */
import { AXES, type Box, boxToOuter, intersectBoxes, type Place, type Vec } from "../../base/geometry.ts";
import { type Mm, SAME } from "../../base/length.ts";
import { listInWords } from "../../base/words.ts";
import { rect } from "../../paper/draw.ts";
import type { Rect, Shape } from "../../paper/shape.ts";
import type { DryfitSet, SetAssembly, SetFeature, SetPart } from "../../set/schema.ts";
import { behindFrame } from "../../set/standing.ts";
import { groupsOf } from "../cases/case-group.ts";
import { arrange, type Block, columnOf, type Placed, unionOf } from "../draughting/block.ts";
import { type DimensionStyle, drawDimensions, type Row, type Side } from "../draughting/dimension.ts";
import type { FullSizeDraft } from "../draughting/full-size.ts";
import { drawView, VIEW_FIGURE } from "../draughting/picture.ts";
import { mitresIn } from "../draughting/shaped.ts";
import { captioned } from "../draughting/view-title.ts";
import { solidOf, subtractBoxes } from "../solids/solid.ts";
import { type Direction, viewOf } from "../solids/view.ts";

const LEVEL: Direction = { u: "+x", v: "+y", away: "-z" };
const UPRIGHT: Direction = { u: "+y", v: "+z", away: "-x" };
const BEHIND: Mm = 26; // of the case, behind the frame
const BESIDE: Mm = 28; // of the rail, beside the stile
const HIGH: Mm = 60; // of what is cut upright
const NAME = "Sticks: corner of the face frame at full size";

type Span = readonly [Mm, Mm];
/** A part in the room. */
type Member = { part: SetPart; box: Box; boxes: Box[]; out: (own: Box) => Box };

export function drawFrameCorners(set: DryfitSet, space: Rect): FullSizeDraft[] {
  return groupsOf(set, "frame").flatMap(({ drawn }, i) => {
    const pages = pagesOf(blocksOf(set, drawn), space);
    return pages.map(({ shapes }, n) => ({
      key: `frame-corner-${i + 1}-${n + 1}`,
      title: pages.length === 1 ? NAME : `${NAME}, ${n + 1} of ${pages.length}`,
      bookmark: ["Sticks", NAME],
      shapes,
    }));
  });
}

/** As many blocks on a page as it holds; what is larger than any page is left to the other drawings. */
function pagesOf(blocks: readonly Block[], space: Rect): Placed[] {
  const [corner, ...rails] = blocks as [Block, ...Block[]];
  const beside = arrange([corner, ...columnOf(rails)], space);
  if (beside !== null) return [beside];
  const pages: Block[][] = [];
  for (const block of blocks) {
    const last = pages.at(-1);
    if (last !== undefined && arrange([...last, block], space) !== null) last.push(block);
    else pages.push([block]);
  }
  return pages.flatMap((page) => arrange(page, space) ?? []);
}

function memberOf({ place }: SetAssembly, part: SetPart): Member {
  const out = (box: Box): Box => boxToOuter(place as Place, boxToOuter(part.place as Place, box));
  const whole: Box = [
    [0, 0, 0],
    [part.length, part.width, part.thickness],
  ];
  const mitres = mitresIn(part);
  const square = mitres.map(({ box: [lo, hi] }): Box => [lo, hi]);
  const boxes = [
    ...(square.length === 0 ? solidOf(part) : solidOf(part).flatMap((box) => subtractBoxes(box, square))),
    ...mitres.flatMap(levelsOf),
  ];
  return { part, box: out(whole), boxes: boxes.map(out), out };
}

/** At full size a slope in so many levels is a line: each is less than half a pen. */
const LEVELS = 128;

/** What a mitre leaves of its corner, level by level from the point. */
function levelsOf({ outline, box: [lo, hi] }: SetFeature): Box[] {
  const [point, heel] = outline as [[Mm, Mm], [Mm, Mm]];
  const [dw, dt] = [(heel[0] - point[0]) / LEVELS, (heel[1] - point[1]) / LEVELS];
  return Array.from({ length: LEVELS }, (_, i): Box => {
    const [w, t] = [point[0] + (i + 0.5) * dw, point[1] + i * dt];
    return [
      [lo[0], Math.min(w, heel[0]), Math.min(t, t + dt)],
      [hi[0], Math.max(w, heel[0]), Math.max(t, t + dt)],
    ];
  });
}

function blocksOf(set: DryfitSet, frame: SetAssembly): Block[] {
  const row = behindFrame(frame, set.assemblies);
  const own = (key: string): Member | undefined => {
    const part = set.parts.find((one) => one.key === `${frame.name}/${key}`);
    return part && memberOf(frame, part);
  };
  const returned = set.returns.filter((one) => one.frame === frame.name).map(({ side }) => side);
  const hand = returned.length === 1 ? returned[0]! : "left";
  const end = hand === "left" ? row[0]! : row.at(-1)!;
  const inCase = (key: string, behind: SetAssembly = end): Member | undefined => {
    const part = set.parts.find((one) => one.key === `${behind.name}/${key}`);
    return part && memberOf(behind, part);
  };
  const [stile, rail, side] = [own(`stile-${hand}`)!, own("rail-top")!, inCase(`side-${hand}`)!];
  const bottom = own("rail-bottom");
  const cover = inCase("top") ?? inCase("stretcher-front")!;
  const joints = row.slice(1).map((next, i) => {
    const sides = [inCase("side-right", row[i]), inCase("side-left", next)];
    return jointBlock(
      set,
      own(`${next.name}/stile-joint`)!,
      sides.filter((one) => one !== undefined),
    );
  });
  return [
    cornerBlock(set, { stile, rail, side }, hand, returnAt(set, stile)),
    railBlock(set, rail, cover, "top"),
    ...(bottom === undefined ? [] : [railBlock(set, bottom, inCase("bottom")!, "bottom")]),
    ...joints,
  ];
}

/** What goes round the corner there. */
function returnAt(set: DryfitSet, { part }: Member): Member[] {
  const told = set.returns.find(({ stile }) => stile === part.mark);
  const own = set.parts.find(({ mark }) => mark === told?.mark);
  const assembly = set.assemblies.find(({ name }) => name === told?.assembly);
  return own === undefined || assembly === undefined ? [] : [memberOf(assembly, own)];
}

const styleOf = (set: DryfitSet): DimensionStyle => ({ unit: set.job.unit, ratio: 1, size: VIEW_FIGURE });
/** What rounding leaves is no figure to work to. */
const isSpan = ([a, b]: Span, step: Mm): boolean => b - a > step - SAME;

/** What of the members lies in a window, seen and cut so, with dimensions round it. */
function section(
  set: DryfitSet,
  members: readonly Member[],
  window: Box,
  { direction, at, dims, hidden }: { direction: Direction; at: Mm; dims: [Side, Span[][]][]; hidden: Box[] },
  [title, subtitle]: [string, string],
): Block {
  const solids = members.map(({ part, boxes }) => ({
    mark: part.mark,
    boxes: boxes.map((box) => intersectBoxes(box, window, SAME)).filter((box): box is Box => box !== null),
  }));
  const picture = drawView(viewOf(solids, direction, -at), 1);
  const isLevel = direction === LEVEL;
  const across = (a: Mm): Mm => picture.x(a);
  const rectOf = (box: Box): Rect => {
    const [u, v] = isLevel ? ([0, 1] as const) : ([1, 2] as const);
    const [y0, y1] = [picture.y(box[1][v]), picture.y(box[0][v])];
    return { x: across(box[0][u]), y: y0, width: box[1][u] - box[0][u], height: y1 - y0 };
  };
  const laid = dims.map(([side, rows]) => {
    const level = side === "above" || side === "below";
    const paper = ([a, b]: Span): Span => (level ? [across(a), across(b)] : [picture.y(b), picture.y(a)]);
    const edge = { above: picture.box.y, below: 0, left: 0, right: picture.box.width }[side];
    const list = rows.map(
      (spans): Row => ({ kind: "spans", spans: spans.filter((one) => isSpan(one, set.job.step)).map(paper) }),
    );
    return drawDimensions(side, edge, list, styleOf(set));
  });
  const shapes: Shape[] = [
    ...picture.shapes,
    ...hidden.map((box) => rect("hidden", rectOf(box))),
    ...laid.flatMap((one) => one.shapes),
  ];
  return captioned({ shapes, box: unionOf([picture.box, ...laid.flatMap(({ boxes }) => boxes)]) }, title, subtitle);
}

const around = (boxes: readonly Box[], by: readonly [Vec, Vec]): Box => {
  const lo = AXES.map((axis) => Math.min(...boxes.map((box) => box[0][axis])) + by[0][axis]);
  const hi = AXES.map((axis) => Math.max(...boxes.map((box) => box[1][axis])) + by[1][axis]);
  return [lo as unknown as Vec, hi as unknown as Vec];
};

/** What lies in a joint and is no other part's wood: a hole for a dowel, a mortise for a loose tenon; or the walls of a stub's, and a lap. */
const cutIn = ({ part, out }: Member, holds: string, kinds: readonly SetFeature["kind"][]): Box[] =>
  part.features
    .filter((feature) => feature.holds === holds && kinds.includes(feature.kind))
    .map(({ box: [lo, hi] }) => out([lo, hi]));

function cornerBlock(
  set: DryfitSet,
  { stile, rail, side }: Record<"stile" | "rail" | "side", Member>,
  hand: "left" | "right",
  returns: readonly Member[],
): Block {
  const loose = (one: Member, other: Member): Box[] => cutIn(one, other.part.mark, ["hole", "mortise"]);
  const walls = [...loose(stile, rail), ...cutIn(stile, rail.part.mark, ["stub mortise", "lap"])];
  const highest = (boxes: readonly Box[]): Box | undefined => [...boxes].sort((a, b) => b[1][2] - a[1][2])[0];
  const first = highest(loose(stile, rail));
  const at = first === undefined ? (rail.box[0][2] + rail.box[1][2]) / 2 : (first[0][2] + first[1][2]) / 2;
  const crossed = [...loose(stile, rail), ...loose(rail, stile)].filter(([lo, hi]) => lo[2] < at && hi[2] > at);
  const [front, rear] = [stile.box[0][1], stile.box[1][1]];
  const [left, right] = [stile.box[0][0], stile.box[1][0]];
  const window: Box = [
    [left - (hand === "left" ? 0 : BESIDE), front, stile.box[0][2]],
    [right + (hand === "left" ? BESIDE : 0), rear + BEHIND, stile.box[1][2]],
  ];
  const wall = highest(walls);
  const through: Span[] =
    wall === undefined
      ? []
      : [
          [front, wall[0][1]],
          [wall[0][1], wall[1][1]],
          [wall[1][1], rear],
        ];
  const deep: Span[] = crossed.map((box): Span => [box[0][0], box[1][0]]);
  const stub = cutIn(stile, rail.part.mark, ["stub mortise"]).map((box): Span => [box[0][0], box[1][0]]);
  const joint = set.joints.find(
    ({ entering, receiving }) => entering === rail.part.mark && receiving === stile.part.mark,
  );
  return section(
    set,
    [stile, rail, side, ...returns],
    window,
    {
      direction: LEVEL,
      at,
      hidden: crossed,
      dims: [
        [
          "below",
          [
            [
              [left, side.box[0][0]],
              [side.box[0][0], side.box[1][0]],
              [side.box[1][0], right],
            ],
            [[left, right]],
          ],
        ],
        ["above", [[...deep, ...stub.slice(0, 1)]]],
        [hand, [[[front, rear]]]],
        [hand === "left" ? "right" : "left", [through]],
      ],
    },
    [
      `Stile ${stile.part.mark}, rail ${rail.part.mark} and side ${side.part.mark}${returns
        .map(
          ({ part }) => `, return ${part.mark} (letter ${set.returns.find(({ mark }) => mark === part.mark)!.mating})`,
        )
        .join("")}`,
      `cut level at joint ${joint?.mating ?? ""}, the front below`,
    ],
  );
}

/** The stile over the joint of two cases, with their sides, or the one that they share; cut where nothing ends on it. */
function jointBlock(set: DryfitSet, stile: Member, sides: readonly Member[]): Block {
  const [[left, front, low], [right, rear, high]] = stile.box;
  const isClear = (z: Mm): boolean =>
    [stile, ...sides].every(({ box, boxes }) =>
      boxes.some(([lo, hi]) => lo[2] < z && hi[2] > z && hi[0] - lo[0] > box[1][0] - box[0][0] - SAME),
    );
  const places = SHARES.map((share) => low + share * (high - low));
  const edges = [left, ...sides.flatMap(({ box }) => [box[0][0], box[1][0]]), right].sort((a, b) => a - b);
  return section(
    set,
    [stile, ...sides],
    [
      [left, front, low],
      [right, rear + BEHIND, high],
    ],
    {
      direction: LEVEL,
      at: places.find(isClear) ?? places[0]!,
      hidden: [],
      dims: [
        ["below", [edges.slice(1).map((edge, i): Span => [edges[i]!, edge]), [[left, right]]]],
        ["left", [[[front, rear]]]],
      ],
    },
    [
      `Stile ${stile.part.mark} over ${sides.length === 1 ? "the shared side" : "sides"} ${listInWords(sides.map(({ part }) => part.mark))}`,
      "cut level, the front below",
    ],
  );
}

/** Where along the rail it is cut: where no groove for a divider, and no joint, lies. */
const SHARES: readonly number[] = [0.3, 0.2, 0.4, 0.1, 0.6, 0.7, 0.8, 0.9];
const isWhole = ({ box, boxes }: Member, x: Mm): boolean =>
  boxes.some(([lo, hi]) => lo[0] < x - 1 && hi[0] > x + 1 && lo[2] < box[0][2] + SAME && hi[2] > box[1][2] - SAME);

/** Top rail or bottom rail with what it covers. */
function railBlock(set: DryfitSet, rail: Member, cover: Member, which: "top" | "bottom"): Block {
  const [front, rear] = [rail.box[0][1], rail.box[1][1]];
  const [low, high] = [rail.box[0][2], rail.box[1][2]];
  const from = which === "top" ? Math.max(low, high - HIGH) : Math.max(Math.min(low, cover.box[0][2]), high - HIGH);
  const [left, right] = [Math.max(rail.box[0][0], cover.box[0][0]), Math.min(rail.box[1][0], cover.box[1][0])];
  const places = SHARES.map((share) => left + share * (right - left));
  const at = places.find((x) => isWhole(rail, x) && isWhole(cover, x)) ?? places[0]!;
  const window = around(
    [
      [
        [at - 1, front, from],
        [at + 1, rear + BEHIND, Math.max(high, cover.box[1][2])],
      ],
    ],
    [
      [0, 0, which === "top" && cover.box[0][2] < from ? cover.box[0][2] - from : 0],
      [0, 0, 0],
    ],
  );
  // Where it is broken off, or shaped, nothing is to be measured below.
  const behind: Span[] = [
    ...(which === "top" && from < low + SAME ? [[low, cover.box[0][2]] as const] : []),
    [cover.box[0][2], cover.box[1][2]],
    [cover.box[1][2], high],
  ];
  return section(
    set,
    [rail, cover],
    window,
    {
      direction: UPRIGHT,
      at,
      hidden: [],
      dims: [
        ["below", [[[front, rear]]]],
        ["left", from > low + SAME ? [] : [[[low, high]]]],
        ["right", [behind]],
      ],
    },
    [
      `Rail ${rail.part.mark} and ${cover.part.name} ${cover.part.mark}`,
      from > low + SAME ? "cut upright, the front at the left; broken off below" : "cut upright, the front at the left",
    ],
  );
}
