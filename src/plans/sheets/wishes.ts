/** What the job asks of single parts in the layouts, its words turned into marks. */
import { boxToOuter, type Vec } from "../../base/geometry.ts";
import type { Mm } from "../../base/length.ts";
import { type Problem, ProblemsFound } from "../../base/problem.ts";
import { listInWords } from "../../base/words.ts";
import { nearest } from "../../project/file/nearest.ts";
import { inputProblem } from "../../project/file/problems.ts";
import { quote } from "../../project/file/words.ts";
import type { Named } from "../../project/layout.ts";
import type { Project } from "../../project/project.ts";
import type { SetAssembly, SetPart, SetStock } from "../../set/schema.ts";

/** Marks of parts cut from one strip, from its low end on: "x" end to end, "y" side by side. */
export type Strip = { marks: string[]; run: "x" | "y"; must: boolean };

export type LayoutWishes = {
  grain: ReadonlyMap<string, "wish" | "none">;
  together: Strip[];
  oversize: ReadonlyMap<string, { length: Mm; width: Mm }>; // over the finished size
  early: ReadonlySet<string>;
};

export const NO_WISHES: LayoutWishes = { grain: new Map(), together: [], oversize: new Map(), early: new Set() };

type Input = { parts: readonly SetPart[]; assemblies: readonly SetAssembly[]; stock: readonly SetStock[] };

/** Throws ProblemsFound where the job names parts that are not there, or that cannot be cut as it asks. */
export function planLayoutWishes(project: Pick<Project, "layout" | "file" | "lines">, input: Input): LayoutWishes {
  const { grain, together, oversize, early } = project.layout;
  const problems: Problem[] = [];
  const named = (one: Named): SetPart[] => partsNamed(one, input.parts, project, problems);
  const own = <T extends Named>(list: readonly T[]): ReadonlyMap<string, T> =>
    new Map(list.flatMap((one) => named(one).map(({ mark }) => [mark, one] as const)));
  const grains = own(grain);
  const wishes: LayoutWishes = {
    grain: new Map([...grains].map(([mark, one]) => [mark, one.grain])),
    together: together.flatMap((one) => stripOf(one, named(one), input, project, problems)),
    oversize: own(oversize),
    early: new Set(early === null ? [] : named(early).map(({ mark }) => mark)),
  };
  for (const one of oversize) problems.push(...notFromBoards(one, wishes, input, project));
  const taken = wishes.together.flatMap(({ marks }) => marks);
  together.forEach((one, i) => {
    const twice = (wishes.together[i]?.marks ?? []).filter((mark) => taken.indexOf(mark) !== taken.lastIndexOf(mark));
    if (twice.length === 0) return;
    problems.push(
      inputProblem(
        project,
        one.path,
        `${inWords(twice, input.parts)} in two strips`,
        "each part in one strip at most",
        "take it out of one of them",
      ),
    );
  });
  if (problems.length > 0) throw new ProblemsFound(problems);
  return wishes;
}

const inWords = (marks: readonly string[], parts: readonly SetPart[]): string =>
  listInWords([...new Set(marks)].map((mark) => quote(parts.find((one) => one.mark === mark)!.key)));

function partsNamed(
  { path, parts: words }: Named,
  parts: readonly SetPart[],
  project: Pick<Project, "file" | "lines">,
  problems: Problem[],
): SetPart[] {
  const known = [...new Set([...parts.map(({ role }) => role as string), ...parts.map(({ key }) => key)])];
  words.forEach((word, i) => {
    if (known.includes(word)) return;
    const near = nearest(word, known);
    problems.push(
      inputProblem(
        project,
        `${path}[${i}]`,
        `there is no part ${quote(word)} in this job`,
        `a role, such as ${quote(parts[0]!.role)}, or the key of a part, such as ${quote(parts[0]!.key)}`,
        near === null ? "look its key up in set.json" : `did you mean ${quote(near)}?`,
      ),
    );
  });
  return parts.filter(({ role, key }) => words.includes(role) || words.includes(key));
}

