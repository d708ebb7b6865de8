/** Bays: a tree of columns and rows laid out between the sides, with a divider or a shelf between each two. */
import type { Vec } from "../../base/geometry.ts";
import type { Mm } from "../../base/length.ts";
import type { Bay } from "../../project/bay.ts";
import { divide } from "../../project/checks/clear-bays.ts";
import type { Opening } from "../model.ts";
import type { PinnedBay } from "./pins.ts";

type Range = readonly [Mm, Mm];
type Around = { left: string; right: string; below: string; above: string };

export type BaySpace = {
  space: { x: Range; z: Range };
  around: Around; // keys of the parts around
  prefix: string;
  divider: Mm; // measured thicknesses
  shelf: Mm;
  depth: Mm; // clear, front to back
  fullDepth: Mm; // of the dividers between the outermost columns
};

/** A divider or shelf at butt size. */
export type Member = { role: "divider" | "shelf"; id: string; name: string; path: string; lo: Vec; hi: Vec };

/** `columns`: clear spans of the outermost columns; `pinned`: bays with loose shelves. */
export type BayLayout = {
  members: Member[];
  openings: Opening[];
  columns: Range[];
  pinned: (Omit<PinnedBay, "front"> & { path: string })[];
};

export function layBays(root: Bay, space: BaySpace): BayLayout {
  const members: Member[] = [];
  const openings: Opening[] = [];
  const columnSpans: Range[] = [];
  const pinned: BayLayout["pinned"] = [];

  /** `place` is the bay's path in the tree, "" for the whole case, then "2", "2.1" and so on. */
  const lay = (bay: Bay, x: Range, z: Range, around: Around, place: string): void => {
    if (bay.kind === "open") {
      const name = bay.name ?? (place === "" ? "bay" : `bay ${place}`);
      openings.push({ name, home: space.prefix, path: bay.path, ...around, depth: space.depth });
      if (bay.loose > 0) {
        const { left, right } = around;
        pinned.push({ path: bay.path, place, x, z, depth: space.depth, left, right, loose: bay.loose });
      }
      return;
    }
    const columns = bay.kind === "columns";
    const role = columns ? "divider" : "shelf";
    const thickness = columns ? space.divider : space.shelf;
    const run = columns ? x : z;
    const division = divide(run[1] - run[0], thickness, bay.bays);
    // The reader has checked that bays add up and named the place where they do not.
    if ("over" in division) throw new Error(`Bays at ${bay.path} do not add up`);
    const { sizes } = division;
    const memberId = (i: number): string => `${role}-${place === "" ? "" : `${place}.`}${i + 1}`;
    const memberKey = (i: number): string => `${space.prefix}/${memberId(i)}`;

    let from = run[0];
    bay.bays.forEach((child, i) => {
      const to = from + sizes[i]!;
      const last = i === bay.bays.length - 1;
      const childAround: Around = { ...around };
      if (i > 0) childAround[columns ? "left" : "below"] = memberKey(i - 1);
      if (!last) childAround[columns ? "right" : "above"] = memberKey(i);
      const span: Range = [from, to];
      if (columns && place === "") columnSpans.push(span);
      lay(child, columns ? span : x, columns ? z : span, childAround, place === "" ? `${i + 1}` : `${place}.${i + 1}`);
      if (!last) {
        const rear = columns && place === "" ? space.fullDepth : space.depth;
        members.push({
          role,
          id: memberId(i),
          name: role,
          path: child.path,
          lo: columns ? [to, 0, z[0]] : [x[0], 0, to],
          hi: columns ? [to + thickness, rear, z[1]] : [x[1], rear, to + thickness],
        });
      }
      from = to + thickness;
    });
  };
  lay(root, space.space.x, space.space.z, space.around, "");
  return { members, openings, columns: columnSpans, pinned };
}
