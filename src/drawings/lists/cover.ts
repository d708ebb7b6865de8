/** The cover: what the piece is, how large, what the set holds, what the checks found, and what to heed before all else. */
import { type Place, toOuter, type Vec } from "../../base/geometry.ts";
import { formatLengthWithUnit, type Mm, SAME } from "../../base/length.ts";
import { listInWords } from "../../base/words.ts";
import { group } from "../../paper/draw.ts";
import type { Rect, Shape } from "../../paper/shape.ts";
import type { DryfitSet, SetAssembly, SetCheck } from "../../set/schema.ts";
import { behindFrame, isTall, standingHeight } from "../../set/standing.ts";
import { formatMass } from "../../set/words.ts";
import { baseOf } from "../cases/base-sizes.ts";
import { groupsOf, isAlone } from "../cases/case-group.ts";
import { rowSizes } from "../cases/case-row.ts";
import { overAll } from "../cases/over-all.ts";
import { placeBlock as placeDrawn } from "../draughting/block.ts";
import { setCaution } from "../draughting/caution.ts";
import { type Atom, type Block, figure, setLines, stackBlocks, TEXT, word, words } from "../draughting/cell.ts";
import type { Draft } from "../draughting/draft.ts";
import { columnsOf, flow, loosely } from "../draughting/flow.ts";
import { drawingSpace } from "../draughting/frame.ts";
import { drawPictorial, pictorialSize } from "../solids/pictorial.ts";
import { moveSolid, type Solid, solidsOf } from "../solids/solid.ts";
import { COLUMN_AIR, type IndexEntry, indexItems, setIndex } from "./drawing-index.ts";
import { olderRevisions, revisionsOf } from "./revisions.ts";

const TITLE: Mm = 7;
const HEADING: Mm = 3.5;
const GAP: Mm = 1.2;
const SECTION_GAP: Mm = 4;
/** Of the width, for the lists, on paper that lies; of the height's least for the picture, on paper held upright: more for the lists where they need it. */
const RIGHT_SHARES = [0.42, 0.5, 0.58] as const;
const LEAST_PICTURES = [45, 38, 32] as const;

const heading = (content: string, width: Mm): Block => setLines(words(content, HEADING, "bold"), width);

/** Every case where it stands in the room. */
const inRoom = (set: DryfitSet): Solid[] =>
  set.assemblies.flatMap((assembly) =>
    solidsOf(set, assembly).map((solid) => moveSolid(solid, (spot) => toOuter(assembly.place as Place, spot))),
  );

function titleOf(set: DryfitSet, width: Mm): Block {
  const { job } = set;
  const facts = [
    `Job ${job.number}`,
    `revision ${job.revision}`,
    job.date,
    ...(job.client === null ? [] : [`for ${job.client}`]),
    ...(job.drawnBy === null ? [] : [`drawn by ${job.drawnBy}`]),
  ].join(" \u00b7 ");
  return stackBlocks([setLines(words(job.title, TITLE, "bold"), width), setLines(words(facts, HEADING), width)], 2.5);
}

