/** Faults of settings: the parts are right, and one figure of one setting, or one of its runs, is not. */
import { planSizing } from "../../../src/plans/settings/sizing.ts";
import { crossingGroove, lastInLine, lippedAfter, stopsAt } from "../../../src/set/facing.ts";
import type { DryfitSet, Face, SetPart, SetSetting } from "../../../src/set/schema.ts";
import { isInRows } from "../machines/cut-back.ts";
import { near } from "./fault-shapes.ts";
import type { Excluded, Fault, Planted } from "./faults.ts";

/** A setting for each groove by itself, straight from its figures, and their number. */
export function settingsFor(
  set: Pick<DryfitSet, "parts" | "groups"> & Parameters<typeof planSizing>[0],
): Pick<DryfitSet, "settings" | "settingsCount" | "sizing"> {
  const parts = set.groups.flatMap((group) => set.parts.filter(({ mark }) => group.parts.includes(mark)));
  const settings = settingsOf(parts, set.groups);
  const count = settings.length;
  return {
    settings,
    settingsCount: { count, least: count, proved: true, fromLowEnds: count },
    sizing: planSizing({ ...set, sheets: [] }, { rip: 1300, sled: 1200, sledDepth: 600, stop: 1200 }),
  };
}

const HALF_BASE = 75;

/** By the router, which stops anywhere: a bit as wide as the groove, in one pass. */
const settingsOf = (parts: readonly SetPart[], groups: DryfitSet["groups"]): SetSetting[] =>
  parts
    .flatMap((part) => part.features.map((feature, i) => ({ part, feature, i })))
    .flatMap(({ part, feature, i }, n): SetSetting[] => {
      if (!isInRows(feature)) return [];
      const { kind, face, along, at, width, depth, from, to, holds } = feature;
      const datum: Face = face.startsWith("t") ? `${along === "l" ? "w" : "l"}0` : "t0";
      const stops = ([0, 1] as const).flatMap((end) => {
        const edge: Face = `${along}${end}`;
        const size = along === "l" ? part.length : part.width;
        // From the edge that is there when the groove is cut.
        const last = lastInLine(part, feature, end);
        const leave = (end === 0 ? last.from : size - last.to) - lippedAfter(part, edge);
        const met = crossingGroove(part, last, end);
        const beyond = met === undefined ? 0 : end === 0 ? last.from - met.at : met.at + met.width - last.to;
        const block = leave - beyond + width / 2 - HALF_BASE;
        return stopsAt(part, feature, end) ? [{ edge, leave, block }] : [];
      });
      const stopped = stops.length > 0;
      const measured = at - lippedAfter(part, datum);
      return [
        {
          n: n + 1,
          group: groups.find((group) => group.parts.includes(part.mark))!.n,
          tool: "router",
          carrier: "straightedge",
          operation: kind,
          cutter: "",
          width,
          depth,
          fence: near(at, 0) ? width : measured,
          side: null,
          sacrificial: near(at, 0),
          straightedge: {
            base: 2 * HALF_BASE,
            ahead: HALF_BASE,
            bit: width,
            near: measured + width / 2 - HALF_BASE,
            far: null,
            spacer: 0,
          },
          depths: [depth],
          ramp: null,
          stopped,
          holds: holds === null ? [] : [holds],
          test: "",
          caution: "",
          runs: [{ mark: part.mark, feature: i, face, datum, from, to, stopped, stops, board: false, notes: [] }],
        },
      ];
    });

type Edit = (setting: SetSetting, settings: SetSetting[]) => void;
type Straightedge = NonNullable<SetSetting["straightedge"]>;

/** Two steps off, as every fault. A fault of a setting is one of all its runs: each part is to be named. */
export function plantSettingFaults(set: DryfitSet): Planted {
  const faults: Fault[] = [];
  const excluded: Excluded[] = [];
  const off = 2 * set.job.step;
  set.settings.forEach((setting, i) => {
    const plant = (kind: string, blame: string[], edit: Edit): void => {
      const settings = structuredClone(set.settings);
      edit(settings[i]!, settings);
      faults.push({ kind: `setting ${kind}`, mark: `setting ${setting.n}`, blame, set: { ...set, settings } });
    };
    const leaveOut = (kind: string, reason: string): void => {
      excluded.push({ kind: `setting ${kind}`, mark: `setting ${setting.n}`, reason });
    };
    const marks = setting.runs.map(({ mark }) => mark);
    plantFigures(setting, off, (kind, edit) => plant(kind, marks, edit));
    plantStraightedge(setting, off, (kind, edit) => plant(kind, marks, edit), leaveOut);
    setting.runs.forEach((run, j) => {
      const part = set.parts.find(({ mark }) => mark === run.mark)!;
      plantRun(part, setting, j, off, (kind, edit) => plant(kind, [run.mark], edit), leaveOut);
    });
  });
  return { faults, excluded };
}

type Plant = (kind: string, edit: Edit) => void;
type LeaveOut = (kind: string, reason: string) => void;

