/** Doors on tracks: do the hangers carry them, does the rail take the track, is there room behind, below and above, and what can be open at once? */

import { SAME } from "../../base/length.ts";
import { listInWords } from "../../base/words.ts";
import { BOLT_EDGE, TRACK_BELOW, TRACK_CLEAR } from "../../project/track-defaults.ts";
import { massOf } from "../../set/mass.ts";
import type { SetAssembly, SetCheck, SetPart, SetTrack } from "../../set/schema.ts";
import { formatMass } from "../../set/words.ts";
import { blankOf, type CheckInput, capital, checkOf, moved, nameOf, PRACTICE, shown } from "./input.ts";

export const checkTracks = (input: CheckInput): SetCheck[] =>
  input.tracks.flatMap((track) => [
    ...checkHangers(track, input),
    ...checkRail(track, input),
    checkRoom(track, input),
    ...checkWorktop(track, input),
    checkOpen(track),
  ]);

const assemblyOf = ({ assemblies }: CheckInput, name: string): SetAssembly =>
  assemblies.find((one) => one.name === name)!;

const partsOf = (track: SetTrack, { parts }: CheckInput): SetPart[] =>
  parts.filter(({ assembly }) => track.doors.some((door) => door.assembly === assembly));

/** Two hangers share a door's weight evenly. */
function checkHangers({ doors, hangers, knob }: SetTrack, { parts, unit }: CheckInput): SetCheck[] {
  const rule = `a hanger carries what its maker states, and each of two half the door (${PRACTICE})`;
  const weighed = doors.map(({ assembly }) => {
    const own = parts.filter((part) => part.assembly === assembly);
    return { assembly, marks: own.map(({ mark }) => mark), mass: massOf(own) };
  });
  const without = knob === null ? "" : " without its knob";
  const heavy = weighed.filter(({ mass }) => mass > 2 * hangers.rating);
  if (heavy.length > 0)
    return heavy.map(({ assembly, marks, mass }) =>
      checkOf("track-weight", "failure", marks, {
        text: `${capital(assembly)} weighs ${formatMass(mass, unit)}${without}; its two hangers are rated for ${formatMass(2 * hangers.rating, unit)} together, ${formatMass(mass - 2 * hangers.rating, unit)} less.`,
        rule,
        change: `hangers rated for ${formatMass(Math.ceil(mass * 5) / 10, unit)} each, or a lighter door`,
      }),
    );
  const most = weighed.reduce((a, b) => (b.mass > a.mass ? b : a));
  return [
    checkOf("track-weight", "ok", most.marks, {
      text: `The heaviest door, ${most.assembly}, weighs ${formatMass(most.mass, unit)}${without}; its two hangers are rated for ${formatMass(2 * hangers.rating, unit)} together.`,
      rule,
    }),
  ];
}

/** The bar lies on its top rail, and its bolts stand off the rail's edges. */
function checkRail(track: SetTrack, input: CheckInput): SetCheck[] {
  const { unit } = input;
  const { bar, bolts, at, hangers } = track;
  const rail = input.parts.find(({ key }) => key === `${track.on}/rail-top`);
  const box = rail === undefined ? null : blankOf(rail);
  if (rail === undefined || box === null) return [];
  const { place } = assemblyOf(input, track.on);
  const [low, high] = [box[0][2] + place.at[2], box[1][2] + place.at[2]];
  const half = Math.max(bar.height / 2, BOLT_EDGE * bolts.diameter);
  const over = at[2] + half - high;
  const under = low - (at[2] - half);
  const hanger = at[2] + bar.height / 2 + hangers.above - high;
  const rule = `the bar lies on the rail, and its bolts have one and a half diameters of wood round their middles (National Design Specification for Wood Construction 2018, table 12.5.1C; from memory)`;
  const short = Math.max(over, under);
  if (short > SAME)
    return [
      checkOf("track-rail", "failure", [rail.mark], {
        text: `The track stands ${shown(short, unit)} ${over > under ? "above the upper" : "below the lower"} edge of ${nameOf(rail)}, which is ${shown(high - low, unit)} wide.`,
        rule,
        change:
          over > under
            ? `a "topRail" of ${shown(high - low + short, unit)} or more, or less "above", "drop" or height of the bar`
            : 'more "above" or "drop"',
      }),
    ];
  return [
    checkOf("track-rail", "ok", [rail.mark], {
      text: `${capital(nameOf(rail))}, ${shown(high - low, unit)} wide, takes the bar, ${shown(-over, unit)} below its upper edge; the hangers ${hanger > SAME ? `stand ${shown(hanger, unit)} above it` : `end ${shown(-hanger, unit)} below it`}.`,
      rule,
    }),
  ];
}

