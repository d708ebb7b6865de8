/** What one setting is made of: the fence figure large with its pictures, every part to run before it moves, the passes, the test. */
import type { Mm, Unit } from "../../base/length.ts";
import { line, rect } from "../../paper/draw.ts";
import { faceWords } from "../../set/facing.ts";
import type { DryfitSet, SetSetting } from "../../set/schema.ts";
import { byMark, partOf } from "../../set/words.ts";
import {
  type Atom,
  type Block,
  BREAK,
  besideBlocks,
  figure,
  figureTwice,
  glue,
  mostWidth,
  placeBlock,
  SMALL,
  setLines,
  stackBlocks,
  tick,
  word,
  words,
} from "../draughting/cell.ts";
import { newTag, revisionTag } from "../draughting/cloud.ts";
import { type Earlier, isClouded, revised } from "../draughting/revised.ts";
import { guideDistance, isNearSide, lieOf } from "./lie.ts";
import { type Pass, passesOf } from "./passes.ts";
import { isSetAlike, settingBefore } from "./setting-changes.ts";
import { drawSettingPicture, PICTURE_HEIGHT, PICTURE_WIDTH } from "./setting-picture.ts";
import { type RunChanges, setBlocks, setNotes, setRuns } from "./setting-runs.ts";

export const TITLE: Mm = 4.5;
/** The figure to set, read from a metre away: capitals of 5 mm at least, the digits of a fraction too (common practice, no source); and the height of a picture. */
export type Grade = { figure: Mm; picture: Mm };
/** Where a drawing has room to spare the figures and pictures grow into it: what is larger is read from farther away. */
export const GRADES: readonly [Grade, ...Grade[]] = [
  { figure: 7, picture: PICTURE_HEIGHT },
  { figure: 7.5, picture: 42 },
  { figure: 8, picture: 46 },
  { figure: 9, picture: 54 },
];
const LEAST_FENCE: Mm = 43.5; // the cutter's line stands under it
const PAD: Mm = 2;
export const GAP: Mm = 3;
export const BETWEEN: Mm = 4; // two settings
const RULE_ABOVE: Mm = 2.5;

const CARRIERS: Record<SetSetting["carrier"], { way: string; guide: string; caption: string }> = {
  fence: { way: "part along the fence", guide: "fence", caption: "FENCE" },
  sled: { way: "part on sled or gauge", guide: "stop", caption: "STOP" },
  straightedge: { way: "router, clamped straightedge", guide: "datum", caption: "STRAIGHTEDGE" },
};

/** Thinner than this it is no block but a strip of card or veneer (common practice, no source). */
const SHIM: Mm = 1.5;

/** What the figure is measured to, where that is not the wall nearer to fence or stop. */
function measuredTo({ straightedge, sacrificial, operation }: SetSetting): string | null {
  if (straightedge !== null) return "datum to the edge the router rides on";
  if (operation === "lap" && sacrificial) return "end to the shoulder";
  return sacrificial ? `to the ${operation}'s inner wall; sacrificial face` : null;
}

/** The setting of an earlier set that this one is laid beside. */
type Was = { setting: SetSetting; letter: string } | null;

export function wasOf(setting: SetSetting, earlier: Earlier | null): Was {
  const before = earlier === null ? null : settingBefore(earlier, setting);
  return before === null ? null : { setting: before, letter: earlier!.letter };
}

/** A setting as it is told: with what it was before, and how large. */
export type Told = { set: DryfitSet; setting: SetSetting; was: Was; earlier: Earlier | null; grade: Grade };

/** A setting that is new altogether is told as that, and its runs are as they are. */
export const runChanges = (setting: SetSetting, was: Was, earlier: Earlier | null): RunChanges =>
  was === null || earlier === null ? null : { earlier, isReset: !isSetAlike(was.setting, setting) };

