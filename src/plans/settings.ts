/** Settings: one groove position is one setting, and every part that shares it is run at it before the fence moves. */
import { formatLengthWithUnit, isSame, type Mm, SAME, type Unit } from "../base/length.ts";
import type { Tooling } from "../project/project.ts";
import { axisOfFace, lippedAfter, meetingGroove, stopsAt, thirdAxis } from "../set/facing.ts";
import type { DryfitSet, Face, SetFeature, SetPart, SetSetting, SetStock } from "../set/schema.ts";

type Run = SetSetting["runs"][number];

/** What one groove asks of the shop, before those that agree are gathered into one setting. */
type Task = Omit<SetSetting, "n" | "holds" | "runs"> & { run: Run; holds: string | null };

export type SettingsPlan = { settings: SetSetting[]; noTool: { mark: string; text: string }[] };

type Input = Pick<DryfitSet, "parts" | "stock"> & { tooling: Tooling; unit: Unit };

export function planSettings({ parts, stock, tooling, unit }: Input): SettingsPlan {
  const noTool: SettingsPlan["noTool"] = [];
  const tasks = parts.flatMap((part) =>
    part.features.flatMap((feature, index) => {
      if (feature.kind === "notch" || feature.kind === "hole") return [];
      const task = taskOf(part, feature, index, parts, stock, tooling, unit);
      if ("text" in task) {
        noTool.push({ mark: part.mark, text: task.text });
        return [];
      }
      return [task];
    }),
  );
  const groups: Task[][] = [];
  for (const task of tasks) {
    const group = groups.find(([first]) => sharesSetting(first!, task));
    if (group) group.push(task);
    else groups.push([task]);
  }
  const settings = crossingFirst(
    groups.sort(([a], [b]) => inOrder(a!, b!)),
    parts,
  ).map((group, i): SetSetting => {
    const { run: _run, holds: _holds, ...first } = group[0]!;
    const holds = [...new Set(group.flatMap(({ holds }) => (holds === null ? [] : [holds])))];
    return { ...first, n: i + 1, holds, runs: group.map(({ run }) => run) };
  });
  return { settings, noTool };
}

/** Cutter by cutter, height by height, fence outwards; the router after the saw. */
const TOOL_ORDER = { "table saw": 0, router: 1 } as const;
const CARRIER_ORDER = { fence: 0, sled: 1, straightedge: 2 } as const;
const inOrder = (a: Task, b: Task): number =>
  TOOL_ORDER[a.tool] - TOOL_ORDER[b.tool] ||
  a.width - b.width ||
  a.depth - b.depth ||
  CARRIER_ORDER[a.carrier] - CARRIER_ORDER[b.carrier] ||
  a.fence - b.fence;

/**
 * A groove that ends in another is cut after that one, so that its end runs out into air. Where two wait for each other the usual order
 * holds: the second to be cut opens both.
 */
function crossingFirst(groups: readonly Task[][], parts: readonly SetPart[]): Task[][] {
  const cuts = ({ run }: Task, mark: string, feature: SetFeature): boolean =>
    run.mark === mark && parts.find((part) => part.mark === mark)!.features[run.feature] === feature;
  const waitsFor = (group: Task[]): Task[][] =>
    group.flatMap(({ run }) => {
      const part = parts.find(({ mark }) => mark === run.mark)!;
      return ([0, 1] as const).flatMap((end) => {
        const met = meetingGroove(part, run.feature, end);
        const first = met && groups.find((other) => other !== group && other.some((task) => cuts(task, run.mark, met)));
        return first ? [first] : [];
      });
    });
  const left = [...groups];
  const ordered: Task[][] = [];
  while (left.length > 0) {
    const free = left.findIndex((group) => waitsFor(group).every((first) => !left.includes(first)));
    ordered.push(...left.splice(Math.max(0, free), 1));
  }
  return ordered;
}

const sharesSetting = (a: Task, b: Task): boolean =>
  a.tool === b.tool &&
  a.carrier === b.carrier &&
  a.operation === b.operation &&
  a.cutter === b.cutter &&
  a.stopped === b.stopped &&
  isSame(a.width, b.width) &&
  isSame(a.depth, b.depth) &&
  isSame(a.fence, b.fence);

const size = (part: SetPart, axis: "l" | "w" | "t"): Mm =>
  axis === "l" ? part.length : axis === "w" ? part.width : part.thickness;

