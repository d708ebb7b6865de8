import { describe, expect, it } from "vitest";
import { framePages } from "../../src/drawings/draughting/frame.ts";
import { facesOf } from "../../src/drawings/parts/part-axes.ts";
import { patternsOf } from "../../src/drawings/parts/part-caption.ts";
import { drawParts } from "../../src/drawings/parts/part-drawing.ts";
import { drawFace, faceViews } from "../../src/drawings/parts/part-view.ts";
import type { Shape } from "../../src/paper/shape.ts";
import { fasteningsOf } from "../../src/set/fastening.ts";
import type { DryfitSet, SetPart } from "../../src/set/schema.ts";
import { writeSite } from "../../src/site/site.ts";
import { setOf, testFile } from "../support/jobs/examples.ts";
import { segmentsOf } from "../support/pages/lines.ts";
import { parseFigure, printedWithin, tokensOf } from "../support/pages/read-figures.ts";
import { textBoxes } from "../support/pages/text-boxes.ts";

const NAMES = ["butt-screws", "butt-dowels", "joint-per-place", "plinth", "stretchers", "kick-applied", "applied-back"];

const partOf = (set: DryfitSet, mark: string): SetPart => set.parts.find((part) => part.mark === mark)!;

const shows = (shapes: readonly Shape[], set: DryfitSet, length: number): boolean =>
  tokensOf(textBoxes(shapes)).some((token) => {
    const value = parseFigure(token.text, set.job.unit);
    return value !== null && Math.abs(value - length) <= printedWithin(token, set.job.unit);
  });

/** Where a point given by a share of each of a part's sizes lies in the room, worked out axis by axis. */
function inRoom(set: DryfitSet, part: SetPart, shares: readonly [number, number, number]): number[] {
  const { place } = set.assemblies.find(({ name }) => name === part.assembly)!;
  const at = part.place!.at.map((value, i) => value + place.at[i]!);
  const sizes = [part.length, part.width, part.thickness];
  [part.place!.l, part.place!.w, part.place!.t].forEach((signed, i) => {
    at["xyz".indexOf(signed[1]!)]! += (signed[0] === "-" ? -1 : 1) * sizes[i]! * shares[i]!;
  });
  return at;
}

