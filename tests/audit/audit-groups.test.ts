/** Groups of work: a part cut before what it follows from stands, in no group or at no size, is told. */
import { describe, expect, it } from "vitest";
import { dryFit } from "../../src/audit/dryfit.ts";
import type { DryfitSet } from "../../src/set/schema.ts";
import { EXAMPLES, exampleFile, setOf, testFile } from "../support/jobs/examples.ts";

const NAMES = ["face-frame", "doors-solid", "drawers-side-mounted"] as const;
const read = (name: (typeof NAMES)[number]): DryfitSet => structuredClone(setOf(testFile(name)));
const failures = (set: DryfitSet): string[] =>
  dryFit(set).flatMap(({ id, level, text }) =>
    level === "failure" && (id === "group" || id === "sizing") ? [`${id}: ${text}`] : [],
  );

/** What must be found when one thing is spoiled. */
const found = (name: (typeof NAMES)[number], spoil: (set: DryfitSet) => void): string => {
  const set = read(name);
  spoil(set);
  return failures(set).join("\n");
};

describe("groups of work", () => {
  it("are in order, and nothing is told of them, where none is spoiled", () => {
    for (const name of NAMES) expect(failures(read(name)), name).toEqual([]);
    for (const name of EXAMPLES) expect(failures(setOf(exampleFile(name))), name).toEqual([]);
  });

  it("have every part once", () => {
    expect(found("face-frame", ({ groups }) => groups[1]!.parts.pop())).toContain("is in no group of work");
    expect(found("face-frame", ({ groups }) => groups[0]!.parts.push(groups[1]!.parts[0]!))).toContain("or in two");
  });

  it("never cut what is made for a piece that stands with that piece", () => {
    const text = found("face-frame", ({ groups }) => {
      groups[0]!.parts.push(...groups[1]!.parts.splice(0, 1));
    });
    expect(text).toContain("Group 1 cuts together");
  });

  it("come after what they follow from, with the figures as built to write in", () => {
    expect(
      found("face-frame", ({ groups }) => {
        groups[1]!.gate.boxes = [];
      }),
    ).toContain("without a figure as built");
    expect(found("face-frame", ({ groups }) => groups.reverse())).toContain("before what it follows from");
  });

  it("have in a frame's gate the width and height of each bay that it goes before, as it was reckoned with", () => {
    const spoiled = (spoil: (boxes: { label: string; target: number }[]) => void): string =>
      found("face-frame", ({ groups }) => spoil(groups[1]!.gate.boxes));
    const bay = (boxes: { label: string; target: number }[], way: string): number =>
      boxes.findIndex(({ label }) => label.endsWith(`: ${way}`));
    expect(spoiled((boxes) => boxes.splice(bay(boxes, "height"), 1))).toContain("no box for the height of");
    expect(
      spoiled((boxes) => {
        boxes[bay(boxes, "width")]!.target += 0.1;
      }),
    ).toContain("no box for the width of");
  });

  it("have their own settings and holes, one group after the other", () => {
    expect(
      found("doors-solid", ({ settings }) => {
        settings.at(-1)!.group = 1;
      }),
    ).toMatch(/but not all its parts are|after a later group's/);
    expect(
      found("face-frame", ({ drilling }) => {
        drilling[0]!.group = 1;
      }),
    ).toContain("Drilling 1 is in group 1");
    expect(found("doors-solid", ({ settings }) => settings.reverse())).toContain("comes after a later group's");
  });

  it("have the cuts of the sheets as soon as one of their parts needs them, and no sooner", () => {
    const { groups } = read("drawers-side-mounted");
    const late = groups.at(-1)!.n;
    expect(
      found("drawers-side-mounted", ({ sizing }) => {
        for (const one of sizing) if (one.cuts.length > 0 && one.group === 1) one.group = late;
      }),
    ).toContain(`is told in group ${late}`);
    expect(
      found("drawers-side-mounted", ({ sizing }) => {
        for (const one of sizing) one.group = 1;
      }),
    ).toContain("is told in group 1");
  });

  it("leave something over on what waits, for as long as its opening is not measured", () => {
    const spoil = (set: DryfitSet): void => {
      const { sizing, groups } = set;
      const last = groups.at(-1)!;
      const late = sizing.find(({ group, trim, rips }) => group === last.n && trim && rips.length > 0)!;
      const part = set.parts.find(({ mark }) => mark === late.rips[0])!;
      const { id, piece } = set.sheets
        .flatMap(({ parts, n }) => parts.map((one) => ({ ...one, piece: n })))
        .find(({ mark }) => mark === part.mark)!;
      // As large as it comes from its sheet, and every cut of that told in the first group.
      const { length, width } = set.pieces.find((one) => one.id === id)!;
      part.cut = { length, width };
      for (const one of sizing) if (one.cuts.some(({ sheet }) => sheet === piece)) one.group = 1;
    };
    const set = structuredClone(setOf(exampleFile("wedging-pair")));
    spoil(set);
    expect(failures(set).join("\n")).toMatch(/Sheet \d+ gives .* and nothing over, before what it is measured for/);
  });

  it("rip and cut to length each member once, at its own size, never to length along the fence", () => {
    const rips = (set: DryfitSet) => set.sizing.find((one) => one.rips.length > 0)!;
    const lengths = (set: DryfitSet) => set.sizing.find((one) => one.crosscuts.length > 0)!;
    const wrong = "once each in its group";
    expect(found("face-frame", (set) => rips(set).rips.pop())).toContain(wrong);
    expect(found("face-frame", (set) => lengths(set).crosscuts.push(lengths(set).crosscuts[0]!))).toContain("twice");
    expect(found("face-frame", (set) => rips(set).rips.push("1"))).toContain("or is none");
    expect(
      found("face-frame", (set) => {
        lengths(set).fence += 2;
      }),
    ).toContain(wrong);
    expect(
      found("face-frame", (set) => {
        lengths(set).guide = "fence";
      }),
    ).toContain("along the fence by an end");
    expect(found("face-frame", (set) => set.sizing.push(structuredClone(rips(set))))).toContain(wrong);
  });

  it("are not pushed along the fence by the short side of a piece of a sheet", () => {
    expect(
      found("face-frame", ({ sizing }) => {
        sizing.find(({ guide, cuts }) => guide !== "fence" && cuts.length > 0)!.guide = "fence";
      }),
    ).toMatch(/runs along the fence with .* of a piece that is .* wide/);
  });
});
