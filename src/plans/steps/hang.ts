/** The step of a case that hangs on the wall: how high, on what, and what its fixings carry. */
import { formatLengthWithUnit, type Mm } from "../../base/length.ts";
import { massOf } from "../../set/mass.ts";
import { formatMass } from "../../set/words.ts";
import { type Hung, RAIL_SAID } from "../standing.ts";
import { byMarkIn, type Draft, listOf, type StepsInput, step } from "./step.ts";

/** Fixings are chosen for so many times the load (common practice, no source). */
const TO_SPARE = "twice";

export function hang(hung: Hung, input: StepsInput): Draft {
  const { parts, unit, assemblies } = input;
  const { case: name, height, through, under, count } = hung;
  const byMark = byMarkIn(parts);
  const show = (length: Mm): string => formatLengthWithUnit(length, unit);
  const { size } = assemblies.find((one) => one.name === name)!;
  const held = under === null ? null : listOf([under], byMark);
  const screwLess =
    under === null ? "" : `, with screws into it shorter than its ${show(byMark.get(under)!.thickness)}`;
  return step(
    `Hang ${name} on the wall`,
    [
      `Draw a level line ${show(height)} above the floor for its lower end; its upper end comes to ${show(height + size[2])}. Find the studs, or solid masonry, that the fixings go into, and mark them.`,
      ...(through === null
        ? [
            `A thin back alone does not hold. Screw a straight rail of solid wood, ${show(size[0])} long and ${RAIL_SAID[unit]} or more, to the wall with a fixing into each stud that it crosses, ${count} at the least, its upper edge on the line: it carries the case.`,
            `With two people lift the case on to the rail, empty, its doors and drawers out; one holds it until it is fixed. ${held === null ? `Fix it near the upper ends of its sides, by ${count} brackets at their rear edges` : `Fix it with ${count} brackets on the inside, under ${held} at its rear edge${screwLess}`}, each into a stud or solid masonry.`,
          ]
        : [
            `With two people lift the case to the line, empty, its doors and drawers out, on a strip or props that carry it; one holds it until it is fixed. ${2 * count} fixings through ${listOf([through], byMark)}, which is solid enough: half near its upper edge and half near its lower, each into a stud or solid masonry.`,
          ]),
      loadInWords(name, input),
    ],
    {
      parts: [through ?? under].flatMap((mark) => mark ?? []),
      cautions: [
        "It falls on whoever stands under it if a fixing gives: nothing goes in before all are tight, and nobody hangs on it. Look for wires and pipes in the wall before a hole is drilled. Where it is not known what the wall is made of or carries, ask who built it or a licensed builder. The fixings' own instructions and local codes come first.",
      ],
    },
  );
}

/** By the shelf load that the job's sag is reckoned with. */
function loadInWords(
  name: string,
  { parts, assemblies, shelfLoads, doors, sliders, tracks, drawers, unit }: StepsInput,
): string {
  const inIt = new Set([
    name,
    ...doors.flatMap((one) => (one.case === name ? [one.assembly] : [])),
    ...[...sliders, ...tracks].flatMap((one) => (one.case === name ? one.doors.map(({ assembly }) => assembly) : [])),
    ...drawers.flatMap((one) => (one.case === name ? [one.assembly] : [])),
    ...assemblies.flatMap((one) => (one.in === name ? [one.name] : [])),
  ]);
  const own = massOf(parts.filter(({ assembly }) => inIt.has(assembly)));
  const perMetre = shelfLoads.get(name)!;
  const metres = parts
    .filter(({ assembly, role }) => assembly === name && ["shelf", "bottom", "looseShelf"].includes(role))
    .reduce((sum, { length }) => sum + length / 1000, 0);
  const inDrawers = drawers.filter((one) => one.case === name).reduce((sum, { load }) => sum + load, 0);
  const contents = perMetre * metres + inDrawers;
  const inAll =
    contents > 0
      ? `${formatMass(own, unit)} of its own and ${formatMass(contents, unit)} in it, ${formatMass(own + contents, unit)} in all`
      : `${formatMass(own, unit)} and what is put in it`;
  return `The fixings carry ${inAll}: choose them by their maker's figures for this wall, for ${TO_SPARE} as much at the least.`;
}
