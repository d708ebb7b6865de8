/**
 * A part rebuilt from its drawing alone: what its caption, its views and its notes say. Its own axes are those of the
 * drawing: length to the right (or up, where it stands), width up (or to the left), the first face that is drawn uppermost.
 */
import type { Box } from "../../../src/base/geometry.ts";
import type { Face } from "../../../src/set/schema.ts";
import type { DimensionRow } from "./dimensions.ts";
import { cornersOut, isDrawn, type Outline } from "./outline.ts";
import { isDrawnWith, isLevel, isUpright, type Stroke } from "./page.ts";
import { type FaceView, type PartPage, type Side, wordsOfPage } from "./part-views.ts";
import { type Caption, type Note, readPartWords, type Said } from "./part-words.ts";
import { ONE_LINE, Places } from "./places.ts";

type Axis = "l" | "w";
type Of<K extends Note["kind"]> = Extract<Note, { kind: K }>;

export type ReadFeature = {
  kind: "groove" | "rabbet" | "shoulder" | "lap" | "notch" | "mortise";
  face: Face;
  along: "l" | "w" | "t";
  box: Box;
  holds: string | null;
  /** Which ends of a run lie short of the part's own. */
  short: [boolean, boolean];
};
export type ReadHole = { face: Face; at: [number, number, number]; diameter: number; depth: number };

export type ReadPart = {
  caption: Caption;
  notes: Note[];
  unit: "mm" | "in";
  step: number;
  /** What each end, edge and face is called. */
  names: Partial<Record<Face, string>>;
  features: ReadFeature[];
  holes: ReadHole[];
  /** Where the middles of what is fastened to it lie, and where screws are drawn. */
  fixed: { mark: string; axis: "l" | "w"; at: number }[];
  screws: { l: number; w: number }[];
  faults: string[];
};

const PRINTED = { mm: 0.0101, in: 0.00101 }; // two figures for one length, each rounded as printed, may differ so much

export function readParts(page: PartPage): ReadPart[] {
  return wordsFor(page).map(({ caption, notes }) => new PartReader(page, caption, notes).read());
}

/** Notes belong to the caption that they stand under; those that stand under one of a pair alone are for both. */
function wordsFor(page: PartPage): { caption: Caption; notes: Note[] }[] {
  type Heap = { captions: Caption[]; notes: Note[]; x0: number; y0: number };
  const heaps: Heap[] = [];
  const loose: Heap[] = [];
  wordsOfPage(page).forEach((text, i) => {
    const { x0, y0 } = page.prose[i]!;
    readPartWords(text).forEach((one, n) => {
      const heap = { ...one, x0, y0: y0 + n };
      (heap.captions.length > 0 ? heaps : loose).push(heap);
    });
  });
  for (const { notes, x0, y0 } of loose) {
    const [first] = notes;
    const own =
      first?.kind === "detail"
        ? heaps.filter(({ captions }) => captions.some(({ marks }) => marks[0] === first.of))
        : heaps.filter((heap) => Math.abs(heap.x0 - x0) < 1 && heap.y0 < y0).sort((a, b) => b.y0 - a.y0);
    if (own.length === 0) throw new Error(`notes under no caption: ${JSON.stringify(notes)}`);
    own[0]!.notes.push(...notes);
  }
  const all = heaps.flatMap(({ captions, notes, y0 }) => captions.map((caption) => ({ caption, notes, y0 })));
  return all.map((one) => {
    const mate = all.find(
      (other) => one !== other && one.notes.length === 0 && isPair(one.caption, other.caption) && one.y0 === other.y0,
    );
    return { caption: one.caption, notes: mate?.notes ?? one.notes };
  });
}

/** A left and a right one of the same name. */
const isPair = (a: Caption, b: Caption): boolean =>
  a.hand !== null &&
  b.hand !== null &&
  a.hand !== b.hand &&
  a.name.replace(/left|right/, "") === b.name.replace(/left|right/, "");

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
type Placed = FaceView & { top: Face; at: (axis: Axis, paper: number) => number; lines: Record<Axis, number[]> };

type ChannelNote = Of<"groove" | "rabbet" | "shoulder" | "lap">;
type Channel = {
  note: ChannelNote;
  holds: string | null;
  low: number;
  high: number;
  from: number;
  to: number;
  top: Face;
};

const isChannelNote = (note: Note): note is ChannelNote => ["groove", "rabbet", "shoulder", "lap"].includes(note.kind);

class PartReader {
  readonly #page: PartPage;
  readonly #caption: Caption;
  readonly #notes: Note[];
  readonly #views: Placed[];
  readonly #isLying: boolean;
  readonly #names: ReadPart["names"] = {};
  readonly #places: Record<Axis, Places>;
  readonly #faults: string[] = [];
  readonly #fixed: { mark: string; axis: Axis; at: number }[] = [];
  readonly #channels: Channel[] = [];
  readonly #size: Record<Axis, number>;

