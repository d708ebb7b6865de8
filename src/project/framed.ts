/** The cases of the project that one face frame goes before. */
import type { Mm } from "../base/length.ts";
import type { Case } from "./case.ts";
import type { FaceFrame } from "./face-frame.ts";

/** Whether the frame is told with this case: its checks are made once, there. */
export const isTold = ({ path }: FaceFrame, design: Case): boolean => path.startsWith(`${design.path}.`);

/** From left to right. */
export const framedCases = ({ over }: FaceFrame, design: Case, cases: readonly Case[]): Case[] =>
  over === null ? [design] : cases.filter(({ name }) => over.includes(name)).sort((a, b) => a.at[0] - b.at[0]);

/** How many of them one frame goes before. */
export const framedCount = (frame: FaceFrame, design: Case, cases: readonly Case[]): number =>
  frame.over === null ? 1 : framedCases(frame, design, cases).reduce((sum, { quantity }) => sum + quantity, 0);

/** Over the outer faces of what one frame goes before. */
export function framedWidth(frame: FaceFrame, design: Case, cases: readonly Case[]): Mm {
  if (frame.over === null) return design.width;
  const row = framedCases(frame, design, cases);
  const [first, last] = [row[0]!, row.at(-1)!];
  return last.at[0] + last.quantity * last.width - first.at[0];
}
