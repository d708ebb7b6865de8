/** Before the first setting: how many there are, and the gate that every part is at its size. */
import type { Mm } from "../../base/length.ts";
import type { Rect } from "../../paper/shape.ts";
import type { DryfitSet } from "../../set/schema.ts";
import {
  type Atom,
  type Block,
  FIGURE,
  figure,
  glue,
  setLines,
  stackBlocks,
  tick,
  word,
  words,
} from "../draughting/cell.ts";
import { type FlowGroup, flowItem } from "../draughting/flow.ts";

const TITLE: Mm = 4.5;
const BETWEEN: Mm = 7; // after the sizing

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

const GATE: Atom[] = [
  word("Gate.", FIGURE, "bold"),
  ...words(
    "Every part of the case is at its final length and width, ticked on the cut list, before setting 1.",
    FIGURE,
  ),
  glue([word("All at size", FIGURE, "bold"), tick()]),
];

/** What holds for every setting of the router, told once. */
function routerAtoms({ settings, job }: DryfitSet): Atom[] {
  const routed = settings.flatMap(({ straightedge }) => (straightedge === null ? [] : [straightedge]));
  if (routed.length === 0) return [];
  const { base, ahead } = routed[0]!;
  return [
    word("Router.", undefined, "bold"),
    ...words("Reckoned for a base whose riding side is"),
    glue([figure(base / 2, job.unit), word("from")]),
    ...words("the bit's middle, its leading edge"),
    glue([figure(ahead, job.unit), word(":")], 0),
    ...words(
      "measure yours; the same side rides always. A strip as wide as the straightedge's figure, butted to the datum, sets it without a tape. At a stop the leading edge of the base meets a block.",
    ),
  ];
}

function setCount(set: DryfitSet, width: Mm): Block {
  const router = routerAtoms(set);
  const parts = [countAtoms(set), GATE, ...(router.length === 0 ? [] : [router])];
  return stackBlocks(
    parts.map((atoms) => setLines(atoms, width)),
    1.8,
  );
}

export const setIntro = (set: DryfitSet, { width }: Rect): FlowGroup[] =>
  set.settings.length === 0 ? [] : [[flowItem(setCount(set, width), { above: BETWEEN })]];
