/** The steps that put one assembly together: dry first, on its props, then with glue. */
import { type Place, toInner, type Vec } from "../../base/geometry.ts";
import { formatLengthWithUnit, type Mm } from "../../base/length.ts";
import { listInWords } from "../../base/words.ts";
import { SQUARE } from "../../project/defaults.ts";
import type { SetAssembly, SetMove, SetOrder } from "../../set/schema.ts";
import { overlongMoves } from "../assembly/glue-ups.ts";
import { crossGrainJoints, glueOnly } from "../checks/cross-grain.ts";
import { clampingOf } from "./clamps.ts";
import { lyingInWords, lyingSide, moveInWords } from "./moves.ts";
import { type Prop, planProps, type Rest, spacersAt } from "./props.ts";
import { drillingForScrews, screwing } from "./screwing.ts";
import { type ByMark, byMarkIn, capital, type Draft, listOf, type StepsInput, step } from "./step.ts";
import { whileOpen } from "./while-open.ts";

export function planAssemblySteps(order: SetOrder, input: StepsInput): Draft[] {
  const { parts, assemblies, openings, unit } = input;
  const byMark = byMarkIn(parts);
  const assembly = assemblies.find(({ name }) => name === order.assembly)!;
  const own = parts.filter((part) => part.assembly === assembly.name);
  const marks = own.map(({ mark }) => mark);
  const title = assemblies.length > 1 ? ` ${assembly.name}` : " the case";
  if (order.locked !== null) {
    const { text, change } = order.locked;
    return [step(`Put together${title}: no order was found`, [text, change], { parts: marks })];
  }
  const boxes = diagonalBoxes(assembly);
  const bays = openings.filter((one) => one.case === assembly.name);
  const propping = planProps(order, assembly, input);
  const moves = order.moves.map(({ n }) => ({
    assembly: assembly.name,
    n,
    spacers: spacersAt(order, n, propping).map(([lo, hi]): [Point, Point] => [
      within(assembly, lo),
      within(assembly, hi),
    ]),
  }));
  const props = [...propping.values()].flatMap((one) => one.props);
  const lying = lyingSide(order, byMark);
  const rests = [...propping].flatMap(([n, { rest }]) =>
    rest === null ? [] : [{ n, words: restInWords(rest, byMark) }],
  );
  const restAt = (at: number): string[] =>
    rests.filter(({ n, words }, i) => n === at && words !== rests[i - 1]?.words).map(({ words }) => words);
  const firstLoose = order.moves.find((move) => isLooseMove(move, byMark))?.n;
  const lines = order.moves.map((move) =>
    [
      `${move.n}. ${moveInWords(move, byMark)}`,
      ...restAt(move.n),
      ...(move.n === firstLoose && lying !== null ? ["Stand it upright for this."] : []),
      ...propping.get(move.n)!.props.map((prop) => propInWords(prop, input, byMark)),
    ].join(" "),
  );
  const limit = (of: keyof typeof SQUARE): string => formatLengthWithUnit(SQUARE[of][unit], unit);
  const dryFit = step(
    `Dry-fit${title}`,
    [
      ...spacersToCut(props, input),
      ...drillingForScrews(marks, input, byMark),
      "Put it together without glue, in this order, and take it apart again the other way round:",
      ...order.finished.map(
        (group) => `${capital(listOf(group, byMark))} are one finished glue-up before the rest comes.`,
      ),
      ...(lying === null ? [] : [lyingInWords(lying, assembly, byMark)]),
      ...lines,
      ...holding(order),
      `Clamp lightly. Measure both diagonals${DIAGONALS[assembly.kind] ?? " at the front and at the back"}: equal, and as the figure says. Within ${limit("good")} is good, ${limit("limit")} is the limit; push the longer one in by half the difference.`,
      ...(bays.length > 0
        ? [
            `Measure the diagonals of each ${assembly.kind === "frame" ? "opening" : "bay"} too, and write down what you find.`,
          ]
        : []),
    ],
    {
      parts: marks,
      beside: assembly.borrows,
      moves,
      boxes: [...boxes, ...bays.map(({ name: bay, diagonal }) => ({ label: `${bay}, diagonal`, target: diagonal }))],
    },
  );
  return [dryFit, glueUp(order, assembly, title, { input, byMark, boxes, hasProps: props.length > 0 })];
}

/** Where a tape is laid on what is no case. */
const DIAGONALS: Partial<Record<SetAssembly["kind"], string>> = {
  frame: "",
  door: "",
  drawer: " from above",
  base: " from above",
};

/** Lies flat on the bench, and has one pair of diagonals. */
const isFlat = ({ kind }: SetAssembly): boolean => kind === "frame" || kind === "door";

const restInWords = (rest: Rest, byMark: ByMark): string =>
  rest === "fronts"
    ? "Stand these on their front edges, on a flat bench: so nothing hangs."
    : `Lay ${listOf([rest.back], byMark)} flat on the bench, inside face up, for this: so nothing hangs.`;

