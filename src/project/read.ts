/** From a project file to a checked project: shape and lengths, then ids, then sense. Everything is looked at before anything is reported. */
import { basename } from "node:path";
import { fileURLToPath } from "node:url";
import { z } from "zod";
import { formatLengthWithUnit, isSame, type Mm, SAME, type Unit } from "../base/length.ts";
import { lengthOf } from "../base/parse-length.ts";
import { type Problem, ProblemsFound } from "../base/problem.ts";
import { casesOf } from "./case/cases.ts";
import type { Case } from "./case.ts";
import { checkCases } from "./checks/case.ts";
import { FOLDER_NAME, isFolderName } from "./checks/folder-name.ts";
import { checkRevisions } from "./checks/revisions.ts";
import { unknownStock } from "./checks/stock-ids.ts";
import { checkTooling, checkTrim } from "./checks/tooling.ts";
import { checkWorktops } from "./checks/worktop.ts";
import { COARSEST_STEP, GLUE, STEP, STEP_OF } from "./defaults.ts";
import { readCoverage } from "./file/coverage.ts";
import { checkShape } from "./file/explain.ts";
import { inputProblem, warning } from "./file/problems.ts";
import { inFileOrder, readSource, type Source, sourceOf } from "./file/source.ts";
import { quote } from "./file/words.ts";
import { layoutOf } from "./job/layout.ts";
import { moistureOf } from "./job/moisture.ts";
import { notchedOver, wallsOf } from "./job/walls.ts";
import { worktopsOf } from "./job/worktops.ts";
import type { AsBuilt, Finish, GlueTime, Job, Project } from "./project.ts";
import { ROLES } from "./role.ts";
import { saidBy } from "./schema/fields.ts";
import { type ProjectFile, projectSchema } from "./schema/project.ts";
import { paperOf } from "./shop/paper.ts";
import { readShop, type Shop } from "./shop/shop.ts";
import { stockTable } from "./shop/stock.ts";
import { toolingOf } from "./shop/tooling.ts";
import type { Stock } from "./stock.ts";
import type { Worktop } from "./worktop.ts";

/** The shop's data lies with the program; a project may lie anywhere. */
const SHARED = fileURLToPath(new URL("../../shared", import.meta.url));

export type ReadProject = { project: Project; warnings: Problem[] };

/** Throws ProblemsFound with everything that is wrong, in the order of the file. */
export const readProject = (file: string, shared: string = SHARED): ReadProject => projectOf(readSource(file), shared);

/** The same from text, as if it stood in a file of this name. */
export const readProjectText = (text: string, file: string): ReadProject => projectOf(sourceOf(text, file), SHARED);

function projectOf(source: Source, shared: string): ReadProject {
  const shop = readShop(shared);
  const unit = unitOf(source.data);
  const { data, problems } = checkShape(source, projectSchema, unit);
  problems.push(...unknownStock(source, Object.keys(shop.stock.entries)));
  problems.push(...checkFileName(source));
  if (data === null || problems.length > 0) throw new ProblemsFound(inFileOrder(problems));

  const project = assemble(data, source, shop, problems);
  if (problems.length > 0) throw new ProblemsFound(inFileOrder(problems));
  const faults = [...checkRevisions(project), ...checkCases(project), ...checkWorktops(project)];
  if (faults.length > 0) throw new ProblemsFound(inFileOrder(faults));
  return { project, warnings: inFileOrder(unmeasured(project)) };
}

const someUnit = z.looseObject({ unit: z.enum(["in", "mm"]) });
const unitOf = (data: unknown): Unit | null => someUnit.safeParse(data).data?.unit ?? null;

const someName = z.looseObject({ job: z.looseObject({ name: z.string() }) });

/** The folder under out/: as the job says, else the file's own name. */
export const nameOf = (source: Source): string =>
  someName.safeParse(source.data).data?.job.name ?? basename(source.file).replace(/\.json$/i, "");

/** A name that the job gives is checked with the file's shape; one taken from the file itself, here. */
function checkFileName(source: Source): Problem[] {
  const own = nameOf(source);
  if (someName.safeParse(source.data).success || isFolderName(own)) return [];
  const found = `the file's name ${quote(own)} cannot name a folder`;
  return [
    inputProblem(
      source,
      "job",
      found,
      saidBy(FOLDER_NAME.error)!.expected,
      'rename the file, or give the job a "name"',
    ),
  ];
}

