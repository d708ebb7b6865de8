/** Closed outlines of straight lines and arcs, as features are cut along: [u, v] or [u, v, bulge], the bulge that of the line to the next point. */
import type { Mm } from "./length.ts";

export type OutlinePoint = readonly [Mm, Mm] | readonly [Mm, Mm, number];
type Spot = readonly [Mm, Mm];

/** How far a chord may lie from its arc. */
const TRUE_TO: Mm = 0.05;

/** The arc from one point to the next as chords, its own end left out. The bulge is the tangent of a quarter of the angle it turns through, anticlockwise above zero. */
function arc([u0, v0]: Spot, [u1, v1]: Spot, bulge: number): Spot[] {
  if (bulge === 0) return [[u0, v0]];
  const chord = Math.hypot(u1 - u0, v1 - v0);
  const sagitta = (bulge * chord) / 2;
  const radius = (chord * (1 + bulge ** 2)) / (4 * Math.abs(bulge));
  // From the chord's middle to the arc's centre, along the chord's left normal.
  const off = Math.sign(bulge) * radius - sagitta;
  const [nu, nv] = [-(v1 - v0) / chord, (u1 - u0) / chord];
  const [cu, cv] = [(u0 + u1) / 2 + nu * off, (v0 + v1) / 2 + nv * off];
  const start = Math.atan2(v0 - cv, u0 - cu);
  const turn = 4 * Math.atan(bulge);
  const count = Math.max(4, Math.ceil(Math.abs(turn) / (2 * Math.acos(Math.max(0, 1 - TRUE_TO / radius)))));
  return Array.from({ length: count }, (_, i): Spot => {
    if (i === 0) return [u0, v0];
    const angle = start + (turn * i) / count;
    return [cu + radius * Math.cos(angle), cv + radius * Math.sin(angle)];
  });
}

/** The outline as a polygon, no chord farther than 0.05 mm from its arc. */
export const chordsOf = (outline: readonly OutlinePoint[]): Spot[] =>
  outline.flatMap((point, i) => {
    const next = outline[(i + 1) % outline.length]!;
    return arc([point[0], point[1]], [next[0], next[1]], point[2] ?? 0);
  });

/** Area inside the outline, mm2: the polygon's, and what each arc adds or takes. */
export function areaOf(outline: readonly OutlinePoint[]): number {
  const sum = outline.reduce((total, [u0, v0, bulge = 0], i) => {
    const [u1, v1] = outline[(i + 1) % outline.length]!;
    const chord = Math.hypot(u1 - u0, v1 - v0);
    const angle = 4 * Math.atan(bulge);
    const radius = bulge === 0 ? 0 : (chord * (1 + bulge ** 2)) / (4 * bulge);
    return total + (u0 * v1 - u1 * v0) / 2 + (radius ** 2 * (angle - Math.sin(angle))) / 2;
  }, 0);
  return Math.abs(sum);
}
