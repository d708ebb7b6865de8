/** The order of assembly, found by taking apart; carried out again by the dry fit, which shares nothing with how it was found. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { dryFit } from "../../src/audit/dryfit.ts";
import { isHit } from "../../src/audit/plans/order.ts";
import { planOrders } from "../../src/plans/assembly/order.ts";
import { readProjectText } from "../../src/project/read.ts";
import type { DryfitSet, SetAssembly, SetFeature, SetMove, SetOrder, SetPart } from "../../src/set/schema.ts";
import { EXAMPLES, exampleFile, projectOf, testFile } from "../support/jobs/examples.ts";
import { joinerySet } from "../support/jobs/outcome.ts";

const shortKey = (set: DryfitSet, mark: string): string =>
  set.parts.find((part) => part.mark === mark)!.key.split("/")[1]!;

const WORDS: Record<string, string> = {
  "0,0,-1": "down",
  "0,0,1": "up",
  "1,0,0": "from the left",
  "-1,0,0": "from the right",
  "0,-1,0": "from behind",
  "0,1,0": "from the front",
};

const told = (set: DryfitSet, { bring, to, slides }: SetMove): string =>
  `${bring.map(({ parts, travel }) => `${parts.map((mark) => shortKey(set, mark))} ${WORDS[travel.join(",")] ?? travel}`).join(" & ")} to ${to.map((mark) => shortKey(set, mark))}${slides ? ", sliding" : ""}`;

const isReturn = ({ kind }: SetAssembly): boolean => kind === "return";

const orderOf = (set: DryfitSet): SetOrder => set.orders.at(-1)!;

/** What the dry fit says of an order, those of the other assemblies beside it. */
const faults = (set: DryfitSet, order: SetOrder): string[] =>
  dryFit({ ...set, orders: [...set.orders.filter(({ assembly }) => assembly !== order.assembly), order] }).flatMap(
    ({ id, text, level }) => (id === "assembly-order" && level === "failure" ? [text] : []),
  );

describe("an order of assembly", () => {
  it.each(EXAMPLES)("of %s is found for every assembly, and nothing stands in the way", (name) => {
    const set = joinerySet(projectOf(exampleFile(name)));
    // A return is fitted to the case and its frame once these stand: told among the returns, and nowhere twice.
    const [returns, others] = [set.assemblies.filter(isReturn), set.assemblies.filter((one) => !isReturn(one))];
    expect(set.orders.map(({ assembly }) => assembly)).toEqual(others.map(({ name: own }) => own));
    expect(set.returns.map(({ assembly }) => assembly)).toEqual(returns.map(({ name: own }) => own));
    for (const order of set.orders) {
      expect(order.locked).toBeNull();
      const made = set.parts.filter(({ assembly }) => assembly === order.assembly).length;
      expect([order.holds, order.moves.length], order.assembly).toEqual(made > 1 ? [2, made - 1] : [1, 0]);
      expect(order.proved).toBe(true);
      expect(faults(set, order)).toEqual([]);
    }
  });

  const exampleA = joinerySet(projectOf(testFile("example-a-in")));

  it("of worked example A is the one reckoned by hand: sides last, the top down on divider and back", () => {
    expect(orderOf(exampleA).moves.map((move) => told(exampleA, move))).toEqual([
      "divider-1 down to bottom",
      "shelf-1.1 from the left to divider-1",
      "back down to bottom,shelf-1.1,divider-1",
      "top down to divider-1,back",
      "side-right from the right to bottom,top,back",
      "side-left from the left to bottom,top,shelf-1.1,back",
    ]);
  });

  it("of worked example A with the top last is refused: the sides are in its way", () => {
    const order = orderOf(exampleA);
    const top = order.moves[3]!;
    const others = order.moves.filter((move) => move !== top);
    const last = {
      ...top,
      n: 7,
      to: [...top.to, ...others.flatMap(({ bring }) => bring.flatMap(({ parts }) => parts))],
    };
    const found = faults(exampleA, { ...order, moves: [...others, last] });
    expect(found.some((text) => /side \d stands in the way of top panel/.test(text))).toBe(true);
    // And no order whatever closes with it: it is shut in by both sides, whichever way it comes.
    const sides = exampleA.parts.filter(({ role }) => role === "side").map(({ mark }) => mark);
    const shell = [...sides, ...exampleA.parts.filter(({ role }) => role === "bottom").map(({ mark }) => mark)];
    const [without] = planOrders({ ...exampleA, step: exampleA.job.step, finished: [shell], glue: null });
    expect(without!.locked).not.toBeNull();
    expect(without!.locked!.parts).toContain(exampleA.parts.find(({ role }) => role === "top")!.mark);
  });

  it("of a bookcase of shelves only is built on one side: no more than two bodies are held", () => {
    const set = joinerySet(projectOf(exampleFile("ware-bookcase")));
    const { moves } = orderOf(set);
    expect(moves.every(({ held }) => held === 2)).toBe(true);
    expect(told(set, moves[6]!)).toBe(
      "back from the right to side-left,bottom,top,shelf-1,shelf-2,shelf-3,shelf-4, sliding",
    );
  });
});