type Point = [Mm, Mm, Mm];

/** From the room into an assembly. */
function within({ place }: SetAssembly, point: Vec): Point {
  return [...toInner(place as Place, point)];
}

const isLooseMove = ({ bring }: SetMove, byMark: ByMark): boolean =>
  bring.every(({ parts }) => parts.every((mark) => byMark.get(mark)!.role === "looseShelf"));

const holding = ({ holds, proved }: SetOrder): string[] =>
  holds > 2
    ? [
        `Up to ${holds} parts are held at once${proved ? ", and no order needs fewer" : "; fewer may do, none was found"}: have a helper, or blocks and clamps.`,
      ]
    : [];

/** "Prop the right end of shelf 5 on spacers of 412 mm, the clear height of bay 2.1, until move 9." */
function propInWords({ mark, ends, height, bays, until }: Prop, { unit }: StepsInput, byMark: ByMark): string {
  const { name } = byMark.get(mark)!;
  const size = formatLengthWithUnit(height, unit);
  const clear = listInWords(bays.map((bay) => (bay === "bay" ? "the bay" : bay)));
  const long = bays.length === 0 ? `${size} high from the bench` : `of ${size}, the clear height of ${clear}`;
  return `Prop the ${listInWords(ends)} ${ends.length === 1 ? "end" : "ends"} of ${name} ${mark} on spacers ${long}, until move ${until}.`;
}

/** So many of each length as stand at once. */
function spacersToCut(props: readonly Prop[], { unit }: StepsInput): string[] {
  if (props.length === 0) return [];
  const sizes = [...new Set(props.map(({ height }) => height))];
  const list = sizes.map((size) => {
    const own = props.filter(({ height }) => height === size);
    const standingAt = (n: number): number =>
      own
        .filter(({ from, until }) => from <= n && n < until)
        .reduce((sum, { ends, spacers }) => sum + ends.length * spacers, 0);
    return `${Math.max(...own.map(({ from }) => standingAt(from)))} of ${formatLengthWithUnit(size, unit)}`;
  });
  const where = props.every(({ spacers }) => spacers > 1)
    ? "one near its front edge and one near its rear"
    : "one to an end under a narrow part, else one near the front edge and one near the rear";
  return [
    `Cut spacers from scrap first, ends square, no longer than this: ${listInWords(list)}. They stand under what nothing else holds yet, ${where}.`,
  ];
}

function glueUp(
  order: SetOrder,
  assembly: SetAssembly,
  title: string,
  { input, byMark, boxes, hasProps }: { input: StepsInput; byMark: ByMark; boxes: Draft["boxes"]; hasProps: boolean },
): Draft {
  const own = input.parts.filter((part) => part.assembly === assembly.name);
  const marks = own.filter(({ role }) => role !== "looseShelf").map(({ mark }) => mark);
  const isCase = assembly.kind === "case";
  const clamping = clampingOf(order, assembly, input, byMark);
  const screws = screwing(marks, input, byMark);
  return step(
    `${!isCase ? "Glue up" : "Finish the inside, then glue up"}${title}`,
    [
      ...(!isCase
        ? []
        : [
            "Sand what can't be reached later; finish inside faces now if you like, but keep finish out of the grooves. Take off the labels that would stay inside.",
          ]),
      `Glue in the same order${hasProps ? ", on the same spacers" : ""}. ${spreading(
        own.map(({ mark }) => mark),
        input,
      )}`,
      ...acrossTheGrain(marks, input),
      ...glueUps(order, byMark, input),
      isFlat(assembly)
        ? "Clamp along each rail, bars alternately above and below so that the frame stays flat. Check the diagonals, and sight across it for twist, before the glue sets."
        : clamping === null && screws.length > 0
          ? "The screws pull it together: drive them while the glue is wet, and check the diagonals before it sets."
          : "Clamp across each row of joints, blocks under the jaws, clamps alternately in front and behind. Check the diagonals before the glue sets.",
      ...(clamping?.beyond ?? []),
      ...(clamping?.struts ?? []),
      ...screws,
    ],
    {
      parts: marks,
      boxes,
      beside: assembly.borrows,
      clamps: clamping?.clamps ?? null,
      now: isCase ? whileOpen(assembly, input) : [],
      cautions: [
        ...tooLong(order, input),
        "Have every clamp, caul and part ready before the glue is spread. Follow the glue's data sheet for open time, skin contact and airing.",
      ],
    },
  );
}

