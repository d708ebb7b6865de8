/** Before the first group: how many settings there are, and what holds for every one at the router. */
import type { Mm } from "../../base/length.ts";
import { listInWords } from "../../base/words.ts";
import type { Rect } from "../../paper/shape.ts";
import type { DryfitSet } from "../../set/schema.ts";
import { type Atom, type Block, figure, glue, setLines, stackBlocks, word, words } from "../draughting/cell.ts";
import { type FlowGroup, flowItem } from "../draughting/flow.ts";

const TITLE: Mm = 4.5;

/** "14 settings are the fewest that ... With every groove measured from its low end there would be 19." */
function countAtoms({ settings, settingsCount }: DryfitSet): Atom[] {
  const { count, least, proved, fromLowEnds } = settingsCount;
  const [are, they] = count === 1 ? ["is", "it"] : ["are", "they"];
  const few = proved
    ? `${are} the fewest that cut every groove, rabbet and shoulder, if whatever holds one part is to be measured from one end.`
    : `cut every groove, rabbet and shoulder; whatever datums were chosen, there could not be fewer than ${least}.`;
  const isAllLow = settings.every(
    ({ operation, runs }) => operation === "shoulder" || runs.every(({ datum }) => datum.endsWith("0")),
  );
  const before = isAllLow
    ? `In ${they === "it" ? "it" : "all of them"} the low end or front edge is the datum.`
    : `With every groove measured from its low end or front edge there would be ${fromLowEnds}.`;
  return [...words(`${count} ${count === 1 ? "setting" : "settings"}`, TITLE, "bold"), ...words(`${few} ${before}`)];
}

/** What holds for every setting of the router, told once. */
function routerAtoms({ settings, job }: DryfitSet): Atom[] {
  const routed = settings.flatMap(({ straightedge }) => (straightedge === null ? [] : [straightedge]));
  if (routed.length === 0) return [];
  const { base, ahead } = routed[0]!;
  // What is cut in steps is cut in the deepest that there may be.
  const most = settings.find(({ tool, depths }) => tool === "router" && depths.length > 1)?.depths[0];
  return [
    word("Router.", undefined, "bold"),
    ...words("Reckoned for a base whose riding side is"),
    glue([figure(base / 2, job.unit), word("from")]),
    ...words("the bit's middle, its leading edge"),
    glue([figure(ahead, job.unit), word(":")], 0),
    ...words(
      "measure yours; the same side rides always. A strip as wide as the straightedge's figure, butted to the datum, sets it without a tape. At a stop the leading edge of the base meets a block.",
    ),
    ...(most === undefined ? [] : [...words("One plunge takes"), figure(most, job.unit), ...words("at most.")]),
  ];
}

/** Counted apart from those for grooves. */
function sizingAtoms({ sizing, sheets }: DryfitSet): Atom[][] {
  if (sizing.length === 0) return [];
  const cuts = sheets.reduce((sum, sheet) => sum + sheet.cuts.length, 0);
  const boards = sizing.reduce((sum, { rips, crosscuts }) => sum + rips.length + crosscuts.length, 0);
  const of = [
    ...(cuts === 0 ? [] : [`the ${cuts} cuts of the sheet layouts`]),
    ...(boards === 0 ? [] : [`${boards} rips and crosscuts of what is milled from boards`]),
  ];
  return [
    [
      ...words(`${sizing.length} sizing settings`, TITLE, "bold"),
      ...words(`for ${listInWords(of)}, counted apart from those for grooves.`),
    ],
  ];
}

function setCount(set: DryfitSet, width: Mm): Block {
  const router = routerAtoms(set);
  const parts = [set.settings.length === 0 ? [] : countAtoms(set), ...sizingAtoms(set), router].filter(
    (atoms) => atoms.length > 0,
  );
  return stackBlocks(
    parts.map((atoms) => setLines(atoms, width)),
    1.8,
  );
}

export const setIntro = (set: DryfitSet, { width }: Rect): FlowGroup[] =>
  set.settings.length + set.sizing.length === 0 ? [] : [[flowItem(setCount(set, width))]];
