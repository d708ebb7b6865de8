/**
 * Sizing: cuts that share a fence distance, so that every piece that needs one is cut before the fence moves: those of the sheet layouts, and
 * the rips and crosscuts of what is milled from boards. Group by group: a piece of a sheet that gives nothing but a later group's parts
 * stays whole until that one begins.
 */
import { isSame, type Mm, SAME } from "../../base/length.ts";
import type { Tooling } from "../../project/tooling.ts";
import type { DryfitSet, SetPart, SetSheet } from "../../set/schema.ts";
import { type Scribed, scribedAlong } from "../../set/scribe.ts";
import { groupOf } from "../groups.ts";
import { groupsOfCuts } from "../sheets/gates.ts";

type Sizing = DryfitSet["sizing"][number];
/** What the saw reaches. */
type Saw = Pick<Tooling["saw"], "rip" | "sled" | "sledDepth" | "stop">;
type Input = Pick<
  DryfitSet,
  "parts" | "pieces" | "stock" | "sheets" | "groups" | "doors" | "sliders" | "tracks" | "worktops"
> &
  Scribed;

type Cut = Pick<Sizing, "group" | "guide" | "fence"> & Partial<Pick<Sizing, "trim">> & { add: (to: Sizing) => void };

const GUIDES: readonly Sizing["guide"][] = ["straightedge", "fence", "line", "stop"];

/** From wide to narrow, as the sheets come apart; of each sheet the cuts keep the order of its diagram. */
export function planSizing(input: Input, saw: Saw): Sizing[] {
  const sizing: Sizing[] = [];
  for (const cut of [...sheetCuts(input, saw), ...boardCuts(input, saw), ...trimCuts(input, saw)]) {
    const { group, guide, fence, trim = false, add } = cut;
    const same = sizing.find(
      (one) => one.group === group && one.trim === trim && one.guide === guide && isSame(one.fence, fence),
    );
    const own = same ?? {
      group,
      fence,
      guide,
      trim,
      cuts: [],
      rips: [],
      crosscuts: [],
      caution: cautionOf(guide, fence),
    };
    if (same === undefined) sizing.push(own);
    add(own);
  }
  return sizing.sort(
    (a, b) =>
      a.group - b.group ||
      Number(a.trim) - Number(b.trim) ||
      GUIDES.indexOf(a.guide) - GUIDES.indexOf(b.guide) ||
      (isSame(a.fence, b.fence) ? 0 : b.fence - a.fence),
  );
}

function sheetCuts({ sheets, groups }: Input, saw: Saw): Cut[] {
  return sheets.flatMap((sheet) => {
    const late = groupsOfCuts(sheet, groups);
    const wide = acrossCuts(sheet);
    return sheet.cuts.map(({ n, from, to, fence }): Cut => {
      return {
        group: late.get(n)!,
        guide: guideOf({ along: to - from, across: wide.get(n)! }, fence, saw),
        fence,
        add: ({ cuts }) => {
          const told = cuts.find((one) => one.sheet === sheet.n);
          if (told) told.cuts.push(n);
          else cuts.push({ sheet: sheet.n, cuts: [n] });
        },
      };
    });
  });
}

/** By the number of a cut how far across it the piece reaches that it divides: followed from the whole sheet. */
function acrossCuts({ cuts, length, width, kerf }: SetSheet): ReadonlyMap<number, Mm> {
  type Spot = Record<"x" | "y", readonly [Mm, Mm]>;
  const left = new Map<string, Spot>();
  const found = new Map<number, Mm>();
  for (const { n, piece, makes, across, at } of cuts) {
    const spot: Spot = left.get(piece) ?? { x: [0, length], y: [0, width] };
    const [from, to] = spot[across];
    const [low, high] = makes as [string, string];
    found.set(n, to - from);
    left.set(low, { ...spot, [across]: [from, at] });
    left.set(high, { ...spot, [across]: [at + kerf, to] });
  }
  return found;
}

/** What a part is sized to at the saw: horns, and what is left to be scribed to walls, stay on. */
const keptOf = (part: SetPart, input: Parameters<typeof hornOf>[1] & Scribed): { length: Mm; width: Mm } => ({
  length: part.cut.length + 2 * hornOf(part, input) + scribedAlong("l", input, part),
  width: part.cut.width + scribedAlong("w", input, part),
});

