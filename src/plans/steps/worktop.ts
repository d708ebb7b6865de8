/** The steps of a worktop: glued up flat, trimmed and shaped when it is dry, laid on and screwed down so that it can move. */
import { formatLengthWithUnit, type Mm, SAME } from "../../base/length.ts";
import { listInWords } from "../../base/words.ts";
import type { SetOrder, SetPart, SetWorktop } from "../../set/schema.ts";
import { scribedAlong } from "../../set/scribe.ts";
import { jawsFor } from "./clamps.ts";
import { finishCautions, finishTexts } from "./finish.ts";
import { noDeeper, paced } from "./paced.ts";
import { waitedInWords } from "./sheet-cuts.ts";
import { spoiledInWords } from "./spoiled.ts";
import { type Draft, hardwareOf, type StepsInput, step } from "./step.ts";

type Glued = NonNullable<SetWorktop["glued"]>;

export function planWorktopSteps(order: SetOrder, input: StepsInput): Draft[] {
  const worktop = input.worktops.find(({ assembly }) => assembly === order.assembly)!;
  const part = input.parts.find(({ mark }) => mark === worktop.mark)!;
  const { glued } = worktop;
  // Told once, of all that are made alike.
  const isFirst = input.worktops.find((one) => (one.glued === null) === (glued === null)) === worktop;
  const spoiled = isFirst ? spoiledInWords("worktop", [glued === null ? "sheets" : "boards"], input) : [];
  const waited = isFirst && glued === null ? waitedInWords("worktop", input) : [];
  return [
    ...(glued === null
      ? [panel(part, input, [...waited, ...spoiled])]
      : [joint(worktop, glued, part, input, spoiled), glueUp(worktop, glued, part, input)]),
    trimAndShape(worktop, part, input),
    ...(glued === null ? [] : [finishBoth(part, input)]),
  ];
}

const cautionPlaner =
  "No board shorter or thinner than the jointer's and the planer's manuals allow; push blocks, guards on. Eye, ear and dust protection.";

function joint(
  worktop: SetWorktop,
  glued: Glued,
  part: SetPart,
  { unit, job }: StepsInput,
  spoiled: readonly string[],
): Draft {
  const show = (length: Mm): string => formatLengthWithUnit(length, unit);
  const { boards } = glued;
  const ids = boards.map(({ piece }) => piece);
  const { made } = job.moisture;
  return step(
    `Mill the boards of ${worktop.assembly}`,
    [
      `Let the boards lie in the shop until two readings of the moisture meter, a week apart, agree${made === null ? '; write the reading down, and give it to the project file as "made"' : `: ${Math.round(made * 10) / 10} %, as the slots are reckoned with. Where it is more than a point off, change the project file first`}.`,
      `${boards.length} boards, ${listInWords(ids)}: joint a face and an edge, plane to a little over ${show(part.thickness)}, rip and joint each to ${show(boards[0]!.width)}. ${boards.length} x ${show(boards[0]!.width)} = ${show(glued.width)}, which is ${show(glued.trim.edges)} to trim off at the front and as much at the back; ${show(glued.length)} long, ${show(glued.trim.ends)} over at each end.`,
      `Lay them out, best faces up, ${glued.sawn === "flat" ? "the heart down and up by turns, " : ""}the grain rising one way so that a plane goes over all of them. Draw the triangle across all boards, as the drawing has it: it brings them back in this order.`,
      ...spoiled,
    ],
    {
      parts: [part.mark],
      drawings: ["worktop", "cut list", "board layouts", "settings"],
      boxes: [{ label: "Moisture when made, %", target: null }],
      cautions: [cautionPlaner],
    },
  );
}

function glueUp(worktop: SetWorktop, glued: Glued, part: SetPart, { unit }: StepsInput): Draft {
  const show = (length: Mm): string => formatLengthWithUnit(length, unit);
  const apart = paced(glued.length / (glued.clamps - 1), unit);
  return step(
    `Glue up ${worktop.assembly}`,
    [
      `Dry first: ${glued.clamps} clamps, about ${show(apart)} apart, the outer ones near the ends, one below and the next above by turns, so that the panel stays flat. No light through any joint with the clamps only just closed.`,
      `Glue one edge of each joint, cauls with packing tape across the ends, the middle clamp first, then outwards. A straightedge across before the glue sets; scrape what is squeezed out when it is rubbery.`,
      ...(glued.width > 2 * 330
        ? ["In two halves, if the planer takes these: plane each flat, then glue the one joint between them."]
        : []),
    ],
    { parts: [part.mark], clamps: { count: glued.clamps, opens: jawsFor(glued.width, unit), cauls: [] } },
  );
}

