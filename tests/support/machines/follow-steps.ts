/** Follows the order of work step by step, crossing parts off: nothing is needed before it is made, and everything is made once. */
import { expect } from "vitest";
import type { DryfitSet, SetStep } from "../../../src/set/schema.ts";

const KINDS = [
  ["size", /^(Break down the sheets|Cut the framing lumber)/],
  ["drawers", /^Measure .+ for the drawers, then cut these$/],
  ["strips", /^Fix the (packing strips|runners) in /],
  ["hang", /^Fit (the slides and hang the boxes|the boxes) in /],
  ["faces", /^Fit the fronts in .+, last of all$/],
  ["doors", /^Measure the openings, then cut the doors of /],
  ["panels", /^Finish the panels of /],
  ["horns", /^Trim the horns of /],
  ["hung", /^(Hang|Slide) the doors of /],
  ["track", /^(Bolt on (the track|both tracks) in front of|Set the guides of) /],
  ["join", /^Join /],
  ["mill", /^Mill the members of /],
  ["front", /^Glue .+ frame to /],
  ["lip", /^Glue on the lippings$/],
  ["groove", /^Cut the (grooves|tenons|laps) at the /],
  ["drill", /^Drill /],
  ["hand", /^(By hand: |Cut the mortises |Cut the dovetails$|Rip the mitres)/],
  ["round", /^Glue the returns to /],
  ["dry", /^Dry-fit /],
  ["glue", /^(Glue up|Finish the inside, then glue up) /],
  ["finish", /^Sand(,| and) finish/],
  ["stand", /^(Stand|Fasten|Hang .+ on the wall|Anchor|Screw the feet under)/],
  ["lay", /^Lay in the loose shelves$/],
  ["none", /^(Check the print|Measure the sheets|Finish the parts)$/],
] as const;
type Kind = (typeof KINDS)[number][0];

function kindOf({ title }: SetStep): Kind {
  const kinds = KINDS.filter(([, words]) => words.test(title));
  expect(kinds, title).toHaveLength(1);
  return kinds[0]![0];
}

const LAID_ON = /^Lay .+ and screw it down$/;

/** A step of a worktop alone, or the one that lays it on its cases. */
const isOfTop = ({ title, parts }: SetStep, tops: readonly string[]): boolean =>
  LAID_ON.test(title) || (parts.length > 0 && parts.every((mark) => tops.includes(mark)));

/** A worktop is milled and glued up, or cut; then shaped, finished, and laid on last. */
function followTop(steps: readonly SetStep[], mark: string): void {
  const titles = steps.filter(({ parts }) => parts.includes(mark)).map(({ title }) => title);
  const at = (words: RegExp): number => titles.findIndex((title) => words.test(title));
  const finishes = /^(Sand(,| and) finish|Finish both faces of )/;
  expect(titles.filter((title) => finishes.test(title))).toHaveLength(1);
  const made = [/^(Mill the boards of|Cut) /, /^(Flatten, trim and shape|Shape) /, finishes, LAID_ON].map(at);
  expect(made, `worktop ${mark}: ${titles.join("; ")}`).toEqual([...made].sort((a, b) => a - b));
  expect(made).not.toContain(-1);
}

