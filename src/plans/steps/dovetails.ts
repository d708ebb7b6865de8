/** Dovetailed corners: the layout is on paper; saw, chisel or jig are the maker's choice. */
import { type Draft, kindOfWork, type StepsInput, step } from "./step.ts";

export const isDovetailing = (work: StepsInput["handWork"][number], parts: StepsInput["parts"]): boolean =>
  kindOfWork(work, parts) === "socket";

export function dovetail({ parts, handWork }: Pick<StepsInput, "parts" | "handWork">): Draft[] {
  const own = handWork.filter((one) => isDovetailing(one, parts));
  if (own.length === 0) return [];
  return [
    step(
      "Cut the dovetails",
      [
        "Mark every end with the part that it meets and the face that looks out. Tails first: cut the full-size page out, lay its edge flush with the side's end, its zero at the lower edge, and prick the ends of the tails through; two sides that are alike can be sawn together.",
        "Set a marking gauge to the part that goes on that end, not to a figure, and knife the baseline all round. Saw in the waste, chisel to the line from both faces.",
        "Mark the pins from the tails themselves, held on the end of front or back with the baseline flush with its inside face. Saw beside the line, pare until the corner closes by hand pressure and light taps; the layout on the page is the check, not the gauge.",
        "A router in a jig makes them as well, if the jig makes this layout: its maker's manual says how, and a corner of scrap as thick is tried first.",
      ],
      {
        parts: [...new Set(own.map(({ mark }) => mark))],
        drawings: ["part drawings", "story sticks"],
        cautions: [
          "The work is held in a vise or clamped, never in the hand; both hands stay behind the chisel's edge. A router's and a jig's manual come first; the router is unplugged while the bit is set.",
        ],
      },
    ),
  ];
}
