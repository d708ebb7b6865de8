/** The router's straightedge, reckoned again from the groove's walls: the bit's centre half a bit inside a wall, the straightedge half a base from that. */
import type { Mm } from "../../base/length.ts";
import type { SetCheck, SetFeature, SetPart, SetSetting } from "../../set/schema.ts";
import { TOUCH } from "../solids/boxes.ts";
import { amount, failure, featureName, type Job } from "../words.ts";

type Straightedge = NonNullable<SetSetting["straightedge"]>;
type Routed = { setting: SetSetting; run: SetSetting["runs"][number]; part: SetPart; feature: SetFeature };

const isEqual = (a: Mm, b: Mm): boolean => Math.abs(a - b) <= TOUCH;

/** A router goes along a straightedge whose distances are given; a table saw has none. */
export function checkGuide({ n, tool, carrier, straightedge }: SetSetting, parts: readonly SetPart[]): SetCheck[] {
  const routed = tool === "router";
  if (routed === (carrier === "straightedge") && routed === (straightedge !== null)) return [];
  return [
    failure(
      "straightedge",
      parts,
      `Setting ${n} is for the ${tool}, guided by the ${carrier}, ${straightedge ? "with" : "without"} distances of a straightedge: these do not go together. Change: fence or sled at the table saw, a straightedge and its distances for the router.`,
    ),
  ];
}

export function checkStraightedge(
  { setting, run, part, feature }: Routed,
  walls: { near: Mm; far: Mm },
  job: Job,
): SetCheck[] {
  const { n, straightedge } = setting;
  if (straightedge === null) return [];
  const fail = (text: string): SetCheck => failure("straightedge", [part], text);
  const name = featureName(part, feature, job);
  const lies = `The straightedge of setting ${n} lies`;
  const reckoned = `base of ${amount(straightedge.base, job)} and a bit of ${amount(straightedge.bit, job)}`;
  const checks: SetCheck[] = [];
  // Between the walls of a lap the rest is cleared by eye.
  const left = feature.kind === "lap" ? null : checkPasses(straightedge, walls.far - walls.near, job);
  if (left) checks.push(fail(`Setting ${n} does not clear ${name}: ${left}`));
  const wanted = nearest(straightedge, walls);
  for (const wall of ["near", "far"] as const) {
    const stated = straightedge[wall];
    if (stated === null || isEqual(stated, wanted[wall])) continue;
    checks.push(
      fail(
        `${lies} ${amount(stated, job)} from ${run.datum} for the ${wall} wall of ${name}, but a ${reckoned} put it at ${amount(wanted[wall], job)}. Change: lay it at ${amount(wanted[wall], job)}.`,
      ),
    );
  }
  const spacer = straightedge.far === null ? 0 : walls.far - walls.near - straightedge.bit;
  if (!isEqual(straightedge.spacer, spacer)) {
    checks.push(
      fail(
        `The spacer of setting ${n} is ${amount(straightedge.spacer, job)}, but the passes for ${name} lie ${amount(spacer, job)} apart. Change: a spacer of ${amount(spacer, job)}.`,
      ),
    );
  }
  return checks;
}

/** What one pass, or two at the walls, would leave standing or cut away too much. */
function checkPasses({ bit, far }: Straightedge, width: Mm, job: Job): string | null {
  const [wide, cutter] = [amount(width, job), amount(bit, job)];
  if (bit > width + TOUCH) return `its bit is ${cutter} wide, the groove ${wide}. Change: a narrower bit.`;
  const cleared = far === null ? bit : 2 * bit;
  if (cleared >= width - TOUCH) return null;
  const change = far === null ? "a second pass, at the far wall" : `a bit of ${amount(width / 2, job)} or more`;
  const leave = far === null ? `one pass of a ${cutter} bit leaves` : `two passes of a ${cutter} bit leave`;
  return `${leave} ${amount(width - cleared, job)} of its ${wide} standing. Change: ${change}.`;
}

/** Before the bit or beyond it, whichever is nearer to what is stated for the near wall; both passes on that side. */
function nearest({ base, bit, near }: Straightedge, walls: { near: Mm; far: Mm }): { near: Mm; far: Mm } {
  const centres = { near: walls.near + bit / 2, far: walls.far - bit / 2 };
  const side = near < centres.near ? -base / 2 : base / 2;
  return { near: centres.near + side, far: centres.far + side };
}
