/** Steps: the order of work from the print check to standing the piece up, from the plans made so far. */

import { formatLengthWithUnit, type Unit } from "../base/length.ts";
import { listInWords } from "../base/words.ts";
import type { GlueTime } from "../project/project.ts";
import type { DryfitSet, SetAssembly, SetMove, SetOrder, SetPart, SetStep } from "../set/schema.ts";
import { isTall } from "../set/standing.ts";
import { SCREW_SPACING } from "./purchase.ts";

type Input = Pick<
  DryfitSet,
  "parts" | "joints" | "settings" | "drilling" | "handWork" | "sheets" | "assemblies" | "openings" | "stock" | "orders"
> & {
  unit: Unit;
  glue: GlueTime | null;
};

type Draft = Omit<SetStep, "n">;

const step = (title: string, text: string[], more: Partial<Draft> = {}): Draft => ({
  title,
  text,
  parts: [],
  settings: [],
  cautions: [],
  boxes: [],
  moves: [],
  ...more,
});

export function planSteps(input: Input): SetStep[] {
  const { parts } = input;
  const all = parts.map(({ mark }) => mark);
  const drafts: Draft[] = [
    printCheck(),
    measureStock(input),
    breakDown(input, all),
    ...groove(input),
    ...drill(input),
    ...handWork(input),
    ...input.orders.flatMap((order) => assemble(order, input)),
    finishAndStand(input, all),
  ];
  return drafts.map((draft, i) => ({ n: i + 1, ...draft }));
}

const printCheck = (): Draft =>
  step("Check the print", [
    "Measure both bars on a page of the sticks with a steel rule, across and down the page. If one is off, enter the readings under paper.print in the project file and print again.",
    "Check that every page carries the same revision.",
  ]);

function measureStock({ stock, assemblies, unit }: Input): Draft {
  const length = (mm: number): string => formatLengthWithUnit(mm, unit);
  return step(
    "Measure the sheets",
    [
      `Measure each stock with a calliper at several places. If a reading differs from the figure beside its box by more than the fit allowance (${length(Math.min(...assemblies.map(({ fits }) => fits.allowance)))}), enter it in the project file and build again: lengths and grooves follow it.`,
    ],
    {
      boxes: stock.map(({ name, thickness }) => ({
        label: `${name}, taken as ${length(thickness)}`,
        target: thickness,
      })),
    },
  );
}

const breakDown = ({ sheets }: Input, all: string[]): Draft =>
  step(
    "Break down the sheets and size every part",
    [
      `Follow the numbered cuts of the ${sheets.length === 1 ? "sheet layout" : `${sheets.length} sheet layouts`}: skim one edge first, then that edge goes to the fence.`,
      "Stick each label on as its part comes off the saw, on a face that will be hidden, clear of the grooves.",
      "Gate: every part at its final length and width, ticked on the cut list, before the first groove is cut.",
    ],
    {
      parts: all,
      cautions: [
        "A full sheet is heavy: support it on both sides of the cut, work with a helper. Riving knife and guard on for every through cut; fence and mitre gauge never together. Eye, ear and dust protection. The saw's manual comes first.",
      ],
    },
  );

function groove({ settings, parts }: Input): Draft[] {
  return (["table saw", "router"] as const).flatMap((tool) => {
    const used = settings.filter((setting) => setting.tool === tool);
    if (used.length === 0) return [];
    const marks = new Set(used.flatMap(({ runs }) => runs.map(({ mark }) => mark)));
    return [
      step(
        `Cut the grooves at the ${tool}`,
        [
          "Setting by setting, in the order of the schedule. Set the cutter, make the test cut, then run every part of the row before anything moves.",
          "Lay left and right parts as an open pair, inside faces up, before each row, and check against the stick that both get their groove in the same place.",
        ],
        {
          parts: parts.filter(({ mark }) => marks.has(mark)).map(({ mark }) => mark),
          settings: used.map(({ n }) => n),
          cautions: [...new Set(used.map(({ caution }) => caution))],
        },
      ),
    ];
  });
}

function drill({ drilling }: Input): Draft[] {
  if (drilling.length === 0) return [];
  return [
    step(
      "Drill the rows of holes",
      [
        "Row by row, as the drilling page says. Measure the first hole only; the jig's own pitch makes the others. Rows that hold one shelf are measured from the same end and the same edge.",
      ],
      {
        parts: [...new Set(drilling.flatMap(({ rows }) => rows.map(({ mark }) => mark)))],
        cautions: [...new Set(drilling.map(({ caution }) => caution))],
      },
    ),
  ];
}