describe("what is screwed and dowelled", () => {
  it("stands on the face that takes it, every screw and dowel figured from the same datum as the grooves", () => {
    let figured = 0;
    for (const name of NAMES) {
      const set = setOf(testFile(name));
      for (const { receiving, receivingFace, fasteners } of set.joints) {
        if (fasteners === null) continue;
        const part = partOf(set, receiving);
        const face = receivingFace as "t0" | "t1";
        expect(facesOf(set, part), `${name} ${receiving}`).toContain(face);
        for (const lie of ["lying", "standing"] as const) {
          const { shapes } = drawFace(set, faceViews(part, face, lie), 1 / 8);
          for (const place of [fasteners.at, ...fasteners.positions]) {
            expect(shows(shapes, set, place), `${name} ${receiving} ${lie}: ${place}`).toBe(true);
            figured += 1;
          }
        }
      }
    }
    expect(figured).toBeGreaterThan(100);
  });

  it("is crossed where the middle of the other part's thickness lies, as the places of both say", () => {
    for (const name of ["butt-screws", "plinth", "stretchers"]) {
      const set = setOf(testFile(name));
      for (const part of set.parts) {
        for (const face of facesOf(set, part)) {
          const through = set.joints.filter(
            (joint) =>
              joint.receiving === part.mark && joint.receivingFace === face && joint.fasteners?.kind === "screw",
          );
          if (through.length === 0) continue;
          const ratio = 1 / 8;
          const { shapes } = drawFace(set, faceViews(part, face, "lying"), ratio);
          // Short level strokes, as wide as a cross and not beside the part: their middles are the screws.
          const crosses = segmentsOf(shapes).filter(
            ({ x0, x1, y0, y1 }) => y0 === y1 && Math.abs(Math.abs(x1 - x0) - 2.6) < 1e-9 && (x0 + x1) / 2 > 0,
          );
          expect(crosses).toHaveLength(through.reduce((sum, { fasteners }) => sum + fasteners!.positions.length, 0));
          const [origin, far] = [inRoom(set, part, [0, 0, 0]), inRoom(set, part, [1, 0, 0])];
          const run = origin.findIndex((value, i) => Math.abs(value - far[i]!) > 1e-6);
          const wanted = through.flatMap(({ entering, fasteners }) => {
            const middle = inRoom(set, partOf(set, entering), [0.5, 0.5, 0.5]);
            return fasteners!.positions.map((place) =>
              fasteners!.along === "l" ? place * ratio : Math.abs(middle[run]! - origin[run]!) * ratio,
            );
          });
          const found = crosses.map(({ x0, x1 }) => (x0 + x1) / 2);
          const inOrder = (list: number[]): string[] => list.map((one) => one.toFixed(4)).sort();
          expect(inOrder(found), `${name} ${part.mark}`).toEqual(inOrder(wanted));
        }
      }
    }
  });

  it("is told in words: how many, where, and from what", () => {
    const set = setOf(testFile("butt-screws"));
    const words = drawParts(set)
      .flatMap(({ shapes }) => textBoxes(shapes).map(({ text }) => text)) // in the order they were lettered
      .join(" ")
      .replaceAll(/ ([,;])/g, "$1");
    expect(words).toContain(
      "3, 5 and 4: glue and screws, 3 screws each ( 97.1 ) apart; their near faces 0, 391.2 and 782.4 from the bottom end",
    );
    expect(words).toContain("Held by glue and screws through 1 and 2.");
    expect(words).toContain(
      "1 and 2: glue and screws, 6 screws each ( 140 ) apart; their near faces 0 and 582.4 from the left edge",
    );
  });

  it("shows dowel holes in an end as hidden lines, each figured", () => {
    const set = setOf(testFile("butt-dowels"));
    const divider = set.parts.find(({ role }) => role === "divider")!;
    const holes = divider.features.filter(({ kind }) => kind === "hole");
    expect(holes).toHaveLength(6);
    const { shapes } = drawFace(set, faceViews(divider, facesOf(set, divider)[0]!, "lying"), 1 / 8);
    for (const { box } of holes) expect(shows(shapes, set, (box[0][1] + box[1][1]) / 2)).toBe(true);
    const hidden = shapes.flatMap((shape) => (shape.kind === "path" && shape.pen === "hidden" ? [shape] : []));
    expect(hidden).toHaveLength(6);
  });

  it("puts parts on one drawing only where one setting out serves both, turned about if need be", () => {
    const set = setOf(testFile("plinth"));
    const boards = set.parts.filter(({ key }) => /plinth-(front|rear)$/.test(key));
    const together = (of: DryfitSet): string[][] =>
      patternsOf(of)
        .map(({ marks }) => marks)
        .filter((marks) => marks.includes(boards[0]!.mark) || marks.includes(boards[1]!.mark));
    expect(boards.map(({ pattern }) => pattern)).toEqual([boards[0]!.pattern, boards[0]!.pattern]);
    expect(fasteningsOf(set, boards[0]!).map(({ face }) => face)).not.toEqual(
      fasteningsOf(set, boards[1]!).map(({ face }) => face),
    );
    expect(together(set)).toEqual([boards.map(({ mark }) => mark)]);
    const moved: DryfitSet = {
      ...set,
      joints: set.joints.map((joint) =>
        joint.receiving === boards[1]!.mark && joint.fasteners !== null
          ? { ...joint, fasteners: { ...joint.fasteners, positions: [30, 67.5] } }
          : joint,
      ),
    };
    expect(together(moved)).toEqual(boards.map(({ mark }) => [mark]));
    // Each one's page of the site has its own drawing.
    const site = writeSite(moved, framePages(moved, drawParts(moved)), (page) => `<svg id="${page.key}"/>`);
    for (const { mark } of boards) {
      const shown = [...String(site.get(`parts/${mark}.html`)).matchAll(/id="drawing-part-([\d-]+)"/g)].map(
        ([, key]) => key!,
      );
      expect(shown).toHaveLength(1);
      expect(shown[0]!.split("-")).toContain(mark);
    }
  });
});
