/** What a sound file becomes: millimetres, defaults, the shop's data with the job's over it. */
import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { z } from "zod";
import { formatProblem } from "../src/base/problem.ts";
import { readProject } from "../src/project/read.ts";
import { projectSchema } from "../src/project/schema.ts";
import { readShop } from "../src/project/shop.ts";
import labelSheets from "./reference/label-sheets.json" with { type: "json" };
import birch from "./reference/panel-thickness-birch.json" with { type: "json" };
import paperSizes from "./reference/paper-sizes.json" with { type: "json" };
import { JOB, jobWith, printed, problemsIn, readText } from "./support/project-file.ts";

const shared = new URL("../shared", import.meta.url).pathname;
const only = (text: string) => readText(text).project.cases[0]!;

describe("defaults", () => {
  test("of a job in inches", () => {
    const { project } = readText(JOB);
    expect(project.name).toBe("job");
    expect(project.step).toBe(1.5875);
    expect(project.paper.drawings).toEqual({ name: "Letter", width: 279.4, height: 215.9 });
    expect(project.paper.sticks).toEqual({ name: "Letter", width: 215.9, height: 279.4 });
    expect(project.paper.labels.name).toBe("Letter 3 x 10");
    expect(project.job).toEqual({
      number: "7",
      title: "Box",
      client: null,
      drawnBy: null,
      date: "2026-11-20",
      revision: "A",
      address: null,
      notes: [],
    });
    expect(project.cases[0]).toEqual({
      path: "cases[0]",
      name: "box",
      quantity: 1,
      at: [0, 0, 0],
      width: 914.4,
      height: 762,
      depth: 304.8,
      stock: {
        side: "three-quarter-ply",
        bottom: "three-quarter-ply",
        top: "three-quarter-ply",
        divider: "three-quarter-ply",
        shelf: "three-quarter-ply",
        back: "quarter-ply",
        kick: "three-quarter-ply",
      },
      joinery: {
        depth: null,
        depthPath: "cases[0]",
        backDepth: null,
        allowance: 0.1,
        slip: 0.79375,
        setBack: 12.7,
      },
      edges: { front: "shows", back: "covered", top: "shows", bottom: "covered" },
      bottom: { up: 0 },
      top: { fit: "flush", down: 0 },
      back: { fit: "captured", setIn: 12.7, grain: "upright" },
      kick: null,
      bays: { path: "cases[0].bays", name: null, size: { share: 1 }, kind: "open" },
    });
  });

  test("of a job in mm", () => {
    const { project } = readProject("tests/projects/plain-box.json");
    expect(project.step).toBe(0.1);
    expect(project.paper.drawings).toEqual({ name: "A4", width: 297, height: 210 });
    expect(project.paper.labels.name).toBe("A4 3 x 8");
    expect(project.cases[0]?.joinery).toMatchObject({ allowance: 0.1, slip: 0.8, setBack: 12 });
    expect(project.cases[0]?.back).toEqual({ fit: "captured", setIn: 12, grain: "upright" });
  });

  test("a lowered top is covered unless the job says that it shows", () => {
    expect(only(jobWith(["12,", '12, "top": { "down": "3/4" },']))).toMatchObject({
      top: { fit: "lowered", down: 19.05 },
      edges: { top: "covered" },
    });
    expect(only(jobWith(["12,", '12, "top": { "down": 1 }, "edges": { "top": "shows" },'])).edges.top).toBe("shows");
  });

  test("a case's own joinery goes before the job's, and either way of saying the depth replaces the other", () => {
    const job = ['"in",', '"in",\n  "joinery": { "depth": "1/4", "slip": 0, "setBack": 1 },'] as const;
    expect(only(jobWith(job)).joinery).toMatchObject({
      depth: { cut: 6.35 },
      depthPath: "joinery.depth",
      slip: 0,
      setBack: 25.4,
    });
    expect(only(jobWith(job, ["12,", '12, "joinery": { "leave": "1/2", "setBack": 2 },'])).joinery).toMatchObject({
      depth: { leave: 12.7 },
      depthPath: "cases[0].joinery.leave",
      slip: 0,
      setBack: 50.8,
    });
  });

  test("cases without a place stand beside each other", () => {
    const text = jobWith(
      ['"name": "box",', '"name": "box", "quantity": 3,'],
      [
        "  ]\n}",
        '    , { "name": "next", "width": 20, "height": 30, "depth": 12, "stock": { "all": "half-ply", "back": "quarter-ply" } }\n  ]\n}',
      ],
    );
    expect(readText(text).project.cases.map(({ at }) => at)).toEqual([
      [0, 0, 0],
      [3 * 914.4, 0, 0],
    ]);
  });
});

