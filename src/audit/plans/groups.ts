/** Groups of work: each part is in one, nothing is cut before what it follows from stands, and every part is cut to its size once, in its own group. */
import type { Mm } from "../../base/length.ts";
import type { DryfitSet, SetAssembly, SetCheck, SetPart } from "../../set/schema.ts";
import { TOUCH } from "../solids/boxes.ts";
import { amount, failure, nameOf } from "../words.ts";
import { checkGuides } from "./guides.ts";
import { scribedOn } from "./scribed.ts";
import { checkWaiting } from "./waiting.ts";

type Group = DryfitSet["groups"][number];

/** By the kind of its assembly, how many kinds of things have to stand before a part is cut. */
const RANK: Record<SetAssembly["kind"], number> = {
  case: 0,
  base: 0,
  frame: 1,
  return: 1,
  door: 2,
  packing: 3,
  drawer: 3,
  worktop: 4,
};

export const checkGroups = (set: DryfitSet): SetCheck[] => [
  ...checkMembers(set),
  ...checkGates(set),
  ...checkFrameGate(set),
  ...checkOrder(set),
  ...checkSheetCuts(set),
  ...checkGuides(set),
  ...checkWaiting(set),
  ...checkBoards(set),
  ...checkStrays(set),
];

const rankOf = ({ assembly }: SetPart, { assemblies }: DryfitSet): number =>
  RANK[assemblies.find(({ name }) => name === assembly)?.kind ?? "case"];

const partsIn = ({ parts: marks }: Group, { parts }: DryfitSet): SetPart[] =>
  parts.filter(({ mark }) => marks.includes(mark));

/** Each part in one group, with none that is made at another time. */
function checkMembers(set: DryfitSet): SetCheck[] {
  const lost = set.parts.filter(({ mark }) => set.groups.filter(({ parts }) => parts.includes(mark)).length !== 1);
  const mixed = set.groups.filter((group) => new Set(partsIn(group, set).map((part) => rankOf(part, set))).size > 1);
  return [
    ...lost.map((part) =>
      failure("group", [part], `${nameOf(part)} is in no group of work, or in two. Change: in one.`),
    ),
    ...mixed.map((group) =>
      failure(
        "group",
        partsIn(group, set),
        `Group ${group.n} cuts together what is made for a piece that stands and what that is made of. Change: part them.`,
      ),
    ),
  ];
}

/** What follows from what stands is measured for: with no figure to write in, nobody would. */
function checkGates(set: DryfitSet): SetCheck[] {
  return set.groups.flatMap((group, i): SetCheck[] => {
    const own = partsIn(group, set);
    const before = i === 0 ? -1 : Math.max(...partsIn(set.groups[i - 1]!, set).map((part) => rankOf(part, set)), -1);
    const rank = Math.max(...own.map((part) => rankOf(part, set)), 0);
    if (rank > before && (rank === 0 || group.gate.boxes.length > 0) && group.n === i + 1) return [];
    return [
      failure(
        "group",
        own,
        `Group ${group.n} comes ${rank > before ? "without a figure as built in its gate" : "before what it follows from"}. Change: case, frame, doors, drawers, worktop, each measured for.`,
      ),
    ];
  });
}

/** Before a frame: in front of the case, and in line with some of it. */
const isFramed = (one: SetAssembly, { assemblies }: DryfitSet): boolean =>
  one.kind === "case" &&
  assemblies.some(
    ({ kind, place, size }) =>
      kind === "frame" &&
      Math.abs(place.at[1] + size[1] - one.place.at[1]) < TOUCH &&
      ([0, 2] as const).every(
        (axis) =>
          Math.min(place.at[axis] + size[axis], one.place.at[axis] + one.size[axis]) >
          Math.max(place.at[axis], one.place.at[axis]) + TOUCH,
      ),
  );

