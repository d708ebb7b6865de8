/** Steps: the order of work from the print check to standing the piece up, from the plans made so far. */

import { formatLengthWithUnit, type Unit } from "../base/length.ts";
import { listInWords } from "../base/words.ts";
import type { Model } from "../model/model.ts";
import type { DryfitSet, SetPart, SetStep } from "../set/schema.ts";
import { isTall } from "../set/standing.ts";
import { type Move, planAssembly } from "./assembly.ts";
import { SCREW_SPACING } from "./purchase.ts";

type Input = Pick<
  DryfitSet,
  "parts" | "joints" | "settings" | "handWork" | "sheets" | "assemblies" | "openings" | "stock"
> & {
  unit: Unit;
  model: Model;
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
    ...handWork(input),
    ...input.model.cases.flatMap((one) => assemble(one.name, planAssembly(one), input)),
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

function assemble(name: string, moves: readonly Move[], input: Input): Draft[] {
  const byKey = new Map(input.parts.map((part) => [part.key, part]));
  const title = input.assemblies.length > 1 ? ` ${name}` : "";
  const assembly = input.assemblies.find((one) => one.name === name)!;
  const lines = moves.map((move, i) => `${i + 1}. ${sentence(move, byKey)}`);
  const marks = input.parts.filter((part) => part.assembly === name).map(({ mark }) => mark);
  const bays = input.openings.filter((one) => one.case === name);
  const toe = assembly.diagonals.front < assembly.diagonals.outside ? ", from the toe space up" : "";
  const boxes = [
    { label: `Outside, front${toe}: both diagonals`, target: assembly.diagonals.front },
    { label: "Outside, back: both diagonals", target: assembly.diagonals.outside },
  ];
  const order = [
    step(
      `Dry-fit${title || " the case"}`,
      [
        "Put it together without glue, in this order, and take it apart again the other way round:",
        ...lines,
        ...spacers(moves, byKey),
        "Clamp lightly. Measure both diagonals at the front and at the back: equal, and as the figure says. Within 1/32 in (0.8 mm) is good, 1/16 in (1.6 mm) is the limit; push the longer one in by half the difference.",
        "Measure the diagonals of each bay too, and write down what you find.",
      ],
      {
        parts: marks,
        boxes: [...boxes, ...bays.map(({ name: bay, diagonal }) => ({ label: `${bay}, diagonal`, target: diagonal }))],
      },
    ),
    step(
      `Finish the inside, then glue up${title || " the case"}`,
      [
        "Sand what can't be reached later; finish inside faces now if you like, but keep finish out of the grooves. Take off the labels that would stay inside.",
        "Glue in the same order. Spread glue in the groove and on the part's end, not on the face beside it. A back in grooves goes in without glue, or with a dab in the middle of each edge.",
        ...screwing(marks, input),
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
  return order;
}

function listOf(keys: readonly string[], byKey: ReadonlyMap<string, SetPart>): string {
  return listInWords(keys.map((key) => `${byKey.get(key)!.name} ${byKey.get(key)!.mark}`));
}

/** What the joints of one case take screws for. */
function screwing(marks: readonly string[], { parts, joints, unit }: Input): string[] {
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

/** Shelves that only the sides hold have nothing to stand on until these are there. */
function spacers(moves: readonly Move[], byKey: ReadonlyMap<string, SetPart>): string[] {
  const first = moves.findIndex(({ parts }) => parts.some((key) => byKey.get(key)!.role === "side"));
  const before = new Set(moves.slice(0, first).flatMap(({ parts, to }) => [...parts, ...to]));
  const loose = moves[first]!.to.filter((key) => byKey.get(key)!.role === "shelf" && !before.has(key));
  if (loose.length === 0) return [];
  return [
    `Until both sides are on, ${listOf(loose, byKey)} ${loose.length === 1 ? "stands" : "stand"} on blocks as high as the bay below.`,
  ];
}

function sentence({ parts, to, way }: Move, byKey: ReadonlyMap<string, SetPart>): string {
  const list = (keys: string[]): string => listOf(keys, byKey);
  const moved = parts.length > 1 ? `${list(parts)}, joined` : list(parts);
  return `${moved.charAt(0).toUpperCase()}${moved.slice(1)}: ${way}, on to ${list(to)}.`;
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
