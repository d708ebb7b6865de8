/** The steps before anything is put together: check, measure, size, groove, drill, lip. */
import { formatLengthWithUnit, SAME } from "../../base/length.ts";
import { listInWords } from "../../base/words.ts";
import { faceWords } from "../../set/facing.ts";
import type { SetFeature, SetLipping } from "../../set/schema.ts";
import { byMark as inOrder } from "../../set/words.ts";
import { dovetail, isDovetailing } from "./dovetails.ts";
import { isMitring } from "./returns.ts";
import { breakDownInWords, trimmedIn } from "./sheet-cuts.ts";
import { spoiledInWords } from "./spoiled.ts";
import { capital, type Draft, kindOfWork, type StepsInput, step } from "./step.ts";

export const planPartSteps = (input: StepsInput): Draft[] => [
  printCheck(),
  measureStock(input),
  breakDown(input),
  ...lumber(input),
  ...lip(input, "before"),
  ...machine(input),
  ...lip(input, "after"),
];

const printCheck = (): Draft =>
  step(
    "Check the print",
    [
      "Measure both bars on a page of the sticks with a steel rule, across and down the page. If one is off, enter the readings under paper.print in the project file and print again.",
      "Check that every page carries the same revision.",
    ],
    { drawings: ["story sticks"] },
  );

function measureStock({ stock, assemblies, unit, worktops }: StepsInput): Draft {
  const length = (mm: number): string => formatLengthWithUnit(mm, unit);
  return step(
    "Measure the sheets",
    [
      `Measure each stock with a calliper at several places. If a reading differs from the figure beside its box by more than the fit allowance (${length(Math.min(...assemblies.map(({ fits }) => fits.allowance)))}), enter it in the project file and build again: lengths and grooves follow it. Where no computer is at hand, at the yard, the drawing of thicknesses and rounding tells what changes: pencil it in.`,
      ...(worktops.some(({ glued }) => glued !== null)
        ? [
            "Bring the boards of the worktop into the shop now: they have to lie there for some weeks before they are milled.",
          ]
        : []),
    ],
    {
      drawings: ["thickness and rounding"],
      boxes: stock.map(({ name, thickness }) => ({
        label: `${name}, taken as ${length(thickness)}`,
        target: thickness,
      })),
    },
  );
}

/** Panels of the first group that come from their sheet with something over. */
function trimmedInWords(input: StepsInput): string[] {
  const over = trimmedIn(input.groups[0]!, input);
  if (over.length === 0) return [];
  return [
    `${listInWords(over)} ${over.length === 1 ? "comes" : "come"} from the sheet with something over: trim ${over.length === 1 ? "it" : "them"} to the sizes of the cut list once these sheets are cut, a fresh edge and a fresh end first; every place on a part is measured from these.`,
  ];
}

const breakDown = (input: StepsInput): Draft => {
  const { parts, stock } = input;
  return step(
    "Break down the sheets and size every part",
    [
      ...breakDownInWords(input),
      "Stick each label on as its part comes off the saw, on a face that will be hidden, clear of the grooves.",
      ...trimmedInWords(input),
      ...spoiledInWords("case", ["sheets"], input),
      "Gate: every part of this step at its final length and width, ticked on the cut list, before the first groove is cut.",
    ],
    {
      drawings: ["cut list", "sheet layouts", "settings"],
      parts: parts
        .filter(({ material }) => stock.find(({ id }) => id === material)!.sheet !== null)
        .map(({ mark }) => mark),
      cautions: [
        "A full sheet is heavy: support it on both sides of the cut, work with a helper. Riving knife and guard on for every through cut; fence and mitre gauge never together. Eye, ear and dust protection. The saw's manual comes first.",
      ],
    },
  );
};

/** What is cut from lumber that was bought planed: to length alone. */
function lumber(input: StepsInput): Draft[] {
  const { parts, stock, unit } = input;
  const dressed = stock.filter(({ boards }) => boards?.dressed === true);
  const spoiled = spoiledInWords("case", ["boards"], input);
  return dressed.flatMap(({ id, name, thickness, boards }, i) => {
    const own = parts.filter(({ material }) => material === id);
    if (own.length === 0) return [];
    const wider = own.filter(({ width }) => boards!.width - width > SAME).map(({ mark }) => mark);
    return [
      step(
        `Cut the ${name}`,
        [
          `Sight along each length and lay aside what is bowed or twisted: a base holds the case straight only if it is straight itself. It is taken as ${formatLengthWithUnit(thickness, unit)} thick; measure it.`,
          `Square one end, then cut to the lengths of the cut list, parts of one length against one stop.${wider.length > 0 ? ` Rip ${listInWords(wider)} to width, the rounded edge off first.` : ""}`,
          ...(i === 0 ? spoiled : []),
        ],
        {
          parts: own.map(({ mark }) => mark),
          drawings: ["cut list", "board layouts", "settings"],
          cautions: [
            "Lumber closes on the blade as it is cut: riving knife on, never stand in line with it. Eye, ear and dust protection.",
          ],
        },
      ),
    ];
  });
}

