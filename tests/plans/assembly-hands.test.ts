/** How many hands an order asks for: halves of a pinwheel, bodies that only part all at once, forty parts, glue-ups too early, random cases. */
import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { housingsOf } from "../../src/audit/joints/grooves.ts";
import { checkOrder } from "../../src/audit/plans/order.ts";
import { Neighbours } from "../../src/audit/solids/neighbours.ts";
import { solidsOf } from "../../src/audit/solids/solid.ts";
import { blockingOf } from "../../src/plans/assembly/blocking.ts";
import { planOrders } from "../../src/plans/assembly/order.ts";
import { woodOf } from "../../src/plans/assembly/wood.ts";
import { type DryfitSet, type SetCheck, type SetOrder, setSchema } from "../../src/set/schema.ts";
import { projectOf } from "../support/jobs/examples.ts";
import { joinerySet } from "../support/jobs/outcome.ts";
import { randomProject } from "../support/jobs/random-project.ts";
import { runs, SEED } from "../support/runs.ts";

const fixture = (name: string): string => new URL(`../fixtures/assembly/${name}.json`, import.meta.url).pathname;
const typedSet = (name: string): DryfitSet => setSchema.parse(JSON.parse(readFileSync(fixture(name), "utf8")));
const planned = (set: DryfitSet): SetOrder[] => planOrders({ ...set, step: set.job.step, finished: [], glue: null });
const judged = (set: DryfitSet): SetCheck[] => {
  const solids = solidsOf(set);
  const { step } = set.job;
  return checkOrder(set, solids, housingsOf(solids, new Neighbours(solids, step), step));
};
const faults = (set: DryfitSet, orders: SetOrder[]): string[] => judged({ ...set, orders }).map(({ text }) => text);

describe("four panels in a pinwheel, each end in a groove stopped at both ends", () => {
  it("go together by halves: square joints that all open at once also open two by two", () => {
    const set = typedSet("pinwheel");
    const orders = planned(set);
    expect(orders).toMatchObject([{ holds: 2, proved: true, locked: null }]);
    expect(orders[0]!.moves.map(({ bring, to }) => [bring.flatMap(({ parts }) => parts), to])).toEqual([
      [["1"], ["4"]],
      [["2"], ["3"]],
      [
        ["2", "3"],
        ["1", "4"],
      ],
    ]);
    expect(faults(set, orders)).toEqual([]);
  });

  it("with an arm in the way of each half part only all at once: one move, four held", () => {
    const set = typedSet("pinwheel-hooked");
    const orders = planned(set);
    expect(orders).toMatchObject([{ holds: 4, proved: true, locked: null }]);
    const [order] = orders as [SetOrder];
    expect(order.moves).toHaveLength(1);
    expect(order.moves[0]).toMatchObject({ held: 4, to: ["1"] });
    // Each panel goes straight into the next one's groove, while the two that never touch pass slantwise.
    expect(order.moves[0]!.bring).toEqual([
      { parts: ["2"], travel: [-1, 0, 0] },
      { parts: ["3"], travel: [-1, 0, 1] },
      { parts: ["4"], travel: [0, 0, 1] },
    ]);
    expect(faults(set, orders)).toEqual([]);
    const halves = planned(typedSet("pinwheel"));
    expect(faults(set, halves).join(" ")).toMatch(/stands in the way/);
  });
});

it("a back in grooves all round a finished shell has no order, and each way out that is told does free it", () => {
  const set = joinerySet(projectOf(fixture("finished-with-back")));
  const [order] = set.orders;
  const back = set.parts.find(({ role }) => role === "back")!;
  expect(order!.moves).toEqual([]);
  expect(order!.locked!.text).toContain(`back ${back.mark} cannot be brought into`);
  const shell = order!.finished[0]!;
  const named = shell.filter((mark) => order!.locked!.change.includes(` ${mark} out of the finished glue-up`));
  expect(named).toHaveLength(4);
  for (const mark of named) {
    const finished = [shell.filter((other) => other !== mark)];
    const [freed] = planOrders({ ...set, step: set.job.step, finished, glue: null });
    expect(freed!.locked).toBeNull();
  }
});

describe("forty parts", () => {
  const set = joinerySet(projectOf(fixture("forty-parts")));

  it("go together two bodies at a time", () => {
    expect(set.parts).toHaveLength(40);
    expect(set.orders).toMatchObject([{ holds: 2, proved: true, locked: null }]);
    expect(faults(set, set.orders)).toEqual([]);
  });

  it("are swept against each other once a pair and way", () => {
    const wood = woodOf(set.assemblies[0]!, set);
    expect(blockingOf(wood, set.joints, set.job.step).sweeps).toBe(((40 * 39) / 2) * 6);
  });
});

describe("the dry fit counts what is held", () => {
  const set = joinerySet(projectOf(fixture("forty-parts")));
  const [order] = set.orders as [SetOrder];

  it("in a move", () => {
    const moves = order.moves.map((move, i) => (i === 3 ? { ...move, held: 3 } : move));
    expect(faults(set, [{ ...order, moves }])).toEqual([
      expect.stringMatching(/^Move 4 of case holds 2 bodies at once, not 3 as it says/),
    ]);
  });

  it("in an order", () => {
    expect(faults(set, [{ ...order, holds: 3 }])).toEqual([
      expect.stringMatching(/^The order of case holds 2 bodies at once, not 3 as it says/),
    ]);
  });

  it("and misses an assembly that has no order beside one that has", () => {
    const twice = { ...set, assemblies: [...set.assemblies, { ...set.assemblies[0]!, name: "other" }] };
    const parts = twice.parts.map((part, i) => (i < 2 ? { ...part, assembly: "other" } : part));
    const found = judged({ ...twice, parts, orders: set.orders });
    expect(found.map(({ text }) => text)).toContainEqual(expect.stringMatching(/^No order is told for other/));
  });
});

it("random cases go together, every move free, every joint closed by one move, what is held as counted", () => {
  fc.assert(
    fc.property(randomProject, (project) => {
      const set = joinerySet(project);
      for (const order of set.orders) {
        expect(order.locked).toBeNull();
        const own = set.joints.filter(({ entering }) =>
          order.moves.some(({ bring, to }) => [...bring.flatMap(({ parts }) => parts), ...to].includes(entering)),
        );
        for (const { entering, receiving } of own) {
          // Closed where one of the two is among what is brought, and the other is named as what it joins.
          const closing = order.moves.filter(({ bring, to }) => {
            const brought = bring.flatMap(({ parts }) => parts);
            return (
              (brought.includes(entering) && to.includes(receiving)) ||
              (brought.includes(receiving) && to.includes(entering))
            );
          });
          expect([entering, receiving, closing.length]).toEqual([entering, receiving, 1]);
        }
      }
      expect(faults(set, set.orders)).toEqual([]);
    }),
    { numRuns: runs(300), seed: SEED },
  );
});
