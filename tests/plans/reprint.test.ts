/** What is printed anew after a change: followed from one edit of a project file to the labels and sticks on paper. */
import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { makeSet } from "../../src/build.ts";
import { main } from "../../src/cli.ts";
import { drawLabels } from "../../src/drawings/labels/labels.ts";
import { drawLongSticks } from "../../src/drawings/sticks/long-sticks.ts";
import { drawSticks } from "../../src/drawings/sticks/sticks.ts";
import { readProjectText } from "../../src/project/read.ts";
import type { DryfitSet } from "../../src/set/schema.ts";
import { inFolder } from "../support/jobs/project-file.ts";
import { overlapping, textBoxes } from "../support/pages/text-boxes.ts";

/** Two columns, the left one with a shelf: `upper` is the clear height over it, `columns` says what else there is. */
const cupboard = (upper: string, more = ""): string => `{
  "job": { "number": "R-1", "title": "Cupboard", "date": "2026-11-20", "revision": "A" },
  "unit": "mm",
  "stock": {
    "panel": { "name": "18 mm plywood", "nominal": 18, "measured": 17.6, "sheet": { "length": 2440, "width": 1220 } },
    "back": { "name": "6 mm plywood", "nominal": 6, "measured": 5.7, "sheet": { "length": 2440, "width": 1220 } }
  },
  "cases": [{
    "name": "cupboard", "width": 900, "height": 800, "depth": 300,
    "stock": { "all": "panel", "back": "back" },
    "bays": { "columns": [{ "rows": [{ "size": ${upper} }, {}] }, {}${more}] }
  }]
}`;

const setFor = (text: string, olderSet: DryfitSet | null): DryfitSet =>
  makeSet(readProjectText(text, "job.json").project, { draft: false, olderSet, changedOnly: olderSet !== null });

const first = setFor(cupboard("300"), null);
const named = (set: DryfitSet, marks: readonly string[]): string[] =>
  marks.map((mark) => set.parts.find((part) => part.mark === mark)!.name).sort();

it("prints everything where there is no older set", () => {
  expect(first.reprint).toBeNull();
  expect(first.labels.every(({ spot }) => spot !== null)).toBe(true);
});

describe("nothing changed", () => {
  const set = setFor(cupboard("300"), first);

  it("prints no label and no stick, and says so", () => {
    expect(set.reprint).toEqual({ revision: "A", parts: [], withdrawn: [], sticks: [], withdrawnSticks: [] });
    expect(set.labels.every(({ spot }) => spot === null)).toBe(true);
    expect(set.sticks.every(({ tiles }) => tiles.length === 0)).toBe(true);
    expect(drawLabels(set).map(({ label }) => label)).toEqual(["L-test"]);
    expect(drawLongSticks(set)).toEqual([]);
    const words = drawLabels(set).flatMap(({ shapes }) => textBoxes(shapes).map(({ text }) => text));
    expect(words.join(" ")).toContain("Nothing on the labels of revision A has changed.");
  });
});

describe("a shelf moved by 20 mm", () => {
  const set = setFor(cupboard("320"), first);

  it("prints the labels of the two parts whose grooves moved, and of no other", () => {
    expect(
      named(
        set,
        set.reprint!.parts.map(({ mark }) => mark),
      ),
    ).toEqual(["divider", "left side"]);
    expect(set.reprint!.parts.map(({ why }) => why)).toEqual([["joinery"], ["joinery"]]);
    const printed = set.labels.filter(({ spot }) => spot !== null);
    expect(printed.map(({ mark }) => mark)).toEqual(set.reprint!.parts.map(({ mark }) => mark));
    expect(printed[0]!.spot).toEqual(first.labels[0]!.spot); // the first label of the page, whoever's it is
  });

  it("prints the height stick, and says which is no longer true", () => {
    const height = first.sticks.find(({ axis }) => axis === "z")!.name;
    expect(set.reprint!.sticks).toEqual([height]);
    expect(set.reprint!.withdrawnSticks).toEqual([height]);
    expect(set.sticks.filter(({ tiles }) => tiles.length > 0).map(({ name }) => name)).toEqual([height]);
    const pages = set.sticks.flatMap(({ tiles }) => tiles.map(({ page }) => page));
    expect(Math.min(...pages)).toBe(2);
  });

  it("letters nothing over anything, and maps the kept sticks as kept", () => {
    const pages = [...drawSticks(set), ...drawLabels(set)];
    expect(pages.flatMap(({ shapes }) => overlapping(textBoxes(shapes)))).toEqual([]);
    const map = textBoxes(pages[0]!.shapes).map(({ text }) => text);
    expect(map.filter((text) => text.startsWith("as it is: still true since revision A"))).toHaveLength(
      set.sticks.length - 1,
    );
  });
});