/** Where solid wood would crack, or crack the other, if all of a joint were glued. */
function acrossTheGrain(marks: readonly string[], input: StepsInput): string[] {
  const found = crossGrainJoints(input).filter(
    ({ mover, still, joint }) =>
      [mover.mark, still.mark].every((mark) => marks.includes(mark)) && /glue/.test(joint.fixings),
  );
  const byMark = byMarkIn(input.parts);
  const movers = [...new Set(found.map(({ mover, joint }) => `${mover.mark} ${glueOnly(joint, input.unit)}`))];
  return movers.map((key) => {
    const own = found.filter(({ mover, joint }) => `${mover.mark} ${glueOnly(joint, input.unit)}` === key);
    const [{ mover, joint }] = own as [(typeof own)[number]];
    const still = listOf([...new Set(own.map((one) => one.still.mark))], byMark);
    return `${capital(mover.name)} ${mover.mark} moves across its grain with the seasons, ${still} not with it: ${glueOnly(joint, input.unit)} at each of these joints, and keep glue off the rest.`;
  });
}

/** Said for the joints that there are. */
function spreading(marks: readonly string[], { joints, parts }: StepsInput): string {
  const own = joints.filter(({ entering }) => marks.includes(entering));
  const isGrooved = own.some(({ depth, fixings }) => depth > 0 && fixings.startsWith("glue"));
  const isBack = (mark: string | null): boolean => parts.some((one) => one.mark === mark && one.role === "back");
  const holdsBack = parts.some(({ features }) =>
    features.some(
      ({ kind, holds }) =>
        kind === "groove" && isBack(holds) && own.some((one) => one.fit === "slip" && one.entering === holds),
    ),
  );
  const where = isGrooved
    ? "Spread glue in the groove and on the part's end, not on the face beside it."
    : "Spread glue on the end or edge, thinly on the face it meets.";
  if (own.some(({ kind }) => kind === "lap"))
    return "Spread glue on both halved faces of each joint, thinly on its shoulders; a clamp with cauls across the faces of each joint beside the long ones.";
  if (own.some(({ fasteners }) => fasteners?.kind === "tenon"))
    return "Brush glue into both mortises of each joint and on the tenons, thinly on the ends that meet; the tight one first.";
  if (parts.some(({ mark, features }) => marks.includes(mark) && features.some(({ kind }) => kind === "stub mortise")))
    return "Spread glue in the mortises and on the tenons, thinly on their shoulders.";
  if (parts.some(({ role, mark }) => role === "doorPanel" && marks.includes(mark)))
    return "Spread glue on the rails' tongues and in the last of the stiles' grooves that takes them, a brush's width short of the panel. Do not glue the panel: it stays loose in its grooves.";
  return holdsBack
    ? `${where} A back in grooves goes in without glue, or with a dab in the middle of each edge.`
    : where;
}

function diagonalBoxes({ kind, diagonals }: SetAssembly): Draft["boxes"] {
  if (kind === "base") return [{ label: "From above: both diagonals", target: diagonals.outside }];
  if (kind === "frame" || kind === "door") return [{ label: "Both diagonals", target: diagonals.outside }];
  const toe = diagonals.front < diagonals.outside ? ", from the toe space up" : "";
  return [
    { label: `Outside, front${toe}: both diagonals`, target: diagonals.front },
    { label: "Outside, back: both diagonals", target: diagonals.outside },
  ];
}

/** More than one glue-up: which moves belong to each, and that it sets before the next. Loose shelves come when all stands. */
function glueUps({ glueUps: groups, moves }: SetOrder, byMark: ByMark, { glue }: StepsInput): string[] {
  const glued = groups.filter(
    ({ n }) => !moves.filter(({ group }) => group === n).every((move) => isLooseMove(move, byMark)),
  );
  if (glued.length < 2) return [];
  return glued.map(({ n, joints, minutes }, i) => {
    const own = moves.filter(({ group }) => group === n).map((move) => move.n);
    const range = own.length === 1 ? `move ${own[0]}` : `moves ${own[0]} to ${own.at(-1)}`;
    const time =
      minutes === null || glue === null
        ? ""
        : `, about ${Math.ceil(minutes)} minutes of the glue's ${glue.openMinutes}`;
    const first = byMark.get(glued[i]!.parts[0]!)!;
    const next = i < glued.length - 1 ? " Clamp, check the diagonals, and let it set before the next." : "";
    return joints === 0
      ? `Then ${range}, without glue (${first.name} ${first.mark} among them).`
      : `Glue-up ${n}: ${range}, ${joints} ${joints === 1 ? "joint" : "joints"}${time}.${next}`;
  });
}

/** A single move that takes longer than the glue stays open: the checks say what to change. */
function tooLong(order: SetOrder, { glue, joints }: StepsInput): string[] {
  if (glue === null) return [];
  return overlongMoves(order, joints, glue).map(
    ({ move, joints: count, minutes }) =>
      `Move ${move.n} closes ${count} joints at once, about ${Math.ceil(minutes)} minutes, and the glue stays open ${glue.openMinutes}: have a slower glue or a helper.`,
  );
}
