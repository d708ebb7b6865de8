/** The example projects as a build leaves them: whole, the same bytes twice, every link leads somewhere, and a browser finds nothing wrong. */

import { execFileSync } from "node:child_process";
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { dirname, join, relative } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { parse } from "jsonc-parser";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { buildJob, type Run } from "../../src/build.ts";
import { drawBundle } from "../../src/drawings/bundle.ts";
import { setSchema } from "../../src/set/schema.ts";
import { openBrowser } from "../support/browser.ts";
import { digests } from "../support/digests.ts";
import { EXAMPLES, exampleFile, testFile } from "../support/jobs/examples.ts";
import { checkLayout } from "../support/layouts/layout-checker.ts";
import { readPdf } from "../support/pages/pdf.ts";
import { IS_WHOLE } from "../support/runs.ts";

const quiet = { draft: false, marksFrom: null, report: () => {} };
const MINUTES = 180_000;
const AXE = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
const LOOKED_INTO = "ware-bookcase";
const MARKUP = "markup"; // a project whose every text field holds markup characters

let browser: Browser;
let work: string;
let out: string;
const runs = new Map<string, Run>();

beforeAll(async () => {
  work = mkdtempSync(join(tmpdir(), "dryfit-examples-"));
  out = join(work, "first");
  for (const name of EXAMPLES) runs.set(name, await buildJob(exampleFile(name), { ...quiet, out }));
  browser = await openBrowser();
}, MINUTES);

afterAll(async () => {
  await browser?.close();
  rmSync(work, { recursive: true, force: true });
});

const setIn = (folder: string) => setSchema.parse(JSON.parse(readFileSync(join(folder, "set.json"), "utf8")));

