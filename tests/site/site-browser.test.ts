/** The site as a browser shows it: opened from a folder, no network, at the width of a phone and of a desk. */
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { pathToFileURL } from "node:url";
import type { Browser, BrowserContext, Page as Tab } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { writeSite, writeSiteIndex } from "../../src/site/site.ts";
import { plainSvg, sitePages, siteSet } from "../fixtures/site-set.ts";
import { missingLibraries, openBrowser } from "../support/browser.ts";

const MINUTE = 60_000;
const AXE = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
const WIDTHS = [390, 1280];
const DRAFT = "draft/index.html";
const PAGES = ["index.html", "glaze-box/index.html", "glaze-box/parts/1.html", "glaze-box/parts/4.html", DRAFT];

let browser: Browser;
let folder: string;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "dryfit-site-"));
  const entry = { title: "Glaze box", number: "K-7", revision: "B", unit: "in" as const };
  const put = (under: string, files: Map<string, string | Uint8Array>): void => {
    for (const [name, content] of files) {
      const file = join(folder, under, name);
      mkdirSync(dirname(file), { recursive: true });
      writeFileSync(file, content);
    }
  };
  put(
    "",
    writeSiteIndex([
      { ...entry, name: "glaze-box", draft: false },
      { ...entry, name: "other", draft: true },
    ]),
  );
  put("glaze-box", writeSite(siteSet, sitePages, plainSvg));
  put("draft", writeSite({ ...siteSet, job: { ...siteSet.job, draft: true } }, sitePages, plainSvg));
  browser = await openBrowser();
}, MINUTE);

afterAll(async () => {
  await browser?.close();
  rmSync(folder, { recursive: true, force: true });
});

/** A tab without a network, and what it asked for that was not there. */
async function open(page: string, width: number): Promise<{ context: BrowserContext; tab: Tab; failed: string[] }> {
  const context = await browser.newContext({ viewport: { width, height: 844 }, offline: true });
  const tab = await context.newPage();
  const failed: string[] = [];
  tab.on("requestfailed", (request) => failed.push(request.url()));
  tab.on("request", (request) => {
    if (!request.url().startsWith("file:")) failed.push(request.url());
  });
  tab.on("pageerror", (error) => failed.push(error.message));
  tab.on("console", (message) => failed.push(message.text()));
  await tab.goto(pathToFileURL(join(folder, page)).href);
  return { context, tab, failed };
}

describe.each(WIDTHS)("%i px wide", (width) => {
  test.each(PAGES)(
    "%s: no network, its own lettering, no sideways scroll, nothing an accessibility checker can find",
    async (page) => {
      const { context, tab, failed } = await open(page, width);
      const seen = (await tab.evaluate(`document.fonts.ready.then(() => ({
        scroll: document.documentElement.scrollWidth,
        fonts: [...document.fonts].map((font) => font.status),
        rules: document.styleSheets.length,
      }))`)) as { scroll: number; fonts: string[]; rules: number };
      await tab.evaluate(AXE); // told not to preload: it would fetch the style sheet a second time, which no file may
      const found = (await tab.evaluate(`axe.run({ preload: false }).then((result) => ({
        faults: result.violations.map((fault) => fault.id + ": " + fault.nodes.map((node) => node.html).join(" | ")),
        passed: result.passes.map((rule) => rule.id),
      }))`)) as { faults: string[]; passed: string[] };
      await context.close();
      expect(failed).toEqual([]);
      expect(seen).toEqual({ scroll: width, fonts: ["loaded", "loaded"], rules: 1 });
      expect(found.faults).toEqual([]);
      // The checker really looked: these rules apply to every page.
      expect(found.passed).toEqual(
        expect.arrayContaining(["color-contrast", "document-title", "html-has-lang", "region"]),
      );
    },
    MINUTE,
  );
});

test(
  "a thumb reaches the next part: the links stay at the lower edge and are big enough",
  async () => {
    const { context, tab } = await open("glaze-box/parts/2.html", 390);
    const box = await tab.locator('a[rel="next"]').boundingBox();
    await tab.locator('a[rel="next"]').click();
    const heading = (await tab.locator("h1").textContent()) ?? "";
    await context.close();
    expect(heading.replace(/\s+/g, " ")).toBe("3 bottom");
    expect(box!.y + box!.height).toBeLessThanOrEqual(844);
    expect(box!.y).toBeGreaterThan(844 / 2);
    expect(box!.height).toBeGreaterThanOrEqual(44); // common practice, no source: a thumb's width on a phone
    expect(box!.width).toBeGreaterThanOrEqual(44);
  },
  MINUTE,
);

test(
  "print leaves the navigation out and keeps the drawing inside the page",
  async () => {
    const { context, tab } = await open("glaze-box/parts/2.html", 718); // A4 less two margins of 10 mm, in px
    await tab.emulateMedia({ media: "print" });
    const seen = (await tab.evaluate(`({
      hidden: [...document.querySelectorAll("nav, .up")].map((item) => getComputedStyle(item).display),
      scroll: document.documentElement.scrollWidth,
    })`)) as { hidden: string[]; scroll: number };
    await context.close();
    expect(seen).toEqual({ hidden: ["none", "none"], scroll: 718 });
  },
  MINUTE,
);

test("a browser that lacks system libraries is told which Debian packages hold them", () => {
  expect(
    missingLibraries("/x/chromium: error while loading shared libraries: libnspr4.so: cannot open shared object file"),
  ).toBe(
    "The browser for the site's tests cannot start: libnspr4.so is missing (Debian package libnspr4). Install a browser (apt-get install chromium), or what the packaged one needs: apt-get install libnss3 libnspr4 libexpat1",
  );
  expect(missingLibraries("Target page, context or browser has been closed")).toBeNull();
});