function panel(part: SetPart, input: StepsInput, sized: readonly string[]): Draft {
  const show = (length: Mm): string => formatLengthWithUnit(length, input.unit);
  const { lippings, cut } = part;
  const { boxes } = input.groups.find(({ kind }) => kind === "worktop")!.gate;
  const left = (["l", "w"] as const).map((axis) => scribedAlong(axis, input, part));
  return step(
    `Cut ${part.name} ${part.mark}${lippings.length === 0 ? "" : " and glue its lippings on"}`,
    [
      "First measure what it lies on, and write down what you find. Where it differs from what is printed, it goes into the project file before the panel is trimmed.",
      ...sized,
      `The panel is cut to ${show(cut.length + left[0]!)} x ${show(cut.width + left[1]!)}${left.some((one) => one > SAME) ? ", with what is left on to be scribed" : ""}.`,
      ...(lippings.length === 0
        ? []
        : [
            `Lippings, ${listInWords([...new Set(lippings.map(({ name }) => name))])}: first the ends, flush with the panel's edges, then the front, over the ends of these. Plane them flush with the faces when the glue is hard.`,
          ]),
    ],
    { parts: [part.mark], drawings: ["worktop", "cut list", "sheet layouts", "settings"], boxes },
  );
}

const SHAPES = { roundover: "roundover bit", chamfer: "chamfer bit", ogee: "ogee bit" } as const;

function trimAndShape({ edge, glued }: SetWorktop, part: SetPart, { unit }: StepsInput): Draft {
  const show = (length: Mm): string => formatLengthWithUnit(length, unit);
  return step(
    glued === null ? `Shape ${part.name} ${part.mark}` : `Flatten, trim and shape ${part.name} ${part.mark}`,
    [
      ...(glued === null
        ? []
        : [
            `Flatten both faces: with the plane across the grain, then along it, or with the sander. ${show(part.thickness)} thick.`,
            `Trim to ${show(part.width)}: ${show(glued.trim.edges)} off the front, the rest off the back. Then to ${show(part.length)}, both ends square to the front: along a clamped straightedge with the saw or the router, a board clamped where the cutter leaves the wood.`,
          ]),
      ...(edge === null
        ? ["Break all edges with sandpaper."]
        : [
            `Upper edges, ${listInWords(edge.edges)}: ${SHAPES[edge.shape]}, ${edge.shape === "chamfer" ? show(edge.radius) : `radius ${show(edge.radius)}`}, with a bearing. The ends first, then the front: what breaks out at the corners is taken off by the front.`,
          ]),
    ],
    {
      parts: [part.mark],
      boxes: [
        { label: "Length", target: part.length },
        { label: "Depth", target: part.width },
      ],
      cautions:
        edge === null
          ? []
          : [
              "Feed the router against the bit's turn: from left to right along an edge before you. Several light passes.",
            ],
    },
  );
}

function finishBoth({ name, mark }: SetPart, { finishes }: StepsInput): Draft {
  const after = finishes.filter(({ before }) => !before);
  return step(
    `Finish both faces of ${name} ${mark} alike`,
    [
      "As many coats below as above, ends as well: a face left bare takes up water faster than the other, and the top cups.",
      ...finishTexts(after, [mark]),
    ],
    { parts: [mark], cautions: finishCautions(after) },
  );
}

/** Set on its cases, when these stand. */
export function layOn(worktop: SetWorktop, input: StepsInput): Draft {
  const { parts, unit } = input;
  const show = (length: Mm): string => formatLengthWithUnit(length, unit);
  const { overhang, screw, screws, fixed, moves, glued } = worktop;
  const part = parts.find(({ mark }) => mark === worktop.mark)!;
  const through = [...new Set(screws.flatMap((one) => one.through))];
  const still = screws.filter(({ front, rear }) => front + rear < SAME).length;
  const free = screws.length - still;
  const hangs = (["front", "left", "right", "back"] as const)
    .filter((edge) => overhang[edge] > SAME)
    .map((edge) => `${show(overhang[edge])} at the ${edge}`);
  const away = fixed === "front" ? "back" : "front";
  return step(
    `Lay ${worktop.assembly} on ${listInWords(worktop.over)} and screw it down`,
    [
      `${hangs.length === 0 ? "Flush all round." : `It stands out ${listInWords(hangs)}, and is flush elsewhere.`} Clamp it; no glue anywhere.`,
      `From below, through ${listInWords(through)}: ${screws.length} screws of ${show(screw.diameter)} x ${show(screw.length)}, a washer under each head. Mark the drill: no deeper than ${show(noDeeper(screw.length - throughOf(worktop, parts), unit))} into the worktop.`,
      ...(free === 0
        ? []
        : [
            `The ${still} along the ${fixed} are driven home. The ${free} in slots only so far that the washer can still be turned by hand: where each stands in its slot is on the worktop's drawing.`,
            `It moves to the ${away}: ${show(moves.wider)} as it gets wetter, ${show(moves.narrower)} as it dries. Leave as much free at a wall${fixed === "front" ? " behind it" : ""}, and glue no upstand to it.`,
          ]),
    ],
    {
      parts: [part.mark, ...through],
      drawings: ["worktop"],
      hardware: hardwareOf([worktop.assembly], input),
      cautions: glued === null ? [] : ["Two people: it is heavy, and the front edge is easily dented."],
    },
  );
}

/** Of case, at most, that a screw goes through. */
const throughOf = ({ screws }: SetWorktop, parts: readonly SetPart[]): Mm =>
  Math.max(
    ...screws.map(({ through }) =>
      through.reduce((sum, mark) => sum + parts.find((part) => part.mark === mark)!.thickness, 0),
    ),
  );
