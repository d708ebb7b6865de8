import { readFileSync } from "node:fs";
import { posix } from "node:path";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type DryfitSet, setSchema } from "../../src/set/schema.ts";
import { partFile } from "../../src/site/part.ts";
import { writeSite, writeSiteIndex } from "../../src/site/site.ts";
import { lengthView } from "../../src/site/words.ts";
import { plainSvg, sitePages, siteSet } from "../fixtures/site-set.ts";

/** Written beside the site by the other writers. */
const BESIDE = [
  "bundle.pdf",
  "drawings.pdf",
  "sticks.pdf",
  "labels.pdf",
  "offcuts.json",
  "set.json",
  ...sitePages.map((page) => `svg/${page.key}.svg`),
];

const site = writeSite(siteSet, sitePages, plainSvg);
const page = (name: string, files = site): string => {
  const content = files.get(name);
  if (typeof content !== "string") throw new Error(`no page ${name}`);
  return content;
};

/** What a reader sees: tags gone, entities read back, white space closed up. */
function textOf(html: string): string {
  const entities: Record<string, string> = {
    lt: "<",
    gt: ">",
    quot: '"',
    amp: "&",
    "#x27": "'",
    "#x60": "`",
    "#x3D": "=",
  };
  return html
    .replace(/<style[\s\S]*?<\/style>/g, "")
    .replace(/<[^>]*>/g, " ")
    .replace(/&([^;\s]+);/g, (whole, name: string) => entities[name] ?? whole)
    .replace(/\s+/g, " ")
    .replace(/ ([.,;:)])/g, "$1")
    .replace(/\( /g, "(");
}

test("the fixture is a set", () => {
  expect(setSchema.parse(siteSet)).toEqual(siteSet);
});

describe("the files of a set's site", () => {
  test("an index, a page a part, the style and its lettering: nothing else", () => {
    expect([...site.keys()].sort()).toEqual([
      "index.html",
      "parts/1.html",
      "parts/2.html",
      "parts/3.html",
      "parts/4.html",
      "style/site.css",
      "style/source-sans-3-bold.woff2",
      "style/source-sans-3-licence.md",
      "style/source-sans-3-regular.woff2",
    ]);
  });

  test("the lettering is the package's own file, byte for byte", () => {
    const packaged = readFileSync("node_modules/source-sans/WOFF2/TTF/SourceSans3-Regular.ttf.woff2");
    expect(Buffer.compare(Buffer.from(site.get("style/source-sans-3-regular.woff2") as Uint8Array), packaged)).toBe(0);
  });

  test("the same set gives the same bytes", () => {
    const again = writeSite(structuredClone(siteSet), sitePages, plainSvg);
    expect([...again.keys()]).toEqual([...site.keys()]);
    for (const [name, content] of site) {
      expect(Buffer.from(again.get(name)!).equals(Buffer.from(content)), name).toBe(true);
    }
  });

  test("no script, no address outside, no path from the root", () => {
    for (const [name, content] of site) {
      if (!/\.(html|css)$/.test(name)) continue;
      expect(content, name).not.toMatch(/<script|javascript:|\son[a-z]+=|@import/);
      const addresses = [...(content as string).matchAll(/(?:href|src)="([^"]*)"|url\("([^"]*)"\)/g)].map(
        (hit) => hit[1] ?? hit[2],
      );
      for (const address of addresses) expect(address, name).not.toMatch(/^(\/|[a-z]+:)/);
    }
  });

  test("every link leads to a file, every anchor to an id", () => {
    const jobs = writeSiteIndex([
      { name: "glaze-box", title: "Glaze box", number: "K-7", revision: "B", unit: "in", draft: false },
    ]);
    const all = new Map<string, string | Uint8Array>(jobs);
    for (const [name, content] of site) all.set(`glaze-box/${name}`, content);
    for (const name of BESIDE) all.set(`glaze-box/${name}`, "");
    let seen = 0;
    for (const [name, content] of all) {
      if (!/\.(html|css)$/.test(name)) continue;
      for (const hit of (content as string).matchAll(/(?:href|src)="([^"]*)"|url\("([^"]*)"\)/g)) {
        const [path = "", anchor] = (hit[1] ?? hit[2] ?? "").split("#");
        const target = path === "" ? name : posix.join(posix.dirname(name), decodeURIComponent(path));
        expect([...all.keys()], `${name} links to ${hit[0]}`).toContain(target);
        if (anchor !== undefined) expect(all.get(target), `${name} links to ${hit[0]}`).toContain(`id="${anchor}"`);
        seen += 1;
      }
    }
    expect(seen).toBeGreaterThan(60);
  });

  test("an id stands once on a page", () => {
    for (const [name, content] of site) {
      if (!name.endsWith(".html")) continue;
      const ids = [...(content as string).matchAll(/\sid="([^"]*)"/g)].map((hit) => hit[1]);
      expect(ids.length, name).toBe(new Set(ids).size);
    }
  });

  test("a mark that cannot name a file stops the build", () => {
    for (const mark of ["../1", "a/b", "", ".", "1 2"]) {
      expect(() => partFile(mark)).toThrow(`Internal error: mark "${mark}" cannot name a file`);
    }
  });
});

