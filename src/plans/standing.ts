/** How the assemblies stand in the room: one on another, beside another, against the wall; and what fixes them there. */
import { AXES, type AxisIndex, axesOf, axisOf, type Box, boxToOuter, type Place } from "../base/geometry.ts";
import { MM_PER_INCH, type Mm, SAME, type Unit } from "../base/length.ts";
import type { DryfitSet, SetAssembly, SetPart } from "../set/schema.ts";
import { baseUnder, frameBefore, isInside, isTall } from "../set/standing.ts";
import { screwInEdge, screwThroughFaces } from "./screws.ts";

/** Screws of one length, through one part into another. */
export type ScrewRow = { through: string; into: string; length: Mm; count: number };

/** `screws` is empty where no panel of the one lies on a panel or an edge of the other. */
export type Standing =
  | { kind: "on"; seats: { upper: string; lower: string }[]; screws: ScrewRow[] }
  | { kind: "beside"; left: string; right: string; screws: ScrewRow[] }
  | { kind: "wall"; case: string; through: string | null; under: string | null; count: number }
  | Hung;

/** With nothing under it: `height` of its lower end above the floor; held through its stout back, else laid on a rail and held under its head. */
export type Hung = {
  kind: "hang";
  case: string;
  height: Mm;
  through: string | null;
  under: string | null;
  count: number;
};

type Input = Pick<DryfitSet, "assemblies" | "parts"> & { unit: Unit };
type Placed = { part: SetPart; box: Box; thick: AxisIndex };

export function planStandings(all: Input): Standing[] {
  // A worktop is laid on and screwed down as its own drawing says; what is in a case is fixed when that is fitted out.
  const assemblies = all.assemblies.filter((one) => one.kind !== "worktop" && one.kind !== "return" && !isInside(one));
  const input: Input = { ...all, assemblies };
  const byHeight = bodiesOf(input).sort((a, b) => footOf(a) - footOf(b));
  const on = byHeight.flatMap((body) => standsOn(body, input));
  const beside = assemblies.flatMap((right) => assemblies.flatMap((left) => standsBeside(left, right, input)));
  const hung = byHeight
    .filter((body) => footOf(body) > SAME && standsOn(body, input).length === 0)
    // Levelling feet have no wood that it could lie on.
    .filter((body) => body.every((one) => baseUnder(one, assemblies) === null))
    .flatMap((body) => body.filter(({ kind }) => kind === "case"));
  const hang = hung.map((one): Hung => ({ ...heldBehind(one, input), kind: "hang", height: one.place.at[2] }));
  const wall = assemblies
    .filter((one) => isTall(one, assemblies) && !hung.includes(one))
    .map((one): Standing => ({ ...heldBehind(one, input), kind: "wall" }));
  return [...on, ...beside, ...hang, ...wall];
}

const footOf = (body: readonly SetAssembly[]): Mm => Math.min(...body.map(({ place }) => place.at[2]));

/** What is glued into one: an assembly, with those that share sides with it, or stand behind one frame with it. */
function bodiesOf({ assemblies, parts }: Input): SetAssembly[][] {
  const bodies: SetAssembly[][] = [];
  for (const one of assemblies) {
    const lender = parts.find(({ mark }) => one.borrows.includes(mark))?.assembly;
    const frame = frameBefore(one, assemblies);
    const body = bodies.find((other) =>
      other.some((each) => each.name === lender || (frame !== null && frameBefore(each, assemblies) === frame)),
    );
    if (body) body.push(one);
    else bodies.push([one]);
  }
  return bodies;
}

/** The blanks of an assembly's own parts in the room. */
export function placedIn(assembly: SetAssembly, parts: readonly SetPart[]): Placed[] {
  return parts.flatMap((part): Placed[] => {
    if (part.assembly !== assembly.name || part.place === null || part.role === "looseShelf") return [];
    const place = part.place as Place;
    const own = boxToOuter(place, [
      [0, 0, 0],
      [part.length, part.width, part.thickness],
    ]);
    return [{ part, box: boxToOuter(assembly.place as Place, own), thick: axisOf(axesOf(place)[2]) }];
  });
}

/** Where two parts lie against each other, across one axis: the sizes of what they have in common; null where they do not meet. */
function meeting(a: Placed, b: Placed, axis: AxisIndex): [Mm, Mm] | null {
  if (Math.abs(a.box[1][axis] - b.box[0][axis]) > SAME) return null;
  const common = AXES.filter((one) => one !== axis).map(
    (one) => Math.min(a.box[1][one], b.box[1][one]) - Math.max(a.box[0][one], b.box[0][one]),
  );
  return common.every((size) => size > SAME) ? (common as [Mm, Mm]) : null;
}

type Contact = { upper: string; lower: string; below: Placed; above: Placed; run: Mm };

