/** Loose shelves in the views of a case: the rows of holes that they may lie at, and what they leave clear where they are drawn. */
import { type Box, boxToInner, boxToOuter, type Place } from "../../base/geometry.ts";
import type { Mm } from "../../base/length.ts";
import { listInWords } from "../../base/words.ts";
import { circleSteps, lines, stroke } from "../../paper/draw.ts";
import type { Point, Shape } from "../../paper/shape.ts";
import type { DryfitSet, SetAssembly, SetOpening, SetPart } from "../../set/schema.ts";
import { byMark, partOf } from "../../set/words.ts";
import { type Atom, figure, TEXT, words } from "../draughting/cell.ts";
import { clean } from "../draughting/dimension.ts";
import { figuresInWords } from "../draughting/figures-in-words.ts";
import type { Picture } from "../draughting/picture.ts";
import type { View } from "../solids/view.ts";

type Hole = { mark: string; box: Box };

/** A bay with the loose shelves in it, lowest first, and the holes of its pins, all in the axes of the case. */
type LooseBay = { opening: SetOpening; shelves: { mark: string; from: Mm; to: Mm }[]; holes: Hole[] };

/** A box of a part's own axes in those of a case, whichever assembly the part is in. */
function inCase(set: DryfitSet, assembly: SetAssembly, part: SetPart, box: Box): Box {
  const own = set.assemblies.find(({ name }) => name === part.assembly)!;
  const inRoom = boxToOuter(own.place as Place, boxToOuter(part.place as Place, box));
  return boxToInner(assembly.place as Place, inRoom);
}

const lowestFirst = <T extends { from: Mm }>(list: T[]): T[] => list.sort((a, b) => a.from - b.from);

function looseBays(set: DryfitSet, assembly: SetAssembly): LooseBay[] {
  const loose = set.parts.filter((part) => part.role === "looseShelf" && part.assembly === assembly.name);
  return set.openings
    .filter((opening) => opening.case === assembly.name)
    .flatMap((opening): LooseBay[] => {
      const inBay = ([lo, hi]: Box): boolean =>
        opening.at[0] < (lo[0] + hi[0]) / 2 &&
        (lo[0] + hi[0]) / 2 < opening.at[0] + opening.width &&
        opening.at[2] < (lo[2] + hi[2]) / 2 &&
        (lo[2] + hi[2]) / 2 < opening.at[2] + opening.height;
      const boxes = loose.map((part) => ({
        part,
        box: inCase(set, assembly, part, [
          [0, 0, 0],
          [part.length, part.width, part.thickness],
        ]),
      }));
      const here = boxes.filter(({ box }) => inBay(box));
      const [first] = here;
      if (first === undefined) return [];
      return [
        {
          opening,
          shelves: lowestFirst(here.map(({ part, box }) => ({ mark: part.mark, from: box[0][2], to: box[1][2] }))),
          holes: pinHoles(set, assembly, first.part, opening),
        },
      ];
    });
}

/** The holes of a bay's pins, in the faces that its shelves lie between. */
function pinHoles(set: DryfitSet, assembly: SetAssembly, shelf: SetPart, opening: SetOpening): Hole[] {
  return set.joints
    .filter((joint) => joint.kind === "pin" && joint.entering === shelf.mark)
    .flatMap(({ receiving, receivingFace }) => {
      const part = partOf(set, receiving);
      return part.features
        .filter(({ kind, face, holds }) => kind === "hole" && face === receivingFace && holds === null)
        .map(({ box }) => ({ mark: part.mark, box: inCase(set, assembly, part, box) }))
        .filter(({ box: [lo, hi] }) => opening.at[2] < lo[2] && hi[2] < opening.at[2] + opening.height);
    });
}

const heightOf = ({ box: [lo, hi] }: Hole): Mm => clean((lo[2] + hi[2]) / 2);

/** From the front each hole is a stroke into the wood beside the bay. */
export function drawPinsFromFront(set: DryfitSet, assembly: SetAssembly, picture: Picture): Shape[] {
  const strokes = new Map<string, readonly [Point, Point]>();
  for (const hole of looseBays(set, assembly).flatMap(({ holes }) => holes)) {
    const y = picture.y(heightOf(hole));
    const [lo, hi] = hole.box;
    // Front and back row lie behind each other.
    strokes.set(`${lo[0].toFixed(3)} ${y.toFixed(3)}`, [
      [picture.x(lo[0]), y],
      [picture.x(hi[0]), y],
    ]);
  }
  return strokes.size === 0 ? [] : [lines("thin", [...strokes.values()])];
}

const LEAST_RADIUS: Mm = 0.3;

/** In a section seen from the right, the holes in what is seen of the wood behind the plane. */
export function drawPinsFromRight(set: DryfitSet, assembly: SetAssembly, view: View, picture: Picture, x: Mm): Shape[] {
  return looseBays(set, assembly)
    .flatMap(({ holes }) => holes)
    .flatMap((hole): Shape[] => {
      const [lo, hi] = hole.box;
      const [u, v] = [(lo[1] + hi[1]) / 2, heightOf(hole)];
      const patches = view.seen.get(hole.mark) ?? [];
      const isSeen = hi[0] < x && patches.some((one) => one.u0 < u && u < one.u1 && one.v0 < v && v < one.v1);
      const radius = Math.max(LEAST_RADIUS, ((hi[2] - lo[2]) / 2) * (picture.x(1) - picture.x(0)));
      return isSeen ? [stroke("thin", circleSteps([picture.x(u), picture.y(v)], radius))] : [];
    });
}

/** Where the shelves of each bay may lie, and what is clear between them as drawn. */
export function looseNotes(set: DryfitSet, assembly: SetAssembly): Atom[][] {
  const { unit } = set.job;
  return looseBays(set, assembly).map(({ opening, shelves, holes }) => {
    const undersides = [...new Set(holes.map((hole) => clean(hole.box[1][2])))].sort((a, b) => a - b);
    const steps = undersides.slice(1).map((at, i) => clean(at - undersides[i]!));
    const edges = [opening.at[2], ...shelves.flatMap(({ from, to }) => [from, to]), opening.at[2] + opening.height];
    const clears = shelves.map((_, i) => [edges[2 * i]!, edges[2 * i + 1]!] as const);
    const all = [...clears, [edges.at(-2)!, edges.at(-1)!] as const].map(([from, to]) => clean(to - from));
    const marks = shelves.map(({ mark }) => mark).sort(byMark);
    return [
      ...words(`${opening.name}:`, TEXT, "bold"),
      ...words(`${listInWords(marks)} loose on pins, drawn dashed; undersides`),
      figure(undersides[0]!, unit),
      ...words("to"),
      figure(undersides.at(-1)!, unit),
      ...(steps[0] === undefined ? [] : [...words("in steps of"), figure(steps[0], unit)]),
      ...words("over the foot of the case; clear as drawn, from below:"),
      ...figuresInWords(all, unit),
    ];
  });
}