/** Mid stiles and mid rails follow the bays: each bay's width and height as built, beside what it was reckoned with. */
function checkFrameGate(set: DryfitSet): SetCheck[] {
  const gate = set.groups.find((group) => partsIn(group, set).some((part) => rankOf(part, set) === RANK.frame))?.gate;
  if (gate === undefined) return [];
  const bays = set.openings.filter((bay) => isFramed(set.assemblies.find(({ name }) => name === bay.case)!, set));
  return bays.flatMap((bay) =>
    (["width", "height"] as const).flatMap((way): SetCheck[] => {
      const found = set.asBuilt.find((one) => one.assembly === bay.case && one.opening === bay.name && one.way === way);
      const due = found?.measured ?? bay[way];
      const told = gate.boxes.some(
        ({ label, target }) => label === `${bay.case}, ${bay.name}: ${way}` && Math.abs(target - due) < TOUCH,
      );
      if (told) return [];
      return [
        failure(
          "group",
          [],
          `The gate of the face frame has no box for the ${way} of ${bay.name} of ${bay.case}, ${amount(due, set.job)}. Change: measure it before a member is cut.`,
        ),
      ];
    }),
  );
}

const groupOf = (mark: string, { groups }: DryfitSet): number | undefined =>
  groups.find(({ parts }) => parts.includes(mark))?.n;

/** Settings and rows of holes stand with their own parts, group after group. */
function checkOrder(set: DryfitSet): SetCheck[] {
  const work = [
    ...set.settings.map(({ n, group, runs }) => ({ what: `Setting ${n}`, group, marks: runs.map(({ mark }) => mark) })),
    ...set.drilling.map(({ n, group, rows }) => ({
      what: `Drilling ${n}`,
      group,
      marks: rows.map(({ mark }) => mark),
    })),
  ];
  const strays = work.filter(({ group, marks }) => marks.some((mark) => groupOf(mark, set) !== group));
  const early = set.settings.filter(({ group }, i) => i > 0 && group < set.settings[i - 1]!.group);
  return [
    ...strays.map(({ what, group, marks }) =>
      failure(
        "group",
        set.parts.filter(({ mark }) => marks.includes(mark)),
        `${what} is in group ${group}, but not all its parts are. Change: in their own group.`,
      ),
    ),
    ...early.map(({ n, group }) =>
      failure("group", [], `Setting ${n} of group ${group} comes after a later group's. Change: group after group.`),
    ),
  ];
}

/** A cut belongs to the first group that has a part in what it divides: earlier it would cut what is still to be measured for, later it holds the others up. */
function checkSheetCuts(set: DryfitSet): SetCheck[] {
  return set.sheets.flatMap(({ n: sheet, cuts, parts }) => {
    const marks = new Map(parts.map(({ id, mark }) => [id, mark]));
    const inPiece = (id: string, after: number): string[] => {
      const next = cuts.find((cut) => cut.piece === id && cut.n > after);
      if (next === undefined) return marks.has(id) ? [marks.get(id)!] : [];
      return [...new Set(next.makes)].flatMap((one) => inPiece(one, next.n));
    };
    return cuts.flatMap(({ n, makes }): SetCheck[] => {
      const gives = [...new Set(makes)].flatMap((one) => inPiece(one, n));
      const told = set.sizing.filter((one) => one.cuts.some((each) => each.sheet === sheet && each.cuts.includes(n)));
      const groups = gives.flatMap((mark) => groupOf(mark, set) ?? []);
      if (told.length !== 1 || groups.length === 0 || told[0]!.group === Math.min(...groups)) return [];
      return [
        failure(
          "sizing",
          set.parts.filter(({ mark }) => gives.includes(mark)),
          `Cut ${n} of sheet ${sheet} is told in group ${told[0]!.group}, but divides what group ${Math.min(...groups)} needs first. Change: tell it there.`,
        ),
      ];
    });
  });
}

/** Panels that come from their sheet with something over, and what is left of it once they are trimmed: horns stay on. */
const overOf = (part: SetPart, set: DryfitSet): { wide: boolean; long: boolean } => {
  const piece = set.pieces.find(({ mark, kind }) => mark === part.mark && kind === "panel");
  const { wide, long } = keptOf(part, set);
  return { wide: (piece?.width ?? 0) > wide + TOUCH, long: (piece?.length ?? 0) > long + TOUCH };
};

