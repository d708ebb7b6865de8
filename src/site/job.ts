/** The view of the index page: the whole job at a glance, and the way to every part. */
import { edgeThen, faceWords } from "../set/facing.ts";
import type { DryfitSet, SetCheck, SetPart } from "../set/schema.ts";
import { countedInWords, formatMass, partOf, SIZING_GUIDES } from "../set/words.ts";
import type { DrawingView } from "./drawing.ts";
import { pageHead } from "./head.ts";
import { partLink } from "./part.ts";
import { lengthView, sumView } from "./words.ts";

const LEVELS = ["failure", "warning", "note", "ok"] as const satisfies readonly SetCheck["level"][];
const LEVEL_NAMES = {
  failure: { one: "failure", many: "failures" },
  warning: { one: "warning", many: "warnings" },
  note: { one: "note", many: "notes" },
  ok: { one: "passed", many: "passed" },
};

/** What one rule says of several places, with one remedy, is told together: rule and remedy once under the findings. */
function groupsOf(set: DryfitSet, checks: readonly SetCheck[]) {
  const keyOf = ({ level, change, rule }: SetCheck): string => JSON.stringify([level, change, rule]);
  return [...new Set(checks.map(keyOf))].map((key) => {
    const group = checks.filter((check) => keyOf(check) === key);
    const { level, change, rule } = group[0]!;
    const found = group.map(({ text, parts }) => ({ text, parts: parts.map((mark) => partLink(set, mark, "")) }));
    return { level, change, rule, found };
  });
}

/** Worst first: a failure below a page of good news would be missed. */
function checkViews(set: DryfitSet) {
  const of = (level: SetCheck["level"]): SetCheck[] => set.checks.filter((check) => check.level === level);
  return {
    counts: LEVELS.map((level) => {
      const count = of(level).length;
      return { count, name: LEVEL_NAMES[level][count === 1 ? "one" : "many"] };
    }),
    urgent: groupsOf(set, [...of("failure"), ...of("warning")]),
    notes: groupsOf(set, of("note")),
    passed: of("ok").map((check) => check.text),
  };
}

function cutRow(set: DryfitSet, part: SetPart) {
  const { unit } = set.job;
  return {
    part: partLink(set, part.mark, ""),
    hand: part.hand ?? "",
    length: lengthView(part.length, unit),
    width: lengthView(part.width, unit),
    thickness: lengthView(part.thickness, unit),
    grain: part.grain === "length" ? "length" : "none",
    sums: part.sums.map((sum) => sumView(sum, unit)),
    alike: part.alike.map((mark) => partLink(set, mark, "")),
    same: part.same.map((mark) => partLink(set, mark, "")),
  };
}

/** The cut list, one group a stock, because that is how sheets are pulled. */
const cutGroups = (set: DryfitSet) =>
  set.stock
    .map((stock) => ({
      stock: stock.name,
      rows: set.parts.filter((part) => part.material === stock.id).map((part) => cutRow(set, part)),
    }))
    .filter((group) => group.rows.length > 0);

function caseViews(set: DryfitSet) {
  const { unit } = set.job;
  return set.assemblies.map(({ name, size, diagonals }) => ({
    name,
    width: lengthView(size[0], unit),
    depth: lengthView(size[1], unit),
    height: lengthView(size[2], unit),
    diagonal: lengthView(diagonals.outside, unit),
    bays: set.openings
      .filter((opening) => opening.case === name)
      .map((opening) => ({
        name: opening.name,
        width: lengthView(opening.width, unit),
        height: lengthView(opening.height, unit),
        depth: lengthView(opening.depth, unit),
      })),
  }));
}

/** What the datum goes against. */
const AGAINST = {
  fence: (datum: string) => `${datum} to the fence`,
  sled: (datum: string) => `${datum} to the stop`,
  straightedge: (datum: string) => `measured from the ${datum}`,
};

function settingViews(set: DryfitSet, group: number) {
  const { unit } = set.job;
  const own = set.settings.filter((setting) => setting.group === group);
  return own.map((setting) => ({
    n: setting.n,
    tool: setting.tool,
    cutter: setting.cutter,
    width: lengthView(setting.width, unit),
    depth: lengthView(setting.depth, unit),
    fence: lengthView(setting.fence, unit),
    stopped: setting.stopped,
    straightedge:
      setting.straightedge === null
        ? null
        : {
            near: lengthView(setting.straightedge.near, unit),
            far: setting.straightedge.far === null ? null : lengthView(setting.straightedge.far, unit),
            spacer: lengthView(setting.straightedge.spacer, unit),
          },
    runs: setting.runs.map((run) => {
      const part = partOf(set, run.mark);
      const datum = faceWords(part, run.datum);
      return {
        part: partLink(set, run.mark, ""),
        datum: AGAINST[setting.carrier](datum),
        face: faceWords(part, run.face),
        notes: run.notes,
        stops: run.stops.map((stop) => ({
          edge: edgeThen(part, stop.edge),
          leave: lengthView(stop.leave, unit),
          // At the router from that edge; at the saw from where the cutter comes up.
          block: lengthView(Math.abs(stop.block), unit),
          where:
            setting.tool === "router"
              ? `${stop.block < 0 ? "outside" : "inside"} it`
              : "beyond where the cutter comes up",
        })),
      };
    }),
    ramp: setting.ramp === null ? null : lengthView(setting.ramp.length, unit),
    test: setting.test,
    caution: setting.caution,
  }));
}