function assemble(file: ProjectFile, source: Source, shop: Shop, problems: Problem[]): Project {
  const { unit } = file;
  const table = stockTable(shop.stock, { unit, entries: file.stock ?? {} }, source, problems);
  const walls = wallsOf(file);
  const cases = notchedOver(casesOf(file, table, source, problems), walls);
  const tooling = toolingOf(shop.tooling, file.tooling, unit);
  const worktops = worktopsOf(file.worktops, { unit });
  const stock = usedStock(cases, worktops, table);
  problems.push(...checkTooling(tooling, source, "tooling.", unit), ...checkTrim(stock, tooling, source, unit));
  return {
    file: source.file,
    name: nameOf(source),
    job: jobOf(file.job),
    unit,
    step: stepOf(file, source, problems),
    stock,
    tooling,
    paper: paperOf(shop.paper, file.paper, source, unit, problems),
    cases,
    worktops,
    doorway: doorwayOf(file),
    glue: glueOf(file, source, problems),
    layout: layoutOf(file),
    walls,
    floorOut: file.floor === undefined ? null : lengthOf(file.floor.out, unit),
    asBuilt: asBuiltOf(file),
    finishes: finishesOf(file),
    moisture: moistureOf(file.moisture, { source, problems }),
    lines: source.lines,
  };
}

const jobOf = (file: ProjectFile["job"]): Job => ({
  number: file.number,
  title: file.title,
  client: file.client ?? null,
  drawnBy: file.drawnBy ?? null,
  projection: file.projection ?? "third",
  date: file.date,
  revision: file.revision,
  revisions: file.revisions ?? [],
  address: file.address ?? null,
  notes: file.notes ?? [],
});

const doorwayOf = ({ doorway, unit }: ProjectFile): Project["doorway"] =>
  doorway === undefined ? null : { width: lengthOf(doorway.width, unit), height: lengthOf(doorway.height, unit) };

const finishesOf = ({ finish }: ProjectFile): Finish[] =>
  (finish ?? []).map(({ name, kind, parts, coats, coverage, dry, before }, i) => ({
    path: `finish[${i}]`,
    name,
    kind: kind ?? "film",
    roles: parts === undefined ? null : ROLES.filter((role) => parts.includes(role)),
    coats,
    coverage: readCoverage(coverage)!,
    dry,
    before: before ?? false,
  }));

const asBuiltOf = ({ asBuilt, unit }: ProjectFile): AsBuilt[] =>
  Object.entries(asBuilt ?? {}).map(([name, { width, height }]) => ({
    path: `asBuilt.${name}`,
    name,
    width: width === undefined ? null : lengthOf(width, unit),
    height: height === undefined ? null : lengthOf(height, unit),
  }));

function glueOf({ glue }: ProjectFile, source: Source, problems: Problem[]): GlueTime | null {
  if (glue === undefined) return null;
  const openMinutes = glue.openMinutes ?? GLUE.openMinutes;
  const minutesPerJoint = glue.minutesPerJoint ?? GLUE.minutesPerJoint;
  if (minutesPerJoint > openMinutes) {
    problems.push(
      inputProblem(
        source,
        "glue",
        `${minutesPerJoint} minutes for each joint, with glue that waits ${openMinutes}`,
        "time for one joint at least",
        "choose a glue that waits longer, or check the two figures",
      ),
    );
  }
  return { openMinutes, minutesPerJoint, mostJoints: glue.mostJoints ?? GLUE.mostJoints };
}

const isMultiple = (length: Mm, of: Mm): boolean => isSame(length / of, Math.round(length / of));

function stepOf(file: ProjectFile, source: Source, problems: Problem[]): Mm {
  const { step, unit } = file;
  if (step === undefined) return STEP[unit];
  const mm = lengthOf(step, unit);
  const isFine = mm > STEP_OF.mm - SAME && mm < COARSEST_STEP + SAME;
  if (!isFine || !(isMultiple(mm, STEP_OF.in) || isMultiple(mm, STEP_OF.mm))) {
    problems.push(
      inputProblem(
        source,
        "step",
        mm > STEP_OF.mm - SAME
          ? `a rounding step of ${formatLengthWithUnit(mm, unit)}`
          : "a rounding step of less than 0.1 mm",
        "a whole multiple of 1/64 in or of 0.1 mm, at most 1/16 in",
        'write it like "1/16 in", "1/32 in" or "0.1 mm"',
      ),
    );
  }
  return mm;
}

function usedStock(cases: readonly Case[], worktops: readonly Worktop[], table: ReadonlyMap<string, Stock>): Stock[] {
  const ids = new Set([
    ...cases.flatMap(({ stock }) => ROLES.map((role) => stock[role])),
    ...worktops.map(({ stock }) => stock),
  ]);
  return [...ids].flatMap((id) => table.get(id) ?? []);
}

/** Nominal thickness stands in for a measured one, but no size should rest on it unsaid. */
const unmeasured = (project: Project): Problem[] =>
  project.stock
    .filter(({ readings }) => readings.length === 0)
    .map(({ id, nominal }) => {
      const own = `stock.${id}`;
      const user =
        project.cases.find(({ stock }) => Object.values(stock).includes(id)) ??
        project.worktops.find(({ stock }) => stock === id);
      return warning(
        project,
        own in project.lines ? own : `${user?.path ?? ""}.stock`,
        `${quote(id)} has no measured thickness: ${formatLengthWithUnit(nominal, project.unit)}, its nominal one, is used`,
        "the thickness by calliper, for grooves and lengths that fit",
        `measure the sheets and add it to "stock": { ${quote(id)}: { "measured": [ ... ] } }`,
      );
    });
