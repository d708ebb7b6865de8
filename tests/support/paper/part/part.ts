/**
 * A part rebuilt from its drawing alone: what its caption, its views and its notes say. Its own axes are those of the
 * drawing: length to the right (or up, where it stands), width up (or to the left), the first face that is drawn uppermost.
 */
import type { Box } from "../../../../src/base/geometry.ts";
import type { Face } from "../../../../src/set/schema.ts";
import type { Caption, Note } from "../notes.ts";
import type { PartPage } from "../part-views.ts";
import { captionsOn } from "./captions.ts";
import { checkTongues, readChannels, readEdgeGrooves } from "./channels.ts";
import { type ReadCutOut, readCutOuts } from "./cut-outs.ts";
import { type ReadDovetail, readDovetails } from "./dovetails.ts";
import { crosses, type ReadLine, readFixed, readLines } from "./fixed.ts";
import { readHoles } from "./holes.ts";
import { readLippings } from "./lippings.ts";
import { readMortises } from "./mortises.ts";
import { readNotches } from "./notch-corners.ts";
import { Reading } from "./reading.ts";

export type ReadFeature = {
  kind: "groove" | "rabbet" | "shoulder" | "lap" | "notch" | "mortise";
  face: Face;
  along: "l" | "w" | "t";
  box: Box;
  holds: string | null;
  also: string[];
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
  dovetails: ReadDovetail[];
  cutOuts: ReadCutOut[];
  /** Where the middles of what is fastened to it lie, and where screws are drawn. */
  fixed: { mark: string; axis: "l" | "w"; at: number }[];
  screws: { face: Face; l: number; w: number }[];
  lines: ReadLine[];
  faults: string[];
};

export const readParts = (page: PartPage): ReadPart[] =>
  captionsOn(page).map(({ caption, notes }) => readPart(new Reading(page, caption, notes)));

/** First all that must be told somewhere, then what the figures make of it. */
function readPart(part: Reading): ReadPart {
  const { length, width, marks } = part.caption;
  part.places.l.tie({ from: 0, to: part.size.l, value: length, check: false, what: "the length" });
  part.places.w.tie({ from: 0, to: part.size.w, value: width, check: false, what: "the width" });
  for (const view of part.views) {
    for (const axis of ["l", "w"] as const)
      for (const at of view.lines[axis]) part.places[axis].mark(view.at(axis, at));
    for (const row of view.rows) part.tieRow(view, row);
  }
  const channels = readChannels(part);
  const panel = readLippings(part);
  const notches = readNotches(part, panel);
  const fixed = readFixed(part);
  const lines = readLines(part);
  const holes = readHoles(part);
  const mortises = readMortises(part);
  const dovetails = readDovetails(part);
  const cutOuts = readCutOuts(part);
  const edged = readEdgeGrooves(part);
  return {
    caption: part.caption,
    notes: part.notes,
    unit: part.page.unit,
    step: part.page.step,
    names: part.names,
    features: [...channels(), ...notches(), ...edged, ...mortises()],
    holes: holes(),
    dovetails,
    cutOuts: cutOuts(),
    fixed: fixed(),
    screws: part.views
      .flatMap((view) => crosses(part, view).map((spot) => ({ face: view.top, ...spot })))
      .map(({ face, l, w }) => ({ face, l: part.value("l", l), w: part.value("w", w) })),
    lines: lines(),
    faults: [...part.faults, ...part.places.l.finish(), ...part.places.w.finish(), ...checkTongues(part)].map(
      (fault) => (fault.startsWith(marks[0]!) ? fault : `${marks[0]}: ${fault}`),
    ),
  };
}
