/** Worktops spoiled in one thing after another, and found with the figure and the remedy; what cannot be made, said in words. */
import { describe, expect, it } from "vitest";
import { dryFit } from "../../src/audit/dryfit.ts";
import { makeSet } from "../../src/build.ts";
import { readProjectText } from "../../src/project/read.ts";
import type { DryfitSet, SetCheck, SetFeature, SetPart, SetWorktop } from "../../src/set/schema.ts";
import { setOf, testFile } from "../support/jobs/examples.ts";
import { inch, partOf, said, textOf, topOf } from "../support/worktops/worktop-jobs.ts";

describe("planted faults", () => {
  const set = setOf(testFile("worktop-solid"));
  const foundIn = (spoil: (copy: DryfitSet, top: SetWorktop) => void): SetCheck[] => {
    const copy = structuredClone(set) as DryfitSet;
    spoil(copy, topOf(copy));
    return dryFit(copy).filter(({ level }) => level === "failure");
  };
  const spoiled = (spoil: (copy: DryfitSet, top: SetWorktop) => void): string[] => foundIn(spoil).map(({ id }) => id);
  const row = (part: SetPart): SetFeature[] => part.features.filter(({ kind }) => kind === "slot");
  /** A slot made a round hole about its own middle, or turned. */
  const reshape = (part: SetPart, slot: SetFeature, l: number, w: number): void => {
    const [lo, hi] = slot.box;
    const [x, y] = [(lo[0] + hi[0]) / 2, (lo[1] + hi[1]) / 2];
    slot.box = [
      [x - l / 2, y - w / 2, 0],
      [x + l / 2, y + w / 2, part.thickness],
    ];
  };

  it("is sound as it is", () => expect(spoiled(() => {})).toEqual([]));

  it("a top fixed along two lines", () => {
    const found = foundIn((copy, top) => {
      // The rearmost screws held without play too; between front and rear the wood still travels in slots.
      const rearmost = Math.max(...top.screws.map(({ at }) => at[1]));
      for (const screw of top.screws.filter(({ at }) => at[1] === rearmost)) {
        const { place } = copy.assemblies.find(({ name }) => name === top.assembly)!;
        screw.front = 0;
        screw.rear = 0;
        for (const part of screw.through.map((mark) => partOf(copy, mark))) {
          const home = copy.assemblies.find(({ name }) => name === part.assembly)!;
          const [x, y] = screw.at.map((at, i) => place.at[i]! + at - home.place.at[i]! - part.place!.at[i]!);
          const slot = row(part).find(
            ({ box: [lo, hi] }) => lo[0] < x! && hi[0] > x! && lo[1] < y! + 1 && hi[1] > y! - 1,
          )!;
          reshape(part, slot, top.screw.diameter, top.screw.diameter);
        }
      }
    });
    expect(found.filter(({ id }) => id === "worktop-fixed").map(({ text, change }) => `${text} ${change}`)).toEqual([
      "Worktop 20 is held without play along 2 lines, 19 in apart, and moves 0.402 in between them: it will split or bow. Slots along all but one.",
    ]);
  });

  it("a slot turned", () => {
    const told = spoiled((copy, { screws }) => {
      const part = partOf(copy, screws.find(({ rear }) => rear > 0)!.through[0]!);
      const slot = row(part).find(({ from, to, width }) => to - from > width + 1)!;
      reshape(part, slot, slot.box[1][1] - slot.box[0][1], slot.box[1][0] - slot.box[0][0]);
    });
    expect(told).toContain("worktop-slot");
  });

  it("a slot too short by a step", () => {
    const told = spoiled((copy, { screws }) => {
      const part = partOf(copy, screws.find(({ rear }) => rear > 0)!.through[0]!);
      const slot = row(part).find(({ from, to, width }) => to - from > width + 1)!;
      slot.box[1][1] -= copy.job.step;
    });
    expect(told).toContain("worktop-slot");
  });

  it("a screw too long, and one too short", () => {
    const screws = (by: number): SetCheck[] =>
      foundIn((_, top) => {
        top.screw.length += inch(by);
      }).filter(({ id }) => id === "worktop-screw");
    const words = (found: SetCheck[]): (string | undefined)[] => found.map(({ text, change }) => `${text} ${change}`);
    const { screws: all } = topOf(set);
    // Filler strip and top panel 3/4 each, the worktop 1 thick.
    const long = words(screws(0.5));
    expect(long).toHaveLength(all.length);
    expect(long[0]).toBe(
      "A screw of 2 1/2 in at 3 13/16 in from the left end and 3 in from the front edge of worktop 20 comes out of its upper face by 1/16 in. A screw of 2.319 in or less.",
    );
    const short = words(screws(-0.25));
    expect(short).toHaveLength(all.length);
    expect(short[0]).toMatch(/holds [\d/ ]+ in of it\. A screw of [\d./ ]+ in or more\.$/);
  });

  it("a screw beside its slot, one beside the case, one without a slot, a slot without one", () => {
    const beside = spoiled((_, top) => {
      top.screws[0]!.at[0] += 20;
    });
    const off = spoiled((_, top) => {
      top.screws[0]!.at[1] = 10;
    });
    const none = spoiled((copy, top) => {
      const part = partOf(copy, top.screws[0]!.through[1]!);
      part.features = part.features.filter(({ kind }) => kind !== "slot");
    });
    const idle = spoiled((_, top) => {
      top.screws.pop();
    });
    expect([beside, none, idle].map((ids) => ids.includes("worktop-slot"))).toEqual([true, true, true]);
    expect(off).toContain("worktop-screw");
  });

  it("one that lies too high, too far to the front, or is said to stand out otherwise", () => {
    const place = (axis: 0 | 1 | 2, by: number) =>
      spoiled((copy) => {
        copy.assemblies.find(({ kind }) => kind === "worktop")!.place.at[axis] += by;
      });
    expect(place(2, 1)).toContain("worktop");
    expect(place(1, -3)).toContain("worktop");
    expect(
      spoiled((_, top) => {
        top.overhang.left += 2;
      }),
    ).toContain("worktop");
  });

  it("boards that do not make it up", () => {
    const told = (spoil: (top: SetWorktop) => void): string[] => spoiled((_, top) => spoil(top));
    expect(told((top) => void top.glued!.boards.pop())).toContain("worktop-boards");
    expect(
      told((top) => {
        top.glued!.boards[1]!.from += 3;
      }),
    ).toContain("worktop-boards");
    expect(
      told((top) => {
        top.glued!.trim.edges += 2;
      }),
    ).toContain("worktop-boards");
  });

  it("a movement that its wood has not", () => {
    expect(
      spoiled((_, top) => {
        top.moves.wider = 1;
      }),
    ).toContain("worktop");
  });
});