/** "36 wide, 30 high, 12 deep, in": each case once, with how many are made and the base under it; then those that stand together. */
function sizesOf(set: DryfitSet, width: Mm): Block {
  const { unit } = set.job;
  const size = (length: Mm, name: string): Atom[] => [figure(length, unit, HEADING, "bold"), word(name, HEADING)];
  const sizes = (x: Mm, y: Mm, z: Mm): Atom[] => [
    ...size(x, "wide,"),
    ...size(z, "high,"),
    ...size(y, `deep, ${unit}`),
  ];
  /** "(with face frame and worktop 56 1/4 wide, 34 1/2 high, 19 1/2 deep)": what becomes more by what is fixed to it. */
  const withAll = (cases: readonly SetAssembly[], [x, y, z]: Vec): Atom[] => {
    const { size: whole, by } = overAll(set, cases);
    const more = (
      [
        [whole[0], x, "wide"],
        [whole[2], z, "high"],
        [whole[1], y, "deep"],
      ] as const
    ).filter(([all, own]) => all > own + SAME);
    if (more.length === 0) return [];
    const told = more.flatMap(([all, , name], i) => size(all, `${name}${i === more.length - 1 ? ")" : ","}`));
    return [...words(`(with ${listInWords(by)}`, HEADING), ...told];
  };
  const cases = groupsOf(set, "case").map(({ drawn, others }) => {
    const [x, y, z] = drawn.size;
    const name = isAlone(set) ? [] : words(`${drawn.name}:`, HEADING, "bold");
    const base = baseOf(set, drawn);
    const up = base === null ? 0 : -base.up[0];
    const based =
      base === null
        ? []
        : [...words("(of the height", HEADING), figure(up, unit, HEADING), ...words("is its plinth)", HEADING)];
    const made = others.length === 0 ? [] : words(`(make ${others.length + 1})`, HEADING);
    return setLines([...name, ...sizes(x, y, z + up), ...withAll([drawn], [x, y, z + up]), ...based, ...made], width);
  });
  const together = rowSizes(set).map(({ cases: row, names, size: [x, y, z] }) =>
    setLines([...words(`${names} together:`, HEADING, "bold"), ...sizes(x, y, z), ...withAll(row, [x, y, z])], width),
  );
  const over = set.assemblies
    .map((frame) => ({ frame, behind: behindFrame(frame, set.assemblies) }))
    .filter(({ behind }) => behind.length > 1)
    .map(({ frame, behind }) =>
      setLines(
        [
          ...words("with one face frame over", HEADING),
          ...words(`${listInWords(behind.map(({ name }) => name))}:`, HEADING, "bold"),
          ...size(frame.size[0], "wide,"),
          ...size(Math.max(...behind.map((one) => one.size[1])) + frame.size[1], `deep, ${unit}`),
        ],
        width,
      ),
    );
  const rows = [...cases, ...together, ...over];
  const mass = setLines(words(`Finished mass without hardware: ${formatMass(set.mass, unit)}`), width);
  return stackBlocks([...rows, mass], GAP);
}

const LEVELS: readonly { level: SetCheck["level"]; one: string; many: string }[] = [
  { level: "failure", one: "failure", many: "failures" },
  { level: "warning", one: "warning", many: "warnings" },
  { level: "note", one: "note", many: "notes" },
];

function countsOf(set: DryfitSet): string {
  const counts = LEVELS.flatMap(({ level, one, many }) => {
    const n = set.checks.filter((check) => check.level === level).length;
    return n === 0 ? [] : [`${n} ${n === 1 ? one : many}`];
  });
  const passed = set.checks.filter((check) => check.level === "ok").length;
  return [...counts, `${passed} passed`].join(", ");
}

/** Failures, then warnings, as many as there is room for; the rest are counted. */
function checksOf(set: DryfitSet, width: Mm, room: Mm): Block {
  const urgent = [
    ...set.checks.filter((check) => check.level === "failure"),
    ...set.checks.filter((check) => check.level === "warning"),
  ];
  const head = [heading("Checks", width), setLines(words(`${countsOf(set)}.`), width)];
  const shown = urgent.map((check) =>
    setLines([word(check.level === "failure" ? "FAILURE" : "WARNING", TEXT, "bold"), ...words(check.text)], width),
  );
  for (let n = shown.length; n >= 0; n--) {
    const left = shown.length - n;
    const rest =
      left === 0 ? [] : [setLines(words(`${n === 0 ? "All" : `${left} more`}: see the drawing of the checks.`), width)];
    const block = stackBlocks([...head, ...shown.slice(0, n), ...rest], GAP);
    if (n === 0 || block.height <= room) return block;
  }
  return stackBlocks(head, GAP);
}

