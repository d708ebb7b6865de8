/**
 * Cuts that nobody is to be asked for, by the manuals of saw makers and by what has cost fingers: a part shorter along the fence than across
 * it without sled or mitre gauge, a through cut with a dado cutter, fence and mitre gauge together on a through cut, stopped at both ends on
 * the table saw, a stopped cut entered at its stop, fence 0. And cuts that are made with care, without the caution for it.
 */
import { expect } from "vitest";
import type { Tooling } from "../../../src/project/tooling.ts";
import type { DryfitSet, SetPart, SetSetting } from "../../../src/set/schema.ts";
import { alongOf, missingAt, passOf, sizeOf } from "./cut-back.ts";

type Job = Pick<DryfitSet, "parts" | "settings" | "sizing" | "sheets">;
type Run = SetSetting["runs"][number];

const HAIR = 1e-4; // mm
const NARROW = 150; // mm: a hand beside the fence comes too near the cutter (common practice, no source)

export const expectNoUnsafeCut = (job: Job, tooling: Tooling): void => expect(unsafeCuts(job, tooling)).toEqual([]);

export const unsafeCuts = ({ parts, settings, sizing, sheets }: Job, { saw }: Tooling): string[] => [
  ...settings.flatMap((setting) => {
    const told = [
      ...(setting.fence > HAIR ? [] : ["fence 0"]),
      ...lacking(setting.caution, ["manual comes first"]),
      ...setting.runs.flatMap((run) => unsafeRun(setting, run, parts.find(({ mark }) => mark === run.mark)!, saw)),
    ];
    return told.map((one) => `setting ${setting.n}: ${one}`);
  }),
  ...sizing.flatMap((row) =>
    unsafeSize(row, parts, sheets, saw).map((one) => `size ${row.fence.toFixed(1)} ${row.guide}: ${one}`),
  ),
];

const lacking = (caution: string, words: readonly string[]): string[] =>
  words.filter((one) => !caution.includes(one)).map((one) => `no caution "${one}"`);

function unsafeRun(setting: SetSetting, run: Run, part: SetPart, saw: Tooling["saw"]): string[] {
  const { caution, carrier } = setting;
  // Never through: wood is left under every groove.
  const through = setting.depth < sizeOf(part, run.face[0] as "l" | "w" | "t") - 1 ? [] : ["a through cut with it"];
  if (setting.tool === "router")
    return [
      ...through,
      ...(carrier === "straightedge" ? [] : ["a router along a fence"]),
      ...lacking(caution, ["straightedge on the router's left", "The router's manual"]),
      ...(run.stops.length > 0 ? lacking(caution, ["wait until the bit stands still, then lift"]) : []),
    ];
  const [along, across] = [sizeOf(part, alongOf(run)), sizeOf(part, run.datum[0] as "l" | "w" | "t")];
  const narrow = carrier === "fence" && across < NARROW;
  const long = carrier === "fence" ? along > 1200 && run.face[0] === "t" : across > 900;
  return [
    ...through,
    ...unsafeEntry(setting, run, part),
    ...(carrier === "fence" && along < across - HAIR ? ["twists off the fence"] : []),
    ...(carrier === "straightedge" ? ["no guide at the saw"] : []),
    ...(setting.fence > (carrier === "fence" ? saw.rip : saw.stop) + setting.width + HAIR ? ["beyond reach"] : []),
    ...(carrier === "sled" && across > saw.sled + HAIR ? ["longer than the sled"] : []),
    ...lacking(caution, ["Guard and riving knife are off for this cut and go back on after it", "The saw's manual"]),
    ...(carrier === "sled" ? lacking(caution, ["sled or mitre gauge carries", "only sets the distance"]) : []),
    ...(carrier === "fence" ? lacking(caution, ["push blocks"]) : []),
    ...(setting.sacrificial ? lacking(caution, ["sacrificial face"]) : []),
    ...(narrow ? lacking(caution, ["push stick"]) : []),
    ...(long ? lacking(caution, ["support it level with the table"]) : []),
    ...(long && run.notes.length === 0 ? ["no note of its support"] : []),
    ...(run.stops.length > 0 ? lacking(caution, ["wait until it stands still, then lift", "never lower a part"]) : []),
  ];
}

const AXES = ["l", "w", "t"] as const;

/** Where a face looks, along the part's own axes. */
const looks = (face: string): number[] => AXES.map((axis) => (axis === face[0] ? (face[1] === "1" ? 1 : -1) : 0));

