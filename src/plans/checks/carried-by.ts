/** What carries a level part, as seen from the front: where it bears, the clear stretches between, and what stiffens its long edges. */
import { axisOf, type Box, intersectBoxes } from "../../base/geometry.ts";
import { type Mm, SAME } from "../../base/length.ts";
import type { DryfitSet, SetAssembly, SetPart } from "../../set/schema.ts";
import { baseUnder, frameBefore } from "../../set/standing.ts";
import { axisOfFace, blankOf, type CheckInput, moved } from "./input.ts";

/** From one bearing to the next, along the room's x. */
export type Interval = readonly [from: Mm, to: Mm];

type Standing = Pick<CheckInput, "parts" | "joints" | "assemblies" | "step">;

/** What stands in the room, where it stands; null for a spare. */
const boxInRoom = (part: SetPart, assemblies: readonly SetAssembly[]): Box | null => {
  const blank = blankOf(part);
  const assembly = assemblies.find(({ name }) => name === part.assembly);
  return blank === null || assembly === undefined ? null : moved(blank, assembly.place.at);
};

const alongX = ([lo, hi]: Box): Interval => [lo[0], hi[0]];

/** The longest clear stretch between what carries it; null where it lies on the floor, or fewer than two carry it. */
export function longestClear(part: SetPart, input: Standing): Interval | null {
  const box = boxInRoom(part, input.assemblies)!;
  const floor = Math.min(...input.assemblies.map(({ place }) => place.at[2]));
  if (box[0][2] < floor + SAME) return null;
  const bearings = [...bearingsBeside(part, input), ...bearingsUnder(part, box, input)].sort((a, b) => a[0] - b[0]);
  const clear = bearings.slice(1).map(([from], i): Interval => [reachOf(bearings.slice(0, i + 1)), from]);
  const longest = clear.reduce<Interval | null>(
    (most, one) => (most === null || one[1] - one[0] > most[1] - most[0] ? one : most),
    null,
  );
  return longest !== null && longest[1] - longest[0] > SAME ? longest : null;
}

const reachOf = (bearings: readonly Interval[]): Mm => Math.max(...bearings.map(([, to]) => to));

/** What its two ends enter, or lie on pins in: what is clear between those is clear of a loose shelf's own play too. */
function bearingsBeside(part: SetPart, { joints, parts, assemblies }: Standing): Interval[] {
  return joints
    .filter(({ entering, enteringEnd }) => entering === part.mark && axisOfFace(part.place!, enteringEnd) === 0)
    .flatMap(({ receiving }) => {
      const beside = boxInRoom(parts.find(({ mark }) => mark === receiving)!, assemblies);
      return beside === null ? [] : [alongX(beside)];
    });
}

/** Dividers and sides that come up to its underside, and the ribs of a base that it lies on. */
function bearingsUnder(part: SetPart, box: Box, { joints, parts, assemblies, step }: Standing): Interval[] {
  const standing = joints
    .filter(({ receiving, receivingFace }) => receiving === part.mark && axisOfFace(part.place!, receivingFace) === 2)
    .map(({ entering }) => parts.find(({ mark }) => mark === entering)!)
    .filter(({ role }) => role === "divider" || role === "side");
  const base = baseUnder(assemblies.find(({ name }) => name === part.assembly)!, assemblies);
  const ribs = parts.filter(
    ({ assembly, role, place }) =>
      role === "plinth" && assembly === base?.name && place !== null && axisOf(place.l) === 1,
  );
  // From below up to its underside, or into it: what ends lower, or stands beside it, does not carry it.
  const carries = (under: Box | null): under is Box =>
    under !== null &&
    under[0][2] < box[0][2] - SAME &&
    intersectBoxes([under[0], [under[1][0], under[1][1], under[1][2] + step]], box) !== null;
  return [...standing, ...ribs]
    .map((one) => boxInRoom(one, assemblies))
    .filter(carries)
    .map(([lo, hi]) => [Math.max(lo[0], box[0][0]), Math.min(hi[0], box[1][0])]);
}

/** A kick under the front edge, a back fixed to the rear edge: upright boards that do not bend. */
export function heldEdges(part: SetPart, { joints, parts }: Pick<DryfitSet, "joints" | "parts">): string[] {
  const meeting = (role: SetPart["role"]): SetPart[] =>
    joints
      .filter(({ entering, receiving }) => entering === part.mark || receiving === part.mark)
      .filter(({ fit, fixings }) => fit === "seated" && !fixings.startsWith("no glue") && fixings !== "none")
      .map(
        ({ entering, receiving }) =>
          parts.find(({ mark }) => mark === (entering === part.mark ? receiving : entering))!,
      )
      .filter((other) => other.role === role);
  const [kick] = meeting("kick");
  const backs = meeting("back");
  const front = kick === undefined ? [] : [`The kick ${kick.mark}`];
  const rear = backs.length === 0 ? [] : [`The back ${backs.map(({ mark }) => mark).join(", ")}`];
  return part.role === "top" ? rear : [...front, ...rear];
}

/** A rail of the face frame that is glued to the whole of a clear stretch, and how high it is where it is lowest. */
export type Edging = { rail: SetPart; height: Mm };

/**
 * A face frame is glued to the front edges behind it, so a rail there bends with the part behind it. Null where none lies along the
 * whole of the clear stretch, but for what the uprights at its two ends cover.
 */
export function edgingOf(part: SetPart, clear: Interval, { parts, assemblies }: CheckInput): Edging | null {
  const box = boxInRoom(part, assemblies)!;
  const frame = frameBefore(assemblies.find(({ name }) => name === part.assembly)!, assemblies);
  if (frame === null || Math.abs(frame.place.at[1] + frame.size[1] - box[0][1]) > SAME) return null;
  const members = parts.flatMap((member) => {
    const own = member.assembly === frame.name ? boxInRoom(member, assemblies) : null;
    return own === null ? [] : [{ member, own }];
  });
  const covers = ([from, to]: Interval): boolean =>
    to - from < SAME || members.some(({ own }) => own[0][0] < from + SAME && own[1][0] > to - SAME);
  const found = members.find(({ member, own }) => {
    const met = Math.min(own[1][2], box[1][2]) - Math.max(own[0][2], box[0][2]);
    const isAlong = member.role === "rail" && met > part.thickness / 2 && own[0][0] < clear[1] && own[1][0] > clear[0];
    return isAlong && covers([clear[0], own[0][0]]) && covers([own[1][0], clear[1]]);
  });
  return found === undefined ? null : { rail: found.member, height: leastHeight(found.member) };
}

/** Less what its shaped lower edge takes. */
const leastHeight = ({ width, features }: SetPart): Mm =>
  width - Math.max(0, ...features.filter(({ kind }) => kind === "shape").map(({ depth }) => depth));