function standsOn(body: readonly SetAssembly[], input: Input): Standing[] {
  if (body.some(({ kind }) => kind === "base")) return [];
  const lowers = input.assemblies.filter((one) => !body.includes(one));
  const pairs = body.flatMap((upper) => lowers.flatMap((lower) => contactsOf(upper, lower, input)));
  if (pairs.length === 0) return [];
  // Each of the lower ones under that of the upper ones which stands on it most.
  const seats = lowers.flatMap((lower) => {
    const [most] = pairs.filter((one) => one.lower === lower.name).sort((a, b) => b.run - a.run);
    return most === undefined ? [] : [{ upper: most.upper, lower: lower.name }];
  });
  const screws = seats.flatMap(({ lower }) =>
    screwsBetween(
      pairs.filter((one) => one.lower === lower),
      input,
    ),
  );
  return [{ kind: "on", seats, screws }];
}

const contactsOf = (upper: SetAssembly, lower: SetAssembly, { parts }: Input): Contact[] =>
  placedIn(lower, parts).flatMap((below) =>
    placedIn(upper, parts).flatMap((above): Contact[] => {
      const common = meeting(below, above, 2);
      return common === null ? [] : [{ upper: upper.name, lower: lower.name, below, above, run: Math.max(...common) }];
    }),
  );

function screwsBetween(pairs: readonly Contact[], { unit }: Input): ScrewRow[] {
  // Panel on panel first; else down through the upper one's panel into edges, or up through the lower one's.
  const level = ({ thick }: Placed): boolean => thick === 2;
  const faces = pairs.filter(({ below, above }) => level(below) && level(above));
  const down = pairs.filter(({ below, above }) => !level(below) && level(above));
  const up = pairs.filter(({ below, above }) => level(below) && !level(above));
  const rows = (chosen: readonly Contact[]): ScrewRow[] =>
    chosen.flatMap(({ below, above, run }) => {
      const [through, into] = level(above) && !level(below) ? [above.part, below.part] : [below.part, above.part];
      const length = level(above) && level(below) ? screwThroughFaces(through, into, unit) : screwInEdge(through, unit);
      if (length === null) return [];
      const count = (level(above) && level(below) ? 2 : 1) * countOver(run);
      return [{ through: through.mark, into: into.mark, length, count }];
    });
  return [rows(faces), rows(longest(down)), rows(longest(up))].find((one) => one.length > 0) ?? [];
}

/** The boards along the front and the rear carry it: those between them need no screws. */
function longest<T extends { run: Mm }>(pairs: T[]): T[] {
  const most = Math.max(...pairs.map(({ run }) => run));
  return pairs.filter(({ run }) => run > most / 2);
}

function standsBeside(left: SetAssembly, right: SetAssembly, { parts, unit }: Input): Standing[] {
  if (left.kind === "base" || right.kind === "base") return [];
  // A side that both share holds them together already.
  const own = new Set(parts.filter(({ assembly }) => assembly === left.name).map(({ mark }) => mark));
  if (right.borrows.some((mark) => own.has(mark))) return [];
  const pairs = placedIn(left, parts).flatMap((a) =>
    placedIn(right, parts).flatMap((b) => {
      const common = a.thick === 0 && b.thick === 0 ? meeting(a, b, 0) : null;
      return common === null ? [] : [{ a: a.part, b: b.part, run: Math.max(...common) }];
    }),
  );
  const screws = pairs.flatMap(({ a, b, run }): ScrewRow[] => {
    const length = screwThroughFaces(a, b, unit);
    return length === null ? [] : [{ through: a.mark, into: b.mark, length, count: 2 * countOver(run) }];
  });
  return screws.length === 0 ? [] : [{ kind: "beside", left: left.name, right: right.name, screws }];
}

/** Screws that only keep two cases where they stand: about so far apart, two to a row at least (common practice, no source). */
const APART: Mm = 24 * MM_PER_INCH;
const FEWEST = 2;
const countOver = (run: Mm): number => Math.max(FEWEST, Math.floor(run / APART) + 1);

/** A part so thick takes a screw to the wall through itself (common practice, no source); a thinner back, loose in its groove, does not hold. */
const HOLDS_WALL: Mm = 12 - 0.5;

/** Thickness and height of the rail that carries a hanging case, the least (common practice, no source). */
export const RAIL_SAID: Record<Unit, string> = { mm: "20 × 60 mm", in: "3/4 x 2 1/2 in" };

/** Near its upper edge, into what the wall is made of: through a rear stretcher or a stout back, else by brackets under the top panel. */
function heldBehind(one: SetAssembly, { parts }: Input): Omit<Hung, "kind" | "height"> {
  const own = parts.filter(({ assembly }) => assembly === one.name);
  const placed = placedIn(one, parts);
  const rear = placed
    .filter(({ part, thick }) => part.role === "back" && thick === 1 && part.thickness >= HOLDS_WALL)
    .sort((a, b) => b.box[1][2] - a.box[1][2]);
  const head = own.find(({ role }) => role === "top") ?? own.findLast(({ role }) => role === "stretcher");
  return {
    case: one.name,
    through: rear[0]?.part.mark ?? null,
    under: head?.mark ?? null,
    count: countOver(one.size[0]),
  };
}