/** Lippings that are on before the grooves are cut, or come after them: what goes on which edge. */
function lip({ parts, unit }: StepsInput, lipped: SetLipping["lipped"]): Draft[] {
  const kinds = new Map<string, string[]>();
  for (const part of parts) {
    for (const { name, thickness, edge, lipped: when } of part.lippings) {
      if (when !== lipped) continue;
      const what = `${name}, ${formatLengthWithUnit(thickness, unit)} thick, on the ${faceWords(part, edge)} of`;
      kinds.set(what, [...(kinds.get(what) ?? []), part.mark]);
    }
  }
  if (kinds.size === 0) return [];
  const marks = [...new Set([...kinds.values()].flat())].sort(inOrder);
  return [
    step(
      "Glue on the lippings",
      [
        ...[...kinds].map(([what, own]) => `${capital(what)} ${listInWords([...own].sort(inOrder))}.`),
        "Cut each as long as the cut list says; where a corner enters another part, from shoulder to shoulder. When the glue has set, take it flush with both faces, without touching the veneer.",
        lipped === "before"
          ? "Gate: every lipping flush and its edge straight before the first groove is cut: that edge is what distances are measured from."
          : "Gate: every groove that runs out at this edge is cut before it is lipped.",
      ],
      {
        parts: marks,
        drawings: ["cut list", "part drawings"],
        cautions: [
          "A flush-trimming bit or plane takes fingers as well as wood: clamp the part, both hands on the tool.",
        ],
      },
    ),
  ];
}

/** Cut on a broad face, where a part and its mirror image are easily taken for one another. */
function arePaired(
  settings: Pick<StepsInput, "settings">["settings"],
  parts: Pick<StepsInput, "parts">["parts"],
): boolean {
  const runs = settings.flatMap((setting) => setting.runs).filter(({ face }) => face.startsWith("t"));
  return parts.some(
    ({ mark, hand, role }) =>
      (hand !== null || role === "side" || role === "drawerSide") && runs.some((run) => run.mark === mark),
  );
}

function groove({ settings, parts }: Pick<StepsInput, "settings" | "parts">): Draft[] {
  return (["table saw", "router"] as const).flatMap((tool) => {
    const used = settings.filter((setting) => setting.tool === tool);
    if (used.length === 0) return [];
    const marks = new Set(used.flatMap(({ runs }) => runs.map(({ mark }) => mark)));
    return [
      step(
        `Cut the ${nounOf(used)} at the ${tool}`,
        [
          "Setting by setting, in the order of the schedule. Set the cutter, make the test cut, then run every part of the row before anything moves.",
          arePaired(used, parts)
            ? "Lay left and right parts as an open pair, inside faces up, before each row, and check against the stick that both get their groove in the same place."
            : "Turn every part as its row says, by its marked face, and check the first one before the others follow.",
        ],
        {
          parts: parts.filter(({ mark }) => marks.has(mark)).map(({ mark }) => mark),
          settings: used.map(({ n }) => n),
          drawings: ["settings", "part drawings", "story sticks"],
          cautions: [...new Set(used.map(({ caution }) => caution))],
        },
      ),
    ];
  });
}

/** All that a group's parts need before they are put together. */
export const machine = (input: StepsInput): Draft[] => [
  ...groove(input),
  ...drill(input),
  ...mortise(input),
  ...dovetail(input),
  ...handWork(input),
];

/** Of a frame's members laps or tongues alone; all else is grooves, with the rabbets and tongues that go with them. */
function nounOf(settings: readonly { operation: string }[]): string {
  if (settings.every(({ operation }) => operation === "lap")) return "laps";
  return settings.every(({ operation }) => operation === "shoulder") ? "tenons" : "grooves";
}

function drill({ drilling, joints }: Pick<StepsInput, "drilling" | "joints">): Draft[] {
  if (drilling.length === 0) return [];
  const rows = drilling.flatMap((one) => one.rows);
  const isPitched = rows.some(({ count }) => count > 1);
  const pinned = new Set(joints.flatMap(({ kind, receiving }) => (kind === "pin" ? [receiving] : [])));
  const holdsShelf = rows.some(({ mark }) => pinned.has(mark));
  return [
    step(
      isPitched ? "Drill the rows of holes" : "Drill the holes",
      [
        [
          `${isPitched ? "Row by row" : "Hole by hole"}, as the drilling page says.`,
          ...(isPitched ? ["Measure the first hole only; the jig's own pitch makes the others."] : []),
          ...(holdsShelf ? ["Rows that hold one shelf are measured from the same end and the same edge."] : []),
        ].join(" "),
      ],
      {
        parts: [...new Set(drilling.flatMap(({ rows }) => rows.map(({ mark }) => mark)))],
        drawings: ["settings", "part drawings"],
        cautions: [...new Set(drilling.map(({ caution }) => caution))],
      },
    ),
  ];
}

