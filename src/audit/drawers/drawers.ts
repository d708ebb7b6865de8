/** Drawers in their openings: closed, with what is meant to stay free; on their slides; and drawn out to the full, past everything that stands beside them. */
import type { AxisIndex, Box } from "../../base/geometry.ts";
import type { Mm } from "../../base/length.ts";
import type { DryfitSet, SetCheck, SetDrawer } from "../../set/schema.ts";
import { around, drawnOut, otherAxes, sharedBox, sharedBoxes, TOUCH } from "../solids/boxes.ts";
import { roomBox, type Solid } from "../solids/solid.ts";
import { amount, extent, failure, nameOf, where } from "../words.ts";
import { type Drawn, nearest, partsOf, type Standing } from "./drawn.ts";
import { checkSlides } from "./slides.ts";

const ROOM = { name: "the room", origin: [0, 0, 0] as const };

/** What stands beside may lie farther than the opening's own edge by a lap that is not packed out, and by rounding. */
const farther = (step: Mm): Mm => 3 * step + 0.5;

export function checkDrawers(set: DryfitSet, solids: readonly Solid[]): SetCheck[] {
  if (set.drawers.length === 0) return [];
  const standing = solids.map((solid): Standing => {
    const inRoom = (box: Box): Box => roomBox(solid.assembly, set.assemblies, box);
    return { solid, part: solid.part, bounds: inRoom(solid.bounds), cells: solid.cells.map(inRoom) };
  });
  return set.drawers.flatMap((drawer): SetCheck[] => {
    const own = standing.filter(({ part }) => part.assembly === drawer.assembly);
    const face = own.find(({ part }) => part.mark === drawer.face);
    const boxed = own.filter((one) => one !== face);
    if (face === undefined || boxed.length === 0) {
      return [
        failure(
          "drawer",
          own.map(({ part }) => part),
          `${drawer.assembly} has ${face === undefined ? "no applied front" : "no box"}. Change: its parts, or the figures of its drawer.`,
        ),
      ];
    }
    const drawn: Drawn = {
      drawer,
      own,
      others: standing.filter(({ part }) => part.assembly !== drawer.assembly),
      box: around(boxed.map(({ bounds }) => bounds)),
      face,
      job: set.job,
    };
    return [
      ...checkSums(drawn),
      ...checkBox(drawn),
      ...checkFree(drawn),
      ...checkClearance(drawn),
      ...checkFront(drawn),
      ...checkSlides(drawn, set),
      ...checkTravel(drawn, set),
    ];
  });
}

const SIZES = { width: 0, height: 2, depth: 1 } as const;

/** "Opening - clearance = box", figure by figure against the solids. */
function checkSums(drawn: Drawn): SetCheck[] {
  const { drawer, box, job, own } = drawn;
  const inside = insideOf(own);
  return drawer.sums.flatMap(({ what, whole, less, makes }) => {
    const taken = less.reduce((sum, { size }) => sum + size, 0);
    const found = what === "inside" ? inside : box[1][SIZES[what]] - box[0][SIZES[what]];
    if (Math.abs(whole - taken - makes) < TOUCH && Math.abs(found - makes) < TOUCH) return [];
    return failure(
      "drawer-sum",
      partsOf(drawn),
      `The ${what} of ${drawer.assembly} is reckoned as ${amount(whole, job)} less ${amount(taken, job)}, ${amount(makes, job)}, but its box measures ${amount(found, job)}. Change: the sum, or the box.`,
    );
  });
}

/** The walls of a box end level above, and below but for a back that its bottom is slid in under. */
function checkBox(drawn: Drawn): SetCheck[] {
  const { own, box, face, job, drawer } = drawn;
  const walls = own.filter((one) => one !== face && one.part.role !== "drawerBottom");
  return walls.flatMap(({ part, bounds }) => {
    const over = box[1][2] - bounds[1][2];
    const under = part.role === "drawerBack" ? 0 : bounds[0][2] - box[0][2];
    const off = Math.max(over, under);
    if (off <= TOUCH) return [];
    const outermost = walls.filter(({ bounds: other }) =>
      over > TOUCH ? box[1][2] - other[1][2] < TOUCH : other[0][2] - box[0][2] < TOUCH,
    );
    return failure(
      "drawer-box",
      [part, ...outermost.map((one) => one.part)],
      `The ${over > TOUCH ? "upper" : "lower"} edge of ${nameOf(part)} of ${drawer.assembly} is ${amount(off, job)} off those of the walls beside it. Change: its width, or where it stands.`,
    );
  });
}

