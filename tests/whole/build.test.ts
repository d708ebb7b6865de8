/** The whole run: what it writes, twice the same, and what it leaves alone when the piece does not fit. */
import { execFileSync } from "node:child_process";
import { createHash } from "node:crypto";
import { mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { z } from "zod";
import { buildJob, checkJob, type Run } from "../../src/build.ts";
import { drawBundle } from "../../src/drawings/bundle.ts";
import { setSchema } from "../../src/set/schema.ts";
import { EXAMPLES, exampleFile } from "../support/jobs/examples.ts";
import { JOB } from "../support/jobs/project-file.ts";
import { checkLayout } from "../support/layouts/layout-checker.ts";
import { readPdf } from "../support/pages/pdf.ts";

const quiet = { draft: false, marksFrom: null, report: () => {} };

let work: string;
const runs = new Map<string, Run>();

beforeAll(async () => {
  work = mkdtempSync(join(tmpdir(), "dryfit-build-"));
  for (const name of EXAMPLES)
    runs.set(name, await buildJob(exampleFile(name), { ...quiet, out: join(work, "first") }));
});
afterAll(() => rmSync(work, { recursive: true, force: true }));

/** Every file below a folder with a digest of its bytes. */
function digests(folder: string): Record<string, string> {
  const files = readdirSync(folder, { recursive: true, encoding: "utf8" }).sort();
  return Object.fromEntries(
    files
      .filter((name) => statSync(join(folder, name)).isFile())
      .map((name) => [
        name,
        createHash("sha256")
          .update(readFileSync(join(folder, name)))
          .digest("hex"),
      ]),
  );
}

const setIn = (folder: string) => setSchema.parse(JSON.parse(readFileSync(join(folder, "set.json"), "utf8")));

describe.each(EXAMPLES)("%s", (name) => {
  const folder = (): string => join(work, "first", name);

  it("fits, with no failure and no other warning than it is meant to show", () => {
    const run = runs.get(name)!;
    expect(run.ok).toBe(true);
    expect(run.warnings).toEqual([]);
    const told = run.set.checks.filter(({ level }) => level === "failure" || level === "warning");
    // The console's bottom stands free until its frame of lumber comes under it.
    expect(told.map(({ id, level }) => `${level} ${id}`)).toEqual(
      name === "glaze-console" ? ["warning shelf-sag"] : [],
    );
  });

  it("is written whole: four PDFs, a drawing each in svg/, a page a part, set.json", () => {
    const files = Object.keys(digests(folder()));
    expect(files).toEqual(
      expect.arrayContaining(["bundle.pdf", "drawings.pdf", "index.html", "labels.pdf", "set.json", "sticks.pdf"]),
    );
    const set = setIn(folder());
    for (const { mark } of set.parts) expect(files).toContain(`parts/${mark}.html`);
    const { drawings, sticks, longSticks } = drawBundle(set);
    expect(longSticks).toHaveLength(set.sticks.length);
    expect(files.filter((file) => file.startsWith("svg/"))).toEqual(
      [...drawings, ...sticks, ...longSticks].map(({ key }) => `svg/${key}.svg`).sort(),
    );
  });

  it("has one bundle of all pages, no page to be scaled", async () => {
    const [bundle, ...singles] = await Promise.all(
      ["bundle", "drawings", "sticks", "labels"].map((one) => readPdf(readFileSync(join(folder(), `${one}.pdf`)))),
    );
    expect(bundle!.pages).toHaveLength(singles.reduce((sum, { pages }) => sum + pages.length, 0));
    for (const { viewerPreferences } of [bundle!, ...singles])
      expect(viewerPreferences).toMatchObject({ PrintScaling: "None" });
  });

  it("sheet layouts pass a checker that follows the cuts at the saw", () => {
    const set = setIn(folder());
    // Strips of wood come from no sheet.
    const wanted = set.pieces.flatMap(({ id, mark, stock, length, width }) => {
      const sheet = set.stock.find((one) => one.id === stock);
      return sheet === undefined || sheet.sheet === null
        ? []
        : [{ id, mark, stock, length, width, mayTurn: !sheet.grain }];
    });
    const panels = set.parts.filter(({ material }) => set.stock.find(({ id }) => id === material)!.sheet !== null);
    expect(wanted.map(({ mark }) => mark).sort()).toEqual(panels.map(({ mark }) => mark).sort());
    expect(checkLayout(set.sheets, wanted)).toEqual([]);
  });

  it("a sheet too few would not do: the bound is met or one short of what is used", () => {
    const { sheets: cut, boards, stock } = setIn(folder());
    const sheets = [...cut, ...boards];
    for (const { id } of stock) {
      const used = sheets.filter((sheet) => sheet.stock === id);
      expect(used.length).toBeGreaterThan(0);
      expect(used.length - used[0]!.bound).toBeLessThanOrEqual(1);
    }
  });
});

it("the same files give the same bytes, in another time zone and run from another folder", () => {
  const bin = fileURLToPath(new URL("../../bin/dryfit.js", import.meta.url));
  const out = join(work, "second");
  execFileSync(process.execPath, [bin, "build", "--quiet", "--out", out, ...EXAMPLES.map(exampleFile)], {
    cwd: work,
    env: { ...process.env, TZ: "Pacific/Auckland", LANG: "de_DE.UTF-8" },
  });
  expect(digests(out)).toEqual(digests(join(work, "first")));
});

it("set.json is documented by a schema for other programs", async () => {
  const schema = `${JSON.stringify(z.toJSONSchema(setSchema), null, 2)}\n`;
  await expect(schema).toMatchFileSnapshot("../../shared/set.schema.json");
});

describe("a piece that fails its checks", () => {
  /** The dado cutter of this shop is too narrow, and its one bit too short. */
  const toolless = JOB.replace(
    '"unit": "in",',
    '"unit": "in", "tooling": { "saw": { "dado": { "most": "1/2" } }, "router": { "bits": [{ "name": "short straight bit", "diameter": "1/8", "reach": "1/8" }] } },',
  );
  const project = (text: string): string => {
    const file = join(work, "box.json");
    writeFileSync(file, text);
    return file;
  };

  /** A folder with a good set of the piece as it was before. */
  async function builtBefore(folder: string): Promise<string> {
    const out = join(work, folder);
    const good = await buildJob(project(JOB), { ...quiet, out });
    expect([good.ok, good.folder]).toEqual([true, join(out, "box")]);
    return out;
  }

  it("is not written; the last good output stays as it was", async () => {
    const out = await builtBefore("third");
    const before = digests(out);
    const bad = await buildJob(project(toolless), { ...quiet, out });
    expect([bad.ok, bad.folder]).toEqual([false, null]);
    expect(bad.set.checks.filter(({ level }) => level === "failure").map(({ id }) => id)).toContain("no-tool");
    expect(digests(out)).toEqual(before);
  });

  it("is written as a draft on request, every drawing marked, and still fails", async () => {
    const out = await builtBefore("fourth");
    const before = digests(join(out, "box"));
    const draft = await buildJob(project(toolless), { ...quiet, draft: true, out });
    expect([draft.ok, draft.folder]).toEqual([false, join(out, "box", "draft")]);
    const bundle = await readPdf(readFileSync(join(out, "box", "draft", "bundle.pdf")));
    for (const page of bundle.pages) {
      expect(page.texts.map(({ text }) => text).join(" "), page.label).toContain("DRAFT");
    }
    expect(digests(join(out, "box"))).toMatchObject(before);
  });

  it("check alone writes nothing, whether it fits or not", () => {
    const before = digests(work);
    expect(checkJob(exampleFile("ware-bookcase"), quiet).ok).toBe(true);
    expect(digests(work)).toEqual(before);
    expect(checkJob(project(toolless), quiet).ok).toBe(false);
    expect({ ...digests(work), "box.json": "" }).toEqual({ ...before, "box.json": "" });
  });
});
