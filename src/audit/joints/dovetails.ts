/** Dovetailed corners: the tails of the one fill the sockets of the other, at their ends and at their roots, and so all the way between; and they are wider at their ends. */
import type { AxisIndex, Box } from "../../base/geometry.ts";
import type { Mm } from "../../base/length.ts";
import type { DryfitSet, SetCheck, SetFeature } from "../../set/schema.ts";
import { sharedBox, TOUCH } from "../solids/boxes.ts";
import type { Neighbours } from "../solids/neighbours.ts";
import { slicesOf } from "../solids/sockets.ts";
import { ENDS, outward, placeBox, reachOf, type Solid } from "../solids/solid.ts";
import { amount, failure, nameOf } from "../words.ts";
import { type Lapped, lapped } from "./laps.ts";

const UP: AxisIndex = 2;

const socketsOf = ({ part }: Solid, through: boolean): SetFeature[] =>
  part.features.filter(({ kind, axis }) => kind === "socket" && (axis === "t") === through);

/** What ends there has pins; its sockets take the tails of what it meets. */
export function dovetailedOf(solids: readonly Solid[], near: Neighbours): Lapped[] {
  return solids.flatMap((entering) =>
    ENDS.filter((end) => socketsOf(entering, false).some(({ face }) => face === end)).flatMap((end) => {
      const { axis, sign } = outward(entering, end);
      return near
        .of(entering)
        .filter((other) => socketsOf(other, true).some((socket) => isIn(other, socket, entering)))
        .filter(
          ({ bounds }) =>
            Math.abs(reachOf(entering, axis, sign) - bounds[sign === 1 ? 1 : 0][axis]) <
            bounds[1][axis] - bounds[0][axis],
        )
        .map((receiving) => lapped("dovetail", entering, end, receiving));
    }),
  );
}

const isIn = (owner: Solid, socket: SetFeature, other: Solid): boolean =>
  sharedBox(placeBox(owner.place, socket.box), other.bounds) !== null;

type Open = { at: Mm; from: Mm; to: Mm };

/** What a socket leaves open in a plane of the case, from the lower edge upwards. */
function opensAt(solid: Solid, socket: SetFeature, deep: AxisIndex): Open[] {
  const found = slicesOf(socket);
  if (found === null) return [];
  return found.slices.map(({ at, from, to }) => {
    const lo: [Mm, Mm, Mm] = [0, 0, 0];
    const hi: [Mm, Mm, Mm] = [0, 0, 0];
    lo[found.deep] = at;
    hi[found.deep] = at;
    [lo[1], hi[1]] = [from, to];
    const placed = placeBox(solid.place, [lo, hi]);
    return { at: placed[0][deep], from: placed[0][UP], to: placed[1][UP] };
  });
}

export function checkDovetails(set: DryfitSet, solids: readonly Solid[], found: readonly Lapped[]): SetCheck[] {
  const corners = found.filter(({ kind }) => kind === "dovetail");
  const single = solids.flatMap((solid) =>
    solid.part.features
      .filter(({ kind }) => kind === "socket")
      .filter(
        (socket) =>
          !corners.some(
            ({ entering, receiving, end }) =>
              (entering === solid && socket.face === end && receiving.part.mark === socket.holds) ||
              (receiving === solid && entering.part.mark === socket.holds && isIn(solid, socket, entering)),
          ),
      )
      .map((socket) =>
        failure(
          "dovetail",
          [solid.part],
          `Nothing enters the socket ${amount(socket.at, set.job)} up at the end ${socket.face} of ${nameOf(solid.part)}. Change: place the part that belongs there, or leave the socket out.`,
        ),
      ),
  );
  return [...single, ...corners.flatMap((corner) => checkCorner(corner, set))];
}