describe("said in words", () => {
  it("what it lies on", () => {
    expect(said("worktop-solid", { over: ["bensh"] })).toContain(
      '  error: there is no case "bensh"\n  expected: "bench"\n  try: did you mean "bench"?',
    );
    expect(said("worktop-solid", {}, { top: { down: "3/4" } })).toContain(
      '  error: the top panel of "bench" lies 3/4 in below "worktop", with nothing between\n  expected: filler strips, a flush top panel or stretchers to screw it to\n  try: write "top": { "fillers": ... } in the case',
    );
  });

  it("what it is made of", () => {
    expect(said("worktop-solid", { stock: "three-quarter-ply" })).toContain(
      '  error: a shaped edge on 3/4 in plywood, whose plies would show\n  expected: a lipping to cut it in\n  try: add a "lipping", or take "edge" out',
    );
    expect(said("worktop-solid", { stock: "maple-6q" })).toContain('error: there is no stock "maple-6q"');
    expect(said("worktop-solid", { lipping: { name: "strip", thickness: 0.25 } })).toContain(
      '  error: a lipping on hard maple, 5/4, which comes in boards\n  expected: no "lipping"\n  try: take it out',
    );
    expect(said("worktop-solid", { edge: { shape: "ogee", radius: "1/2" } })).toContain(
      "  error: an ogee that takes 1 in off an edge 1 in thick\n  expected: less than 1/2 in\n  try: choose a smaller cutter",
    );
    expect(said("worktop-solid", { boards: 2 })).toContain(
      '  error: 2 boards 12 3/16 in wide in the rough for "worktop", from boards at most 8 in wide\n  expected: at least 4 boards\n  try: more boards, or wider stock',
    );
  });

  it("what the strips cannot take", () => {
    const text = textOf("worktop-solid", {}, { top: { fillers: 1 } }, { moisture: { driest: 4, wettest: 16 } });
    const { project } = readProjectText(text, "worktop.json");
    expect(() => makeSet(project, { draft: false, olderSet: null })).toThrow(
      /slots up to .* long for the screws of "worktop", which leave .* of wood at their ends/,
    );
  });
});
