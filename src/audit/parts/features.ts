/** Each feature on its own part: inside the blank, told the same by its figures, its box and its outline, never too deep, and with wood between it and the next. */
import type { AxisIndex } from "../../base/geometry.ts";
import { isSame, type Mm, SAME } from "../../base/length.ts";
import type { DryfitSet, SetCheck, SetFeature, SetPart } from "../../set/schema.ts";
import { cutAwayAll, drawnOut, otherAxes, TOUCH } from "../solids/boxes.ts";
import { slicesOf } from "../solids/sockets.ts";
import { axesOfFeature, faceAxis, isHighFace, localAxis, sizeOf } from "../solids/solid.ts";
import { amount, failure, featureName, type Job } from "../words.ts";

/** So far beyond an open end no wood may stand: the thinnest groove is wider. */
const BEYOND: Mm = 1;

function outsideBlank(part: SetPart, feature: SetFeature): Mm {
  const size = sizeOf(part);
  const [lo, hi] = feature.box;
  return Math.max(0, ...([0, 1, 2] as AxisIndex[]).map((i) => Math.max(-lo[i], hi[i] - size[i])));
}

/** Where the figures and the box tell two stories, which ones. */
function disagreements(part: SetPart, feature: SetFeature): string[] {
  const axes = axesOfFeature(feature);
  if (!axes) return ["face and along"];
  const size = sizeOf(part);
  const [lo, hi] = feature.box;
  const told: string[] = [];
  const expect = (what: string, a: Mm, b: Mm): void => {
    if (!isSame(a, b)) told.push(what);
  };
  expect("at", feature.at, lo[axes.across]);
  expect("width", feature.at + feature.width, hi[axes.across]);
  expect("from", feature.from, lo[axes.run]);
  expect("to", feature.to, hi[axes.run]);
  expect("depth", feature.depth, hi[axes.depth] - lo[axes.depth]);
  if (isHighFace(feature.face)) expect("face", hi[axes.depth], size[axes.depth]);
  else expect("face", lo[axes.depth], 0);
  if ([0, 1, 2].some((i) => hi[i as AxisIndex] - lo[i as AxisIndex] <= 0)) told.push("box (it holds nothing)");
  const through = [isSame(feature.from, 0), isSame(feature.to, size[axes.run])];
  feature.ends.forEach((end, i) => {
    if ((end === "through") !== through[i]) told.push("ends");
  });
  const isTold =
    {
      hole: isCircleOfBox,
      slot: isSlotOfBox,
      mortise: isSlotOfBox,
      shape: isShapeOfBox,
      edge: isProfileOfBox,
      mitre: isMitreOfBox,
      socket: isSocketOfBox,
    }[feature.kind as "hole" | "slot" | "mortise" | "shape" | "edge" | "mitre" | "socket"] ?? isOutlineOfBox;
  if (!isTold(feature)) told.push("outline");
  return told;
}

/** Two straight sides and a half circle at each end that fill the box; a circle where it is as long as wide. */
function isSlotOfBox(feature: SetFeature): boolean {
  const { axis, box, outline } = feature;
  const [u, v] = otherAxes(localAxis(axis));
  const [lo, hi] = box;
  const [long, wide] = [Math.max(hi[u] - lo[u], hi[v] - lo[v]), Math.min(hi[u] - lo[u], hi[v] - lo[v])];
  if (isSame(long, wide)) return isCircleOfBox(feature);
  if (outline.length !== 4) return false;
  // Every point is half the width from an end of the box, and on a long side of it; arcs join the sides across, straight lines along.
  const [run, across] = hi[u] - lo[u] > hi[v] - lo[v] ? ([0, 1] as const) : ([1, 0] as const);
  const [runs, acrosses] = run === 0 ? [u, v] : [v, u];
  const at = outline.map((point) => {
    const end = isSame(point[run], lo[runs] + wide / 2) ? 0 : isSame(point[run], hi[runs] - wide / 2) ? 1 : null;
    const side = isSame(point[across], lo[acrosses]) ? 0 : isSame(point[across], hi[acrosses]) ? 1 : null;
    return end === null || side === null ? null : { end, side, bulge: point[2] ?? 0 };
  });
  return at.every((here, i) => {
    const next = at[(i + 1) % 4];
    if (here === null || next === null || next === undefined) return false;
    return here.bulge === 1
      ? here.end === next.end && here.side !== next.side
      : here.bulge === 0 && here.end !== next.end && here.side === next.side;
  });
}

/** The outline goes round the box's rectangle once, corner by corner; its last point may repeat the first. */
function isOutlineOfBox(feature: SetFeature): boolean {
  const [a, b] = otherAxes(localAxis(feature.axis));
  const points = feature.outline.map(([u, v]) => ({ u, v }));
  const [first, last] = [points[0], points.at(-1)];
  if (points.length === 5 && first && last && isSame(first.u, last.u) && isSame(first.v, last.v)) points.pop();
  if (points.length !== 4) return false;
  const [lo, hi] = feature.box;
  const corner = ({ u, v }: { u: Mm; v: Mm }): string | null => {
    const high = (value: Mm, i: AxisIndex): string | null =>
      isSame(value, lo[i]) ? "0" : isSame(value, hi[i]) ? "1" : null;
    const [x, y] = [high(u, a), high(v, b)];
    return x === null || y === null ? null : x + y;
  };
  const corners = points.map(corner);
  return (
    new Set(corners).size === 4 &&
    corners.every((here, i) => {
      const next = corners[(i + 1) % 4];
      return here && next && (here[0] === next[0]) !== (here[1] === next[1]);
    })
  );
}

