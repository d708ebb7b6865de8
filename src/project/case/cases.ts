/** Cases of the file as cases of the project: millimetres, every default filled in, a stock for every role. */
import type { Vec } from "../../base/geometry.ts";
import type { Mm } from "../../base/length.ts";
import { lengthOf } from "../../base/parse-length.ts";
import type { Problem } from "../../base/problem.ts";
import type { Case } from "../case.ts";
import { EDGES, SHELF_LOAD } from "../defaults.ts";
import { readLoad } from "../file/load.ts";
import type { Source } from "../file/source.ts";
import type { Role } from "../role.ts";
import type { CaseFile } from "../schema/case.ts";
import type { ProjectFile } from "../schema/project.ts";
import type { Stock } from "../stock.ts";
import { bayOf, drawerBays, hasBetween, hasLoose } from "./bays.ts";
import { backOf, bottomOf, feetOf, kickOf, lippingsOf, pinsOf, plinthOf, topOf } from "./case-parts.ts";
import { namedStock, stockByRole } from "./case-stock.ts";
import { doorsOf } from "./doors.ts";
import { drawersOf } from "./drawers.ts";
import { type Framed, framesOf } from "./frame.ts";
import { checkChoices, checkJoinery, choicesOf, joineryOf, type Reading } from "./joinery.ts";
import { slidersOf } from "./sliders.ts";
import { trackOf } from "./track.ts";

/** `table`: every stock that the job could name. */
export function casesOf(
  file: ProjectFile,
  table: ReadonlyMap<string, Stock>,
  source: Source,
  problems: Problem[],
): Case[] {
  const reading: Reading = { source, unit: file.unit, problems };
  checkJoinery(file.joinery, "joinery", reading);
  checkChoices(file.joints, "joints", reading);
  const framed = framesOf(file, reading);
  const cases: Case[] = [];
  file.cases.forEach((one, i) => {
    cases.push(caseOf(one, `cases[${i}]`, { job: file, table, before: cases, framed: framed.get(one.name) }, reading));
  });
  return cases;
}

type Around = {
  job: ProjectFile;
  table: ReadonlyMap<string, Stock>;
  before: readonly Case[];
  framed: Framed | undefined;
};

function caseOf(written: CaseFile, path: string, { job, table, before, framed }: Around, reading: Reading): Case {
  // A frame told with another case stands before this one as if it were its own.
  const file: CaseFile = framed === undefined ? written : { ...written, frame: framed.file };
  const { source, unit, problems } = reading;
  const mm = (value: number | string): Mm => lengthOf(value, unit);
  const bays = bayOf(file.bays ?? {}, `${path}.bays`, source, unit, problems);
  checkJoinery(file.joinery, `${path}.joinery`, reading);
  checkChoices(file.joints, `${path}.joints`, reading);
  const bottom = bottomOf(file, path, reading);
  // A stock that cannot be found has been reported.
  const filler = table.get(namedStock(file, "filler") ?? "")?.thickness ?? 0;
  const top = topOf(file, path, filler, reading);
  const back = backOf(file, path, reading);
  const drilled = (["side", "divider"] as const)
    .filter((role) => role === "side" || hasBetween(bays, role))
    .flatMap((role) => table.get(namedStock(file, role) ?? "") ?? []);
  const kick = kickOf(file, reading);
  const plinth = plinthOf(file, path, reading);
  const feet = feetOf(file, path, table.get(namedStock(file, "side") ?? "")?.thickness ?? 0, reading);
  const frame = framed?.frame ?? null;
  const drawers = drawersOf(file, table, path, reading);
  const hasDrawers = drawers !== null && drawerBays(bays).length > 0;
  const doors = doorsOf(file, path, reading);
  const sliders = slidersOf(file, reading);
  const track = trackOf(file, path, reading);
  const make = (doors ?? sliders ?? track)?.make.kind;
  const used: Record<Role, boolean> = {
    side: true,
    bottom: true,
    top: top.fit !== "stretchers",
    divider: hasBetween(bays, "divider"),
    shelf: hasBetween(bays, "shelf"),
    back: back.fit !== "none",
    kick: kick !== null,
    stretcher: top.fit === "stretchers",
    filler: top.fillers !== null,
    looseShelf: hasLoose(bays),
    plinth: plinth !== null,
    stile: frame !== null,
    rail: frame !== null,
    return: frame !== null && frame.returns !== null,
    returnStrip: frame !== null && frame.returns !== null && frame.returns.strip !== null,
    drawerFront: hasDrawers,
    drawerSide: hasDrawers,
    drawerBack: hasDrawers,
    drawerBottom: hasDrawers,
    drawerFace: hasDrawers,
    // Only behind a frame's stiles; without a frame nothing laps.
    packing: hasDrawers && frame !== null && drawers.slides.kind !== "wooden runners",
    runner: hasDrawers && drawers.slides.kind === "wooden runners",
    doorStile: make === "frame and panel",
    doorRail: make === "frame and panel",
    doorPanel: make === "frame and panel",
    slab: make === "slab",
    worktop: false, // it has a stock of its own
  };
  return {
    path,
    name: file.name,
    quantity: file.quantity ?? 1,
    at: placeOf(file, plinth?.height ?? feet?.height ?? 0, before, mm),
    width: mm(file.width),
    height: mm(file.height),
    depth: mm(file.depth),
    stock: stockByRole(file, path, used, reading),
    joinery: joineryOf(file.joinery, job.joinery, path, unit),
    edges: {
      front: file.edges?.front ?? (file.frame === undefined ? EDGES.front : "covered"),
      back: file.edges?.back ?? EDGES.back,
      top: file.edges?.top ?? EDGES.top(top.fit),
      bottom: file.edges?.bottom ?? EDGES.bottom,
    },
    joints: [...choicesOf(job.joints, "joints", unit), ...choicesOf(file.joints, `${path}.joints`, unit)],
    lippings: lippingsOf(file, path, reading),
    pins: pinsOf(file, drilled, reading),
    bottom,
    top,
    back,
    kick,
    plinth,
    feet,
    skirting: null, // known when all cases stand
    frame,
    drawers,
    doors,
    sliders,
    track,
    shares: file.shares ?? null,
    finished: file.finished ?? [],
    shelfLoad: file.shelfLoad === undefined ? SHELF_LOAD : readLoad(file.shelfLoad)!,
    bays,
  };
}

/** How high the base under a case is. */
export const baseHeight = ({ plinth, feet }: Pick<Case, "plinth" | "feet">): Mm => plinth?.height ?? feet?.height ?? 0;

/** Where the file says; else against the side that it shares, else beside the case before, on the same floor. */
function placeOf(file: CaseFile, raised: Mm, before: readonly Case[], mm: (value: number | string) => Mm): Vec {
  if (file.at !== undefined) return [mm(file.at[0]), mm(file.at[1]), mm(file.at[2])];
  const rightOf = ({ at, width, quantity }: Case): Mm => at[0] + quantity * width;
  const lender = before.find(({ name }) => name === file.shares?.left);
  if (lender !== undefined) return [rightOf(lender), lender.at[1], lender.at[2]];
  const last = before.at(-1);
  if (last === undefined) return [0, 0, raised];
  return [rightOf(last), last.at[1], last.at[2] - baseHeight(last) + raised];
}
