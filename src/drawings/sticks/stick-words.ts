/** What a mark on a stick says: its distance from each part's own end, and which face of which part takes it. */
import { isSame, type Mm } from "../../base/length.ts";
import { faceWords, lippedAfter, slotEnds } from "../../set/facing.ts";
import type { DryfitSet, Face, SetFeature, SetPart, SetStick } from "../../set/schema.ts";
import { partOf } from "../../set/words.ts";

export type StickMark = SetStick["marks"][number];
type StickPart = SetStick["parts"][number];

/** One distance and everything it holds for: parts whose own ends lie at the same place share it. */
export type Reading = { near: Mm; far: Mm; parts: string[] };

/** Readings of one mark, the part nearest to the stick's zero end first. */
export function readingsOf(set: DryfitSet, stick: SetStick, mark: StickMark): Reading[] {
  const readings: (Reading & { offset: Mm })[] = [];
  for (const part of stick.parts.filter(({ mark: name }) => mark.parts.includes(name))) {
    const same = readings.find((one) => isSame(one.offset, part.offset));
    const name = takerName(set, part, mark);
    if (same !== undefined) same.parts.push(name);
    else {
      const near = mark.at - part.offset;
      readings.push({ near, far: near + mark.width, parts: [name], offset: part.offset });
    }
  }
  return readings.sort((a, b) => a.offset - b.offset).map(({ near, far, parts }) => ({ near, far, parts }));
}

const AXES = { l: 0, w: 1, t: 2 } as const;

/** Where the mark's lower wall lies in the part's own axes; on the stick the panel lies without the lippings still to come. */
function localOf(set: DryfitSet, part: StickPart, mark: StickMark): Mm {
  const from = mark.at - part.offset;
  const inPanel = part.datum[1] === "0" ? from : part.length - from - mark.width;
  return inPanel + lippedAfter(partOf(set, part.mark), `${part.datum[0]}0` as Face);
}

const isOn = (set: DryfitSet, part: StickPart, mark: StickMark, low: Mm, high: Mm): boolean =>
  isSame(low, localOf(set, part, mark)) && isSame(high - low, mark.width);

/** The part's mark; with the face where the part takes grooves in two opposite faces, so that the wrong one is not marked. */
function takerName(set: DryfitSet, stickPart: StickPart, mark: StickMark): string {
  const part = partOf(set, stickPart.mark);
  const holes = mark.kind === "line" ? holesAt(set, stickPart, mark) : [];
  if (mark.kind !== "groove" && holes.length === 0) return stickPart.mark;
  const axis = AXES[stickPart.datum[0] as "l" | "w"];
  const cut = part.features.filter(({ kind }) => kind !== "notch");
  const taken =
    mark.kind === "line" ? holes : cut.filter(({ box }) => isOn(set, stickPart, mark, box[0][axis], box[1][axis]));
  const faces = new Set(taken.map(({ face }) => face));
  const isTwoFaced = cut.some(({ face }) => face === "t0") && cut.some(({ face }) => face === "t1");
  if (!isTwoFaced) return stickPart.mark;
  return `${stickPart.mark} ${faces.size > 1 ? "both faces" : [...faces].map((face) => faceWords(part, face)).join("")}`;
}

/** Holes of the part whose row runs along the stick, and whose middle is this line. */
function holesAt(set: DryfitSet, stickPart: StickPart, mark: StickMark): SetFeature[] {
  const at = localOf(set, stickPart, mark);
  return partOf(set, stickPart.mark).features.filter(
    ({ kind, along, from, to }) => kind === "hole" && along === stickPart.datum[0] && isSame((from + to) / 2, at),
  );
}

/** Whether a slot for a worktop's screw has its middle there, or one of its ends. */
const isSlot = ({ features }: SetPart, axis: "l" | "w", at: Mm): boolean =>
  features.some((feature) => {
    if (feature.kind !== "slot") return false;
    const lines = feature.along === axis ? slotEnds(feature) : [feature.at + feature.width / 2];
    return lines.some((one) => isSame(one, at));
  });

const FRONTS: readonly SetPart["role"][] = ["drawerFace", "drawerFront", "doorStile", "slab"];

