/** The same design as a doll's cupboard and as a wardrobe: both come out, whole, on paper. */
import { describe, expect, it } from "vitest";
import { makeSet } from "../../src/build.ts";
import { drawBundle } from "../../src/drawings/bundle.ts";
import { readProjectText } from "../../src/project/read.ts";
import { checkLettering } from "../../src/writers/lettered.ts";

const BITS = [2, 3, 6, 12].map((diameter) => ({ name: `${diameter} mm straight bit`, diameter, reach: 4 * diameter }));

const stock = (name: string, nominal: number, measured: number, length: number, width: number): object => ({
  name,
  nominal,
  measured,
  sheet: { length, width },
  trim: 5,
});

/** Two columns, one of them with a shelf and one open, a back in grooves. */
const cupboard = (
  size: { width: number; height: number; depth: number },
  panel: object,
  back: object,
  more: object,
): string =>
  JSON.stringify({
    job: { number: "S-1", title: "Cupboard", date: "2026-11-20", revision: "A" },
    unit: "mm",
    stock: { panel, back },
    tooling: { router: { bits: BITS } },
    cases: [
      {
        name: "cupboard",
        ...size,
        stock: { all: "panel", back: "back" },
        bays: { columns: [{ rows: [{}, {}] }, {}] },
        ...more,
      },
    ],
  });

const DOLL = cupboard(
  { width: 160, height: 190, depth: 70 },
  stock("6 mm plywood", 6, 5.8, 600, 300),
  stock("3 mm plywood", 3, 2.9, 600, 300),
  {
    joinery: { depth: 2, backDepth: 1.5, slip: 0.3, setBack: 4, allowance: 0.05 },
    back: { setIn: 6 },
    bays: { columns: [{ rows: [{}, {}] }, {}] },
  },
);

const WARDROBE = cupboard(
  { width: 2400, height: 2350, depth: 600 },
  stock("18 mm plywood", 18, 17.6, 3050, 1525),
  stock("6 mm plywood", 6, 5.7, 3050, 1525),
  {
    bottom: { up: 90 },
    kick: { setBack: 50 },
    back: { sections: true },
    shelfLoad: "15 kg/m",
    bays: { columns: [{ rows: [{ size: 1900 }, {}] }, { rows: [{}, { loose: 2 }] }, { rows: [{}, {}, {}] }] },
  },
);

describe.each([
  ["a doll's cupboard", DOLL],
  ["a wardrobe", WARDROBE],
])("%s", (_, text) => {
  const { project } = readProjectText(text, "cupboard.json");
  const set = makeSet(project, { draft: false, olderSet: null });

  it("fits: no check fails", () => {
    expect(set.checks.filter(({ level }) => level === "failure").map(({ text: found }) => found)).toEqual([]);
  });

  it("is drawn and lettered", () => {
    const bundle = drawBundle(set);
    checkLettering(Object.values(bundle).flat());
    expect(bundle.drawings.length).toBeGreaterThan(8);
    expect(bundle.labels.length).toBeGreaterThan(0);
  });
});