/** Boards are cut in the rough already. */
const notFromBoards = (
  one: Named & { length: Mm; width: Mm },
  { oversize }: LayoutWishes,
  { parts, stock }: Input,
  project: Pick<Project, "file" | "lines">,
): Problem[] => {
  const milled = parts.filter(
    ({ mark, material }) => oversize.get(mark) === one && stock.find(({ id }) => id === material)!.boards !== null,
  );
  if (milled.length === 0) return [];
  return [
    inputProblem(
      project,
      one.path,
      `${inWords(
        milled.map(({ mark }) => mark),
        parts,
      )} of solid wood`,
      "parts cut from sheets: what is milled from boards has its allowances already",
      "name panels only, or leave it out",
    ),
  ];
};

/**
 * In the order in which they will be seen. A strip whose grain stands upright is cut with its lower end at the sheet's left: turned up so, what
 * lies higher on the sheet stands farther left.
 */
function stripOf(
  { path, must }: Named & { must: boolean },
  parts: readonly SetPart[],
  { assemblies }: Input,
  project: Pick<Project, "file" | "lines">,
  problems: Problem[],
): Strip[] {
  const fault = (found: string, expected: string, remedy: string): [] => {
    problems.push(inputProblem(project, path, found, expected, remedy));
    return [];
  };
  if (parts.length === 0) return [];
  if (parts.length === 1) return fault("one part alone", "two parts or more in a strip", "name the parts beside it");
  const placed = parts.flatMap((part) => (part.place === null ? [] : [inRoom(part, assemblies)]));
  const materials = [...new Set(parts.map(({ material }) => material))];
  const grains = new Set(placed.map(({ grain }) => grain));
  if (materials.length > 1)
    return fault(
      `parts of ${listInWords(materials.map(quote))} in one strip`,
      "parts of one stock",
      "a strip for each stock",
    );
  if (placed.length < parts.length || grains.size > 1)
    return fault(
      "parts whose grain runs in different directions in one strip",
      "parts that stand with their grain alike",
      "a strip for each direction",
    );
  const spread = (axis: number): Mm => {
    const all = placed.map(({ middle }) => middle[axis]!);
    return Math.max(...all) - Math.min(...all);
  };
  const seen = ([0, 2, 1] as const).reduce((best, axis) => (spread(axis) > spread(best) + 1e-6 ? axis : best));
  const [grain] = grains;
  const run = grain === seen ? "x" : "y";
  const ordered = placed.toSorted((a, b) => a.middle[seen]! - b.middle[seen]!).map(({ mark }) => mark);
  return [{ marks: run === "y" && grain === UPRIGHT && seen === 0 ? ordered.reverse() : ordered, run, must }];
}

const UPRIGHT = 2;

/** Where a part's middle is in the room, and the room's axis that its grain lies along. */
function inRoom(part: SetPart, assemblies: readonly SetAssembly[]): { mark: string; middle: Vec; grain: 0 | 1 | 2 } {
  let box = boxToOuter(part.place!, [
    [0, 0, 0],
    [part.length, part.width, part.thickness],
  ]);
  let along = boxToOuter(part.place!, [
    [0, 0, 0],
    [1, 0, 0],
  ]);
  for (
    let one = assemblies.find(({ name }) => name === part.assembly);
    one !== undefined;
    one = assemblies.find(({ name }) => name === one!.in)
  ) {
    box = boxToOuter(one.place, box);
    along = boxToOuter(one.place, along);
  }
  const middle = box[0].map((low, i) => (low + box[1][i]!) / 2) as unknown as Vec;
  const grain = ([0, 1, 2] as const).find((axis) => along[1][axis] - along[0][axis] > 0.5)!;
  return { mark: part.mark, middle, grain };
}
