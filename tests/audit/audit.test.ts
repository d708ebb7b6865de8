/** The dry fit on worked example A, typed by hand, whole and spoiled: what it finds, in which words. */
import { describe, expect, it } from "vitest";
import { dryFit } from "../../src/audit/dryfit.ts";
import { type DryfitSet, setSchema } from "../../src/set/schema.ts";
import { workedA } from "../fixtures/audit/worked-a.ts";
import { bare } from "../support/faults/faults.ts";
import { IN, partOf, reboxed, spoiled, texts } from "../support/faults/spoiled.ts";

describe("worked example A, typed by hand", () => {
  it("is a set by the schema", () => {
    expect(setSchema.safeParse(workedA()).error).toBeUndefined();
  });

  it("fits: nothing to report but what was looked at", () => {
    const checks = dryFit(workedA());
    expect(checks.every((check) => check.level === "ok")).toBe(true);
    expect(checks.map((check) => check.text)).toEqual([
      "No two parts overlap: 7 parts, 14 pairs near each other compared box by box.",
      "Each of 12 grooves and rabbets is filled by what enters it, but for 11 named run-outs.",
      "Each of 12 tongues lies at the exact wall of its groove, and each groove is as wide as the thickest reading and the allowance.",
      "Each of 12 housed and 2 butted ends reaches its seat, within rounding.",
      "No part stands out of its case, and none stops short of being flush with it.",
      "Each of 3 bays is clear and closed, and its diagonal follows from its width and height.",
      "The figures of 7 parts agree with their shapes, stock and pieces, and are whole steps of 1/16 in.",
      "Each of 12 grooves and rabbets is cut once, by 6 settings that have its own face, distance, width, depth and ends.",
      "Parts of one pattern are alike, and a part without a hand may be made either way round: 7 patterns.",
      "Each of 14 stated joints is made by the parts with the gaps stated, and no other joint is made.",
    ]);
  });

  it("fits just as well with joints and holds taken out", () => {
    expect(dryFit(bare(workedA())).every((check) => check.level === "ok")).toBe(true);
  });
});