describe.each(EXAMPLES)("%s", (name) => {
  const folder = (): string => join(out, name);

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

  it("has every file for the reader on the site's first page", () => {
    const files = readdirSync(folder()).filter((file) => /\.(pdf|json)$/.test(file));
    const linked = [...readFileSync(join(folder(), "index.html"), "utf8").matchAll(/href="([^"/]*\.(?:pdf|json))"/g)];
    expect([...new Set(linked.map(([, href]) => href!))].sort()).toEqual(files.sort());
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
  const second = join(work, "second");
  // All of them when everything is proved; else the two cases with doors and drawers.
  const names = IS_WHOLE ? EXAMPLES : EXAMPLES.filter((name) => name === "wedging-pair");
  execFileSync(process.execPath, [bin, "build", "--quiet", "--out", second, ...names.map(exampleFile)], {
    cwd: work,
    env: { ...process.env, TZ: "Pacific/Auckland", LANG: "de_DE.UTF-8" },
  });
  for (const name of names) expect(digests(join(second, name)), name).toEqual(digests(join(out, name)));
});

const filesBelow = (folder: string): string[] =>
  readdirSync(folder, { withFileTypes: true }).flatMap((entry) =>
    entry.isDirectory() ? filesBelow(join(folder, entry.name)) : [join(folder, entry.name)],
  );

const ADDRESSES = /(?:\b(?:href|src)="([^"]*)"|url\((?:"([^"]*)"|([^")]*))\))/g;

it(
  "every link of every page and drawing leads to a file, every anchor to an id",
  () => {
    let seen = 0;
    const idsOf = new Map<string, Set<string>>();
    const idsIn = (file: string): Set<string> => {
      const known = idsOf.get(file);
      if (known) return known;
      const ids = new Set([...readFileSync(file, "utf8").matchAll(/ id="([^"]*)"/g)].map(([, id]) => id!));
      idsOf.set(file, ids);
      return ids;
    };
    for (const file of filesBelow(out).filter((name) => /\.(html|css|svg)$/.test(name))) {
      const text = readFileSync(file, "utf8");
      for (const [whole, a, b, c] of text.matchAll(ADDRESSES)) {
        const address = a ?? b ?? c ?? "";
        if (address.startsWith("data:")) continue;
        const [path = "", anchor] = address.split("#");
        const target = path === "" ? file : join(dirname(file), decodeURIComponent(path));
        const told = `${relative(out, file)}: ${whole.slice(0, 80)}`;
        expect(existsSync(target), told).toBe(true);
        if (anchor !== undefined) expect(idsIn(target).has(anchor), told).toBe(true);
        seen += 1;
      }
    }
    expect(seen).toBeGreaterThan(1000);
  },
  MINUTES,
);

it("an id stands once on a page, whatever drawings it holds", () => {
  for (const file of filesBelow(out).filter((name) => name.endsWith(".html"))) {
    const ids = [...readFileSync(file, "utf8").matchAll(/\sid="([^"]*)"/g)].map(([, id]) => id);
    expect(new Set(ids).size, relative(out, file)).toBe(ids.length);
  }
});

it("every part has its drawing on its page", () => {
  for (const name of EXAMPLES) {
    const pages = filesBelow(join(out, name, "parts"));
    expect(pages.length).toBeGreaterThan(9);
    for (const page of pages) expect(readFileSync(page, "utf8").match(/<svg role="img"/g), page).toHaveLength(1);
  }
});

describe.each([390, 1280])("%i px wide", (width) => {
  // Wide, the jobs differ in their drawings alone: one is looked at, all when everything is proved.
  const jobs = width < 1280 || IS_WHOLE ? EXAMPLES : EXAMPLES.filter((name) => name === LOOKED_INTO);
  const pages = ["index.html", ...jobs.flatMap((name) => [`${name}/index.html`, `${name}/parts/1.html`])];

  it.each(pages)(
    "%s: no network, no sideways scroll, nothing an accessibility checker can find",
    async (page) => {
      const context = await browser.newContext({ viewport: { width, height: 844 }, offline: true });
      const tab = await context.newPage();
      const asked: string[] = [];
      tab.on("request", (request) => asked.push(request.url()));
      const failed: string[] = [];
      tab.on("requestfailed", (request) => failed.push(request.url()));
      await tab.goto(pathToFileURL(join(out, page)).href);
      const scroll = await tab.evaluate("document.fonts.ready.then(() => document.documentElement.scrollWidth)");
      // Nothing inside a drawing depends on the page's width: its words and links are looked into once, of one example unless all is proved. Its thousands of strokes have neither.
      const isLookedInto = width === 1280 && (IS_WHOLE || page.startsWith(LOOKED_INTO));
      const inside = !isLookedInto ? "*" : ":is(path, line, polyline, polygon, rect, circle)";
      await tab.evaluate(`document.querySelectorAll("svg[role=img] ${inside}").forEach((one) => one.remove())`);
      await tab.evaluate(AXE);
      const faults = await tab.evaluate(
        // Contrast is the style sheet's, and is looked at in site-browser.test.ts; here it would weigh each of thousands of figures.
        `axe.run({ exclude: ["svg text", "svg path"] }, { preload: false, rules: { "color-contrast": { enabled: false } } }).then((result) => result.violations.map((fault) => fault.id + ": " + fault.nodes.map((node) => node.html).join(" | ").slice(0, 400)))`,
      );
      await context.close();
      expect(failed).toEqual([]);
      expect(asked.filter((address) => !address.startsWith("file:"))).toEqual([]);
      expect(scroll).toBe(width);
      expect(faults).toEqual([]);
    },
    MINUTES,
  );
});

it(
  "markup in a project's text is text on the page and in its drawings",
  async () => {
    await buildJob(testFile(MARKUP), { ...quiet, out });
    const project = parse(readFileSync(testFile(MARKUP), "utf8")) as { job: { title: string } };
    expect(project.job.title).toMatch(/[<>&"']/);
    const context = await browser.newContext({ offline: true });
    const tab = await context.newPage();
    const alarms: string[] = [];
    tab.on("dialog", (dialog) => {
      alarms.push(dialog.message());
      void dialog.dismiss();
    });
    for (const page of [`${MARKUP}/index.html`, `${MARKUP}/parts/1.html`]) {
      await tab.goto(pathToFileURL(join(out, page)).href);
      const seen = (await tab.evaluate(`({
        scripts: document.querySelectorAll("script, iframe, img, object").length,
        handlers: [...document.querySelectorAll("*")].flatMap((item) => [...item.attributes]).filter(({ name }) => name.startsWith("on")).length,
        text: document.body.textContent,
        lettered: [...document.querySelectorAll("svg text")].map((item) => item.textContent).join(" "),
      })`)) as { scripts: number; handlers: number; text: string; lettered: string };
      expect(seen).toMatchObject({ scripts: 0, handlers: 0 });
      expect(seen.text).toContain(project.job.title);
      expect(seen.lettered).toContain(project.job.title.slice(0, 10));
    }
    await context.close();
    expect(alarms).toEqual([]);
  },
  MINUTES,
);
