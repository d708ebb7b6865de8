/** The settings: one block for each, with the fence figure large, every part to run before it moves, a picture and the caution. */
import type { Mm, Unit } from "../../base/length.ts";
import { line, rect } from "../../paper/draw.ts";
import type { Rect } from "../../paper/shape.ts";
import { faceWords } from "../../set/facing.ts";
import type { DryfitSet, SetSetting } from "../../set/schema.ts";
import { byMark, partOf } from "../../set/words.ts";
import { setCaution } from "../draughting/caution.ts";
import {
  type Atom,
  type Block,
  BREAK,
  besideBlocks,
  FIGURE,
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
import type { Draft } from "../draughting/draft.ts";
import { type FlowGroup, type FlowItem, flowEvenly, flowItem, loosely } from "../draughting/flow.ts";
import { drawingSpace } from "../draughting/frame.ts";
import { numberDrafts } from "../draughting/numbered.ts";
import { type Earlier, earlierOf, isClouded, revised } from "../draughting/revised.ts";
import { type Row, setTable } from "../draughting/table.ts";
import { drillingGroups } from "./drilling.ts";
import { guideDistance, isNearSide, lieOf } from "./lie.ts";
import { type Pass, passesOf } from "./passes.ts";
import { isSetAlike, settingBefore } from "./setting-changes.ts";
import { drawSettingPicture, PICTURE_WIDTH } from "./setting-picture.ts";
import { type RunChanges, setBlocks, setNotes, setRuns } from "./setting-runs.ts";
import { setIntro } from "./settings-intro.ts";
import { sizingGroups } from "./sizing.ts";

const LEAST_HALVES: Mm = 220; // a setting in two halves from here on, one under the other below it
const GUTTER: Mm = 9;
const TITLE: Mm = 4.5;
const FENCE: Mm = 6; // read from where the operator bends over the fence
const LEAST_FENCE: Mm = 43.5; // the cutter's line stands under it
const PAD: Mm = 2;
const GAP: Mm = 3;
const BETWEEN: Mm = 4; // two settings
const RULE_ABOVE: Mm = 2.5;

const CARRIERS: Record<SetSetting["carrier"], { way: string; guide: string; caption: string }> = {
  fence: { way: "part along the fence", guide: "fence", caption: "FENCE" },
  sled: { way: "part on sled or gauge", guide: "stop", caption: "STOP" },
  straightedge: { way: "router, clamped straightedge", guide: "datum", caption: "STRAIGHTEDGE" },
};

/** What the figure is measured to, where that is not the wall nearer to fence or stop. */
/** Thinner than this it is no block but a strip of card or veneer (common practice, no source). */
const SHIM: Mm = 1.5;

function measuredTo({ straightedge, sacrificial, operation }: SetSetting): string | null {
  if (straightedge !== null) return "datum to the edge the router rides on";
  if (operation === "lap" && sacrificial) return "end to the shoulder";
  return sacrificial ? `to the ${operation}'s inner wall; sacrificial face` : null;
}

/** The setting of an earlier set that this one is laid beside. */
type Was = { setting: SetSetting; letter: string } | null;

function wasOf(setting: SetSetting, earlier: Earlier | null): Was {
  const before = earlier === null ? null : settingBefore(earlier, setting);
  return before === null ? null : { setting: before, letter: earlier!.letter };
}

/** A setting that is new altogether is told as that, and its runs are as they are. */
const runChanges = (setting: SetSetting, was: Was, earlier: Earlier | null): RunChanges =>
  was === null || earlier === null ? null : { earlier, isReset: !isSetAlike(was.setting, setting) };

/** The figure to set, in a box of its own. */
function setFence(setting: SetSetting, unit: Unit, was: Was): Block {
  const figures = (one: SetSetting): Atom[] => figureTwice(guideDistance(one), unit, FENCE, "bold");
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

/** What it is, the fence figure and the cutter, with the pictures beside them. */
function setHead(set: DryfitSet, setting: SetSetting, width: Mm, was: Was, earlier: Earlier | null): Block {
  const tag = earlier !== null && was === null ? newTag(earlier.letter) : [];
  const { unit } = set.job;
  const fence = setFence(setting, unit, was);
  const plain = describe(setting, unit);
  const described = was === null ? plain : revised(plain, [describe(was.setting, unit)]);
  const machine = stackBlocks([fence, setLines(described, fence.width)], 2.2);
  const room = width - machine.width - GAP;
  const ways = waysOf(set, setting);
  const most = Math.max(1, Math.floor((room + GAP) / (PICTURE_WIDTH.least + GAP)));
  const perRow = Math.ceil(ways.length / Math.ceil(ways.length / most));
  const wide = Math.min(PICTURE_WIDTH.most, (room - (perRow - 1) * GAP) / perRow);
  const pictures = ways.map((run) => drawSettingPicture(setting, partOf(set, run.mark), run, unit, wide));
  const rows = Array.from({ length: Math.ceil(pictures.length / perRow) }, (_, i) =>
    besideBlocks(pictures.slice(i * perRow, (i + 1) * perRow), GAP),
  );
  return stackBlocks([setTitle(setting, width, tag), besideBlocks([machine, stackBlocks(rows, GAP)], GAP)], 2);
}

function setPasses(setting: SetSetting, unit: Unit, width: Mm, was: Was): Block[] {
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

const ruled = (block: Block, width: Mm): Block => ({
  width,
  height: block.height + RULE_ABOVE,
  baseline: block.baseline + RULE_ABOVE,
  shapes: [line("outline", [0, 0], [width, 0]), placeBlock(block, [0, RULE_ABOVE])],
});

/**
 * The setting in two halves, as one block: the machine on the left, the parts, the test and the caution on the right; the router's passes on
 * whichever side makes it lower.
 */
function setInHalves(set: DryfitSet, setting: SetSetting, width: Mm, earlier: Earlier | null): Block {
  const half = (width - GUTTER) / 2;
  const was = wasOf(setting, earlier);
  const head = setHead(set, setting, half, was, earlier);
  const runs = stackBlocks(
    setRuns(set, setting, half, runChanges(setting, was, earlier)).map(({ block }) => block),
    0,
  );
  const rest = [
    ...setBlocks(set, setting, half),
    ...setNotes(setting, half),
    setTest(setting, half),
    setCaution(setting.caution, half, SMALL),
  ];
  const passes = setPasses(setting, set.job.unit, half, was);
  const halves = (left: Block[], right: Block[]): Block =>
    besideBlocks([{ ...stackBlocks(left, 1.8), width: half }, stackBlocks(right, 1.8)], GUTTER);
  const [a, b] = [halves([head, ...passes], [runs, ...rest]), halves([head], [runs, ...passes, ...rest])];
  return ruled(b.height < a.height ? b : a, width);
}

/** Of a column's height: under what stands over them, some rows have to find room. */
const MOST_OVER_ROWS = 0.7;

/**
 * The same with its rows free to run on to the next column: all else stands over them, in halves where there is width. Where
 * there is not, the caution comes before the rows, and what is said after them stays with the last.
 */
function setInRows(
  set: DryfitSet,
  setting: SetSetting,
  { width, height }: Pick<Rect, "width" | "height">,
  earlier: Earlier | null,
): FlowGroup {
  const was = wasOf(setting, earlier);
  const again = setLines(words(`Setting ${setting.n} (continued)`, TITLE, "bold"), width);
  const runs = setRuns(set, setting, width, runChanges(setting, was, earlier)).map((item, i): FlowItem => {
    const spaced = i === 0 ? { ...item, above: GAP } : item;
    return item.head === null ? spaced : { ...spaced, head: stackBlocks([again, item.head], GAP) };
  });
  const notes = (wide: Mm): Block[] => [
    ...setPasses(setting, set.job.unit, wide, was),
    ...setBlocks(set, setting, wide),
    ...setNotes(setting, wide),
    setTest(setting, wide),
  ];
  if (width >= LEAST_HALVES) {
    const half = (width - GUTTER) / 2;
    const head = { ...setHead(set, setting, half, was, earlier), width: half };
    const rest = stackBlocks([...notes(half), setCaution(setting.caution, half, SMALL)], 1.8);
    const over = ruled(besideBlocks([head, rest], GUTTER), width);
    if (over.height <= MOST_OVER_ROWS * height) return [flowItem(over, { above: BETWEEN, keep: true }), ...runs];
  }
  const said = notes(width).map((block): FlowItem => flowItem(block, { above: GAP, keep: true }));
  return [
    flowItem(ruled(setHead(set, setting, width, was, earlier), width), { above: BETWEEN, keep: true }),
    flowItem(setCaution(setting.caution, width, SMALL), { above: GAP, keep: true }),
    ...runs.map((item, i): FlowItem => (i === runs.length - 1 ? { ...item, keep: true } : item)),
    ...said.slice(0, -1),
    { ...said.at(-1)!, keep: false },
  ];
}

function setSetting(set: DryfitSet, setting: SetSetting, { width, height }: Rect, earlier: Earlier | null): FlowGroup {
  if (width >= LEAST_HALVES) {
    const block = setInHalves(set, setting, width, earlier);
    if (block.height <= height) return [flowItem(block, { above: BETWEEN })];
  }
  return setInRows(set, setting, { width, height }, earlier);
}

function setHandWork(set: DryfitSet, width: Mm): FlowGroup[] {
  if (set.handWork.length === 0) return [];
  const title = setLines(
    [
      ...words("By hand, after every groove of the part", TITLE, "bold"),
      BREAK,
      ...words("A notched edge is no datum any more: all settings that need it come first."),
    ],
    width,
  );
  const rows = [...set.handWork]
    .sort((a, b) => byMark(a.mark, b.mark) || a.features[0]! - b.features[0]!)
    .map((work): Row => {
      const part = partOf(set, work.mark);
      return { cells: [[glue([tick(), word(work.mark, FIGURE, "bold")])], words(part.name), words(work.text)] };
    });
  const table = setTable([{ head: "Part" }, { head: "Name" }, { head: "Work", grow: 1 }], rows, width);
  return loosely([
    flowItem(ruled(title, width), { above: BETWEEN, keep: true }),
    ...table.map((item, i) => (i === 0 ? { ...item, above: GAP } : item)),
  ]);
}

/**
 * All that is set up at a machine, in its order: sizing, grooves, what is done by hand after them, drilling. `older`: the
 * set whose figures these are laid beside; what changed stands in clouds.
 */
export function drawSettings(set: DryfitSet, older: DryfitSet | null = null): Draft[] {
  const space = drawingSpace(set);
  const earlier = earlierOf(set, older);
  const blocks = [
    ...sizingGroups(set, space),
    ...setIntro(set, space),
    ...set.settings.map((setting) => setSetting(set, setting, space, earlier)),
    ...setHandWork(set, space.width),
    ...drillingGroups(set, space),
  ];
  return blocks.length === 0
    ? []
    : numberDrafts(
        "settings",
        "Settings",
        flowEvenly(blocks, () => [space]),
      );
}