describe("bays", () => {
  test("keep their paths, names, sizes and shares", () => {
    const text = jobWith([
      "12,",
      '12, "bays": { "columns": [{ "name": "low", "size": 10, "rows": [{}, { "share": 2 }] }, {}] },',
    ]);
    expect(only(text).bays).toEqual({
      path: "cases[0].bays",
      name: null,
      size: { share: 1 },
      kind: "columns",
      bays: [
        {
          path: "cases[0].bays.columns[0]",
          name: "low",
          size: { clear: 254 },
          kind: "rows",
          bays: [
            { path: "cases[0].bays.columns[0].rows[0]", name: null, size: { share: 1 }, kind: "open" },
            { path: "cases[0].bays.columns[0].rows[1]", name: null, size: { share: 2 }, kind: "open" },
          ],
        },
        { path: "cases[0].bays.columns[1]", name: null, size: { share: 1 }, kind: "open" },
      ],
    });
  });

  test("each can be found again in the file", () => {
    const { lines } = readProject("tests/projects/bays-in-bays.json").project;
    const text = readFileSync("tests/projects/bays-in-bays.json", "utf8").split("\n");
    const place = lines["cases[0].bays.columns[1].rows[1].columns[1].rows"]!;
    expect(text[place.line - 1]?.slice(place.column - 1)).toMatch(/^\[\{\}, \{\}, \{\}\]/);
  });
});

describe("stock", () => {
  test("lengths follow the mean of the readings, grooves the thickest", () => {
    const { stock } = readProject("tests/projects/readings.json").project;
    expect(stock[0]).toMatchObject({ id: "ply-18mm", nominal: 18, thickest: 17.8, readings: [17.4, 17.6, 17.8] });
    expect(stock[0]?.thickness).toBeCloseTo(17.6, 12);
  });

  test("only what is used, in order of use; the job's own words over the shop's", () => {
    const { stock } = readProject("tests/projects/two-stocks.json").project;
    expect(stock.map(({ id }) => id)).toEqual(["ply-18mm", "ply-6mm", "thin-birch"]);
    expect(stock[2]).toEqual({
      id: "thin-birch",
      name: "12 mm birch from the rack",
      nominal: 12,
      thickness: 12.1,
      thickest: 12.1,
      readings: [12.1],
      sheet: { length: 1525, width: 1525 },
      trim: 6,
      grain: true,
      goodFaces: 2,
      density: 695,
      price: null,
    });
  });

  test("without a reading the nominal thickness holds, with a warning at its place", () => {
    const { project, warnings } = readText(jobWith(['"three-quarter-ply": { "measured": "23/32" }, ', ""]));
    expect(project.stock[0]).toMatchObject({ thickness: 19.05, thickest: 19.05, readings: [] });
    expect(printed(warnings)).toBe(`job.json:11:16  cases[0].stock
  warning: "three-quarter-ply" has no measured thickness: 3/4 in, its nominal one, is used
  expected: the thickness by calliper, for grooves and lengths that fit
  try: measure the sheets and add it to "stock": { "three-quarter-ply": { "measured": [ ... ] } }`);
  });
});

describe("tooling and paper", () => {
  test("a job changes what differs and keeps the rest", () => {
    const before = readText(JOB).project.tooling;
    const text = jobWith([
      '"in",',
      '"in",\n  "tooling": { "saw": { "kerf": "2.4 mm", "dado": { "most": 1 } }, "router": { "base": 7 } },',
    ]);
    expect(readText(text).project.tooling).toEqual({
      saw: { ...before.saw, kerf: 2.4, dado: { ...before.saw.dado, most: 25.4 } },
      router: { ...before.router, baseHalf: 88.9 },
    });
  });

  test("paper of the job's own, and a label pack whose grid sits a little lower", () => {
    const text = jobWith([
      '"in",',
      '"in",\n  "paper": { "drawings": "A3", "sticks": { "name": "Roll", "width": 12, "height": 36 }, "labels": { "format": "Letter 3 x 10", "top": "12 mm" }, "print": { "y": 0.989 } },',
    ]);
    const { paper } = readText(text).project;
    expect(paper.drawings).toEqual({ name: "A3", width: 297, height: 420 });
    expect(paper.sticks).toEqual({ name: "Roll", width: 304.8, height: 914.4 });
    expect(paper.labels).toMatchObject({ name: "Letter 3 x 10", columns: 3, rows: 10, left: 4.762, top: 12 });
    expect(paper.print).toEqual({ x: 1, y: 0.989 });
  });

  test("turned sizes, however they are written", () => {
    for (const wish of ['"Tabloid landscape"', '{ "name": "Tabloid", "turn": "landscape" }']) {
      const text = jobWith(['"in",', `"in",\n  "paper": { "drawings": ${wish} },`]);
      expect(readText(text).project.paper.drawings).toEqual({ name: "Tabloid", width: 431.8, height: 279.4 });
    }
  });
});

