/** Each cut that nobody is to be asked for, planted in a row: the checker that passes all jobs finds it. */
import { describe, expect, it } from "vitest";
import type { Project } from "../../src/project/project.ts";
import type { DryfitSet } from "../../src/set/schema.ts";
import { exampleFile, projectOf, setOf, testFile } from "../support/jobs/examples.ts";
import { expectRowsToMakeTheGrooves } from "../support/machines/cut-back.ts";
import { unsafeCuts } from "../support/machines/unsafe-cuts.ts";

type Job = { set: DryfitSet; tooling: Project["tooling"] };

const jobOf = (file: string): Job => ({ set: structuredClone(setOf(file)), tooling: projectOf(file).tooling });
const plain = (): Job => jobOf(testFile("example-a-in"));
const framed = (): Job => jobOf(testFile("face-frame"));
const stopped = (): Job => jobOf(testFile("stopped-shelves"));

type Setting = DryfitSet["settings"][number];
const sawn = ({ settings }: DryfitSet, carrier: Setting["carrier"] = "sled"): Setting =>
  settings.find((one) => one.tool === "table saw" && one.carrier === carrier)!;

/** What is found when one job is spoiled, and in one that is not. */
const found = (job: Job, spoil: (set: DryfitSet) => void): string => {
  expect(unsafeCuts(job.set, job.tooling)).toEqual([]);
  spoil(job.set);
  return unsafeCuts(job.set, job.tooling).join("\n");
};

/** A row of sizes, by its guide. */
const sized = ({ sizing }: DryfitSet, guide: DryfitSet["sizing"][number]["guide"]) =>
  sizing.find((one) => one.guide === guide)!;

describe("an unsafe cut planted in a row", () => {
  it("is found: a part shorter along the fence than across it, without sled or mitre gauge", () => {
    expect(
      found(plain(), (set) => {
        sawn(set).carrier = "fence";
      }),
    ).toContain("twists off the fence");
    expect(
      found(plain(), (set) => {
        sized(set, "stop").guide = "fence";
      }),
    ).toContain("twists off the fence");
    // Longer at the fence than that is away, and yet wider than long as the whole piece lies.
    const { rip } = plain().tooling.saw;
    expect(
      found(plain(), ({ sizing, sheets }) => {
        const wide = sizing.find(
          ({ guide, fence, cuts }) =>
            guide !== "fence" &&
            fence < rip &&
            cuts.length > 0 &&
            cuts.every(({ sheet, cuts: own }) =>
              sheets
                .find(({ n }) => n === sheet)!
                .cuts.every((cut) => !own.includes(cut.n) || cut.to - cut.from > fence),
            ),
        );
        wide!.guide = "fence";
      }),
    ).toContain("twists off the fence");
  });

  it("is found: fence and mitre gauge together on a through cut", () => {
    expect(
      found(plain(), (set) => {
        const row = sized(set, "fence");
        row.caution = row.caution.replace("never the mitre gauge with it", "the mitre gauge with it");
      }),
    ).toContain("never the mitre gauge with it");
    expect(
      found(framed(), (set) => {
        set.sizing.find(({ crosscuts }) => crosscuts.length > 0)!.guide = "fence";
      }),
    ).toContain("crosscut along the fence");
  });

  it("is found: a through cut with a dado cutter", () => {
    expect(
      found(plain(), (set) => {
        sawn(set).depth = set.parts.find(({ mark }) => mark === sawn(set).runs[0]!.mark)!.thickness;
      }),
    ).toContain("a through cut with it");
  });

  it("is found: stopped at both ends on the table saw, or entered at its stop", () => {
    const text = found(plain(), (set) => {
      const [run] = sawn(set).runs;
      const along = ["l", "w", "t"].find((axis) => axis !== run!.face[0] && axis !== run!.datum[0])!;
      run!.stops = (["0", "1"] as const).map((end) => ({
        edge: `${along}${end}` as Setting["runs"][number]["datum"],
        leave: 20,
        block: 20,
      }));
    });
    expect(text).toContain("stopped at both ends");
    // A stopped groove put at the saw: on one side of the cutter the one part enters at its stop, on the other its mate.
    for (const side of ["left", "right"] as const) {
      const entered = found(stopped(), (set) => {
        const setting = set.settings.find(
          ({ tool, runs }) => tool === "router" && runs.length > 1 && runs.every(({ stops }) => stops.length === 1),
        )!;
        Object.assign(setting, { tool: "table saw", carrier: "sled", side, straightedge: null });
      });
      expect(entered).toContain("enters at its stop");
    }
  });

  it("is found: fence 0", () => {
    expect(
      found(plain(), (set) => {
        sawn(set).fence = 0;
      }),
    ).toContain("fence 0");
    expect(
      found(plain(), (set) => {
        sized(set, "fence").fence = 0;
      }),
    ).toContain("fence 0");
  });

  it("is found: any row without its caution, or one that does not defer to the manual", () => {
    for (const job of [plain, framed, stopped]) {
      const { set } = job();
      set.settings.forEach((_, i) => {
        expect(
          found(job(), (spoiled) => {
            spoiled.settings[i]!.caution = "Take care.";
          }),
        ).toContain("manual comes first");
      });
      set.sizing.forEach((_, i) => {
        expect(
          found(job(), (spoiled) => {
            spoiled.sizing[i]!.caution = "";
          }),
        ).toContain("manual comes first");
      });
    }
  });
});

describe("a stop planted elsewhere", () => {
  it("does not end the groove, by its block or by what it leaves", () => {
    for (const spoil of ["leave", "block"] as const) {
      const { set } = jobOf(exampleFile("ware-bookcase"));
      expectRowsToMakeTheGrooves(set);
      const run = set.settings.flatMap(({ runs }) => runs).find(({ stops }) => stops.length === 1)!;
      run.stops[0]![spoil] += 0.2;
      expect(() => expectRowsToMakeTheGrooves(set), spoil).toThrow();
    }
  });
});
