/** The paper that a set is printed on. */
import type { Mm } from "../base/length.ts";

export type PaperSize = { name: string; width: Mm; height: Mm };

export type LabelFormat = {
  name: string;
  page: PaperSize;
  columns: number;
  rows: number;
  label: { width: Mm; height: Mm };
  left: Mm;
  top: Mm;
  pitch: { x: Mm; y: Mm };
  /** Plain paper: draw lines to cut along. */
  cutLines: boolean;
  /** The first label still there, counted row by row from 1. */
  start: number;
  /** A label printer's dots an inch: code modules then are whole dots; null: an office printer. */
  dpi: number | null;
  /** What is printed on them, measured / true; 1 when not measured. */
  print: { x: number; y: number };
};

export type PaperChoice = {
  drawings: PaperSize; // as held: landscape when width > height
  sticks: PaperSize;
  labels: LabelFormat;
  /** Printing scale measured on the check bars (measured / true); 1 when not measured. */
  print: { x: number; y: number };
  /** The same of the roll printer or plotter. */
  roll: { x: number; y: number };
};
