/** A part while it is read from its drawing. */

import type { Face } from "../../../../src/set/schema.ts";
import type { DimensionRow } from "../dimensions.ts";
import type { Caption, Note } from "../notes.ts";
import { isLevel, isUpright, type Spot, type Stroke } from "../page.ts";
import type { FaceView, PartPage, Side } from "../part-views.ts";
import { ONE_LINE, Places } from "../places.ts";

export type Axis = "l" | "w";
export type Of<K extends Note["kind"]> = Extract<Note, { kind: K }>;

/** Two figures for one length, each rounded as printed, may differ so much. */
export const PRINTED = { mm: 0.0101, in: 0.00101 };

export const same = (a: number, b: number): boolean => Math.abs(a - b) < ONE_LINE;

const OPPOSITE: Record<string, string> = {
  left: "right",
  right: "left",
  front: "back",
  back: "front",
  bottom: "top",
  top: "bottom",
  inside: "outside",
  outside: "inside",
  upper: "lower",
  lower: "upper",
};
const opposite = (name: string): string => name.replace(/^\w+/, (word) => OPPOSITE[word] ?? word);
const across = (face: Face): Face => `${face[0]}${face[1] === "0" ? "1" : "0"}` as Face;
const plain = (name: string): string => name.replace(" before lipping", "");

/** A view with the faces of the part at its sides, and its places along the part's own axes. */
export type Placed = FaceView & { top: Face; at: (axis: Axis, paper: number) => number; lines: Record<Axis, number[]> };

/** A part while it is read: its views, what its sides are called, and the places along it that its figures tell. */
export class Reading {
  readonly page: PartPage;
  readonly caption: Caption;
  readonly notes: Note[];
  readonly views: Placed[];
  readonly names: Partial<Record<Face, string>> = {};
  readonly places: Record<Axis, Places>;
  readonly faults: string[] = [];
  readonly size: Record<Axis, number>; // on paper
  readonly #isLying: boolean;
  constructor(page: PartPage, caption: Caption, notes: Note[]) {
    this.page = page;
    this.caption = caption;
    this.notes = notes;
    const own = page.faces.filter(({ mark }) => mark === caption.marks[0]);
    if (own.length === 0) throw new Error(`no view is named for part ${caption.marks[0]}`);
    this.#isLying = liesIn(own[0]!, caption);
    this.views = own.map((view, i) => this.#place(view, i === 0 ? "t1" : "t0"));
    const within = PRINTED[page.unit];
    this.places = {
      l: new Places(`${caption.marks[0]} along`, within),
      w: new Places(`${caption.marks[0]} across`, within),
    };
    const { x0, x1, y0, y1 } = own[0]!.outline;
    this.size = this.#isLying ? { l: x1 - x0, w: y1 - y0 } : { l: y1 - y0, w: x1 - x0 };
    this.#nameOthers();
  }

  /** Which of paper's ways the axis runs. */
  way = (axis: Axis): "x" | "y" => ((axis === "l") === this.#isLying ? "x" : "y");

  #place(view: FaceView, top: Face): Placed {
    const { x0, x1, y0, y1 } = view.outline;
    const isFirst = top === "t1";
    const sides: Record<Side, Face> = this.#isLying
      ? { left: "l0", right: "l1", below: isFirst ? "w0" : "w1", above: isFirst ? "w1" : "w0" }
      : { below: "l0", above: "l1", right: isFirst ? "w0" : "w1", left: isFirst ? "w1" : "w0" };
    for (const [side, name] of Object.entries(view.sides)) this.#name(sides[side as Side], name);
    if (view.face !== null) this.#name(top, view.face);
    const at = (axis: Axis, paper: number): number => {
      const low = Object.entries(sides).find(([, face]) => face === `${axis}0`)![0] as Side;
      return { left: paper - x0, right: x1 - paper, above: paper - y0, below: y1 - paper }[low];
    };
    const lines = (axis: Axis): number[] => (this.way(axis) === "x" ? view.outline.xs : view.outline.ys);
    return { ...view, top, at, lines: { l: lines("l"), w: lines("w") } };
  }

  #name(face: Face, name: string): void {
    const known = this.names[face];
    if (known !== undefined && known !== name)
      this.faults.push(`${this.caption.marks[0]}: one side is called ${known} and ${name}`);
    this.names[face] = name;
  }

