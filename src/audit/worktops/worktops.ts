/** Worktops as they are told to be: lying on what carries them, standing out as stated, free to move from one line alone. */
import { isSame, type Mm } from "../../base/length.ts";
import type { DryfitSet, SetCheck } from "../../set/schema.ts";
import { TOUCH } from "../solids/boxes.ts";
import { faceTowards, type Solid } from "../solids/solid.ts";
import { amount, failure, failureOf, nameOf } from "../words.ts";
import { checkGluedBoards, checkScrews } from "./worktop-screws.ts";
import { type Top, topOf } from "./worktop-top.ts";

export function checkWorktops(set: DryfitSet, solids: readonly Solid[]): SetCheck[] {
  const missing = set.assemblies
    .filter(({ kind, name }) => kind === "worktop" && !set.worktops.some(({ assembly }) => assembly === name))
    .map(({ name }) => failureOf("worktop", [], `Nothing says how ${name} is screwed down. Change: tell its screws.`));
  return [
    ...missing,
    ...set.worktops.flatMap((told) => {
      const solid = solids.find(({ part }) => part.mark === told.mark);
      if (solid === undefined)
        return [
          failureOf(
            "worktop",
            [told.mark, ...new Set(told.screws.flatMap(({ through }) => through))],
            `${told.assembly} has no part ${told.mark}. Change: its mark.`,
          ),
        ];
      const top = topOf(set, told, solid, solids);
      return [
        ...checkLies(set, top),
        ...checkOverhang(set, top),
        ...checkMoves(set, top),
        ...checkEdges(set, top),
        ...checkScrews(set, top),
        ...checkGluedBoards(set, top),
      ];
    }),
  ];
}

/** Its underside lies on what is highest below it, and on every case that it is over, within rounding. */
function checkLies({ job }: DryfitSet, { told, solid, box, below }: Top): SetCheck[] {
  const highest = Math.max(...below.map((one) => one.box[1][2]));
  return told.over.flatMap((name): SetCheck[] => {
    const own = below.filter((one) => one.solid.assembly.name === name);
    if (own.length === 0)
      return [
        failureOf("worktop", [told.mark], `${told.assembly} lies on ${name}, which is no case. Change: its name.`),
      ];
    const upper = Math.max(...own.map((one) => one.box[1][2]));
    const gap = box[0][2] - upper;
    if (Math.abs(box[0][2] - highest) < TOUCH && gap < job.step + TOUCH) return [];
    return [
      failure(
        "worktop",
        [solid.part],
        `${nameOf(solid.part)} lies ${amount(Math.abs(gap), job)} ${gap > 0 ? "above" : "below"} the upper face of ${name}. Change: where it lies, or the height of ${name}.`,
      ),
    ];
  });
}

function checkOverhang({ job }: DryfitSet, { told, solid, box, below }: Top): SetCheck[] {
  if (below.length === 0) return [];
  const low = (axis: 0 | 1): Mm => Math.min(...below.map((one) => one.box[0][axis]));
  const high = (axis: 0 | 1): Mm => Math.max(...below.map((one) => one.box[1][axis]));
  const found = {
    front: low(1) - box[0][1],
    back: box[1][1] - high(1),
    left: low(0) - box[0][0],
    right: box[1][0] - high(0),
  };
  return (["front", "back", "left", "right"] as const).flatMap((edge): SetCheck[] => {
    const off = found[edge] - told.overhang[edge];
    // An assembly's own ends lie within rounding of its outside.
    if (off > -TOUCH && off < job.step + TOUCH) return [];
    return [
      failure(
        "worktop",
        [solid.part],
        `${nameOf(solid.part)} stands out ${amount(found[edge], job)} at the ${edge}, and ${amount(told.overhang[edge], job)} is stated. Change: its size or its place by ${amount(Math.abs(off), job)}.`,
      ),
    ];
  });
}

const LOOKS = {
  front: { axis: 1, sign: -1 },
  back: { axis: 1, sign: 1 },
  left: { axis: 0, sign: -1 },
  right: { axis: 0, sign: 1 },
} as const;

/** The edges that it is said to have moulded are, above, and no other, each as deep as the bit's profile goes. */
function checkEdges({ job }: DryfitSet, { told, solid }: Top): SetCheck[] {
  const { part } = solid;
  const edge = told.edge;
  const cut = part.features.filter(({ kind }) => kind === "edge");
  const wanted = (edge?.edges ?? []).map((one) => faceTowards(solid, LOOKS[one].axis, LOOKS[one].sign));
  const takes = edge === null ? 0 : edge.radius * (edge.shape === "ogee" ? 2 : 1);
  const up = solid.directions[2];
  const isTold =
    (cut.length === 0 || (up.axis === 2 && up.sign === 1)) &&
    [...wanted].sort().join() ===
      cut
        .map(({ face }) => face)
        .sort()
        .join() &&
    cut.every(
      ({ depth, width, reason, box }) =>
        isSame(depth, takes) && isSame(width, takes) && reason === edge?.shape && isSame(box[1][2], part.thickness),
    );
  if (isTold) return [];
  const said =
    edge === null ? "no moulded edge" : `${edge.shape}, ${amount(takes, job)} deep, at its ${edge.edges.join(", ")}`;
  return [
    failure(
      "worktop",
      [part],
      `${nameOf(part)} is said to have ${said}; what is cut off its edges is otherwise. Change: the edges, or what is said of them.`,
    ),
  ];
}

/** What it is said to move, and by what, follows from its wood. */
function checkMoves({ job }: DryfitSet, { told, solid, travel }: Top): SetCheck[] {
  const { out, in: back } = travel(solid.part.width);
  if (isSame(told.moves.wider, out) && isSame(told.moves.narrower, back)) return [];
  return [
    failure(
      "worktop",
      [solid.part],
      `${nameOf(solid.part)} is said to move ${amount(told.moves.wider, job)} and ${amount(told.moves.narrower, job)}; its wood moves ${amount(out, job)} and ${amount(back, job)}. Change: the figures.`,
    ),
  ];
}