/** What it is sized to at the saw: horns, and what is left for a wall, stay on. */
function keptOf(part: SetPart, set: DryfitSet): { wide: Mm; long: Mm } {
  const scribed = scribedOn(part, set);
  return { wide: part.cut.width + scribed.w, long: part.cut.length + 2 * hornOf(part, set) + scribed.l };
}

/** What is milled from boards is ripped and cut to length once, at its own size, in its own group; never to length along the fence. */
function checkBoards(set: DryfitSet): SetCheck[] {
  const inBoards = (part: SetPart) => set.stock.find(({ id }) => id === part.material)?.boards ?? null;
  return set.parts.flatMap((part): SetCheck[] => {
    const boards = inBoards(part);
    const isGlued = set.worktops.some(({ mark, glued }) => mark === part.mark && glued !== null);
    const over = boards === null ? overOf(part, set) : { wide: false, long: false };
    if (isGlued || (boards === null && !over.wide && !over.long)) return [];
    const { wide, long } = keptOf(part, set);
    const rips = set.sizing.filter((one) => one.rips.includes(part.mark));
    const lengths = set.sizing.filter((one) => one.crosscuts.includes(part.mark));
    const isRipped = boards === null ? over.wide : !boards.dressed || wide < boards.width - TOUCH;
    const isCut = boards !== null || over.long;
    const agree = (all: DryfitSet["sizing"], count: number, size: Mm): boolean =>
      all.length === count &&
      all.every(
        ({ fence, group, trim }) =>
          Math.abs(fence - size) <= TOUCH && group === groupOf(part.mark, set) && trim === (boards === null),
      );
    const along = [
      ...rips.filter(({ guide, fence }) => guide === "fence" && long < fence - TOUCH),
      ...lengths.filter(({ guide, fence }) => guide === "fence" && (boards !== null || wide < fence - TOUCH)),
    ];
    if (agree(rips, isRipped ? 1 : 0, wide) && agree(lengths, isCut ? 1 : 0, long) && along.length === 0) return [];
    return [
      failure(
        "sizing",
        [part],
        along.length > 0
          ? `${nameOf(part)} is cut along the fence by an end shorter than its side. Change: by sled and stop.`
          : `${nameOf(part)} is not ripped to ${amount(wide, set.job)} and cut to ${amount(long, set.job)} once each in its group. Change: tell it so.`,
      ),
    ];
  });
}

/** No row asks for a cut twice, or for one of what comes from a sheet or is not there. */
function checkStrays(set: DryfitSet): SetCheck[] {
  const { sizing, parts, stock, worktops } = set;
  const inBoards = parts
    .filter((part) => {
      const over = overOf(part, set);
      return stock.find(({ id }) => id === part.material)?.boards !== null || over.wide || over.long;
    })
    .map(({ mark }) => mark);
  const known = new Set([
    ...inBoards,
    ...worktops.flatMap(({ glued }) => glued?.boards.map(({ piece }) => piece) ?? []),
  ]);
  return sizing.flatMap(({ rips, crosscuts }) =>
    [rips, crosscuts].flatMap((ids) =>
      ids
        .filter((id, i) => !known.has(id) || ids.indexOf(id) !== i)
        .map((id) =>
          failure(
            "sizing",
            [],
            `${id} is cut from a board twice, or is none, nor cut oversize. Change: list what is milled or trimmed, once.`,
          ),
        ),
    ),
  );
}

function hornOf({ role, assembly }: SetPart, { doors, sliders, tracks }: DryfitSet): Mm {
  if (role !== "doorStile") return 0;
  const all = [...doors, ...sliders.flatMap((one) => one.doors), ...tracks.flatMap((one) => one.doors)];
  return all.find((one) => one.assembly === assembly)?.horns ?? 0;
}
