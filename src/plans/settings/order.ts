/** In which order the settings are made: cutter by cutter, height by height, fence outwards; the router after the saw. Group by group. */
import { isSame, type Mm } from "../../base/length.ts";
import { frontFace, meetingGroove } from "../../set/facing.ts";
import type { SetFeature } from "../../set/schema.ts";
import type { Task } from "./task.ts";

const TOOLS: readonly Task["tool"][] = ["table saw", "router"];
const CARRIERS: readonly Task["carrier"][] = ["fence", "sled", "straightedge"];
/** What takes an end or edge away comes after what is measured from it. */
const OPERATIONS: readonly Task["operation"][] = ["groove", "rabbet", "lap", "shoulder"];

/** Float noise must not part what is one figure at the machine. */
const apart = (a: Mm, b: Mm): number => (isSame(a, b) ? 0 : a - b);

const inOrder = (a: Task, b: Task): number =>
  a.group.n - b.group.n ||
  // A tongue is cut until it fits its groove: at the front face first.
  (a.group.kind === "doors" ? OPERATIONS.indexOf(a.operation) - OPERATIONS.indexOf(b.operation) : 0) ||
  (isStub(a) && isStub(b) ? Number(isFront(b)) - Number(isFront(a)) : 0) ||
  TOOLS.indexOf(a.tool) - TOOLS.indexOf(b.tool) ||
  apart(a.width, b.width) ||
  apart(a.depth, b.depth) ||
  CARRIERS.indexOf(a.carrier) - CARRIERS.indexOf(b.carrier) ||
  OPERATIONS.indexOf(a.operation) - OPERATIONS.indexOf(b.operation) ||
  apart(a.fence, b.fence);

/** Of a tongue with two shoulders. */
const isStub = ({ group: { kind }, operation }: Task): boolean =>
  (kind === "doors" || kind === "frame") && operation === "shoulder";
const isFront = ({ groove: { part }, run }: Task): boolean => frontFace(part) === run.face;

/** Groups of tasks that share a setting, in the order in which they are made. */
export const ordered = (groups: readonly Task[][]): Task[][] =>
  crossingFirst([...groups].sort(([a], [b]) => inOrder(a!, b!)));

/**
 * A groove that ends in another is cut after that one, so that its end runs out into air. Where two wait for each other the usual order
 * holds: the second to be cut opens both.
 */
function crossingFirst(groups: readonly Task[][]): Task[][] {
  const cuts = ({ run, groove }: Task, mark: string, feature: SetFeature): boolean =>
    run.mark === mark && groove.feature === feature;
  const waitsFor = (group: Task[]): Task[][] =>
    group.flatMap(({ run, groove: { part } }) =>
      ([0, 1] as const).flatMap((end) => {
        const met = meetingGroove(part, run.feature, end);
        const first = met && groups.find((other) => other !== group && other.some((task) => cuts(task, run.mark, met)));
        return first ? [first] : [];
      }),
    );
  const left = [...groups];
  const result: Task[][] = [];
  while (left.length > 0) {
    const free = left.findIndex((group) => waitsFor(group).every((first) => !left.includes(first)));
    result.push(...left.splice(Math.max(0, free), 1));
  }
  return result;
}
