/** Part drawings: one for each pattern; a left and a right side together, as an open book with the inside faces up. */

import { listInWords } from "../../base/words.ts";
import type { Rect } from "../../paper/shape.ts";
import type { DryfitSet } from "../../set/schema.ts";
import { byMark } from "../../set/words.ts";
import { type Block, placeBlock } from "../draughting/block.ts";
import type { Draft } from "../draughting/draft.ts";
import { filledShare, LEAST_FILLED } from "../draughting/filled.ts";
import { drawingSpace } from "../draughting/frame.ts";
import { earlierOf } from "../draughting/revised.ts";
import { scalesOf } from "../draughting/scale.ts";
import { inDrawings } from "./part-blocks.ts";
import { type Alone, detailsAmong, firstMark, type Sharing, shapesOf, shareDrawings, unitsOf } from "./part-sharing.ts";

const firstsOf = ({ all }: Sharing): string[] =>
  all
    .flatMap(({ unit }) => unit)
    .map(({ marks }) => marks[0]!)
    .sort(byMark);

const byFirstMark = (a: Sharing, b: Sharing): number => byMark(firstsOf(a)[0]!, firstsOf(b)[0]!);

const partsInWords = (marks: readonly string[]): string =>
  `${marks.length === 1 ? "part" : "parts"} ${listInWords([...marks].sort(byMark))}`;

/** Details that no part's drawing has room for. */
function drawDetails(set: DryfitSet, drawings: readonly Block[], all: readonly Alone[], room: Rect): Draft[] {
  return drawings.map((block, i): Draft => {
    const nth = drawings.length === 1 ? "" : `, ${i + 1} of ${drawings.length}`;
    const name = `Details of ${partsInWords(all.map(firstMark))}${nth}`;
    return {
      key: i === 0 ? "part-details" : `part-details-${i + 1}`,
      name,
      bookmark: ["Part drawings", name],
      scale: scalesOf(set.job.unit)[0]!.name,
      shapes: [placeBlock(block, [room.x, room.y])],
    };
  });
}

/** A drawing of details that would stay mostly blank is spared where other drawings have room for what would stand on it. */
function detailsOnTheirOwn(
  set: DryfitSet,
  drawings: readonly Sharing[],
  room: Rect,
): { drawings: Sharing[]; own: Block[]; all: Alone[] } {
  const moved = drawings.flatMap(({ all }) => all).filter((one) => one.moved.length > 0);
  const laidOut = (some: readonly Alone[]): Block[] =>
    inDrawings(
      some.flatMap((one) => one.moved),
      room,
    );
  const own = laidOut(moved);
  const isSparse = own.some((block) => filledShare([placeBlock(block, [room.x, room.y])], room) < LEAST_FILLED);
  if (!isSparse) return { drawings: [...drawings], own, all: moved };
  const among = detailsAmong(set, drawings, moved, room);
  return { drawings: among.drawings, own: laidOut(among.left), all: among.left };
}

function nameOf({ all, detailed }: Sharing): { name: string; marks: string[] } {
  const patterns = all.flatMap(({ unit }) => unit);
  const marks = patterns.flatMap((pattern) => pattern.marks).sort(byMark);
  const name = marks.length === 1 ? `Part ${marks[0]}, ${patterns[0]!.part.name}` : `Parts ${listInWords(marks)}`;
  const others = [...new Set(detailed.filter(({ unit }) => !all.some((one) => one.unit === unit)).map(firstMark))];
  return { name: others.length === 0 ? name : `${name}; details of ${partsInWords(others)}`, marks };
}

/** `older`: the set whose figures these are laid beside; what changed stands in clouds. */
export function drawParts(set: DryfitSet, older: DryfitSet | null = null): Draft[] {
  const room = drawingSpace(set);
  const shared = shareDrawings(set, unitsOf(set, earlierOf(set, older)), room).sort(byFirstMark);
  const { drawings, own, all } = detailsOnTheirOwn(set, shared, room);
  const drafts = drawings.map((sharing): Draft => {
    const { name, marks } = nameOf(sharing);
    return {
      // One mark for each pattern: all the marks of a large job would make too long a file name.
      key: `part-${firstsOf(sharing).join("-")}`,
      name,
      bookmark: ["Part drawings", name],
      scale: sharing.scale.name,
      parts: marks,
      projected: true,
      shapes: shapesOf(sharing),
    };
  });
  return [...drafts, ...drawDetails(set, own, all, room)];
}
