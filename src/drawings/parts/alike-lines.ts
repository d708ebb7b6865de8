/** What reads otherwise on a drawing that several parts share: each is cut alike, but holds others, or lies turned round. */
import { listInWords } from "../../base/words.ts";
import { faceWords } from "../../set/facing.ts";
import { alikeTo } from "../../set/fastening.ts";
import { matingWords } from "../../set/mating.ts";
import type { DryfitSet, Face, SetPart } from "../../set/schema.ts";
import { byMark, partOf } from "../../set/words.ts";
import { type Atom, TEXT, word, words } from "../draughting/cell.ts";

const FACES: readonly Face[] = ["l0", "l1", "w0", "w1", "t0", "t1"];

/** "the left end here is its right end, the right end here its left end; 23 for 22"; empty where all reads alike. */
function differenceOf(set: DryfitSet, part: SetPart, other: SetPart): string {
  const alike = alikeTo(set, part, other);
  if (alike === null) return "";
  const { faces, marks } = alike;
  const named = FACES.flatMap((face) => {
    const [here, there] = [faceWords(part, face), faceWords(other, faces(face))];
    return here === there ? [] : [`the ${here} here is its ${there}`];
  });
  const held = [...marks]
    .filter(([own, others]) => others.length > 1 || others[0] !== own)
    .map(([own, others]) => `${listInWords([...others].sort(byMark))} for ${own}`);
  return [named.join(", "), held.join(", ")].filter((said) => said !== "").join("; ");
}

/** "On 28: the left end here is its right end, the right end here is its left end; 23 for 22." `part` is the one that is drawn. */
export function alikeLines(set: DryfitSet, part: SetPart, marks: readonly string[]): Atom[][] {
  const heaps: { said: string; marks: string[] }[] = [];
  for (const mark of marks) {
    const said = mark === part.mark ? "" : differenceOf(set, part, partOf(set, mark));
    if (said === "") continue;
    const known = heaps.find((heap) => heap.said === said);
    if (known === undefined) heaps.push({ said, marks: [mark] });
    else known.marks.push(mark);
  }
  return heaps.map(({ said, marks: own }) => [word(`On ${listInWords(own)}:`, TEXT, "bold"), ...words(`${said}.`)]);
}

/** "Mating marks, joints: G left end, H right end.": of each part that the drawing shows, by its own ends and edges. */
export const matingLines = (set: DryfitSet, part: SetPart, marks: readonly string[]): Atom[][] =>
  [part.mark, ...marks.filter((mark) => mark !== part.mark)].flatMap((mark) =>
    matingWords(set, partOf(set, mark)).map((said) =>
      words(`Mating marks${mark === part.mark ? "" : ` of ${mark}`}, ${said}.`),
    ),
  );