/** A case whose sides, top and bottom are one finished glue-up before the shelf comes. */
const shell = (edges: object): string =>
  JSON.stringify({
    job: { number: "O-1", title: "Shell", date: "2026-11-20", revision: "A" },
    unit: "mm",
    stock: { ply: { name: "plywood", nominal: 18, measured: 17.6, sheet: { length: 2440, width: 1220 } } },
    cases: [
      {
        name: "shell",
        width: 600,
        height: 700,
        depth: 300,
        stock: "ply",
        back: { fit: "none" },
        edges,
        finished: [["side", "bottom", "top"]],
        bays: { rows: [{}, {}] },
      },
    ],
  });

describe("a shelf in a finished shell", () => {
  it("stopped front and rear has no order: which part, what locks it, what would free it", () => {
    const set = joinerySet(readProjectText(shell({ front: "shows", back: "shows" }), "shell.json").project);
    const { locked } = orderOf(set);
    const shelf = set.parts.find(({ role }) => role === "shelf")!;
    expect(locked!.parts).toContain(shelf.mark);
    expect(locked!.text).toContain(`shelf ${shelf.mark} cannot be brought into`);
    expect(locked!.text).toContain("stop short of the front and rear edge");
    expect(locked!.change).not.toBe("");
    const [check] = set.checks.filter(({ id }) => id === "assembly-order");
    expect(check!.level).toBe("failure");
  });

  it("stopped in front only slides in from behind", () => {
    const set = joinerySet(readProjectText(shell({ front: "shows", back: "covered" }), "shell.json").project);
    const { locked, moves } = orderOf(set);
    expect(locked).toBeNull();
    expect(told(set, moves.at(-1)!)).toBe("shelf-1 from behind to side-left,side-right, sliding");
  });
});

/** A bay between two dividers, with two shelves and what is given between these: nothing of it can come once both dividers stand. */
const within = (inner: object): object => ({ columns: [{}, { rows: [{}, inner, {}] }, {}] });

describe("sub-assemblies", () => {
  it("three deep: a divider with its shelves goes as one into what holds it, and that into the case", () => {
    const text = JSON.stringify({
      job: { number: "O-2", title: "Nested", date: "2026-11-20", revision: "A" },
      unit: "mm",
      stock: { ply: { name: "plywood", nominal: 18, measured: 17.6, sheet: { length: 2440, width: 1220 } } },
      cases: [
        {
          name: "nest",
          width: 2400,
          height: 1800,
          depth: 300,
          stock: "ply",
          back: { fit: "none" },
          edges: { front: "covered" },
          bays: within(within(within({}))),
        },
      ],
    });
    const set = joinerySet(readProjectText(text, "nest.json").project);
    const order = orderOf(set);
    expect(order.locked).toBeNull();
    expect(faults(set, order)).toEqual([]);
    const joined = order.moves
      .flatMap(({ bring }) => bring.map(({ parts }) => parts))
      .filter((parts) => parts.length > 1)
      .sort((a, b) => a.length - b.length);
    expect(joined.length).toBeGreaterThanOrEqual(3);
    joined.slice(1).forEach((large, i) => {
      expect(joined[i]!.every((mark) => large.includes(mark))).toBe(true);
    });
  });
});

