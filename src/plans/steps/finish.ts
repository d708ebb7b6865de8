/** Finish: on the parts before they are put together, or on the finished piece. */
import { listInWords } from "../../base/words.ts";
import type { DryfitSet } from "../../set/schema.ts";
import { type Draft, type StepsInput, step } from "./step.ts";

type Finish = DryfitSet["finishes"][number];

const OIL =
  "Rags with an oil finish can catch fire by themselves: spread them out singly and flat outdoors until hard, or keep them under water in a closed metal can, never in a heap or a bin.";
const AIR = "Fresh air, no flame, gloves and the mask that the tin asks for: its data sheet comes first.";

/** What the job does not name may still be an oil. */
export const finishCautions = (finishes: readonly Finish[]): string[] => [
  ...(finishes.length === 0 || finishes.some(({ kind }) => kind === "oil") ? [OIL] : []),
  ...(finishes.length > 0 ? [AIR] : []),
  "Dust protection when sanding.",
];

const coatsInWords = ({ name, coats, dry }: Finish, on: string): string => {
  const count = coats === 1 ? "one coat" : `${coats} coats, ${dry} hours from one to the next`;
  return `${name.charAt(0).toUpperCase()}${name.slice(1)} on ${on}: ${count}; ${dry} hours before anything is put on it.`;
};

/** A film shows every dent, and sandpaper that it cannot get under. */
export const filling = (finishes: readonly Finish[]): string[] =>
  finishes.some(({ kind }) => kind === "film")
    ? [
        "Fill dents and the heads of pins and screws, a little proud; sand flush when it is hard, then all over with a finer paper, and take the dust off, before the first coat.",
      ]
    : [];

/** Of what is finished in one step: each finish with those of its parts. */
export const finishTexts = (finishes: readonly Finish[], marks: readonly string[]): string[] =>
  finishes.flatMap((one) => {
    const own = one.parts.filter((mark) => marks.includes(mark));
    if (own.length === 0) return [];
    const on = own.length < marks.length ? `parts ${listInWords(own)}` : marks.length === 1 ? "it" : "every part";
    return [coatsInWords(one, on)];
  });

/** What has its finish before the rest: a door's panel, which its frame hides in part, and a glued-up worktop, whose faces are finished alike. */
export const finishedEarly = ({ parts, worktops }: Pick<StepsInput, "parts" | "worktops">): string[] =>
  parts
    .filter(({ role, mark }) => role === "doorPanel" || worktops.some((one) => one.mark === mark && one.glued !== null))
    .map(({ mark }) => mark);

/** What goes on while every face can still be reached: joints are glued on bare wood. */
export function planFinishBefore(input: StepsInput): Draft[] {
  const finishes = input.finishes.filter(({ before }) => before);
  if (finishes.length === 0) return [];
  const solid = new Set(input.stock.filter((one) => one.solid).map(({ id }) => id));
  const marks = input.parts
    .map(({ mark }) => mark)
    .filter((mark) => finishes.some(({ parts }) => parts.includes(mark)));
  const isSolid = input.parts.some(({ mark, material }) => marks.includes(mark) && solid.has(material));
  return [
    step(
      "Finish the parts",
      [
        "Dry-fit first: what does not fit is not finished. Mask every groove, every tongue and end that enters one, and every face that is glued: glue holds on bare wood alone.",
        ...finishTexts(finishes, marks),
        ...(isSolid
          ? [
              "Solid wood gets the same coats on both faces: what is sealed on one side only takes up moisture on the other, and cups.",
            ]
          : []),
        "Take the masking off before the film is hard. In a groove that something slides in, and in an inset gap, every coat takes room: try the fit again.",
      ],
      { parts: marks, cautions: finishCautions(finishes) },
    ),
  ];
}
