/** The parts of one setting, each with a box to tick, how it lies, and where its cut stops. */
import type { Mm, Unit } from "../../base/length.ts";
import { listInWords } from "../../base/words.ts";
import { crossingGroove, edgeThen, faceWords, isHigh } from "../../set/facing.ts";
import type { DryfitSet, SetPart, SetSetting } from "../../set/schema.ts";
import { byMark, partOf } from "../../set/words.ts";
import { setAbreast } from "../draughting/abreast.ts";
import {
  type Atom,
  type Block,
  BREAK,
  FIGURE,
  figure,
  glue,
  SMALL,
  setLines,
  tick,
  word,
  words,
} from "../draughting/cell.ts";
import { clouded, revisionTag } from "../draughting/cloud.ts";
import type { FlowGroup } from "../draughting/flow.ts";
import { type Earlier, isClouded, revised } from "../draughting/revised.ts";
import type { Column, Row } from "../draughting/table.ts";
import { lieOf } from "./lie.ts";
import { endingAt, type Pass, passesOf } from "./passes.ts";
import { isRunAlike, passBefore } from "./setting-changes.ts";

/** "through", "leave 1/2 uncut at the front edge", or "run into the groove for 5, which begins 15 from the bottom end, not past its far wall". */
function runAtoms(part: SetPart, run: Pass, unit: Unit): Atom[] {
  if (run.stops.length === 0) return words("through");
  return run.stops.flatMap((stop, i) => {
    const met = crossingGroove(part, endingAt(run, stop.edge), isHigh(stop.edge) ? 1 : 0);
    const from = edgeThen(part, stop.edge);
    const told =
      met === undefined
        ? [glue([word("leave"), figure(stop.leave, unit), word("uncut")]), glue(words(`at the ${from}`))]
        : [
            ...words(`run into the groove for ${met.holds}, which begins`),
            glue([figure(stop.leave, unit), word("from")]),
            ...words(`the ${from}, not past its far wall`),
          ];
    return [...(i > 0 ? [BREAK] : []), ...told];
  });
}

/** Where the blocks stand, told once for all runs that have one alike: a router's cut that stops at the near end begins there. */
export function setBlocks(set: DryfitSet, setting: SetSetting, width: Mm): Block[] {
  const blocks = passesOf(set, setting).flatMap((run) => run.stops.map(({ edge, block }) => ({ run, edge, block })));
  const told = new Map<string, { atoms: Atom[]; ends: string[]; begins: string[] }>();
  for (const { run, edge, block } of blocks) {
    const part = partOf(set, run.mark);
    const from = edgeThen(part, edge);
    const key = `${from} ${block}`;
    const own = told.get(key) ?? { atoms: blockAtoms(setting, from, block, set.job.unit), ends: [], begins: [] };
    (lieOf(part, setting, run).away === edge ? own.ends : own.begins).push(run.mark);
    told.set(key, own);
  }
  if (told.size === 0) return [];
  const sorted = (marks: readonly string[]): string[] => [...new Set(marks)].sort(byMark);
  const list = (marks: readonly string[]): string => listInWords(sorted(marks));
  const does = (marks: readonly string[], verb: string): string[] =>
    marks.length === 0 ? [] : [`${list(marks)} ${verb}${sorted(marks).length === 1 ? "s" : ""} there`];
  const atoms = [...told.values()].flatMap((one, i): Atom[] => {
    const who =
      setting.tool === "table saw"
        ? list([...one.ends, ...one.begins])
        : [...does(one.ends, "end"), ...does(one.begins, "begin")].join("; ");
    return [...(i > 0 ? [BREAK] : []), ...one.atoms, ...words(`${who}.`, SMALL)];
  });
  return [setLines(atoms, width)];
}

function blockAtoms({ tool }: SetSetting, from: string, block: Mm, unit: Unit): Atom[] {
  const where = tool === "table saw" ? "beyond the mark:" : `${block < 0 ? "outside" : "inside"} the ${from}:`;
  return [word("Block", SMALL, "bold"), figure(Math.abs(block), unit), ...words(where, SMALL)];
}

/** What a part needs beside, told once for all that need it. */
export function setNotes({ runs }: SetSetting, width: Mm): Block[] {
  const notes = [...new Set(runs.flatMap((run) => run.notes))];
  if (notes.length === 0) return [];
  const told = notes.flatMap((note, i): Atom[] => {
    const marks = runs.filter((run) => run.notes.includes(note)).map(({ mark }) => mark);
    const list = [...new Set(marks)].sort(byMark).join(", ");
    return [...(i > 0 ? [BREAK] : []), word(`${list}:`, SMALL, "bold"), ...words(`${note}.`, SMALL)];
  });
  return [setLines(told, width)];
}

/** What the runs are laid beside; `isReset`: the setting's own figures changed. */
export type RunChanges = { earlier: Earlier; isReset: boolean } | null;

/** The row's mark and its cut; a part that an earlier set ran otherwise stands in a cloud, and so does a stop that moved. */
function runCells(set: DryfitSet, setting: SetSetting, run: Pass, changes: RunChanges): { mark: Atom; cut: Atom[] } {
  const mark = word(run.mark, FIGURE, "bold");
  const cut = runAtoms(partOf(set, run.mark), run, set.job.unit);
  const ticked = (atoms: Atom[]): Atom => glue([tick(), ...atoms]);
  if (changes === null) return { mark: ticked([mark]), cut };
  const { earlier, isReset } = changes;
  const before = passBefore(set, earlier, run);
  const then = before === null ? [] : [runAtoms(partOf(earlier.set, run.mark), before.pass, earlier.set.job.unit)];
  const told = revised(cut, then);
  const tag = revisionTag(earlier.letter);
  // Where the machine's own figure changed, that is told there, once for all its parts.
  if (before === null || !(isReset || isRunAlike(setting, run, before)))
    return { mark: ticked([clouded(mark, tag)]), cut: told };
  return { mark: ticked([mark, ...(isClouded(told, cut) ? [tag] : [])]), cut: told };
}

/** `tables`: beside each other, the rows in order down the first of them. */
export function setRuns(set: DryfitSet, setting: SetSetting, width: Mm, changes: RunChanges, tables = 1): FlowGroup {
  const isSaw = setting.tool === "table saw";
  const rows = passesOf(set, setting)
    .sort((a, b) => byMark(a.mark, b.mark) || a.feature - b.feature)
    .map((run): Row => {
      const part = partOf(set, run.mark);
      const lie = lieOf(part, setting, run);
      const { mark, cut } = runCells(set, setting, run, changes);
      return {
        cells: [
          [mark],
          words(part.name),
          words(faceWords(part, run.face)),
          words(edgeThen(part, run.datum)),
          words(faceWords(part, lie.away)),
          cut,
        ],
      };
    });
  const columns: Column[] = [
    { head: "Part" },
    { head: "Name", grow: 1 },
    { head: isSaw ? "Face down" : "Face up" },
    { head: isSaw ? (setting.carrier === "sled" ? "To the stop" : "To the fence") : "Datum" },
    { head: isSaw ? "Goes first" : "Far end" },
    { head: "Cut", most: 44, grow: 1 },
  ];
  return setAbreast(columns, rows, width, tables);
}