function handWork({ handWork: work }: Input): Draft[] {
  if (work.length === 0) return [];
  return [
    step(
      "Notches and stopped ends by hand",
      [
        "Cut the notches and square the stopped ends as the hand-work list says. Notches come after every groove, so that each groove had its whole edge against the fence.",
      ],
      {
        parts: [...new Set(work.map(({ mark }) => mark))],
        cautions: [
          "Clamp the part; keep both hands behind the chisel's edge. With a jigsaw, support the part close to the cut. The tool's manual comes first.",
        ],
      },
    ),
  ];
}

function assemble(order: SetOrder, input: Input): Draft[] {
  const { parts, assemblies, openings, unit } = input;
  const byMark = new Map(parts.map((part) => [part.mark, part]));
  const assembly = assemblies.find(({ name }) => name === order.assembly)!;
  const marks = parts.filter((part) => part.assembly === assembly.name).map(({ mark }) => mark);
  const title = assemblies.length > 1 ? ` ${assembly.name}` : "";
  const moves = order.moves.map(({ n }) => ({ assembly: assembly.name, n }));
  const boxes = diagonalBoxes(assembly);
  const bays = openings.filter((one) => one.case === assembly.name);
  if (order.locked !== null) {
    const { text, change } = order.locked;
    return [step(`Put together${title || " the case"}: no order was found`, [text, change], { parts: marks })];
  }
  const lines = [
    ...order.finished.map(
      (group) => `${capital(listOf(group, byMark))} are one finished glue-up before the rest comes.`,
    ),
    ...lying(order, byMark),
    ...order.moves.map((move) => `${move.n}. ${sentence(move, byMark)}`),
  ];
  const hold =
    order.holds > 2
      ? [
          `Up to ${order.holds} parts are held at once${order.proved ? ", and no order needs fewer" : "; fewer may do, none was found"}: have a helper, or blocks and clamps.`,
        ]
      : [];
  return [
    step(
      `Dry-fit${title || " the case"}`,
      [
        "Put it together without glue, in this order, and take it apart again the other way round:",
        ...lines,
        ...hold,
        "Clamp lightly. Measure both diagonals at the front and at the back: equal, and as the figure says. Within 1/32 in (0.8 mm) is good, 1/16 in (1.6 mm) is the limit; push the longer one in by half the difference.",
        ...(bays.length > 0 ? ["Measure the diagonals of each bay too, and write down what you find."] : []),
      ],
      {
        parts: marks,
        moves,
        boxes: [...boxes, ...bays.map(({ name: bay, diagonal }) => ({ label: `${bay}, diagonal`, target: diagonal }))],
      },
    ),
    step(
      `${assembly.kind === "base" ? "Glue up" : "Finish the inside, then glue up"}${title || " the case"}`,
      [
        ...(assembly.kind === "base"
          ? []
          : [
              "Sand what can't be reached later; finish inside faces now if you like, but keep finish out of the grooves. Take off the labels that would stay inside.",
            ]),
        "Glue in the same order. Spread glue in the groove and on the part's end, not on the face beside it. A back in grooves goes in without glue, or with a dab in the middle of each edge.",
        ...glueUps(order, byMark, input),
        ...screwing(marks, { parts, joints: input.joints, unit }),
        "Clamp across each row of joints, cauls over the joints, clamps alternately in front and behind. Check the diagonals before the glue sets.",
      ],
      {
        parts: marks,
        boxes,
        cautions: [
          "Have every clamp, caul and part ready before the glue is spread. Follow the glue's data sheet for open time, skin contact and airing.",
        ],
      },
    ),
  ];
}

const capital = (text: string): string => `${text.charAt(0).toUpperCase()}${text.slice(1)}`;

function diagonalBoxes({ kind, diagonals }: SetAssembly): Draft["boxes"] {
  if (kind === "base") return [{ label: "From above: both diagonals", target: diagonals.outside }];
  const toe = diagonals.front < diagonals.outside ? ", from the toe space up" : "";
  return [
    { label: `Outside, front${toe}: both diagonals`, target: diagonals.front },
    { label: "Outside, back: both diagonals", target: diagonals.outside },
  ];
}

/** More than one glue-up: which moves belong to each, and that it sets before the next. */
function glueUps(
  { glueUps: groups, moves }: SetOrder,
  byMark: ReadonlyMap<string, SetPart>,
  { glue }: Input,
): string[] {
  if (groups.length < 2) return [];
  return groups.map(({ n, joints, minutes }, i) => {
    const own = moves.filter(({ group }) => group === n).map((move) => move.n);
    const range = own.length === 1 ? `move ${own[0]}` : `moves ${own[0]} to ${own.at(-1)}`;
    const time =
      minutes === null || glue === null
        ? ""
        : `, about ${Math.ceil(minutes)} minutes of the glue's ${glue.openMinutes}`;
    const first = byMark.get(groups[i]!.parts[0]!)!;
    const next = i < groups.length - 1 ? " Clamp, check the diagonals, and let it set before the next." : "";
    return joints === 0
      ? `Then ${range}, without glue (${first.name} ${first.mark} among them).`
      : `Glue-up ${n}: ${range}, ${joints} ${joints === 1 ? "joint" : "joints"}${time}.${next}`;
  });
}

