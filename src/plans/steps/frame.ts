/** The steps of a face frame: its stock milled when the case stands and is measured, put together, glued on to the case. */
import { formatLengthWithUnit } from "../../base/length.ts";
import { listInWords } from "../../base/words.ts";
import type { SetAssembly, SetOrder } from "../../set/schema.ts";
import { behindFrame } from "../../set/standing.ts";
import { behindBoxes } from "../groups.ts";
import { planAssemblySteps } from "./assemble.ts";
import { frameClamping } from "./clamps.ts";
import { machine } from "./parts.ts";
import { marksOfReturns, mitres, returnsOn } from "./returns.ts";
import { waitedInWords } from "./sheet-cuts.ts";
import { spoiledInWords } from "./spoiled.ts";
import { capital, type Draft, ofGroup, ofKind, type StepsInput, step } from "./step.ts";

export function planFrameSteps(order: SetOrder, input: StepsInput): Draft[] {
  const frame = input.assemblies.find(({ name }) => name === order.assembly)!;
  const behind = behindFrame(frame, input.assemblies);
  const marks = marksIn(frame, input);
  return [
    ...(ofKind("frame", input)[0] === order ? makeFrames(input) : []),
    ...planAssemblySteps(order, input),
    glueOn(frame, behind, marks, input),
    ...returnsOn(frame, input),
  ];
}

const marksIn = (frame: SetAssembly, { parts }: StepsInput): string[] =>
  parts.filter(({ assembly }) => assembly === frame.name).map(({ mark }) => mark);

/** The members of all frames are milled and cut together, so that what they share is set once. */
const makeFrames = (input: StepsInput): Draft[] => [
  ...input.assemblies
    .filter(({ kind }) => kind === "frame")
    .map((frame) => mill(frame, [...marksIn(frame, input), ...marksOfReturns(frame, input)], input)),
  ...machine(ofGroup("frame", input)),
  ...mitres(input),
];

const namesOf = (row: readonly SetAssembly[]): string => listInWords(row.map(({ name }) => name));

function mill(frame: SetAssembly, marks: string[], input: StepsInput): Draft {
  const { parts, stock, unit, asBuilt } = input;
  const row = behindFrame(frame, input.assemblies);
  const [first] = row as [SetAssembly];
  const { thickness } = stock.find(({ id }) => id === parts.find(({ mark }) => mark === marks[0])!.material)!;
  return step(
    `Mill the members of ${frame.name}`,
    [
      asBuilt.some(({ assembly }) => row.some(({ name }) => name === assembly))
        ? `${capital(namesOf(row))} ${row.length === 1 ? "was measured as it stands" : "were measured as they stand, joined"}, and ${frame.name} is made to that.`
        : `First measure ${namesOf(row)} as ${row.length === 1 ? "it stands, glued up" : "they stand, joined"}, and each bay, and write down what you find. Where it differs from what is printed, it goes into the project file before a stile is cut: "asBuilt": { "${first.name}": { "width": ..., "height": ... } }. What is already cut keeps its size, and the frame follows.`,
      `Cut each piece in the rough, longer and wider than its part. Joint a face and an edge, plane to ${formatLengthWithUnit(thickness, unit)}, all members in one pass for each setting of the planer; rip to width, then crosscut to length, members of one length against one stop.`,
      "Lay the members out as they will stand, mark the inside face of each, and letter both members of every joint as the drawing of the frame has them.",
      // Once for all frames, which are cut together.
      ...(ofKind("frame", input)[0]?.assembly === frame.name
        ? [...waitedInWords("frame", input), ...spoiledInWords("frame", ["boards"], input)]
        : []),
    ],
    {
      parts: marks,
      drawings: ["face frame", "cut list", "board layouts", "settings"],
      boxes: behindBoxes(row, input),
      cautions: [
        "No piece shorter or thinner than the jointer's and the planer's manuals allow; push blocks at the jointer, a push stick for narrow rips, guards on. Eye, ear and dust protection.",
      ],
    },
  );
}

function glueOn(frame: SetAssembly, row: readonly SetAssembly[], marks: string[], input: StepsInput): Draft {
  const { unit, returns, parts } = input;
  const members = parts.filter(({ mark }) => marks.includes(mark));
  const deepest = row.reduce((a, b) => (b.size[1] > a.size[1] ? b : a));
  const { clamps, beyond } = frameClamping(frame, deepest, members, input);
  const over = row[0]!.place.at[0] - frame.place.at[0];
  const several = row.length > 1;
  const returned = returns.filter((one) => one.frame === frame.name).map(({ side }) => side);
  const at =
    returned.length === 1
      ? `at the ${returned[0]} end by the thickness of the return that comes there`
      : over > 0
        ? `${formatLengthWithUnit(over, unit)} beyond the ${several ? "cases" : "case"} at each ${several ? "end" : "side"}`
        : "flush with the sides";
  return step(
    `Glue ${frame.name} to ${namesOf(row)}`,
    [
      `Plane the front edges of ${namesOf(row)} flush with each other, and square to the sides: no plane reaches them behind the frame. Lay ${several ? "all of it" : "it"} on its back. Dry first: the frame stands out ${at}, its top rail flush with the upper ${several ? "ends of the cases" : "end of the case"}, its bottom rail flush with the ${several ? `bottoms, and the ${row.length === 2 ? "stile" : "stiles"} between the cases with the joint under the middle` : "bottom"}. Check the diagonals of ${several ? "each case" : "the case"} again: the frame will hold ${several ? "them as they now are" : "it as it now is"}.`,
      "Spread glue on the front edges behind it, thinly, none within a finger's breadth of the inside corners. Two small pins with their heads nipped off keep the frame from sliding. Clamp all round, blocks under the jaws.",
      ...beyond,
    ],
    { parts: marks, clamps },
  );
}