export function followSteps(set: DryfitSet, steps: readonly SetStep[]): void {
  const { parts, settings, drilling, handWork } = set;
  if (set.orders.some(({ locked }) => locked !== null)) return;
  const done: Record<Kind, string[]> = {
    size: [],
    drawers: [],
    strips: [],
    hang: [],
    faces: [],
    doors: [],
    panels: [],
    horns: [],
    hung: [],
    track: [],
    join: [],
    mill: [],
    front: [],
    round: [],
    lip: [],
    groove: [],
    drill: [],
    hand: [],
    dry: [],
    glue: [],
    finish: [],
    stand: [],
    lay: [],
    none: [],
  };
  const run: number[] = [];
  const roleOf = (mark: string): string => parts.find((part) => part.mark === mark)!.role;
  const isSized = (): string[] => [...done.size, ...done.mill, ...done.drawers, ...done.doors];
  /** Drawers of one case are put together alike: told of the first. */
  const told = set.drawers.filter((one, i) => set.drawers.findIndex((other) => other.case === one.case) === i);
  const byLikeness = set.drawers.filter((one) => !told.includes(one)).map(({ assembly }) => assembly);
  const loose = parts.filter(({ role }) => role === "looseShelf").map(({ mark }) => mark);
  const made: string[] = [];
  const marksOf = (all: readonly { mark: string }[]): string[] => [...new Set(all.map(({ mark }) => mark))].sort();
  const drilled = marksOf(drilling.flatMap(({ rows }) => rows));
  // The edges of a worktop are shaped with it, in a step of its own.
  const byHand = marksOf(handWork.filter(({ mark }) => roleOf(mark) !== "worktop"));
  const lipped = (when: string): string[] =>
    marksOf(parts.filter(({ lippings, role }) => role !== "worktop" && lippings.some((one) => one.lipped === when)));
  const runsOn = (mark: string): number[] =>
    settings.filter(({ runs }) => runs.some((one) => one.mark === mark)).map(({ n }) => n);
  const isReady = (mark: string): void => {
    expect(isSized(), `${mark} sized`).toContain(mark);
    expect(run, `settings of ${mark}`).toEqual(expect.arrayContaining(runsOn(mark)));
    if (drilled.includes(mark)) expect(done.drill, `${mark} drilled`).toContain(mark);
    if (byHand.includes(mark)) expect(done.hand, `${mark} notched`).toContain(mark);
    const needs = ["before", "after"].filter((when) => lipped(when).includes(mark)).length;
    expect(
      done.lip.filter((one) => one === mark),
      `${mark} lipped`,
    ).toHaveLength(needs);
  };
  expect(steps.map(({ n }) => n)).toEqual(steps.map((_, i) => i + 1));
  const tops = parts.filter(({ role }) => role === "worktop").map(({ mark }) => mark);
  for (const mark of tops) followTop(steps, mark);
  for (const whole of steps.filter((one) => !isOfTop(one, tops))) {
    const step = { ...whole, parts: whole.parts.filter((mark) => !tops.includes(mark)) };
    const kind = kindOf(step);
    for (const mark of step.parts) {
      if (!["size", "mill", "drawers", "doors"].includes(kind))
        expect(isSized(), `${step.title}: ${mark}`).toContain(mark);
      // A frame, doors and drawers follow from the case: nothing of them is cut before that stands.
      if (kind === "mill" || kind === "drawers" || kind === "doors") {
        const cases = parts.filter(({ role }) => role === "side").map((side) => side.mark);
        expect(done.glue, step.title).toEqual(expect.arrayContaining(cases));
      }
      if (kind === "doors") {
        const framed = parts.filter(({ role }) => role === "stile" || role === "rail").map((member) => member.mark);
        expect(done.front, step.title).toEqual(expect.arrayContaining(framed));
      }
      if (kind === "round") {
        const framed = parts.filter(({ role }) => role === "stile" || role === "rail").map((member) => member.mark);
        expect(done.front, step.title).toEqual(expect.arrayContaining(framed));
        if (byHand.includes(mark)) expect(done.hand, `${mark} mitred`).toContain(mark);
      }
      if (kind === "panels") expect(done.dry, step.title).not.toContain(mark);
      if (kind === "horns") expect(done.glue, `${step.title}: ${mark}`).toContain(mark);
      if (kind === "hung" && roleOf(mark) !== "slab") expect(done.glue, `${step.title}: ${mark}`).toContain(mark);
      if (kind === "hang") expect(done.glue, `${step.title}: ${mark}`).toContain(mark);
      if (kind === "faces") {
        const { assembly } = parts.find((part) => part.mark === mark)!;
        const boxed = parts.filter((part) => part.assembly === assembly && part.mark !== mark).map((part) => part.mark);
        expect(done.hang, `${step.title}: ${mark}`).toEqual(expect.arrayContaining(boxed));
      }
      // Cases behind one frame are joined when they stand, and before that is measured for.
      if (kind === "join") expect(done.glue, `${step.title}: ${mark}`).toContain(mark);
      if (kind === "join") expect(done.mill, step.title).toEqual([]);
      if (kind === "front") expect(done.glue, `${step.title}: ${mark}`).toContain(mark);
      if (["lip", "groove", "drill", "hand"].includes(kind)) expect(done.dry, step.title).not.toContain(mark);
      // What is on before the grooves, and what only comes after them.
      if (kind === "groove" && lipped("before").includes(mark)) expect(done.lip).toContain(mark);
      if (kind === "hand") expect(run).toEqual(expect.arrayContaining(runsOn(mark)));
      if (kind === "lip" && !lipped("before").includes(mark)) {
        expect(run).toEqual(expect.arrayContaining(runsOn(mark)));
      }
      if (kind === "dry") isReady(mark);
      if (kind === "glue") expect(done.dry, `${step.title}: ${mark}`).toContain(mark);
      if (kind === "finish" && !loose.includes(mark)) {
        // A slab that hangs on a track comes there when all else stands.
        const slabs = done.doors.filter((one) => roleOf(one) === "slab");
        const whole = [...done.glue, ...done.round, ...done.strips, ...done.faces, ...done.hung, ...slabs];
        expect(whole, `${step.title}: ${mark}`).toContain(mark);
      }
      if (["track", "stand", "lay"].includes(kind)) expect(done.finish, `${step.title}: ${mark}`).toContain(mark);
    }
    for (const n of step.settings) {
      for (const { mark } of settings.find((one) => one.n === n)!.runs) expect(step.parts).toContain(mark);
    }
    for (const { assembly, n } of step.moves) {
      const move = set.orders.find((one) => one.assembly === assembly)!.moves.find((one) => one.n === n)!;
      // A side that another case lends is there, with its case, before this one is put to it.
      for (const mark of [...move.to, ...move.bring.flatMap((body) => body.parts)]) {
        expect(step.parts.includes(mark) || done.glue.includes(mark), `${step.title}, move ${n}: ${mark}`).toBe(true);
      }
      made.push(`${assembly} ${n}`);
    }
    done[kind].push(...step.parts);
    run.push(...step.settings);
  }
  const all = parts.map(({ mark }) => mark).filter((mark) => !tops.includes(mark));
  const returns = parts.filter(({ role }) => role === "return" || role === "returnStrip").map(({ mark }) => mark);
  const framed = parts.filter(({ role }) => role === "stile" || role === "rail").map(({ mark }) => mark);
  const numerical = (a: string, b: string): number => Number(a) - Number(b);
  const inCase = (mark: string): boolean =>
    !["packing", "runner", "drawerFace", "slab", "return", "returnStrip"].includes(roleOf(mark));
  expect(isSized().toSorted(numerical)).toEqual(all);
  const strips = all.filter((mark) => ["packing", "runner"].includes(roleOf(mark)));
  expect(done.strips.toSorted(numerical)).toEqual(strips);
  expect(done.faces.toSorted(numerical)).toEqual(all.filter((mark) => roleOf(mark) === "drawerFace"));
  expect(done.mill.toSorted(numerical)).toEqual([...framed, ...returns].sort(numerical));
  expect(done.round.toSorted(numerical)).toEqual(returns);
  const inDoors = all.filter((mark) => /^(doorStile|doorRail|doorPanel|slab)$/.test(roleOf(mark)));
  expect(done.doors.toSorted(numerical)).toEqual(inDoors);
  expect(done.hung.toSorted(numerical)).toEqual(inDoors);
  expect(done.front.toSorted(numerical)).toEqual(framed);
  expect(done.dry.toSorted(numerical)).toEqual(all.filter(inCase));
  // A door's panel is finished before its frame hides its edges.
  expect([...done.finish, ...done.panels].sort(numerical)).toEqual(all);
  expect([...done.glue, ...loose].sort(numerical)).toEqual(all.filter(inCase));
  expect(done.lay.toSorted(numerical)).toEqual(loose);
  expect(done.drill.toSorted()).toEqual(drilled);
  // A stile is mortised in one step and mitred in another.
  expect([...new Set(done.hand)].sort()).toEqual(byHand);
  expect(done.lip.toSorted()).toEqual([...lipped("before"), ...lipped("after")].sort());
  expect(run.toSorted((a, b) => a - b)).toEqual(settings.map(({ n }) => n));
  expect(made.toSorted()).toEqual(
    set.orders
      .filter(({ assembly }) => !byLikeness.includes(assembly))
      .flatMap(({ assembly, moves }) => moves.map(({ n }) => `${assembly} ${n}`))
      .sort(),
  );
}
