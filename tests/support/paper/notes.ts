/** What captions and notes of part drawings tell, once they are read. */
import type { BoltsNote } from "./bolts.ts";

/** A figure in a sentence; in brackets it only repeats what others say. */
export type Said = { value: number; check: boolean };

export type Caption = {
  marks: string[];
  name: string;
  count: number;
  hand: "left" | "right" | null;
  /** By name, where it is not that of the title block. */
  scale: string | null;
  length: number;
  width: number;
  unit: string;
  thickness: number;
  stock: string;
  grain: boolean;
};

export type Stop = { end: string; by: Said | null; into: string | null };
export type Seat = { ends: { end: string; into: string[] }[]; depth: number; gap: number; slip: boolean };

export type Note =
  | {
      kind: "groove" | "rabbet" | "shoulder" | "lap";
      marks: string[];
      along: "l" | "w";
      face: string | null;
      width: Said;
      depth: number;
      tongue: Said | null;
      from: { by: number; face: string } | null;
      stops: Stop[];
    }
  | {
      kind: "notch";
      along: Said;
      across: Said;
      behind: boolean;
      corners: { end: string; edge: string; reason: string }[];
    }
  | { kind: "mitre"; edge: string; face: string }
  | { kind: "cut out"; edge: string; arch: boolean }
  | { kind: "scribe"; mark: string; more: number; edge: string }
  | { kind: "moulded"; shape: string; radius: number; edges: string[]; face: string }
  | {
      kind: "fixed";
      marks: string[];
      how: string;
      face: string | null;
      screws: number | null;
      /** From screw to screw. */
      apart: number | null;
      /** Where screws stand along their row, if the words say it. */
      row: { places: number[]; end: string } | null;
      near: number[];
      /** Where the rows of screws from face to face stand across, from the same edge. */
      lines: number[] | null;
      /** Their far faces: they stand out beyond the edge. */
      isFar: boolean;
      edge: string;
      /** Told by a row of the table of screws: no figure round the view says it. */
      isTabled: boolean;
    }
  | {
      kind: "holes";
      rows: number;
      count: number;
      what: string;
      face: string;
      diameter: number;
      /** Null right through. */
      depth: number | null;
      pitch: number | null;
      off: { by: number; from: string } | null;
    }
  | {
      kind: "lines";
      marks: string[];
      face: string;
      what: string;
      from: number;
      to: number;
      end: string;
      screws: number;
    }
  | {
      kind: "mortises";
      marks: string[];
      count: number;
      face: string;
      width: number;
      depth: number;
      from: { by: number; face: string } | null;
    }
  | {
      kind: "dovetail";
      marks: string[];
      has: "tails" | "pins";
      count: number;
      ends: string[];
      baseline: number;
      tips: string;
      edge: string;
      tails: [number, number][];
      low: number; // lower edge of the lowest pin
      slope: number;
    }
  | { kind: "slots"; count: number; of: string }
  | { kind: "held"; how: string; by: string[] }
  | { kind: "seats"; marks: string[] | null; seats: Seat[] }
  | { kind: "back"; marks: string[] | null; by: number; behind: string[] }
  | {
      kind: "lipping";
      what: string;
      thickness: number;
      length: Said;
      edge: string;
      when: "before" | "after";
      /** Where it does not run from end to end. */
      run: { from: number | null; to: number | null; end: string } | null;
    }
  | BoltsNote
  | { kind: "panel"; length: Said; width: Said }
  | { kind: "mating" }
  | { kind: "alike" }
  | { kind: "elsewhere" }
  | { kind: "detail"; of: string }
  | { kind: "datum"; faces: string[] };