describe("the index page", () => {
  const text = textOf(page("index.html"));

  test("says what the job is", () => {
    expect(text).toContain(
      "Number K-7 Revision B Date 2026-11-20 Lengths inches, to 1/16 (0.063) For Kiln Lane pottery school Drawn by A. Turner Stands against the damp wall.",
    );
    expect(text).toContain("4 parts, 28.7 lb (13.0 kg) without hardware.");
    expect(text).toContain("box 19.685 30 12 35.882 bay 1, clear 17 5/8 (17.625) 12 1/2 (12.500) 12");
  });

  test("tells failures first, then warnings, then notes", () => {
    expect(text).toContain(
      "1 failure · 1 warning · 1 note · 1 passed failure Shelf 4 sags by 1/8 in. Parts 4. To change: Make it thicker. Rule: the span over 240 warning 1 and 2 are mirror images. Parts 1, 2. What to know before cutting note Half the thickness",
    );
    expect(text).toContain("What was checked and passed Every part reaches its seat.");
  });

  test("has the cut list as a table, a group a stock", () => {
    expect(text).toContain("birch plywood 3/4 1 left side left 30 12 0.705 length looks like 2");
    expect(text).toContain(
      "3 bottom 18 3/8 (18.375) 12 0.705 length 17 5/8 (17.625) between + 3/8 (0.375) + 3/8 (0.375) = 18 3/8 (18.375)",
    );
  });

  test("has settings and steps", () => {
    expect(text).toContain(
      "1 table saw, wall at 2 dado cutter: 0.709 wide, 3/8 (0.375) deep. 1 left side: bottom end to the stop, cut into the inside face 2 right side: bottom end to the stop, cut into the inside face Test: The bottom slips in by hand. Caution: Guard and splitter",
    );
    expect(text).toContain(
      "Settings: 1, 2 Caution: Never a through cut with the dado cutter. Diagonal: 35 7/8 (35.875)",
    );
  });

  test("shows every drawing inline, named", () => {
    const html = page("index.html");
    for (const drawing of sitePages) {
      expect(html).toContain(`<svg role="img" aria-label="${drawing.title}" xmlns`);
      expect(textOf(html)).toContain(`Drawing ${drawing.label} ${drawing.title} alone`);
    }
    expect(html).not.toContain("<?xml");
  });

  test("speaks millimetres in a millimetre job", () => {
    const metric: DryfitSet = { ...siteSet, job: { ...siteSet.job, unit: "mm", step: 0.1 } };
    const metricText = textOf(page("index.html", writeSite(metric, [], plainSvg)));
    expect(metricText).toContain("Lengths millimetres, to 0.1 ");
    expect(metricText).toContain("4 parts, 13.0 kg without hardware.");
    expect(metricText).toContain("box 500 762 304.8 911.4 bay 1, clear");
  });
});

describe("a part's page", () => {
  test("mark, name, size, and where each groove lies", () => {
    const text = textOf(page("parts/1.html"));
    expect(text).toContain("1 left side 30 × 12 × 0.705 in Length × width × thickness, finished.");
    expect(text).toContain("look-alikes Easily taken for 2 right side.");
    expect(text).toContain("Good faces outside face and front edge Shows front edge");
    expect(text).toContain(
      "Groove across the grain inside face 2 from the bottom end 0.709 wide 3/8 (0.375) deep setting 1 3 bottom",
    );
    expect(text).toContain(
      "stops 1/2 (0.500) short of the front edge 14 1/16 (14.063) from the top end 0.709 wide 3/8 (0.375) deep setting 2 4 shelf",
    );
    expect(text).toContain(
      "inside face takes 3 bottom: housed 3/8 (0.375) deep; seated: pushed home; gap 1/16 (0.063); glue",
    );
    expect(text).toContain(
      "inside face meets 4 shelf: butted; slip: not glued, free to move; gap 1/32 (0.031) to 1/16 (0.063)",
    );
    expect(text).toContain(
      "Setting 1 (table saw) Caution: Guard and splitter go back on after this cut. Setting 2 (router) Steps it is in Step 1, Cut to size Step 2, Cut the grooves",
    );
  });

  test("a notch is told by its corner", () => {
    expect(textOf(page("parts/4.html"))).toContain(
      "Notch left end and front edge 3/8 (0.375) from the left end 1/2 (0.500) from the front edge right through clears the stopped groove in 1 Saw the notch after the grooves.",
    );
  });

  test("its own drawing, and no other", () => {
    expect(page("parts/1.html")).toContain('aria-label="1 left side" xmlns');
    expect(page("parts/1.html")).not.toContain('aria-label="Front view"');
    expect(page("parts/3.html")).not.toContain("<svg");
  });

  test("links to the parts before and after", () => {
    const turn = (name: string) =>
      [...page(name).matchAll(/href="([^"]*)" rel="(prev|next)"/g)].map((hit) => `${hit[2]} ${hit[1]}`);
    expect(turn("parts/1.html")).toEqual(["next ../parts/2.html"]);
    expect(turn("parts/2.html")).toEqual(["prev ../parts/1.html", "next ../parts/3.html"]);
    expect(turn("parts/4.html")).toEqual(["prev ../parts/3.html"]);
  });
});