describe("what it finds, word for word", () => {
  it("an overlap, with volume and place", () => {
    const set = spoiled("6", (shelf) => {
      shelf.length += IN / 8;
    });
    expect(texts(set, "overlap")).toEqual([
      "Divider 5 and shelf 6 overlap in case, from the left 18 to 18 1/8, from the front 0 to 11, from the bottom 15 1/4 to 16 in: 1/8 x 11 x 3/4 in, 1.031 cubic in of wood in both. Change: shorten or move one of them, or cut the groove between them to suit.",
    ]);
  });

  it("an end that does not reach its seat", () => {
    const set = spoiled("6", (shelf) => {
      shelf.length -= IN / 8;
    });
    expect(texts(set, "seat")).toEqual([
      "The far end (l1) of shelf 6 leaves 1/8 in at the floor of the groove at 12 7/8 in on face t1 of divider 5, in case, from the left 17 5/8 to 18, from the front 0 to 11, from the bottom 15 1/4 to 16 in; 0 in to 1/16 in is allowed. Change: lengthen the part or cut the groove less deep by 1/16 in or more.",
    ]);
  });

  it("a gap of one step at a seat as a note, not a failure", () => {
    const checks = dryFit(
      spoiled("6", (shelf) => {
        shelf.length -= IN / 16;
      }),
    );
    expect(checks.filter((check) => check.level !== "ok")).toEqual([
      {
        id: "rounding",
        level: "note",
        parts: ["6", "5"],
        text: "Rounding to 1/16 in leaves a gap at 1 of 10 seats; the largest is 1/16 in, shelf 6 in divider 5.",
        rule: "An end rests on the floor of its groove; rounding opens it by one step at most.",
        change: "Nothing: close joints at the face that shows.",
      },
    ]);
  });

  it("a groove that nothing enters", () => {
    const set = spoiled("6", (_, all) => {
      all.parts = all.parts.filter((part) => part.mark !== "6");
    });
    expect(texts(set, "groove-empty")).toEqual([
      "Nothing enters the groove at 15 1/4 in on face t0 of left side 1, in case, from the left 3/8 to 3/4, from the front 0 to 12, from the bottom 15 1/4 to 16 in. Change: leave the groove out, or put the part that belongs in it where the groove is.",
      "Nothing enters the groove at 12 7/8 in on face t1 of divider 5, in case, from the left 17 5/8 to 18, from the front 0 to 11, from the bottom 15 1/4 to 16 in. Change: leave the groove out, or put the part that belongs in it where the groove is.",
    ]);
    expect(texts(set, "pieces")).toEqual([
      "Piece 6 is cut, 17 5/8 in x 11 in, but no part 6 uses it. Change: put the part back, or leave the piece out.",
    ]);
  });

  it("a groove that runs on past what it holds, unnamed", () => {
    const set = spoiled("3", (bottom) => {
      bottom.features[0]!.runOuts = [];
    });
    expect(texts(set, "groove-fill")).toEqual([
      "The groove at 17 1/4 in on face t1 of bottom 3 has 15/16 in of its run that nothing fills, in case, from the left 17 5/8 to 18 3/8, from the front 11 to 11 15/16, from the bottom 2 7/16 to 2 3/4 in, and no run-out is named there. Change: stop the groove there, or lengthen divider 5.",
    ]);
  });

  it("a run-out that something enters", () => {
    const set = spoiled("3", (bottom) => {
      bottom.features[0]!.runOuts = [[10 * IN, 12 * IN]];
    });
    expect(texts(set, "run-out")).toEqual([
      "Divider 5 enters 1 in of a run-out of the groove at 17 1/4 in on face t1 of bottom 3 that is to stay empty, in case, from the left 17 5/8 to 18 3/8, from the front 10 to 11, from the bottom 2 3/8 to 2 3/4 in. Change: shorten the part there, or the run-out.",
    ]);
  });

  it("a wall that is not where the part's face is", () => {
    const set = spoiled("1", (side) => {
      reboxed(side.features[1]!, [
        [15.125, 0, 0],
        [15.875, 12, 0.375],
      ]);
    });
    expect(texts(set, "wall")).toEqual([
      "Shelf 6 stands 1/8 in past the exact wall of the groove at 15 1/8 in on face t0 of left side 1, in case, from the left 3/8 to 3/4, from the front 0 to 12, from the bottom 15 1/8 to 15 7/8 in: its lower, left or front face must lie on that wall. Change: move the groove by 1/8 in, or the part.",
    ]);
  });

  it("a groove wider than the thickest reading and the allowance", () => {
    const set = spoiled("1", (side) => {
      reboxed(side.features[1]!, [
        [15.25, 0, 0],
        [16.125, 12, 0.375],
      ]);
    });
    expect(texts(set, "groove-width")).toEqual([
      "The groove at 15 1/4 in on face t0 of left side 1 is 7/8 in wide, but shelf 6 (thickest reading 3/4 in, allowance 0 in) needs 3/4 in, in case, from the left 3/8 to 3/4, from the front 0 to 12, from the bottom 15 1/4 to 16 1/8 in. Change: make the groove 3/4 in wide.",
    ]);
  });

  it("an edge that does not reach the face it should butt", () => {
    const set = spoiled("6", (shelf) => {
      shelf.width -= IN / 8;
    });
    expect(texts(set, "reach")).toEqual([
      "The far edge (w1) of shelf 6 does not reach back 7: 1/8 in is left in case, from the left 1/2 to 18, from the front 10 7/8 to 11, from the bottom 15 1/4 to 16 in, and rounding opens at most 1/16 in. Change: lengthen shelf 6 by 1/16 in or more, or move one of the two.",
    ]);
  });

  it("an end that rests on nothing", () => {
    const set = spoiled("6", (shelf) => {
      shelf.length -= 2 * IN;
    });
    expect(texts(set, "free-end")).toEqual([
      "The far end (l1) of shelf 6 rests on nothing; divider 5 is 2 in away, in case, from the left 16 to 16, from the front 0 to 11, from the bottom 15 1/4 to 16 in. Change: lengthen it to the next part, or give that part a groove for it.",
    ]);
  });

  it("a side too long and a side too short for its case", () => {
    const long = spoiled("2", (side) => {
      side.length += IN / 8;
    });
    expect(texts(long, "envelope")).toEqual([
      "The far end (l1) of right side 2 stands 1/8 in outside case, in case, from the left 35 1/4 to 36, from the front 0 to 12, from the bottom 0 to 30 1/8 in. Change: shorten or move it by 1/8 in.",
    ]);
    const short = spoiled("2", (side) => {
      side.length -= IN / 8;
    });
    expect(texts(short, "flush")).toEqual([
      "The far end (l1) of right side 2 is not flush with the outside of case: it stops 1/8 in short of it, in case, from the left 35 1/4 to 36, from the front 0 to 12, from the bottom 0 to 29 7/8 in, and rounding leaves at most 1/16 in. Change: lengthen it by 1/16 in or more.",
    ]);
  });

  it("figures that are no whole steps, the wrong thickness, a left-handed place, one mark for two parts", () => {
    const off = spoiled("7", (back) => {
      back.length -= IN / 100;
    });
    expect(texts(off, "whole-steps")).toEqual([
      "The length of back 7 is 26.240 in, which is no whole number of steps of 1/16 in. Change: round it to the step.",
    ]);
    const thick = spoiled("6", (shelf) => {
      shelf.thickness += IN / 8;
    });
    expect(texts(thick, "stock")).toEqual([
      "Shelf 6 is 7/8 in thick, but thick plywood measures 3/4 in. Change: give the part the measured thickness, or another stock.",
    ]);
    const left = spoiled("6", (shelf) => {
      shelf.place!.t = "-z";
    });
    expect(texts(left, "place")).toEqual([
      "The place of shelf 6 is left-handed (l +x, w +y, t -z): it would be the mirror image of the part that is cut. Change: turn one of its axes round.",
    ]);
    const twice = spoiled("6", (shelf) => {
      shelf.mark = "5";
    });
    expect(texts(twice, "marks")).toEqual([
      "Two parts have the mark 5, shelf among them. Change: leave one of them out, or give it its own.",
    ]);
  });

  it("a groove over half the nominal thickness, outside its part, or told two ways", () => {
    const deep = spoiled("3", (bottom) => {
      reboxed(bottom.features[0]!, [
        [17.25, 0, 0.25],
        [18, 12, 0.75],
      ]);
    });
    expect(texts(deep, "groove-depth")).toEqual([
      "The groove at 17 1/4 in on face t1 of bottom 3 is 1/2 in deep; 3/8 in, half the nominal thickness, is the most. Change: a joint depth of 3/8 in or less.",
    ]);
    const outside = spoiled("1", (side) => {
      side.width -= IN;
    });
    expect(texts(outside, "feature")[0]).toBe(
      "The groove at 2 in on face t0 of left side 1 lies 1 in outside the part. Change: move it, or make the part larger.",
    );
    const told = spoiled("1", (side) => {
      side.features[1]!.depth = IN / 4;
    });
    expect(texts(told, "feature")).toEqual([
      "The groove at 15 1/4 in on face t0 of left side 1: its figures and its shape do not agree (depth). Change: make depth and the box tell the same.",
    ]);
    const outline = spoiled("1", (side) => {
      side.features[1]!.outline[2] = [0, 0];
    });
    expect(texts(outline, "feature")).toEqual([
      "The groove at 15 1/4 in on face t0 of left side 1: its figures and its shape do not agree (outline). Change: make outline and the box tell the same.",
    ]);
  });

  it("a rabbet over half the nominal thickness", () => {
    const deep = spoiled("3", (bottom) => {
      bottom.features[0]!.kind = "rabbet";
      reboxed(bottom.features[0]!, [
        [17.25, 0, 0.25],
        [18, 12, 0.75],
      ]);
    });
    expect(texts(deep, "groove-depth")).toEqual([
      "The rabbet at 17 1/4 in on face t1 of bottom 3 is 1/2 in deep; 3/8 in, half the nominal thickness, is the most. Change: a joint depth of 3/8 in or less.",
    ]);
  });

  it("two grooves side by side with no wood between them", () => {
    const beside = (from: number, until = 12): string[] =>
      texts(
        spoiled("1", (side) => {
          reboxed(side.features[1]!, [
            [from, until - 6, 0],
            [from + 0.75, until, 0.375],
          ]);
          reboxed(side.features[0]!, [
            [2, 0, 0],
            [2.75, 6, 0.375],
          ]);
          reboxed(side.features[2]!, [
            [28.5, 4, 0],
            [29.25, 12, 0.375],
          ]);
        }),
        "groove-beside",
      );
    // The groove at 28 1/2 runs from 4 to 12 in, the one moved beside it from 6 to 12.
    expect(beside(28)).toEqual([
      "The groove at 28 in on face t0 of left side 1 and the groove at 28 1/2 in overlap by 1/4 in, with no wood between them where both run, from 6 in to 12 in. Change: move one of the two parts they hold.",
    ]);
    expect(beside(27.75)).toEqual([
      "The groove at 27 3/4 in on face t0 of left side 1 and the groove at 28 1/2 in touch, with no wood between them where both run, from 6 in to 12 in. Change: move one of the two parts they hold.",
    ]);
    expect(beside(27.6875)).toEqual([]);
    // Across the back's own groove at 11, which runs the other way.
    expect(beside(11)).toEqual([]);
    // In one line with the groove at 2, which ends where it begins: one after the other, not side by side.
    expect(beside(2)).toEqual([]);
    // As the groove at 2 in on that stretch, and on top of it.
    expect(beside(2, 7)).toEqual([
      "The groove at 2 in on face t0 of left side 1 and the groove at 2 in overlap by 3/4 in, with no wood between them where both run, from 1 in to 6 in. Change: move one of the two parts they hold.",
    ]);
  });

  it("nothing beside a groove of the other face", () => {
    const set = spoiled("5", (divider) => {
      const opposite = structuredClone(divider.features[0]!);
      opposite.face = "t0";
      reboxed(opposite, [
        [12.875, 0, 0],
        [13.625, 11, 0.375],
      ]);
      divider.features.push(opposite);
    });
    expect(texts(set, "groove-beside")).toEqual([]);
    expect(texts(set, "feature")).toEqual([]);
  });

  it("a bay that is not clear, not closed, or has a wrong diagonal", () => {
    const set = workedA();
    set.openings[0]!.height += IN;
    set.openings[2]!.diagonal += 1;
    expect(texts(set, "bays")).toEqual([
      "Bay 1.1 is not clear: shelf 6 stands in it, in case, from the left 3/4 to 17 5/8, from the front 0 to 11, from the bottom 15 1/4 to 16 in. Change: move the part, or make the bay smaller.",
      "Bay 1.1 is not closed above: top panel 4 is 12 1/4 in away, in case, from the left 3/4 to 17 5/8, from the front 0 to 11, from the bottom 16 1/4 to 16 1/4 in. Change: the bay's size, or the part's place.",
      "The diagonal of bay 1.1 is given as 21.000 in; 16 7/8 in x 13 1/2 in make it 21.611 in. Change: the diagonal.",
      "The diagonal of bay 2 is given as 30.826 in; 16 7/8 in x 25 3/4 in make it 30.787 in. Change: the diagonal.",
    ]);
    const low = workedA();
    low.openings[1]!.height -= IN;
    low.openings[1]!.diagonal = IN * Math.hypot(16.875, 11.5);
    expect(texts(low, "bays")).toEqual([
      "Bay 1.2 is not closed above: top panel 4 is 1 in away, in case, from the left 3/4 to 17 5/8, from the front 0 to 11, from the bottom 27 1/2 to 27 1/2 in. Change: the bay's size, or the part's place.",
    ]);
  });

  it("overlaps of parts of two cases, in the room", () => {
    const set = bare(workedA());
    const second = bare(workedA());
    second.assemblies[0]!.name = "next";
    second.assemblies[0]!.place.at = [35.5 * IN, 0, 0];
    for (const part of second.parts) {
      Object.assign(part, {
        assembly: "next",
        case: "next",
        mark: `${part.mark}0`,
        key: `next/${part.key}`,
        pattern: `${part.mark}0`,
      });
    }
    for (const piece of second.pieces) Object.assign(piece, { id: `${piece.id}0`, mark: `${piece.mark}0` });
    set.assemblies.push(...second.assemblies);
    set.parts.push(...second.parts);
    set.pieces.push(...second.pieces);
    const overlaps = dryFit(set).filter((check) => check.id === "overlap");
    expect(overlaps.every((check) => check.text.includes(" in the room, "))).toBe(true);
    expect(overlaps.map((check) => check.parts)).toContainEqual(["2", "10"]);
    second.assemblies[0]!.place.at = [36 * IN, 0, 0];
    expect(texts(set, "overlap")).toEqual([]);
  });
});