  /** The far end of what is called left is its right one. */
  #nameOthers(): void {
    for (const face of ["l0", "l1", "w0", "w1", "t0", "t1"] as const) {
      const name = this.names[across(face)];
      if (this.names[face] === undefined && name !== undefined) this.names[face] = opposite(name);
    }
  }

  faceCalled(name: string): Face {
    const found = Object.entries(this.names).find(([, own]) => own === plain(name));
    if (found === undefined) throw new Error(`part ${this.caption.marks[0]}: nothing is called ${name}`);
    return found[0] as Face;
  }

  notesOf<K extends Note["kind"]>(...kinds: K[]): Of<K>[] {
    return this.notes.filter((note): note is Of<K> => kinds.includes(note.kind as K));
  }

  /** Something has an edge there: a line of its own to be told, unless it is the part's own end or edge. */
  own(axis: Axis, at: number, owner: string): void {
    if (at > ONE_LINE && at < this.size[axis] - ONE_LINE) this.places[axis].mark(at, owner);
  }

  tieRow(view: Placed, { way, dimensions }: DimensionRow): void {
    const axis: Axis = (way === "x") === this.#isLying ? "l" : "w";
    for (const { from, to, figure } of dimensions) {
      const [a, b] = [view.at(axis, from), view.at(axis, to)];
      this.places[axis].tie({
        from: Math.min(a, b),
        to: Math.max(a, b),
        value: figure.value,
        check: figure.check,
        what: figure.check ? "the check" : "the figure",
      });
    }
  }

  /** Views of the face a note speaks of; of the one face that is drawn, where it names none. */
  viewsOf(face: string | null): Placed[] {
    return face === null ? this.views : this.views.filter(({ top }) => this.names[top] === face);
  }

  value(axis: Axis, at: number): number {
    return this.places[axis].valueAt(at) ?? Number.NaN;
  }

  /** Lines inside a view, by their pens: where each lies and from where to where it runs. */
  inside(view: Placed, axis: Axis, isWanted: (stroke: Stroke) => boolean): { at: number; from: number; to: number }[] {
    const { x0, x1, y0, y1 } = view.outline;
    const way = this.way(axis);
    const other: Axis = axis === "l" ? "w" : "l";
    const i = way === "x" ? 0 : 1;
    return this.page.page.strokes
      .filter((one) => (way === "x" ? isUpright(one) : isLevel(one)) && isWanted(one))
      .filter(({ from, to }) =>
        [from, to].every(([x, y]) => x > x0 - 0.01 && x < x1 + 0.01 && y > y0 - 0.01 && y < y1 + 0.01),
      )
      .map(({ from, to }) => {
        const ends = [view.at(other, from[1 - i]!), view.at(other, to[1 - i]!)].sort((a, b) => a - b) as [
          number,
          number,
        ];
        return { at: view.at(axis, from[i]!), from: ends[0], to: ends[1] };
      });
  }

  /** A spot on paper, along the part's own axes. */
  spot(view: Placed, [x, y]: Spot): { l: number; w: number } {
    return { l: view.at("l", this.#isLying ? x : y), w: view.at("w", this.#isLying ? y : x) };
  }

  /** Paper to a unit of the part. */
  scale(): number {
    return this.size.l / this.caption.length;
  }
}

/** Ends are at its left and right where it lies; where none is named, the longer figure tells. */
function liesIn({ sides, outline: { x0, x1, y0, y1 } }: FaceView, { length, width }: Caption): boolean {
  for (const [side, name] of Object.entries(sides)) {
    const isLevel = side === "left" || side === "right";
    if (name!.endsWith("end")) return isLevel;
    return !isLevel;
  }
  return x1 - x0 > y1 - y0 === length > width;
}
