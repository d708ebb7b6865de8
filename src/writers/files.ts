/** Puts finished files on the disk, whole or not at all, and reads back what earlier builds left there. */
import {
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
};

/** The system's refusal as a problem; anything else is a mistake of our own and goes on as it is. */
function orProblem<T>(path: string, work: () => T): T {
  try {
    return work();
  } catch (error) {
    const code = error instanceof Error && "code" in error ? String(error.code) : "";
    const reason = CANNOT[code];
    if (reason === undefined) throw error;
    throw new ProblemsFound([
      problem(
        `${JSON.stringify(path)} cannot be written: ${reason}`,
        "a folder that can be written",
        "give another folder with --out",
      ),
    ]);
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

/** Refuses to replace what no build has made. */
function checkOurs(folder: string): void {
  if (!existsSync(folder)) return;
  if (!lstatSync(folder).isDirectory()) {
    throw new ProblemsFound([
      problem(
        `${JSON.stringify(folder)} is a file, not a folder`,
        "a folder that can be written",
        "give another folder with --out",
      ),
    ]);
  }
  const inside = readdirSync(folder);
  if (inside.includes(SET_FILE) || inside.every((name) => name === DRAFT)) return;
  throw new ProblemsFound([
    problem(
      `${JSON.stringify(folder)} holds files that no build has written`,
      `an empty folder, or one with a ${SET_FILE} from an earlier build`,
      "give another folder with --out, or move those files away",
    ),
  ]);
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
    try {
      const fresh = join(work, "new");
      const old = join(work, "old");
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
    } finally {
      rmSync(work, { recursive: true, force: true });
    }
  });
}

/** Writes single files beside what the folder already holds, each by a rename. */
export function writeFiles(folder: string, files: Files): void {
  checkPaths(files);
  orProblem(folder, () => {
    mkdirSync(folder, { recursive: true });
    const work = mkdtempSync(join(folder, ".new-"));
    try {
      writeInto(work, files);
      for (const path of files.keys()) {
        mkdirSync(dirname(join(folder, path)), { recursive: true });
        renameSync(join(work, path), join(folder, path));
      }
    } finally {
      rmSync(work, { recursive: true, force: true });
    }
  });
}

/** A set.json that a person names: its marks are to be kept. */
export function readOlderSet(file: string): DryfitSet {
  const refuse = (found: string, expected: string, remedy: string): never => {
    throw new ProblemsFound([problem(found, expected, remedy)]);
  };
  const name = JSON.stringify(file);
  let text: string;
  try {
    text = readFileSync(file, "utf8");
  } catch {
    return refuse(`${name} cannot be read`, "the set.json of an earlier build", "check the name after --marks-from");
  }
  const parsed = setSchema.safeParse(jsonOf(text));
  if (parsed.success) return parsed.data;
  return refuse(
    `${name} is not a set.json that this version reads`,
    "the set.json of an earlier build",
    "leave --marks-from out, and every part gets a new mark",
  );
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

/** The jobs that lie finished under the output folder, by name; a folder without a set of ours is no job. */
export function readBuiltSets(out: string): DryfitSet["job"][] {
  if (!existsSync(out)) return [];
  const names = readdirSync(out, { withFileTypes: true }).flatMap((entry) =>
    entry.isDirectory() && !entry.name.startsWith(".") ? [entry.name] : [],
  );
  return names.sort().flatMap((name) => {
    const file = [join(out, name, SET_FILE), join(out, name, DRAFT, SET_FILE)].find((path) => existsSync(path));
    const built = file === undefined ? null : builtSet.safeParse(jsonOf(readFileSync(file, "utf8")));
    return built?.success ? [{ ...built.data.job, name }] : [];
  });
}
