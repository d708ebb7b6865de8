/** The steps of doors on a track: made as any doors are; then, when all else stands, the track bolted on, the doors hung, their guides set. */
import { formatLengthWithUnit, type Mm } from "../../base/length.ts";
import { listInWords } from "../../base/words.ts";
import type { SetOrder, SetPart, SetTrack } from "../../set/schema.ts";
import { planAssemblySteps } from "./assemble.ts";
import { type MadeDoor, marksOf, trimHorns } from "./make-doors.ts";
import { byMarkIn, capital, type Draft, hardwareOf, listOf, type StepsInput, step } from "./step.ts";

const madeFrom = (track: SetTrack): MadeDoor[] =>
  track.doors.map(({ assembly, horns }) => ({ assembly, horns, case: track.case }));

const partsOf = ({ doors }: SetTrack, { parts }: StepsInput): SetPart[] =>
  parts.filter(({ assembly }) => doors.some((door) => door.assembly === assembly));

export function planTrackDoorSteps(order: SetOrder, input: StepsInput): Draft[] {
  const track = input.tracks.find(({ doors }) => doors.some(({ assembly }) => assembly === order.assembly))!;
  const doors = madeFrom(track);
  const parts = partsOf(track, input);
  const isSlab = parts.filter(({ assembly }) => assembly === order.assembly).length === 1;
  return [
    ...(isSlab ? [] : planAssemblySteps(order, input)),
    ...(order.assembly === doors.at(-1)!.assembly ? trimHorns(doors, parts, input.unit) : []),
  ];
}

/** Last of all: nothing that is still to come has to pass the doors. */
export const hangOnTracks = (input: StepsInput): Draft[] =>
  input.tracks.flatMap((track) => [boltOn(track, input), hang(track, input), setGuides(track, input)]);

function boltOn(track: SetTrack, input: StepsInput): Draft {
  const { assemblies, parts, unit } = input;
  const show = (length: Mm): string => formatLengthWithUnit(length, unit);
  const { bolts, stops, bar, tracks } = track;
  const home = assemblies.find(({ name }) => name === track.on)!;
  const beside = track.at[0] - home.place.at[0];
  const marks = [...new Set(bolts.at.flatMap(({ mark }) => mark ?? []))];
  const first = assemblies.find(({ name }) => name === track.doors[0]!.assembly)!;
  const top = first.place.at[2] + first.size[2];
  return step(
    `Bolt on ${tracks === 1 ? "the track" : "both tracks"} in front of ${track.case}`,
    [
      `Measure the hardware first; what differs from the drawing of the track goes into the project file before a hole is drilled. The bar is ${show(track.length)} long, ${bolts.at.length} bolts at ${listInWords(bolts.at.map(({ at }) => show(at)))} from its left end.`,
      `Draw a level line ${show(track.at[2] - home.place.at[2])} up from the lower end of ${track.on}: the middle of the bar, and ${show(track.at[2] - top)} above where the upper edges of the doors come. The track's left end is ${show(Math.abs(beside))} to the ${beside >= 0 ? "right" : "left"} of that of ${track.on}.`,
      `Clamp the track on the line as a template, mark every bolt, and drill for the thread ${show(bolts.into)} deep into ${listOf(marks, byMarkIn(parts))}, square to the face. Bolt it on with its ${tracks === 1 ? "spacers" : "brackets"}, ${show(bar.standOff)} from wood to bar, by hand at the last: a lag bolt that is driven on strips its thread.`,
      `Set one stop ${show(stops.at[0])} from the left end of the track to its middle; the other goes on when the doors hang.`,
    ],
    {
      parts: marks,
      hardware: hardwareOf([track.on], input),
      cautions: [
        "The bar falls on whoever is below: two people hold it until two bolts are in. Eye protection; the drill's manual and the hardware's own paper come first.",
      ],
    },
  );
}

function hang(track: SetTrack, input: StepsInput): Draft {
  const { unit, assemblies } = input;
  const show = (length: Mm): string => formatLengthWithUnit(length, unit);
  const { hangers, doors, stops } = track;
  const heights = [...new Set(doors.map(({ assembly }) => assemblies.find(({ name }) => name === assembly)!.size[2]))];
  const rear = doors.filter((one) => one.track === 1);
  const front = doors.filter((one) => one.track === 2);
  const knobs = new Map<string, string[]>();
  for (const { assembly, knobs: all } of doors) {
    for (const [x, z] of all) {
      const where = `${show(x)} from its left edge, ${show(z)} from its lower end`;
      knobs.set(where, [...(knobs.get(where) ?? []), assembly]);
    }
  }
  return step(
    `Hang the doors of ${track.case} on ${track.tracks === 1 ? "the track" : "their tracks"}`,
    [
      ...[...knobs].map(([where, on]) => `Screw a knob on ${listInWords(on)}, ${where}.`),
      `Bolt two hangers on each door, its upper edge ${show(hangers.drop)} below the bar when it hangs; the doors are ${listInWords(heights.map(show))} high.`,
      `${front.length === 0 ? "" : `Those of the rear track first, ${listInWords(rear.map(({ assembly }) => assembly))}. `}Lift each ${show(hangers.lift)} over the bar and let its wheels down on it, from left to right in the order of the drawing; then set the second stop, ${show(track.length - stops.at[1])} from the right end to its middle.`,
      ...doors.map(
        ({ assembly, from, to, closed }) =>
          `${capital(assembly)}: left edge ${show(closed)} from the track's left end when closed, ${show(from)} when all are pushed left, ${show(to)} when all are pushed right.`,
      ),
    ],
    {
      parts: marksOf(partsOf(track, input)),
      beside: track.bolts.at.flatMap(({ mark }) => mark ?? []),
      hardware: hardwareOf(
        doors.map(({ assembly }) => assembly),
        input,
      ),
      boxes: doors.map(({ assembly, closed }) => ({ label: `${assembly} closed, left edge`, target: closed })),
      cautions: [
        "Two people lift a door. Without both stops and its guides a door runs off the track: never leave it so. Keep fingers clear of the wheels and of the edges that meet.",
      ],
    },
  );
}

function setGuides(track: SetTrack, input: StepsInput): Draft {
  const { unit, parts } = input;
  const show = (length: Mm): string => formatLengthWithUnit(length, unit);
  const { guides } = track;
  const marks = [...new Set(guides.at.flatMap(({ mark }) => mark ?? []))];
  const rows = ([1, 2] as const).flatMap((n) => {
    const own = guides.at.filter((one) => one.track === n);
    if (own.length === 0) return [];
    const which = track.tracks === 1 ? "" : n === 1 ? " of the rear track" : " of the front track";
    return [`Middles of the guides${which}: ${listInWords(own.map(({ at }) => show(at)))} from the track's left end.`];
  });
  return step(
    `Set the guides of ${track.case}`,
    [
      `With the doors hanging plumb, screw the guides to ${listOf(marks, byMarkIn(parts))} below them, a cheek in front and one behind, free of the door by the thickness of a card on either side.`,
      ...rows,
      "Push every door from end to end: it touches no neighbour, no knob and not the front, and a guide holds it everywhere on its way, as the dry fit found.",
    ],
    { parts: marks, beside: marksOf(partsOf(track, input)) },
  );
}
