/** The steps of a case's drawers: measured for when it stands, boxes made, slides fitted, and the fronts last of all. */
import { formatLengthWithUnit, type Mm } from "../../base/length.ts";
import { listInWords } from "../../base/words.ts";
import type { SetDrawer, SetMove, SetOrder, SetPart } from "../../set/schema.ts";
import { drawerBoxes } from "../groups.ts";
import { screwThroughFaces } from "../screws.ts";
import { planAssemblySteps } from "./assemble.ts";
import { machine } from "./parts.ts";
import { screwPlaces } from "./screwing.ts";
import { waitedInWords } from "./sheet-cuts.ts";
import { spoiledInWords } from "./spoiled.ts";
import { byMarkIn, capital, type Draft, hardwareOf, ofGroup, type StepsInput, step } from "./step.ts";

/** All drawers of the job are cut together, told with the first of them; then those of each case, told with the first there. */
export function planDrawerSteps(order: SetOrder, input: StepsInput): Draft[] {
  const drawer = input.drawers.find(({ assembly }) => assembly === order.assembly)!;
  const all = input.drawers.filter((one) => one.case === drawer.case);
  if (all[0] !== drawer) return [];
  const partsOf = (drawers: readonly SetDrawer[]): SetPart[] =>
    input.parts.filter((part) => drawers.some(({ assembly }) => assembly === part.assembly));
  const parts = partsOf(all);
  const strips = stripsIn(drawer.case, input);
  return [
    ...(drawer === input.drawers[0] ? cut(ofGroup("drawers", input), input) : []),
    ...(strips.length === 0 ? [] : [fixStrips(drawer, strips, input)]),
    ...boxes(order, all, parts, input),
    hang(drawer, all, parts, input),
    fronts(order, all, parts, input),
  ];
}

const stripsIn = (home: string, { parts }: Pick<StepsInput, "parts">): SetPart[] =>
  parts.filter(({ assembly }) => assembly.startsWith(`${home} packing `));

/** Measured for, cut to length, grooved. */
const cut = (own: StepsInput, input: StepsInput): Draft[] => [
  measure([...new Set(input.drawers.map((one) => one.case))], own, {
    waited: waitedInWords("drawers", input),
    spoiled: spoiledInWords("drawers", ["sheets", "boards"], input),
  }),
  ...machine(own),
];

const bringsOnly = (bring: SetMove["bring"], marks: readonly string[]): boolean =>
  bring.every(({ parts }) => parts.every((mark) => marks.includes(mark)));

const facesOf = (drawers: readonly SetDrawer[]): string[] => drawers.map(({ face }) => face);

function measure(
  homes: readonly string[],
  input: StepsInput,
  { waited, spoiled }: Record<"waited" | "spoiled", readonly string[]>,
): Draft {
  const { parts, unit, asBuilt } = input;
  const home = listInWords(homes);
  return step(
    `Measure ${home} for the drawers, then cut these`,
    [
      homes.every((one) => asBuilt.some(({ assembly }) => assembly === one))
        ? `${capital(home)} ${homes.length === 1 ? "was" : "were"} measured as built, and the drawers are made to that.`
        : `Measure each opening as it stands, glued up: the width in front and at the back, below and above, the height at both sides; the least of each counts. Where it differs from what is printed, it goes into the project file before a side is cut: "asBuilt": { "${homes[0]}/...": { "width": ..., "height": ... } }.`,
      "Have the slides in hand, and measure them: what they take at the side, their length, where their holes are. The drawing of each drawer says what was reckoned with.",
      ...waited,
      ...spoiled,
    ],
    {
      parts: parts.map(({ mark }) => mark),
      drawings: ["drawers", "cut list", "sheet layouts", "board layouts", "settings"],
      boxes: drawerBoxes(input),
      cautions: [
        `Short pieces: keep them longer than ${formatLengthWithUnit(unit === "mm" ? 300 : 12 * 25.4, unit)} until the last cut, a stop block that ends before the blade, and never the fence with the mitre gauge.`,
      ],
    },
  );
}

/** Strips that pack slides out to the stiles, or runners. */
function fixStrips(drawer: SetDrawer, strips: readonly SetPart[], { parts, unit }: StepsInput): Draft {
  const runs = strips[0]!.role === "runner";
  const marks = strips.map(({ mark }) => mark);
  const held = parts.filter(({ lines }) => lines.length > 0);
  const thinnest = held.reduce<SetPart | null>(
    (least, one) => (least && least.thickness <= one.thickness ? least : one),
    null,
  );
  const lengths = strips.map((strip) => (thinnest === null || runs ? null : screwThroughFaces(strip, thinnest, unit)));
  const kinds = [...new Set(strips.map(({ thickness }) => thickness))];
  const screws = kinds.map((thickness) => {
    const i = strips.findIndex((one) => one.thickness === thickness);
    const length = lengths[i] ?? null;
    const own = strips.filter((one) => one.thickness === thickness).map(({ mark }) => mark);
    return `${listInWords(own)}, ${formatLengthWithUnit(thickness, unit)} thick: ${length === null ? "glue, and pins" : `screws of ${formatLengthWithUnit(length, unit)} at most, countersunk`}`;
  });
  return runs
    ? step(
        `Fix the runners in ${drawer.case}`,
        [
          "Lay the story stick of the height on the inside faces and knife the line of each runner's upper face. Each runner lies level, square to the front, its front end where the line begins.",
          "Screw through the runner into the side, no longer than runner and side together less 3 mm (1/8 in); no glue: a runner that wears is turned over or renewed. Wax its upper face.",
        ],
        { parts: marks },
      )
    : step(
        `Fix the packing strips in ${drawer.case}`,
        [
          "Plane each to what the stile laps inside the bay, as measured, until a straightedge lies on strip and stile alike: slides out of line bind.",
          "Lay the story stick of the height on the inside faces and knife the lines of the slides. Each strip lies with its middle on its line, its front end against the frame.",
          ...screws.map((one) => `${one}.`),
        ],
        { parts: marks },
      );
}