/** Clear between the two sides of a box. */
function insideOf(own: readonly Standing[]): Mm {
  const sides = own.filter(({ part }) => part.role === "drawerSide").sort((a, b) => a.bounds[0][0] - b.bounds[0][0]);
  return (sides.at(-1)?.bounds[0][0] ?? 0) - (sides[0]?.bounds[1][0] ?? 0);
}

const WAYS = [
  { key: "left", words: "at its left", axis: 0, sign: -1 },
  { key: "right", words: "at its right", axis: 0, sign: 1 },
  { key: "below", words: "below it", axis: 2, sign: -1 },
  { key: "above", words: "above it", axis: 2, sign: 1 },
  { key: "behind", words: "behind it", axis: 1, sign: 1 },
] as const;

/** What is said to be free round the box is: nothing stands nearer, and the wood it is measured to is there. */
function checkFree(drawn: Drawn): SetCheck[] {
  const { drawer, box, job, others } = drawn;
  // On all of its way out; where the fronts of others are is judged at their edges.
  const way = drawnOut(box, 1, box[0][1] - drawer.slides.length, box[1][1]);
  const wood = others.filter(({ part }) => part.role !== "drawerFace");
  return WAYS.flatMap(({ key, words, axis, sign }) => {
    // A box on runners stands on them.
    const stands = key === "below" && drawer.slides.kind === "wooden runners";
    const told = stands ? 0 : drawer.free[key];
    const next = key === "behind" ? nearest(box, axis, sign, others) : nearest(way, axis, sign, wood);
    const least = key === "behind" ? drawer.slides.rear : 0;
    if (next === null) {
      if (key === "behind" && told >= least - TOUCH) return [];
      return failure(
        "drawer-free",
        partsOf(drawn),
        `${drawer.assembly} has nothing ${words}. Change: its place, or the case.`,
      );
    }
    const most = key === "behind" ? TOUCH : farther(job.step);
    if (told >= least - TOUCH && next.gap >= told - TOUCH && next.gap <= told + most) return [];
    return failure(
      "drawer-free",
      [...partsOf(drawn), next.part],
      `${drawer.assembly} is said to have ${amount(told, job)} free ${words}${least > 0 ? `, of which ${amount(least, job)} are needed` : ""}; ${nameOf(next.part)} stands ${amount(next.gap, job)} from it. Change: the box's size or place, or the figure.`,
    );
  });
}

/** Slides take up what they take up. */
function checkClearance(drawn: Drawn): SetCheck[] {
  const { drawer, box, job, own } = drawn;
  const { kind, clearance } = drawer.slides;
  const [left, right] = drawer.opening.x;
  const most = clearance + 2 * job.step;
  const tell = (found: Mm, what: string, remedy: string): SetCheck[] =>
    found >= clearance - TOUCH && found <= most + TOUCH
      ? []
      : [
          failure(
            "drawer-clearance",
            partsOf(drawn),
            `${drawer.assembly} has ${amount(found, job)} ${what}; ${kind === "wooden runners" ? "a box on runners takes" : `${kind} slides take`} ${amount(clearance, job)}. Change: ${remedy} by ${amount(Math.abs(found - clearance), job)}.`,
          ),
        ];
  const make = (found: Mm): string => `make the box ${found < clearance ? "narrower" : "wider"}`;
  if (kind === "undermount") {
    const taken = right - left - insideOf(own);
    return tell(taken, "between the opening's width and the inside of its box", make(taken));
  }
  const [a, b] = [box[0][0] - left, right - box[1][0]];
  return [...tell(a, "free at its left", make(a)), ...tell(b, "free at its right", make(b))];
}

const EDGES = [
  { words: "left", axis: 0, sign: -1 },
  { words: "right", axis: 0, sign: 1 },
  { words: "lower", axis: 2, sign: -1 },
  { words: "upper", axis: 2, sign: 1 },
] as const;

