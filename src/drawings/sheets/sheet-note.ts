/** What stands over a sheet layout and under it: which sheet it is, how it is read, and what is kept of it. */
import { formatLengthWithUnit, type Mm, type Unit } from "../../base/length.ts";
import { listInWords } from "../../base/words.ts";
import { keptSize } from "../../set/offcut.ts";
import type { DryfitSet, SetSheet } from "../../set/schema.ts";
import { byMark, numbersInWords, stockOf } from "../../set/words.ts";
import { type Atom, type Block, BREAK, figure, glue, SMALL, setLines, word, words } from "../draughting/cell.ts";
import type { Scale } from "../draughting/scale.ts";
import type { SheetDiagram } from "./sheet-diagram.ts";

export type Noun = "Sheet" | "Board";

const TITLE: Mm = 4.5;

/** Which sheet, of what, and what the plan says of the number of sheets; its scale too, where it shares a drawing. */
export function setTitle(
  set: DryfitSet,
  alike: readonly SetSheet[],
  width: Mm,
  noun: Noun,
  scale: Scale | null,
): Block {
  const [sheet] = alike as [SetSheet];
  const { unit } = set.job;
  const stock = stockOf(set, sheet.stock);
  const length = (mm: Mm): string => formatLengthWithUnit(mm, unit);
  const numbers = alike.map(({ n }) => String(n));
  const name = numbers.length === 1 ? `${noun} ${numbers[0]}` : `${noun}s ${listInWords(numbers)}, cut alike`;
  return setLines(
    [
      ...words(`${name}:`, TITLE, "bold"),
      ...words(
        sheet.offcut === null ? stock.name : `offcut "${sheet.offcut}" of the rack, ${stock.name}`,
        TITLE,
        "bold",
      ),
      BREAK,
      figure(sheet.length, unit, 3),
      word("\u00d7", 3),
      glue([figure(sheet.width, unit, 3), word(`${unit},`, 3)]),
      ...words(
        noun === "Sheet"
          ? `${sheet.offcut === null ? `trim ${length(sheet.trim)} at each edge` : "its edges as they are"}, kerf ${length(sheet.kerf)}.`
          : `${length(stock.boards!.rough)} thick${stock.boards!.dressed ? ", planed as it is bought" : " in the rough"}, kerf ${length(sheet.kerf)}.`,
        3,
      ),
      ...words(`${sheet.boundText}.`, 3, "bold"),
      ...(scale === null ? [] : words(`Scale ${scale.name}.`, 3)),
    ],
    width,
  );
}

const HOW_TO_READ =
  "Circled: the cuts in their order, each from edge to edge of its piece. Fence: from the edge that lies against it, as drawn, to the blade; hatched is waste. Small, at a left end: the name of the strip.";

/** Where the fence is no guide: common practice, no source. */
const OFF_THE_FENCE =
  "Beyond the fence's reach, measure and saw along a clamped straightedge; across the end of a narrow strip use that, or a stop on the sled: never a narrow strip's end against the fence.";

/** Common practice, no source. */
const IN_THE_ROUGH =
  "Sizes are in the rough: what is jointed, planed, ripped and trimmed later is in them. Chalk the pieces first, clear of knots, splits and cracked ends; no board goes to the fence before one edge is straight. Members of one width come from one rip.";

/** Of lumber bought planed; common practice, no source. */
const PLANED =
  "Chalk the pieces first, clear of knots, splits and cracked ends; nothing is planed, and only what is narrower than the lumber is ripped.";

/** Which way up it lies: common practice, no source. */
const GOOD_FACE =
  "Good face up at the table saw, down under a saw that is led over the sheet: the drawing then is its mirror image, so mark the pieces first.";

/** What comes from one strip, in the order in which it is seen, what lies across the grain, and what is not yet at its finished size. */
function asked(
  set: DryfitSet,
  sheet: SetSheet,
  { noun, stands, isAlone }: { noun: Noun; stands: boolean; isAlone: boolean },
): string[] {
  const { layout, stock, pieces: all } = set;
  const { parts, stock: id } = sheet;
  const on = new Set(parts.map((part) => part.id));
  const strips = layout.wishes.filter(({ kind, kept, pieces }) => kind === "together" && kept && on.has(pieces[0]!));
  const across = parts.filter(({ turned }) => turned && stock.find((one) => one.id === id)!.grain);
  const over = parts.filter(({ id: piece }) =>
    all.some((one) => one.id === piece && one.kind === "panel" && one.state === "oversize"),
  );
  const way = stands
    ? { x: "from below upwards", y: "from right to left" }
    : { x: "from left to right", y: "from below upwards" };
  return [
    ...strips.map(
      ({ pieces, run }) =>
        `One strip, ${way[run!]} as drawn: ${pieces.join(", ")}; chalk a line over all of it first, the figure runs through.`,
    ),
    ...(across.length > 0 ? [`Across the grain: ${across.map((part) => part.id).join(", ")}.`] : []),
    // What is milled from boards is sized behind its gate in any case.
    ...(noun === "Sheet" ? waitingWords(set, sheet, over, isAlone) : []),
  ];
}

