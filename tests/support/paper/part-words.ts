/** What a part drawing says in words: the caption over a part, and its notes, sentence by sentence. A sentence that cannot be read is an error. */
import { boltsNote } from "./bolts.ts";
import { saidBy, soldBore } from "./figure.ts";
import type { Caption, Note, Said, Seat, Stop } from "./notes.ts";

const F = "\\(?<[^>]+>\\)?";
const LIST = `\\(?${F}(?:, ${F})*(?: and ${F})?\\)?`;
const MARKS = "\\d+(?:(?:, | and )\\d+)*";
const FACE =
  "(?:(?:left|right|front|back|bottom|top|inside|outside|upper|lower) (?:end|edge|face)(?: before lipping)?)";
const GOOD = "(?:left|right|front|back|bottom|top|inside|outside|upper|lower)";

const marksOf = (text: string | undefined): string[] => text?.match(/\d+/g) ?? [];
const facesOf = (text: string): string[] => text.match(new RegExp(FACE, "g")) ?? [];

function said(text: string): Said {
  const value = saidBy(/<([^>]+)>/.exec(text)![1]!);
  if (value === null) throw new Error(`no figure: ${text}`);
  return { value, check: text.includes("(") };
}
const figure = (text: string): number => said(text).value;
const list = (text: string): Said[] => {
  const check = text.startsWith("(");
  return (text.match(/<[^>]+>/g) ?? []).map((one) => ({ value: figure(one), check }));
};

/** "8 mm (0.315)": a bit by its own size, and what that is in the page's unit. */
const BORE = `(${F})(?: (mm|in) (${F}))?`;

function boreOf(diameter: string, sold: string | undefined, again: string | undefined): number {
  return sold === undefined ? figure(diameter) : soldBore(figure(diameter), sold as "mm" | "in", figure(again!));
}

const CAPTION = new RegExp(
  `^(\\d+(?:, \\d+)*) ([^<:]+?) make (\\d+), (has no hand|left hand, L|right hand, R)(?: · scale ([^<]+?))? (${F}) × (${F}) (mm|in), thick (${F}) · (.+?) · (grain lengthwise|no grain)(?: · good face: ${GOOD}(?: and ${GOOD})*)?`,
);

const SEAT = new RegExp(
  `^(${FACE} into ${MARKS}(?:(?:, | and )${FACE} into ${MARKS})*), (${F}) deep, (?:no gap|gap (${F}) (to slip|from rounding))$`,
);

function seatOf(text: string): Seat {
  const match = SEAT.exec(text);
  if (match === null) throw new Error(`not read: ${text}`);
  const [, ends, depth, gap, why] = match;
  return {
    ends: [...ends!.matchAll(new RegExp(`(${FACE}) into (\\d+(?:(?:, | and )\\d+)*)`, "g"))].map(([, end, into]) => ({
      end: end!,
      into: marksOf(into),
    })),
    depth: figure(depth!),
    gap: gap === undefined ? 0 : figure(gap),
    slip: why === "to slip",
  };
}

function stopsOf(text: string): Stop[] {
  const stops = text.matchAll(
    new RegExp(`stopped (?:(${F}) from|short of) the (${FACE})|at the (${FACE}) into the groove of (\\d+)`, "g"),
  );
  return [...stops].map(([, by, end, into, of]) => ({
    end: (end ?? into)!,
    by: by === undefined ? null : said(by),
    into: of ?? null,
  }));
}

const STOP = `(?:stopped (?:${F} from|short of) the ${FACE}|at the ${FACE} into the groove of \\d+)`;