/** Straight across at both of its planes, and as wide as its box at one of them, on either side. */
function isSocketOfBox(feature: SetFeature): boolean {
  const found = slicesOf(feature);
  if (found === null) return false;
  const { deep, slices } = found;
  const [lo, hi] = feature.box;
  const ends = slices.map(({ at }) => at);
  const span = (pick: (...all: Mm[]) => Mm, of: "from" | "to"): Mm => pick(...slices.map((slice) => slice[of]));
  return (
    isSame(Math.min(...ends), lo[deep]) &&
    isSame(Math.max(...ends), hi[deep]) &&
    isSame(span(Math.min, "from"), lo[1]) &&
    isSame(span(Math.max, "to"), hi[1])
  );
}

/** Two points across the box with half a circle from each to the other: the circle that fills the box. */
function isCircleOfBox({ axis, box: [lo, hi], outline }: SetFeature): boolean {
  const [u, v] = otherAxes(localAxis(axis));
  const [a, b] = outline;
  if (outline.length !== 2 || !a || !b || a[2] !== 1 || b[2] !== 1) return false;
  const diameter = Math.hypot(b[0] - a[0], b[1] - a[1]);
  return (
    isSame(hi[u] - lo[u], diameter) &&
    isSame(hi[v] - lo[v], diameter) &&
    isSame(a[0] + b[0], lo[u] + hi[u]) &&
    isSame(a[1] + b[1], lo[v] + hi[v])
  );
}

/** Open along the whole of the box at its edge, and reaching in as far as the box does: straight or sloping ends, or one arc. */
function isShapeOfBox({ axis, along, face, box: [lo, hi], outline }: SetFeature): boolean {
  const axes = otherAxes(localAxis(axis));
  const [run, into] = [localAxis(along), localAxis(face[0] as "l" | "w" | "t")];
  const [a, b] = [axes.indexOf(run), axes.indexOf(into)];
  if (a < 0 || b < 0) return false;
  const points = outline.map((point) => ({ run: point[a]!, into: point[b]!, bulge: point[2] ?? 0 }));
  const [edge, inner] = isHighFace(face) ? [hi[into], lo[into]] : [lo[into], hi[into]];
  const atEdge = points.filter((point) => isSame(point.into, edge));
  const isOpen =
    atEdge.length === 2 &&
    isSame(Math.min(...atEdge.map((point) => point.run)), lo[run]) &&
    isSame(Math.max(...atEdge.map((point) => point.run)), hi[run]);
  if (!isOpen) return false;
  if (points.length === 2) {
    // The height of an arc over its chord is half the chord times the bulge.
    const height = ((hi[run] - lo[run]) * Math.max(...points.map(({ bulge }) => Math.abs(bulge)))) / 2;
    // A bulge is printed to six places: over a metre that is half a thousandth.
    return Math.abs(height - Math.abs(inner - edge)) < 1e-3;
  }
  const atInner = points.filter((point) => isSame(point.into, inner));
  return (
    points.length === 4 &&
    atInner.length === 2 &&
    points.every(({ bulge, run: at }) => bulge === 0 && at >= lo[run] - TOUCH && at <= hi[run] + TOUCH)
  );
}

/** In the corner of the edge and the face: in from both by as much, its line from the one to the other; an ogee turns over half way. */
function isProfileOfBox({ axis, face, box: [lo, hi], outline }: SetFeature): boolean {
  const [u, v] = otherAxes(localAxis(axis));
  const into = localAxis(face[0] as "l" | "w" | "t");
  if (into !== u || !isSame(hi[u] - lo[u], hi[v] - lo[v])) return false;
  const [outer, inner] = isHighFace(face) ? [hi[u], lo[u]] : [lo[u], hi[u]];
  const is = (i: number, a: Mm, b: Mm): boolean =>
    outline[i] !== undefined && isSame(outline[i][0], a) && isSame(outline[i][1], b);
  if (!is(0, inner, hi[v]) || !is(1, outer, hi[v]) || !is(2, outer, lo[v])) return false;
  if (outline.length === 3) return true;
  return outline.length === 4 && is(3, (outer + inner) / 2, (lo[v] + hi[v]) / 2);
}