describe("a column left out", () => {
  const wide = setFor(cupboard("300", ", {}"), null);
  const set = setFor(cupboard("300"), wide);

  it("lists its divider as withdrawn, and keeps the marks of all others", () => {
    const gone = wide.parts.filter(({ key }) => set.parts.every((part) => part.key !== key));
    expect(gone.length).toBeGreaterThan(0);
    expect(set.reprint!.withdrawn).toEqual(gone.map(({ mark, name }) => ({ mark, name: `${name}, cupboard` })));
    for (const part of set.parts) expect(wide.parts.find(({ key }) => key === part.key)!.mark).toBe(part.mark);
    const words = drawLabels(set).flatMap(({ shapes }) => textBoxes(shapes).map(({ text }) => text));
    expect(words.join(" ")).toContain(`Withdrawn: ${gone[0]!.mark} (divider, cupboard)`);
  });
});

describe("what a label in the shop says", () => {
  it("stays in set.json as it was printed, in a later revision too", () => {
    const later = setFor(cupboard("320").replace('"revision": "A"', '"revision": "B"'), first);
    const back = later.parts.find(({ name }) => name === "back")!.mark;
    const textOf = (set: DryfitSet, mark: string): string => set.labels.find((label) => label.mark === mark)!.text;
    expect(textOf(later, back)).toBe(textOf(first, back));
    const side = later.parts.find(({ name }) => name === "left side")!.mark;
    expect(textOf(later, side)).toContain("revision B");
  });
});

async function call(...args: string[]): Promise<{ status: number; said: string; complained: string }> {
  const [said, complained]: [string[], string[]] = [[], []];
  const io = {
    say: (text: string) => said.push(text),
    complain: (text: string) => complained.push(text),
    colours: false,
  };
  const status = await main(args, io);
  return { status, said: said.join(""), complained: complained.join("") };
}

it("the command line takes the folder of a set, says what is printed anew, and refuses a second older set", () =>
  inFolder(async (folder) => {
    const file = join(folder, "cupboard.json");
    writeFileSync(file, cupboard("300"));
    mkdirSync(join(folder, "old"));
    writeFileSync(join(folder, "old", "set.json"), JSON.stringify(first));
    writeFileSync(file, cupboard("320"));
    const out = join(folder, "out");
    const { status, said } = await call("build", "--out", out, "--changed-since", join(folder, "old"), file);
    expect(status).toBe(0);
    expect(said).toContain("labels printed anew: 1 (joinery), 6 (joinery)");
    expect(said).toContain("sticks printed anew: cupboard height");
    expect(JSON.parse(readFileSync(join(out, "cupboard", "set.json"), "utf8")).reprint.revision).toBe("A");
    const both = await call("build", "--marks-from", "a.json", "--changed-since", "b.json", file);
    expect(both.status).toBe(2);
    expect(both.complained).toBe(
      [
        "  error: --marks-from and --changed-since together",
        "  expected: one earlier set: --changed-since keeps its marks as well",
        "  try: leave --marks-from out",
        "",
      ].join("\n"),
    );
  }));