/** One is put together as told, and the others like it. */
function boxes(order: SetOrder, drawers: readonly SetDrawer[], parts: readonly SetPart[], input: StepsInput): Draft[] {
  const faces = facesOf(drawers);
  const moves = order.moves.filter(({ bring }) => !bringsOnly(bring, faces));
  const boxed = { ...input, parts: input.parts.filter(({ mark }) => !faces.includes(mark)) };
  const joints = input.joints.filter(
    ({ entering, receiving }) => !faces.includes(entering) && !faces.includes(receiving),
  );
  const glueUps = order.glueUps.map((one) => ({ ...one, parts: one.parts.filter((mark) => !faces.includes(mark)) }));
  const told = planAssemblySteps({ ...order, moves, glueUps }, { ...boxed, joints });
  const others = drawers.filter(({ assembly }) => assembly !== order.assembly).map(({ assembly }) => assembly);
  const marks = parts.filter(({ mark }) => !faces.includes(mark)).map(({ mark }) => mark);
  const diagonals = drawers.map(({ assembly }) => ({
    label: `${assembly}, both diagonals`,
    target: input.assemblies.find(({ name }) => name === assembly)!.diagonals.outside,
  }));
  return told.map((draft) => ({
    ...draft,
    text: [
      ...draft.text,
      ...(others.length === 0
        ? []
        : [`${capital(listInWords(others))} ${others.length === 1 ? "goes" : "go"} together in the same way.`]),
      "The box lies on a flat bench and does not rock. The bottom goes in dry, without glue, and holds it square.",
    ],
    parts: marks,
    boxes: diagonals,
  }));
}

function hang(drawer: SetDrawer, drawers: readonly SetDrawer[], parts: readonly SetPart[], input: StepsInput): Draft {
  const { unit } = input;
  const { kind } = drawer.slides;
  const show = (length: Mm): string => formatLengthWithUnit(length, unit);
  const screws = [
    ...new Set(
      input.hardware
        .filter(({ kind, of }) => kind === "slide screws" && drawers.some(({ assembly }) => assembly === of))
        .map(({ what, sizes }) => `${what.toLowerCase()}: ${show(sizes[0]!)}`),
    ),
  ];
  const faces = facesOf(drawers);
  const marks = parts.filter(({ mark }) => !faces.includes(mark)).map(({ mark }) => mark);
  const text = {
    "side-mounted": [
      "Knife the line of each slide from the story stick, on both sides from the same end, and square it across from the front edge. Screw the case's halves on, their middles on the lines, in the slotted holes only, their front ends where the part drawing has them.",
      "Screw the drawers' halves to the box, their middles on the middle of its sides, front ends flush with the box's front. Put the box in, and draw it out to its stop: it runs without a nudge, and stands level. Shim with card where it is slack; when all is right, the round holes.",
    ],
    undermount: [
      "Knife the line of each box's underside from the story stick, on both sides from the same end. Fix the slides as their maker says, so that the box's underside lies on that line, square to the front.",
      "Notch the box's back and drill for the hooks as the slides' maker says; screw the locks under the bottom, in the corners behind the front. Put the box in, and draw it out to its stop.",
    ],
    "wooden runners": [
      "Wax the lower edges of the sides. Put each box in: it runs with a light hand, and its front edge does not drop more than a little when it is half out. Plane where it shines.",
      "Put a stop behind each box, so that it closes with its front's thickness to spare.",
    ],
  }[kind];
  return step(
    kind === "wooden runners"
      ? `Fit the boxes in ${drawer.case}`
      : `Fit the slides and hang the boxes in ${drawer.case}`,
    [
      ...text,
      ...(screws.length === 0 ? [] : [`No longer than these, or their points come out: ${listInWords(screws)}.`]),
    ],
    {
      parts: marks,
      beside: stripsIn(drawer.case, input).map(({ mark }) => mark),
      hardware: hardwareOf(
        drawers.map(({ assembly }) => assembly),
        input,
      ),
    },
  );
}

function fronts(order: SetOrder, drawers: readonly SetDrawer[], parts: readonly SetPart[], input: StepsInput): Draft {
  const { unit } = input;
  const drawer = drawers[0]!;
  const show = (length: Mm): string => formatLengthWithUnit(length, unit);
  const { fit, gap, overlap } = drawer.front;
  const last = order.moves.filter(({ bring }) => bringsOnly(bring, facesOf(drawers)));
  return step(
    `Fit the fronts in ${drawer.case}, last of all`,
    [
      fit === "inset"
        ? `With the boxes closed, set each front in its opening on shims ${show(gap)} thick, all round alike, the lowest first; plane where a shim binds.`
        : `With the boxes closed, hold each front so that it covers ${show(overlap)} all round its opening, ${show(gap)} from the next, the lowest first: shims between, a straightedge under.`,
      "Hold it to the box with double-faced tape, draw it out, clamp, and screw from inside through the box's front: first two screws in holes a little too large, to move it; when the gaps are even, the rest. No glue: a front that is off is moved. Then the pulls.",
      ...screwPlaces(facesOf(drawers), input, byMarkIn(input.parts)),
    ],
    {
      parts: facesOf(drawers),
      beside: parts.map(({ mark }) => mark),
      moves: last.map(({ n }) => ({ assembly: order.assembly, n, spacers: [] })),
    },
  );
}
