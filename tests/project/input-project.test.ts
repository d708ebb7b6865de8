/** What a sound file becomes: millimetres, defaults, the shop's data with the job's over it. */
import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { z } from "zod";
import { formatProblem } from "../../src/base/problem.ts";
import { hasLoose } from "../../src/project/case/bays.ts";
import { readProject, readProjectText } from "../../src/project/read.ts";
import { projectSchema } from "../../src/project/schema/project.ts";
import { readShop } from "../../src/project/shop/shop.ts";
import labelSheets from "../reference/label-sheets.json" with { type: "json" };
import birch from "../reference/panel-thickness-birch.json" with { type: "json" };
import paperSizes from "../reference/paper-sizes.json" with { type: "json" };
import { JOB, jobWith, printed, problemsIn, readText, withCase, withJob } from "../support/jobs/project-file.ts";

const shared = new URL("../../shared", import.meta.url).pathname;
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
      projection: "third",
      date: "2026-11-20",
      revision: "A",
      revisions: [],
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
        stretcher: "three-quarter-ply",
        filler: "three-quarter-ply",
        looseShelf: "three-quarter-ply",
        plinth: "three-quarter-ply",
        stile: "three-quarter-ply",
        rail: "three-quarter-ply",
        return: "three-quarter-ply",
        returnStrip: "three-quarter-ply",
        drawerFront: "three-quarter-ply",
        drawerSide: "three-quarter-ply",
        drawerBack: "three-quarter-ply",
        drawerBottom: "three-quarter-ply",
        drawerFace: "three-quarter-ply",
        packing: "three-quarter-ply",
        runner: "three-quarter-ply",
        doorStile: "three-quarter-ply",
        doorRail: "three-quarter-ply",
        doorPanel: "three-quarter-ply",
        slab: "three-quarter-ply",
        worktop: "three-quarter-ply",
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
      joints: [],
      lippings: [],
      pins: {
        diameter: 6.35,
        depth: 9.525,
        pitch: 31.75,
        fromFront: 38.1,
        fromBack: 38.1,
        margin: 101.6,
        clearance: 1.5875,
      },
      bottom: { fit: "between", up: 0 },
      top: { fit: "flush", down: 0, stretcher: 0, fillers: null },
      back: { fit: "captured", setIn: 12.7, grain: "upright", houses: false, sections: false },
      kick: null,
      plinth: null,
      feet: null,
      skirting: null,
      frame: null,
      drawers: null,
      doors: null,
      sliders: null,
      track: null,
      shares: null,
      finished: [],
      shelfLoad: 29.8,
      bays: { path: "cases[0].bays", name: null, size: { share: 1 }, door: null, kind: "open", loose: 0, drawers: [] },
    });
  });

  test("of a job in mm", () => {
    const { project } = readProject("tests/projects/plain-box.json");
    expect(project.step).toBe(0.1);
    expect(project.paper.drawings).toEqual({ name: "A4", width: 297, height: 210 });
    expect(project.paper.labels.name).toBe("A4 3 x 8");
    expect(project.cases[0]?.joinery).toMatchObject({ allowance: 0.1, slip: 0.8, setBack: 12 });
    expect(project.cases[0]?.back).toMatchObject({ fit: "captured", setIn: 12, grain: "upright" });
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

describe("arrangements", () => {
  test("every field of a case, in millimetres", () => {
    const text = withCase(`"joints": [
        { "entering": "bottom", "receiving": "side", "kind": "tongue", "leave": "1/2", "tongue": "1/4" },
        { "entering": "divider-1", "receiving": "top", "kind": "butt" },
        { "entering": "divider-1", "receiving": "bottom", "kind": "butt", "fixing": "dowels" }
      ],
      "lippings": [{ "name": "oak", "kind": "strip", "thickness": "1/4", "lipped": "before", "parts": ["side", "divider"] }],
      "bottom": { "up": 3 }, "top": { "fillers": 2 }, "kick": { "fit": "applied", "setBack": "1 1/2" },
      "back": { "fit": "rabbeted", "sections": true },
      "pins": { "pitch": 1, "margin": 3 },
      "finished": [["side", "bottom"]], "shelfLoad": "40 kg/m",
      "bays": { "columns": [{ "loose": 2 }, {}] }`);
    const path = "cases[0].joints";
    expect(only(text)).toMatchObject({
      joints: [
        { path: `${path}[0]`, kind: "tongue", depth: { leave: 12.7 }, tongue: 6.35, fixing: "glue" },
        { path: `${path}[1]`, entering: "divider-1", receiving: "top", depth: null, tongue: null, fixing: "screws" },
        { path: `${path}[2]`, kind: "butt", fixing: "dowels" },
      ],
      lippings: [{ name: "oak", kind: "strip", thickness: 6.35, lipped: "before", roles: ["side", "divider"] }],
      bottom: { fit: "between", up: 76.2 },
      top: { fit: "lowered", down: 18.25625, stretcher: 0, fillers: 50.8 },
      edges: { top: "covered" },
      kick: { fit: "applied", setBack: 38.1 },
      back: { fit: "rabbeted", grain: "upright", houses: false, sections: true },
      pins: { diameter: 6.35, pitch: 25.4, margin: 76.2 },
      finished: [["side", "bottom"]],
      shelfLoad: 40,
      bays: { bays: [{ kind: "open", loose: 2 }, { loose: 0 }] },
    });
  });

  test("panels under and over, and stretchers", () => {
    expect(only(withCase('"bottom": { "fit": "under" }, "top": { "fit": "over" }'))).toMatchObject({
      bottom: { fit: "under", up: 0 },
      top: { fit: "over", down: 0, stretcher: 0, fillers: null },
      edges: { top: "shows" },
    });
    expect(only(withCase('"top": { "fit": "stretchers" }'))).toMatchObject({
      top: { fit: "stretchers", down: 0, stretcher: 76.2, fillers: null },
      edges: { top: "covered" },
    });
  });

  test("a job's joints come before a case's own", () => {
    const job = ['"in",', '"in",\n  "joints": [{ "entering": "top", "receiving": "side", "kind": "butt" }],'] as const;
    const own = ["12,", '12, "joints": [{ "entering": "top", "receiving": "side", "kind": "housed" }],'] as const;
    expect(only(jobWith(job, own)).joints.map(({ path, kind }) => [path, kind])).toEqual([
      ["joints[0]", "butt"],
      ["cases[0].joints[0]", "housed"],
    ]);
  });

  test("a load in pounds on a foot", () => {
    // 20 lb/ft: 9.0718474 kg on 0.3048 m.
    expect(only(withCase('"shelfLoad": "20 lb/ft"')).shelfLoad).toBeCloseTo(29.7633, 4);
  });

  test("roles without a stock of their own take that of the part they stand in for", () => {
    const stock =
      '{ "all": "half-ply", "shelf": "ply-15mm", "top": "ply-18mm", "kick": "ply-12mm", "back": "ply-6mm" }';
    const text = jobWith(
      ['{ "all": "three-quarter-ply", "back": "quarter-ply" }', stock],
      [
        "12,",
        '12, "top": { "fit": "stretchers" }, "plinth": { "height": 3 }, "pins": { "depth": "1/4" }, "bays": { "loose": 1 },',
      ],
    );
    expect(only(text).stock).toMatchObject({
      looseShelf: "ply-15mm",
      stretcher: "ply-18mm",
      plinth: "ply-12mm",
      side: "half-ply",
    });
  });

  test("filler strips follow their own stock's measured thickness", () => {
    const text = jobWith(
      ['"back": "quarter-ply" }', '"back": "quarter-ply", "filler": "half-ply" }, "top": { "fillers": 2 }'],
      ['"quarter-ply": {', '"half-ply": { "measured": [12.0, "12.4 mm"] }, "quarter-ply": {'],
      ["[12.0,", '["12 mm",'],
    );
    expect(only(text).top.down).toBeCloseTo(12.2, 9);
  });

  test("a case on a plinth stands on it, the next beside it on the floor, and one that shares a side beside that side", () => {
    const text = jobWith(
      ["12,", '12, "plinth": { "height": 4 },'],
      [
        "  ]\n}",
        `, { "name": "b", "width": 20, "height": 30, "depth": 12, "stock": { "all": "half-ply", "back": "quarter-ply" } }
         , { "name": "c", "width": 20, "height": 30, "depth": 12, "stock": { "all": "half-ply", "back": "quarter-ply" }, "plinth": { "height": 2, "inset": 1 } }
         , { "name": "d", "shares": { "left": "c" }, "width": 20, "height": 30, "depth": 12, "stock": { "all": "half-ply", "back": "quarter-ply" } }\n  ]\n}`,
      ],
    );
    const { cases } = readText(text).project;
    expect(cases.map(({ at }) => at)).toEqual([
      [0, 0, 101.6],
      [914.4, 0, 0],
      [914.4 + 508, 0, 50.8],
      [914.4 + 2 * 508, 0, 50.8],
    ]);
    expect(cases[2]?.plinth).toEqual({ height: 50.8, setBack: 50.8, inset: 25.4 });
    expect(cases[3]?.shares).toEqual({ left: "c" });
  });

  test("of the job: the doorway, and the glue's time with what is left out", () => {
    expect(readText(JOB).project).toMatchObject({ doorway: null, glue: null });
    expect(
      readText(withJob('"doorway": { "width": 30, "height": 80 }, "glue": { "mostJoints": 6 }')).project,
    ).toMatchObject({
      doorway: { width: 762, height: 2032 },
      glue: { openMinutes: 10, minutesPerJoint: 1, mostJoints: 6 },
    });
  });

  test("a project from text is the same as one from a file", () => {
    const { project } = readText(JOB);
    expect(readProjectText(JOB, project.file)).toEqual({ project, warnings: [] });
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
      door: null,
      size: { share: 1 },
      kind: "columns",
      bays: [
        {
          path: "cases[0].bays.columns[0]",
          name: "low",
          door: null,
          size: { clear: 254 },
          kind: "rows",
          bays: [
            {
              path: "cases[0].bays.columns[0].rows[0]",
              name: null,
              door: null,
              size: { share: 1 },
              kind: "open",
              loose: 0,
              drawers: [],
            },
            {
              path: "cases[0].bays.columns[0].rows[1]",
              name: null,
              door: null,
              size: { share: 2 },
              kind: "open",
              loose: 0,
              drawers: [],
            },
          ],
        },
        {
          path: "cases[0].bays.columns[1]",
          name: null,
          door: null,
          size: { share: 1 },
          kind: "open",
          loose: 0,
          drawers: [],
        },
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
      boards: null,
      trim: 6,
      grain: true,
      goodFaces: 2,
      density: 695,
      stiffness: { along: 6550, across: 6550, source: "veneer-core plywood, Architectural Woodwork Standards 2009" },
      solid: false,
      species: null,
      limits: null,
      price: null,
      count: null,
      sizes: [],
      offcuts: [],
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
      ...before,
      saw: { ...before.saw, kerf: 2.4, dado: { ...before.saw.dado, most: 25.4 } },
      router: { ...before.router, baseHalf: 88.9, baseAhead: 88.9 },
    });
  });

  test("a router base that is off-centre, who cuts what stops, a wider planer", () => {
    const { tooling } = readText(
      jobWith([
        '"in",',
        '"in",\n  "tooling": { "saw": { "stopped": "saw", "ripOther": 0, "stop": 24 }, "router": { "ride": "2 7/8", "plunge": "3 mm" }, "planer": { "width": 20 } },',
      ]),
    ).project;
    expect(tooling.saw).toMatchObject({ stopped: "saw", ripOther: 0, stop: 609.6 });
    expect(tooling.router).toMatchObject({ baseHalf: 73.025, baseAhead: 76.2, plunge: 3 });
    expect(tooling.planer).toBe(508);
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
      const { page, columns, rows, label, left, top, pitch, cutLines, dpi } = readText(text).project.paper.labels;
      expect(2 * left + (columns - 1) * pitch.x + label.width).toBeCloseTo(page.width, 2);
      expect(2 * top + (rows - 1) * pitch.y + label.height).toBeCloseTo(page.height, 2);
      expect(cutLines).toBe(name.includes("plain"));
      if (cutLines) {
        expect(Math.min(left, top)).toBeGreaterThanOrEqual(6.35); // what printers leave white
        continue;
      }
      if (dpi !== null) {
        expect([page.width, page.height, columns * rows]).toEqual([label.width, label.height, 1]);
        expect(name).toContain(`${dpi} dpi`);
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
    // Boards are planed to whatever the job takes; a sheet is no thicker than it is called.
    const sheets = project.stock.filter(({ sheet }) => sheet !== null);
    expect(sheets.every(({ thickness, nominal }) => thickness <= nominal + 0.2)).toBe(true);
  });

  test.each(["example-a", "twin-cabinet", "twin-rack"])("%s is one job in inches and in mm", (name) => {
    const [inches, mm] = ["in", "mm"].map((unit) => {
      const { project } = readProject(`tests/projects/${name}-${unit}.json`);
      // Pins that the file leaves out are the unit's own: of no account where no shelf is loose.
      const cases = project.cases.map((one) => (hasLoose(one.bays) ? one : { ...one, pins: null }));
      return { ...project, cases };
    });
    const { file: _f, lines: _l, unit: _u, ...rest } = inches!;
    const { file, lines, unit, ...other } = mm!;
    expect([file, unit, Object.keys(lines).length > 20]).toEqual([`tests/projects/${name}-mm.json`, "mm", true]);
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
  await expect(`${JSON.stringify(schema, null, 2)}\n`).toMatchFileSnapshot("../../shared/project.schema.json");
});
