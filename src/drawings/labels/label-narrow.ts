/**
 * A part narrower than its label: a small label to cut out, as high as the part is wide, with mark, name and size. The rest stays with the
 * drawings, with the code on it.
 *
 *     12 left filler strip   :  [QR code]
 *     11 x 2 1/2 x 0.704 in  :
 *     - - - - - - - - - - - -
 *     3/4 in plywood ...
 */
import type { Mm } from "../../base/length.ts";
import { lines } from "../../paper/draw.ts";
import { measureText } from "../../paper/lettering.ts";
import type { Shape } from "../../paper/shape.ts";
import type { DryfitSet, SetPart } from "../../set/schema.ts";
import {
  type Atom,
  type Block,
  mostWidth,
  placeBlock,
  setLines,
  stackBlocks,
  word,
  words,
} from "../draughting/cell.ts";
import { wayUpWord } from "../draughting/way-up.ts";

const AIR: Mm = 0.7; // between the small label's lettering and what it is cut along
const SIZES: readonly Mm[] = [2.8, 2.5, 2.2, 1.8];
const LEAST_MARK: Mm = 4;
const MOST_MARK: Mm = 12;

/** As high as the small label may be; null where the whole label has room on a face of the part. */
export function narrowHeight(part: SetPart, label: { width: Mm; height: Mm }): Mm | null {
  const narrow = Math.min(part.length, part.width);
  return narrow >= label.height ? null : narrow - 1;
}

/** `isSized`, `isNamed`: whether it had room for the part's size, and for its name and the revision. */
type NarrowLabel = Block & { isSized: boolean; isNamed: boolean };

/** The small label, `width` wide and at most `most` high; null where the part is too narrow even for its mark. */
export function drawNarrow(
  set: DryfitSet,
  part: SetPart,
  name: string,
  sizeAtoms: (digits: Mm) => Atom[],
  width: Mm,
  most: Mm,
): NarrowLabel | null {
  const inner = most - 2 * AIR;
  const mark = Math.min(MOST_MARK, inner);
  if (mark < LEAST_MARK) return null;
  const markWidth = measureText(part.mark, mark, "bold");
  const beside = width - markWidth - 2.5;
  const issue = `rev. ${set.job.revision}`;
  const bodies = SIZES.flatMap((size): Block[] => {
    const said = words(name, size, "bold");
    const sized = sizeAtoms(Math.max(size, 2.2));
    if (mostWidth(sized) > beside) return [];
    const named = setLines([...said, word(issue, size)], beside);
    return [stackBlocks([named, setLines(sized, beside)], 0.4)];
  });
  const alone = SIZES.map((size) => sizeAtoms(Math.max(size, 2.2)))
    .filter((sized) => mostWidth(sized) <= beside)
    .map((sized) => setLines(sized, beside));
  const body = [...bodies, ...alone].find(({ height }) => height <= inner) ?? null;
  const height = Math.min(most, Math.max(mark, body?.height ?? 0) + 2 * AIR);
  const shapes: Shape[] = [
    placeBlock(setLines([wayUpWord(part.mark, mark, "bold")], markWidth + 1), [0, AIR]),
    ...(body === null ? [] : [placeBlock(body, [markWidth + 1.5, AIR])]),
  ];
  const isNamed = body !== null && bodies.includes(body);
  return { width, height, baseline: mark + AIR, shapes, isSized: body !== null, isNamed };
}

/** What the small label is cut along: below it and at its right. */
export const cutRound = (x: Mm, y: Mm, width: Mm, height: Mm): Shape =>
  lines("cut", [
    [
      [0.3, y + height],
      [x + width, y + height],
    ],
    [
      [x + width, 0.3],
      [x + width, y + height],
    ],
  ]);
