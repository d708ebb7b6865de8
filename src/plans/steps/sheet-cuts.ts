/** Which cuts of the sheet layouts a group makes, what waits for a later gate, and what is trimmed to size behind its own. */
import { SAME } from "../../base/length.ts";
import { listInWords } from "../../base/words.ts";
import type { SetGroup } from "../../set/schema.ts";
import { numbersInWords } from "../../set/words.ts";
import { groupOf } from "../groups.ts";
import { groupsOfCuts } from "../sheets/gates.ts";
import type { StepsInput } from "./step.ts";

type Input = Pick<StepsInput, "sheets" | "groups" | "pieces">;
type Own = { sheet: number; cuts: number[]; isAll: boolean };

/** Sheet by sheet those of the groups that are asked for. */
function cutsOf({ sheets, groups }: Input, isAsked: (group: number) => boolean): Own[] {
  return sheets.flatMap((sheet): Own[] => {
    const found = groupsOfCuts(sheet, groups);
    const cuts = sheet.cuts.map(({ n }) => n).filter((n) => isAsked(found.get(n)!));
    return cuts.length === 0 ? [] : [{ sheet: sheet.n, cuts, isAll: cuts.length === sheet.cuts.length }];
  });
}

const numbered = (word: string, numbers: readonly number[]): string =>
  `${word}${numbers.length === 1 ? "" : "s"} ${listInWords(numbers.map(String))}`;

/** "sheets 1 and 3; of sheet 4 cuts 1 to 11". */
function cutsInWords(own: readonly Own[]): string {
  const whole = own.filter(({ isAll }) => isAll).map(({ sheet }) => sheet);
  const some = own.filter(({ isAll }) => !isAll);
  return [
    ...(whole.length === 0 ? [] : [numbered("sheet", whole)]),
    ...some.map(({ sheet, cuts }) => `of sheet ${sheet} ${cuts.length === 1 ? "cut" : "cuts"} ${numbersInWords(cuts)}`),
  ].join("; ");
}

/** When the first group's sheets come apart. */
export function breakDownInWords(input: Input): string[] {
  const first = input.groups[0]!.n;
  const own = cutsOf(input, (group) => group === first);
  const later = cutsOf(input, (group) => group > first);
  const whole = later.filter(({ isAll }) => isAll).map(({ sheet }) => sheet);
  const rest = later.filter(({ isAll }) => !isAll).map(({ sheet }) => sheet);
  const waiting = [
    ...(whole.length === 0 ? [] : [numbered("sheet", whole)]),
    ...(rest.length === 0 ? [] : [`the further cuts of ${numbered("sheet", rest)}`]),
  ];
  const early = freedBefore(input);
  return [
    ...(own.length === 0
      ? []
      : [`Follow the numbered cuts of ${cutsInWords(own)}: skim one edge first, then that edge goes to the fence.`]),
    ...(waiting.length === 0
      ? []
      : [
          `Not yet ${listInWords(waiting)}: what is cut there waits for a measurement, behind the gate that the sheet's page names, and stays whole till then.`,
        ]),
    ...(early.length === 0
      ? []
      : [
          `${listInWords(early)} ${early.length === 1 ? "waits" : "wait"} too, but ${early.length === 1 ? "comes" : "come"} off these sheets with something over: lay ${early.length === 1 ? "it" : "them"} aside with ${early.length === 1 ? "its label" : "their labels"}, untrimmed.`,
        ]),
  ];
}

/** Pieces of later groups that the cuts of an earlier one set free. */
function freedBefore({ sheets, groups }: Input): string[] {
  const first = groups[0]!.n;
  return sheets.flatMap((sheet) => {
    const found = groupsOfCuts(sheet, groups);
    return sheet.parts
      .filter(({ id, mark }) => {
        const by = sheet.cuts.find(({ makes }) => makes.includes(id));
        return by !== undefined && found.get(by.n) === first && groupOf(mark, groups).n > first;
      })
      .map(({ id }) => id);
  });
}

/** Behind a later group's gate: the cuts that waited for it, and what is trimmed to size now. */
export function waitedInWords(kind: SetGroup["kind"], input: Input & Pick<StepsInput, "parts">): string[] {
  const group = input.groups.find((one) => one.kind === kind);
  if (group === undefined) return [];
  const own = cutsOf(input, (n) => n === group.n);
  const over = trimmedIn(group, input);
  return [
    ...(own.length === 0 ? [] : [`Now make the cuts that waited for this: ${cutsInWords(own)}.`]),
    ...(over.length === 0
      ? []
      : [
          `${numbersInWords(over.map(Number))} ${over.length === 1 ? "has" : "have"} something over from the sheet: trim ${over.length === 1 ? "it" : "them"} now to the sizes of the cut list, a fresh edge and a fresh end first, all of one distance before fence or stop moves.`,
        ]),
  ];
}

/** Panels of a group that are cut larger than the cut list has them; what a door keeps as horns is told with the door. */
export function trimmedIn(
  { parts: marks }: SetGroup,
  { pieces, parts }: Pick<StepsInput, "pieces" | "parts">,
): string[] {
  return pieces
    .filter(({ mark, kind, state, length, width }) => {
      const part = parts.find((one) => one.mark === mark);
      if (part === undefined || kind !== "panel" || state !== "oversize" || !marks.includes(mark)) return false;
      return part.role !== "doorStile" && (length > part.cut.length + SAME || width > part.cut.width + SAME);
    })
    .map(({ mark }) => mark);
}
