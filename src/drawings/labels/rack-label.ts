/** The label of an offcut for the rack: its name, its size, what it is of, and a code that says the same. */
import type { Mm } from "../../base/length.ts";
import { group } from "../../paper/draw.ts";
import type { Shape } from "../../paper/shape.ts";
import { drawnSize, insetsOf, LABEL_EDGE, LABEL_TOP } from "../../set/label-page.ts";
import type { DryfitSet } from "../../set/schema.ts";
import { stockOf } from "../../set/words.ts";
import { type Block, BREAK, figure, glue, leastWidth, placeBlock, setLines, word, words } from "../draughting/cell.ts";
import { drawQr } from "./label-qr.ts";

type RackPiece = DryfitSet["rack"][number];

const CODE_EDGE: Mm = 0.5;
const GAP: Mm = 0.6;
/** Of the name; the size is lettered somewhat smaller, what it is of smaller still. */
const SIZES: readonly Mm[] = [7, 6, 5, 4.2, 3.6, 3, 2.5];
const SMALLER = { size: 0.8, words: 0.5 };
const LEAST: Mm = 1.8; // what a 203 dpi label printer still letters clearly

export function drawRackLabel(set: DryfitSet, piece: RackPiece & { text: string }): Shape[] {
  const format = set.paper.labels;
  const { width, height } = drawnSize(format);
  const inset = insetsOf(format);
  const qr = drawQr(format, piece.text);
  const left = width - CODE_EDGE - qr.side;
  const room = { width: left - LABEL_EDGE - GAP, height: height - 2 * LABEL_TOP };
  const shapes = [
    placeBlock(lettered(set, piece, room), [LABEL_EDGE, LABEL_TOP]),
    group(qr.shapes, { move: [left, (height - qr.side) / 2] }),
  ];
  return inset.left + inset.top === 0 ? shapes : [group(shapes, { move: [inset.left, inset.top] })];
}

/** The largest print that fits; on the smallest labels the name and the size alone. */
function lettered(set: DryfitSet, piece: RackPiece, room: { width: Mm; height: Mm }): Block {
  const { unit } = set.job;
  const { name, grain } = stockOf(set, piece.stock);
  let best: Block | null = null;
  for (const isWhole of [true, false]) {
    for (const large of SIZES) {
      const small = Math.max(LEAST, large * SMALLER.words);
      const size = Math.max(LEAST, large * SMALLER.size);
      const atoms = [
        ...words(piece.label, large, "bold"),
        BREAK,
        glue([
          figure(piece.length, unit, size, "bold"),
          word("\u00d7", size),
          figure(piece.width, unit, size, "bold"),
          word(unit, small),
        ]),
        ...(isWhole ? [BREAK, ...words(`offcut, ${name}${grain ? ", grain along the first figure" : ""}`, small)] : []),
      ];
      best = setLines(atoms, Math.max(room.width, leastWidth(atoms)));
      if (best.height <= room.height && leastWidth(atoms) <= room.width) return best;
    }
  }
  return best!;
}