describe("stated joints against the solids", () => {
  const with_ = (change: (set: DryfitSet) => void): string[] => {
    const set = workedA();
    change(set);
    return texts(set, "joints");
  };

  it("a gap, a depth, a looseness and a kind that are not so", () => {
    expect(
      with_((set) => {
        set.joints[0]!.gap = [0, 1];
        set.joints[1]!.depth = IN / 4;
        set.joints[2]!.loose = 0.1;
        set.joints[3]!.kind = "butt";
        set.joints[4]!.fit = "slip";
      }),
    ).toEqual([
      "The joint of 3 (first end (l0)) with 1 (face t0) is not as stated: largest gap 0.039 in, but the solids leave 0 in. Change: state what the parts make.",
      "The joint of 3 (far end (l1)) with 2 (face t1) is not as stated: depth 1/4 in, but the solids leave 3/8 in. Change: state what the parts make.",
      "The joint of 4 (first end (l0)) with 1 (face t0) is not as stated: loose 0.004 in, but the solids leave 0 in. Change: state what the parts make.",
      "The joint of 4 (far end (l1)) with 2 (face t1) is not as stated: kind butt, but what the parts make is housed. Change: state what the parts make.",
      "The joint of 5 (first end (l0)) with 3 (face t1) is not as stated: fit slip, but the rule is seated. Change: state what the parts make.",
    ]);
  });

  it("a joint that is not made, and one that is not stated", () => {
    expect(
      with_((set) => {
        set.joints[13]!.entering = "3";
      }),
    ).toEqual([
      "The joint of 3 (far edge (w1)) with 7 (face t0) is stated, but the parts do not meet there. Change: place or size one of the two, or leave the joint out.",
      "Shelf 6 (far edge (w1)) meets back 7 (face t0), but no joint is stated there. Change: state the joint.",
    ]);
  });

  it("a groove that holds another part than it says", () => {
    expect(
      with_((set) => {
        partOf(set, "5").features[0]!.holds = "7";
      }),
    ).toEqual([
      "The groove at 12 7/8 in on face t1 of divider 5 is to hold 7, which does not enter it. Change: what it holds, or where that part stands.",
    ]);
  });
});
