/** What the shop pages say of lipped edges, tongues, open ends and drilled rows, held against the parts and not the plans that made them. */
import { describe, expect, it } from "vitest";
import { labelFields } from "../../src/drawings/labels/label-words.ts";
import { lieOf } from "../../src/drawings/machines/lie.ts";
import { planSettings } from "../../src/plans/settings/index.ts";
import { edgeThen, meetingGroove } from "../../src/set/facing.ts";
import type { DryfitSet } from "../../src/set/schema.ts";
import { partOf } from "../../src/set/words.ts";
import { projectOf, setOf, testFile } from "../support/jobs/examples.ts";

const read = (name: string): DryfitSet => setOf(testFile(name));
const runsOf = (set: DryfitSet) =>
  set.settings.flatMap((setting) => setting.runs.map((run) => ({ setting, run, part: partOf(set, run.mark) })));
const labelOf = (set: DryfitSet, name: string): string => {
  const part = set.parts.find((one) => one.name === name)!;
  return labelFields(set, part)
    .map(({ text }) => text)
    .join(" | ");
};

describe("a panel that is lipped after grooving", () => {
  const set = read("lipping-strip");

  it("is told to stop nowhere that the setting runs through", () => {
    const through = runsOf(set).filter(({ setting }) => !setting.stopped);
    const toLipping = through.filter(({ run, part }) => run.from === part.lippings[0]?.thickness);
    expect(toLipping.length).toBeGreaterThan(5);
    expect(through.flatMap(({ run }) => run.stops)).toEqual([]);
  });

  it("lies under the cutter as wide as it is cut", () => {
    for (const { setting, run, part } of runsOf(set)) {
      const { across, along, from, to } = lieOf(part, setting, run);
      const sizes = [part.cut.length, part.cut.width].sort((a, b) => a - b);
      const seen = [across, along].sort((a, b) => a - b);
      seen.forEach((size, i) => {
        expect(size).toBeCloseTo(sizes[i]!, 6);
      });
      expect([from > -1e-6, to < along + 1e-6]).toEqual([true, true]);
    }
  });

  it("says so where its fence figure starts at the lipped edge, and only there", () => {
    const words = runsOf(set).map(({ run, part }) => [run.datum, edgeThen(part, run.datum)]);
    expect(words.filter(([datum]) => datum === "w0").length).toBe(4);
    for (const [datum, text] of words) expect(text!.endsWith(" before lipping")).toBe(datum === "w0");
    const before = read("lipping-band-before");
    expect(runsOf(before).filter(({ run, part }) => edgeThen(part, run.datum).includes("before lipping"))).toEqual([]);
  });

  it("is as wide on its stick as it is cut, the back groove where the fence has it, and no stop at the lipping", () => {
    const stick = set.sticks.find(({ axis }) => axis === "y")!;
    for (const { mark, offset, length } of stick.parts) {
      expect([offset, length]).toEqual([0, partOf(set, mark).cut.width]);
    }
    const fence = set.settings.find(({ runs }) => runs[0]!.datum === "w0")!.fence;
    expect(stick.marks.map(({ kind, at }) => [kind, Math.round(at * 1000) / 1000])).toEqual([
      ["end", 0],
      ["groove", Math.round(fence * 1000) / 1000],
      ["end", stick.length],
    ]);
  });

  it("has its lipping on the label, and one line for strips alike in the purchase list", () => {
    expect(labelOf(set, "divider")).toContain("lip front edge after grooving, ash strip");
    expect(labelOf(set, "back")).not.toContain("lip ");
    const strips = set.pieces.filter(({ kind }) => kind === "lipping");
    const lines = set.purchase.filter(({ what }) => what === "ash strip");
    expect(lines.map(({ quantity, unit }) => [quantity, unit])).toEqual([
      [Math.ceil((1.1 * strips.reduce((sum, { length }) => sum + length, 0)) / 1000), "m"],
    ]);
    expect(lines[0]!.note).toContain(`${strips.length} pieces`);
  });
});