describe("the shop's own files", () => {
  const shop = readShop(shared);

  test("paper sizes are those of the standards", () => {
    for (const name of ["A4", "A3", "Letter", "Tabloid"]) {
      const row = paperSizes.rows.find((one) => one.name.split(" ")[0] === name)!;
      const text = jobWith(['"in",', `"in",\n  "paper": { "drawings": "${name} portrait" },`]);
      const { width, height } = readText(text).project.paper.drawings;
      expect([width, height]).toEqual([row.width_mm, row.height_mm]);
    }
  });

  test("label packs are laid out as in the reference, and every format leaves equal margins", () => {
    for (const name of Object.keys(shop.paper.labels)) {
      const text = jobWith(['"in",', `"in",\n  "paper": { "labels": "${name}" },`]);
      const { page, columns, rows, label, left, top, pitch, cutLines } = readText(text).project.paper.labels;
      expect(2 * left + (columns - 1) * pitch.x + label.width).toBeCloseTo(page.width, 2);
      expect(2 * top + (rows - 1) * pitch.y + label.height).toBeCloseTo(page.height, 2);
      expect(cutLines).toBe(name.includes("plain"));
      if (cutLines) {
        expect(Math.min(left, top)).toBeGreaterThanOrEqual(6.35); // what printers leave white
        continue;
      }
      const row = labelSheets.rows.find((one) => one.name === name)!;
      expect([columns, rows, label.width, label.height, left, top, pitch.x, pitch.y]).toEqual([
        row.columns,
        row.rows,
        ...row.label_mm,
        row.left_mm,
        row.top_mm,
        ...row.pitch_mm,
      ]);
    }
  });

  test("birch panels have the mill's densities", () => {
    for (const [id, entry] of Object.entries(shop.stock.entries)) {
      if (!id.startsWith("birch")) continue;
      const row = birch.rows.find(({ nominal_mm }) => nominal_mm === entry.nominal)!;
      expect([id, entry.density]).toEqual([id, row.density_kg_m3]);
    }
  });
});

describe("projects that lie here", () => {
  const files = ["projects", "tests/projects"].flatMap((folder) =>
    readdirSync(folder)
      .filter((name) => name.endsWith(".json"))
      .map((name) => `${folder}/${name}`),
  );

  test.each(files)("%s reads without a problem or a warning", (file) => {
    const { project, warnings } = readProject(file);
    expect(warnings.map(formatProblem)).toEqual([]);
    expect(project.stock.every(({ thickness, nominal }) => thickness <= nominal + 0.2)).toBe(true);
  });

  test("worked example A is one job in inches and in mm", () => {
    const [inches, mm] = ["in", "mm"].map((unit) => readProject(`tests/projects/example-a-${unit}.json`).project);
    const { file: _f, lines: _l, unit: _u, ...rest } = inches!;
    const { file, lines, unit, ...other } = mm!;
    expect([file, unit, Object.keys(lines).length > 20]).toEqual(["tests/projects/example-a-mm.json", "mm", true]);
    expect(rest).toEqual(other);
  });
});

test("markup in a text field is text", () => {
  const { project } = readProject("tests/projects/markup.json");
  expect(project.job.title).toBe(`A & B <script>alert(1)</script> "q" 'q' ) Tj ET`);
  expect(project.job.notes).toEqual(["</svg><img src=x onerror=alert(1)>", "{{#each parts}} \\( endstream endobj"]);
  expect(project.cases[0]?.name).toBe('case <1> & "(2)" \\ {{x}}');
  expect(project.stock[0]?.name).toBe('18 mm <i>ply</i> & "birch" (\\)');
});

test("control characters and half characters in a text field are refused", () => {
  for (const bad of ["a\\u0000b", "a\\nb", "\\ud800", "\\u2028", " ", "\\u00a0"]) {
    expect(problemsIn(jobWith(['"title": "Box"', `"title": "${bad}"`]))).toMatchObject([
      { kind: "input", where: { line: 2, path: "job.title" }, expected: "text on one line, in double quotes" },
    ]);
  }
});

test("the schema for editors is the one the program reads by", async () => {
  const schema = {
    $schema: "https://json-schema.org/draft/2020-12/schema",
    title: "Dryfit project",
    ...z.toJSONSchema(projectSchema, { io: "input" }),
  };
  await expect(`${JSON.stringify(schema, null, 2)}\n`).toMatchFileSnapshot("../shared/project.schema.json");
});
