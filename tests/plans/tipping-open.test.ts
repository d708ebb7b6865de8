/** A piece with all its doors open and its drawers drawn out: held against bodies that are turned and moved step by step. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import type { CheckInput } from "../../src/plans/checks/input.ts";
import { type Piece, standingPieces } from "../../src/plans/checks/piece.ts";
import { staticsOf } from "../../src/plans/checks/tipping.ts";
import { checkOpen, staticsOpen } from "../../src/plans/checks/tipping-open.ts";
import { checkInputOf } from "../support/jobs/check-input.ts";
import { testFile } from "../support/jobs/examples.ts";

const inputOf = (name: string): CheckInput => checkInputOf(readFileSync(testFile(name), "utf8"));
const [NEAR, STEP] = [0.05, 0.05];

type Body = { mass: number; y: number }; // kg, mm behind the piece's front

/** Each hinged door, turned by steps of a twentieth of a degree: where its middle, and any corner of it, comes foremost. */
function doorsTurned({ doors, assemblies, parts }: CheckInput, piece: Piece): { bodies: Body[]; reach: number } {
  let reach = 0;
  const bodies = doors.map(({ assembly: name }): Body => {
    const door = assemblies.find((one) => one.name === name)!;
    const { pivot, range } = door.travel as Extract<typeof door.travel, { kind: "swing" }>;
    const own = parts.filter((part) => part.assembly === name);
    const mass = own.reduce((sum, part) => sum + part.mass, 0);
    let least = Number.POSITIVE_INFINITY;
    for (let degrees = range[0]; degrees <= range[1]; degrees += STEP) {
      const [sin, cos] = [Math.sin((degrees * Math.PI) / 180), Math.cos((degrees * Math.PI) / 180)];
      const turned = (x: number, y: number): number =>
        door.place.at[1] + pivot[1] + (x - pivot[0]) * sin + (y - pivot[1]) * cos - piece.at[1];
      const middle = own.reduce((sum, { place, length, width, thickness, mass: kg }) => {
        const size = { l: length, w: width, t: thickness };
        const [x, y] = [0, 1].map((axis) => {
          const letter = (["l", "w", "t"] as const).find((one) => place![one][1] === "xy"[axis])!;
          return place!.at[axis]! + ((place![letter][0] === "+" ? 1 : -1) * size[letter]) / 2;
        }) as [number, number];
        return sum + kg * turned(x, y);
      }, 0);
      least = Math.min(least, middle / mass);
      for (const x of [0, door.size[0]]) for (const y of [0, door.size[1]]) reach = Math.max(reach, -turned(x, y));
    }
    return { mass, y: least };
  });
  return { bodies, reach };
}

describe("all open", () => {
  it.each(["doors-inset", "doors-overlay", "doors-solid"])("%s: doors turned step by step come to the same", (name) => {
    const input = inputOf(name);
    for (const piece of standingPieces(input)) {
      const still = staticsOf(piece);
      const { bodies, reach } = doorsTurned(input, piece);
      const mass = still.mass + bodies.reduce((sum, one) => sum + one.mass, 0);
      const y = (still.mass * still.centre[1] + bodies.reduce((sum, one) => sum + one.mass * one.y, 0)) / mass;
      const open = staticsOpen(piece, input)!;
      expect(open.doors).toBe(input.doors.length);
      expect(Math.abs(open.mass - mass)).toBeLessThan(1e-9);
      expect(Math.abs(open.behind - (y - still.feet))).toBeLessThan(NEAR);
      expect(Math.abs(open.reach - (reach + still.feet))).toBeLessThan(NEAR);
    }
  });

  it.each(["drawers-side-mounted", "drawers-undermount", "drawers-runners"])(
    "%s: drawers come out by their slides",
    (name) => {
      const input = inputOf(name);
      const [piece] = standingPieces(input);
      const still = staticsOf(piece!);
      const own = (assembly: string): number =>
        input.parts.filter((part) => part.assembly === assembly).reduce((sum, part) => sum + part.mass, 0);
      let [mass, turning] = [still.mass, still.mass * still.centre[1]];
      for (const { assembly, slides, load, free, opening, sums } of input.drawers) {
        const depth = sums.find(({ what }) => what === "depth")!.makes;
        const middle = opening.rear - free.behind - depth / 2 - slides.length - piece!.at[1];
        turning += load * middle - own(assembly) * slides.length;
        mass += load;
      }
      const open = staticsOpen(piece!, input)!;
      expect(open.behind).toBeCloseTo(turning / mass - still.feet, 6);
      // In balance: the load on the foremost edge turns as much forward as the rest turns back.
      if (open.behind > 0) expect(open.bears * open.reach).toBeCloseTo(open.mass * open.behind, 6);
    },
  );

  it("a light case with a heavy door on it is said to go over, and a closed one is no case of it", () => {
    const heavy = (density: number): string[] => {
      const input = inputOf("doors-overlay");
      const doors = input.doors.map(({ assembly }) => assembly);
      const parts = input.parts.map((part) =>
        doors.includes(part.assembly) ? { ...part, mass: part.mass * density } : part,
      );
      return checkOpen({ ...input, parts }).map(({ level, text }) => `${level}: ${text}`);
    };
    expect(heavy(1)).toEqual([expect.stringMatching(/^(ok|warning): .* open/)]);
    expect(heavy(60)).toEqual([expect.stringMatching(/^warning: .* It goes over\.$/)]);
    expect(checkOpen(inputOf("kick"))).toEqual([]);
  });
});