/** An inset front has its gap all round and is flush with what is round it; an overlay front lies on it, and covers it. */
function checkFront(drawn: Drawn): SetCheck[] {
  const { drawer, face, job, others } = drawn;
  const { fit, gap, overlap } = drawer.front;
  const parts = [face.part];
  const fronts = others.filter(({ part }) => part.role === "drawerFace");
  const tell = (text: string): SetCheck => failure("drawer-front", parts, text);
  const plane = face.bounds[fit === "inset" ? 0 : 1][1];
  const flush =
    Math.abs(plane - drawer.opening.front) < TOUCH
      ? []
      : [
          tell(
            `${nameOf(face.part)} of ${drawer.assembly} ${fit === "inset" ? "is not flush with" : "does not lie on"} what is round its opening: ${amount(plane - drawer.opening.front, job)} off. Change: where it stands, or its thickness.`,
          ),
        ];
  const edges = EDGES.flatMap(({ words, axis, sign }) => {
    const outer = isOuter(drawer, axis, sign);
    if (fit === "inset" || !outer) {
      const next = nearest(face.bounds, axis, sign, fit === "inset" ? others : fronts);
      const found = next?.gap ?? Number.POSITIVE_INFINITY;
      // An edge is rounded away from its gap, and so is the next front's; a rail may lie half a step off its shelf.
      const most = gap + (outer ? 1.5 : 2) * job.step + (outer ? TOUCH : -TOUCH);
      if (found >= gap - TOUCH && found <= most) return [];
      return tell(
        `The ${words} edge of ${nameOf(face.part)} of ${drawer.assembly} has ${next === null ? "nothing beside it" : `${amount(found, job)} to ${nameOf(next.part)}`}, where its gap is ${amount(gap, job)}. Change: the front's size or place.`,
      );
    }
    const edge = face.bounds[sign === 1 ? 1 : 0][axis];
    const opening = (axis === 0 ? drawer.opening.x : drawer.opening.z)[sign === 1 ? 1 : 0];
    const covers = (edge - opening) * sign;
    if (covers <= overlap + TOUCH && covers >= overlap - 1.5 * job.step - TOUCH) return [];
    return tell(
      `The ${words} edge of ${nameOf(face.part)} of ${drawer.assembly} covers ${amount(covers, job)} of what is round its opening, where it is to cover ${amount(overlap, job)}. Change: the front's size or place.`,
    );
  });
  return [...flush, ...edges];
}

/** Whether an edge of the front lies at the opening's own, and not at the next front. */
const isOuter = ({ place, of }: SetDrawer, axis: AxisIndex, sign: 1 | -1): boolean =>
  axis === 0 || (sign === 1 ? place === of : place === 1);

/** Drawn out to the full: nothing of the drawer passes through wood. Doors stand open for it. */
function checkTravel(drawn: Drawn, set: DryfitSet): SetCheck[] {
  const { drawer, own, others, job } = drawn;
  const assembly = set.assemblies.find(({ name }) => name === drawer.assembly)!;
  const { travel } = assembly;
  if (travel.kind !== "pull" || travel.axis !== "-y" || travel.range[1] < drawer.slides.length - TOUCH) {
    return [
      failure(
        "drawer-travel",
        partsOf(drawn),
        `${drawer.assembly} is not said to come out by the ${amount(drawer.slides.length, job)} of its slides. Change: its travel.`,
      ),
    ];
  }
  const doors = new Set(set.assemblies.filter(({ kind }) => kind === "door").map(({ name }) => name));
  const still = others.filter(({ part }) => !doors.has(part.assembly));
  return own.flatMap(({ part, bounds, cells }) => {
    const swept = (box: Box): Box => drawnOut(box, 1, box[0][1] - travel.range[1], box[1][1]);
    const way = swept(bounds);
    return still
      .filter((other) => sharedBox(other.bounds, way) !== null)
      .flatMap((other) => {
        const hit = sharedBoxes(cells.map(swept), other.cells);
        if (hit.length === 0) return [];
        const region = around(hit);
        const [a, b] = otherAxes(1);
        const by = Math.min(region[1][a] - region[0][a], region[1][b] - region[0][b]);
        return failure(
          "drawer-travel",
          [part, other.part],
          `Drawn out, ${nameOf(part)} of ${drawer.assembly} meets ${nameOf(other.part)} ${where(region, ROOM, job)}: ${extent(region, job)} in the way. Change: make the drawer smaller there by ${amount(by, job)}, or the opening larger.`,
        );
      });
  });
}
