/** What every step is made of, and the words that steps share. */
import type { Mm, Unit } from "../../base/length.ts";
import { listInWords, pluralOf } from "../../base/words.ts";
import type { GlueTime } from "../../project/project.ts";
import type { DryfitSet, SetAssembly, SetGroup, SetOrder, SetPart, SetStep } from "../../set/schema.ts";

export type StepsInput = Pick<
  DryfitSet,
  | "job"
  | "parts"
  | "joints"
  | "groups"
  | "settings"
  | "drilling"
  | "drawers"
  | "hardware"
  | "handWork"
  | "sheets"
  | "boards"
  | "pieces"
  | "assemblies"
  | "openings"
  | "asBuilt"
  | "stock"
  | "orders"
  | "doors"
  | "sliders"
  | "tracks"
  | "finishes"
  | "worktops"
  | "returns"
> & {
  unit: Unit;
  glue: GlueTime | null;
  throat: Mm; // so far a clamp reaches in from an edge
  /** What a metre of shelf carries, kg, by the case. */
  shelfLoads: ReadonlyMap<string, number>;
};

/** A step before it has its number. `beside`: parts it is done at, which have to be as far as they go. */
export type Draft = Omit<SetStep, "n" | "needs"> & { beside?: string[] };
export type ByMark = ReadonlyMap<string, SetPart>;

export const step = (title: string, text: string[], more: Partial<Draft> = {}): Draft => ({
  title,
  text,
  parts: [],
  settings: [],
  drawings: [],
  hardware: [],
  clamps: null,
  now: [],
  cautions: [],
  boxes: [],
  moves: [],
  ...more,
});

/** The job as if there were nothing in it but one group's parts and what is done to them at the machines and by hand. */
export function ofGroup(kind: SetGroup["kind"], input: StepsInput): StepsInput {
  const group = input.groups.find((one) => one.kind === kind);
  const marks = group?.parts ?? [];
  return {
    ...input,
    parts: input.parts.filter(({ mark }) => marks.includes(mark)),
    settings: input.settings.filter((one) => one.group === group?.n),
    drilling: input.drilling.filter((one) => one.group === group?.n),
    handWork: input.handWork.filter(({ mark }) => marks.includes(mark)),
  };
}

/** The orders of assemblies of one kind. */
export const ofKind = (kind: SetAssembly["kind"], { orders, assemblies }: StepsInput): SetOrder[] =>
  orders.filter(({ assembly }) => assemblies.find(({ name }) => name === assembly)!.kind === kind);

/** Steps that do not say so themselves are done by these drawings; what is bought for them is on the purchase list. */
export const shownBy = (drawings: Draft["drawings"], drafts: readonly Draft[]): Draft[] =>
  drafts.map((draft) => {
    const own = draft.drawings.length > 0 ? draft.drawings : drawings;
    return { ...draft, drawings: [...own, ...(draft.hardware.length > 0 ? (["purchase list"] as const) : [])] };
  });

/** What is fixed on with these assemblies, things of one kind and size together. */
export function hardwareOf(names: readonly string[], { hardware }: Pick<StepsInput, "hardware">): Draft["hardware"] {
  const kinds = new Map<string, Draft["hardware"][number]>();
  for (const { assembly, what, sizes, count, unit } of hardware) {
    if (!names.includes(assembly)) continue;
    const key = JSON.stringify([what, sizes, unit]);
    const before = kinds.get(key)?.count ?? 0;
    kinds.set(key, { what, sizes: [...sizes], count: before + count, unit });
  }
  return [...kinds.values()];
}

export const byMarkIn = (parts: readonly SetPart[]): ByMark => new Map(parts.map((part) => [part.mark, part]));

export const capital = (text: string): string => `${text.charAt(0).toUpperCase()}${text.slice(1)}`;

/** "shelf 5, divider 6 and back 8". */
export const listOf = (marks: readonly string[], byMark: ByMark): string =>
  listInWords(marks.map((mark) => `${byMark.get(mark)!.name} ${mark}`));

/** The same where only the marks matter, parts of one name together: "back 8 and shelves 5, 6 and 7". */
export function namesOf(marks: readonly string[], byMark: ByMark): string {
  const names = new Map<string, string[]>();
  for (const mark of marks) {
    const { name } = byMark.get(mark)!;
    names.set(name, [...(names.get(name) ?? []), mark]);
  }
  return listInWords(
    [...names].map(([name, own]) => `${own.length === 1 ? name : pluralOf(name)} ${listInWords(own)}`),
  );
}

/** What is worked: the kind of the first of its features, for the others are alike. */
export const kindOfWork = (
  { mark, features }: StepsInput["handWork"][number],
  parts: StepsInput["parts"],
): StepsInput["parts"][number]["features"][number]["kind"] =>
  parts.find((part) => part.mark === mark)!.features[features[0]!]!.kind;
