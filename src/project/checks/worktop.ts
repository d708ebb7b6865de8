/** Worktops: do they lie on cases that carry them, is the stock right, and are its boards wide and long enough? */
import { formatLengthWithUnit, isSame, type Mm, SAME } from "../../base/length.ts";
import type { Problem } from "../../base/problem.ts";
import type { Case } from "../case.ts";
import { LEAST_PANEL, MILLING } from "../defaults.ts";
import { nearest } from "../file/nearest.ts";
import { designProblem, inputProblem } from "../file/problems.ts";
import { choice, quote } from "../file/words.ts";
import type { Project } from "../project.ts";
import type { Stock } from "../stock.ts";
import type { Worktop } from "../worktop.ts";
import { gluedUp } from "../worktop-boards.ts";
import { overhangsOf, thicknessIn } from "./clear-inside.ts";

/** Cases under one worktop stand no farther apart: their frames may stand out between them (common practice, no source). */
const APART: Mm = 25;

type Add = (key: string, found: string, expected: string, remedy: string) => void;
type Faults = { input: Add; design: Add; show: (length: Mm) => string };

export function checkWorktops(project: Project): Problem[] {
  const problems: Problem[] = [];
  const covered = new Set<string>();
  const names = new Set(project.cases.map(({ name }) => name));
  for (const top of project.worktops) {
    const add =
      (make: typeof inputProblem): Add =>
      (key, found, expected, remedy) => {
        problems.push(make(project, key === "" ? top.path : `${top.path}.${key}`, found, expected, remedy));
      };
    const faults: Faults = {
      input: add(inputProblem),
      design: add(designProblem),
      show: (length) => formatLengthWithUnit(length, project.unit),
    };
    if (names.has(top.name)) {
      const found = `a worktop ${quote(top.name)}, which is a name already given`;
      faults.input("name", found, "a name of its own", 'give it a "name"');
    }
    names.add(top.name);
    checkMaterial(top, project, faults);
    const cases = casesUnder(top, project, covered, faults);
    if (cases.length < top.over.length) continue;
    checkCarried(top, cases, faults);
    checkSize(top, cases, project, faults);
  }
  return problems;
}

function casesUnder(top: Worktop, project: Project, covered: Set<string>, { input }: Faults): Case[] {
  const known = project.cases.map(({ name }) => name);
  return top.over.flatMap((name, i) => {
    const found = project.cases.find((one) => one.name === name);
    if (found === undefined) {
      const near = nearest(name, known);
      const remedy = near === null ? "name a case of the job" : `did you mean ${quote(near)}?`;
      input(`over[${i}]`, `there is no case ${quote(name)}`, choice(known), remedy);
      return [];
    }
    if (covered.has(name)) {
      input(`over[${i}]`, `a second worktop over ${quote(name)}`, "one worktop over each case", "name it once");
      return [];
    }
    covered.add(name);
    return [found];
  });
}

function checkMaterial(top: Worktop, project: Project, { input, design, show }: Faults): void {
  const stock = stockOf(top, project);
  if (stock.boards === null) {
    if (top.boards !== null)
      input("boards", `boards of ${stock.name}, which comes in sheets`, 'no "boards"', "take it out");
    if (top.sawn === "quarter")
      input("sawn", `${stock.name}, which comes in sheets, quarter-sawn`, 'no "sawn"', "take it out");
  } else {
    if (top.lipping !== null)
      input("lipping", `a lipping on ${stock.name}, which comes in boards`, 'no "lipping"', "take it out");
    if (stock.species === null)
      input(
        "stock",
        `a worktop of ${stock.name}, whose movement is not known`,
        'a stock with its "species": name, tangential and radial movement, source',
        "add the species to the stock, with the figures of a handbook",
      );
  }
  if (top.edge === null) return;
  const { shape, radius, edges } = top.edge;
  const takes = shape === "ogee" ? 2 * radius : radius;
  if (takes > stock.thickness - SAME)
    design(
      "edge.radius",
      `${shape === "ogee" ? "an ogee" : `a ${shape}`} that takes ${show(takes)} off an edge ${show(stock.thickness)} thick`,
      `less than ${show(shape === "ogee" ? stock.thickness / 2 : stock.thickness)}`,
      "choose a smaller cutter",
    );
  const { lipping } = top;
  if (lipping === null && stock.boards === null)
    design(
      "edge",
      `a shaped edge on ${stock.name}, whose plies would show`,
      "a lipping to cut it in",
      'add a "lipping", or take "edge" out',
    );
  const bare = edges.filter((edge) => lipping !== null && !lipping.edges.includes(edge));
  if (bare.length > 0)
    design(
      "edge.edges",
      `a shaped edge at the ${choice(bare).replaceAll('"', "")}, which has no lipping`,
      "shaped edges only where there is a lipping",
      "name the edge under both",
    );
  if (lipping !== null && takes > lipping.thickness + SAME)
    design(
      "edge.radius",
      `a shape that takes ${show(takes)} off a lipping ${show(lipping.thickness)} thick`,
      `at most ${show(lipping.thickness)}`,
      "choose a smaller cutter, or a thicker lipping",
    );
}

