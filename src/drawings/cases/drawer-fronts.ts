/** A case with its drawers closed: the fronts as they stand in it, and a row for each drawer. */
import { boxToInner, boxToOuter, type Place } from "../../base/geometry.ts";
import type { Mm } from "../../base/length.ts";
import { group as groupShapes } from "../../paper/draw.ts";
import type { Rect } from "../../paper/shape.ts";
import type { DryfitSet, SetAssembly, SetDrawer, SetPart } from "../../set/schema.ts";
import { partOf } from "../../set/words.ts";
import { type Block, fitBlocks, unionOf } from "../draughting/block.ts";
import { type Atom, figure, glue, stackBlocks, word, words } from "../draughting/cell.ts";
import { type DimensionStyle, drawDimensions, type Row } from "../draughting/dimension.ts";
import type { Draft } from "../draughting/draft.ts";
import { drawingSpace } from "../draughting/frame.ts";
import { drawView, VIEW_FIGURE } from "../draughting/picture.ts";
import { type Movable, movable } from "../draughting/sharing.ts";
import { stackStretches } from "../draughting/stretch.ts";
import { setTable } from "../draughting/table.ts";
import { captioned } from "../draughting/view-title.ts";
import { FROM_FRONT, viewOf } from "../solids/view.ts";
import { distinct, type Spans } from "./bay-sizes.ts";
import { groupsOf, keyOfCase, nameOfCase, standingSolids } from "./case-group.ts";
import { markView, NO_MARKS, withAbove } from "./marking.ts";

const NOTE_AIR: Mm = 4;

type Front = { drawer: SetDrawer; part: SetPart; x: readonly [Mm, Mm]; z: readonly [Mm, Mm] };

/** The applied fronts before a case, in its own axes. */
function frontsOf(set: DryfitSet, drawn: SetAssembly): Front[] {
  return set.drawers
    .filter((drawer) => drawer.case === drawn.name)
    .map((drawer) => {
      const part = partOf(set, drawer.face);
      const home = set.assemblies.find(({ name }) => name === drawer.assembly)!;
      const room = boxToOuter(
        home.place as Place,
        boxToOuter(part.place as Place, [
          [0, 0, 0],
          [part.length, part.width, part.thickness],
        ]),
      );
      const [lo, hi] = boxToInner(drawn.place as Place, room);
      return { drawer, part, x: [lo[0], hi[0]], z: [lo[2], hi[2]] };
    });
}

function frontsBlock(set: DryfitSet, drawn: SetAssembly, fronts: Front[], ratio: number, withMarks: boolean): Block {
  const view = viewOf(standingSolids(set, drawn, "any"), FROM_FRONT);
  const picture = drawView(view, ratio);
  const style: DimensionStyle = { unit: set.job.unit, ratio, size: VIEW_FIGURE };
  const rows = (spans: Spans, at: (place: Mm) => Mm): Row[] =>
    stackStretches(distinct(spans).map(([a, b]): readonly [Mm, Mm] => [at(a), at(b)])).map((row) => ({
      kind: "spans",
      spans: row,
    }));
  const leftmost = Math.min(...fronts.map(({ x }) => x[0]));
  const isLeft = ({ x }: Front): boolean => x[0] - leftmost < set.job.step;
  const dimensions = [
    drawDimensions(
      "below",
      0,
      rows(
        fronts.map(({ x }) => x),
        picture.x,
      ),
      style,
    ),
    drawDimensions(
      "left",
      0,
      rows(
        fronts.filter(isLeft).map(({ z }) => z),
        picture.y,
      ),
      style,
    ),
    drawDimensions(
      "right",
      picture.box.width,
      rows(
        fronts.filter((one) => !isLeft(one)).map(({ z }) => z),
        picture.y,
      ),
      style,
    ),
  ];
  const marking = withMarks ? markView(view.seen, picture, [], withAbove(picture.box)) : NO_MARKS;
  return captioned(
    {
      shapes: [...picture.shapes, ...dimensions.flatMap((d) => d.shapes), ...marking.shapes],
      box: unionOf([picture.box, ...dimensions.flatMap((d) => d.boxes), ...marking.boxes]),
    },
    "From the front, drawers closed",
    marking.note,
    picture.box,
  );
}

/** Each drawer with its opening, its box and its front. */
function tableOf(set: DryfitSet, fronts: readonly Front[], width: Mm) {
  const { unit } = set.job;
  const by = (...sizes: Mm[]): Atom[] => [
    glue(sizes.flatMap((size, i) => [...(i === 0 ? [] : [word("\u00d7")]), figure(size, unit)])),
  ];
  return setTable(
    [
      { head: "Drawer", grow: 1 },
      { head: "Opening, wide" },
      { head: "Box, wide \u00d7 high \u00d7 deep" },
      { head: "Front, wide \u00d7 high" },
      { head: "Slides" },
    ],
    fronts.map(({ drawer, part }) => {
      const made = (what: string): Mm => drawer.sums.find((sum) => sum.what === what)!.makes;
      return {
        cells: [
          words(`${drawer.assembly}${drawer.keeps === null ? "" : `, ${drawer.keeps}`}`),
          by(drawer.opening.x[1] - drawer.opening.x[0]),
          by(made("width"), made("height"), made("depth")),
          by(part.length, part.width),
          by(drawer.slides.length),
        ],
      };
    }),
    width,
  );
}

function drawFronts(set: DryfitSet, drawn: SetAssembly, space: Rect): Draft[] {
  const fronts = frontsOf(set, drawn);
  if (fronts.length === 0) return [];
  const items = tableOf(set, fronts, space.width);
  const [first] = items;
  const table = stackBlocks([...(first?.head ? [first.head] : []), ...items.map(({ block }) => block)], 0);
  const room: Rect = { ...space, height: space.height - table.height - NOTE_AIR };
  const { shapes, scale } = fitBlocks(set.job.unit, room, (ratio, withMarks) => [
    frontsBlock(set, drawn, fronts, ratio, withMarks),
  ]);
  const name = nameOfCase(set, "Drawer fronts", drawn);
  return [
    {
      key: keyOfCase(set, "drawer-fronts", drawn),
      name,
      bookmark: ["Views", name],
      scale: scale.name,
      projected: true,
      shapes: [...shapes, groupShapes(table.shapes, { move: [space.x, space.y + space.height - table.height] })],
    },
  ];
}

export const drawDrawerFronts = (set: DryfitSet): Movable[] =>
  groupsOf(set, "case").flatMap(({ drawn }) => movable(drawingSpace(set), (space) => drawFronts(set, drawn, space)));