  constructor(page: PartPage, caption: Caption, notes: Note[]) {
    this.#page = page;
    this.#caption = caption;
    this.#notes = notes;
    const own = page.faces.filter(({ mark }) => mark === caption.marks[0]);
    if (own.length === 0) throw new Error(`no view is named for part ${caption.marks[0]}`);
    this.#isLying = liesIn(own[0]!, caption);
    this.#views = own.map((view, i) => this.#place(view, i === 0 ? "t1" : "t0"));
    const within = PRINTED[page.unit];
    this.#places = {
      l: new Places(`${caption.marks[0]} along`, within),
      w: new Places(`${caption.marks[0]} across`, within),
    };
    const { x0, x1, y0, y1 } = own[0]!.outline;
    this.#size = this.#isLying ? { l: x1 - x0, w: y1 - y0 } : { l: y1 - y0, w: x1 - x0 };
    this.#nameOthers();
  }

  /** Which of paper's ways the axis runs. */
  #way = (axis: Axis): "x" | "y" => ((axis === "l") === this.#isLying ? "x" : "y");

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
    const lines = (axis: Axis): number[] => (this.#way(axis) === "x" ? view.outline.xs : view.outline.ys);
    return { ...view, top, at, lines: { l: lines("l"), w: lines("w") } };
  }

  #name(face: Face, name: string): void {
    const known = this.#names[face];
    if (known !== undefined && known !== name)
      this.#faults.push(`${this.#caption.marks[0]}: one side is called ${known} and ${name}`);
    this.#names[face] = name;
  }

  /** The far end of what is called left is its right one. */
  #nameOthers(): void {
    for (const face of ["l0", "l1", "w0", "w1", "t0", "t1"] as const) {
      const name = this.#names[across(face)];
      if (this.#names[face] === undefined && name !== undefined) this.#names[face] = opposite(name);
    }
  }

  #faceCalled(name: string): Face {
    const found = Object.entries(this.#names).find(([, own]) => own === plain(name));
    if (found === undefined) throw new Error(`part ${this.#caption.marks[0]}: nothing is called ${name}`);
    return found[0] as Face;
  }

  #notesOf<K extends Note["kind"]>(...kinds: K[]): Of<K>[] {
    return this.#notes.filter((note): note is Of<K> => kinds.includes(note.kind as K));
  }

  read(): ReadPart {
    const { length, width, marks } = this.#caption;
    this.#places.l.tie({ from: 0, to: this.#size.l, value: length, check: false, what: "the length" });
    this.#places.w.tie({ from: 0, to: this.#size.w, value: width, check: false, what: "the width" });
    for (const view of this.#views) {
      for (const axis of ["l", "w"] as const)
        for (const at of view.lines[axis]) this.#places[axis].mark(view.at(axis, at));
      for (const row of view.rows) this.#tieRow(view, row);
    }
    for (const note of this.#notes.filter(isChannelNote)) this.#readChannel(note);
    const panel = this.#readLippings();
    const notches = this.#readNotches(panel);
    this.#readFixed();
    this.#readLines();
    const holes = this.#readHoles();
    const mortises = this.#notesOf("mortises").map((note) => this.#readMortises(note));
    const edged = this.#notes.filter(isChannelNote).flatMap((note) => this.#edgeGroove(note));
    const features = [
      ...this.#channels.map((one) => this.#channelFeature(one)),
      ...notches.map((one) => this.#notchFeature(one)),
    ];
    return {
      caption: this.#caption,
      notes: this.#notes,
      unit: this.#page.unit,
      step: this.#page.step,
      names: this.#names,
      features: [...features, ...edged, ...mortises.flatMap((read) => read())],
      holes: holes(),
      fixed: this.#fixed.map(({ mark, axis, at }) => ({ mark, axis, at: this.#value(axis, at) })),
      screws: this.#views
        .flatMap((view) => this.#crosses(view))
        .map(({ l, w }) => ({ l: this.#value("l", l), w: this.#value("w", w) })),
      faults: [...this.#faults, ...this.#places.l.finish(), ...this.#places.w.finish(), ...this.#checkTongues()].map(
        (fault) => (fault.startsWith(marks[0]!) ? fault : `${marks[0]}: ${fault}`),
      ),
    };
  }

  /** Something has an edge there: a line of its own to be told, unless it is the part's own end or edge. */
  #own(axis: Axis, at: number, owner: string): void {
    if (at > ONE_LINE && at < this.#size[axis] - ONE_LINE) this.#places[axis].mark(at, owner);
  }

  #tieRow(view: Placed, { way, dimensions }: DimensionRow): void {
    const axis: Axis = (way === "x") === this.#isLying ? "l" : "w";
    for (const { from, to, figure } of dimensions) {
      const [a, b] = [view.at(axis, from), view.at(axis, to)];
      this.#places[axis].tie({
        from: Math.min(a, b),
        to: Math.max(a, b),
        value: figure.value,
        check: figure.check,
        what: figure.check ? "the check" : "the figure",
      });
    }
  }

  /** Views of the face a note speaks of; of the one face that is drawn, where it names none. */
  #viewsOf(face: string | null): Placed[] {
    return face === null ? this.#views : this.#views.filter(({ top }) => this.#names[top] === face);
  }

  #readChannel(note: ChannelNote): void {
    if (note.face !== null && !note.face.endsWith("face")) return;
    const axis: Axis = note.along === "w" ? "l" : "w";
    const views = this.#viewsOf(note.face);
    const wanted = note.marks.length === 0 ? ["–"] : note.marks;
    const found: string[] = [];
    for (const view of views) {
      for (const { way, at, marks } of view.letters) {
        if (way !== this.#way(axis)) continue;
        const here = marks.filter((mark) => wanted.includes(mark));
        if (here.length === 0) continue;
        const walls = wallsAt(view.outline, way, at);
        if (walls === null) continue; // fastened there, not let in
        for (const run of runsAt(view.outline, way, walls)) {
          const ends = run.map((end) => view.at(note.along, end)).sort((a, b) => a - b) as [number, number];
          const [low, high] = walls.map((wall) => view.at(axis, wall)).sort((a, b) => a - b) as [number, number];
          const known = this.#channels.some(
            (one) =>
              one.top === view.top && one.note.along === note.along && same(one.low, low) && same(one.from, ends[0]),
          );
          if (known) continue;
          for (const at of [low, high]) this.#own(axis, at, `wall ${view.top}`);
          for (const at of ends) this.#own(note.along, at, `stop ${view.top}`);
          this.#places[axis].tie({
            from: low,
            to: high,
            value: note.width.value,
            check: note.width.check,
            what: `the width of the ${note.kind} for ${here}`,
          });
          this.#channels.push({
            note,
            holds: here[0] === "–" ? null : here[0]!,
            low,
            high,
            from: ends[0],
            to: ends[1],
            top: view.top,
          });
        }
        found.push(...here);
      }
    }
    const missing = wanted.filter((mark) => !found.includes(mark));
    if (missing.length > 0) this.#faults.push(`no ${note.kind} is drawn for ${missing}`);
  }

  #value(axis: Axis, at: number): number {
    return this.#places[axis].valueAt(at) ?? Number.NaN;
  }

  #channelFeature({ note, holds, low, high, from, to, top }: Channel): ReadFeature {
    const axis: Axis = note.along === "w" ? "l" : "w";
    const [a, b] = [this.#value(axis, low), this.#value(axis, high)];
    const [c, d] = [this.#value(note.along, from), this.#value(note.along, to)];
    const [e, f] = top === "t1" ? [this.#caption.thickness - note.depth, this.#caption.thickness] : [0, note.depth];
    const box: Box =
      note.along === "w"
        ? [
            [a, c, e],
            [b, d, f],
          ]
        : [
            [c, a, e],
            [d, b, f],
          ];
    return {
      kind: note.kind,
      face: top,
      along: note.along,
      box,
      holds,
      short: [from > 1e-3, to < this.#size[note.along] - 1e-3],
    };
  }

  /** A groove in an edge is told in words alone: where from, how wide and deep. */
  #edgeGroove(note: ChannelNote): ReadFeature[] {
    if (note.face === null || note.face.endsWith("face") || note.from === null) return [];
    const edge = this.#faceCalled(note.face);
    const { thickness, length, width } = this.#caption;
    const from = this.#faceCalled(note.from.face);
    const t: [number, number] =
      from === "t0"
        ? [note.from.by, note.from.by + note.width.value]
        : [thickness - note.from.by - note.width.value, thickness - note.from.by];
    const across = edge[0] as Axis;
    const size = across === "w" ? width : length;
    const d: [number, number] = edge[1] === "0" ? [0, note.depth] : [size - note.depth, size];
    // Its floor is seen where shoulders have laid it open.
    const floor = edge[1] === "0" ? note.depth * this.#scale() : this.#size[across] - note.depth * this.#scale();
    for (const view of this.#views) {
      const at = view.lines[across].map((line) => view.at(across, line)).find((line) => Math.abs(line - floor) < 0.02);
      if (at === undefined || this.#places[across].valueAt(at) !== null) continue;
      const [low, high] = edge[1] === "0" ? [0, at] : [at, this.#size[across]];
      this.#places[across].tie({ from: low, to: high, value: note.depth, check: false, what: "the depth" });
    }
    const run: [number, number] = [0, across === "w" ? length : width];
    for (const { end, by } of note.stops) {
      if (by === null) continue;
      if (this.#faceCalled(end)[1] === "0") run[0] = by.value;
      else run[1] -= by.value;
    }
    const box: Box =
      across === "w"
        ? [
            [run[0], d[0], t[0]],
            [run[1], d[1], t[1]],
          ]
        : [
            [d[0], run[0], t[0]],
            [d[1], run[1], t[1]],
          ];
    return [
      {
        kind: note.kind,
        face: edge,
        along: across === "w" ? "l" : "w",
        box,
        holds: note.marks[0] ?? null,
        short: [run[0] > 0, run[1] < (across === "w" ? length : width)],
      },
    ];
  }

  /** `panel`: the edges of the panel itself, where a lipping lies on it. */
  #readNotches(
    panel: Record<Axis, [number, number]>,
  ): { x: readonly [number, number]; y: readonly [number, number] }[] {
    const [view] = this.#views;
    if (this.#notesOf("cut out").length > 0) return [];
    const pieces = cornersOut(view!.outline);
    const told = this.#notesOf("notch").flatMap((note) =>
      note.corners.map((corner) => ({ note, end: this.#faceCalled(corner.end), edge: this.#faceCalled(corner.edge) })),
    );
    const boxes: { x: readonly [number, number]; y: readonly [number, number] }[] = [];
    for (const piece of pieces) {
      const span = (axis: Axis): [number, number] => {
        const ends = this.#way(axis) === "x" ? [piece.x0, piece.x1] : [piece.y0, piece.y1];
        return ends.map((end) => view!.at(axis, end)).sort((a, b) => a - b) as [number, number];
      };
      const [l, w] = [span("l"), span("w")];
      const end: Face = l[0] < ONE_LINE ? "l0" : "l1";
      const edge: Face = w[0] < ONE_LINE ? "w0" : "w1";
      const own = told.filter((one) => one.end === end && one.edge === edge);
      if (own.length === 0) {
        // Left open where a lipping ends short of the end: the lipping's own note tells it.
        boxes.push({ x: l, y: w });
        continue;
      }
      if (own.length > 1) {
        this.#faults.push(`${own.length} notches at one corner`);
        continue;
      }
      const [{ note }] = own as [(typeof own)[0]];
      this.#tieLeg("l", end, l, note.along, note);
      const isLow = edge.endsWith("0");
      const behind: [number, number] = isLow ? [panel.w[0], w[1]] : [w[0], panel.w[1]];
      this.#tieLeg("w", edge, note.behind ? behind : w, note.across, note);
      boxes.push({ x: l, y: w });
    }
    for (const one of told) {
      if (!pieces.some((piece) => this.#isAt(view!, piece, one.end, one.edge)))
        this.#faults.push(`no notch is drawn at ${one.end} ${one.edge}`);
    }
    return boxes;
  }

  readonly #legs = new Map<Note, { axis: Axis; at: number }[]>();

  #isAt(view: Placed, piece: { x0: number; x1: number; y0: number; y1: number }, end: Face, edge: Face): boolean {
    const touches = (axis: Axis, face: Face): boolean => {
      const ends = (this.#way(axis) === "x" ? [piece.x0, piece.x1] : [piece.y0, piece.y1]).map((at) =>
        view.at(axis, at),
      );
      return face.endsWith("0") ? Math.min(...ends) < ONE_LINE : Math.max(...ends) > this.#size[axis] - ONE_LINE;
    };
    return touches("l", end) && touches("w", edge);
  }

  /** One figure serves every corner of a note. */
  #tieLeg(axis: Axis, face: Face, [low, high]: [number, number], { value, check }: Said, note: Note): void {
    const what = "the notch";
    const at = face.endsWith("0") ? high : low;
    const legs = this.#legs.get(note) ?? [];
    if (legs.some((one) => one.axis === axis && same(one.at, at))) return;
    this.#legs.set(note, [...legs, { axis, at }]);
    this.#own(axis, at, `notch ${this.#notes.indexOf(note)}`);
    this.#places[axis].tie({ from: low, to: high, value, check, what });
  }

  #notchFeature({ x, y }: { x: readonly [number, number]; y: readonly [number, number] }): ReadFeature {
    const [a, b] = x.map((at) => this.#value("l", at)) as [number, number];
    const [c, d] = y.map((at) => this.#value("w", at)) as [number, number];
    return {
      kind: "notch",
      face: x[0] < ONE_LINE ? "l0" : "l1",
      along: "t",
      box: [
        [a, c, 0],
        [b, d, this.#caption.thickness],
      ],
      holds: null,
      short: [false, false],
    };
  }

  /** Lines inside a view, by their pens: where each lies and from where to where it runs. */
  #inside(view: Placed, axis: Axis, isWanted: (stroke: Stroke) => boolean): { at: number; from: number; to: number }[] {
    const { x0, x1, y0, y1 } = view.outline;
    const way = this.#way(axis);
    const other: Axis = axis === "l" ? "w" : "l";
    const i = way === "x" ? 0 : 1;
    return this.#page.page.strokes
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

  #readLippings(): Record<Axis, [number, number]> {
    const [view] = this.#views;
    const panel: Record<Axis, [number, number]> = { l: [0, this.#size.l], w: [0, this.#size.w] };
    for (const { edge: name, thickness, length, run } of this.#notesOf("lipping")) {
      const edge = this.#faceCalled(name);
      const axis = edge[0] as Axis;
      const other: Axis = axis === "l" ? "w" : "l";
      const isLow = edge.endsWith("0");
      const size = this.#size[axis];
      const inner = this.#inside(view!, axis, (one) => isDrawnWith(one, "thin"))
        .filter(({ from, to, at }) => to - from > this.#size[other] / 2 && at > ONE_LINE && at < size - ONE_LINE)
        .sort((a, b) => (isLow ? a.at - b.at : b.at - a.at))[0];
      if (inner === undefined) {
        this.#faults.push(`no lipping is drawn on the ${name}`);
        continue;
      }
      this.#places[axis].tie({
        from: isLow ? 0 : inner.at,
        to: isLow ? inner.at : size,
        value: thickness,
        check: false,
        what: "the lipping",
      });
      panel[axis][isLow ? 0 : 1] = inner.at;
      this.#own(axis, inner.at, `lipping ${name}`);
      if (run !== null) {
        for (const at of [inner.from, inner.to]) this.#own(other, at, `end of the lipping ${name}`);
        for (const [at, value] of [
          [inner.from, run.from],
          [inner.to, run.to],
        ] as const) {
          if (value !== null)
            this.#places[other].tie({ from: 0, to: at, value, check: false, what: "the lipping's end" });
        }
      }
      this.#places[other].tie({
        from: inner.from,
        to: inner.to,
        value: length.value,
        check: length.check,
        what: "the lipping's length",
      });
    }
    for (const note of this.#notesOf("panel")) {
      this.#places.l.tie({
        from: panel.l[0],
        to: panel.l[1],
        value: note.length.value,
        check: note.length.check,
        what: "the panel's length",
      });
      this.#places.w.tie({
        from: panel.w[0],
        to: panel.w[1],
        value: note.width.value,
        check: note.width.check,
        what: "the panel's width",
      });
    }
    return panel;
  }

  /** Every place where something is fixed, and every screw that is drawn, must be told. */
  #readFixed(): void {
    for (const note of this.#notesOf("fixed")) {
      for (const view of this.#viewsOf(note.face)) {
        const axis = this.#faceCalled(note.edge)[0] as Axis;
        const spots = view.letters.filter(
          ({ way, marks }) => way === this.#way(axis) && marks.some((mark) => note.marks.includes(mark)),
        );
        for (const { at, marks } of spots) {
          this.#own(axis, view.at(axis, at), `fixed ${view.top}`);
          for (const mark of marks) this.#fixed.push({ mark, axis, at: view.at(axis, at) });
        }
        if (spots.length === 0) this.#faults.push(`nothing is drawn for what is fixed: ${note.marks}`);
        if (note.near.length !== note.marks.length)
          this.#faults.push(`${note.near.length} near faces are told for ${note.marks}`);
        this.#readNear(view, axis, note);
      }
    }
    for (const view of this.#views) {
      for (const spot of this.#crosses(view)) {
        for (const axis of ["l", "w"] as const) this.#own(axis, spot[axis], `screw ${view.top}`);
      }
    }
  }

  /** What another part covers is drawn by its outline: its near face is a line of that. */
  #readNear(view: Placed, axis: Axis, { near, edge }: Of<"fixed">): void {
    const isLow = this.#faceCalled(edge).endsWith("0");
    const lines = this.#inside(view, axis, (one) => isDrawnWith(one, "neighbour")).map(({ at }) => at);
    const size = this.#size[axis];
    const scale = size / (axis === "l" ? this.#caption.length : this.#caption.width);
    for (const value of near) {
      const from = isLow ? value * scale : size - value * scale;
      const at = lines.find((line) => Math.abs(line - from) < 0.05);
      if (at === undefined) {
        this.#faults.push(`no line is drawn for the near face ${value}`);
      } else if (at > ONE_LINE && at < size - ONE_LINE) {
        this.#own(axis, at, `near ${value}`);
        const [low, high] = isLow ? [0, at] : [at, size];
        this.#places[axis].tie({ from: low, to: high, value, check: false, what: "the near face" });
      }
    }
  }

  /** Where screws go: small crosses of thin lines, upright or aslant. */
  #crosses(view: Placed): { l: number; w: number }[] {
    const { x0, x1, y0, y1 } = view.outline;
    const short = this.#page.page.strokes
      .filter((one) => isDrawnWith(one, "thin"))
      .map(({ from, to }) => ({
        x: (from[0] + to[0]) / 2,
        y: (from[1] + to[1]) / 2,
        dx: to[0] - from[0],
        dy: to[1] - from[1],
      }))
      .filter(({ x, y, dx, dy }) => Math.hypot(dx, dy) < LONGEST_CROSS && x > x0 && x < x1 && y > y0 && y < y1);
    const isCrossed = (one: (typeof short)[number]): boolean =>
      short.some(
        (other) =>
          Math.hypot(one.x - other.x, one.y - other.y) < 0.01 &&
          Math.abs(one.dx * other.dx + one.dy * other.dy) < 1e-3 &&
          Math.abs(Math.hypot(one.dx, one.dy) - Math.hypot(other.dx, other.dy)) < 0.01,
      );
    return short.filter(isCrossed).map(({ x, y }) => ({
      l: view.at("l", this.#isLying ? x : y),
      w: view.at("w", this.#isLying ? y : x),
    }));
  }

  /** Lines that something is fixed along: across by the view, along by the note. */
  #readLines(): void {
    for (const { face, from, to, end, marks } of this.#notesOf("lines")) {
      const along = this.#faceCalled(end)[0] as Axis;
      const axis: Axis = along === "l" ? "w" : "l";
      for (const view of this.#viewsOf(face)) {
        const drawn = this.#inside(view, axis, (one) => isDrawnWith(one, "centre"));
        if (drawn.length === 0) this.#faults.push(`no line is drawn for ${marks}`);
        for (const one of drawn) {
          this.#own(axis, one.at, `line ${view.top}`);
          for (const [at, value] of [
            [one.from, from],
            [one.to, to],
          ] as const) {
            if (at > ONE_LINE && this.#places[along].valueAt(at) === null) {
              this.#places[along].tie({ from: 0, to: at, value, check: false, what: "the line's end" });
            }
          }
        }
      }
    }
  }

  /** Holes are read once their places are told: the answer is a step to take later. */
  #readHoles(): () => ReadHole[] {
    const steps: (() => ReadHole[])[] = [];
    for (const note of this.#notesOf("holes")) {
      const face = this.#faceCalled(note.face);
      steps.push(face[0] === "t" ? this.#faceHoles(note, face) : this.#endHoles(note, face));
    }
    return () => steps.flatMap((step) => step());
  }

  #scale(): number {
    return this.#size.l / this.#caption.length;
  }

  #faceHoles(note: Of<"holes">, face: Face): () => ReadHole[] {
    const view = this.#views.find(({ top }) => top === face);
    if (view === undefined) throw new Error(`part ${this.#caption.marks[0]}: holes in a face that is not drawn`);
    const radius = (note.diameter / 2) * this.#scale();
    const drawn = view.outline.rounds
      .filter((one) => Math.abs(one.radius - radius) < 0.02)
      .map(({ middle: [x, y] }) => ({
        l: view.at("l", this.#isLying ? x : y),
        w: view.at("w", this.#isLying ? y : x),
      }));
    const wanted = note.rows * note.count;
    if (note.pitch === null) {
      const told = drawn.filter(({ l, w }) => drawn.length === wanted || (l >= 0 && w >= 0));
      if (told.length !== wanted) this.#faults.push(`${wanted} holes are told, ${told.length} drawn`);
      for (const { l, w } of told) {
        this.#own("l", l, `hole ${face}`);
        this.#own("w", w, `hole ${face}`);
      }
      return () => told.map(({ l, w }) => this.#hole(note, face, l, w));
    }
    const rows = rowsOfHoles(drawn, note.count);
    if (rows.length !== note.rows)
      this.#faults.push(`${note.rows} rows of ${note.count} holes are told, ${rows.length} drawn`);
    for (const { axis, holes } of rows) {
      const other: Axis = axis === "l" ? "w" : "l";
      this.#own(other, holes[0]![other], `hole ${face}`);
      this.#own(axis, holes[0]![axis], `hole ${face}`);
      // One pitch serves all rows: places that an earlier row has told are not told again.
      holes.slice(1).forEach((hole, i) => {
        const [a, b] = [holes[i]![axis], hole[axis]];
        if (this.#isTied(axis, a, b)) return;
        this.#places[axis].tie({ from: a, to: b, value: note.pitch!, check: false, what: "the pitch" });
      });
    }
    return () => rows.flatMap(({ holes }) => holes.map(({ l, w }) => this.#hole(note, face, l, w)));
  }

  readonly #pitches: { axis: Axis; a: number; b: number }[] = [];

  #isTied(axis: Axis, a: number, b: number): boolean {
    if (this.#pitches.some((one) => one.axis === axis && same(one.a, a) && same(one.b, b))) return true;
    this.#pitches.push({ axis, a, b });
    return false;
  }

  #hole({ diameter, depth }: Of<"holes">, face: Face, l: number, w: number): ReadHole {
    const t = face === "t1" ? this.#caption.thickness - depth / 2 : depth / 2;
    return { face, at: [this.#value("l", l), this.#value("w", w), t], diameter, depth };
  }

  /** Drilled into an end or an edge: drawn dashed, as wide as the hole and as long as it is deep. */
  #endHoles(note: Of<"holes">, face: Face): () => ReadHole[] {
    const into = face[0] as Axis;
    const axis: Axis = into === "l" ? "w" : "l";
    const [view] = this.#views;
    const depth = note.depth * this.#scale();
    const radius = (note.diameter / 2) * this.#scale();
    const edge = face.endsWith("0") ? 0 : this.#size[into];
    const sides = this.#inside(view!, axis, (one) => isDrawnWith(one, "hidden"))
      .filter(
        ({ from, to }) =>
          Math.abs(to - from - depth) < 0.05 && (Math.abs(from - edge) < 0.02 || Math.abs(to - edge) < 0.02),
      )
      .map(({ at }) => at)
      .sort((a, b) => a - b);
    const middles = sides
      .filter((at) => sides.some((far) => Math.abs(far - at - 2 * radius) < 0.02))
      .map((at) => at + radius);
    const distinct = middles.filter((at, i) => i === 0 || at - middles[i - 1]! > ONE_LINE);
    if (distinct.length !== note.count)
      this.#faults.push(`${note.count} holes are told in the ${note.face}, ${distinct.length} drawn`);
    for (const at of distinct) this.#own(axis, at, "holes in ends");
    if (note.off === null) this.#faults.push(`no distance from a face is told for the holes in the ${note.face}`);
    return () =>
      distinct.map((at): ReadHole => {
        const from = note.off === null ? "t0" : this.#faceCalled(note.off.from);
        const by = note.off?.by ?? Number.NaN;
        const t = from === "t0" ? by : this.#caption.thickness - by;
        const size = into === "l" ? this.#caption.length : this.#caption.width;
        const d = face.endsWith("0") ? note.depth / 2 : size - note.depth / 2;
        const value = this.#value(axis, at);
        return { face, at: into === "l" ? [d, value, t] : [value, d, t], diameter: note.diameter, depth: note.depth };
      });
  }

  /** Drawn as holes in an end or an edge are, the mark of what enters at the middle of each. */
  #readMortises(note: Of<"mortises">): () => ReadFeature[] {
    const face = this.#faceCalled(note.face);
    const into = face[0] as Axis;
    const axis: Axis = into === "l" ? "w" : "l";
    const [view] = this.#views;
    const depth = note.depth * this.#scale();
    const edge = face.endsWith("0") ? 0 : this.#size[into];
    const sides = this.#inside(view!, axis, (one) => isDrawnWith(one, "hidden"))
      .filter(({ from, to }) => Math.abs(to - from - depth) < 0.05)
      .filter(({ from, to }) => Math.abs(from - edge) < 0.02 || Math.abs(to - edge) < 0.02)
      .map(({ at }) => at)
      .sort((a, b) => a - b);
    const middles = view!.letters
      .filter(({ way, marks }) => way === this.#way(axis) && note.marks.some((mark) => marks.includes(mark)))
      .map(({ at }) => view!.at(axis, at));
    const found = middles.flatMap((middle) => {
      const low = sides.filter((at) => at < middle).at(-1);
      const high = sides.find((at) => at > middle);
      return low !== undefined && high !== undefined && same(middle - low, high - middle) ? [[low, high] as const] : [];
    });
    if (found.length !== note.count)
      this.#faults.push(`${note.count} mortises are told in the ${note.face}, ${found.length} drawn`);
    for (const ends of found) for (const at of ends) this.#own(axis, at, "mortise");
    const { thickness, length, width } = this.#caption;
    const size = into === "l" ? length : width;
    const d: [number, number] = face.endsWith("0") ? [0, note.depth] : [size - note.depth, size];
    const t = between(note, note.from === null ? null : this.#faceCalled(note.from.face), thickness);
    return () =>
      found.map((ends): ReadFeature => {
        const [a, b] = ends.map((at) => this.#value(axis, at)) as [number, number];
        const box: Box =
          into === "l"
            ? [
                [d[0], a, t[0]],
                [d[1], b, t[1]],
              ]
            : [
                [a, d[0], t[0]],
                [b, d[1], t[1]],
              ];
        return { kind: "mortise", face, along: axis, box, holds: note.marks[0] ?? null, short: [true, true] };
      });
  }

  /** What a tongue keeps of the thickness is what its shoulders leave. */
  #checkTongues(): string[] {
    const shoulders = this.#notes.filter(isChannelNote).filter(({ kind }) => kind === "shoulder");
    return shoulders.flatMap(({ tongue, marks }) => {
      if (tongue === null) return ["a shoulder without its tongue"];
      const taken = shoulders
        .filter((one) => one.marks.join() === marks.join())
        .reduce((sum, { depth }) => sum + depth, 0);
      const left = this.#caption.thickness - taken;
      return Math.abs(left - tongue.value) <= 2 * PRINTED[this.#page.unit]
        ? []
        : [`the tongue ${tongue.value} is not ${left}`];
    });
  }
}

/** Through the thickness: from a face, or in the middle. */
function between({ width, from }: Of<"mortises">, face: Face | null, thickness: number): [number, number] {
  const low = from === null ? (thickness - width) / 2 : face === "t0" ? from.by : thickness - from.by - width;
  return [low, low + width];
}

const LONGEST_CROSS = 3.5;

const same = (a: number, b: number): boolean => Math.abs(a - b) < ONE_LINE;

/** Ends are at its left and right where it lies; where none is named, the longer figure tells. */
function liesIn({ sides, outline: { x0, x1, y0, y1 } }: FaceView, { length, width }: Caption): boolean {
  for (const [side, name] of Object.entries(sides)) {
    const isLevel = side === "left" || side === "right";
    if (name!.endsWith("end")) return isLevel;
    return !isLevel;
  }
  return x1 - x0 > y1 - y0 === length > width;
}

/** The two walls of what is let in here: the nearest lines at one distance to either side. */
function wallsAt(outline: Outline, way: "x" | "y", at: number): [number, number] | null {
  const lines = way === "x" ? outline.xs : outline.ys;
  const below = lines.filter((one) => one < at).reverse();
  for (const low of below) {
    const high = lines.find((one) => Math.abs(one - (2 * at - low)) < 2e-3);
    if (high !== undefined && isHatched(outline, way, low, high)) return [low, high];
  }
  return null;
}

/** Hatch lines that rise, both their ends between the walls. */
function hatchIn({ hatching }: Outline, way: "x" | "y", low: number, high: number): Stroke[] {
  const i = way === "x" ? 0 : 1;
  const within = (value: number): boolean => value > low - 0.01 && value < high + 0.01;
  return hatching.filter(
    ({ from, to }) => (to[1] - from[1]) * (to[0] - from[0]) < 0 && within(from[i]!) && within(to[i]!),
  );
}

const isHatched = (outline: Outline, way: "x" | "y", low: number, high: number): boolean =>
  hatchIn(outline, way, low, high).length > 0;

/** From where to where the wood is taken out between two walls: hatched, or both walls drawn. What lies between two such stretches is crossed by another groove. */
function runsAt(outline: Outline, way: "x" | "y", [low, high]: readonly [number, number]): [number, number][] {
  const lines = way === "x" ? outline.ys : outline.xs;
  const j = way === "x" ? 1 : 0;
  const hatch = hatchIn(outline, way, low, high);
  const isTaken = (a: number, b: number): boolean =>
    hatch.some(({ from, to }) => {
      const [p, q] = [Math.min(from[j]!, to[j]!), Math.max(from[j]!, to[j]!)];
      return Math.min(q, b) - Math.max(p, a) > Math.min(0.3, 0.5 * (q - p));
    }) ||
    (b - a < 3 && isDrawn(outline, way, low, a, b) && isDrawn(outline, way, high, a, b));
  const stretches = lines.slice(1).map((b, i) => ({ a: lines[i]!, b, taken: isTaken(lines[i]!, b) }));
  // With no line to close it off, what is taken goes on, along a wall.
  const other = way === "x" ? "y" : "x";
  for (let grown = true; grown; ) {
    grown = false;
    stretches.slice(1).forEach((one, i) => {
      const before = stretches[i]!;
      if (one.taken === before.taken || isDrawn(outline, other, one.a, low, high)) return;
      const { a, b } = one.taken ? before : one;
      if (!isDrawn(outline, way, low, a, b) && !isDrawn(outline, way, high, a, b)) return;
      one.taken = true;
      before.taken = true;
      grown = true;
    });
  }
  const runs: [number, number][] = [];
  for (const { a, b, taken } of stretches) {
    if (!taken) continue;
    const last = runs.at(-1);
    if (last !== undefined && a - last[1] < 12 && !isWood(outline, way, low, high, last[1], a)) last[1] = b;
    else runs.push([a, b]);
  }
  return runs;
}

/** A stretch is wood where a line closes it off at either end, and these are not the walls of a groove that crosses. */
const isWood = (outline: Outline, way: "x" | "y", low: number, high: number, a: number, b: number): boolean => {
  if (b - a < 1e-6) return false;
  const other = way === "x" ? "y" : "x";
  const isClosed = [a, b].every((at) => isDrawn(outline, other, at, low, high));
  const goesOn = (at: number): boolean =>
    isDrawn(outline, other, at, low - BEYOND, low) || isDrawn(outline, other, at, high, high + BEYOND);
  return isClosed && !(goesOn(a) && goesOn(b));
};

const BEYOND = 0.3; // of a wall that goes on past the groove it crosses

type Hole = Record<Axis, number>;

/** Holes in lines of so many, each line level with an axis. */
function rowsOfHoles(holes: readonly Hole[], count: number): { axis: Axis; holes: Hole[] }[] {
  const rows = (["l", "w"] as const).flatMap((axis) => {
    const other: Axis = axis === "l" ? "w" : "l";
    const lines = new Map<string, Hole[]>();
    for (const hole of holes) {
      const key = hole[other].toFixed(2);
      lines.set(key, [...(lines.get(key) ?? []), hole]);
    }
    return [...lines.values()]
      .filter((line) => line.length === count)
      .map((line) => ({ axis, holes: [...line].sort((a, b) => a[axis] - b[axis]) }));
  });
  return rows;
}