/** Each kind of sentence, and what it says. */
const SENTENCES: readonly (readonly [RegExp, (match: string[]) => Note])[] = [
  [
    new RegExp(
      `^(?:(${MARKS}): )?(groove|rabbet|shoulder|lap)( along the length)?(?: in the (${FACE}))?, (${F}) wide, (${F}) deep,(?: leaving a tongue (${F}) thick,)?(?: (${F}) from the (${FACE}),)? (through|halved with it|${STOP}(?: and ${STOP})?)`,
    ),
    ([, marks, kind, along, face, width, depth, tongue, by, from, stops]) => ({
      kind: kind as "groove",
      marks: marksOf(marks),
      along: along === undefined ? "w" : "l",
      face: face ?? null,
      width: said(width!),
      depth: figure(depth!),
      tongue: tongue === undefined ? null : said(tongue),
      from: by === undefined ? null : { by: figure(by), face: from! },
      stops: stopsOf(stops!),
    }),
  ],
  [
    new RegExp(
      `^Notch (${F}) along, (${F}) across(, behind the lipping)?: (${FACE} at the ${FACE} \\([^)]*\\)(?:; ${FACE} at the ${FACE} \\([^)]*\\))*)`,
    ),
    ([, along, across, behind, corners]) => ({
      kind: "notch",
      behind: behind !== undefined,
      along: said(along!),
      across: said(across!),
      corners: [...corners!.matchAll(new RegExp(`(${FACE}) at the (${FACE}) \\(([^)]*)\\)`, "g"))].map(
        ([, end, edge, reason]) => ({ end: end!, edge: edge!, reason: reason! }),
      ),
    }),
  ],
  [
    new RegExp(`^(\\d+): (${F}) more left at the (${FACE}), to scribe to the wall`),
    ([, mark, more, edge]) => ({ kind: "scribe", mark: mark!, more: figure(more!), edge: edge! }),
  ],
  [
    new RegExp(
      `^Moulded, (roundover|chamfer|ogee)(?: of radius)? (${F}) along the (${FACE}(?:(?:, | and )${FACE})*), from the (${FACE})`,
    ),
    ([, shape, radius, edges, face]) => ({
      kind: "moulded",
      shape: shape!,
      radius: figure(radius!),
      edges: facesOf(edges!),
      face: face!,
    }),
  ],
  [
    new RegExp(`^Cut out of the (${FACE})(, an arch)? \\(template with the sticks\\)`),
    ([, edge, arch]) => ({ kind: "cut out", edge: edge!, arch: arch !== undefined }),
  ],
  [
    new RegExp(`^Mitre, 45°, along the (${FACE}), its point on the (${FACE})`),
    ([, edge, face]) => ({ kind: "mitre", edge: edge!, face: face! }),
  ],
  [
    new RegExp(
      `^(${MARKS}): (\\d+) mortises? in the (${FACE}), (${F}) wide(?: in the middle of the thickness|, (${F}) from the (${FACE}), ends square), (${F}) deep(?: \\(the longer ones? (?:is|are) slotted\\))?`,
    ),
    ([, marks, count, face, width, by, from, depth]) => ({
      kind: "mortises",
      from: by === undefined ? null : { by: figure(by), face: from! },
      marks: marksOf(marks),
      count: Number(count),
      face: face!,
      width: figure(width!),
      depth: figure(depth!),
    }),
  ],
  [
    new RegExp(
      `^(${MARKS}): (\\d+) (sockets for )?tails? at the (${FACE}(?: and ${FACE})?), baseline (${F}) from (?:it|each); in the (${FACE}), from the (${FACE}), (${F} to ${F}(?: and ${F} to ${F})*) ?;(?: pins from (${F}) ?;)? slope 1 in (\\d+) \\(full size with the sticks\\)`,
    ),
    ([, marks, count, pins, ends, baseline, tips, edge, tails, low, slope]) => ({
      kind: "dovetail",
      marks: marksOf(marks),
      has: pins === undefined ? "tails" : "pins",
      count: Number(count),
      ends: facesOf(ends!),
      baseline: figure(baseline!),
      tips: tips!,
      edge: edge!,
      tails: [...tails!.matchAll(new RegExp(`(${F}) to (${F})`, "g"))].map(([, from, to]): [number, number] => [
        figure(from!),
        figure(to!),
      ]),
      low: low === undefined ? 0 : figure(low),
      slope: Number(slope),
    }),
  ],
  [
    new RegExp(
      `^(${MARKS}): lines? on the (${FACE}), ([^:<]+?), from (${F}) to (${F}) from the (${FACE}); (\\d+) screws(?: each,)? or where the slide itself has its holes`,
    ),
    ([, marks, face, what, from, to, end, screws]) => ({
      kind: "lines",
      marks: marksOf(marks),
      face: face!,
      what: what!,
      from: figure(from!),
      to: figure(to!),
      end: end!,
      screws: Number(screws),
    }),
  ],
  [
    new RegExp(
      `^(${MARKS}): ([a-z][^;<]*?)(?: to the (${FACE}))?(?:, (?:(\\d+) screws?(?: each)?(?: (${F}) apart)?(?: at (${LIST}) from the (${FACE}))?|spaced as the purchase list says))?; (?:its|their) (near|far) faces? (${LIST})(?:, the screws (${LIST}),)? from the (${FACE})`,
    ),
    ([, marks, how, face, screws, apart, places, end, which, near, lines, edge]) => ({
      kind: "fixed",
      marks: marksOf(marks),
      how: how!,
      face: face ?? null,
      screws: screws === undefined ? null : Number(screws),
      apart: apart === undefined ? null : figure(apart),
      row: places === undefined ? null : { places: list(places).map(({ value }) => value), end: end! },
      near: list(near!).map(({ value }) => value),
      lines: lines === undefined ? null : list(lines).map(({ value }) => value),
      isFar: which === "far",
      edge: edge!,
      isTabled: false,
    }),
  ],
  [
    new RegExp(
      `^(?:(\\d+) rows of )?(\\d+) holes? for (.+?) in the (${FACE}), ${BORE} across, (?:(${F}) deep|right through)(?:, every (${F}) from the first)?(?:, (${F}) from the (${FACE}))?`,
    ),
    ([, rows, count, what, face, diameter, sold, again, depth, pitch, off, edge]) => ({
      kind: "holes",
      rows: rows === undefined ? 1 : Number(rows),
      count: Number(count),
      what: what!,
      face: face!,
      diameter: boreOf(diameter!, sold, again),
      depth: depth === undefined ? null : figure(depth),
      pitch: pitch === undefined ? null : figure(pitch),
      off: off === undefined ? null : { by: figure(off), from: edge! },
    }),
  ],
  [
    /^(\d+) (?:slot or hole|slots and holes) for the screws of (\d+): set out as its drawing of slots says/,
    ([, count, of]) => ({ kind: "slots", count: Number(count), of: of! }),
  ],
  [
    new RegExp(`^(?:${MARKS}: held|Held) by (.+?) through (${MARKS})\\.`),
    ([, how, by]) => ({ kind: "held", how: how!, by: marksOf(by) }),
  ],
  [
    new RegExp(
      `^(?:(${MARKS}) (?:go|goes) in:|Goes in:) (${FACE} into .+? (?:no gap|to slip|from rounding)(?:; ${FACE} into .+? (?:no gap|to slip|from rounding))*)`,
    ),
    ([, marks, seats]) => ({
      kind: "seats",
      marks: marks === undefined ? null : marksOf(marks),
      seats: seats!.split("; ").map(seatOf),
    }),
  ],
  [
    new RegExp(`^(?:(${MARKS}) stands? back:|Stands back:) its front edge (${F}) behind (?:that|those) of (${MARKS})`),
    ([, marks, by, behind]) => ({
      kind: "back",
      marks: marks === undefined ? null : marksOf(marks),
      by: figure(by!),
      behind: marksOf(behind),
    }),
  ],
  [
    new RegExp(
      `^Lipping, (.+?), (${F}) thick, (${F}) long, on the (${FACE}) (?:from end to end|from (${F}) to (${F}) from the (${FACE})|from (${F}) from the (${FACE}) to the ${FACE}|from the (${FACE}) to (${F}) from there): put on (before|after) the grooves are cut`,
    ),
    ([, what, thickness, length, edge, from, to, end, start, low, lowest, until, when]) => ({
      kind: "lipping",
      what: what!,
      thickness: figure(thickness!),
      length: said(length!),
      edge: edge!,
      when: when as "before",
      run:
        (end ?? low ?? lowest) === undefined
          ? null
          : {
              from: (from ?? start) === undefined ? null : figure((from ?? start)!),
              to: (to ?? until) === undefined ? null : figure((to ?? until)!),
              end: (end ?? low ?? lowest)!,
            },
    }),
  ],
  [
    new RegExp(
      `^Bolts of ([^:<]+): (\\d+) on the (${FACE}), (${F}) from the (${FACE}), at (${LIST}) from the (${FACE}); each (${F}) thick goes in (${F})( from there, into what lies behind too: drill on when the parts are together)?`,
    ),
    (match) => boltsNote(match, (text) => list(text).map(({ value }) => value)),
  ],
  [
    new RegExp(`^Panel cut to (${F}) × (${F})`),
    ([, length, width]) => ({ kind: "panel", length: said(length!), width: said(width!) }),
  ],
  [/^(\d+): (?:web between grooves back to back|tongue), full size/, ([, of]) => ({ kind: "detail", of: of! })],
  [/^Details at full size: on the drawing with details of part \d+\./, () => ({ kind: "elsewhere" })],
  [/^On \d+[^:]*: [^.]+\./, () => ({ kind: "alike" })],
  [/^Mating marks(?: of \d+)?, joints: [^.]+\./, () => ({ kind: "mating" })],
  [/^Measured from (.+?)\./, ([, faces]) => ({ kind: "datum", faces: facesOf(faces!) })],
];