/** Where most parts go into one side before the other comes, that side lies on the bench, and they go down into it. */
function lying({ moves }: SetOrder, byMark: ReadonlyMap<string, SetPart>): string[] {
  const sides = moves.flatMap(({ to }) => to).filter((mark) => byMark.get(mark)!.role === "side");
  const [side] = sides;
  const part = side === undefined ? undefined : byMark.get(side);
  if (part?.place == null) return [];
  const into = moves.filter(({ to, bring }) => to.includes(part.mark) && bring.every(({ travel }) => travel[0] !== 0));
  if (into.length < 3) return [];
  const from = into[0]!.bring[0]!.travel[0] > 0 ? "left" : "right";
  return [
    `Lay ${part.name} ${part.mark} flat on the bench, inside face up: what is said to come from the ${from} goes down into it.`,
  ];
}

const listOf = (marks: readonly string[], byMark: ReadonlyMap<string, SetPart>): string =>
  listInWords(marks.map((mark) => `${byMark.get(mark)!.name} ${mark}`));

/** What the joints of one case take screws for. */
function screwing(
  marks: readonly string[],
  { parts, joints, unit }: Pick<Input, "parts" | "joints" | "unit">,
): string[] {
  const screwed = joints.filter(({ entering, fixings }) => marks.includes(entering) && fixings.includes("screws"));
  if (screwed.length === 0) return [];
  const back = [...new Set(screwed.map(({ receiving }) => receiving))];
  const into = [...new Set(screwed.map(({ entering }) => entering))];
  const spacing = formatLengthWithUnit(SCREW_SPACING[unit], unit);
  const byMark = new Map(parts.map((part) => [part.mark, part]));
  return [
    `When the glue has set, screw through ${listOf(back, byMark)} into the edges of ${listOf(into, byMark)}, a screw about every ${spacing}; mark the middle of each edge on the outside face first, and drill.`,
  ];
}

const WAYS: readonly { travel: readonly number[]; words: string }[] = [
  { travel: [0, 0, -1], words: "down" },
  { travel: [0, 0, 1], words: "up from below" },
  { travel: [1, 0, 0], words: "from the left" },
  { travel: [-1, 0, 0], words: "from the right" },
  { travel: [0, -1, 0], words: "from behind" },
  { travel: [0, 1, 0], words: "from the front" },
];

/** "Down"; slantwise, where several bodies close on each other at once. */
function wayOf(travel: readonly number[]): string {
  const straight = WAYS.find((way) => way.travel.every((one, i) => one === travel[i]));
  if (straight) return straight.words;
  const parts = WAYS.filter((way) => way.travel.some((one, i) => one !== 0 && one === travel[i]));
  return parts.map(({ words }) => words).join(" and ");
}

function sentence({ bring, to, slides }: SetMove, byMark: ReadonlyMap<string, SetPart>): string {
  const moved = bring.map(({ parts, travel }) => {
    const joined = parts.length > 1 ? `${listOf(parts, byMark)}, joined` : listOf(parts, byMark);
    const way = wayOf(travel);
    return `${joined}: ${slides ? `slides in ${way}` : way}`;
  });
  const together = moved.length > 1 ? ", all at the same time" : "";
  return `${capital(moved.join("; "))}${together}, on to ${listOf(to, byMark)}.`;
}

function finishAndStand({ assemblies, parts }: Input, all: string[]): Draft {
  const tall = assemblies.filter((one) => isTall(one, assemblies)).map(({ name }) => name);
  const anchoring = `Anchor ${tall.join(", ")} to the wall before it is loaded: tall enough to tip. Fixings to suit the wall; local codes come first.`;
  return step(
    "Sand, finish, stand it up",
    [
      `Ease the edges that show, sand, and finish by the finish's own data sheet. ${parts.length} parts are now ${assemblies.length === 1 ? "one piece" : `${assemblies.length} pieces`}.`,
    ],
    {
      parts: all,
      cautions: [
        "Rags with an oil finish can catch fire by themselves: spread them out singly and flat outdoors until hard, or keep them under water in a closed metal can. Dust protection when sanding.",
        ...(tall.length > 0 ? [anchoring] : []),
      ],
    },
  );
}
