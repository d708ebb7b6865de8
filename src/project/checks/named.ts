/** Parts that the job names, by role or id: joints chosen for them, and finished glue-ups. Is there such a part, and do the two meet? */
import type { Problem } from "../../base/problem.ts";
import { choiceInWords } from "../../base/words.ts";
import type { Case, JointChoice } from "../case.ts";
import { nearest } from "../file/nearest.ts";
import { inputProblem } from "../file/problems.ts";
import { choice as choiceOf, quote } from "../file/words.ts";
import { isFor, mayChoose, type Pair, pairsIn, placesIn } from "../places.ts";
import type { Project } from "../project.ts";

export const checkNamed = (project: Project): Problem[] => [...checkChoices(project), ...checkFinished(project)];

const unique = <T>(list: readonly T[]): T[] => [...new Set(list)];

/** Words by which a case's parts are named: roles first. */
const wordsOf = (design: Case): string[] => {
  const places = placesIn(design);
  // A shared side is the other case's, and still this one's left side to what enters it.
  const shared = design.shares === null ? [] : ["side-left"];
  return unique([...places.map(({ role }) => role), ...places.map(({ id }) => id), ...shared]);
};

const rolesOf = (cases: readonly Case[]): string[] => unique(cases.flatMap(placesIn).map(({ role }) => role));

const casesInWords = (cases: readonly Case[]): string =>
  cases.length === 1 ? quote(cases[0]!.name) : "any case of the job";

function unknownPart(project: Project, path: string, word: string, cases: readonly Case[], known: string[]): Problem {
  const near = nearest(word, known);
  return inputProblem(
    project,
    path,
    `there is no part ${quote(word)} in ${casesInWords(cases)}`,
    `${choiceOf(rolesOf(cases))}, or the id of one part, such as ${quote(known.find((one) => /\d/.test(one)) ?? "side-left")}`,
    near === null ? "name a part that is there" : `did you mean ${quote(near)}?`,
  );
}

/** A choice for the whole job has to fit somewhere in it; one of a case's own, in that case. */
function checkChoices(project: Project): Problem[] {
  const byPath = new Map<string, { choice: JointChoice; cases: Case[] }>();
  for (const design of project.cases) {
    for (const choice of design.joints) {
      const entry = byPath.get(choice.path) ?? { choice, cases: [] };
      entry.cases.push(design);
      byPath.set(choice.path, entry);
    }
  }
  return [...byPath.values()].flatMap(({ choice, cases }) => checkChoice(project, choice, cases));
}

function checkChoice(project: Project, choice: JointChoice, cases: readonly Case[]): Problem[] {
  const known = unique(cases.flatMap(wordsOf));
  const unknown = (["entering", "receiving"] as const).filter((end) => !known.includes(choice[end]));
  if (unknown.length > 0)
    return unknown.map((end) => unknownPart(project, `${choice.path}.${end}`, choice[end], cases, known));
  const pairs = cases.flatMap(pairsIn);
  const open = pairs.filter(mayChoose);
  if (open.some((pair) => isFor(choice, pair))) return [];
  const [from, into] = [quote(choice.entering), quote(choice.receiving)];
  const where = casesInWords(cases);
  if (pairs.some((pair) => isFor(choice, pair)) || !open.some((pair) => startsWith(choice, pair))) {
    return [
      inputProblem(
        project,
        choice.path,
        `the joint of ${from} in ${into} in ${where} cannot be chosen`,
        choiceInWords(rolePairs(open)),
        "choose for one of these, or leave it out",
      ),
    ];
  }
  const others = unique(open.filter((pair) => startsWith(choice, pair)).map(({ receiving }) => receiving));
  const names = unique(
    others.map(({ id, role }) => (open.some((pair) => pair.entering.id === choice.entering) ? id : role)),
  );
  return [
    inputProblem(
      project,
      choice.path,
      `${from} does not enter ${into} in ${where}`,
      `${from} in ${choiceOf(names)}`,
      "name a part that it enters",
    ),
  ];
}

const startsWith = (choice: JointChoice, pair: Pair): boolean =>
  isFor({ ...choice, receiving: pair.receiving.role }, pair);

const rolePairs = (pairs: readonly Pair[]): string[] =>
  unique(pairs.map(({ entering, receiving }) => `${quote(entering.role)} in ${quote(receiving.role)}`));

/** Each part in one glue-up, and two parts or more in each. */
function checkFinished(project: Project): Problem[] {
  return project.cases.flatMap((design) => {
    const places = placesIn(design);
    const known = unique([...places.map(({ role }) => role as string), ...places.map(({ id }) => id)]);
    const taken = new Map<string, number>();
    return design.finished.flatMap((group, i) => {
      const problems: Problem[] = [];
      const path = `${design.path}.finished[${i}]`;
      const parts = new Set<string>();
      let isSound = true;
      group.forEach((word, j) => {
        if (!known.includes(word)) {
          isSound = false;
          problems.push(unknownPart(project, `${path}[${j}]`, word, [design], known));
          return;
        }
        const named = places.filter(({ id, role }) => id === word || role === word);
        const again = named.find(({ id }) => parts.has(id) || taken.has(id));
        if (again !== undefined) {
          isSound = false;
          problems.push(
            inputProblem(
              project,
              `${path}[${j}]`,
              `${quote(word)} puts ${quote(again.id)} into a finished glue-up of ${quote(design.name)} for the second time`,
              "each part once",
              "take it out of one of the two",
            ),
          );
        }
        for (const { id } of named) parts.add(id);
      });
      for (const id of parts) taken.set(id, i);
      if (isSound && parts.size < 2) {
        problems.push(
          inputProblem(
            project,
            path,
            `a finished glue-up of ${quote(design.name)} with one part in it`,
            "two parts or more",
            "name the parts that it is glued to, or take it out",
          ),
        );
      }
      return problems;
    });
  });
}