/** How many settings there are, those of the sheet layouts counted apart. */
function countView({ settingsCount, sizing, sheets }: DryfitSet) {
  const { count, least, proved, fromLowEnds } = settingsCount;
  return {
    settings: count,
    proved,
    least,
    // Told only where the choice of datums has spared some.
    fromLowEnds: fromLowEnds > count ? fromLowEnds : null,
    sizing: sizing.length,
    cuts: sheets.reduce((sum, { cuts }) => sum + cuts.length, 0),
  };
}

const sizingViews = ({ sizing, job }: DryfitSet, group: number) =>
  sizing
    .filter((one) => one.group === group)
    .map(({ fence, guide, cuts, rips, crosscuts }) => ({
      fence: lengthView(fence, job.unit),
      guide: SIZING_GUIDES[guide],
      cuts: [
        ...cuts.map((one) => `sheet ${one.sheet}: ${one.cuts.join(", ")}`),
        ...(rips.length === 0 ? [] : [`rip ${rips.join(", ")}`]),
        ...(crosscuts.length === 0 ? [] : [`crosscut ${crosscuts.join(", ")}`]),
      ].join("; "),
    }));

/** Group by group, each with its gate, its sizes and its settings. */
const groupViews = (set: DryfitSet) =>
  set.groups.map(({ n, title, gate }) => ({
    title,
    gate: gate.text,
    boxes: gate.boxes.map(({ label, target }) => ({ label, target: lengthView(target, set.job.unit) })),
    sizing: sizingViews(set, n),
    cautions: [...new Set(set.sizing.filter(({ group }) => group === n).map(({ caution }) => caution))],
    settings: settingViews(set, n),
  }));

function stepViews(set: DryfitSet) {
  const { unit } = set.job;
  return set.steps.map((step) => ({
    n: step.n,
    title: step.title,
    text: step.text,
    parts: step.parts.map((mark) => partLink(set, mark, "")),
    settings: step.settings,
    needs: step.needs,
    hardware: step.hardware.map((one) => ({
      what: countedInWords(one),
      sizes: one.sizes.map((size) => lengthView(size, unit)),
    })),
    clamps: step.clamps && {
      count: step.clamps.count,
      opens: lengthView(step.clamps.opens, unit),
      cauls: step.clamps.cauls.map(({ count, length }) => ({ count, length: lengthView(length, unit) })),
    },
    now: step.now,
    cautions: step.cautions,
    boxes: step.boxes.map((box) => ({
      label: box.label,
      target: box.target === null ? null : lengthView(box.target, unit),
    })),
  }));
}

function stockViews(set: DryfitSet) {
  const { unit } = set.job;
  return set.stock.map((stock) => ({
    name: stock.name,
    nominal: lengthView(stock.nominal, unit),
    thickness: lengthView(stock.thickness, unit),
    thickest: lengthView(stock.thickest, unit),
  }));
}

const FILES = {
  before: [
    { href: "bundle.pdf", name: "bundle.pdf", what: "the whole set in one file" },
    { href: "drawings.pdf", name: "drawings.pdf", what: "drawings, cut list, settings, layouts and steps" },
    { href: "sticks.pdf", name: "sticks.pdf", what: "story sticks at full scale: print at 100 %" },
  ],
  roll: { href: "sticks-long.pdf", name: "sticks-long.pdf", what: "each stick whole, for a printer that takes a roll" },
  after: [
    { href: "labels.pdf", name: "labels.pdf", what: "labels at full scale: print at 100 %" },
    { href: "offcuts.json", name: "offcuts.json", what: "the rack after this job, for the stock of the next" },
    { href: "set.json", name: "set.json", what: "every number of the set, for programs" },
  ],
};

/** The long sticks only where there are any: with none that is printed the file is not written. */
const filesOf = ({ sticks }: DryfitSet) => [
  ...FILES.before,
  ...(sticks.some(({ tiles }) => tiles.length > 0) ? [FILES.roll] : []),
  ...FILES.after,
];

export function jobView(set: DryfitSet, drawings: DrawingView[]) {
  const { job } = set;
  return {
    ...pageHead(set, `${job.title}, ${job.number}`, ""),
    client: job.client ?? "",
    drawnBy: job.drawnBy ?? "",
    notes: job.notes,
    mass: formatMass(set.mass, job.unit),
    partCount: set.parts.length,
    cases: caseViews(set),
    stock: stockViews(set),
    checks: checkViews(set),
    files: filesOf(set),
    parts: set.parts.map((part) => partLink(set, part.mark, "")),
    cutGroups: cutGroups(set),
    settingsCount: countView(set),
    groups: groupViews(set),
    steps: stepViews(set),
    purchase: set.purchase.map(({ what, size, quantity, unit, note }) => ({ what, size, quantity, unit, note })),
    drawings,
  };
}