describe("what enters a part, on its label", () => {
  it("names no part that it enters itself", () => {
    for (const [file, name] of [
      ["tongue", "shelf"],
      ["butt-dowels", "divider"],
    ] as const) {
      expect(labelOf(read(file), name)).not.toContain("takes");
    }
    const dowels = read("butt-dowels");
    const { mark } = dowels.parts.find(({ name }) => name === "divider")!;
    expect(labelOf(dowels, "bottom")).toMatch(new RegExp(`inside face takes [0-9, ]*\\b${mark}\\b`));
  });
});

/** Each open end: its setting, and the setting of the groove that it runs into. */
const openEnds = (set: Pick<DryfitSet, "parts" | "settings">): { n: number; first: number; met: string | null }[] =>
  set.settings.flatMap(({ n, runs }) =>
    runs.flatMap((run) => {
      const part = set.parts.find(({ mark }) => mark === run.mark)!;
      return ([0, 1] as const).flatMap((end) => {
        if (part.features[run.feature]!.ends[end] !== "open") return [];
        const met = meetingGroove(part, run.feature, end);
        const first = set.settings.find((other) =>
          other.runs.some(({ mark, feature }) => mark === run.mark && part.features[feature] === met),
        );
        return [{ n, first: first?.n ?? 0, met: met?.holds ?? null }];
      });
    }),
  );

describe("a groove that ends in another", () => {
  const noSled = (name: string): Pick<DryfitSet, "parts" | "settings"> => {
    const { parts, stock, assemblies, drilling, groups } = read(name);
    const { tooling, unit } = projectOf(testFile(name));
    // Both grooves go to the router then, where the one nearer to its datum would come first.
    const bare = { ...tooling, saw: { ...tooling.saw, sled: 0, rip: 0 } };
    return {
      parts,
      settings: planSettings({ parts, stock, assemblies, drilling, groups, tooling: bare, unit }).settings,
    };
  };

  it.each(["housing-back", "housing-back-columns-rows"])("comes after that one in %s, sled or none", (name) => {
    for (const set of [read(name), noSled(name)]) {
      const open = openEnds(set);
      expect(open.length).toBeGreaterThan(0);
      for (const { n, first, met } of open) {
        expect(met).not.toBeNull();
        expect(first).toBeGreaterThan(0);
        expect(first).toBeLessThan(n);
      }
    }
  });
});

describe("drilling", () => {
  it.each(["loose-shelves", "loose-shelves-each-side", "butt-dowels"])(
    "rows of %s mark out every hole, once",
    (name) => {
      const set = read(name);
      const told = set.drilling.flatMap(({ rows }) =>
        rows.flatMap((row) => {
          const part = partOf(set, row.mark);
          const size = { l: part.length, w: part.width, t: part.thickness };
          const sizeOf = (face: string): number => size[face[0] as "l" | "w" | "t"];
          const from = (face: string, by: number): number => (face.endsWith("0") ? by : sizeOf(face) - by);
          return Array.from({ length: row.count }, (_, i) => {
            const at = { [row.datum[0]!]: from(row.datum, row.first + i * row.pitch) };
            at[row.edge[0]!] = from(row.edge, row.distance);
            return { mark: row.mark, face: row.face, at };
          });
        }),
      );
      const text = (mark: string, face: string, at: Record<string, number>): string =>
        `${mark} ${face} ${Object.keys(at)
          .sort()
          .map((axis) => `${axis}${at[axis]!.toFixed(3)}`)
          .join(" ")}`;
      const made = set.parts.flatMap((part) =>
        part.features
          .filter(({ kind }) => kind === "hole")
          .map(({ face, box: [lo, hi] }) => {
            const middles = (["l", "w", "t"] as const).map((axis, i) => [axis, (lo[i as 0] + hi[i as 0]) / 2] as const);
            return text(part.mark, face, Object.fromEntries(middles.filter(([axis]) => axis !== face[0])));
          }),
      );
      expect(made.length).toBeGreaterThan(0);
      expect(told.map(({ mark, face, at }) => text(mark, face, at)).sort()).toEqual(made.sort());
    },
  );
});
