/** The last steps: finish, then what stands on what, beside what and against the wall, and loose shelves. */
import { formatLengthWithUnit, type Mm, SAME } from "../../base/length.ts";
import { listInWords } from "../../base/words.ts";
import { faceWords } from "../../set/facing.ts";
import type { SetAssembly } from "../../set/schema.ts";
import { scribesOf } from "../../set/scribe.ts";
import { baseUnder, frameBefore } from "../../set/standing.ts";
import { planStandings, type ScrewRow, type Standing } from "../standing.ts";
import { filling, finishCautions, finishedEarly, finishTexts } from "./finish.ts";
import { hang } from "./hang.ts";
import { byMarkIn, capital, type Draft, hardwareOf, listOf, namesOf, type StepsInput, step } from "./step.ts";
import { hangOnTracks } from "./tracks.ts";
import { layOn } from "./worktop.ts";

/** Cases behind one frame are joined before that is measured for: it hides the joint, and holds them as they are. */
export const planJoinSteps = (input: StepsInput): Draft[] =>
  planStandings(input).flatMap((one) =>
    one.kind === "beside" && isFramed(one, input) ? [fastenBeside(one, input)] : [],
  );

function isFramed(one: Standing, { assemblies }: StepsInput): boolean {
  if (one.kind !== "beside") return false;
  const [left, right] = [one.left, one.right].map((name) =>
    frameBefore(assemblies.find((each) => each.name === name)!, assemblies),
  );
  return left !== null && left === right;
}

export function planStandSteps(input: StepsInput): Draft[] {
  const standings = planStandings(input).filter((one) => !isFramed(one, input));
  const hung = standings.flatMap((one) => (one.kind === "hang" ? [one] : []));
  const walls = standings.flatMap((one) => (one.kind === "wall" ? [one] : []));
  return [
    finish(input, standings.length + input.worktops.length + input.tracks.length + onFeet(input).length === 0),
    ...onFeet(input).map((one) => screwOnFeet(one, input)),
    ...standings.flatMap((one) =>
      one.kind === "on" ? [standOn(one, input)] : one.kind === "beside" ? [fastenBeside(one, input)] : [],
    ),
    ...input.worktops.map((one) => layOn(one, input)),
    ...scribe(input),
    ...hung.map((one) => hang(one, input)),
    ...(walls.length === 0 ? [] : [anchor(walls, input)]),
    ...looseShelves(input),
    ...hangOnTracks(input),
  ];
}

function finish(input: StepsInput, isLast: boolean): Draft {
  const { assemblies, parts } = input;
  const finishes = input.finishes.filter(({ before }) => !before);
  const joined = assemblies.filter(
    ({ borrows, kind }) => borrows.length > 0 || ["frame", "return", "packing"].includes(kind),
  );
  const loose = parts.filter(({ role }) => role === "looseShelf");
  const pieces = assemblies.length - joined.length + loose.length;
  const early = finishedEarly(input);
  const marks = parts.map(({ mark }) => mark).filter((mark) => !early.includes(mark));
  const hung = [...(input.doors.length > 0 ? ["doors"] : []), ...(input.drawers.length > 0 ? ["drawers"] : [])];
  return step(
    isLast ? "Sand, finish, stand it up" : "Sand and finish",
    [
      `${parts.length} parts are now ${pieces === 1 ? "one piece" : `${pieces} pieces`}. Ease the edges that show, sand, and finish by the finish's own data sheet.${early.length === 0 ? "" : ` ${capital(namesOf(early, byMarkIn(parts)))} ${early.length === 1 ? "has its" : "have their"} finish already.`}`,
      ...(hung.length === 0
        ? []
        : [
            `Take ${listInWords(hung)} out first, and what is screwed to them and into the case for them: all goes back into its own holes last, when the finish is hard and the piece stands.`,
          ]),
      ...filling(finishes),
      ...finishTexts(finishes, marks),
      ...(isLast ? ["Level it with shims where it stands: a case out of level goes out of square."] : []),
    ],
    {
      parts: marks,
      cautions: finishCautions(finishes),
    },
  );
}

