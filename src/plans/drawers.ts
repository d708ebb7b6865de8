/** Drawers as the set tells them: what each was made for, what stays free round it, and the sums that its maker checks. */
import type { Mm } from "../base/length.ts";
import type { Drawer } from "../model/drawers/drawer.ts";
import type { AssemblyModel, Model } from "../model/model.ts";
import { DRAWER_FILL } from "../project/defaults.ts";
import type { Drawers } from "../project/drawers.ts";
import type { SetDrawer, SetPart } from "../set/schema.ts";

type Drawn = AssemblyModel & { drawer: Drawer; design: { drawers: Drawers } };

const isDrawer = (one: AssemblyModel): one is Drawn => one.drawer !== null && one.design.drawers !== null;

export function planDrawers({ assemblies }: Model, parts: readonly SetPart[]): SetDrawer[] {
  const drawers = assemblies.filter(isDrawer);
  return drawers.map((one): SetDrawer => {
    const { drawer, design } = one;
    const { slides, front, load } = design.drawers;
    const stack = drawers.filter(
      (other) =>
        other.drawer.case === drawer.case &&
        other.drawer.opening.x[0] === drawer.opening.x[0] &&
        other.drawer.opening.z[0] === drawer.opening.z[0],
    );
    const own = parts.filter(({ assembly }) => assembly === one.name);
    const free = freeRound(one, stack, assemblies);
    return {
      assembly: one.name,
      case: drawer.case,
      place: drawer.place,
      of: drawer.of,
      keeps: drawer.name,
      opening: {
        x: [...drawer.opening.x],
        z: [...drawer.opening.z],
        front: drawer.opening.front,
        rear: drawer.opening.rear,
      },
      slides: {
        kind: slides.kind,
        length: drawer.slide.length,
        from: drawer.slide.from,
        clearance: slides.clearance,
        rear: slides.rear,
        rating: slides.rating,
      },
      front: { fit: front.fit, gap: front.gap, overlap: front.fit === "inset" ? 0 : front.overlap },
      free,
      sums: sumsOf(one, stack, free),
      load: load ?? DRAWER_FILL * roomIn(own),
      sides: own.find(({ role }) => role === "drawerSide")!.thickness,
      face: own.find(({ role }) => role === "drawerFace")!.mark,
    };
  });
}

/** Inside of the box over its bottom, mm3. */
function roomIn(parts: readonly SetPart[]): number {
  const of = (role: SetPart["role"]): SetPart => parts.find((part) => part.role === role)!;
  const [side, front, back, bottom] = [of("drawerSide"), of("drawerFront"), of("drawerBack"), of("drawerBottom")];
  const between = (one: SetPart): Mm => one.sums.find(({ axis }) => axis === "l")!.between;
  const deep = side.length - front.thickness - back.thickness;
  const under = bottom.place!.at[2] + bottom.thickness - side.place!.at[2];
  return between(front) * deep * (side.width - under);
}

const isOver = (one: Drawn, other: Drawn): boolean => other.drawer.place === one.drawer.place - 1;

/** A box's own runners lie under it and carry it: what is free below them is told by the one under it. */
function freeRound(one: Drawn, stack: readonly Drawn[], assemblies: readonly AssemblyModel[]): SetDrawer["free"] {
  const { box, opening } = one.drawer;
  const runner = runnerOf(one, assemblies);
  const under = stack.find((other) => isOver(one, other));
  const over = stack.find((other) => isOver(other, one));
  const ceiling = over === undefined ? opening.z[1] : over.drawer.box.z[0] - runner;
  const floor = under === undefined ? opening.z[0] : under.drawer.box.z[1];
  return {
    left: box.x[0] - opening.x[0],
    right: opening.x[1] - box.x[1],
    below: box.z[0] - runner - floor,
    above: ceiling - box.z[1],
    behind: opening.rear - box.y[1],
  };
}

/** How thick what lies under a box is that runs on wood. */
function runnerOf({ design }: Drawn, assemblies: readonly AssemblyModel[]): Mm {
  if (design.drawers.slides.kind !== "wooden runners") return 0;
  const [runner] = assemblies
    .filter((one) => one.design === design)
    .flatMap(({ parts }) => parts.filter(({ role }) => role === "runner"));
  return runner === undefined ? 0 : runner.box[1][2] - runner.box[0][2];
}

/** Width from the opening; depth from what is clear behind; the height of a whole stack on its lowest drawer's page. */
function sumsOf(one: Drawn, stack: readonly Drawn[], free: SetDrawer["free"]): SetDrawer["sums"] {
  const { box, opening } = one.drawer;
  const { slides } = one.design.drawers;
  const wide = box.x[1] - box.x[0];
  const beside = slides.kind === "wooden runners" ? "play" : slides.kind === "undermount" ? "beside the box" : "slide";
  const stacked = [...stack].sort((a, b) => a.drawer.place - b.drawer.place);
  return [
    {
      what: "width",
      whole: opening.x[1] - opening.x[0],
      less: [
        { what: `${beside}, left`, size: free.left },
        { what: `${beside}, right`, size: free.right },
      ],
      makes: wide,
    },
    ...(slides.kind === "undermount" ? [insideSum(one)] : []),
    {
      what: "height",
      whole: opening.z[1] - opening.z[0],
      less: [
        ...stacked.flatMap((each, i) => {
          const { z } = each.drawer.box;
          const below = i === 0 ? opening.z[0] : stacked[i - 1]!.drawer.box.z[1];
          const gap = { what: i === 0 ? "below" : "between", size: z[0] - below };
          return each === one ? [gap] : [gap, { what: `drawer ${each.drawer.place}`, size: z[1] - z[0] }];
        }),
        { what: "above", size: opening.z[1] - stacked.at(-1)!.drawer.box.z[1] },
      ],
      makes: box.z[1] - box.z[0],
    },
    {
      what: "depth",
      whole: opening.rear - box.y[0],
      less: [{ what: "free behind", size: free.behind }],
      makes: box.y[1] - box.y[0],
    },
  ];
}

/** Undermount slides are reckoned to the inside of the box. */
function insideSum({ parts, drawer }: Drawn): SetDrawer["sums"][number] {
  const [left, right] = parts.filter(({ role }) => role === "drawerSide").map(({ box }) => box);
  const makes = right![0][0] - left![1][0];
  const whole = drawer.opening.x[1] - drawer.opening.x[0];
  return { what: "inside", whole, less: [{ what: "undermount slides", size: whole - makes }], makes };
}