/** Panels with something over, once their sheet has come apart: ripped to width from a fresh edge, then cut to length from a fresh end. */
function trimCuts({ parts, pieces, groups, ...input }: Input, saw: Saw): Cut[] {
  return parts.flatMap((part): Cut[] => {
    const piece = pieces.find(
      ({ mark, kind, state }) => mark === part.mark && kind === "panel" && state === "oversize",
    );
    if (piece === undefined) return [];
    const { length, width } = keptOf(part, input);
    const own = { group: groupOf(part.mark, groups).n, trim: true };
    const rip: Cut = {
      ...{ ...own, fence: width, guide: guideOf({ along: piece.length, across: piece.width }, width, saw) },
      add: ({ rips }) => rips.push(part.mark),
    };
    const crosscut: Cut = {
      ...{ ...own, fence: length, guide: guideOf({ along: width, across: piece.length }, length, saw) },
      add: ({ crosscuts }) => crosscuts.push(part.mark),
    };
    return [...(piece.width > width + SAME ? [rip] : []), ...(piece.length > length + SAME ? [crosscut] : [])];
  });
}

/** Ripped to width, then cut to length; a worktop's boards are only ripped, the panel glued from them is trimmed where it lies. */
function boardCuts({ parts, stock, groups, worktops, ...input }: Input, saw: Saw): Cut[] {
  return parts.flatMap((part): Cut[] => {
    const boards = stock.find(({ id }) => id === part.material)!.boards;
    if (boards === null) return [];
    const group = groupOf(part.mark, groups).n;
    const rip = (id: string, fence: Mm, length: Mm): Cut => ({
      group,
      fence,
      guide: guideOf({ along: length, across: fence }, fence, saw),
      add: ({ rips }) => rips.push(id),
    });
    const glued = worktops.find(({ mark }) => mark === part.mark)?.glued ?? null;
    if (glued !== null) return glued.boards.map(({ piece, width }) => rip(piece, width, glued.length));
    const { length: fence, width } = keptOf(part, { ...input, worktops });
    const isRipped = !boards.dressed || boards.width - width > SAME;
    return [
      ...(isRipped ? [rip(part.mark, width, fence)] : []),
      {
        group,
        fence,
        guide: carriedTo(width, fence, saw),
        add: ({ crosscuts }) => crosscuts.push(part.mark),
      },
    ];
  });
}

/** Left at each end of a door's stile until the door is glued up. */
function hornOf(
  { role, assembly }: SetPart,
  { doors, sliders, tracks }: Pick<Input, "doors" | "sliders" | "tracks">,
): Mm {
  if (role !== "doorStile") return 0;
  const all = [...doors, ...sliders.flatMap((one) => one.doors), ...tracks.flatMap((one) => one.doors)];
  return all.find((one) => one.assembly === assembly)?.horns ?? 0;
}

/** A strip no wider than this is carried as a board is, its far end held up beside the sled: common practice, no source. */
const STRIP: Mm = 300;

/** A piece runs along the fence only if it is no wider than it is long there, or it twists off; fence and gauge never guide one through cut. */
function guideOf(
  { along, across }: { along: Mm; across: Mm },
  fence: Mm,
  { rip, sled, sledDepth, stop }: Saw,
): Sizing["guide"] {
  if (along >= across - SAME) return fence <= rip + SAME ? "fence" : "straightedge";
  const isCarried = along <= sledDepth + SAME && (across <= sled + SAME || along <= STRIP + SAME);
  return isCarried && fence <= stop + SAME ? "stop" : "straightedge";
}

/** A board is never cut to length along the fence. */
function carriedTo(width: Mm, fence: Mm, { sledDepth, stop }: Saw): Sizing["guide"] {
  if (width > sledDepth + SAME) return "straightedge";
  return fence <= stop + SAME ? "stop" : "line";
}

/** A hand beside the fence comes too near the blade: common practice, no source. */
const NARROW: Mm = 150;

function cautionOf(guide: Sizing["guide"], fence: Mm): string {
  switch (guide) {
    case "fence":
      return `Riving knife and guard on; the longer side along the fence, never the mitre gauge with it; never stand in line with the blade.${fence < NARROW ? " Narrow: push stick, no hand between fence and blade." : ""} The saw's manual comes first.`;
    case "stop":
      return "Riving knife and guard on. The sled carries the piece against a stop on the sled itself; with a mitre gauge the stop ends before the blade, so that what is cut off lies free. The far end of a long piece is held up level with the table. Never along the fence. The saw's manual comes first.";
    case "line":
      return "Riving knife and guard on. The sled or mitre gauge carries the piece, its far end held up level with the table; never along the fence. The saw's manual comes first.";
    case "straightedge":
      return "Straightedge clamped at both ends, both halves supported so that the cut opens, the saw's cable and your hand clear of the line. The saw's manual comes first.";
  }
}