/** The end that goes first: looking that way, with the cut face down, the fence is on its side. */
function goesFirst(run: Run, side: "left" | "right"): string {
  const up = looks(run.face).map((one) => -one);
  const right = looks(run.datum).map((one) => (side === "right" ? one : -one));
  const forward = AXES.map((_, i) => up[(i + 1) % 3]! * right[(i + 2) % 3]! - up[(i + 2) % 3]! * right[(i + 1) % 3]!);
  const i = forward.findIndex((one) => one !== 0);
  return `${AXES[i]!}${forward[i]! > 0 ? 1 : 0}`;
}

/** What stays uncut of the groove itself, whatever the row says of stops. */
function unsafeEntry({ side }: SetSetting, run: Run, part: SetPart): string[] {
  const axis = alongOf(run);
  const pass = passOf(part, part.features[run.feature]!);
  const uncut = [
    ...(pass.from > missingAt(part, `${axis}0`) + HAIR ? [`${axis}0`] : []),
    ...(pass.to < sizeOf(part, axis) - missingAt(part, `${axis}1`) - HAIR ? [`${axis}1`] : []),
  ];
  if (Math.max(uncut.length, run.stops.length) > 1) return ["stopped at both ends"];
  const edges = [...uncut, ...run.stops.map(({ edge }) => edge)];
  if (side === null) return ["no side of the cutter"];
  return edges.includes(goesFirst(run, side)) ? ["enters at its stop"] : [];
}

const alongFence = (along: number): Pushed => ({ along, across: 0 });

/** What is pushed over the saw: along the cut, and across it from edge to edge. */
type Pushed = { along: number; across: number };

/** The piece that a cut divides: from the nearest line on either side that was cut before, as long as this one or longer, or from the sheet's edge. */
function pieceAt({ cuts, length, width, kerf }: DryfitSet["sheets"][number], n: number): Pushed {
  const at = cuts.findIndex((one) => one.n === n);
  const cut = cuts[at]!;
  const whole = cut.across === "x" ? length : width;
  const bounds = cuts
    .slice(0, at)
    .filter((one) => one.across === cut.across && one.from < cut.from + HAIR && one.to > cut.to - HAIR);
  const low = Math.max(0, ...bounds.filter((one) => one.at < cut.at).map((one) => one.at + kerf));
  const high = Math.min(whole, ...bounds.filter((one) => one.at > cut.at).map((one) => one.at));
  return { along: cut.to - cut.from, across: high - low };
}

/** A through cut: along the fence only a piece that is longer that way than across, a board never to length, and never with the gauge too. */
function unsafeSize(
  row: DryfitSet["sizing"][number],
  parts: Job["parts"],
  sheets: Job["sheets"],
  saw: Tooling["saw"],
): string[] {
  const { fence, guide, caution } = row;
  const cutOut = row.cuts.flatMap(({ sheet, cuts }) =>
    sheets.filter(({ n }) => n === sheet).flatMap((one) => cuts.map((n) => pieceAt(one, n))),
  );
  const pushed = [
    ...cutOut,
    ...row.rips.flatMap((id) => parts.find(({ mark }) => mark === id)?.cut.length ?? []).map(alongFence),
    ...row.crosscuts.flatMap((id) => parts.find(({ mark }) => mark === id)?.cut.width ?? []).map(alongFence),
  ];
  return [
    ...(fence > HAIR ? [] : ["fence 0"]),
    ...lacking(caution, ["The saw's manual comes first"]),
    ...(guide === "fence" && pushed.some(({ along, across }) => along < Math.max(fence, across) - HAIR)
      ? ["twists off the fence"]
      : []),
    ...(guide === "fence" && fence > saw.rip + HAIR ? ["beyond reach"] : []),
    ...(guide === "fence" && row.crosscuts.length > 0 && !row.trim ? ["crosscut along the fence"] : []),
    ...(guide === "fence" ? lacking(caution, ["Riving knife and guard on", "never the mitre gauge with it"]) : []),
    ...(guide === "fence" && fence < NARROW ? lacking(caution, ["push stick"]) : []),
    ...(guide === "stop"
      ? lacking(caution, [
          "Riving knife and guard on",
          "stop ends before the blade",
          "far end of a long piece is held up",
        ])
      : []),
    ...(guide === "stop" || guide === "line" ? lacking(caution.toLowerCase(), ["never along the fence"]) : []),
  ];
}