/** Four panels in a ring, each with one end in the next one's face, in a groove stopped at both ends. */
function pinwheel(): DryfitSet {
  const base = joinerySet(projectOf(testFile("plain-box")));
  const [template] = base.parts as [SetPart];
  const thickness = 18;
  const groove = (at: number, holds: string): SetFeature => ({
    ...template.features[0]!,
    kind: "groove",
    face: "t1",
    along: "w",
    at,
    width: thickness,
    depth: 6,
    from: 20,
    to: 180,
    ends: ["square", "square"],
    box: [
      [at, 20, thickness - 6],
      [at + thickness, 180, thickness],
    ],
    holds,
    runOuts: [],
  });
  // Ends are cut back at both edges, so that the stopped grooves close over them.
  const notch = (from: number): SetFeature => ({
    ...template.features[0]!,
    kind: "notch",
    face: "l1",
    along: "t",
    box: [
      [394, from, 0],
      [400, from + 20, thickness],
    ],
    holds: null,
    runOuts: [],
  });
  const panel = (mark: string, place: SetPart["place"], holds: string): SetPart => ({
    ...template,
    mark,
    key: `wheel/panel-${mark}`,
    name: "panel",
    role: "divider",
    assembly: "wheel",
    case: "wheel",
    length: 400,
    width: 200,
    thickness,
    place,
    features: [groove(40, holds), notch(0), notch(180)],
  });
  // Seen from above, turning right: each inner face takes the end of the one before.
  const parts = [
    panel("1", { at: [0, 18, 0], l: "+x", w: "+z", t: "-y" }, "4"),
    panel("2", { at: [412, 58, 0], l: "-y", w: "+z", t: "-x" }, "1"),
    panel("3", { at: [452, -354, 0], l: "-x", w: "+z", t: "+y" }, "2"),
    panel("4", { at: [40, -394, 0], l: "+y", w: "+z", t: "+x" }, "3"),
  ];
  const [assembly] = base.assemblies;
  return {
    ...base,
    assemblies: [{ ...assembly!, name: "wheel", borrows: [] }],
    parts,
    joints: [],
    orders: [],
  };
}

describe("four panels in a pinwheel, stopped at both ends", () => {
  it("go together as two pairs, for no panel goes in last by itself", () => {
    const set = pinwheel();
    const [order] = planOrders({ ...set, step: 0.1, finished: [], glue: null });
    expect(order!.locked).toBeNull();
    expect([order!.holds, order!.proved]).toEqual([2, true]);
    expect(order!.moves.map(({ bring }) => bring[0]!.parts.length)).toEqual([1, 1, 2]);
    expect(faults(set, order!)).toEqual([]);
  });
});

describe("the dry fit refuses an order", () => {
  const set = joinerySet(projectOf(testFile("example-a-in")));
  const order = orderOf(set);
  const edited = (moves: SetMove[]): string => faults(set, { ...order, moves }).join(" ");

  it("that leaves a part out", () => {
    expect(edited(order.moves.filter((_, i) => i !== 1))).toMatch(/are never brought/);
    expect(edited(order.moves.slice(0, -1))).toMatch(/are never brought/);
  });

  it("that brings a part the wrong way", () => {
    const wrong = order.moves.map((move, i) =>
      i === 0 ? { ...move, bring: [{ ...move.bring[0]!, travel: [1, 0, 0] as [number, number, number] }] } : move,
    );
    expect(edited(wrong)).toMatch(/stands in the way/);
  });

  it("that speaks of parts that are not there, or brings half of what is joined", () => {
    const [first, ...rest] = order.moves as [SetMove, ...SetMove[]];
    expect(edited([{ ...first, to: ["99"] }, ...rest])).toContain("99");
    const torn: SetMove = { ...order.moves[2]!, bring: [{ parts: [first.to[0]!], travel: [0, 0, -1] }], to: ["8"] };
    expect(edited([first, torn])).toMatch(/would come along|not in it/);
  });

  it("by exact sweeps: past, into, beside and slantwise", () => {
    const box = (x: number, y: number, z: number): readonly [[number, number, number], [number, number, number]] => [
      [x, y, z],
      [x + 10, y + 10, z + 10],
    ];
    expect(isHit(box(0, 0, 0), box(0, 0, 20), [0, 0, -1])).toBe(true); // it comes down through the other
    expect(isHit(box(0, 0, 0), box(0, 0, -20), [0, 0, -1])).toBe(false); // it stops above it
    expect(isHit(box(0, 0, 0), box(10, 0, 20), [0, 0, -1])).toBe(false); // it only touches in passing
    expect(isHit(box(0, 0, 0), box(15, 15, 0), [-1, -1, 0])).toBe(true); // slantwise, through it
    expect(isHit(box(0, 0, 0), box(25, 5, 0), [-1, -1, 0])).toBe(false);
  });
});

it("the planner and the dry fit share no code", () => {
  const text = readFileSync(new URL("../../src/audit/plans/order.ts", import.meta.url), "utf8");
  expect(text).not.toMatch(/from "\.\.\/plans/);
});
