/** A case taken apart, in isometric projection, every part with its mark: as large as there is room, to no scale. */
import type { Mm } from "../../base/length.ts";
import { listInWords } from "../../base/words.ts";
import type { Rect, Shape } from "../../paper/shape.ts";
import type { DryfitSet, SetAssembly } from "../../set/schema.ts";
import { placeBalloons } from "../draughting/balloon.ts";
import { type Block, grow, placeBlock, unionOf } from "../draughting/block.ts";
import { captioned, titleWidth } from "../draughting/view-title.ts";
import { explode } from "../solids/exploded.ts";
import type { Eye } from "../solids/hidden-line.ts";
import {
  BACK_LEFT,
  BACK_RIGHT,
  type Body,
  bodyOf,
  FRONT_LEFT,
  FRONT_RIGHT,
  isometric,
  isometricBox,
  isometricShapes,
  joinLines,
} from "../solids/isometric.ts";
import { BOUGHT, type Solid } from "../solids/solid.ts";
import { standingSolids } from "./case-group.ts";
import { type Whole, wholeOf } from "./whole.ts";

const ROUND: Mm = 14; // for the marks round the picture
const UNMARKED: Mm = 3; // round one without
const CAPTION: Mm = 16; // its title and what is said under it
const LEAST: Mm = 34; // the picture's smaller side on a drawing with others, or it says nothing
const LEAST_UNMARKED: Mm = 16;
const LEAST_EACH = 350; // square millimetres of it for each mark
const PROJECTION = "isometric, to no scale";
const LEAST_WIDE: Mm = 44; // what is said under its title

export type Exploded = {
  /** How large it would be in a room: paper millimetres to one of the piece's. */
  ratioIn: (room: Rect) => number;
  /** Large enough to share a drawing. */
  isLarge: (ratio: number) => boolean;
  draw: (room: Rect) => Shape[];
};

const EYES = { front: FRONT_RIGHT, behind: BACK_LEFT };

/** Every corner that a piece is seen from as it stands. */
const CORNERS = {
  "front right": FRONT_RIGHT,
  "behind left": BACK_LEFT,
  "behind right": BACK_RIGHT,
  "front left": FRONT_LEFT,
} as const;
const TITLES = { front: "Taken apart", behind: "Taken apart, from behind left" };

export function explodedOf(set: DryfitSet, drawn: SetAssembly, from: keyof typeof EYES): Exploded {
  const solids = standingSolids(set, drawn, "own").filter(({ look, mark }) => look !== "neighbour" && mark !== BOUGHT);
  return isometricOf(explode(solids), EYES[from], TITLES[from]);
}

/** As it stands, from each corner, without marks: it shows which way a view is seen where a drawing has room for no more. */
export const standingOf = (set: DryfitSet, drawn: SetAssembly): Exploded[] => {
  const whole = wholeOf(set, [drawn]);
  return (Object.keys(CORNERS) as (keyof typeof CORNERS)[]).map((from) => asItStands(whole, from));
};

export function asItStands({ solids, without }: Whole, from: keyof typeof CORNERS): Exploded {
  const seen = from === "front right" ? "" : `, from ${from}`;
  const less = without.length === 0 ? "" : `, without its ${listInWords(without)}`;
  return isometricOf(
    solids.map((solid) => bodyOf(solid)),
    CORNERS[from],
    `As it stands${seen}${less}`,
    false,
    LEAST_UNMARKED,
  );
}

/** What stands together, as it stands; without its marks small too, which is better than blank paper. */
export const togetherOf = (solids: readonly Solid[], isMarked = true, from: keyof typeof EYES = "front"): Exploded =>
  isometricOf(
    solids.map((solid) => bodyOf(solid)),
    EYES[from],
    from === "front" ? "Together" : "Together, from behind left",
    isMarked,
    isMarked ? LEAST : LEAST_UNMARKED,
  );

/** Two pictures side by side, one as large as the other. */
export function twoOf(left: Exploded, right: Exploded): Exploded {
  const halves = (room: Rect): [Rect, Rect] => {
    const width = room.width / 2;
    return [
      { ...room, width },
      { ...room, x: room.x + width, width },
    ];
  };
  return {
    ratioIn: (room) => Math.min(left.ratioIn(halves(room)[0]), right.ratioIn(halves(room)[1])),
    isLarge: (ratio) => left.isLarge(ratio) && right.isLarge(ratio),
    draw: (room) => [...left.draw(halves(room)[0]), ...right.draw(halves(room)[1])],
  };
}

function isometricOf(bodies: readonly Body[], eye: Eye, title: string, isMarked = true, leastSide = LEAST): Exploded {
  const whole = isometricBox(bodies, eye);
  const round = isMarked ? ROUND : UNMARKED;
  const least = Math.max(LEAST_WIDE, titleWidth(title));
  const ratioIn = ({ width, height }: Rect): number => {
    if (width < least) return 0;
    return Math.max(0, Math.min((width - 2 * round) / whole.width, (height - 2 * round - CAPTION) / whole.height));
  };
  return {
    ratioIn,
    isLarge: (ratio) =>
      ratio * Math.min(whole.width, whole.height) >= leastSide &&
      (!isMarked || ratio ** 2 * whole.width * whole.height >= LEAST_EACH * bodies.length),
    draw: (room) => {
      const first = drawApart(bodies, eye, title, ratioIn(room), isMarked);
      // Many marks that are out of sight take a line more.
      const over = first.box.height - room.height;
      const less = over <= 0 ? 1 : (whole.height * ratioIn(room) - over) / (whole.height * ratioIn(room));
      const block = less === 1 ? first : drawApart(bodies, eye, title, ratioIn(room) * less, isMarked);
      const [x, y] = [room.x + (room.width - block.box.width) / 2, room.y + (room.height - block.box.height) / 2];
      return [placeBlock(block, [x, y])];
    },
  };
}

function drawApart(bodies: readonly Body[], eye: Eye, title: string, ratio: number, isMarked: boolean): Block {
  const picture = isometric(bodies, eye, ratio);
  if (!isMarked) return captioned({ shapes: isometricShapes(picture.drawn), box: picture.box }, title, PROJECTION);
  const drawn = joinLines(picture.drawn.flatMap(({ visible }) => visible));
  const marks = bodies.map(({ mark }) => mark);
  const patches = picture.patches(marks);
  const balloons = placeBalloons(patches, drawn, [], grow(picture.box, ROUND));
  const without = marks.filter((mark) => !patches.has(mark) || balloons.without.includes(mark));
  return captioned(
    {
      shapes: [...isometricShapes(picture.drawn), ...balloons.shapes],
      box: unionOf([picture.box, ...balloons.boxes]),
    },
    title,
    without.length === 0 ? PROJECTION : `${PROJECTION}; out of sight: ${without.join(", ")}`,
    picture.box,
  );
}
