/** What a label says besides mark, name and size, in few words: each a field that stays whole or is left out. */
import { axesOf, axisOf } from "../../base/geometry.ts";
import { formatLength, type Mm } from "../../base/length.ts";
import { listInWords } from "../../base/words.ts";
import { faceWords } from "../../set/facing.ts";
import { matingWords } from "../../set/mating.ts";
import type { DryfitSet, Face, SetPart } from "../../set/schema.ts";
import { scribesOf } from "../../set/scribe.ts";
import { differenceInShort, differenceOf, likenessTolerance } from "../../set/told-apart.ts";
import { partOf, stockOf } from "../../set/words.ts";
import { seenFace } from "./label-picture.ts";

/** `short`: what is said in its place before any field is given up. */
export type LabelField = { text: string; bold: boolean; short?: string };

/** "left side, locker 1"; the hand in words of its own where the name does not say it. */
export function labelName(set: DryfitSet, part: SetPart): string {
  const isSaid = part.hand === null || part.name.toLowerCase().includes(part.hand);
  const name = isSaid ? part.name : `${part.name} (${part.hand} hand)`;
  return set.assemblies.length > 1 && part.case !== name ? `${name}, ${part.case}` : name;
}

/** In the order in which they are given up where a label is too small: the last first. */
export function labelFields(set: DryfitSet, part: SetPart): LabelField[] {
  const plain = (text: string): LabelField => ({ text, bold: false });
  return [
    ...alikeWords(set, part).map((text) => ({ text, bold: true })),
    ...grooveWords(part).map(plain),
    ...matingWords(set, part).map((text) => ({ text, bold: true })),
    ...scribeWords(set, part).map((text) => ({ text, bold: true })),
    ...lippingWords(part).map(plain),
    ...drillWords(set, part),
    plain(`${stockOf(set, part.material).name}, ${grainWords(part)}`),
    ...(part.same.length === 0 ? [] : [plain(`same as ${part.same.join(", ")}`)]),
    plain(whereToStick(part)),
    ...picturedWords(part).map(plain),
    ...datumWords(set, part).map(plain),
  ];
}

const UPRIGHT = 2;

const grainWords = (part: SetPart): string => {
  if (part.grain === "none") return "no grain";
  if (part.place === null) return "grain along the length";
  return axisOf(axesOf(part.place)[0]) === UPRIGHT ? "grain upright" : "grain level";
};

/** "inside face takes 3, 5, 4": what enters each face or is dowelled to it, from the datum end up. */
function grooveWords(part: SetPart): string[] {
  const grooves = part.features.filter(
    ({ kind, face, holds }) =>
      holds !== null && (kind === "groove" || kind === "rabbet" || (kind === "hole" && face.startsWith("t"))),
  );
  const faces = [...new Set(grooves.map(({ face }) => face))];
  return faces.map((face) => {
    const holds = grooves
      .filter((groove) => groove.face === face)
      .sort((a, b) => Number(a.along === "l") - Number(b.along === "l") || a.at - b.at)
      .map((groove) => groove.holds);
    return `${faceWords(part, face)} takes ${[...new Set(holds)].join(", ")}`;
  });
}

/** "lip front edge after grooving, ash strip". */
const lippingWords = (part: SetPart): string[] =>
  part.lippings.map(({ edge, lipped, name }) => `lip ${faceWords(part, edge)} ${lipped} grooving, ${name}`);

/** "leave 10 at the left edge to scribe" */
const scribeWords = (set: DryfitSet, part: SetPart): string[] =>
  scribesOf(set, part).map(
    ({ edge, allowance }) => `leave ${formatLength(allowance, set.job.unit)} at the ${faceWords(part, edge)} to scribe`,
  );

/** "drilling 1: 2 rows of 9, inside face": by the number the drilling has on its page. */
const drillWords = (set: DryfitSet, part: SetPart): LabelField[] =>
  set.drilling.flatMap(({ n, rows }) => {
    const own = rows.filter(({ mark }) => mark === part.mark);
    const faces = [...new Set(own.map(({ face }) => face))];
    const told = faces.map((face) => {
      const counts = own.filter((row) => row.face === face).map(({ count }) => count);
      return `${rowsInWords(counts)}, ${faceWords(part, face)}`;
    });
    const short = `drilling ${n}`;
    return told.length === 0 ? [] : [{ text: `${short}: ${told.join(", ")}`, bold: false, short }];
  });

/** "2 rows of 9", "2 rows of 9 and 1 of 4". */
function rowsInWords(counts: readonly number[]): string {
  const kinds = [...new Set(counts)];
  const told = kinds.map((count, i) => {
    const times = counts.filter((other) => other === count).length;
    return `${times}${i === 0 ? (times === 1 ? " row" : " rows") : ""} of ${count}`;
  });
  return listInWords(told);
}

/** "to the fence: front edge, bottom end", or "measured from: ..." where stop or straightedge guide: what the triangles on the picture point at. */
function datumWords(set: DryfitSet, part: SetPart): string[] {
  const own = set.settings.filter(({ runs }) => runs.some(({ mark }) => mark === part.mark));
  const runs = own.flatMap((setting) => setting.runs.filter(({ mark }) => mark === part.mark));
  const datums = [...new Set(runs.map(({ datum }) => faceWords(part, datum)))];
  const isFence = own.every(({ carrier }) => carrier === "fence");
  return datums.length === 0 ? [] : [`${isFence ? "to the fence" : "measured from"}: ${datums.join(", ")}`];
}

/** "not 7 (that is 1/8 longer), 8, 9 (other grooves)": what tells the look-alikes from this part. */
function alikeWords(set: DryfitSet, part: SetPart): string[] {
  const { step, unit } = set.job;
  const tolerance = likenessTolerance({ ...set, step });
  const say = (length: Mm): string => formatLength(length, unit);
  const byDifference = new Map<string, string[]>();
  for (const mark of part.alike) {
    const difference = differenceInShort(differenceOf(part, partOf(set, mark), tolerance, say));
    byDifference.set(difference, [...(byDifference.get(difference) ?? []), mark]);
  }
  const told = [...byDifference].map(
    ([difference, marks]) => `${marks.join(", ")} (${toldOf(marks.length, difference)})`,
  );
  return told.length === 0 ? [] : [`not ${told.join(", ")}`];
}

/** A size is said of the other parts in so many words: "8 (1/32 longer)" could be read of this one. */
const toldOf = (count: number, difference: string): string =>
  /\d/.test(difference) ? `${count === 1 ? "that is" : "those are"} ${difference}` : difference;

/** A face that will not show: glue leaves its ghost under a finish. Null where both show. */
function faceToStick(part: SetPart): Face | null {
  const faces: Face[] = ["t0", "t1"];
  const hidden = faces.filter((face) => !part.show.includes(face));
  return hidden.find((face) => part.inside !== null && face !== part.inside) ?? hidden[0] ?? null;
}

function whereToStick(part: SetPart): string {
  const face = faceToStick(part);
  if (face === null) return "off before finish";
  const isCut = part.features.some((feature) => feature.face === face);
  return `stick on ${faceWords(part, face)}${isCut ? ", clear of the grooves" : ""}, off before finish`;
}

/** The picture shows the face to look at under the saw, which need not be the one the label is on. */
function picturedWords(part: SetPart): string[] {
  const seen = seenFace(part);
  return seen === faceToStick(part) ? [] : [`drawn: ${faceWords(part, seen)}`];
}
