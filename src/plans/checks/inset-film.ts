/** Inset doors and drawer fronts: what the finish on both edges leaves of the gap. Told only where that is too little. */
import { formatDecimal, type Mm, SAME } from "../../base/length.ts";
import { COAT, LEAST_PLAY } from "../../project/defaults.ts";
import type { SetCheck, SetPart } from "../../set/schema.ts";
import { type CheckInput, capital, checkOf, computed, PRACTICE, shown } from "./input.ts";

type Role = SetPart["role"];

/** How thick the finish lies on a face of parts of these roles. */
export const filmOn = (roles: readonly Role[], finishes: CheckInput["finishes"]): Mm =>
  finishes
    .filter((one) => one.roles === null || one.roles.some((role) => roles.includes(role)))
    .reduce((sum, { coats, kind }) => sum + coats * COAT[kind], 0);

const BESIDE: readonly Role[] = ["stile", "rail", "side", "divider", "top", "bottom", "shelf"];

export function checkInsetFilm({ doors, drawers, parts, finishes, unit }: CheckInput): SetCheck[] {
  const rolesIn = (assembly: string): Role[] =>
    parts.filter((part) => part.assembly === assembly).map(({ role }) => role);
  const fronts = [
    ...doors
      .filter(({ fit }) => fit === "inset")
      .map(({ assembly, case: home, least }) => ({ assembly, home, gap: least, own: rolesIn(assembly) })),
    ...drawers
      .filter(({ front }) => front.fit === "inset")
      .map(({ assembly, case: home, front }) => ({
        assembly,
        home,
        gap: front.gap,
        own: ["drawerFace"] as Role[],
      })),
  ];
  return fronts.flatMap(({ assembly, home, gap, own }): SetCheck[] => {
    const framed = rolesIn(`${home} frame`);
    const beside = (framed.length > 0 ? framed : rolesIn(home)).filter((role) => BESIDE.includes(role));
    const edges = own.filter((role): boolean => role !== "doorPanel");
    const taken = filmOn(edges, finishes) + filmOn(beside, finishes);
    const left = gap - taken;
    if (taken < SAME || left >= LEAST_PLAY - SAME) return [];
    const marks = parts
      .filter((part) => part.assembly === assembly && edges.includes(part.role))
      .map(({ mark }) => mark);
    return [
      checkOf("inset-film", "warning", marks, {
        text: `${capital(assembly)} has a gap of ${shown(gap, unit)}; ${computed(taken, unit)} of finish on its edge and on the one beside it leaves ${left > SAME ? computed(left, unit) : "nothing"}.`,
        rule: `${formatDecimal(COAT.film, unit)} ${unit} a coat of varnish or enamel on each face, and ${shown(LEAST_PLAY, unit)} left of an inset gap (${PRACTICE})`,
        change: `a "gap" of ${computed(taken + LEAST_PLAY, unit)} or more, or fewer coats`,
      }),
    ];
  });
}
