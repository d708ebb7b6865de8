/** Lippings: drawn by a thin line along the edge that each is on. */

import { isDrawnWith } from "../page.ts";
import { ONE_LINE } from "../places.ts";
import type { Axis, Reading } from "./reading.ts";

export function readLippings(part: Reading): Record<Axis, [number, number]> {
  const [view] = part.views;
  const panel: Record<Axis, [number, number]> = { l: [0, part.size.l], w: [0, part.size.w] };
  for (const { edge: name, thickness, length, run } of part.notesOf("lipping")) {
    const edge = part.faceCalled(name);
    const axis = edge[0] as Axis;
    const other: Axis = axis === "l" ? "w" : "l";
    const isLow = edge.endsWith("0");
    const size = part.size[axis];
    const inner = part
      .inside(view!, axis, (one) => isDrawnWith(one, "thin"))
      .filter(({ from, to, at }) => to - from > part.size[other] / 2 && at > ONE_LINE && at < size - ONE_LINE)
      .sort((a, b) => (isLow ? a.at - b.at : b.at - a.at))[0];
    if (inner === undefined) {
      part.faults.push(`no lipping is drawn on the ${name}`);
      continue;
    }
    part.places[axis].tie({
      from: isLow ? 0 : inner.at,
      to: isLow ? inner.at : size,
      value: thickness,
      check: false,
      what: "the lipping",
    });
    panel[axis][isLow ? 0 : 1] = inner.at;
    part.own(axis, inner.at, `lipping ${name}`);
    if (run !== null) {
      for (const at of [inner.from, inner.to]) part.own(other, at, `end of the lipping ${name}`);
      for (const [at, value] of [
        [inner.from, run.from],
        [inner.to, run.to],
      ] as const) {
        if (value !== null) part.places[other].tie({ from: 0, to: at, value, check: false, what: "the lipping's end" });
      }
    }
    part.places[other].tie({
      from: inner.from,
      to: inner.to,
      value: length.value,
      check: length.check,
      what: "the lipping's length",
    });
  }
  for (const note of part.notesOf("panel")) {
    part.places.l.tie({
      from: panel.l[0],
      to: panel.l[1],
      value: note.length.value,
      check: note.length.check,
      what: "the panel's length",
    });
    part.places.w.tie({
      from: panel.w[0],
      to: panel.w[1],
      value: note.width.value,
      check: note.width.check,
      what: "the panel's width",
    });
  }
  return panel;
}
