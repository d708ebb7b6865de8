/** Puts finished files on the disk, whole or not at all, and reads back what earlier builds left there. */
import {
  accessSync,
  constants,
  cpSync,
  existsSync,
  lstatSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  realpathSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from "node:fs";
import { basename, dirname, join, posix } from "node:path";
import { type Problem, ProblemsFound } from "../base/problem.ts";
import { type DryfitSet, setSchema } from "../set/schema.ts";

/** Path inside the folder, with "/", to content. */
export type Files = Map<string, string | Uint8Array>;

/** A folder of output holds this; a folder without it is somebody's own, and is left alone. */
const SET_FILE = "set.json";
/** The draft of a job lies inside the job's folder; each is written without touching the other. */
const DRAFT = "draft";
/** The list of jobs; a page of ours says in its head who wrote it. */
const LIST_PAGE = "index.html";
const PAGE_MARK = '<meta name="generator" content="Dryfit">';

const problem = (found: string, expected: string, remedy: string): Problem => ({
  level: "error",
  kind: "input",
  where: null,
  found,
  expected,
  remedy,
});

const CANNOT: Record<string, string> = {
  EACCES: "permission is denied",
  EPERM: "permission is denied",
  EROFS: "the disk is read-only",
  ENOSPC: "the disk is full",
  EDQUOT: "the disk is full",
  ENOTDIR: "part of that path is a file, not a folder",
  EEXIST: "part of that path is a file, not a folder",
  EISDIR: "a folder stands where a file should go",
  ENOENT: "part of that path is missing",
  ENAMETOOLONG: "the path is too long",
  ELOOP: "its links lead round in a circle",
  EXDEV: "it lies on another disk than the folder around it",
  EBUSY: "it is in use, or a disk of its own",
  ENOTEMPTY: "files were put there meanwhile",
};

const ANOTHER = "give another folder with --out";
const OUT_OF_THE_WAY = `${ANOTHER}, or move those files away`;

function refuseToWrite(path: string, reason: string): never {
  throw new ProblemsFound([
    problem(`${JSON.stringify(path)} cannot be written: ${reason}`, "a folder that can be written", ANOTHER),
  ]);
}

/** The system's refusal as a problem; anything else is a mistake of our own and goes on as it is. */
function orProblem<T>(path: string, work: () => T): T {
  try {
    return work();
  } catch (error) {
    const code = error instanceof Error && "code" in error ? String(error.code) : "";
    const reason = CANNOT[code];
    if (reason === undefined) throw error;
    return refuseToWrite(path, reason);
  }
}

/** Only plain relative paths, and no two that one file system takes for the same. */
function checkPaths(files: Files): void {
  const seen = new Map<string, string>();
  for (const path of files.keys()) {
    if (path !== posix.normalize(path) || path.startsWith("/") || path.startsWith("..") || /[\\\0:]/.test(path)) {
      throw new Error(`File name ${JSON.stringify(path)} is not a plain path inside its folder`);
    }
    const same = path.toLowerCase();
    if (seen.has(same)) throw new Error(`Two files would be written as ${seen.get(same)} and ${path}`);
    seen.set(same, path);
  }
}

function writeInto(folder: string, files: Files): void {
  for (const [path, content] of files) {
    const target = join(folder, path);
    mkdirSync(dirname(target), { recursive: true });
    writeFileSync(target, content);
  }
}

function refuseFile(path: string): never {
  throw new ProblemsFound([
    problem(`${JSON.stringify(path)} is a file, not a folder`, "a folder that can be written", ANOTHER),
  ]);
}

/** Refuses to replace what no build has made. */
function checkOurs(folder: string): void {
  if (!existsSync(folder)) return;
  if (!lstatSync(folder).isDirectory()) refuseFile(folder);
  const inside = readdirSync(folder);
  if (isFile(join(folder, SET_FILE)) || inside.every((name) => name === DRAFT)) return;
  throw new ProblemsFound([
    problem(
      `${JSON.stringify(folder)} holds files that no build has written`,
      `an empty folder, or one with a ${SET_FILE} from an earlier build`,
      OUT_OF_THE_WAY,
    ),
  ]);
}

/** Refuses to write over files that no build has made, in a folder that holds more than ours. One that already is what it will be is no loss. */
function checkBeside(folder: string, files: Files): void {
  const page = join(folder, LIST_PAGE);
  if (isFile(page) && readFileSync(page, "utf8").includes(PAGE_MARK)) return;
  const others = [...files].filter(([path, content]) => {
    const target = join(folder, path);
    if (isFile(target)) return !readFileSync(target).equals(Buffer.from(content));
    return lstatSync(target, { throwIfNoEntry: false }) !== undefined;
  });
  if (others.length === 0) return;
  const names = others.map(([path]) => path).sort();
  throw new ProblemsFound([
    problem(
      `${JSON.stringify(folder)} holds files that no build has written: ${names.join(", ")}`,
      "a folder without them, or one with the list of jobs from an earlier build",
      OUT_OF_THE_WAY,
    ),
  ]);
}

/** Following links; what cannot be looked at is none. */
function isFile(path: string): boolean {
  try {
    return statSync(path).isFile();
  } catch {
    return false;
  }
}

/** The path, or as much of it as is there, is a folder that can be written. */
function checkWritable(path: string): void {
  if (statSync(path, { throwIfNoEntry: false })?.isDirectory()) {
    accessSync(path, constants.R_OK | constants.W_OK | constants.X_OK);
  } else if (lstatSync(path, { throwIfNoEntry: false }) === undefined) {
    checkWritable(dirname(path));
  } else {
    realpathSync(path); // a link to nothing is refused here
    refuseFile(path);
  }
}

/** Whether a job's folder, and the list of jobs beside it, can be written at all: asked before the work, and makes nothing. */
export function checkPlace(out: string, folder: string, list: Files): void {
  if (out === "") {
    throw new ProblemsFound([
      problem('found "" after --out', "the name of a folder", "leave --out off, and the sets go to out/"),
    ]);
  }
  orProblem(folder, () => {
    checkWritable(dirname(folder));
    checkWritable(out);
    const target = existsSync(folder) ? realpathSync(folder) : folder;
    checkOurs(target);
    checkWritable(target);
    checkWritable(dirname(target));
    checkBeside(out, list);
  });
}

/**
 * Replaces the folder by one that holds these files alone; its draft/ is kept. The new folder is made beside the old one and takes its
 * place by a rename, so that a failure at any time leaves the last good output as it was.
 */
export function writeFolder(folder: string, files: Files): void {
  checkPaths(files);
  orProblem(folder, () => {
    const parent = dirname(folder);
    mkdirSync(parent, { recursive: true });
    const target = existsSync(folder) ? realpathSync(folder) : folder; // a link keeps pointing where it did
    checkOurs(target);
    const work = mkdtempSync(join(dirname(target), `.${basename(target)}-`));
    const fresh = join(work, "new");
    const old = join(work, "old");
    let isReplaced = false;
    try {
      mkdirSync(fresh);
      writeInto(fresh, files);
      if (!existsSync(target)) {
        renameSync(fresh, target);
        return;
      }
      if (existsSync(join(target, DRAFT))) cpSync(join(target, DRAFT), join(fresh, DRAFT), { recursive: true });
      renameSync(target, old);
      try {
        renameSync(fresh, target);
      } catch (error) {
        renameSync(old, target);
        throw error;
      }
      isReplaced = true;
    } finally {
      // The old folder is given up only for the new one: if it could not be put back, it stays where it is.
      if (isReplaced || !existsSync(old)) rmSync(work, { recursive: true, force: true });
    }
  });
}

/** Writes the list of jobs and what it needs beside what the folder already holds, each file by a rename. */
export function writeFiles(folder: string, files: Files): void {
  checkPaths(files);
  orProblem(folder, () => {
    mkdirSync(folder, { recursive: true });
    checkBeside(folder, files);
    const work = mkdtempSync(join(folder, ".new-"));
    try {
      writeInto(work, files);
      // The page first: by its mark the rest is known for ours, even if this is cut short.
      const paths = [...files.keys()].sort((a, b) => Number(b === LIST_PAGE) - Number(a === LIST_PAGE));
      for (const path of paths) {
        mkdirSync(dirname(join(folder, path)), { recursive: true });
        renameSync(join(work, path), join(folder, path));
      }
    } finally {
      rmSync(work, { recursive: true, force: true });
    }
  });
}

/** Far above the parts of any job; a mark is read in large figures, so it stays short. */
const HIGHEST_MARK = 999_999;
const MARK = /^[1-9]\d{0,5}$/;

/** The set.json of an earlier build of this job, as a person names it after `option`: its marks are to be kept. */
export function readOlderSet(file: string, jobNumber: string, option = "--marks-from"): DryfitSet {
  const name = JSON.stringify(file);
  let text: string;
  try {
    text = readFileSync(file, "utf8");
  } catch {
    throw new ProblemsFound([
      problem(`${name} cannot be read`, "the set.json of an earlier build", `check the name after ${option}`),
    ]);
  }
  const parsed = setSchema.safeParse(jsonOf(text));
  if (!parsed.success) {
    throw new ProblemsFound([
      problem(
        `${name} is not a set.json that this version reads`,
        "the set.json of an earlier build",
        `leave ${option} out, and every part gets a new mark`,
      ),
    ]);
  }
  const problems = [...checkJobNumber(parsed.data, jobNumber, name, option), ...checkMarks(parsed.data, name)];
  if (problems.length > 0) throw new ProblemsFound(problems);
  return parsed.data;
}

function checkJobNumber({ job }: DryfitSet, jobNumber: string, name: string, option: string): Problem[] {
  if (job.number === jobNumber) return [];
  return [
    problem(
      `${name} is a set of job ${JSON.stringify(job.number)}, and this is job ${JSON.stringify(jobNumber)}`,
      "an earlier set of the same job",
      `check the name after ${option}; or leave it out, and every part gets a new mark`,
    ),
  ];
}

/** No build writes such marks; a hand that mended the file might. */
function checkMarks({ parts, lastMark }: DryfitSet, name: string): Problem[] {
  const seen = new Map<string, number>();
  for (const { mark } of parts) seen.set(mark, 1 + (seen.get(mark) ?? 0));
  const wrong = (found: string): Problem =>
    problem(
      `${name} ${found}`,
      `a mark of its own for each part, a whole number from 1 to ${HIGHEST_MARK}`,
      "give the set.json as it was built",
    );
  const highest = Math.max(0, ...parts.map(({ mark }) => (MARK.test(mark) ? Number(mark) : 0)));
  return [
    ...[...seen].flatMap(([mark, times]) => {
      if (!MARK.test(mark)) return [wrong(`has a part marked ${JSON.stringify(mark)}`)];
      return times > 1 ? [wrong(`has ${times} parts marked ${mark}`)] : [];
    }),
    ...(lastMark >= highest && lastMark <= HIGHEST_MARK ? [] : [wrong(`has ${lastMark} for its last mark`)]),
  ];
}

/** Null where the text is no JSON. */
function jsonOf(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}

const builtSet = setSchema.pick({ job: true }).loose();

/** Null where there is none of ours, or none that can be read. */
function builtJob(file: string): DryfitSet["job"] | null {
  if (!isFile(file)) return null;
  try {
    return builtSet.safeParse(jsonOf(readFileSync(file, "utf8"))).data?.job ?? null;
  } catch {
    return null;
  }
}

/** The jobs that lie finished under the output folder, by name, linked folders too; a folder without a set of ours is no job. */
export function readBuiltSets(out: string): DryfitSet["job"][] {
  if (!existsSync(out)) return [];
  const names = readdirSync(out).filter((name) => !name.startsWith("."));
  return names.sort().flatMap((name) => {
    const job = builtJob(join(out, name, SET_FILE)) ?? builtJob(join(out, name, DRAFT, SET_FILE));
    return job === null ? [] : [{ ...job, name }];
  });
}