/** Mortises for loose or stub tenons, part by part, as the hand-work list tells them. */
function mortise({ parts, handWork: work }: Pick<StepsInput, "parts" | "handWork">): Draft[] {
  const own = work.filter((one) => isMortising(one, parts));
  if (own.length === 0) return [];
  const [first] = own as [StepsInput["handWork"][number]];
  const isLoose = kindOfWork(first, parts) === "mortise";
  return [
    step(
      isLoose ? "Cut the mortises for the loose tenons" : "Cut the mortises for the stub tenons",
      !isLoose
        ? [
            "Set the bit by a scrap first: a rail's tenon, or a strip planed to its thickness, slides in by hand. Mark each mortise from the rail itself, laid where it belongs, and cut as the hand-work list says, every one from the marked front face.",
            "Square the ends with a chisel. At the ends of the stiles the mortise runs out: nothing to square there.",
          ]
        : [
            "Set the bit by a scrap first: a tenon slides in by hand, and does not rock. Every mortise lies in the middle of the thickness: work from the marked face of each member, and what is left to the middle is the same on both sides of a joint.",
            "Mark both ends of each mortise across the joint with the two members together, then cut as the hand-work list says: in every joint one mortise is tight and sets the members flush, the others are slotted in one of the two and let it.",
          ],
      {
        parts: [...new Set(own.map(({ mark }) => mark))],
        drawings: ["settings", "part drawings"],
        cautions: [
          "An edge is no seat for a router: clamp the member between two boards, flush with them, or in a mortising jig, and stand an end upright in the same way. Plunge a little deeper pass by pass; a long thin bit breaks. The part is clamped, never held by hand. Eye, ear and dust protection. The machine's manual comes first.",
        ],
      },
    ),
  ];
}

const isMortising = (work: StepsInput["handWork"][number], parts: StepsInput["parts"]): boolean =>
  kindOfWork(work, parts).endsWith("mortise");

type Kind = SetFeature["kind"];

/** What the list of hand work may hold, in its words. */
const HAND_WORK: readonly { kinds: readonly Kind[]; noun: string; told: string; caution: string }[] = [
  {
    kinds: ["groove", "rabbet"],
    noun: "stopped ends",
    told: "square the ends where grooves and rabbets stop",
    caution: "Clamp the part; keep both hands behind the chisel's edge.",
  },
  {
    kinds: ["notch"],
    noun: "notches",
    told: "cut the notches",
    caution:
      "At a notch, clamp the part and support it close to the cut. The jigsaw's or handsaw's manual comes first.",
  },
  {
    kinds: ["slot"],
    noun: "screw slots",
    told: "drill the holes and rout the slots that the worktop's screws go through",
    caution:
      "At a slot, clamp the part with scrap under it; no gloves or loose sleeves near the bit. Eye, ear and dust protection. The machines' manuals come first.",
  },
  {
    kinds: ["shape"],
    noun: "shaped edges",
    told: "saw out the shaped edges and bring them to the template",
    caution:
      "At a shaped edge, clamp the part and both hands on the tool; a template cutter takes a little at a time, against its turn. The machines' manuals come first.",
  },
  {
    kinds: ["edge"],
    noun: "profiled edges",
    told: "run the profiled edges",
    caution:
      "At a profile, clamp the part, several light passes against the bit's turn. The router's manual comes first.",
  },
];

function handWork({ parts, handWork: all }: Pick<StepsInput, "parts" | "handWork">): Draft[] {
  const work = all.filter((one) => !isMortising(one, parts) && !isMitring(one, parts) && !isDovetailing(one, parts));
  if (work.length === 0) return [];
  const kinds = new Set(work.map((one) => kindOfWork(one, parts)));
  const own = HAND_WORK.filter((one) => one.kinds.some((kind) => kinds.has(kind)));
  const takesEdges = kinds.has("notch") || kinds.has("shape");
  return [
    step(
      `By hand: ${listInWords(own.map(({ noun }) => noun))}`,
      [
        `As the list of hand work says: ${listInWords(own.map(({ told }) => told))}.${takesEdges ? " This comes after every groove and hole, so that each had its whole edge to be measured from." : ""}`,
      ],
      {
        parts: [...new Set(work.map(({ mark }) => mark))],
        drawings: ["settings", "part drawings"],
        cautions: own.map(({ caution }) => caution),
      },
    ),
  ];
}
