/** The steps of a face frame: its stock milled when the case stands and is measured, put together, glued on to the case. */
import { formatLengthWithUnit } from "../../base/length.ts";
import type { SetAssembly, SetOrder } from "../../set/schema.ts";
import { frameBefore } from "../../set/standing.ts";
import { behindBoxes } from "../groups.ts";
import { planAssemblySteps } from "./assemble.ts";
import { frameClamping } from "./clamps.ts";
import { machine } from "./parts.ts";
import { marksOfReturns, mitres, returnsOn } from "./returns.ts";
import { spoiledInWords } from "./spoiled.ts";
import { capital, type Draft, ofGroup, ofKind, type StepsInput, step } from "./step.ts";

export function planFrameSteps(order: SetOrder, input: StepsInput): Draft[] {
  const frame = input.assemblies.find(({ name }) => name === order.assembly)!;
  const behind = input.assemblies.find((one) => frameBefore(one, input.assemblies) === frame)!;
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
  ...input.assemblies.flatMap((behind) => {
    const frame = frameBefore(behind, input.assemblies);
    return frame === null
      ? []
      : [mill(frame, behind, [...marksIn(frame, input), ...marksOfReturns(frame, input)], input)];
  }),
  ...machine(ofGroup("frame", input)),
  ...mitres(input),
];

function mill(frame: SetAssembly, behind: SetAssembly, marks: string[], input: StepsInput): Draft {
  const { parts, stock, unit, asBuilt } = input;
  const { thickness } = stock.find(({ id }) => id === parts.find(({ mark }) => mark === marks[0])!.material)!;
  return step(
    `Mill the members of ${frame.name}`,
    [
      asBuilt.some(({ assembly }) => assembly === behind.name)
        ? `${capital(behind.name)} was measured as it stands, and ${frame.name} is made to that.`
        : `First measure ${behind.name} as it stands, glued up, and each bay, and write down what you find. Where it differs from what is printed, it goes into the project file before a stile is cut: "asBuilt": { "${behind.name}": { "width": ..., "height": ... } }. What is already cut keeps its size, and the frame follows.`,
      `Cut each piece in the rough, longer and wider than its part. Joint a face and an edge, plane to ${formatLengthWithUnit(thickness, unit)}, all members in one pass for each setting of the planer; rip to width, then crosscut to length, members of one length against one stop.`,
      "Lay the members out as they will stand, mark the inside face of each, and letter both members of every joint as the drawing of the frame has them.",
      // Once for all frames, which are cut together.
      ...(ofKind("frame", input)[0]?.assembly === frame.name ? spoiledInWords("frame", "boards", input) : []),
    ],
    {
      parts: marks,
      drawings: ["face frame", "cut list", "board layouts", "settings"],
      boxes: behindBoxes(behind, input),
      cautions: [
        "No piece shorter or thinner than the jointer's and the planer's manuals allow; push blocks at the jointer, a push stick for narrow rips, guards on. Eye, ear and dust protection.",
      ],
    },
  );
}

function glueOn(frame: SetAssembly, behind: SetAssembly, marks: string[], input: StepsInput): Draft {
  const { unit, returns, parts } = input;
  const members = parts.filter(({ mark }) => marks.includes(mark));
  const { clamps, beyond } = frameClamping(frame, behind, members, input);
  const over = behind.place.at[0] - frame.place.at[0];
  const returned = returns.filter((one) => one.frame === frame.name).map(({ side }) => side);
  const at =
    returned.length === 1
      ? `at the ${returned[0]} end by the thickness of the return that comes there`
      : over > 0
        ? `${formatLengthWithUnit(over, unit)} beyond the case at each side`
        : "flush with the sides";
  return step(
    `Glue ${frame.name} to ${behind.name}`,
    [
      `Plane the front edges of ${behind.name} flush with each other, and square to its sides: no plane reaches them behind the frame. Lay it on its back. Dry first: the frame stands out ${at}, its top rail flush with the case's upper end, its bottom rail flush with the bottom. Check the case's diagonals again: the frame will hold it as it now is.`,
      "Spread glue on the case's front edges, thinly, none within a finger's breadth of the inside corners. Two small pins with their heads nipped off keep the frame from sliding. Clamp all round, blocks under the jaws.",
      ...beyond,
    ],
    { parts: marks, clamps },
  );
}