/** "lower edge of 49": of doors and drawers whose edges a line shows on the upright beside them; none of any other line. */
function frontWords(set: DryfitSet, stick: SetStick, { at, holds }: StickMark): string[] {
  const fronts = holds.filter((mark) => FRONTS.includes(partOf(set, mark).role));
  return fronts.map((front) => {
    const isLower = stick.marks.some((other) => other.holds.includes(front) && other.at > at);
    return `${isLower ? "lower" : "upper"} edge of ${front}`;
  });
}

const takersOf = (stick: SetStick, mark: StickMark): StickPart[] =>
  stick.parts.filter(({ mark: name }) => mark.parts.includes(name));

/** A line across a stick is a groove's stop, a notch's wall or the middle of a hole; of one part this and of another that, if it falls so. */
export function lineWord(set: DryfitSet, stick: SetStick, mark: StickMark): string {
  const fronts = frontWords(set, stick, mark);
  if (fronts.length > 0) return fronts.join(" and ");
  const said = takersOf(stick, mark).flatMap((stickPart) => {
    const axis = AXES[stickPart.datum[0] as "l" | "w"];
    const at = localOf(set, stickPart, mark);
    const holes = holesAt(set, stickPart, mark);
    if (holes.length > 0) return holes.map(({ holds }) => (holds === null ? "pin hole" : "dowel hole"));
    if (isSlot(partOf(set, stickPart.mark), stickPart.datum[0] as "l" | "w", at)) return ["slot"];
    const { lines } = partOf(set, stickPart.mark);
    if (lines.some((one) => one.bolt === null && one.along !== stickPart.datum[0] && isSame(one.at, at))) {
      return [`slide of ${mark.holds.join(", ")}`];
    }
    const bolts = lines.filter((one) => one.bolt !== null && one.along === stickPart.datum[0]);
    if (bolts.some(({ points }) => points.some((point) => isSame(point, at)))) return ["track bolt"];
    const isNotch = partOf(set, stickPart.mark).features.some(
      ({ kind, box }) => kind === "notch" && (isSame(box[0][axis], at) || isSame(box[1][axis], at)),
    );
    return [isNotch ? "notch" : "stop"];
  });
  return [...new Set(said)].join(" and ");
}

/** Whether the line is the middle of a hole, and of nothing else. */
export const isHole = (set: DryfitSet, stick: SetStick, mark: StickMark): boolean =>
  mark.kind === "line" && takersOf(stick, mark).every((part) => holesAt(set, part, mark).length > 0);

/** The first and the last hole of a row in one of the parts: between them the row goes on by its pitch. */
export const endsRow = (set: DryfitSet, stick: SetStick, mark: StickMark): boolean =>
  takersOf(stick, mark).some((part) =>
    holesAt(set, part, mark).some((hole) => {
      const row = partOf(set, part.mark).features.filter(
        (one) => one.kind === "hole" && one.row === hole.row && one.face === hole.face,
      );
      return [Math.min, Math.max].some((pick) => isSame(pick(...row.map(({ from }) => from)), hole.from));
    }),
  );

/** Which end or edge of the parts goes to the stick's zero end: "bottom end". */
export const zeroWords = (set: DryfitSet, stick: SetStick): string =>
  [
    ...new Set(
      stick.parts
        .filter(({ offset }) => isSame(offset, 0))
        .map(({ mark, datum }) => faceWords(partOf(set, mark), datum)),
    ),
  ].join(" or ");

/** Whether the mark is where these parts begin or where they end, seen from the stick's zero end. */
export function endsAt(stick: SetStick, mark: StickMark): { begins: string[]; ends: string[] } {
  const here = stick.parts.filter(({ mark: name }) => mark.parts.includes(name));
  return {
    begins: here.filter(({ offset }) => isSame(offset, mark.at)).map(({ mark: name }) => name),
    ends: here.filter(({ offset, length }) => isSame(offset + length, mark.at)).map(({ mark: name }) => name),
  };
}

/** Join letters run through the whole of sticks.pdf, so that no two joins carry the same: A to Z, then AA. */
export function joinLetters(count: number): string {
  const letter = String.fromCharCode(65 + (count % 26));
  return count < 26 ? letter : joinLetters(Math.floor(count / 26) - 1) + letter;
}