/** Half of a square box along the whole edge: the corner at the edge itself is sawn off, from the point on one broad face to as far in on the other. */
function isMitreOfBox({ axis, along, face, box: [lo, hi], outline }: SetFeature): boolean {
  const points = outline.map(([w, t]) => ({ w, t }));
  if (axis !== "l" || along !== "l" || face[0] !== "w" || points.length !== 3) return false;
  const [point, heel, waste] = points as [Corner, Corner, Corner];
  const [edge, inner] = isHighFace(face) ? [hi[1], lo[1]] : [lo[1], hi[1]];
  const isCorner = (t: Mm): boolean => isSame(t, lo[2]) || isSame(t, hi[2]);
  return (
    isSame(hi[1] - lo[1], hi[2] - lo[2]) &&
    [point, heel, waste].every(({ t }) => isCorner(t)) &&
    isSame(point.w, edge) &&
    isSame(waste.w, edge) &&
    isSame(heel.w, inner) &&
    isSame(heel.t, waste.t) &&
    !isSame(point.t, waste.t)
  );
}

type Corner = { w: Mm; t: Mm };

/** Half of what it goes into: into a face the nominal thickness, into an edge or end the part's own size there. */
function deepest(part: SetPart, { face }: SetFeature, set: DryfitSet): { depth: Mm; of: string } | null {
  const axis = faceAxis(face);
  if (axis !== 2) return { depth: sizeOf(part)[axis] / 2, of: axis === 0 ? "length" : "width" };
  const stock = set.stock.find((each) => each.id === part.material);
  return stock === undefined ? null : { depth: stock.nominal / 2, of: "nominal thickness" };
}

function checkFeature(set: DryfitSet, part: SetPart, feature: SetFeature): SetCheck[] {
  const { job } = set;
  const name = featureName(part, feature, job);
  const checks: SetCheck[] = [];
  const out = outsideBlank(part, feature);
  if (!isSame(out, 0)) {
    checks.push(
      failure(
        "feature",
        [part],
        `${name} lies ${amount(out, job)} outside the part. Change: move it, or make the part larger.`,
      ),
    );
  }
  const told = [...new Set(disagreements(part, feature))];
  if (told.length > 0) {
    checks.push(
      failure(
        "feature",
        [part],
        `${name}: its figures and its shape do not agree (${told.join(", ")}). Change: make ${told[0]} and the box tell the same.`,
      ),
    );
  }
  const most = deepest(part, feature, set);
  if (
    (feature.kind === "groove" || feature.kind === "rabbet" || feature.kind === "stub mortise") &&
    most !== null &&
    feature.depth > most.depth + SAME
  ) {
    checks.push(
      failure(
        "groove-depth",
        [part],
        `${name} is ${amount(feature.depth, job)} deep; ${amount(most.depth, job)}, half the ${most.of}, is the most. Change: a joint depth of ${amount(most.depth, job)} or less.`,
      ),
    );
  }
  return checks;
}

/** Two grooves that run side by side in one face with no wood between them are one wide groove, which neither tongue fits. */
function checkBeside(part: SetPart, job: Job): SetCheck[] {
  const housings = part.features.filter(({ kind }) => kind === "groove" || kind === "rabbet");
  return housings.flatMap((one, i) =>
    housings.slice(i + 1).flatMap((other): SetCheck[] => {
      const both = [Math.max(one.from, other.from), Math.min(one.to, other.to)] as const;
      const wood = Math.max(other.at - one.at - one.width, one.at - other.at - other.width);
      const apart = one.face !== other.face || one.along !== other.along || both[1] - both[0] <= TOUCH;
      if (apart || wood > TOUCH) return [];
      const how = wood < -TOUCH ? `overlap by ${amount(-wood, job)}` : "touch";
      return [
        failure(
          "groove-beside",
          [part],
          `${featureName(part, one, job)} and the ${other.kind} at ${amount(other.at, job)} ${how}, with no wood between them where both run, from ${amount(both[0], job)} to ${amount(both[1], job)}. Change: move one of the two parts they hold.`,
        ),
      ];
    }),
  );
}

/** An open end lies in another groove of the same face, at least as deep, across the whole of its width: nothing is left to square. */
function checkOpenEnds(part: SetPart, job: Job): SetCheck[] {
  return part.features.flatMap((feature, i) =>
    ([0, 1] as const).flatMap((end): SetCheck[] => {
      const axes = axesOfFeature(feature);
      if (feature.ends[end] !== "open" || !axes) return [];
      const [lo, hi] = feature.box;
      const beyond =
        end === 0
          ? drawnOut(feature.box, axes.run, lo[axes.run] - BEYOND, lo[axes.run])
          : drawnOut(feature.box, axes.run, hi[axes.run], hi[axes.run] + BEYOND);
      const others = part.features
        .filter(({ kind }, j) => j !== i && kind !== "hole" && kind !== "slot" && kind !== "mortise")
        .map(({ box }) => box);
      if (cutAwayAll([beyond], others).length === 0) return [];
      return [
        failure(
          "open-end",
          [part],
          `${featureName(part, feature, job)} is said to be open at ${amount(end === 0 ? feature.from : feature.to, job)}, but wood is left there. Change: end it in the groove that crosses it, or square its end.`,
        ),
      ];
    }),
  );
}

export const checkFeatures = (set: DryfitSet): SetCheck[] =>
  set.parts.flatMap((part) => [
    ...part.features.flatMap((feature) => checkFeature(set, part, feature)),
    ...checkBeside(part, set.job),
    ...checkOpenEnds(part, set.job),
  ]);
