/** Drawers under load: what a pair of slides carries, and a piece with every drawer drawn out to the full. */
import type { Mm } from "../../base/length.ts";
import { SAME } from "../../base/length.ts";
import { listInWords } from "../../base/words.ts";
import type { SetCheck, SetDrawer, SetPart } from "../../set/schema.ts";
import { formatMass } from "../../set/words.ts";
import { type CheckInput, capital, checkOf, computed, PRACTICE, shown } from "./input.ts";
import { type Piece, standingPieces } from "./piece.ts";
import { staticsOf } from "./tipping.ts";

export const checkDrawers = (input: CheckInput): SetCheck[] =>
  input.drawers.length === 0 ? [] : [...checkRatings(input), ...checkOpposite(input), ...checkDrawnOut(input)];

const massOf = ({ assembly }: SetDrawer, parts: readonly SetPart[]): number =>
  parts.filter((part) => part.assembly === assembly).reduce((sum, { mass }) => sum + mass, 0);

/** Box, front and load against what a pair carries; those without a rating are told once. */
function checkRatings({ drawers, parts, unit }: CheckInput): SetCheck[] {
  const rule = `a pair of slides carries box, front and load, drawn out (the slides' rating, by the job; load by the job, or 8.5 lb to the cubic foot: ASTM F2057-23)`;
  const sold = drawers.filter(({ slides }) => slides.kind !== "wooden runners");
  const unrated = sold.filter(({ slides }) => slides.rating === null);
  const rated = sold.flatMap((drawer): SetCheck[] => {
    const { rating } = drawer.slides;
    if (rating === null) return [];
    const own = massOf(drawer, parts);
    const whole = own + drawer.load;
    const told = `${capital(drawer.assembly)} weighs ${formatMass(own, unit)}, with ${formatMass(drawer.load, unit)} in it ${formatMass(whole, unit)}; its slides carry ${formatMass(rating, unit)}.`;
    return [
      whole > rating + 1e-9
        ? checkOf("slides", "warning", [drawer.face], {
            text: `${told} That is ${formatMass(whole - rating, unit)} too much.`,
            rule,
            change: "slides of a higher rating, or less in the drawer",
          })
        : checkOf("slides", "ok", [drawer.face], { text: told, rule }),
    ];
  });
  if (unrated.length === 0) return rated;
  return [
    ...rated,
    checkOf("slides", "note", [], {
      text: `No rating is given for the slides of ${listInWords(unrated.map(({ assembly }) => assembly))}; the heaviest weighs ${formatMass(Math.max(...unrated.map((one) => massOf(one, parts) + one.load)), unit)} with what is in it.`,
      rule,
      change: 'give "rating" under "slides", from the slides\' sheet',
    }),
  ];
}

/** Screws of two slides on one divider that would meet in the wood. */
function checkOpposite({ parts, unit }: CheckInput): SetCheck[] {
  return parts.flatMap((part): SetCheck[] => {
    const [one, other] = (["t0", "t1"] as const).map((face) => part.lines.filter((line) => line.face === face));
    const close = one!.flatMap((line) => other!.filter((each) => Math.abs(each.at - line.at) < NEAR));
    if (close.length === 0) return [];
    return [
      checkOf("slides", "note", [part.mark], {
        text: `Slides lie on both faces of ${part.name} ${part.mark}, ${shown(part.thickness, unit)} thick, at ${close.length === 1 ? "one height" : `${close.length} heights`}: their screws would meet in the wood.`,
        rule: `screws from two faces are set apart (${PRACTICE})`,
        change: "screw one slide in its next holes along",
      }),
    ];
  });
}

const NEAR: Mm = 6;

/** The middle of mass, with every drawer out and what lies in it in its middle. */
function checkDrawnOut(input: CheckInput): SetCheck[] {
  return standingPieces(input).flatMap((piece): SetCheck[] => {
    const own = input.drawers.filter(({ assembly }) => piece.assemblies.some(({ name }) => name === assembly));
    if (own.length === 0) return [];
    const { mass, forward, load } = drawnOut(piece, own, input.parts);
    const { feet } = staticsOf(piece);
    const behind = forward - feet;
    const { unit } = input;
    const stands = `${piece.name} with ${own.length === 1 ? "its drawer" : `all ${own.length} drawers`} drawn out and ${formatMass(load, unit)} in ${own.length === 1 ? "it" : "them"}, ${formatMass(mass, unit)} in all: middle of mass ${computed(Math.abs(behind), unit)} ${behind >= 0 ? "behind" : "in front of"} its front feet`;
    const rule =
      "a piece goes over when its middle of mass comes before its front feet (statics; load by the job, or 8.5 lb to the cubic foot: ASTM F2057-23, 16 CFR 1261)";
    if (behind > SAME) return [checkOf("tipping", "ok", [], { text: `${stands}.`, rule })];
    return [
      checkOf("tipping", "warning", [], {
        text: `${stands}. It goes over.`,
        rule,
        change:
          "anchor it to the wall before anything is put in it, by fixings that suit the wall; heavy things low; one drawer at a time",
      }),
    ];
  });
}

/** `forward`: behind the piece's own front. */
function drawnOut(
  piece: Piece,
  drawers: readonly SetDrawer[],
  parts: readonly SetPart[],
): { mass: number; forward: Mm; load: number } {
  const still = staticsOf(piece);
  const load = drawers.reduce((sum, one) => sum + one.load, 0);
  const moved = drawers.reduce((sum, one) => sum + massOf(one, parts) * one.slides.length, 0);
  const laden = drawers.reduce((sum, one) => {
    const deep = one.sums.find(({ what }) => what === "depth")!.makes;
    const rear = one.opening.rear - one.free.behind;
    return sum + one.load * (rear - deep / 2 - one.slides.length - piece.at[1]);
  }, 0);
  const mass = still.mass + load;
  return { mass, forward: (still.mass * still.centre[1] - moved + laden) / mass, load };
}