const stockOf = (top: Worktop, project: Project): Stock => project.stock.find(({ id }) => id === top.stock)!;

/** The cases stand beside each other, their upper faces in one plane, each with something to screw through. */
function checkCarried({ name }: Worktop, cases: readonly Case[], { design, show }: Faults): void {
  const upper = ({ at, height }: Case): Mm => at[2] + height;
  const [first] = cases as [Case];
  for (const one of cases) {
    if (!isSame(upper(one), upper(first)) || !isSame(one.at[1], first.at[1])) {
      design(
        "over",
        `${quote(one.name)} ${isSame(one.at[1], first.at[1]) ? `is ${show(upper(one))} high where it stands, ${quote(first.name)} ${show(upper(first))}` : `does not stand in line with ${quote(first.name)}`}`,
        "cases in one line, and of one height",
        "a worktop for each, or other sizes",
      );
    }
    const beside = one.frame?.over?.find((name) => cases.every((other) => other.name !== name));
    if (beside !== undefined)
      design(
        "over",
        `${quote(one.name)} without ${quote(beside)}, which stands behind the same face frame`,
        "all cases of one frame",
        `name ${quote(beside)} as well`,
      );
    if (one.top.fit === "lowered" && one.top.fillers === null) {
      design(
        "over",
        `the top panel of ${quote(one.name)} lies ${show(one.top.down)} below ${quote(name)}, with nothing between`,
        "filler strips, a flush top panel or stretchers to screw it to",
        'write "top": { "fillers": ... } in the case',
      );
    }
  }
  const row = [...cases].sort((a, b) => a.at[0] - b.at[0]);
  row.slice(1).forEach((one, i) => {
    const before = row[i]!;
    const gap = one.at[0] - (before.at[0] + before.quantity * before.width);
    if (gap > APART)
      design(
        "over",
        `${quote(before.name)} and ${quote(one.name)} stand ${show(gap)} apart under ${quote(name)}`,
        `at most ${show(APART)}`,
        "move them together, or make a worktop for each",
      );
  });
}

/** Before the frames are laid: what the boards must give at least. */
function checkSize(top: Worktop, cases: readonly Case[], project: Project, { design, show }: Faults): void {
  const { overhang } = top;
  const out = (one: Case): [Mm, Mm] => overhangsOf(one, thicknessIn(one, project.stock));
  const left = Math.min(...cases.map((one) => one.at[0] - out(one)[0]));
  const right = Math.max(...cases.map((one) => one.at[0] + one.quantity * one.width + out(one)[1]));
  const framed = Math.max(0, ...cases.map((one) => frameThickness(one, project)));
  const length = right - left + overhang.left + overhang.right;
  const width = Math.max(...cases.map(({ depth }) => depth)) + framed + overhang.front + overhang.back;
  const stock = stockOf(top, project);
  if (stock.boards === null) {
    const off = top.lipping?.thickness ?? 0;
    if (width - 2 * off < LEAST_PANEL) design("", `a worktop ${show(width)} deep`, "a deeper one", "more overhang");
    return;
  }
  const { boards, length: glued } = gluedUp(
    top,
    { length, width },
    { boards: stock.boards, jointer: project.tooling.jointer, unit: project.unit, atLeast: (each) => each },
  );
  const [rough, long] = [boards[0]! + MILLING.width, glued + MILLING.length];
  if (rough > stock.boards.width + SAME)
    design(
      "boards",
      `${boards.length} boards ${show(rough)} wide in the rough for ${quote(top.name)}, from boards at most ${show(stock.boards.width)} wide`,
      `at least ${Math.ceil((boards.length * boards[0]!) / (stock.boards.width - MILLING.width) - SAME)} boards`,
      "more boards, or wider stock",
    );
  if (long > stock.boards.length + SAME)
    design(
      "over",
      `boards ${show(long)} long in the rough for ${quote(top.name)}, from boards at most ${show(stock.boards.length)} long`,
      "a worktop no longer than the boards",
      "longer boards, or a worktop for each case",
    );
}

function frameThickness(one: Case, project: Project): Mm {
  return one.frame === null ? 0 : project.stock.find(({ id }) => id === one.stock.stile)!.thickness;
}
