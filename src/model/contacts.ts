/** Contacts: where the surface of one part meets that of another, and whether it is an end, an edge or a face that meets it. */
import { AXES, type AxisIndex, axisOf, type Box, signOf, type Vec } from "../base/geometry.ts";
import { isSame, type Mm, SAME } from "../base/length.ts";
import type { Direction, Joint, Part } from "./model.ts";

/** `end`: an end or edge against a face; `faces`: face on face; `edges`: end or edge against end or edge. */
export type How = "end" | "faces" | "edges";

/** `ledge`: the entering part meets it with the wall of a notch. */
export type Contact = { entering: Part; receiving: Part; direction: Direction; how: How; ledge: boolean; contact: Box };

export const opposite = (direction: Direction): Direction =>
  (direction[0] === "+" ? `-${direction[1]}` : `+${direction[1]}`) as Direction;

/** Coordinate of the plane in which a box's face towards `direction` lies. */
export const planeOf = (box: Box, direction: Direction): number =>
  signOf(direction) > 0 ? box[1][axisOf(direction)] : box[0][axisOf(direction)];

export const thicknessAxis = (part: Part): AxisIndex => axisOf(part.frame.t);

const EVERY_DIRECTION: readonly Direction[] = ["-x", "+x", "-y", "+y", "-z", "+z"];

/** Directions in which a part has an end or edge (not a face). */
export const endDirections = (part: Part): Direction[] =>
  EVERY_DIRECTION.filter((direction) => axisOf(direction) !== thicknessAxis(part));

/** A flat surface of a part, and the way it looks. */
type Surface = { part: Part; direction: Direction; box: Box; isFace: boolean; ledge: boolean };

/** Ends and edges, then faces, then the walls of notches that the design asks for. */
function surfacesOf(part: Part): Surface[] {
  const ends = endDirections(part);
  const faces = EVERY_DIRECTION.filter((direction) => !ends.includes(direction));
  const flat = (direction: Direction): Box => within(part.box, direction, planeOf(part.box, direction), 0);
  return [
    ...ends.map((direction) => ({ part, direction, box: flat(direction), isFace: false, ledge: false })),
    ...faces.map((direction) => ({ part, direction, box: flat(direction), isFace: true, ledge: false })),
    ...part.notches.flatMap(({ end, edge, depth, width }) => {
      const wall = (towards: Direction, far: Mm, other: Direction, reach: Mm): Surface => {
        const sunk = planeOf(part.box, towards) - signOf(towards) * far;
        const strip = within(part.box, other, planeOf(part.box, other), reach);
        return { part, direction: towards, box: within(strip, towards, sunk, 0), isFace: false, ledge: true };
      };
      return [wall(end, depth, edge, width), wall(edge, width, end, depth)];
    }),
  ];
}

/** A box cut down to what lies from `plane` so far inwards, seen from `direction`. */
function within(box: Box, direction: Direction, plane: Mm, inwards: Mm): Box {
  const lo: [Mm, Mm, Mm] = [...box[0]];
  const hi: [Mm, Mm, Mm] = [...box[1]];
  const axis = axisOf(direction);
  lo[axis] = signOf(direction) > 0 ? plane - inwards : plane;
  hi[axis] = signOf(direction) > 0 ? plane : plane + inwards;
  return [lo, hi];
}

const howThey = (entering: Surface, receiving: Surface): How | null => {
  if (entering.isFace) return receiving.isFace ? "faces" : null; // a face against an end is told from the other side
  return receiving.isFace ? "end" : "edges";
};

/** Every contact among parts that may meet, in the order of the parts. */
export function findContacts(parts: readonly Part[], mayMeet: (a: Part, b: Part) => boolean): Contact[] {
  const surfaces = parts.map(surfacesOf);
  return parts.flatMap((entering, i) =>
    surfaces[i]!.flatMap((own) =>
      parts.flatMap((receiving, j) => {
        if (receiving === entering || !mayMeet(entering, receiving)) return [];
        return surfaces[j]!.flatMap((other): Contact[] => {
          if (other.direction !== opposite(own.direction)) return [];
          const how = howThey(own, other);
          const contact = how === null ? null : meet(own, other);
          if (how === null || contact === null) return [];
          return [{ entering, receiving, direction: own.direction, how, ledge: own.ledge || other.ledge, contact }];
        });
      }),
    ),
  );
}

function meet(own: Surface, other: Surface): Box | null {
  const across = axisOf(own.direction);
  const plane = own.box[0][across];
  if (!isSame(plane, other.box[0][across])) return null;
  const lo: [Mm, Mm, Mm] = [plane, plane, plane];
  const hi: [Mm, Mm, Mm] = [plane, plane, plane];
  for (const axis of AXES) {
    if (axis === across) continue;
    lo[axis] = Math.max(own.box[0][axis], other.box[0][axis]);
    hi[axis] = Math.min(own.box[1][axis], other.box[1][axis]);
    if (hi[axis] - lo[axis] <= SAME) return null;
  }
  return [lo as Vec, hi as Vec];
}

/** Laps and dovetails: what ends there goes on to the far side of what it meets. */
export const goesOver = ({ kind }: Pick<Joint, "kind">): boolean => kind === "lap" || kind === "dovetail";