function checkCorner({ entering, receiving, end }: Lapped, { job }: DryfitSet): SetCheck[] {
  const parts = [entering.part, receiving.part];
  const tell = (text: string): SetCheck[] => [failure("dovetail", parts, text)];
  const corner = `The corner of ${nameOf(receiving.part)} and ${nameOf(entering.part)}`;
  const block = sharedBox(entering.bounds, receiving.bounds);
  if (block === null) return [];
  const across = outward(entering, end).axis;
  const deep = (3 - across - UP) as AxisIndex;
  const tailSockets = socketsOf(entering, false).filter(({ face }) => face === end);
  const pinSockets = socketsOf(receiving, true).filter((socket) => isIn(receiving, socket, entering));
  // Each goes in as far as the other is thick, so that both are flush.
  const off = [
    ...pinSockets.map((socket) => beside(placeBox(receiving.place, socket.box), block, deep)),
    ...tailSockets.map((socket) => beside(placeBox(entering.place, socket.box), block, across)),
  ].find((by) => by > TOUCH);
  if (off !== undefined)
    return tell(
      `${corner}: a socket ends ${amount(off, job)} off the face of the other. Change: its baseline by as much.`,
    );
  const planes = [block[0][deep], block[1][deep]];
  const outer = planes.find(
    (plane) => Math.abs(plane - reachOf(receiving, deep, outerSign(receiving, block, deep))) < TOUCH,
  );
  const at = (plane: Mm): { open: Open[]; tails: Open[] } => {
    const open = pinSockets
      .flatMap((socket) => opensAt(receiving, socket, deep))
      .filter((one) => Math.abs(one.at - plane) < TOUCH)
      .sort((a, b) => a.from - b.from);
    const edges = [block[0][UP], ...open.flatMap(({ from, to }) => [from, to]), block[1][UP]];
    const tails = Array.from({ length: edges.length / 2 }, (_, i) => ({
      at: plane,
      from: edges[2 * i]!,
      to: edges[2 * i + 1]!,
    }));
    return { open, tails: tails.filter(({ from, to }) => to - from > TOUCH) };
  };
  const [tips, roots] = planes.map(at).sort((_, b) => (b.tails[0]?.at === outer ? 1 : -1)) as [
    ReturnType<typeof at>,
    ReturnType<typeof at>,
  ];
  const wrong = [tips, roots].flatMap(({ tails }) => {
    const sockets = tailSockets
      .flatMap((socket) => opensAt(entering, socket, deep))
      .filter((one) => Math.abs(one.at - (tails[0]?.at ?? Number.NaN)) < TOUCH)
      .sort((a, b) => a.from - b.from);
    if (sockets.length !== tails.length)
      return [`${corner} has ${tails.length} tails and ${sockets.length} sockets for them. Change: as many of either.`];
    return tails.flatMap((tail, i) => {
      const by = Math.max(Math.abs(tail.from - sockets[i]!.from), Math.abs(tail.to - sockets[i]!.to));
      if (by <= TOUCH) return [];
      return [
        `${corner}: tail ${i + 1}, counted from below, is from ${amount(tail.from - block[0][UP], job)} to ${amount(tail.to - block[0][UP], job)} ${tails === tips.tails ? "at its end" : "at its root"}, and its socket ${amount(by, job)} beside it. Change: one of the two by as much.`,
      ];
    });
  });
  if (wrong.length > 0) return wrong.flatMap(tell);
  const loose = tips.tails.findIndex(
    ({ from, to }, i) => to - from <= roots.tails[i]!.to - roots.tails[i]!.from + TOUCH,
  );
  if (tips.tails.length > 0 && loose < 0) return [];
  return tell(
    tips.tails.length === 0
      ? `${corner} has no tail. Change: leave one between two sockets.`
      : `${corner}: tail ${loose + 1} is no wider at its end than at its root, and can be drawn out. Change: its slope.`,
  );
}

/** Which way the receiving part ends at the corner. */
const outerSign = ({ bounds }: Solid, block: Box, axis: AxisIndex): 1 | -1 =>
  Math.abs(bounds[1][axis] - block[1][axis]) < TOUCH ? 1 : -1;

/** How far a box is from reaching just from side to side of another. */
const beside = (box: Box, of: Box, axis: AxisIndex): Mm =>
  Math.max(Math.abs(box[0][axis] - of[0][axis]), Math.abs(box[1][axis] - of[1][axis]));
