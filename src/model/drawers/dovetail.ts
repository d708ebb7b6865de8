/**
 * A dovetailed corner: what stands between the tails of the side, and between the pins of the front or back, is taken out; each is a prism right through
 * its part, its outline in the plane that both are seen in from the side.
 *
 *      y: from the end of the side to the baseline        z upwards
 *      end ______ baseline
 *         |\     |
 *         | tail |  the side keeps this, the front has a socket for it
 *         |/_____|
 *         | pin /   the front keeps this, the side has a socket for it
 */
import { axisOf, type Box, signOf } from "../../base/geometry.ts";
import type { Mm } from "../../base/length.ts";
import { flareOf, type Tails, tailsAlong } from "../../project/dovetails.ts";
import { opposite, planeOf, thicknessAxis } from "../contacts.ts";
import type { Grid } from "../grid.ts";
import type { Direction, Feature, Joint, Part, Tapered } from "../model.ts";

type Stretch = readonly [Mm, Mm];

export function cutDovetail(
  joint: Joint,
  tails: Tails,
  entering: Part,
  receiving: Part,
  grid: Grid,
): { entering: Feature[]; receiving: Feature[] } {
  const through = thicknessAxis(receiving);
  const deep = thicknessAxis(entering);
  const end = endAt(entering, receiving);
  const outer = planeOf(receiving.box, end);
  const baseline = planeOf(entering.box, opposite(end));
  const flare = flareOf(Math.abs(baseline - outer), tails.slope);
  const [low, high] = [entering.box[0][2], entering.box[1][2]];
  const side = receiving.box[1][through] - receiving.box[0][through];
  const laid = tailsAlong(high - low, side, tails, grid.place).map(([a, b]): Stretch => [low + a, low + b]);
  // A pin goes on between two tails; at the edges half a pin, straight along the edge.
  const pins = [...laid, null].map((tail, i) => ({
    from: i === 0 ? low : laid[i - 1]![1],
    to: tail === null ? high : tail[0],
    lower: i === 0 ? 0 : -flare,
    upper: tail === null ? 0 : flare,
  }));
  /** `tips`: at the outer plane; `roots`: at the baseline. */
  const outline = (tips: Stretch, roots: Stretch): Tapered["outline"] => {
    const at = (plane: Mm, [a, b]: Stretch): [Mm, Mm][] => [
      [plane, a],
      [plane, b],
    ];
    const [one, [c, d]] = [at(outer, tips), at(baseline, roots) as [[Mm, Mm], [Mm, Mm]]];
    return [...one, d, c];
  };
  const planes: Stretch = [Math.min(outer, baseline), Math.max(outer, baseline)];
  const boxOf = (part: Part, [from, to]: Stretch, axis: 0 | 1 | 2, [near, far]: Stretch): Box => {
    const lo: [Mm, Mm, Mm] = [...part.box[0]];
    const hi: [Mm, Mm, Mm] = [...part.box[1]];
    [lo[2], hi[2]] = [from, to];
    [lo[axis], hi[axis]] = [near, far];
    return [lo, hi];
  };
  const socket = (face: Direction, along: 0 | 1 | 2, box: Box, tapered: Tapered, holds: Part, of: string): Feature => ({
    kind: "socket",
    face,
    along,
    box,
    ends: ["through", "through"],
    holds: holds.key,
    runOuts: [],
    row: null,
    lipping: false,
    tapered,
    reason: of,
  });
  const inner = planeOf(receiving.box, opposite(joint.direction));
  const far = planeOf(entering.box, joint.direction);
  const within: Stretch = signOf(joint.direction) > 0 ? [inner, far] : [far, inner];
  return {
    receiving: pins.map(({ from, to, lower, upper }) => {
      const box = boxOf(receiving, [from + lower, to + upper], deep, planes);
      const shape = outline([from, to], [from + lower, to + upper]);
      return socket(end, through, box, { axis: through, outline: shape }, entering, "a pin");
    }),
    entering: laid.map(([from, to]) => {
      const box = boxOf(entering, [from, to], through, within);
      const shape = outline([from, to], [from + flare, to - flare]);
      const face = joint.direction;
      return socket(face, deep, box, { axis: axisOf(face), outline: shape }, receiving, "a tail");
    }),
  };
}

/** The end of the side that the front or back stands at. */
const endAt = (entering: Part, receiving: Part): Direction => {
  const axis = thicknessAxis(entering);
  const [from, to] = [entering.box[0][axis] - receiving.box[0][axis], receiving.box[1][axis] - entering.box[1][axis]];
  const name = (["x", "y", "z"] as const)[axis];
  return from < to ? `-${name}` : `+${name}`;
};
