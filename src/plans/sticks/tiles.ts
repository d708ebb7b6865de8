/** Sticks cut into tiles that fit the shop's paper, and the tiles laid on pages. */
import { isSame, MM_PER_INCH, type Mm } from "../../base/length.ts";
import { ProblemsFound } from "../../base/problem.ts";
import type { DryfitSet, SetReprint, SetStick } from "../../set/schema.ts";
import { correction, FIRST_TILE_PAGE, longestOnRoll, OVERLAP, onPage, stickPage } from "../../set/stick-page.ts";

type Mark = SetStick["marks"][number];

/** No end of a tile and no join line comes nearer to a wall than this: scissors wander a millimetre. */
const CLEAR: Mm = 3;

/** As far as it can be had up to this, a join keeps from every wall and end, so that both are lettered in the open. */
const OPEN: Mm = 35;

/**
 * Join lines fall on whole half inches or centimetres, so that the running distance is a plain figure in what the job is
 * rounded to. The rounding step decides, not the unit: the same job read in the other unit has the same tiles.
 */
const HALF_INCH: Mm = MM_PER_INCH / 2;
const CENTIMETRE: Mm = 10;
const plainStep = (step: Mm): Mm => (isWhole((step * 64) / MM_PER_INCH) ? HALF_INCH : CENTIMETRE);
const isWhole = (value: number): boolean => isSame(value, Math.round(value));
const FINE_STEP: Mm = 0.5;

/** A tile shorter than this is no use: it could not be joined at both ends. */
const LEAST_TILE = 3 * OVERLAP;

/** What the check bars need of the page: 4 in and a little. */
const LEAST_RUN: Mm = 110;

export type Cut = { from: Mm; to: Mm };

export function layTiles(
  sticks: SetStick[],
  set: Pick<DryfitSet, "paper" | "job">,
  reprint: SetReprint | null = null,
): SetStick[] {
  const page = stickPage(set.paper);
  const run = page.run.to - page.run.from;
  if (run < LEAST_RUN || page.short < LEAST_RUN + 2 * page.margin.v || page.strip < 30) throw paperTooSmall(set);
  const isPrinted = ({ name }: SetStick): boolean => reprint === null || reprint.sticks.includes(name);
  const cut = (stick: SetStick, most: Mm): Cut[] =>
    isPrinted(stick) ? cutStick(stick, most, plainStep(set.job.step)) : [];
  let row = 0;
  return sticks.map((stick) => ({
    ...stick,
    print: correction(set.paper.print),
    long: cut(stick, longestOnRoll(set.paper)),
    tiles: cut(stick, run).map((tile) => {
      const top = page.rows[row % page.rows.length]!;
      const number = FIRST_TILE_PAGE + Math.floor(row / page.rows.length);
      row += 1;
      return { page: number, ...tile, ...onPage(page, page.run.from, top + page.strip / 2), direction: page.direction };
    }),
  }));
}

/** Tiles of at most `run`, about equally long, joined where there is room between the marks. */
export function cutStick(stick: Pick<SetStick, "name" | "length" | "marks">, run: Mm, plainAt: Mm): Cut[] {
  const cuts: Cut[] = [];
  let from = 0;
  while (stick.length - from > run) {
    const join = joinAt(stick, from, run, plainAt);
    cuts.push({ from, to: join + OVERLAP / 2 });
    from = join - OVERLAP / 2;
  }
  return [...cuts, { from, to: stick.length }];
}

/** Where the next join line falls: first choice with the whole overlap clear of marks, then with only its cuts clear; at last clear of walls and ends, among holes that stand too close for it. */
function joinAt(stick: Pick<SetStick, "name" | "length" | "marks">, from: Mm, run: Mm, plainAt: Mm): Mm {
  const left = Math.ceil((stick.length - from - OVERLAP) / (run - OVERLAP));
  const even = from + (stick.length - from + (left - 1) * OVERLAP) / left - OVERLAP / 2;
  const most = Math.min(from + run, stick.length) - OVERLAP / 2;
  const keepsCount = (join: Mm): boolean =>
    stick.length - (join - OVERLAP / 2) <= (left - 1) * (run - OVERLAP) + OVERLAP;
  const choices = (step: Mm): Mm[] => {
    const first = Math.ceil((from + LEAST_TILE) / step);
    const count = Math.floor(most / step) - first + 1;
    return Array.from({ length: Math.max(0, count) }, (_, i) => (first + i) * step).sort(
      (a, b) => Number(keepsCount(b)) - Number(keepsCount(a)) || Math.abs(a - even) - Math.abs(b - even) || a - b,
    );
  };
  const plain = choices(plainAt);
  const walls = stick.marks.filter(({ kind }) => kind !== "line");
  const clear = plain.filter((join) => isClear(stick.marks, join - OVERLAP / 2, join + OVERLAP / 2, CLEAR));
  const found =
    mostOpen(clear.filter(keepsCount), walls) ??
    clear[0] ??
    [stick.marks, walls]
      .flatMap((marks) =>
        [...plain, ...choices(FINE_STEP)].filter((join) =>
          [-OVERLAP / 2, 0, OVERLAP / 2].every((shift) => isClear(marks, join + shift, join + shift, CLEAR)),
        ),
      )
      .at(0);
  if (found === undefined) throw noRoomToJoin(stick, from, run);
  return found;
}

/** The first that is in the open, else the one farthest from the walls beside it. */
function mostOpen(joins: readonly Mm[], walls: readonly Mark[]): Mm | undefined {
  const openness = joins.map((join) => Math.min(OPEN, roomBeside(join, walls)));
  return joins[openness.indexOf(Math.max(...openness))];
}

const roomBeside = (join: Mm, walls: readonly Mark[]): Mm =>
  Math.min(...walls.map(({ at, width }) => Math.max(at - join, join - at - width) - OVERLAP / 2));

const isClear = (marks: Mark[], from: Mm, to: Mm, by: Mm): boolean =>
  marks.every((mark) => mark.at - by > to || mark.at + mark.width + by < from);

const noRoomToJoin = (stick: Pick<SetStick, "name">, from: Mm, run: Mm): ProblemsFound =>
  new ProblemsFound([
    {
      level: "error",
      kind: "design",
      where: null,
      found: `the grooves on the stick "${stick.name}" leave no place to join two pages between ${Math.round(from)} and ${Math.round(from + run)} mm`,
      expected: `somewhere 2 x ${CLEAR} mm without a groove wall`,
      remedy: "choose a longer paper for the sticks",
    },
  ]);

const paperTooSmall = (set: Pick<DryfitSet, "paper">): ProblemsFound =>
  new ProblemsFound([
    {
      level: "error",
      kind: "input",
      where: null,
      found: `paper for the sticks of ${set.paper.sticks.width} x ${set.paper.sticks.height} mm`,
      expected: "paper that holds a 4 in check bar both ways, such as A5 or larger",
      remedy: "choose a larger paper for the sticks",
    },
  ]);