/** Before it is anchored, for it is moved to and fro. */
function scribe(input: StepsInput): Draft[] {
  const told = input.parts.flatMap((part) => scribesOf(input, part).map((one) => ({ part, ...one })));
  if (told.length === 0) return [];
  const each = told.map(
    ({ part, edge, allowance }) =>
      `${part.name} ${part.mark} at the ${faceWords(part, edge)}, ${formatLengthWithUnit(allowance, input.unit)} left on`,
  );
  const walls = [...new Set(told.map(({ wall }) => (wall === "back" ? "the wall behind" : `the wall at the ${wall}`)))];
  return [
    step(
      `Scribe to ${listInWords(walls)}`,
      [
        `Level and plumb it, as near to the wall as it goes. To scribe: ${listInWords(each)}. Set a pair of compasses to the widest gap, no wider than what was left on, and draw the wall's line with one leg along the wall.`,
        "Saw outside the line, tilted a little so that the back edge is relieved, and plane to the line; try it against the wall again. A worktop is scribed before it is screwed down for good.",
      ],
      {
        parts: told.map(({ part }) => part.mark),
        cautions: ["A second person holds what is not yet anchored: a tall piece tips while it is moved to and fro."],
      },
    ),
  ];
}

type OnFeet = { base: SetAssembly; feet: NonNullable<SetAssembly["feet"]>; case: SetAssembly };

const onFeet = ({ assemblies }: StepsInput): OnFeet[] =>
  assemblies.flatMap((base) => {
    const above = assemblies.find((one) => one.kind === "case" && baseUnder(one, assemblies) === base);
    return base.feet === null || above === undefined ? [] : [{ base, feet: base.feet, case: above }];
  });

/** While it lies on its back: nothing is lifted on to feet that are not there yet. */
function screwOnFeet({ base, feet, case: above }: OnFeet, input: StepsInput): Draft {
  const { parts, unit } = input;
  const show = (length: Mm): string => formatLengthWithUnit(length, unit);
  const bottom = parts.find(({ assembly, role }) => assembly === above.name && role === "bottom")!;
  const { height, middles, range } = feet;
  return step(
    `Screw the feet under ${above.name}`,
    [
      `Lay ${above.name} on its back, on something soft. Screw the ${middles.length} feet into the holes in the underside of ${bottom.name} ${bottom.mark}${range === null ? "" : `, and set each to ${show(height)}`}.`,
      `Stand it up with a helper, over its rear feet only if they take that: lift it rather than tip it.${range === null ? " Level it with thin packing under the feet." : ` Level it by its feet, lengthwise and crosswise: they go ${show(range.up)} up and ${show(range.down)} down.`}`,
    ],
    { parts: [bottom.mark], hardware: hardwareOf([base.name], input) },
  );
}

type Wall = Extract<Standing, { kind: "wall" }>;

const marksOf = (screws: readonly ScrewRow[]): string[] => [
  ...new Set(screws.flatMap(({ through, into }) => [through, into])),
];

/** "12 screws, 45 mm", "8 screws, 30 mm, and 4 screws, 45 mm". */
function screwsInWords(screws: readonly ScrewRow[], { unit }: StepsInput): string {
  const lengths = [...new Set(screws.map(({ length }) => length))];
  return listInWords(
    lengths.map((length) => {
      const count = screws.filter((one) => one.length === length).reduce((sum, one) => sum + one.count, 0);
      return `${count} screws of ${formatLengthWithUnit(length, unit)}`;
    }),
  );
}

function standOn({ seats, screws }: Extract<Standing, { kind: "on" }>, input: StepsInput): Draft {
  const byMark = byMarkIn(input.parts);
  const assembly = (name: string): SetAssembly => input.assemblies.find((one) => one.name === name)!;
  const uppers = [...new Set(seats.map(({ upper }) => upper))];
  const lowers = seats.map(({ lower }) => lower);
  const bases = lowers.filter((name) => assembly(name).kind === "base");
  const [through, into] = [marksIn(screws, "through"), marksIn(screws, "into")];
  const isDown = through.every((mark) => uppers.includes(byMark.get(mark)!.assembly));
  const fix =
    screws.length === 0
      ? `No panel of ${listInWords(uppers)} lies on ${listInWords(lowers)}: join them behind, with flat plates over the joint of their sides.`
      : `Clamp, drill, and screw ${isDown ? "down" : "up"} through ${listOf(through, byMark)} into ${listOf(into, byMark)}: ${screwsInWords(screws, input)}. No glue: it can be taken apart again.`;
  return step(
    `Stand ${listInWords(uppers)} on ${listInWords(lowers)}`,
    [
      ...(bases.length === 0
        ? []
        : [`Set ${listInWords(bases)} in place and level with shims: all that stands on it follows.`]),
      `Set ${listInWords(uppers)} on top, with a helper: ${listInWords(seats.map(({ upper, lower }) => seatInWords(assembly(upper), assembly(lower), input)))}.`,
      fix,
    ],
    { parts: marksOf(screws) },
  );
}

