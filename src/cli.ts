/** The command line: reads the call, runs each job, says what happened. Exit 0 done, 1 the piece cannot be made or fails its checks, 2 the call or the file is at fault. */
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { Command, CommanderError, Option } from "commander";
import pc from "picocolors";
import { formatProblem, type Problem, ProblemsFound } from "./base/problem.ts";
import type { Run } from "./build.ts";
import { checkFolders } from "./project/checks/folders.ts";
import { inFileOrder } from "./project/file/source.ts";
import type { LayoutEffort } from "./project/layout.ts";

/** Where lines go: stages and results to `say`, problems to `complain`. */
export type Terminal = { say: (text: string) => void; complain: (text: string) => void; colours: boolean };

/** The terminal this process runs in. NO_COLOR: any value but an empty one (no-color.org). */
export const terminal = (): Terminal => ({
  say: (text) => process.stdout.write(text),
  complain: (text) => process.stderr.write(text),
  colours: process.stdout.isTTY === true && process.stderr.isTTY === true && !process.env.NO_COLOR,
});

const DONE = 0;
const CANNOT_BE_MADE = 1;
const AT_FAULT = 2;

type CheckOptions = {
  quiet?: true;
  marksFrom?: string;
  changedSince?: string;
  layoutEffort?: LayoutEffort;
  layoutWorkers?: "1" | "2";
};
type BuildOptions = CheckOptions & { out: string; draft?: true };

const version = (): string => {
  const text = readFileSync(new URL("../package.json", import.meta.url), "utf8");
  return (JSON.parse(text) as { version: string }).version;
};

/** Runs one call and gives its exit status. */
export async function main(args: readonly string[], io: Terminal): Promise<number> {
  const statuses: number[] = [];
  const program = new Command("dryfit")
    .description("From one project file to the paper that a maker of plywood casework takes to the saw.")
    .version(version(), "-V, --version", "say the version")
    .helpOption("-h, --help", "say how to call it")
    .helpCommand("help [command]", "say how to call one command")
    .configureOutput({
      writeOut: io.say,
      writeErr: io.complain,
      getOutHasColors: () => io.colours,
      getErrHasColors: () => io.colours,
    })
    .showHelpAfterError("dryfit --help says how to call it.")
    .exitOverride()
    .addHelpText("after", EPILOGUE);

  program
    .command("build")
    .description("prove each job and write its drawings, sticks, labels and site")
    .argument("<file...>", "project files")
    .option("--out <folder>", "where the sets go, each in a folder of its own", "out")
    .option(
      "--draft",
      "write a set that fails its checks too, as a draft in its draft folder, every page marked",
      false,
    )
    .option("--quiet", "no line for each stage, only what is wrong")
    .addOption(layoutEffort())
    .addOption(layoutWorkers())
    .option("--marks-from <set.json>", "keep the marks of an earlier set, so that old labels stay true")
    .option(
      "--changed-since <folder or set.json>",
      "keep the marks of an earlier set, and print labels and sticks of what changed since",
    )
    .helpOption("-h, --help", "say how to call it")
    .action(async (files: string[], options: BuildOptions) => {
      const { marksFrom = null, changedSince = null } = options;
      const runOne: RunOne = async (file, report) =>
        (await stages()).buildJob(file, {
          out: options.out,
          draft: options.draft === true,
          marksFrom,
          changedSince,
          effort: options.layoutEffort,
          workers: workersOf(options),
          report,
        });
      statuses.push(...(await runAll(files, options, io, runOne)));
    });

  program
    .command("check")
    .description("prove each job, try its drawings, and write nothing")
    .argument("<file...>", "project files")
    .option("--quiet", "no line for each stage, only what is wrong")
    .addOption(layoutEffort())
    .addOption(layoutWorkers())
    .option("--marks-from <set.json>", "name parts by the marks of an earlier set")
    .helpOption("-h, --help", "say how to call it")
    .action(async (files: string[], options: CheckOptions) => {
      const { marksFrom = null } = options;
      const runOne: RunOne = async (file, report) =>
        (await stages()).checkJob(file, {
          marksFrom,
          effort: options.layoutEffort,
          workers: workersOf(options),
          report,
        });
      statuses.push(...(await runAll(files, options, io, runOne)));
    });

  try {
    await program.parseAsync(args, { from: "user" });
  } catch (error) {
    if (error instanceof CommanderError) return error.exitCode === 0 ? DONE : AT_FAULT;
    return fail(error, io);
  }
  return Math.max(DONE, ...statuses);
}

const layoutEffort = (): Option =>
  new Option("--layout-effort <effort>", "how long better sheet layouts are looked for, whatever the job says").choices(
    ["quick", "normal", "long"],
  );

const layoutWorkers = (): Option =>
  new Option("--layout-workers <count>", "threads for a long search; the layouts are the same").choices(["1", "2"]);

const workersOf = ({ layoutWorkers: count }: { layoutWorkers?: "1" | "2" }): number | undefined =>
  count === undefined ? undefined : Number(count);

const EPILOGUE = `
A failed build leaves the last good set as it was.
Exit status: 0 done; 1 the piece cannot be made, or fails its checks; 2 the call or a file is at fault.

  dryfit build projects/glaze-console.json
  dryfit check projects/*.json`;