/** Behind the doors, and below them. */
function checkRoom(track: SetTrack, input: CheckInput): SetCheck {
  const { assemblies, unit } = input;
  const doors = track.doors.map((door) => ({ door, assembly: assemblyOf(input, door.assembly) }));
  const home = assemblyOf(input, track.case);
  const fronts = assemblies.filter(
    ({ kind, place, size }) =>
      kind !== "door" &&
      kind !== "worktop" &&
      place.at[0] < home.place.at[0] + home.size[0] &&
      place.at[0] + size[0] > home.place.at[0],
  );
  const front = Math.min(...fronts.map(({ place }) => place.at[1]));
  const behind = Math.min(...doors.map(({ assembly: { place, size } }) => front - (place.at[1] + size[1])));
  const floor = Math.min(...assemblies.map(({ place }) => place.at[2]));
  const below = Math.min(...doors.map(({ assembly }) => assembly.place.at[2])) - floor;
  const marks = partsOf(track, input).map(({ mark }) => mark);
  const rule = `a hanging door sways: ${shown(TRACK_CLEAR, unit)} behind it at least (${PRACTICE}), and ${shown(TRACK_BELOW, unit)} below; about 1/2 in below and a guide (trade magazines)`;
  const text = `The doors of ${track.case} ${behind > -SAME ? `hang ${shown(Math.max(0, behind), unit)} before its front and` : `would stand ${shown(-behind, unit)} in its front and hang`} ${shown(Math.max(0, below), unit)} above the floor.`;
  const closer = TRACK_CLEAR - behind;
  const lower = TRACK_BELOW - below;
  if (closer > SAME || lower > SAME)
    return checkOf("track-room", "warning", marks, {
      text,
      rule,
      change: listInWords([
        ...(closer > SAME ? [`a "standOff" longer by ${shown(closer, unit)}`] : []),
        ...(lower > SAME ? [`less "below", by ${shown(lower, unit)}, or a higher bottom`] : []),
      ]),
    });
  return checkOf("track-room", "ok", marks, { text, rule });
}

/** Where a worktop stands out over the way of the hangers, and what that leaves to lift a door on; the dry fit fails what is too little. */
function checkWorktop(track: SetTrack, input: CheckInput): SetCheck[] {
  const { unit, assemblies, parts } = input;
  const { hangers, bar, at } = track;
  const doors = track.doors.map(({ assembly }) => assemblyOf(input, assembly));
  const rear = Math.max(...doors.map(({ place, size }) => place.at[1] + size[1]));
  const top = at[2] + bar.height / 2 + hangers.above;
  const rule = `a door is lifted ${shown(hangers.lift, unit)} over its track (as the job states it)`;
  return assemblies
    .filter(({ kind }) => kind === "worktop")
    .flatMap((one): SetCheck[] => {
      const own = parts.find(({ assembly }) => assembly === one.name)!;
      const box = moved(blankOf(own)!, one.place.at);
      const isOver = box[1][0] > at[0] && box[0][0] < at[0] + track.length && box[1][2] > top;
      if (!isOver) return [];
      const out = rear - box[0][1];
      const free = box[0][2] - top;
      const text =
        out <= SAME
          ? `${capital(nameOf(own))} ends ${shown(-out, unit)} behind the hangers of ${track.case}: the doors are lifted on before it.`
          : `${capital(nameOf(own))} stands out ${shown(out, unit)} over the hangers of ${track.case}, ${free >= 0 ? shown(free, unit) : "nothing"} above them.`;
      return [checkOf("track-worktop", "ok", [own.mark], { text, rule })];
    });
}

function checkOpen({ case: home, together, openings, passing, doors }: SetTrack): SetCheck {
  const rule = "doors of one track keep their order, and pushed together they still stand before something";
  const name = (i: number): string => `"${openings[i]!.name}"`;
  if (together.length > 0)
    return checkOf("track-open", "ok", [], {
      text: `Of ${home} can be open at one time: ${together.map(({ open }) => listInWords(open.map(name))).join("; or ")}.`,
      rule,
    });
  return checkOf("track-open", passing ? "ok" : "warning", [], {
    text: passing
      ? `The ${doors.length} doors of ${home} pass each other: part of its front is always closed.`
      : `No bay of ${home} can be all clear: its doors have nowhere to go.`,
    rule,
    change: passing ? null : 'fewer doors, one of them on a second track, or "reach" beyond the bays',
  });
}