/**
 * The datum is the low end or the front edge, so the near wall is the one that is exact, and whatever holds one part is measured from the
 * same end of every part that holds it.
 */
function taskOf(
  part: SetPart,
  feature: SetFeature,
  index: number,
  parts: readonly SetPart[],
  stock: readonly SetStock[],
  tooling: Tooling,
  unit: Unit,
): Task | { text: string } {
  const cross = thirdAxis(feature.along, axisOfFace(feature.face));
  // A shoulder is cut from the very end that it is at.
  const datum: Face = `${cross}${feature.kind === "shoulder" && feature.at > SAME ? 1 : 0}`;
  const stopped = stopsAt(part, feature, 0) || stopsAt(part, feature, 1);
  const run: Run = { mark: part.mark, feature: index, face: feature.face, datum, from: feature.from, to: feature.to };
  const other = parts.find(({ mark }) => mark === feature.holds);
  const otherStock = stock.find(({ id }) => id === other?.material);
  if (!other || !otherStock) throw new Error(`A groove of ${part.mark} holds nothing`);
  // A rabbet at the datum itself would need fence 0: the cutter runs into a sacrificial fence face, set by the rabbet's inner wall.
  const sacrificial = feature.kind === "shoulder" || feature.at < SAME;
  const fence = sacrificial ? feature.width : feature.at - lippedAfter(part, datum);
  const common = {
    operation: operationOf(feature),
    width: feature.width,
    depth: feature.depth,
    fence,
    stopped,
    holds: feature.holds,
    run,
    test:
      feature.kind === "shoulder"
        ? testOfTongue(part, feature, other, unit)
        : testOf(otherStock, other, tongueOf(other, part), feature, unit),
  };

  const { saw } = tooling;
  const along = size(part, feature.along);
  const across = size(part, cross);
  const carrier = along >= across ? "fence" : "sled";
  const inReach = carrier === "fence" ? feature.at <= saw.rip : across <= saw.sled;
  // Beside a sacrificial fence face, a wider cutter runs into that.
  const least = feature.kind === "shoulder" ? 0 : saw.dado.least;
  const fitsDado = feature.width >= least - SAME && feature.width <= saw.dado.most + SAME;
  if (!stopped && inReach && fitsDado) {
    return {
      ...common,
      tool: "table saw",
      carrier,
      cutter: `dado cutter set to ${feature.kind === "shoulder" ? "at least " : ""}${widthText(Math.max(feature.width, least), unit)}`,
      straightedge: null,
      caution: sacrificial ? `${SACRIFICIAL} ${SAW_CAUTION[carrier]}` : SAW_CAUTION[carrier],
    };
  }
  return routerTask(part, feature, across, common, tooling, unit);
}

/** Groove widths are set by calliper: thousandths of an inch, or a twentieth of a millimetre. */
const widthText = (width: Mm, unit: Unit): string => formatLengthWithUnit(width, unit);

const operationOf = ({ kind }: SetFeature): SetSetting["operation"] => {
  if (kind === "groove" || kind === "rabbet" || kind === "shoulder") return kind;
  throw new Error(`A ${kind} is cut by no setting`);
};

const tongueOf = (entering: SetPart, receiving: SetPart): SetFeature | undefined =>
  entering.features.find(({ kind, holds }) => kind === "shoulder" && holds === receiving.mark);

const testOfTongue = (part: SetPart, feature: SetFeature, receiving: SetPart, unit: Unit): string => {
  const tongue = formatLengthWithUnit(part.thickness - feature.depth, unit);
  return `Rabbet a scrap of this part's own sheet, so that ${tongue} is left. Pass: the tongue slips into the groove of ${receiving.mark} by hand pressure, and the shoulder comes down on its face.`;
};

