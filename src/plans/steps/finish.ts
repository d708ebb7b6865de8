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

const coatsInWords = ({ name, coats, dry, parts }: Finish, all: readonly string[]): string => {
  const on = parts.length === all.length ? "every part" : `parts ${listInWords(parts)}`;
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

export const finishTexts = (finishes: readonly Finish[], { parts }: Pick<StepsInput, "parts">): string[] =>
  finishes.map((one) =>
    coatsInWords(
      one,
      parts.map(({ mark }) => mark),
    ),
  );

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
        ...finishTexts(finishes, input),
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
