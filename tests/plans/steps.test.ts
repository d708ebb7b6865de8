/** The order of work: every step of every project followed in turn, parts crossed off; props, and what stands where, by hand. */
import { readdirSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { type Box, boxToOuter, intersectBoxes, type Place } from "../../src/base/geometry.ts";
import { formatLengthWithUnit, SAME } from "../../src/base/length.ts";
import { pluralOf } from "../../src/base/words.ts";
import { screwsOf } from "../../src/plans/screws.ts";
import { planSizing } from "../../src/plans/settings/index.ts";
import { numberedByGroup } from "../../src/plans/sheets/gates.ts";
import { planSheets } from "../../src/plans/sheets/index.ts";
import { planSteps } from "../../src/plans/steps/index.ts";
import { spoiledInWords } from "../../src/plans/steps/spoiled.ts";
import type { Project } from "../../src/project/project.ts";
import type { DryfitSet, SetStep } from "../../src/set/schema.ts";
import { EXAMPLES, exampleFile, projectOf, setOf, testFile } from "../support/jobs/examples.ts";
import { madeProjects } from "../support/jobs/made-projects.ts";
import { joinerySet } from "../support/jobs/outcome.ts";
import { followSteps } from "../support/machines/follow-steps.ts";
import { expectWaits } from "../support/machines/waiting.ts";
import { runs, SEED } from "../support/runs.ts";

const small = readdirSync(fileURLToPath(new URL("../projects", import.meta.url)))
  .filter((file) => file.endsWith(".json"))
  .map((file) => file.replace(/\.json$/, ""));
const FILES = [
  ...EXAMPLES.map((name) => [name, exampleFile(name)] as const),
  ...small.map((name) => [name, testFile(name)] as const),
];

const unloaded = ({ assemblies }: DryfitSet): ReadonlyMap<string, number> =>
  new Map(assemblies.map(({ name }) => [name, 0]));

type Work = { set: DryfitSet; steps: SetStep[] };

function workOf(file: string, more: Partial<Project> = {}): Work {
  const project = { ...projectOf(file), ...more };
  const set = joinerySet(project);
  return {
    set,
    steps: planSteps({
      ...set,
      unit: project.unit,
      glue: project.glue,
      throat: project.tooling.throat,
      shelfLoads: unloaded(set),
    }),
  };
}

const known = new Map<string, Work>();
function work(name: string): Work {
  const found = known.get(name) ?? workOf(FILES.find(([one]) => one === name)![1]);
  known.set(name, found);
  return found;
}

describe("followed in turn", () => {
  it.each(FILES)("the steps of %s need nothing before it is made, and make everything once", (name) => {
    const { set, steps } = work(name);
    if (set.orders.every(({ locked }) => locked === null)) followSteps(set, steps);
    else expect(steps.some(({ title }) => title.endsWith("no order was found"))).toBe(true);
  });

  it("are found wanting with a step left out, made twice or brought forward", () => {
    const { set, steps } = work("lipping-band-before");
    const needed = steps.flatMap(({ title }, i) => (/^(Check|Measure|Anchor)/.test(title) ? [] : [i]));
    expect(needed.length).toBeGreaterThan(5);
    const numbered = (all: SetStep[]): SetStep[] => all.map((step, i) => ({ ...step, n: i + 1 }));
    for (const i of needed) {
      const [one, before] = [steps[i]!, steps[i - 1]!];
      expect(() => followSteps(set, numbered(steps.filter((step) => step !== one))), one.title).toThrow();
      expect(() => followSteps(set, numbered([...steps, one])), one.title).toThrow();
      if (!needed.includes(i - 1)) continue;
      const swapped = numbered(steps.with(i, before).with(i - 1, one));
      expect(() => followSteps(set, swapped), `${one.title} before ${before.title}`).toThrow();
    }
  });

  it.each(FILES)("those of %s may be done in any order that keeps to what each says it comes after", (name) => {
    const { set, steps } = work(name);
    if (set.orders.some(({ locked }) => locked !== null)) return;
    for (const turn of [1, 2, 3]) {
      const left = [...steps];
      const done: SetStep[] = [];
      // Whatever is free to be done, the last or one in the middle first.
      while (left.length > 0) {
        const free = left.filter(({ needs }) => needs.every((n) => done.some((one) => one.n === n)));
        const next = free[turn === 1 ? free.length - 1 : (done.length * turn) % free.length]!;
        left.splice(left.indexOf(next), 1);
        done.push(next);
      }
      const again = new Map(done.map(({ n }, i) => [n, i + 1]));
      followSteps(
        set,
        done.map((step) => ({ ...step, n: again.get(step.n)! })),
      );
    }
  });

  it("so do those of random projects", () => {
    const made = madeProjects(runs(200), SEED);
    for (const { project, set } of made) {
      followSteps(
        set,
        planSteps({
          ...set,
          unit: project.unit,
          glue: project.glue,
          throat: project.tooling.throat,
          shelfLoads: unloaded(set),
        }),
      );
    }
    expect(made.length).toBeGreaterThan(runs(200) / 2);
  });

  it("cut nothing to size before what it is measured for stands, and name the cuts that the schedule has", () => {
    const alone = small
      .filter((name) => /^(doors|drawers|worktop)/.test(name))
      .map((name) => ({ project: projectOf(testFile(name)), set: work(name).set }));
    const laid = [...alone, ...madeProjects(runs(30), SEED + 1)]
      .filter(({ set: { groups } }) => groups.length > 1)
      .map(({ project, set }) => laidOut(project, set));
    const all = [...EXAMPLES.map((name) => setOf(exampleFile(name))), ...laid];
    const waiting = all.map((set) => expectWaits(set, set.steps));
    expect(waiting.filter((count) => count > 0).length).toBeGreaterThan(5);
  });
});

describe("what is told", () => {
  it("counts nothing that is not there", () => {
    const sets = [...EXAMPLES.map((name) => setOf(exampleFile(name))), setOf(testFile("plain-box"))];
    const told = sets.flatMap(({ checks, steps }) => [
      ...checks.map(({ text }) => text),
      ...steps.flatMap(({ title, text }) => [title, ...text]),
    ]);
    expect(told.filter((text) => /(?<![\d./])\b0 [a-z]{3,}/.test(text))).toEqual([]);
  });

  it("has at the glue-up what the check of cross-grain joints asks for", () => {
    let asked = 0;
    for (const [name] of FILES) {
      const { set, steps } = work(name);
      for (const { parts, text } of set.checks.filter(({ id, level }) => id === "cross-grain" && level === "warning")) {
        if (!/glue/.test(text)) continue;
        const step = steps.find(
          (one) => /(^|then )glue up/i.test(one.title) && parts.every((mark) => one.parts.includes(mark)),
        );
        if (step === undefined) continue;
        asked += 1;
        const said = step.text.find((one) => one.includes(` ${parts[0]} moves across its grain`));
        expect(said, `${name}: ${step.title}`).toMatch(
          new RegExp(`\\b${parts[1]}\\b.*: glue only the (middle|first) `),
        );
      }
    }
    expect(asked).toBeGreaterThan(0);
  });

  it("names in the step of hand work what the list of it holds, no more and no less", () => {
    const words: [RegExp, RegExp][] = [
      [/^Notch /, /notches/],
      [/^(Square|Chisel the slope)/, /stopped ends/],
      [/^Drill .* for the screws of /, /screw slots/],
      [/^Cut out of the /, /shaped edges/],
      [/^Upper edges, /, /profiled edges/],
    ];
    for (const [name] of FILES) {
      const { set, steps } = work(name);
      for (const { title, parts } of steps.filter((one) => one.title.startsWith("By hand: "))) {
        const list = set.handWork.filter(({ mark }) => parts.includes(mark));
        for (const [listed, said] of words)
          expect(said.test(title), `${name}: ${title}`).toBe(list.some(({ text }) => listed.test(text)));
      }
    }
  });
});

/** With its sheets, laid as they first come, and what follows from them. */
function laidOut(project: Project, set: DryfitSet): DryfitSet {
  const { unit, glue, tooling } = project;
  const pieces = set.pieces.filter(({ kind }) => kind === "panel");
  const { sheets } = planSheets({ stock: set.stock, kerf: tooling.saw.kerf, unit, pieces, effort: "quick" });
  const laid = { ...set, sheets: sheets.map((sheet) => numberedByGroup(sheet, set.groups)) };
  const sized = { ...laid, sizing: planSizing(laid, tooling.saw) };
  return { ...sized, steps: planSteps({ ...sized, unit, glue, throat: tooling.throat, shelfLoads: unloaded(set) }) };
}

const textOf = ({ steps }: Work, title: RegExp): string[] =>
  steps.filter((step) => title.test(step.title)).flatMap(({ text }) => text);
const lineOf = (name: string, n: number): string =>
  textOf(work(name), /^Dry-fit /).find((text) => text.startsWith(`${n}. `))!;

describe("clamps", () => {
  const glueUp = (name: string): SetStep =>
    work(name).steps.find(({ title, clamps }) => clamps !== null && /glue up/i.test(title))!;

  it("stand near the ends of each row of joints and no farther apart than 300 mm (common practice, no source)", () => {
    // 600 wide, 300 deep: two clamps over each end of bottom and top panel, one over the kick's ends; three from its lower
    // edge up to the bottom, 564.8 mm along. Cauls of 25 at both jaws.
    expect(glueUp("kick").clamps).toEqual({ count: 2 + 2 + 1 + 3, opens: 600 + 2 * 25, cauls: [] });
  });

  it("have cauls over the joints that are farther in than their throat, and none over one that is just within it", () => {
    // 400 deep: over shelf 12 of a clay locker clamps stand 40 mm from its ends and in the middle of its 394.3 mm, that is 197.15 in.
    const file = exampleFile("wedging-pair");
    const glueUpWith = (throat: number): SetStep => {
      const { tooling } = projectOf(file);
      const { steps } = workOf(file, { tooling: { ...tooling, throat } });
      return steps.find(({ title }) => /glue up clay locker 1/.test(title))!;
    };
    const [short, long] = [glueUpWith(197.1), glueUpWith(197.2)];
    expect(short.clamps!.cauls).toEqual([{ count: 2, length: 400 }]);
    expect(short.text.join()).toContain("shelf 12 (195 mm from the nearest edge, cauls of 400 mm)");
    expect(long.clamps!.cauls).toEqual([]);
    expect(long.text.join()).not.toContain("caul");
    expect(long.clamps!.count).toBe(short.clamps!.count + 1);
  });

  it("have cauls across a frame, over every mid stile at its middle", () => {
    const { set, steps } = work("glaze-console");
    const { clamps, text } = steps.find(({ title }) => /^Glue console frame to/.test(title))!;
    const mid = set.parts.filter(({ name }) => name === "mid stile").map(({ mark }) => mark);
    const frame = set.assemblies.find(({ kind }) => kind === "frame")!;
    expect(text.join()).toContain(`reaches all of mid stiles ${mid.slice(0, -1).join(", ")} and ${mid.at(-1)}:`);
    // Some 24 in between the rails: 1 9/16 in from the ends and no more than 11 13/16 in apart, three over each.
    expect(clamps!.cauls).toEqual([{ count: 3, length: frame.size[0] }]);
  });

  it("leave no place in any row of joints unpressed", () => {
    let pressed = 0;
    for (const [name] of FILES) {
      const { set, steps } = work(name);
      const { throat } = projectOf(FILES.find(([one]) => one === name)![1]).tooling;
      for (const { clamps, text, title } of steps) {
        const assembly = set.assemblies.find((one) => one.kind === "case" && title.endsWith(`glue up ${one.name}`));
        if (clamps === null || assembly === undefined) continue;
        const own = set.joints.filter(
          (one) =>
            one.kind === "housed" &&
            one.fit === "seated" &&
            set.parts.some((part) => part.mark === one.entering && part.assembly === assembly.name),
        );
        for (const { entering } of own) {
          const part = set.parts.find(({ mark }) => mark === entering)!;
          const [low, high] = boxToOuter(part.place as Place, [
            [0, 0, 0],
            [part.length, part.width, part.thickness],
          ]);
          const level = part.role === "shelf" || part.role === "bottom" || part.role === "top";
          const height = level ? (low[2] + high[2]) / 2 : (low[0] + high[0]) / 2;
          const aside = Math.min(height, assembly.size[level ? 2 : 0] - height);
          const [middle, half] = [(low[1] + high[1]) / 2, (high[1] - low[1]) / 2 - 40];
          // With three or more in the row one stands within 150 mm of its middle.
          const far = Math.min(aside, middle, assembly.size[1] - middle) - Math.min(half, 150) > throat;
          if (!far) continue;
          pressed += 1;
          const over = text.filter((one) => /^(In glue-up \d+ over|Over) /.test(one)).join();
          expect(over, `${name}, ${part.name} ${entering}`).toMatch(
            new RegExp(`\\b(${part.name}|${pluralOf(part.name)})[^(]* ${entering}\\b[^(]*\\(`),
          );
        }
      }
    }
    expect(pressed).toBeGreaterThan(0);
  });

  it("have struts against them in a bay where nothing stands in line with a shelf", () => {
    const { steps } = work("shelves-opposite");
    const strutted = (all: readonly SetStep[]): string[] =>
      all.flatMap(({ text }) => text).filter((one) => one.startsWith("In line with "));
    expect(strutted(steps)).toEqual([]);
    const a = work("example-a-mm");
    const open = a.set.openings.find(({ name }) => name === "bay 2")!;
    expect(strutted(a.steps)).toEqual([expect.stringContaining(`${open.width.toFixed(2)} mm across bay 2`)]);
  });
});

describe("the screws of face joints", () => {
  type Point = readonly [number, number, number];
  const isIn = ([low, high]: Box, point: Point, by = 0): boolean =>
    point.every((at, i) => at > low[i]! - by && at < high[i]! + by);

  it("go, each of them, through wood into wood all round, and through no other part, as the joint says", () => {
    let seen = 0;
    for (const [name] of FILES) {
      const { set, steps } = work(name);
      const byMark = new Map(set.parts.map((part) => [part.mark, part]));
      const text = steps.flatMap((one) => one.text).join(" ");
      for (const joint of set.joints) {
        const { fasteners } = joint;
        if (joint.kind !== "face" || fasteners?.kind !== "screw") continue;
        const { through, into, length } = screwsOf(joint, byMark, set.job.unit)!;
        expect(through.mark).toBe(joint.receiving);
        const boxOf = ({ place }: typeof through, box: Box): Box => boxToOuter(place as Place, box);
        const blank = (part: typeof through): Box =>
          boxOf(part, [
            [0, 0, 0],
            [part.length, part.width, part.thickness],
          ]);
        const isWood = (part: typeof through, point: Point): boolean =>
          isIn(blank(part), point) && !part.features.some(({ box }) => isIn(boxOf(part, box as Box), point));
        const others = set.parts.filter(
          (part) => part.assembly === through.assembly && part !== through && part !== into,
        );
        // From the head inwards, in the part's own axes; which way is inwards, the other part says.
        const size = { l: through.length, w: through.width, t: through.thickness };
        const [run, deep] = [fasteners.along, "t" as const];
        const beside = run === "l" ? "w" : "l";
        const pointAt = (place: number, aside: number, depth: number): Point => {
          const own = { l: 0, w: 0, t: 0 };
          own[run] = place;
          own[beside] = aside;
          own[deep] = depth;
          return boxOf(through, [
            [own.l, own.w, own.t],
            [own.l, own.w, own.t],
          ])[0] as Point;
        };
        const [near, far] = blank(into);
        const middle = near.map((at, i) => (at + far[i]!) / 2);
        const distance = (point: Point): number => Math.hypot(...point.map((at, i) => at - middle[i]!));
        const isUp =
          distance(pointAt(fasteners.positions[0]!, fasteners.at, size[deep])) <
          distance(pointAt(fasteners.positions[0]!, fasteners.at, 0));
        for (const place of fasteners.positions) {
          for (const [du, dv] of [
            [0, 0],
            [2, 0],
            [-2, 0],
            [0, 2],
            [0, -2],
          ] as const) {
            for (let depth = 0.5; depth < length - 0.5; depth += 1.5) {
              const where = pointAt(place + du, fasteners.at + dv, isUp ? depth : size[deep] - depth);
              const what = `${name}: ${through.mark} into ${into.mark} at ${place}, ${depth} deep`;
              if (depth < size[deep] - 0.1) expect(isWood(through, where), what).toBe(true);
              else if (depth > size[deep] + 1) expect(isWood(into, where), what).toBe(true);
              expect(
                others.some((part) => isWood(part, where)),
                what,
              ).toBe(false);
            }
          }
          seen += 1;
        }
        expect(text, `${name}: ${through.mark} into ${into.mark}`).toMatch(
          new RegExp(
            `(screw|Screws go) [^.]*through [^.]*\\b${through.mark}\\b[^.]*(its drawing has|their drawings have) a cross, [^.]*\\b${into.mark}\\b`,
          ),
        );
      }
    }
    expect(seen).toBeGreaterThan(100);
  });
});

describe("what lies ready", () => {
  it("is all that is bought for doors, drawers and feet, each in one step", () => {
    for (const name of ["doors-overlay", "doors-track", "drawers-side-mounted", "feet", "worktop-solid"]) {
      const { set, steps } = work(name);
      const total = (all: readonly { what: string; count: number }[]): [string, number][] =>
        [...new Set(all.map(({ what }) => what))]
          .sort()
          .map((what) => [what, all.reduce((sum, one) => sum + (one.what === what ? one.count : 0), 0)]);
      expect(total(steps.flatMap(({ hardware }) => hardware)), name).toEqual(total(set.hardware));
      // What is too long for the wood of these drawers is told where they are hung.
      for (const { sizes, of } of set.hardware.filter(({ kind }) => kind === "slide screws")) {
        const hung = steps.find(
          ({ title, text }) => /^Fit the slides/.test(title) && text.at(-1)!.includes("No longer"),
        )!;
        expect(hung.text.at(-1), `${name}: ${of}`).toContain(formatLengthWithUnit(sizes[0]!, set.job.unit));
      }
    }
  });
});

describe("props", () => {
  it("stand under the end of a shelf that hangs on one divider, as high as the bay under it is clear", () => {
    const { set } = work("wedging-pair");
    const bay = set.openings.find(({ name }) => name === "1.1" || name.endsWith(" 1.1"))!;
    expect(lineOf("wedging-pair", 2)).toBe(
      `2. Shelf 5: from the left, on to divider 6. Prop the left end of shelf 5 on spacers of ${(Math.floor(bay.height * 10) / 10).toString()} mm, the clear height of ${bay.name}, until move 6.`,
    );
  });

  it("are as many as stand at once, and no longer than the bay is high", () => {
    let found = 0;
    for (const [name] of FILES) {
      const { set } = work(name);
      for (const { assembly } of set.orders) {
        const bays = set.openings.filter((one) => one.case === assembly);
        for (const text of textOf(work(name), new RegExp(`^Dry-fit (${assembly}|the case)$`))) {
          const [, size, clear] = / on spacers of (\S+) mm, the clear height of (.+?), until/.exec(text) ?? [];
          if (size === undefined) continue;
          const named = bays.filter((one) => clear!.split(" and ").includes(one.name === "bay" ? "the bay" : one.name));
          expect(named.length).toBeGreaterThan(0);
          found += named.length;
          for (const { height } of named) {
            expect(Number(size)).toBeLessThan(height + SAME);
            expect(Number(size)).toBeGreaterThan(height - set.job.step - SAME);
          }
        }
      }
    }
    expect(found).toBeGreaterThan(10);
    // Both stretchers rest on one divider, a narrow strip each: four ends at once.
    expect(textOf(work("stretchers"), /^Dry-fit /)[0]).toMatch(/: 4 of 764\.8 mm\./);
    expect(lineOf("stretchers", 2)).toContain("Prop the left and right ends of front stretcher 4 ");
    // Two at the shelf over the first bay; its neighbour over the next is another length.
    expect(textOf(work("glaze-console"), /^Dry-fit /)[0]).toContain("2 of 8 1/2 in, 2 of 14 in and 2 of 7 23/32 in.");
  });

  it("stand clear of all wood, on a part or at the bench's level, under the part they hold by less than a step", () => {
    let found = 0;
    for (const [name] of FILES) {
      const { set, steps } = work(name);
      for (const { assembly, spacers } of steps.flatMap(({ moves }) => moves)) {
        const own = set.parts.filter((part) => part.assembly === assembly && part.place !== null);
        const boxes = own.map((part) =>
          boxToOuter(part.place as Place, [
            [0, 0, 0],
            [part.length, part.width, part.thickness],
          ]),
        );
        for (const spacer of spacers as Box[]) {
          found++;
          for (const box of boxes) expect(intersectBoxes(spacer, box, 1e-4), name).toBeNull();
          const [[, , foot], [, , head]] = spacer;
          const floors = boxes.filter((box) => Math.abs(box[1][2] - foot) < 1e-4);
          const lowest = Math.min(...boxes.map((box) => box[0][2]));
          expect(floors.length > 0 || Math.abs(foot - lowest) < 1e-4, name).toBe(true);
          expect(boxes.some((box) => box[0][2] > head - 1e-4 && box[0][2] < head + set.job.step)).toBe(true);
        }
      }
    }
    expect(found).toBeGreaterThan(20);
  });

  it("are not asked for where parts stand in a side that lies on the bench, or on their front edges", () => {
    for (const name of ["ware-bookcase", "plain-box", "no-back"]) {
      const text = textOf(work(name), /^Dry-fit /);
      expect(text.join(" ")).not.toContain("spacers");
      expect(text[1]).toMatch(/^Lay left side 1 flat on the bench, inside face up/);
    }
    expect(lineOf("housing-back-columns-rows", 1)).toContain("Stand these on their front edges");
    expect(textOf(work("housing-back-columns-rows"), /^Dry-fit /).join(" ")).not.toContain("spacers");
  });

  it("leave no shelf hanging on one end: it is propped, lies with its side, or stands on its front edges", () => {
    for (const [name] of FILES) {
      const { set } = work(name);
      const role = new Map(set.parts.map((part) => [part.mark, part.role]));
      for (const { assembly, moves } of set.orders) {
        const text = textOf(work(name), new RegExp(`^Dry-fit (${assembly}|the case)$`));
        const lies = text.some((line) => /^Lay .* down|^Lay .* flat/.test(line));
        const fronts = text.some((line) => line.includes("on their front edges"));
        for (const { n, bring, to } of moves) {
          const [body] = bring;
          if (bring.length > 1 || body!.parts.length > 1 || role.get(body!.parts[0]!) !== "shelf") continue;
          const isFromAside = body!.travel[0] !== 0 && to.length === 1 && role.get(to[0]!) === "divider";
          if (!isFromAside || lies || fronts) continue;
          expect(
            text.find((line) => line.startsWith(`${n}. `)),
            `${name}, move ${n}`,
          ).toContain("Prop the ");
        }
      }
    }
  });
});

describe("what stands where", () => {
  const titles = (name: string): string[] =>
    work(name)
      .steps.map(({ title }) => title)
      .filter((title) => /^(Stand|Fasten|Anchor) /.test(title));

  it("has a step for each: on a plinth, on another case, beside it, against the wall", () => {
    expect(titles("plinth")).toEqual(["Stand case on case plinth", "Anchor case to the wall"]);
    expect(titles("stacked")).toEqual(["Stand upper on lower", "Anchor upper to the wall"]);
    expect(titles("wedging-pair")).toEqual([
      "Fasten clay locker 1 to wedging stand",
      "Anchor wedging stand, clay locker 1 and clay locker 2 to the wall",
    ]);
    // Glued to one side, they are one body and are neither fastened nor stood apart.
    expect(titles("shared-side")).toEqual(["Anchor one and two to the wall"]);
    expect(titles("twin-rack-mm")).toEqual([
      "Stand left and right on left plinth and right plinth",
      "Anchor left and right to the wall",
    ]);
  });

  it("says where, and what fixes it", () => {
    expect(textOf(work("plinth"), /^Stand /)).toEqual([
      "Set case plinth in place and level with shims: all that stands on it follows.",
      "Set case on top, with a helper: the front of case stands 50 mm in front of that of case plinth, its left end 10 mm to the left.",
      "Clamp, drill, and screw down through bottom 8 into front of the plinth 1 and rear of the plinth 2: 4 screws of 45 mm. No glue: it can be taken apart again.",
    ]);
    expect(textOf(work("stacked"), /^Stand /)[1]).toBe(
      "Clamp, drill, and screw up through top panel 4 into bottom 8: 4 screws of 30 mm. No glue: it can be taken apart again.",
    );
    // A back of 12 mm in grooves holds; one of 6 mm does not.
    expect(textOf(work("housing-back-columns-rows"), /^Anchor /)[1]).toBe(
      "Case: 2, through back 8, near its upper edge.",
    );
    expect(textOf(work("plinth"), /^Anchor /)[1]).toMatch(/^Case: 2, by brackets on the inside, under top panel 9 /);
  });

  it("goes up to a shared side with the case that owns it, lying down", () => {
    expect(textOf(work("shared-side"), /^Dry-fit two$/)[1]).toBe(
      "Lay one down with right side 2 upwards: what is said to come from the right goes down into it.",
    );
  });
});

describe("glue", () => {
  const glue = { openMinutes: 4, minutesPerJoint: 1, mostJoints: null };

  it("is warned of where one move takes longer than it stays open, with what to change", () => {
    // The right side of the bookcase closes six joints that take glue: bottom, top panel and four shelves.
    const { set, steps } = workOf(exampleFile("ware-bookcase"), { glue });
    const found = set.checks.filter(({ id }) => id === "glue-up");
    expect(found.map(({ level, parts, text, change }) => ({ level, parts, text, change }))).toEqual([
      {
        level: "warning",
        parts: ["2"],
        text: "In bookcase, move 8 closes 6 joints at once (right side 2 with bottom 3, top panel 4, shelf 5, shelf 6, shelf 7, shelf 8 and back 9): about 6 minutes at 1 a joint, and the glue stays open 4.",
        change:
          'A slower glue, open 6 minutes or more ("glue.openMinutes"); a helper who spreads while you close (a shorter "glue.minutesPerJoint"); or glue fewer of the joints: dry sub-assemblies that slide in, or a part joined with screws ("joints").',
      },
    ]);
    const cautions = steps.find(({ title }) => /glue up/i.test(title))!.cautions;
    expect(cautions[0]).toBe(
      "Move 8 closes 6 joints at once, about 6 minutes, and the glue stays open 4: have a slower glue or a helper.",
    );
  });

  it("is not, where it stays open just as long, or nothing is known of it", () => {
    for (const one of [{ ...glue, openMinutes: 6 }, null]) {
      const { set, steps } = workOf(exampleFile("ware-bookcase"), { glue: one });
      expect(set.checks.filter(({ id }) => id === "glue-up")).toEqual([]);
      expect(steps.flatMap(({ cautions }) => cautions).join(" ")).not.toContain("at once");
    }
  });
});

describe("a spoiled part", () => {
  const set = setOf(exampleFile("ware-bookcase"));
  const told = (offcuts: { id: string; length: number; width: number }[]): string[] =>
    spoiledInWords("case", ["sheets"], {
      ...set,
      boards: [],
      sheets: [
        {
          ...set.sheets.find(({ stock }) => stock === "ply-18mm")!,
          offcuts: offcuts.map((one) => ({ x: 0, y: 0, ...one })),
        },
      ],
    });
  const shelf = set.parts.find(({ role }) => role === "shelf")!;

  it("comes from an offcut that is just large enough, along its grain, and from none a hair smaller", () => {
    const { length, width } = shelf.cut;
    const inOffcut = (size: { length: number; width: number }): boolean =>
      told([{ id: "S9-O9", ...size }]).some(
        (text) => text.includes("from offcut S9-O9") && new RegExp(`\\b${shelf.mark}\\b.* from`).test(text),
      );
    expect(inOffcut({ length, width })).toBe(true);
    expect(inOffcut({ length: length - 0.01, width })).toBe(false);
    expect(inOffcut({ length, width: width - 0.01 })).toBe(false);
    expect(inOffcut({ length: width, width: length })).toBe(false);
  });

  it("comes from a larger part where no offcut will do; the largest need a fresh sheet", () => {
    const [larger, fresh] = told([]);
    const sides = set.parts.filter(({ role }) => role === "side").map(({ mark }) => mark);
    expect(larger).toContain(`from ${sides.join(" or ")}`);
    for (const mark of sides) expect(fresh).toMatch(new RegExp(`gives .*\\b${mark}\\b`));
  });

  it.each(EXAMPLES)(
    "is told once of every piece of %s, sheet or board, in its own group, by what can give it",
    (name) => {
      const { steps, pieces, parts, sheets, boards } = setOf(exampleFile(name));
      const found: string[] = [];
      const firstOf = (mark: string): number => steps.findIndex((one) => one.parts.includes(mark));
      steps.forEach(({ text, parts: own }, at) => {
        const remedies = text.filter((line) =>
          /^(If a part is spoiled|No offcut gives these|Nothing that is left over)/.test(line),
        );
        for (const line of remedies.flatMap((one) =>
          one
            .replace(/\.$/, "")
            .replace(/^[^:]*: (?!spoiled)|: spoiled.*/g, "")
            .split("; "),
        )) {
          const [who, from] = line.replace("Nothing that is left over gives ", "").split(" from ") as [string, string?];
          for (const id of who.split(/, | and /)) {
            found.push(id);
            const piece = pieces.find((one) => one.id === id)!;
            expect(own, id).toContain(piece.mark);
            const froms = (from ?? "").replace("offcut ", "").split(/, | or /);
            for (const given of from === undefined ? [] : froms) {
              const offcut = [...sheets, ...boards].flatMap((bed) =>
                bed.stock === piece.stock ? bed.offcuts.filter((one) => one.id === given) : [],
              )[0];
              const part = parts.find(({ mark, material }) => mark === given && material === piece.stock);
              // A part that is spoiled was there to be spoiled, and is larger.
              if (offcut === undefined) expect(firstOf(part!.mark), `${id} from ${given}`).toBeLessThanOrEqual(at);
              const size = offcut ?? part!.cut;
              const cut = offcut === undefined ? parts.find(({ mark }) => mark === piece.mark)!.cut : piece;
              expect(size.length, `${id} from ${given}`).toBeGreaterThan(Math.min(cut.length, cut.width) - 1e-6);
              expect(size.length * size.width).toBeGreaterThan(
                Math.min(cut.length * cut.width, piece.length * piece.width) - 1e-6,
              );
            }
          }
        }
      });
      expect(found.sort()).toEqual(pieces.flatMap(({ id, kind }) => (kind === "lipping" ? [] : [id])).sort());
    },
  );
});