/** The figure to set, in a box of its own. */
function setFence(setting: SetSetting, unit: Unit, was: Was, size: Mm): Block {
  const figures = (one: SetSetting): Atom[] => figureTwice(guideDistance(one), unit, size, "bold");
  const plain = figures(setting);
  const told = was === null ? plain : revised(plain, [figures(was.setting)]);
  const content: Atom[] = [
    ...words(CARRIERS[setting.carrier].caption, SMALL, "bold"),
    ...(was !== null && isClouded(told, plain) ? [revisionTag(was.letter)] : []),
    BREAK,
    ...told,
  ];
  const to = measuredTo(setting);
  const under = to === null ? [] : [BREAK, ...words(to, SMALL)];
  const block = setLines([...content, ...under], Math.max(LEAST_FENCE - 2 * PAD, mostWidth(content) + 1e-6));
  const width = Math.max(LEAST_FENCE, block.width + 2 * PAD);
  const height = block.height + 2 * PAD;
  return {
    width,
    height,
    baseline: PAD + block.baseline,
    shapes: [rect("outline", { x: 0, y: 0, width, height }), placeBlock(block, [PAD, PAD])],
  };
}

/** "Dado cutter set to 0.703 in. Groove 0.703 wide, 3/8 deep, for 7, 9" */
const describe = (setting: SetSetting, unit: Unit): Atom[] => [
  ...words(`${capital(setting.cutter)}.`, SMALL),
  BREAK,
  ...words(capital(setting.operation), SMALL),
  glue([figure(setting.width, unit), word("wide,", SMALL)]),
  glue([figure(setting.depth, unit), word("deep", SMALL)]),
  ...(setting.holds.length > 0 ? words(`for ${[...setting.holds].sort(byMark).join(", ")}`, SMALL) : []),
];

/** The router's passes: the wall farther from the straightedge first, or the bit climbs. */
function describePasses(setting: SetSetting, unit: Unit): Atom[] {
  const { straightedge } = setting;
  if (straightedge === null) return setting.stopped ? describeStop(setting, unit) : [];
  const near: Atom[] = [
    ...words("Reckoned for a bit"),
    glue([figure(straightedge.bit, unit), word(":")], 0),
    ...words(`measure it. ${setting.sacrificial ? "Inner" : "Near"} wall of the ${setting.operation}`),
    glue([...figureTwice(setting.fence, unit)]),
    ...words("from the datum."),
    ...describeDepths(setting, unit),
  ];
  if (straightedge.far === null) return near;
  const first = isNearSide(setting) ? straightedge.far : straightedge.near;
  return [
    ...near,
    ...words(`First pass with a ${straightedge.spacer < SHIM ? "shim" : "spacer"}`),
    glue([figure(straightedge.spacer, unit), word("wide")]),
    ...words("against the straightedge, which guides at"),
    glue([figure(first, unit), word(",")], 0),
    ...words("second pass without it."),
    ...(setting.operation === "lap" ? words("Then clear what stands between the two.") : []),
  ];
}

/** "Plunge in 2 steps: 1/4, 3/8." */
function describeDepths({ depths }: SetSetting, unit: Unit): Atom[] {
  if (depths.length < 2) return words("Full depth in one plunge.");
  return [
    ...words(`Plunge in ${depths.length} steps:`),
    ...depths.map((depth, i) => glue([figure(depth, unit), word(i < depths.length - 1 ? "," : ".")], 0)),
  ];
}

/** At the saw a stop block is set from where the cutter comes up. */
function describeStop({ ramp }: SetSetting, unit: Unit): Atom[] {
  if (ramp === null) return [];
  return [
    ...words(
      "Mark on the fence where the cutter, at its height, comes up out of the table on your side. The leading end runs against a block beyond that mark. Each stop keeps a slope",
    ),
    glue([figure(ramp.length, unit), word("long")]),
    ...words("of a cutter of radius"),
    glue([figure(ramp.radius, unit), word(",")], 0),
    ...words("to be chiselled."),
  ];
}

const capital = (content: string): string => `${content.charAt(0).toUpperCase()}${content.slice(1)}`;

function setTitle(setting: SetSetting, width: Mm, tag: Atom[]): Block {
  const { way, guide } = CARRIERS[setting.carrier];
  const side = setting.side ?? (isNearSide(setting) ? "left" : "right");
  const tool = setting.tool === "router" ? capital(way) : `Table saw, ${way}`;
  return setLines(
    [...words(`Setting ${setting.n}`, TITLE, "bold"), ...tag, ...words(`${tool}, ${guide} on your ${side}`)],
    width,
  );
}