/** `shoulder`: the rabbet that leaves the tongue, where not the whole thickness enters. */
const testOf = (
  entering: SetStock,
  other: SetPart,
  shoulder: SetFeature | undefined,
  feature: SetFeature,
  unit: Unit,
): string => {
  if (shoulder !== undefined) {
    const tongue = formatLengthWithUnit(other.thickness - shoulder.depth, unit);
    return `Groove a scrap of this part's own sheet, ${formatLengthWithUnit(feature.depth, unit)} deep. Pass: a tongue of ${tongue}, rabbeted in a scrap of ${entering.name}, slips in by hand pressure, and the two hold together when lifted.`;
  }
  const readings =
    entering.readings.length > 1 && !isSame(entering.thickest, entering.thickness)
      ? ` Try the thickest of the sheet (${formatLengthWithUnit(entering.thickest, unit)}) as well.`
      : "";
  return `Groove a scrap of this part's own sheet, ${formatLengthWithUnit(feature.depth, unit)} deep. Pass: a scrap of ${entering.name} slips in by hand pressure, and the two hold together when lifted.${readings}`;
};

const SAW_CAUTION = {
  fence:
    "Guard and riving knife are off for this cut and go back on after it. Hold down with push blocks, hands never over the cutter. Never a through cut with this cutter, never a warped board. The saw's manual comes first.",
  sled: "Guard and riving knife are off for this cut and go back on after it. The sled or mitre gauge carries the part, fence or stop only sets the distance; hands stay clear of the cutter's path. Never a through cut with this cutter. The saw's manual comes first.",
} as const;

const SACRIFICIAL =
  "Put a sacrificial face on the fence and let the cutter run into it: the fence figure is to the rabbet's inner wall.";

const ROUTER_CAUTION =
  "Clamp part and straightedge. Feed away from you with the straightedge on the router's left; unplug before changing the bit. Eye, ear and dust protection. The router's manual comes first.";

const BOARD_BESIDE =
  "The part has too little room for the straightedge: clamp it to a board of the same thickness set against the part.";

/** Least stretch of the part the straightedge needs under it to be clamped: common practice, no source. */
const CLAMPING: Mm = 40;

function routerTask(
  part: SetPart,
  feature: SetFeature,
  across: Mm,
  common: Omit<Task, "tool" | "carrier" | "cutter" | "straightedge" | "caution">,
  tooling: Tooling,
  unit: Unit,
): Task | { text: string } {
  // One pass, or two that meet: a bit under half the groove's width would leave an island.
  const bit = [...tooling.router.bits]
    .filter(
      ({ diameter, reach }) =>
        diameter <= feature.width + SAME && 2 * diameter >= feature.width - SAME && reach >= feature.depth - SAME,
    )
    .sort((a, b) => b.diameter - a.diameter)[0];
  const width = formatLengthWithUnit(feature.width, unit);
  if (!bit) {
    return {
      text: `No tool of the shop cuts the groove ${width} wide and ${formatLengthWithUnit(feature.depth, unit)} deep in ${part.name} ${part.mark}: the dado cutter is set from ${formatLengthWithUnit(tooling.saw.dado.least, unit)} to ${formatLengthWithUnit(tooling.saw.dado.most, unit)}, and no router bit is between half as wide and as wide, and long enough. Add a bit to the tooling.`,
    };
  }
  // Offset of the straightedge from the wall it guides: half the base less half the bit. Before the groove where it can be clamped there,
  // beyond it otherwise; where the part has no room for it either way, a board beside the part has.
  const offset = tooling.router.baseHalf - bit.diameter / 2;
  const { datum } = common.run;
  const nearWall = (datum.endsWith("1") ? across - feature.at - feature.width : feature.at) - lippedAfter(part, datum);
  const farWall = nearWall + feature.width;
  const fitsBeyond = farWall + offset <= across - CLAMPING;
  const fitsBefore = nearWall - offset >= CLAMPING;
  const before = fitsBefore || (!fitsBeyond && nearWall - offset >= 0);
  const hasRoom = fitsBefore || fitsBeyond;
  const twoPasses = feature.width - bit.diameter > SAME;
  const near = before ? nearWall - offset : nearWall + bit.diameter / 2 + tooling.router.baseHalf;
  const far = before ? farWall - bit.diameter / 2 - tooling.router.baseHalf : farWall + offset;
  return {
    ...common,
    tool: "router",
    carrier: "straightedge",
    cutter: bit.name,
    straightedge: {
      base: 2 * tooling.router.baseHalf,
      bit: bit.diameter,
      near,
      far: twoPasses ? far : null,
      spacer: twoPasses ? feature.width - bit.diameter : 0,
    },
    caution: hasRoom ? ROUTER_CAUTION : `${BOARD_BESIDE} ${ROUTER_CAUTION}`,
  };
}