test("a draft says so on every page", () => {
  const draft = writeSite({ ...siteSet, job: { ...siteSet.job, draft: true } }, [], plainSvg);
  for (const [name, content] of draft) {
    if (!name.endsWith(".html")) continue;
    expect(textOf(content as string), name).toContain(
      "DRAFT This set failed its checks, or was built as a draft: do not cut from it.",
    );
    expect(page(name)).not.toContain("DRAFT");
  }
});

test("the jobs page links to each job, a draft to its own folder", () => {
  const files = writeSiteIndex([
    { name: "glaze-box", title: "Glaze box", number: "K-7", revision: "B", unit: "in", draft: false },
    { name: "wall & rack", title: "Rack <tall>", number: "K-8", revision: "A", unit: "mm", draft: true },
  ]);
  expect([...files.keys()].sort()).toEqual([
    "index.html",
    "site.css",
    "source-sans-3-bold.woff2",
    "source-sans-3-licence.md",
    "source-sans-3-regular.woff2",
  ]);
  const html = page("index.html", files);
  expect(html).toContain('<a href="glaze-box/index.html"><b>Glaze box</b>');
  expect(html).toContain('<a href="wall%20%26%20rack/draft/index.html"><b>Rack &lt;tall&gt;</b>');
  expect(textOf(html)).toContain("K-8, revision A, millimetres, draft");
  expect(textOf(page("index.html", writeSiteIndex([])))).toContain("No job has been built yet.");
});

/** Fields that are words for people. Marks, keys, ids and choices are made by the program. */
const FREE = new Set([
  "number",
  "title",
  "client",
  "drawnBy",
  "date",
  "revision",
  "name",
  "reason",
  "text",
  "test",
  "caution",
  "fixings",
  "what",
  "size",
  "note",
  "label",
  "cutter",
  "case",
]);

function spoil(value: unknown, ending: string, field = ""): unknown {
  if (typeof value === "string") return FREE.has(field) ? value + ending : value;
  if (Array.isArray(value))
    return value.map((item) => spoil(item, ending, field === "notes" || field === "cautions" ? "note" : field));
  if (value === null || typeof value !== "object") return value;
  return Object.fromEntries(Object.entries(value).map(([key, item]) => [key, spoil(item, ending, key)]));
}

describe("text fields come out as text", () => {
  const tagsOf = (html: string): string[] => html.match(/<\/?[a-z][^\s>]*/g) ?? [];

  test.each([
    "<script>alert(1)</script>",
    '"><img src=x onerror=alert(1)>',
    "' onmouseover='alert(1)",
    "</title></style><b>&amp;&lt;",
    "{{{title}}}",
  ])("%s", (ending) => {
    const spoilt = setSchema.parse(spoil(siteSet, ending));
    const pages = sitePages.map((one) => ({ ...one, title: one.title + ending }));
    const files = writeSite(spoilt, pages, plainSvg);
    const harmless = writeSite(setSchema.parse(spoil(siteSet, " words")), sitePages, plainSvg);
    for (const name of site.keys()) {
      if (!name.endsWith(".html")) continue;
      expect(tagsOf(page(name, files)), name).toEqual(tagsOf(page(name, harmless)));
      expect(textOf(page(name, files)).split(ending.replace(/ ([.,;:)])/g, "$1")).length, name).toBeGreaterThan(8);
    }
    const jobs = writeSiteIndex([
      { name: "a", title: ending, number: ending, revision: ending, unit: "in", draft: false },
    ]);
    expect(tagsOf(page("index.html", jobs)).length).toBe(27);
    expect(textOf(page("index.html", jobs)).split(ending.replace(/ ([.,;:)])/g, "$1"))).toHaveLength(4);
  });
});

describe("lengths", () => {
  test("fractions, their decimals, and nought", () => {
    expect(lengthView(25.4 * 17.625, "in")).toEqual({ whole: "17", fraction: "5/8", decimal: "17.625" });
    expect(lengthView(25.4 * 0.375, "in")).toEqual({ whole: "", fraction: "3/8", decimal: "0.375" });
    expect(lengthView(0, "in")).toEqual({ whole: "0", fraction: "", decimal: "" });
    expect(lengthView(-25.4 * 2.5, "in")).toEqual({ whole: "\u22122", fraction: "1/2", decimal: "-2.500" });
    expect(lengthView(882.8, "mm")).toEqual({ whole: "882.8", fraction: "", decimal: "" });
  });

  test("what is written is what was meant, to half a 64th", () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 64 * 120 }), (sixtyFourths) => {
        const { whole, fraction } = lengthView((sixtyFourths / 64) * 25.4, "in");
        const [top, bottom] = fraction === "" ? [0, 1] : fraction.split("/").map(Number);
        expect(Number(whole) + top! / bottom!).toBe(sixtyFourths / 64);
      }),
    );
  });
});
