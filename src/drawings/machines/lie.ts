/** How a part lies under the cutter, as the operator who pushes it sees it. */
import type { Mm } from "../../base/length.ts";
import { awayFace, axisOfFace, isHigh, type LocalAxis, lippedAfter, opposite, sizeAlong } from "../../set/facing.ts";
import type { Face, SetPart, SetSetting } from "../../set/schema.ts";

type Run = SetSetting["runs"][number];

/**
 *           away (goes first at the saw, is far from the operator at the router)
 *         +-----------------+
 *         |   up: looks at  |
 *    left |   the operator  | right
 *         +-----------------+
 *           near: pushed
 */
export type Lie = {
  up: Face;
  right: Face;
  away: Face;
  /** The side on which the fence, the stop or the datum is. */
  datumSide: "left" | "right";
  /** Across and along the push, as seen. */
  across: Mm;
  along: Mm;
  /** The run, from the end that goes first. */
  from: Mm;
  to: Mm;
};

/** The panel as it comes to the cutter: without the lippings that are put on after the grooves. */
const extentOf = (part: SetPart, axis: LocalAxis): { low: Mm; size: Mm } => {
  const low = lippedAfter(part, `${axis}0`);
  return { low, size: sizeAlong(part, axis) - low - lippedAfter(part, `${axis}1`) };
};

function withRight(part: SetPart, run: Run, up: Face, right: Face): Lie {
  const away = awayFace(up, right);
  const { low, size: along } = extentOf(part, axisOfFace(away));
  const [start, end] = [run.from - low, run.to - low];
  const [from, to] = isHigh(away) ? [along - end, along - start] : [start, end];
  return {
    up,
    right,
    away,
    datumSide: right === run.datum ? "right" : "left",
    across: extentOf(part, axisOfFace(run.datum)).size,
    along,
    from,
    to,
  };
}

/** Whether the straightedge stands between the datum and the groove. */
export const isNearSide = (setting: SetSetting): boolean =>
  setting.straightedge !== null && setting.straightedge.near <= setting.fence;

/** What the operator sets: from the datum to the fence's wall, or to the edge the router rides on in the last pass. */
export function guideDistance(setting: SetSetting): Mm {
  const { straightedge } = setting;
  if (straightedge === null) return setting.fence;
  return isNearSide(setting) ? straightedge.near : (straightedge.far ?? straightedge.near);
}

/**
 * At the saw the cut face is down and the datum lies against the fence or stop, on the side that the setting says. At the router the cut face
 * is up and the straightedge on the operator's left, so that the cut pulls the router against it.
 */
export function lieOf(part: SetPart, setting: SetSetting, run: Run): Lie {
  if (setting.tool === "router") {
    return withRight(part, run, run.face, isNearSide(setting) ? opposite(run.datum) : run.datum);
  }
  return withRight(part, run, opposite(run.face), setting.side === "left" ? opposite(run.datum) : run.datum);
}
