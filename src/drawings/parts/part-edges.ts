/** Shaped, moulded and mitred edges of a part, and what is left on one to scribe, in words. */

import { listInWords } from "../../base/words.ts";
import { faceWords, longerFace } from "../../set/facing.ts";
import type { DryfitSet, SetPart } from "../../set/schema.ts";
import { scribesOf } from "../../set/scribe.ts";
import { partOf } from "../../set/words.ts";
import { type Atom, figure, TEXT, words } from "../draughting/cell.ts";
import { mitresIn, shapesIn } from "../draughting/shaped.ts";

/** What is cut out of an edge; its figures are on the view. */
const shapeAtoms = (part: SetPart): Atom[][] =>
  shapesIn(part).map(({ face, outline }) => [
    ...words("Cut out", TEXT, "bold"),
    ...words(`of the ${faceWords(part, face)}${outline.length === 2 ? ", an arch" : ""} (template with the sticks)`),
  ]);

/** "22: 10 more left at the left edge, to scribe to the wall": in no other figure. */
const scribeAtoms = (set: DryfitSet, marks: readonly string[]): Atom[][] =>
  marks.flatMap((mark) => {
    const part = partOf(set, mark);
    return scribesOf(set, part).map(({ edge, allowance }) => [
      ...words(`${mark}:`, TEXT, "bold"),
      figure(allowance, set.job.unit),
      ...words(`more left at the ${faceWords(part, edge)}, to scribe to the wall`),
    ]);
  });

/** "Moulded, roundover of radius 6 along the front edge and left end": the bit has all of it; its section is on the worktop's drawing. */
function edgeAtoms(set: DryfitSet, part: SetPart): Atom[][] {
  const moulded = part.features.filter(({ kind }) => kind === "edge");
  const [first] = moulded;
  if (first === undefined) return [];
  const { reason, depth } = first;
  return [
    [
      ...words("Moulded,", TEXT, "bold"),
      ...words(reason === "chamfer" ? reason : `${reason} of radius`),
      figure(reason === "ogee" ? depth / 2 : depth, set.job.unit),
      ...words(
        `along the ${listInWords(moulded.map(({ face }) => faceWords(part, face)))}, from the ${faceWords(part, "t1")}`,
      ),
    ],
  ];
}

/** How far in it comes is on the view, its width the caption's. */
const mitreAtoms = (part: SetPart): Atom[][] =>
  mitresIn(part).map((mitre) => [
    ...words("Mitre, 45°,", TEXT, "bold"),
    ...words(`along the ${faceWords(part, mitre.face)}, its point on the ${faceWords(part, longerFace(mitre))}`),
  ]);

/** All that is done to the part's edges, and left on them. `marks`: of the parts that the drawing shows. */
export const edgeLines = (set: DryfitSet, part: SetPart, marks: readonly string[]): Atom[][] => [
  ...shapeAtoms(part),
  ...edgeAtoms(set, part),
  ...scribeAtoms(set, marks),
  ...mitreAtoms(part),
];
