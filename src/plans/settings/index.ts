/** Settings: one groove position is one setting, and every part that shares it is run at it before the fence moves. */
import type { Unit } from "../../base/length.ts";
import type { Tooling } from "../../project/tooling.ts";
import type { DryfitSet, SetPart, SetSetting } from "../../set/schema.ts";
import { cautionFor } from "./caution.ts";
import { type DatumGroup, datumAt, datumGroups, type End } from "./datums.ts";
import { type Choice, fewestSettings, type Option } from "./fewest.ts";
import type { Shop } from "./groove.ts";
import { ordered } from "./order.ts";
import { depthsFor, rampOf, stopsFor } from "./stops.ts";
import { type Room, type Side, sideFor, straightedgeFor } from "./straightedge.ts";
import { BOARD_BESIDE, supportNote, supportsFor } from "./support.ts";
import { type NoTool, settingKey, type Task, taskOf } from "./task.ts";
import { testFor } from "./test-cut.ts";

export type SettingsPlan = Pick<DryfitSet, "settings" | "settingsCount"> & { noTool: NoTool[] };

export { planSizing } from "./sizing.ts";

type Input = Pick<DryfitSet, "parts" | "stock" | "assemblies" | "drilling" | "groups"> & {
  tooling: Tooling;
  unit: Unit;
};

export function planSettings(input: Input): SettingsPlan {
  const groups = datumGroups(input);
  const ways = groups.map((group) => waysOf(group, input));
  const { chosen, count, least } = fewestSettings(ways.map((options): Choice => ({ options })));
  const taken = ways.map((options, i) => options[chosen[i]!]!);
  const settings = ordered(gathered(taken.flatMap(({ tasks }) => tasks))).map((tasks, i) =>
    settingOf(i + 1, tasks, input),
  );
  if (settings.length !== count) throw new Error(`${settings.length} settings gathered, ${count} counted`);
  return {
    settings,
    settingsCount: {
      count,
      least,
      proved: least === count,
      fromLowEnds: new Set(ways.flatMap(([first]) => first!.settings)).size,
    },
    noTool: taken.flatMap(({ noTool }) => noTool),
  };
}

type Way = Option & { tasks: Task[]; noTool: NoTool[] };

/**
 * The ways to measure a group of grooves, those from the low end first. Of equally many settings those win that measure fewer grooves from
 * the high end, then those that leave fewer to the router; then what comes first. A way that leaves a groove without a tool is out where
 * the other does not.
 */
function waysOf({ grooves, ends }: DatumGroup, shop: Shop): Way[] {
  const ways = ends.map((end) => wayOf({ grooves, ends }, end, shop));
  const fewest = Math.min(...ways.map(({ noTool }) => noTool.length));
  return ways.filter(({ noTool }) => noTool.length === fewest);
}

function wayOf({ grooves }: DatumGroup, end: End, shop: Shop): Way {
  const make = (sawStopped: boolean) => grooves.map((groove) => taskOf(groove, datumAt(groove, end), shop, sawStopped));
  const sawn = make(shop.tooling.saw.stopped === "saw");
  // Stopped cuts that go together go to one machine: where one of them cannot be made at the saw, all are the router's.
  const isSplit = sawn.some((one) => "run" in one && one.run.stopped && one.tool === "router");
  const made = isSplit ? make(false) : sawn;
  const tasks = made.filter((one): one is Task => "run" in one);
  const high = end === "high" ? tasks.filter(({ operation }) => operation !== "shoulder").length : 0;
  return {
    tasks,
    noTool: made.filter((one): one is NoTool => "text" in one),
    settings: [...new Set(tasks.map(settingKey))],
    penalty: [high, tasks.filter(({ tool }) => tool === "router").length],
  };
}

/** Those that agree, in the order of the parts. */
function gathered(tasks: readonly Task[]): Task[][] {
  const groups = new Map<string, Task[]>();
  for (const task of tasks) groups.set(settingKey(task), [...(groups.get(settingKey(task)) ?? []), task]);
  return [...groups.values()];
}

function settingOf(n: number, tasks: readonly Task[], { parts, stock, unit, tooling }: Input): SetSetting {
  const [first] = tasks as [Task];
  const { tool, carrier, cutter, operation, width, depth, fence, side: fenceSide, sacrificial, radius } = first;
  const order = (mark: string): number => parts.findIndex((part) => part.mark === mark);
  const inOrder = [...tasks].sort((a, b) => order(a.run.mark) - order(b.run.mark) || a.run.feature - b.run.feature);
  const rooms = tasks.flatMap(({ room }): Room[] => (room === null ? [] : [room]));
  const side = rooms.length === 0 ? null : sideFor(rooms);
  const stopped = tasks.some(({ run }) => run.stopped);
  const tested = inOrder.map(({ groove: { part, feature } }) => ({
    part,
    feature,
    other: heldBy(feature.holds, parts),
  }));
  return {
    n,
    group: first.group.n,
    tool,
    carrier,
    operation,
    cutter,
    width,
    depth,
    fence,
    side: fenceSide,
    sacrificial,
    straightedge: side === null ? null : straightedgeFor(rooms[0]!, side),
    depths: tool === "router" ? depthsFor(depth, tooling.router.plunge) : [depth],
    ramp: stopped && radius !== null ? { radius, length: rampOf(radius, depth) } : null,
    stopped,
    holds: [...new Set(tested.map(({ other }) => other.mark))],
    test: testFor(tested, stock, unit),
    caution: cautionFor(tasks),
    runs: inOrder.map((task) => runOf(task, side, unit)),
  };
}

function runOf(task: Task, side: Side | null, unit: Unit): SetSetting["runs"][number] {
  const board = side !== null && task.room !== null && !task.room[side];
  const notes = supportsFor(task).map((support) => supportNote(support, task, unit));
  return { ...task.run, stops: stopsFor(task), board, notes: [...(board ? [BOARD_BESIDE] : []), ...notes] };
}

function heldBy(holds: string | null, parts: readonly SetPart[]): SetPart {
  const held = parts.find(({ mark }) => mark === holds);
  if (!held) throw new Error("A groove holds nothing");
  return held;
}