/** The text of a block as captions and notes, in their order. */
export function readPartWords(text: string): { captions: Caption[]; notes: Note[] }[] {
  const heaps: { captions: Caption[]; notes: Note[] }[] = [];
  let rest = text.trim();
  while (rest !== "") {
    const caption = CAPTION.exec(rest);
    if (caption !== null) {
      if (heaps.length === 0 || heaps.at(-1)!.notes.length > 0) heaps.push({ captions: [], notes: [] });
      const [all, marks, name, count, hand, scale, length, width, unit, thickness, stock, grain] = caption;
      heaps.at(-1)!.captions.push({
        marks: marksOf(marks),
        name: name!,
        count: Number(count),
        hand: hand === "has no hand" ? null : hand === "left hand, L" ? "left" : "right",
        scale: scale ?? null,
        length: figure(length!),
        width: figure(width!),
        unit: unit!,
        thickness: figure(thickness!),
        stock: stock!,
        grain: grain === "grain lengthwise",
      });
      rest = rest.slice(all.length).trim();
      continue;
    }
    const [sentence, read] = SENTENCES.find(([one]) => one.test(rest)) ?? [];
    if (sentence === undefined || read === undefined) throw new Error(`not read: ${rest}`);
    const match = sentence.exec(rest)!;
    if (heaps.length === 0) heaps.push({ captions: [], notes: [] });
    heaps.at(-1)!.notes.push(read([...match]));
    rest = rest.slice(match[0].length).trim();
  }
  return heaps;
}