function cautionsOf(set: DryfitSet, width: Mm): Block {
  const tall = set.assemblies.filter((one) => isTall(one, set.assemblies));
  const on = (one: SetAssembly): boolean => set.worktops.some(({ over }) => over.includes(one.name));
  const high = (one: SetAssembly): string =>
    `${formatLengthWithUnit(standingHeight(one, set.assemblies), set.job.unit)} high${on(one) ? " without its worktop" : ""}`;
  const named = isAlone(set)
    ? tall.map((assembly) => `The piece is ${high(assembly)}`).join("")
    : `Tall: ${tall.map((assembly) => `${assembly.name}, ${high(assembly)}`).join("; ")}`;
  return stackBlocks(
    [
      setCaution(
        "The machine's own manual, the local codes and licensed practice come before anything written here. Guards go back on after every groove.",
        width,
      ),
      ...(tall.length === 0
        ? []
        : [
            setCaution(
              `${named}. Anchor to the wall before anything is put on a shelf (27 in, 686 mm, or more, or over three times the depth).`,
              width,
            ),
          ]),
    ],
    GAP,
  );
}

const PRINT_CHECK =
  "Print check: the sticks are full size. Print at 100 %, never fitted to the page, and measure the bars of 100 mm and 4 in on every page before cutting; if they are wrong, enter what they measure in the project file and build again.";

function notesOf(set: DryfitSet, width: Mm): Block {
  return stackBlocks(
    [...set.job.notes.map((note) => setLines(words(note), width)), setLines(words(PRINT_CHECK), width)],
    GAP,
  );
}

function drawPicture(set: DryfitSet, room: Rect): Shape[] {
  const solids = inRoom(set);
  // A picture to know the piece by, to no scale: as large as there is room.
  const [width, height] = pictorialSize(solids);
  const ratio = Math.min(room.width / width, room.height / height);
  const block = drawPictorial(solids, ratio);
  return [
    placeDrawn(block, [room.x + (room.width - block.box.width) / 2, room.y + (room.height - block.box.height) / 2]),
  ];
}

/**
 * The cover, and further drawings of the same name where the lists are too long for it: the index goes on there, and so
 * do older revisions. `index` counts its drawings as if the cover were one.
 */
export function drawCover(set: DryfitSet, index: readonly IndexEntry[]): Draft[] {
  const one = coverOf(set, index);
  if (one.length === 1) return one;
  const more = one.length - 1;
  // Every drawing after the cover is so many later: the numbers move, the lines do not.
  return coverOf(
    set,
    index.map((entry) => ({ ...entry, n: entry.n + more, last: entry.last + more })),
  );
}

/** Of the width, for the words and for the lists, where something tall and narrow is pictured between them, as high as the paper. */
const THIRDS = [0.34, 0.36] as const;
const TALL = 1.6; // times as high as it is wide

/** With as large a picture as leaves the lists their room; where no picture does, the smallest, and the lists go on. */
function coverOf(set: DryfitSet, index: readonly IndexEntry[]): Draft[] {
  const space = drawingSpace(set);
  const [width, height] = pictorialSize(inRoom(set));
  const between = space.width > space.height && height > TALL * width ? coverBetween(set, index, space) : null;
  if (between !== null) return [between];
  const drawn = RIGHT_SHARES.map((share, i) => () => coverWith(set, index, share, LEAST_PICTURES[i]!));
  for (const draw of drawn) {
    const drafts = draw();
    if (drafts.length === 1) return drafts;
  }
  return drawn[0]!();
}

