/** The steps of a face frame: its stock milled when the case stands and is measured, put together, glued on to the case. */
import { formatLengthWithUnit, type Mm } from "../../base/length.ts";
import type { SetAssembly, SetOrder } from "../../set/schema.ts";
import { frameBefore } from "../../set/standing.ts";
import { planAssemblySteps } from "./assemble.ts";
import { drill, groove, handWork, mortise } from "./parts.ts";
import { capital, type Draft, type StepsInput, step } from "./step.ts";

export function planFrameSteps(order: SetOrder, input: StepsInput): Draft[] {
  const frame = input.assemblies.find(({ name }) => name === order.assembly)!;
  const behind = input.assemblies.find((one) => frameBefore(one, input.assemblies) === frame)!;
  const parts = input.parts.filter(({ assembly }) => assembly === frame.name);
  const marks = parts.map(({ mark }) => mark);
  const own = input.drilling.flatMap((one) => {
    const rows = one.rows.filter(({ mark }) => marks.includes(mark));
    return rows.length === 0 ? [] : [{ ...one, rows }];
  });
  const ownWork = input.handWork.filter(({ mark }) => marks.includes(mark));
  return [
    mill(frame, behind, marks, input),
    ...groove({ parts, settings: input.settings.filter(({ runs }) => runs.every(({ mark }) => marks.includes(mark))) }),
    ...drill({ ...input, drilling: own }),
    ...mortise({ parts, handWork: ownWork }),
    ...handWork({ parts, handWork: ownWork }),
    ...planAssemblySteps(order, input),
    glueOn(frame, behind, marks, input),
  ];
}

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
    ],
    {
      parts: marks,
      boxes: [
        { label: `${behind.name}, width at the front`, target: standing(behind, "width", input) },
        { label: `${behind.name}, height`, target: standing(behind, "height", input) },
      ],
      cautions: [
        "No piece shorter or thinner than the jointer's and the planer's manuals allow; push blocks at the jointer, a push stick for narrow rips, guards on. Eye, ear and dust protection.",
      ],
    },
  );
}

/** Over all, as measured where it was. */
const standing = (one: SetAssembly, way: "width" | "height", { asBuilt }: StepsInput): Mm =>
  asBuilt.find((each) => each.assembly === one.name && each.opening === null && each.way === way)?.measured ??
  one.size[way === "width" ? 0 : 2];

function glueOn(frame: SetAssembly, behind: SetAssembly, marks: string[], { unit }: StepsInput): Draft {
  const over = behind.place.at[0] - frame.place.at[0];
  const at = over > 0 ? `${formatLengthWithUnit(over, unit)} beyond the case at each side` : "flush with the sides";
  return step(
    `Glue ${frame.name} to ${behind.name}`,
    [
      `Plane the front edges of ${behind.name} flush with each other, and square to its sides: no plane reaches them behind the frame. Lay it on its back. Dry first: the frame stands out ${at}, its top rail flush with the case's upper end, its bottom rail flush with the bottom. Check the case's diagonals again: the frame will hold it as it now is.`,
      "Spread glue on the case's front edges, thinly, none within a finger's breadth of the inside corners. Two small pins with their heads nipped off keep the frame from sliding. Clamp all round, cauls under the clamps.",
    ],
    { parts: marks },
  );
}