/** One run for each way a part lies: a pair of sides lies in two. */
function waysOf(set: DryfitSet, setting: SetSetting): Pass[] {
  const seen = new Set<string>();
  return passesOf(set, setting).filter((run) => {
    const part = partOf(set, run.mark);
    const lie = lieOf(part, setting, run);
    const key = [
      lie.datumSide,
      faceWords(part, run.datum),
      faceWords(part, lie.away),
      faceWords(part, lie.up),
      // However long, what runs through lies alike.
      ...(run.stops.length === 0 ? ["through"] : [lie.from, lie.to]),
    ].join("|");
    if (seen.has(key)) return false;
    seen.add(key);
    return true;
  });
}

/** The fence figure and the cutter, with the pictures beside them. */
export function setMachine({ set, setting, was, grade }: Told, width: Mm, widest: Mm = PICTURE_WIDTH.most): Block {
  const { unit } = set.job;
  const fence = setFence(setting, unit, was, grade.figure);
  const plain = describe(setting, unit);
  const described = was === null ? plain : revised(plain, [describe(was.setting, unit)]);
  const machine = stackBlocks([fence, setLines(described, fence.width)], 2.2);
  const room = width - machine.width - GAP;
  const ways = waysOf(set, setting);
  const inRow = (least: Mm): number => Math.max(1, Math.floor((room + GAP) / (least + GAP)));
  const four = inRow(PICTURE_WIDTH.abreast);
  const most = ways.length >= 4 && four === 4 ? four : inRow(PICTURE_WIDTH.least);
  const perRow = Math.ceil(ways.length / Math.ceil(ways.length / most));
  const wide = Math.min(widest, (room - (perRow - 1) * GAP) / perRow);
  const pictures = ways.map((run) =>
    drawSettingPicture(setting, partOf(set, run.mark), run, unit, { wide, high: grade.picture }),
  );
  const rows = Array.from({ length: Math.ceil(pictures.length / perRow) }, (_, i) =>
    besideBlocks(pictures.slice(i * perRow, (i + 1) * perRow), GAP),
  );
  return besideBlocks([machine, stackBlocks(rows, GAP)], GAP);
}

export function setTitleOf({ setting, was, earlier }: Told, width: Mm): Block {
  return setTitle(setting, width, earlier !== null && was === null ? newTag(earlier.letter) : []);
}

export const setHead = (told: Told, width: Mm): Block =>
  stackBlocks([setTitleOf(told, width), setMachine(told, width)], 2);

export function setPasses({ set, setting, was }: Told, width: Mm): Block[] {
  const { unit } = set.job;
  const passes = describePasses(setting, unit);
  const told = was === null ? passes : revised(passes, [describePasses(was.setting, unit)]);
  return passes.length === 0 ? [] : [setLines(told, width)];
}

/** A base or a bit of another size moves the wall, not the width: the scrap tells. */
const wallTest = (setting: SetSetting): Atom[] =>
  setting.straightedge === null ? [] : words("Check on it, too, how far the near wall is from the datum.", SMALL);

const setTest = (setting: SetSetting, width: Mm): Block =>
  setLines(
    [
      word("Test cut.", SMALL, "bold"),
      ...words(setting.test, SMALL),
      ...wallTest(setting),
      glue([word("Passed", SMALL, "bold"), tick()]),
    ],
    width,
  );

export const ruled = (block: Block, width: Mm): Block => ({
  width,
  height: block.height + RULE_ABOVE,
  baseline: block.baseline + RULE_ABOVE,
  shapes: [line("outline", [0, 0], [width, 0]), placeBlock(block, [0, RULE_ABOVE])],
});

/** All that is said after the rows. */
export const setRest = (told: Told, width: Mm): Block[] => [
  ...setBlocks(told.set, told.setting, width),
  ...setNotes(told.setting, width),
  setTest(told.setting, width),
];

/** `tables`: beside each other. */
export function setAllRuns({ set, setting, was, earlier }: Told, width: Mm, tables = 1): Block {
  const runs = setRuns(set, setting, width, runChanges(setting, was, earlier), tables);
  return stackBlocks(
    runs.map(({ block }) => block),
    0,
  );
}

export const columnOf = (blocks: Block[], width: Mm): Block => ({ ...stackBlocks(blocks, 1.8), width });
