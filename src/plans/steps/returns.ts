/** The steps of side returns: milled with the frame, mitred when every other cut is made, glued on when the frame is. */
import { formatLengthWithUnit, SAME } from "../../base/length.ts";
import { listInWords } from "../../base/words.ts";
import type { SetAssembly } from "../../set/schema.ts";
import { behindFrame } from "../../set/standing.ts";
import { jawsFor } from "./clamps.ts";
import { byMarkIn, capital, type Draft, listOf, type StepsInput, step } from "./step.ts";

export const isMitring = ({ mark, features }: StepsInput["handWork"][number], parts: StepsInput["parts"]): boolean =>
  parts.find((part) => part.mark === mark)!.features[features[0]!]!.kind === "mitre";

/** Stiles and returns alike at one tilt of the blade: two that meet are ripped after each other. */
export function mitres({ returns, parts, handWork }: StepsInput): Draft[] {
  const mitred = returns.filter((one) => one.fit === "mitred");
  if (mitred.length === 0) return [];
  const marks = mitred.flatMap(({ stile, mark }) => [stile, mark]);
  const byMark = byMarkIn(parts);
  return [
    step(
      "Rip the mitres",
      [
        `Of ${listOf(marks, byMark)}, as the hand-work list says: the blade at 45°, tested on scraps as thick until two of them make a square corner. Every mortise and every hole is cut before; the edge that goes to the fence is still square.`,
        `Lay each return beside its stile and letter both: ${mitred.map(({ mating, stile, mark }) => `${mating} ${stile} with ${mark}`).join(", ")}. Their points are sharp and break off: keep them from the bench, and stop nothing against them.`,
      ],
      {
        parts: marks.filter((mark) => handWork.some((one) => one.mark === mark)),
        drawings: ["part drawings", "settings"],
        cautions: [
          "The blade tilts away from the fence, never over it, or the strip between them is caught and thrown back. Guard and riving knife on; featherboard before the blade, push stick past it; stand out of line with it. Where the saw tilts towards its fence, put the fence on the other side of the blade. Eye, ear and dust protection. The saw's manual comes first.",
        ],
      },
    ),
  ];
}

/** On to frame and case as these stand: uprights first, strips between them and the rear edge. */
export function returnsOn(frame: SetAssembly, input: StepsInput): Draft[] {
  const own = input.returns.filter((one) => one.frame === frame.name);
  if (own.length === 0) return [];
  const { parts, assemblies, unit } = input;
  const byMark = byMarkIn(parts);
  const show = (length: number): string => formatLengthWithUnit(length, unit);
  const several = behindFrame(frame, assemblies).length > 1;
  const uprights = own.map(({ mark }) => mark);
  const strips = own.flatMap(({ strip }) => strip ?? []);
  const wide = behindFrame(frame, assemblies).reduce((sum, { size }) => sum + size[0], 0);
  const thick = byMark.get(uprights[0]!)!.thickness;
  const mitred = own.some(({ fit }) => fit === "mitred");
  const proud = Math.max(...own.map((one) => one.proud));
  const clamps = Math.max(2, Math.ceil(byMark.get(uprights[0]!)!.length / APART));
  return [
    step(
      `Glue the ${own.length === 1 ? "return" : "returns"} to ${listInWords([...new Set(own.map((one) => one.case))])}`,
      [
        `Dry first: ${listOf(uprights, byMark)} against the outer faces of the sides, ${mitred ? "each mitre closed from end to end" : "their front edges against the back of the stiles"}, upper and lower ends flush with the stile's. A heavy shaving off the rear of a slope that opens at the face; a new pass at the saw for one that opens at the heel.`,
        mitred
          ? "Size both slopes with thin glue, wait until it is dull, then spread again: they are nearly end grain to the brush. Packing tape across the corner from outside, stretched, every hand's breadth, draws the points together before a clamp is set."
          : "Glue on the return's inner face and front edge.",
        `Glue on the inner face as well, none within a finger's breadth of its rear edge. Clamps from end to end of ${several ? "the cases" : "the case"}, ${own.length === 2 ? "return against return" : "a caul against the other side"}, and from the front over the stile to a caul on the return's rear edge: by turns, so that neither pulls the joint open. ${proud > SAME ? `Then plane the stile's edge flush with the return: it stands out by up to ${show(proud)}.` : "Then take the corner flush with a scraper and break its edge."}`,
        ...(strips.length === 0
          ? []
          : [
              `${capital(listOf(strips, byMark))}: behind the uprights along the lower edges, from there to the rear edges of the sides. Glue in a band along the middle of each, a third of its width, and on the end that meets the upright: solid wood moves across its width, the side does not. Clamps from strip to strip, a caul on each.`,
            ]),
      ],
      {
        parts: [...uprights, ...strips],
        beside: own.map(({ stile }) => stile),
        clamps: { count: clamps, opens: jawsFor(wide + own.length * thick, unit), cauls: [] },
      },
    ),
  ];
}

/** One clamp about so often along an upright (common practice, no source). */
const APART = 200;

/** What goes round the ends is milled with the frame's own members. */
export const marksOfReturns = (frame: SetAssembly, { returns }: StepsInput): string[] =>
  returns.flatMap((one) => (one.frame === frame.name ? [one.mark, ...(one.strip === null ? [] : [one.strip])] : []));