/** What comes off a sheet too large and is not a later group's; then, of each later group, what has to wait for its gate. */
function waitingWords(
  { groups, sizing }: DryfitSet,
  sheet: SetSheet,
  over: SetSheet["parts"],
  isAlone: boolean,
): string[] {
  return groups.flatMap(({ n, title, parts }): string[] => {
    const larger = over.filter(({ mark }) => parts.includes(mark)).map(({ id }) => id);
    if (n === 1) return larger.length === 0 ? [] : [`With something over, trimmed afterwards: ${larger.join(", ")}.`];
    const cuts = sizing
      .filter(({ group }) => group === n)
      .flatMap((one) => one.cuts.filter((each) => each.sheet === sheet.n).flatMap((each) => each.cuts));
    const waiting = [
      ...(cuts.length === 0
        ? []
        : [
            cuts.length === sheet.cuts.length
              ? "any cut of this sheet"
              : `${cuts.length === 1 ? "cut" : "cuts"} ${numbersInWords(cuts)}, what they divide stays whole`,
          ]),
      ...(larger.length === 0 ? [] : [`the trimming of ${larger.join(", ")}, with something over till then`]),
    ];
    return waiting.length === 0
      ? []
      : [`${isAlone ? "Not" : `On sheet ${sheet.n} not`} before the gate of "${title}": ${waiting.join("; ")}.`];
  });
}

/** How to read it, and what stays. */
export function setNote(
  set: DryfitSet,
  alike: readonly SetSheet[],
  diagram: SheetDiagram,
  width: Mm,
  { noun, scales, stands }: { noun: Noun; scales: { scale: Scale; across: Scale } | null; stands: boolean },
): Block {
  const { unit } = set.job;
  const [sheet] = alike as [SetSheet];
  const offcuts = sheet.offcuts.map((offcut, i): Atom => {
    const { length, width: across } = keptSize(offcut, unit);
    const size = [figure(length, unit, 2.8), word("\u00d7"), figure(across, unit, 2.8)];
    const { label } = set.rack.find(({ id }) => id === offcut.id)!;
    const named = glue([word(label, undefined, "bold"), ...size]);
    return i < sheet.offcuts.length - 1 ? glue([named, word(",")], 0) : named;
  });
  const letter = noun[0]!;
  const renamed = alike.slice(1).map(({ n }) => `${letter}${n}`);
  return setLines(
    [
      ...(scales === null
        ? []
        : words(`Not to scale across: lengths ${scales.scale.name}, widths ${scales.across.name}.`, SMALL, "bold")),
      ...(stands ? words(`${noun} drawn standing: its length is upright.`, SMALL, "bold") : []),
      ...words(
        `${HOW_TO_READ} ${OFF_THE_FENCE}${noun === "Board" ? ` ${stockOf(set, sheet.stock).boards!.dressed ? PLANED : IN_THE_ROUGH}` : stockOf(set, sheet.stock).goodFaces === 1 ? ` ${GOOD_FACE}` : ""}`,
        SMALL,
      ),
      ...alike
        .flatMap((one) => asked(set, one, { noun, stands, isAlone: alike.length === 1 }))
        .flatMap((text) => words(text, SMALL, "bold")),
      ...defectWords(sheet, unit, stands),
      ...(diagram.shortened
        ? words('"5 + 2": part 5 on the first sheet; the table names the two on the others.', SMALL)
        : []),
      ...(diagram.without.length > 0
        ? words(
            `No room here to letter ${listInWords([...diagram.without].sort(byMark))}: the table says which cut makes each.`,
            SMALL,
            "bold",
          )
        : []),
      ...(renamed.length > 0
        ? words(`On the other ${noun.toLowerCase()}s read ${listInWords(renamed)} for ${letter}${sheet.n}.`, SMALL)
        : []),
      ...(offcuts.length > 0 ? [BREAK, ...words("To keep for the rack, each with its label:"), ...offcuts] : []),
    ],
    width,
  );
}

/** Where they are measured from, for the piece must lie on the bench as it is drawn. */
function defectWords({ defects }: SetSheet, unit: Unit, stands: boolean): Atom[] {
  if (defects.length === 0) return [];
  const ranges = defects.map(({ x, y, length, width }) => (stands ? [y, y + width] : [x, x + length]) as [Mm, Mm]);
  const said = ranges.flatMap(([from, to], i): Atom[] => [
    ...(i === 0 ? [] : words(i === ranges.length - 1 ? "and" : ",", SMALL, "bold")),
    figure(from, unit, 2.8),
    ...words("to", SMALL, "bold"),
    figure(to, unit, 2.8),
  ]);
  const end = stands ? "lower" : "left";
  const many = defects.length > 1;
  return [
    ...words(`Hatched both ways: ${many ? "defects" : "a defect"}, at`, SMALL, "bold"),
    ...said,
    ...words(
      `${unit} from the labelled end, which lies at the ${end}. Crosscut beside ${many ? "them" : "it"} first.`,
      SMALL,
      "bold",
    ),
  ];
}
