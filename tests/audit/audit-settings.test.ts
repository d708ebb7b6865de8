/** The dry fit on the settings of worked example A, typed by hand and spoiled: what it finds, in which words. */
import { describe, expect, it } from "vitest";
import { dryFit } from "../../src/audit/dryfit.ts";
import type { DryfitSet, SetSetting } from "../../src/set/schema.ts";
import { workedA } from "../fixtures/audit/worked-a.ts";
import { bare } from "../support/faults/faults.ts";
import { settingsFor } from "../support/faults/setting-faults.ts";
import { IN, partOf, reboxed, spoken, texts } from "../support/faults/spoiled.ts";

const countOf = (count: number): DryfitSet["settingsCount"] => ({
  count,
  least: count,
  proved: true,
  fromLowEnds: count,
});

describe("settings against the grooves", () => {
  /** Every failure of the set with one of its settings changed, by number. */
  const with_ = (n: number, change: (setting: SetSetting, set: DryfitSet) => void): string[] => {
    const set = workedA();
    change(set.settings.find((setting) => setting.n === n)!, set);
    set.settingsCount = countOf(set.settings.length);
    return dryFit(set)
      .filter(({ level }) => level === "failure")
      .map(spoken);
  };

  it("figures that are not the groove's, part by part", () => {
    expect(
      with_(2, (setting) => {
        setting.depth += IN / 8;
        setting.width -= IN / 16;
      }),
    ).toEqual([
      "Setting 2 is cut 3/8 in, but the groove is 1/2 in deep. Change: deeper pass by pass, to that depth.",
      "Setting 2 does not make the groove at 2 in on face t0 of left side 1: width 11/16 in, but it is 3/4 in; depth 1/2 in, but it is 3/8 in. Change: give it the part's own figures.",
      "Setting 2 does not make the groove at 2 in on face t1 of right side 2: width 11/16 in, but it is 3/4 in; depth 1/2 in, but it is 3/8 in. Change: give it the part's own figures.",
    ]);
    expect(
      with_(3, (setting) => {
        setting.operation = "rabbet";
        Object.assign(setting.runs[0]!, { face: "t1", from: IN, to: 11 * IN, stopped: true });
      }),
    ).toEqual([
      "Setting 3 does not make the groove at 15 1/4 in on face t0 of left side 1: a rabbet, but it is a groove; in face t1, but it is in t0; from 1 in, but it is 0 in; to 11 in, but it is 12 in; stopped, but it is through. Change: give it the part's own figures.",
    ]);
  });

  it("a setting said to stop where no run stops, and a sacrificial face in the wood", () => {
    expect(
      with_(3, (setting) => {
        setting.stopped = true;
      }),
    ).toEqual([
      "Setting 3 is said to be stopped, but none of its runs stops. Change: say so.",
      "Setting 3 leaves no slope, but the saw's round cutter leaves one. Change: reckon it from the cutter's radius.",
    ]);
    expect(
      with_(3, (setting) => {
        setting.sacrificial = true;
      }),
    ).toEqual([
      "Setting 3 asks for a sacrificial face, but the groove of left side 1 stays clear of its datum l0. Change: leave it out.",
    ]);
  });

  it("passes that rise, or end too high or too low", () => {
    const cut = (depths: number[]): string[] =>
      with_(6, (setting) => {
        setting.depths = depths.map((depth) => depth * IN);
      });
    expect(cut([0.25, 0.375])).toEqual([]);
    expect(cut([0.25, 0.125, 0.375])).toHaveLength(1);
    expect(cut([])).toEqual([
      "Setting 6 is cut to no depth, but the groove is 3/8 in deep. Change: deeper pass by pass, to that depth.",
    ]);
    expect(
      with_(3, (setting) => {
        setting.depths = [0.25 * IN, 0.375 * IN];
      }),
    ).toHaveLength(1);
  });

  // Left side 1, inside face down: with its bottom end at a guide on the right its front edge goes first, on the left its back edge.
  it("a stopped cut that would enter at its stop, its slope, and where its block stands", () => {
    const stopped = (side: "left" | "right", change: (setting: SetSetting) => void = () => undefined): string[] =>
      with_(3, (setting, set) => {
        const side1 = partOf(set, "1");
        const groove = side1.features[setting.runs[0]!.feature]!;
        reboxed(groove, [
          [15.25, 0.5, 0],
          [16, 12, 0.375],
        ]);
        groove.ends = ["square", "through"];
        setting.side = side;
        setting.stopped = true;
        // Radius 4, depth 3/8: 1.69 (derived from the cutter's circle).
        setting.ramp = { radius: 4 * IN, length: 1.6909686 * IN };
        Object.assign(setting.runs[0]!, {
          from: 0.5 * IN,
          stopped: true,
          stops: [{ edge: "w0", leave: 0.5 * IN, block: 11.5 * IN }],
        });
        change(setting);
      }).filter((text) => text.startsWith("Setting"));
    expect(stopped("left")).toEqual([]);
    expect(stopped("right")).toEqual([
      "Setting 3 would enter the groove at 15 1/4 in on face t0 of left side 1 at its stop: w0 goes first. Change: the guide on the other side of the cutter, or the router.",
    ]);
    expect(
      stopped("left", (setting) => {
        setting.ramp!.length += IN / 8;
      }),
    ).toEqual([
      "Setting 3 leaves a slope of 1.816 in, but its cutter leaves 1.691 in. Change: reckon it from the cutter's radius.",
    ]);
    expect(
      stopped("left", (setting) => {
        setting.runs[0]!.stops[0]!.block = 11 * IN;
      }),
    ).toEqual([
      "Setting 3 stops the groove at 15 1/4 in on face t0 of left side 1 1/2 in from w0, block at 11 in, but it stops 1/2 in from w0, block at 11 1/2 in. Change: stop it there.",
    ]);
  });

  it("cuts of the sheets that no sizing setting tells, or that two do", () => {
    const cut = { piece: "S1", makes: [], across: "y" as const, at: 0, from: 0, to: 2440, reference: "y0" as const };
    const sized = (sizing: DryfitSet["sizing"]): string[] => {
      const set = workedA();
      set.sheets = [
        {
          ...{
            n: 1,
            stock: "ply",
            offcut: null,
            length: 2440,
            width: 1220,
            defects: [],
            trim: 0,
            kerf: 3,
            parts: [],
            offcuts: [],
            bound: 1,
          },
          boundText: "",
          boundProof: "",
          cuts: [
            { ...cut, n: 1, fence: 400 },
            { ...cut, n: 2, fence: 300 },
          ],
        },
      ];
      set.sizing = sizing;
      return texts(set, "sizing");
    };
    const one = (fence: number, cuts: number[]): DryfitSet["sizing"][number] => ({
      group: 1,
      fence,
      guide: "fence",
      trim: false,
      cuts: [{ sheet: 1, cuts }],
      rips: [],
      crosscuts: [],
      caution: "",
    });
    expect(sized([one(400, [1]), one(300, [2])])).toEqual([]);
    expect(sized([one(400, [1, 2])])).toEqual([
      "The sizing settings do not agree with the sheet layouts: cut 2 of sheet 1. Change: list each cut once, at its own fence distance.",
    ]);
    expect(sized([one(400, [1]), one(300, [2]), one(300, [2, 3])])).toHaveLength(1);
    expect(sized([one(400, [1])])).toHaveLength(1);
  });

  it("a count that is not the settings', or that is proved and is not", () => {
    const counted = (change: Partial<DryfitSet["settingsCount"]>): string[] => {
      const set = workedA();
      Object.assign(set.settingsCount, change);
      return texts(set, "settings-count");
    };
    expect(counted({})).toEqual([]);
    expect(counted({ least: 5, proved: false })).toEqual([]);
    expect(counted({ count: 5, least: 5 })).toEqual([
      "6 settings are listed, 5 counted, at least 5 needed, and that is said to be proved: these do not agree. Change: count again.",
    ]);
    expect(counted({ least: 5 })).toHaveLength(1);
    expect(counted({ least: 7, proved: false })).toHaveLength(1);
    expect(counted({ fromLowEnds: 5 })).toHaveLength(1);
  });

  it("what holds one part, measured from two ends", () => {
    // Shelf 6: 15 1/4 up in the side, 12 7/8 up in the divider of 26 1/2; groove 3/4 wide.
    expect(
      with_(6, (setting) => {
        setting.runs[0]!.datum = "l1";
        setting.fence = 12.875 * IN;
        Object.assign(setting.straightedge!, { near: 10.125 * IN, far: 10.375 * IN });
      }),
    ).toEqual([
      "What holds shelf 6 is measured from one end in left side 1, from the other in divider 5. Change: measure from the same end of every part that holds it.",
    ]);
  });

  it("a fence that is off, a datum at the other end, a datum along the groove", () => {
    const twoEnds =
      "What holds shelf 6 is measured from one end in divider 5, from the other in left side 1. Change: measure from the same end of every part that holds it.";
    expect(
      with_(3, (setting) => {
        setting.fence += IN / 8;
      }),
    ).toEqual([
      "Setting 3 has the fence at 15 3/8 in, but the groove of left side 1 is 15 1/4 in from its datum l0. Change: set the fence to 15 1/4 in.",
    ]);
    expect(
      with_(3, (setting) => {
        setting.runs[0]!.datum = "l1";
      }),
    ).toEqual([
      twoEnds,
      "Setting 3 has the fence at 15 1/4 in, but the groove of left side 1 is 14 in from its datum l1. Change: set the fence to 14 in.",
    ]);
    expect(
      with_(3, (setting) => {
        setting.runs[0]!.datum = "l1";
        setting.fence = 14 * IN;
      }),
    ).toEqual([twoEnds]);
    expect(
      with_(3, (setting) => {
        setting.runs[0]!.datum = "w0";
      }),
    ).toEqual([
      "Setting 3 measures the groove at 15 1/4 in on face t0 of left side 1 from w0, which does not lie beside it. Change: measure from the end or edge beside it.",
    ]);
  });

  it("a groove that no setting cuts, or two cut, and a setting that cuts nothing", () => {
    expect(
      with_(2, (setting) => {
        setting.runs.pop();
      }),
    ).toEqual(["No setting cuts the groove at 2 in on face t1 of right side 2. Change: give it a run in one setting."]);
    expect(
      with_(3, (setting, set) => {
        set.settings.push({ ...structuredClone(setting), n: 7 });
      }),
    ).toEqual([
      "The groove at 15 1/4 in on face t0 of left side 1 is cut 2 times, by settings 3, 7. Change: leave one run only.",
    ]);
    expect(
      with_(3, (setting, set) => {
        set.settings.push({ ...structuredClone(setting), n: 7, runs: [], holds: [] });
      }),
    ).toEqual(["Setting 7 cuts nothing. Change: leave it out."]);
    expect(
      with_(3, (setting) => {
        setting.runs.push({ ...setting.runs[0]!, mark: "6" });
      }),
    ).toEqual(["Setting 3 cuts a groove that part 6 does not have. Change: leave the run out."]);
    expect(
      with_(3, (setting) => {
        setting.holds = ["5"];
      }),
    ).toEqual(["Setting 3 is said to be for 5, but its grooves hold 6. Change: name what they hold."]);
  });

  it("leaves a groove that no tool cuts to its own failure, and counts them", () => {
    const noTool = { id: "no-tool", level: "failure" as const, parts: ["1"], text: "", rule: null, change: null };
    const cut = (runs: number): string[] =>
      with_(2, (_, set) => {
        set.checks = [noTool];
        for (const setting of set.settings.slice(1, 1 + runs)) setting.runs.shift();
        set.settings = set.settings.filter(({ runs: left }) => left.length > 0);
      });
    expect(cut(1)).toEqual([]);
    expect(cut(2)).toEqual([
      "No setting cuts the groove at 2 in on face t0 of left side 1. Change: give it a run in one setting.",
      "No setting cuts the groove at 15 1/4 in on face t0 of left side 1. Change: give it a run in one setting.",
    ]);
    const set = workedA();
    set.checks = [noTool];
    expect(dryFit(set).some(({ text }) => text.includes("is cut once"))).toBe(false);
  });

  // Divider 5: groove 12 7/8 to 13 5/8, 1/2 in bit, base 6 in: bit centres 13 1/8 and 13 3/8, straightedge 10 1/8 and 10 3/8, or 16 1/8 and 16 3/8.
  const straightedge = (change: Partial<NonNullable<SetSetting["straightedge"]>>): string[] =>
    with_(6, (setting) => {
      Object.assign(setting.straightedge!, change);
    });
  const groove = "the groove at 12 7/8 in on face t1 of divider 5";

  it("a straightedge that lies off, before the cut or beyond it, and passes on two sides of it", () => {
    expect(straightedge({ near: 16.125 * IN, far: 16.375 * IN })).toEqual([]);
    expect(straightedge({ near: 10.25 * IN })).toEqual([
      `The straightedge of setting 6 lies 10 1/4 in from l0 for the near wall of ${groove}, but a base of 6 in and a bit of 1/2 in put it at 10 1/8 in. Change: lay it at 10 1/8 in.`,
    ]);
    expect(straightedge({ near: 16 * IN, far: 16.375 * IN })).toEqual([
      `The straightedge of setting 6 lies 16 in from l0 for the near wall of ${groove}, but a base of 6 in and a bit of 1/2 in put it at 16 1/8 in. Change: lay it at 16 1/8 in.`,
    ]);
    expect(straightedge({ far: 16.375 * IN })).toEqual([
      `The straightedge of setting 6 lies 16 3/8 in from l0 for the far wall of ${groove}, but a base of 6 in and a bit of 1/2 in put it at 10 3/8 in. Change: lay it at 10 3/8 in.`,
    ]);
    expect(straightedge({ base: 6.25 * IN })).toHaveLength(2);
    expect(straightedge({ spacer: IN / 8 })).toEqual([
      `The spacer of setting 6 is 1/8 in, but the passes for ${groove} lie 1/4 in apart. Change: a spacer of 1/4 in.`,
    ]);
  });

  it("a bit that leaves wood standing, or takes too much", () => {
    expect(straightedge({ far: null, spacer: 0 })).toEqual([
      `Setting 6 does not clear ${groove}: one pass of a 1/2 in bit leaves 1/4 in of its 3/4 in standing. Change: a second pass, at the far wall.`,
    ]);
    // Centres 13 and 13 1/2 with a 1/4 in bit: 13 1/8 to 13 3/8 is never reached.
    expect(straightedge({ bit: IN / 4, near: 10 * IN, far: 10.5 * IN, spacer: IN / 2 })).toEqual([
      `Setting 6 does not clear ${groove}: two passes of a 1/4 in bit leave 1/4 in of its 3/4 in standing. Change: a bit of 3/8 in or more.`,
    ]);
    expect(straightedge({ bit: 0.375 * IN, near: 10.0625 * IN, far: 10.4375 * IN, spacer: 0.375 * IN })).toEqual([]);
    expect(straightedge({ bit: 0.75 * IN, near: 10.25 * IN, far: null, spacer: 0 })).toEqual([]);
    expect(straightedge({ bit: IN, near: 10.375 * IN, far: null, spacer: 0 })).toEqual([
      `Setting 6 does not clear ${groove}: its bit is 1 in wide, the groove 3/4 in. Change: a narrower bit.`,
    ]);
  });

  it("a rabbet at the datum is set to its inner wall, its straightedge to both", () => {
    const set = bare(workedA());
    const side = partOf(set, "1");
    side.features[0]!.kind = "rabbet";
    reboxed(side.features[0]!, [
      [0, 0, 0],
      [0.75, 12, 0.375],
    ]);
    Object.assign(set, settingsFor(set));
    const setting = set.settings[0]!;
    expect(setting.fence).toBeCloseTo(0.75 * IN, 9);
    Object.assign(setting, {
      tool: "router",
      carrier: "straightedge",
      straightedge: { base: 6 * IN, bit: IN / 2, near: 3.25 * IN, far: 3.5 * IN, spacer: IN / 4 },
    });
    const found = (): string[] => [...texts(set, "fence"), ...texts(set, "straightedge")];
    expect(found()).toEqual([]);
    setting.fence = 0;
    expect(found()).toEqual([
      "Setting 1 has the fence at 0 in, but the rabbet of left side 1 is 3/4 in from its datum l0. Change: set the fence to 3/4 in.",
    ]);
  });

  it("a saw with a straightedge, and a router without", () => {
    expect(
      with_(3, (setting) => {
        setting.carrier = "straightedge";
      }),
    ).toEqual([
      "Setting 3 is for the table saw, guided by the straightedge, without distances of a straightedge: these do not go together. Change: fence or sled at the table saw, a straightedge and its distances for the router.",
    ]);
    expect(
      with_(6, (setting) => {
        setting.straightedge = null;
      }),
    ).toEqual([
      "Setting 6 is for the router, guided by the straightedge, without distances of a straightedge: these do not go together. Change: fence or sled at the table saw, a straightedge and its distances for the router.",
    ]);
  });
});