/** Loaded when a job is run: help and a wrong call are answered at once. */
const stages = (): Promise<typeof import("./build.ts")> => import("./build.ts");

type Report = (stage: string, ms: number) => void;
type RunOne = (file: string, report: Report) => Promise<Run>;

/** Every file, whatever became of the one before it. */
async function runAll(files: string[], options: CheckOptions, io: Terminal, runOne: RunOne): Promise<number[]> {
  const clashes = checkFolders(files);
  for (const [option, given] of [
    ["--marks-from", options.marksFrom],
    ["--changed-since", options.changedSince],
  ] as const) {
    if (given !== undefined && files.length > 1) clashes.push(oneFileOnly(option, files.length));
  }
  if (options.marksFrom !== undefined && options.changedSince !== undefined) clashes.push(ONE_OLDER_SET);
  if (clashes.length > 0) {
    complainOf(clashes, io);
    return [AT_FAULT];
  }
  const statuses: number[] = [];
  for (const file of files) statuses.push(await runFile(file, options.quiet === true, io, runOne));
  return statuses;
}

const oneFileOnly = (option: string, files: number): Problem => ({
  level: "error",
  kind: "input",
  where: null,
  found: `${option} with ${files} project files`,
  expected: "one project file: an earlier set belongs to one job",
  remedy: "call it once for each job",
});

const ONE_OLDER_SET: Problem = {
  level: "error",
  kind: "input",
  where: null,
  found: "--marks-from and --changed-since together",
  expected: "one earlier set: --changed-since keeps its marks as well",
  remedy: "leave --marks-from out",
};

async function runFile(file: string, quiet: boolean, io: Terminal, runOne: RunOne): Promise<number> {
  const colour = pc.createColors(io.colours);
  if (!quiet) io.say(`${colour.bold(file)}\n`);
  const report: Report = (stage, ms) => {
    if (!quiet) io.say(colour.dim(`  ${stage.padEnd(16)}${Math.round(ms).toString().padStart(6)} ms\n`));
  };
  try {
    const run = await runOne(file, report);
    complainOf(run.warnings, io);
    const failures = run.set.checks.filter(({ level }) => level === "failure");
    for (const { text } of failures) io.complain(`  ${colour.red("failure")}: ${text}\n`);
    if (!quiet) io.say(`  ${verdict(run, failures.length)}\n`);
    if (!quiet && run.folder !== null) for (const line of reprinted(run)) io.say(`  ${line}\n`);
    if (!run.ok && quiet) io.complain(`  ${verdict(run, failures.length)}\n`);
    return run.ok ? DONE : CANNOT_BE_MADE;
  } catch (error) {
    return fail(error, io);
  }
}

function verdict(run: Run, failures: number): string {
  const warnings = run.set.checks.filter(({ level }) => level === "warning").length;
  const fits = run.ok ? "it fits" : `it fails ${failures === 1 ? "one check" : `${failures} checks`}`;
  const notes = warnings === 0 ? "" : `, ${warnings === 1 ? "one warning" : `${warnings} warnings`} on its checks page`;
  const written = run.folder === null ? (run.ok ? "" : "; nothing is written") : `; the set is in ${run.folder}`;
  return `${fits}${notes}${written}`;
}

/** What is printed anew, and what is to be taken off and thrown away. */
function reprinted({ set }: Run): string[] {
  const { reprint } = set;
  if (reprint === null) return [];
  const list = (what: string, names: string[]): string[] =>
    names.length === 0 ? [] : [`${what}: ${names.join(", ")}`];
  const isNothing = reprint.parts.length + reprint.sticks.length === 0;
  return [
    ...(isNothing ? [`nothing to print anew since revision ${reprint.revision}`] : []),
    ...list(
      "labels printed anew",
      reprint.parts.map(({ mark, why }) => `${mark} (${why.join(", ")})`),
    ),
    ...list(
      "labels withdrawn",
      reprint.withdrawn.map(({ mark, name }) => `${mark} (${name})`),
    ),
    ...list("sticks printed anew", reprint.sticks),
    ...list("sticks withdrawn", reprint.withdrawnSticks),
  ];
}

/** A maker's mistake in a maker's words; our own with its stack, so that it can be mended. */
function fail(error: unknown, io: Terminal): number {
  if (error instanceof ProblemsFound) {
    complainOf(error.problems, io);
    return error.problems.some(({ kind }) => kind === "input") ? AT_FAULT : CANNOT_BE_MADE;
  }
  const text = error instanceof Error ? (error.stack ?? error.message) : String(error);
  io.complain(`Internal error: ${text.replace(/^(?:Error: )?(?:Internal error: )?/, "")}\n`);
  return CANNOT_BE_MADE;
}

function complainOf(problems: Problem[], io: Terminal): void {
  const colour = pc.createColors(io.colours);
  for (const problem of inFileOrder(problems)) {
    const text = formatProblem(problem)
      .replace(/^ {2}error:/m, `  ${colour.red("error")}:`)
      .replace(/^ {2}warning:/m, `  ${colour.yellow("warning")}:`);
    io.complain(`${text}\n`);
  }
}

// Also run as a file of its own: `tsx src/cli.ts`.
if (process.argv[1] === fileURLToPath(import.meta.url))
  process.exitCode = await main(process.argv.slice(2), terminal());