const marksIn = (screws: readonly ScrewRow[], end: "through" | "into"): string[] => [
  ...new Set(screws.map((one) => one[end])),
];

/** Where one stands on the other, from front and left. */
function seatInWords(above: SetAssembly, below: SetAssembly, { unit }: StepsInput): string {
  const [x, y] = [above.place.at[0] - below.place.at[0], above.place.at[1] - below.place.at[1]];
  const by = (mm: Mm): string => formatLengthWithUnit(Math.abs(mm), unit);
  const front =
    Math.abs(y) < SAME
      ? `the front of ${above.name} flush with that of ${below.name}`
      : `the front of ${above.name} stands ${by(y)} ${y > 0 ? "behind" : "in front of"} that of ${below.name}`;
  return Math.abs(x) < SAME
    ? `${front}, their left ends flush`
    : `${front}, its left end ${by(x)} to the ${x > 0 ? "right" : "left"}`;
}

function fastenBeside({ left, right, screws }: Extract<Standing, { kind: "beside" }>, input: StepsInput): Draft {
  const byMark = byMarkIn(input.parts);
  const [one, other] = [left, right].map((name) => input.assemblies.find((each) => each.name === name)!) as [
    SetAssembly,
    SetAssembly,
  ];
  const behind = other.place.at[1] - one.place.at[1];
  const before = frameBefore(one, input.assemblies);
  const framed = before !== null && before === frameBefore(other, input.assemblies);
  const fronts =
    Math.abs(behind) < SAME
      ? "fronts flush"
      : `the front of ${right} standing ${formatLengthWithUnit(Math.abs(behind), input.unit)} ${behind > 0 ? "behind" : "in front of"} that of ${left}`;
  return step(
    framed ? `Join ${right} to ${left}` : `Fasten ${right} to ${left}`,
    [
      `Stand them side by side, ${fronts}; level both and clamp them together. Drill and screw from inside ${left}, through ${listOf(marksIn(screws, "through"), byMark)} into ${listOf(marksIn(screws, "into"), byMark)}: ${screwsInWords(screws, input)}, half near the front edge and half near the rear; no longer, or their points come out. ${framed ? "Every front edge in one plane, lower and upper ends level: sight along them, for the frame goes in front of both. No glue between the cases." : "No glue."}`,
    ],
    { parts: marksOf(screws) },
  );
}

function anchor(walls: readonly Wall[], { parts, unit, job }: StepsInput): Draft {
  const byMark = byMarkIn(parts);
  const names = listInWords(walls.map((one) => one.case));
  return step(
    `Anchor ${names} to the wall`,
    [
      "Fixings that suit the wall, into studs or solid masonry. Pack behind where the wall is hollow, so that nothing is pulled out of square.",
      ...(job.walls.back?.pass === "stand off"
        ? [
            `All stands off the wall by its skirting: packing of ${formatLengthWithUnit(job.walls.back.skirting.thickness, unit)} goes behind each fixing.`,
          ]
        : []),
      ...walls.map((one) => `${capital(one.case)}: ${one.count}, ${heldInWords(one)}.`),
    ],
    {
      parts: walls.flatMap(({ through, under }) => through ?? under ?? []),
      cautions: [
        `Before anything is loaded: ${walls.length === 1 ? "it is" : "they are"} tall enough to tip. Local codes come first.`,
      ],
    },
  );

  function heldInWords({ through, under }: Wall): string {
    if (through !== null) return `through ${listOf([through], byMark)}, near its upper edge`;
    if (under === null) return "by brackets at the rear edges of its sides, near their upper ends";
    const { thickness } = byMark.get(under)!;
    return `by brackets on the inside, under ${listOf([under], byMark)} at its rear edge, with screws into it shorter than its ${formatLengthWithUnit(thickness, unit)}; a thin back alone does not hold`;
  }
}

function looseShelves({ parts, joints }: StepsInput): Draft[] {
  const loose = parts.filter(({ role }) => role === "looseShelf").map(({ mark }) => mark);
  if (loose.length === 0) return [];
  const holders = new Set(joints.filter(({ kind }) => kind === "pin").map(({ receiving }) => receiving));
  return [
    step(
      "Lay in the loose shelves",
      [
        `Four pins to a shelf, in the same hole of all four rows, counted from below in ${listOf([...holders], byMarkIn(parts))}. ${loose.length === 1 ? "It lies" : "They lie"} on the pins, unfixed.`,
      ],
      { parts: loose },
    ),
  ];
}
