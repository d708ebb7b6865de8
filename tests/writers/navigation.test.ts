/** A big job stays navigable: bookmarks, page labels, the cover's index and the links from marks to part drawings, as a PDF's reader finds them. */
import { beforeAll, describe, expect, it } from "vitest";
import { drawBundle } from "../../src/drawings/bundle.ts";
import { drawCover } from "../../src/drawings/lists/cover.ts";
import type { IndexEntry } from "../../src/drawings/lists/drawing-index.ts";
import type { Page, Shape } from "../../src/paper/shape.ts";
import { writePdf } from "../../src/writers/pdf.ts";
import { exampleFile, setOf } from "../support/jobs/examples.ts";
import { openPdf } from "../support/pages/pdf.ts";
import { textBoxes } from "../support/pages/text-boxes.ts";

const set = setOf(exampleFile("ware-bookcase"));

type Outline = { title: string; dest: unknown; items: Outline[] };
type Annotation = { subtype: string; dest?: unknown; rect: [number, number, number, number] };

/** Links of a drawing that lead to a page, with where they lead. */
const linksIn = (shapes: readonly Shape[]): string[] =>
  shapes.flatMap((shape) => {
    if (shape.kind === "group") return linksIn(shape.shapes);
    return shape.kind === "link" && "page" in shape.to ? [shape.to.page] : [];
  });

describe("the bundle of a job", () => {
  const bundle = drawBundle(set);
  const pages: Page[] = [...bundle.drawings, ...bundle.sticks, ...bundle.labels];
  let pdf: Awaited<ReturnType<typeof openPdf>>;
  beforeAll(async () => {
    const document = { title: "Bundle", subject: "The whole set", date: set.job.date, pages };
    pdf = await openPdf(await writePdf(document));
  });
  const pageOf = async (dest: unknown): Promise<number> => {
    const found = typeof dest === "string" ? await pdf.getDestination(dest) : dest;
    return pdf.getPageIndex((found as [{ num: number; gen: number }])[0]);
  };

  it("has a label for every page: drawings by their number, as the title block says it", async () => {
    const labels = await pdf.getPageLabels();
    expect(labels).toEqual(pages.map(({ label }) => label));
    expect(labels!.slice(0, bundle.drawings.length)).toEqual(bundle.drawings.map((_, i) => String(i + 1)));
  });

  it("has a bookmark for every page's name that leads to it", async () => {
    const flat = (items: readonly Outline[], above: string[]): { path: string[]; dest: unknown }[] =>
      items.flatMap((item) => {
        const path = [...above, item.title];
        return [{ path, dest: item.dest }, ...flat(item.items, path)];
      });
    const outline = flat((await pdf.getOutline()) as unknown as Outline[], []);
    for (const [i, { bookmark }] of pages.entries()) {
      const found = outline.filter(({ path }) => path.join(" / ") === bookmark.join(" / "));
      expect(found.length, bookmark.join(" / ")).toBeGreaterThan(0);
      const targets = await Promise.all(found.map(({ dest }) => pageOf(dest)));
      // Pages of one name share a bookmark, which leads to the first of them.
      const first = pages.findIndex((page) => page.bookmark.join() === bookmark.join());
      expect(targets, bookmark.join(" / ")).toContain(Math.min(first, i));
    }
  });

  it("leads from every mark in the cut list, and in balloons, to the drawing of that part", async () => {
    const drawn = new Map(
      bundle.drawings
        .filter(({ key }) => key.startsWith("part-"))
        .map((page) => [page.key, textBoxes(page.shapes).map(({ text }) => text)]),
    );
    const lists = bundle.drawings.filter(({ key }) => key.startsWith("cut-list"));
    const fromList = lists.flatMap(({ shapes }) => linksIn(shapes));
    expect(fromList).toHaveLength(set.parts.length);
    for (const key of fromList) expect([...drawn.keys()]).toContain(key);
    const views = bundle.drawings.filter(({ key }) => key.startsWith("front-view") || key.startsWith("taken-apart"));
    expect(views.flatMap(({ shapes }) => linksIn(shapes)).length).toBeGreaterThan(5);

    // In the file: each link of the first cut list, by the mark that it lies over.
    const at = pages.indexOf(lists[0]!);
    const page = await pdf.getPage(at + 1);
    const links = ((await page.getAnnotations()) as Annotation[]).filter(({ subtype }) => subtype === "Link");
    expect(links).toHaveLength(linksIn(lists[0]!.shapes).length);
    const boxes = textBoxes(lists[0]!.shapes);
    const point = 25.4 / 72;
    for (const { rect, dest } of links) {
      const [x, y] = [((rect[0] + rect[2]) / 2) * point, lists[0]!.height - ((rect[1] + rect[3]) / 2) * point];
      const over = boxes.find((box) => box.x0 < x && x < box.x1 && box.y0 < y && y < box.y1)!;
      const target = pages[await pageOf(dest)]!;
      const words = drawn.get(target.key)!.join(" ");
      expect(words, `${over.text} on ${target.key}`).toMatch(new RegExp(`(^|[ ,])${over.text}([ ,]|$)`));
    }
  });
});

describe("the index of a very long set", () => {
  const many: IndexEntry[] = Array.from({ length: 260 }, (_, i) => ({
    name: `Part ${i + 1}, a divider of some case`,
    n: i + 2,
    last: i + 2,
    key: `part-${i + 1}`,
  }));

  it("goes on over further columns and drawings: every drawing is listed once, with the number it then has", () => {
    const cover = drawCover(set, many);
    expect(cover.length).toBeGreaterThan(1);
    const links = cover.flatMap(({ shapes }) => linksIn(shapes));
    expect(links).toEqual(many.map(({ key }) => key));
    const texts = cover.flatMap(({ shapes }) => textBoxes(shapes).map(({ text }) => text));
    for (const { n } of many) expect(texts).toContain(String(n + cover.length - 1));
    expect(texts.join(" ")).toContain("goes on on the next drawing");
  });
});