function plantFigures({ operation, stopped }: SetSetting, off: number, plant: Plant): void {
  for (const by of [off, -off]) {
    const more = by > 0;
    plant(more ? "too deep" : "too shallow", (each) => {
      each.depth += by;
    });
    plant(more ? "too wide" : "too narrow", (each) => {
      each.width += by;
    });
    plant(more ? "with the fence too far" : "with the fence too near", (each) => {
      each.fence += by;
    });
  }
  plant("of the other operation", (each) => {
    each.operation = operation === "groove" ? "rabbet" : "groove";
  });
  plant(stopped ? "run through" : "stopped", (each) => {
    each.stopped = !stopped;
  });
  for (const by of [off, -off]) {
    plant(`with its last pass ${by > 0 ? "too deep" : "too shallow"}`, ({ depths }) => {
      depths[depths.length - 1]! += by;
    });
  }
  plant("with the guide on the other side", (each) => {
    each.side = each.side === "right" ? "left" : "right";
  });
  plant("with the slope of another", (each) => {
    each.ramp = each.ramp === null ? { radius: 100, length: 30 } : null;
  });
  plant("with the sacrificial face of another", (each) => {
    each.sacrificial = !each.sacrificial;
  });
  plant("for another part", (each) => {
    each.holds = ["9999"];
  });
}

function plantStraightedge({ straightedge }: SetSetting, off: number, plant: Plant, leaveOut: LeaveOut): void {
  if (straightedge === null) {
    leaveOut("with the straightedge off", "the saw needs none");
    plant("of the saw with a straightedge", (each) => {
      each.straightedge = { base: 150, ahead: 75, bit: each.width, near: 0, far: null, spacer: 0 };
    });
    return;
  }
  const edit = (kind: string, change: (straightedge: Straightedge) => void): void =>
    plant(kind, ({ straightedge: each }) => change(each!));
  plant("of the router without a straightedge", (each) => {
    each.straightedge = null;
  });
  for (const by of [off, -off]) {
    const words = by > 0 ? "too much" : "too little";
    for (const figure of ["near", "base", "bit", "spacer"] as const) {
      edit(`straightedge ${figure} ${words}`, (each) => {
        each[figure] += by;
      });
    }
  }
  const { far, base } = straightedge;
  if (far === null) {
    leaveOut("straightedge far off", "one pass clears it");
    return;
  }
  edit("straightedge far too much", (each) => {
    each.far = far + off;
  });
  edit("straightedge far too little", (each) => {
    each.far = far - off;
  });
  edit("straightedge with its passes on two sides", (each) => {
    each.far = far > each.bit + base ? far - base : far + base;
  });
  edit("straightedge for one pass of two", (each) => {
    each.far = null;
    each.spacer = 0;
  });
}

function plantRun(
  part: SetPart,
  setting: SetSetting,
  index: number,
  off: number,
  plant: Plant,
  leaveOut: LeaveOut,
): void {
  type Run = SetSetting["runs"][number];
  const edit = (kind: string, change: (run: Run) => void): void => plant(kind, (each) => change(each.runs[index]!));
  const turned = (face: Face): Face => `${face[0]}${face[1] === "0" ? "1" : "0"}` as Face;
  edit("run on the wrong face", (run) => {
    run.face = turned(run.face);
  });
  for (const by of [off, -off]) {
    edit(`run from ${by > 0 ? "too far in" : "too far out"}`, (run) => {
      run.from += by;
    });
    edit(`run to ${by > 0 ? "too far out" : "too far in"}`, (run) => {
      run.to += by;
    });
  }
  const { datum, feature } = setting.runs[index]!;
  const { at, width } = part.features[feature]!;
  const size = datum[0] === "l" ? part.length : part.width;
  if (near(at, size - at - width)) leaveOut("run from the other end", "it lies in the middle");
  else
    edit("run from the other end", (run) => {
      run.datum = turned(run.datum);
    });
  setting.runs[index]!.stops.forEach((_, i) => {
    for (const by of [off, -off]) {
      edit(`run with too ${by > 0 ? "much" : "little"} left at its stop`, ({ stops }) => {
        stops[i]!.leave += by;
      });
      edit(`run with its block too ${by > 0 ? "far in" : "far out"}`, ({ stops }) => {
        stops[i]!.block = (stops[i]!.block ?? 0) + by;
      });
    }
    edit("run without its stop", ({ stops }) => {
      stops.splice(i, 1);
    });
  });
  edit(setting.runs[index]!.stopped ? "run said to go through" : "run said to stop", (run) => {
    run.stopped = !run.stopped;
  });
  edit("run from an end along it", (run) => {
    run.datum = run.datum[0] === "l" ? "w0" : "l0";
  });
  plant("run missing", (each, settings) => {
    each.runs.splice(index, 1);
    if (each.runs.length === 0) settings.splice(settings.indexOf(each), 1);
  });
  plant("run twice", (each) => {
    each.runs.push(structuredClone(each.runs[index]!));
  });
  plant("run again in a setting of its own", (each, settings) => {
    settings.push({ ...structuredClone(each), n: settings.length + 1, runs: [structuredClone(each.runs[index]!)] });
  });
}