/** The picture between words and lists; null where one of them asks for more than the paper's height. */
function coverBetween(set: DryfitSet, index: readonly IndexEntry[], space: Rect): Draft | null {
  const [left, right] = THIRDS.map((share) => share * space.width) as [Mm, Mm];
  const top = titleOf(set, left);
  const foot = footOf(set, left);
  if (top.height + 2 * SECTION_GAP + foot.height > space.height) return null;
  const { lists, more } = listsOf(set, index, right, space.height);
  if (more.length > 0 || lists.height > space.height) return null;
  return {
    key: "cover",
    name: "Cover",
    bookmark: ["Cover"],
    scale: null,
    shapes: [
      group(top.shapes, { move: [space.x, space.y] }),
      group(foot.shapes, { move: [space.x, space.y + top.height + 2 * SECTION_GAP] }),
      ...drawPicture(set, {
        x: space.x + left + COLUMN_AIR,
        y: space.y,
        width: space.width - left - right - 2 * COLUMN_AIR,
        height: space.height,
      }),
      group(lists.shapes, { move: [space.x + space.width - right, space.y] }),
    ],
  };
}

const footOf = (set: DryfitSet, width: Mm): Block =>
  stackBlocks([sizesOf(set, width), notesOf(set, width), cautionsOf(set, width)], SECTION_GAP);

/** Drawings, revisions and checks one under the other in so much room; `more`: entries of the index that it does not hold. */
function listsOf(
  set: DryfitSet,
  index: readonly IndexEntry[],
  width: Mm,
  room: Mm,
): { lists: Block; more: readonly IndexEntry[] } {
  const revisions = revisionsOf(set, width);
  const told = revisions === null ? [] : [revisions];
  const taken = told.reduce((sum, { height }) => sum + height + SECTION_GAP, 0);
  const least = checksOf(set, width, 0);
  const list = setIndex(index, width, room - least.height - SECTION_GAP - taken);
  const checks = checksOf(set, width, room - list.block.height - SECTION_GAP - taken);
  return { lists: stackBlocks([list.block, ...told, checks], SECTION_GAP), more: list.left };
}

function coverWith(set: DryfitSet, index: readonly IndexEntry[], rightShare: number, leastPicture: Mm): Draft[] {
  const space = drawingSpace(set);
  const isWide = space.width > space.height;
  const right = isWide ? space.width * rightShare : space.width;
  const left = isWide ? space.width - right - COLUMN_AIR : space.width;
  const top = titleOf(set, left);
  const foot = footOf(set, left);
  const listRoom = isWide ? space.height : space.height - top.height - foot.height - leastPicture - 3 * SECTION_GAP;
  const { lists, more: later } = listsOf(set, index, right, listRoom);
  const footY = space.y + space.height - foot.height;
  const listsAt = isWide
    ? ([space.x + left + COLUMN_AIR, space.y] as const)
    : ([space.x, footY - SECTION_GAP - lists.height] as const);
  const pictureTop = space.y + top.height + SECTION_GAP;
  const pictureFoot = isWide ? footY - SECTION_GAP : listsAt[1] - SECTION_GAP;
  const more = moreOfCover(set, later, space);
  const name = (n: number): string => (more.length === 0 ? "Cover" : `Cover ${n} of ${more.length + 1}`);
  return [
    {
      key: "cover",
      name: name(1),
      bookmark: ["Cover"],
      scale: null,
      shapes: [
        group(top.shapes, { move: [space.x, space.y] }),
        ...drawPicture(set, { x: space.x, y: pictureTop, width: left, height: pictureFoot - pictureTop }),
        group(foot.shapes, { move: [space.x, footY] }),
        group(lists.shapes, { move: listsAt }),
      ],
    },
    ...more.map(
      (shapes, i): Draft => ({
        key: `cover-${i + 2}`,
        name: name(i + 2),
        bookmark: ["Cover", name(i + 2)],
        scale: null,
        shapes,
      }),
    ),
  ];
}

/** What the cover had no room for. */
function moreOfCover(set: DryfitSet, left: readonly IndexEntry[], space: Rect): Shape[][] {
  const columns = columnsOf(space, space.width > space.height ? 3 : 2, COLUMN_AIR);
  const width = columns[0]!.width;
  const groups = [indexItems(left, width), olderRevisions(set, width)].filter((items) => items.length > 0);
  return groups.length === 0 ? [] : flow(groups.flatMap(loosely), () => columns);
}
