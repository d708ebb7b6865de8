/** The whole run: read, derive, round, plan, audit, draw, write. */
import { join } from "node:path";
import { dryFit } from "./audit/dryfit.ts";
import type { Problem } from "./base/problem.ts";
import { type Bundle, drawBundle } from "./drawings/bundle.ts";
import type { Page, PaperDocument } from "./paper/shape.ts";
import { openThread } from "./plans/layout/thread.ts";
import { planSet, type SetOptions } from "./plans/set.ts";
import { rackText } from "./plans/sheets/rack.ts";
import type { LayoutEffort } from "./project/layout.ts";
import type { Project } from "./project/project.ts";
import { readProject } from "./project/read.ts";
import { type DryfitSet, setSchema } from "./set/schema.ts";
import { drawingAnchor, writeSite, writeSiteIndex } from "./site/site.ts";
import { checkPlace, type Files, readBuiltSets, readOlderSet, writeFiles, writeFolder } from "./writers/files.ts";
import { checkLettering } from "./writers/lettered.ts";
import { writePdf } from "./writers/pdf.ts";
import { hasPageLinks, svgFile, writeSvg } from "./writers/svg.ts";

export type RunOptions = {
  out: string;
  draft: boolean;
  marksFrom: string | null;
  /** The older set, or its folder, since which what changed is printed; its marks are kept. */
  changedSince?: string | null;
  /** How long better layouts are looked for, in place of what the job says. */
  effort?: LayoutEffort | undefined;
  /** Threads that a long search for layouts takes, 1 or 2: they find the same. */
  workers?: number | undefined;
  /** Told after each stage, with its time in milliseconds. */
  report: (stage: string, ms: number) => void;
};

/** `ok`: every check passed. `folder`: where the output is, or null when nothing was written. */
export type Run = { ok: boolean; set: DryfitSet; warnings: Problem[]; folder: string | null };

/** Parts, plans and proof as one plain object. Throws ProblemsFound where the piece cannot be made. */
export function makeSet(project: Project, options: SetOptions): DryfitSet {
  const set = planSet(project, options);
  return { ...set, checks: [...dryFit(set), ...set.checks] };
}

export const hasFailed = (set: DryfitSet): boolean => set.checks.some(({ level }) => level === "failure");

/** The set whose marks are kept: that which --marks-from or --changed-since names. */
function olderSetOf(project: Project, { marksFrom, changedSince }: OlderOptions): DryfitSet | null {
  if (typeof changedSince === "string")
    return readOlderSet(setFileOf(changedSince), project.job.number, "--changed-since");
  return marksFrom === null ? null : readOlderSet(marksFrom, project.job.number, "--marks-from");
}

type OlderOptions = Pick<RunOptions, "marksFrom" | "changedSince" | "effort" | "workers">;

/** Far longer than any layout takes: a safety net, for the clock would make the paper differ from run to run. */
const LONGEST_SEARCH = 600_000; // milliseconds

const layoutOptions = ({ effort, workers = 2 }: OlderOptions): Pick<SetOptions, "effort" | "isLate" | "openThread"> => {
  const start = performance.now();
  return {
    effort,
    isLate: () => performance.now() - start > LONGEST_SEARCH,
    ...(workers > 1 ? { openThread } : {}),
  };
};

const setFileOf = (folderOrFile: string): string =>
  folderOrFile.endsWith(".json") ? folderOrFile : join(folderOrFile, "set.json");

/** The proof, and whether all of it can be drawn and lettered: nothing is written. Throws ProblemsFound. */
export function checkJob(file: string, options: OlderOptions & Pick<RunOptions, "report">): Run {
  const { project, warnings } = timed("read", options, () => readProject(file));
  const olderSet = olderSetOf(project, options);
  const changedOnly = typeof options.changedSince === "string";
  const set = timed("plan and prove", options, () =>
    makeSet(project, { ...layoutOptions(options), draft: false, olderSet, changedOnly }),
  );
  const ok = !hasFailed(set);
  if (ok)
    timed("draw", options, () => checkLettering(Object.values(drawBundle(set, changedOnly ? olderSet : null)).flat()));
  return { ok, set, warnings, folder: null };
}

/** Everything, into out/NAME/; with failed checks only as a draft, into out/NAME/draft/. Throws ProblemsFound. */
export async function buildJob(file: string, options: RunOptions): Promise<Run> {
  const { project, warnings } = timed("read", options, () => readProject(file));
  const olderSet = olderSetOf(project, options);
  const changedOnly = typeof options.changedSince === "string";
  const folder = join(options.out, project.name, options.draft ? "draft" : "");
  checkPlace(options.out, folder, writeSiteIndex([]));
  const set = timed("plan and prove", options, () =>
    makeSet(project, { ...layoutOptions(options), draft: options.draft, olderSet, changedOnly }),
  );
  const ok = !hasFailed(set);
  if (!ok && !options.draft) return { ok, set, warnings, folder: null };

  const bundle = timed("draw", options, () => drawBundle(set, changedOnly ? olderSet : null));
  const files = await timedAsync("write", options, () => filesOf(set, bundle));
  timed("save", options, () => {
    writeFolder(folder, files);
    writeFiles(options.out, writeSiteIndex(readBuiltSets(options.out)));
  });
  return { ok, set, warnings, folder };
}

/** A drawing as it stands in a page of the site. */
const elementOf = (page: Page): string =>
  writeSvg(page, { embedFont: false, idPrefix: `${page.key}-`, hrefOf: drawingAnchor });

async function filesOf(set: DryfitSet, { drawings, sticks, longSticks, rollSticks, labels }: Bundle): Promise<Files> {
  const document = (subject: string, pages: Page[]): PaperDocument => ({
    title: `${set.job.number} ${set.job.title}`,
    subject,
    date: set.job.date,
    pages,
  });
  const files: Files = new Map();
  files.set("bundle.pdf", await writePdf(document("The whole set", [...drawings, ...sticks, ...labels])));
  files.set("drawings.pdf", await writePdf(document("Drawings", drawings)));
  files.set("sticks.pdf", await writePdf(document("Story sticks, full size", sticks)));
  if (rollSticks.length > 0) {
    files.set("sticks-long.pdf", await writePdf(document("Story sticks, full size, for a roll", rollSticks)));
  }
  files.set("labels.pdf", await writePdf(document("Labels, full size", labels)));
  const elements = new Map(drawings.map((page) => [page, elementOf(page)]));
  for (const page of [...drawings, ...sticks, ...longSticks]) {
    const element = elements.get(page);
    const shared = element !== undefined && !hasPageLinks(page.shapes);
    files.set(
      `svg/${page.key}.svg`,
      shared ? svgFile(page, element) : writeSvg(page, { embedFont: true, idPrefix: "" }),
    );
  }
  const site = writeSite(set, drawings, (page) => elements.get(page) ?? elementOf(page));
  for (const [name, content] of site) files.set(name, content);
  files.set("offcuts.json", rackText(set));
  files.set("set.json", `${JSON.stringify(setSchema.parse(set), null, 1)}\n`);
  return files;
}

function timed<T>(stage: string, { report }: Pick<RunOptions, "report">, work: () => T): T {
  const start = performance.now();
  const result = work();
  report(stage, performance.now() - start);
  return result;
}

async function timedAsync<T>(
  stage: string,
  { report }: Pick<RunOptions, "report">,
  work: () => Promise<T>,
): Promise<T> {
  const start = performance.now();
  const result = await work();
  report(stage, performance.now() - start);
  return result;
}
