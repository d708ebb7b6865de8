/** A face frame: stiles and rails of solid wood before a case's front edges, an assembly of its own. It follows from the case as it stands. */
import type { Vec } from "../base/geometry.ts";
import type { Mm } from "../base/length.ts";
import type { Bay, Case, FaceFrame } from "../project/project.ts";
import { PLAIN, type StockTable, stockOf } from "./carcase.ts";
import type { CaseModel, Frame, Opening, Part } from "./model.ts";

const UPRIGHT: Frame = { l: "+z", w: "+x", t: "+y" };
const LEVEL: Frame = { l: "+x", w: "+z", t: "-y" };

type Range = readonly [Mm, Mm];
type Around = { left: string; right: string; below: string; above: string };

/** How a member comes to lie on the figures that are printed; the exact model leaves its places alone. */
export type FramePlace = { nearest: (at: Mm) => Mm; down: (at: Mm) => Mm };
export const EXACT_PLACE: FramePlace = { nearest: (at) => at, down: (at) => at };

/** What of a case its frame follows from: its size, and where its parts came to lie. */
type AsBuilt = Pick<CaseModel, "size" | "parts" | "design">;

export const frameName = (ofCase: string): string => `${ofCase} frame`;

/** Where the frame begins: at the floor, or where the toe space ends. */
export const frameFoot = ({ kick, bottom }: Pick<Case, "kick" | "bottom">): Mm => (kick === null ? 0 : bottom.up);

/** The frame of a case, or none; not yet joined. `name`: of the case. */
export function layFrame(one: CaseModel, stock: StockTable, place: FramePlace): CaseModel[] {
  const { frame } = one.design;
  if (one.kind !== "case" || frame === null) return [];
  const { thickness } = stockOf(stock, one.design.stock.stile);
  const overhang = place.nearest(frame.overhang);
  const foot = place.nearest(frameFoot(one.design));
  const size: Vec = [place.nearest(one.size[0] + 2 * overhang), thickness, place.nearest(one.size[2] - foot)];
  const { parts, openings } = layMembers(one, frame, { overhang, foot, size, place });
  return [
    {
      name: frameName(one.name),
      kind: "frame",
      design: one.design,
      at: [one.at[0] - overhang, one.at[1] - thickness, one.at[2] + foot],
      size,
      parts,
      openings,
      borrowed: [],
      joints: [],
      pinRows: [],
      thirds: [],
    },
  ];
}

type Ground = { overhang: Mm; foot: Mm; size: Vec; place: FramePlace };

function layMembers(
  { name: home, design, parts: caseParts }: AsBuilt & { name: string },
  frame: FaceFrame,
  { overhang, foot, size, place }: Ground,
): { parts: Part[]; openings: Opening[] } {
  const prefix = frameName(home);
  const [width, thickness, height] = size;
  const wide = (given: Mm): Mm => place.nearest(given);
  const parts: Part[] = [];
  const openings: Opening[] = [];
  const add = (role: "stile" | "rail", id: string, name: string, x: Range, z: Range): string => {
    const key = `${prefix}/${id}`;
    parts.push({
      ...PLAIN,
      key,
      path: `${design.path}.frame`,
      name,
      role,
      stock: design.stock[role],
      frame: role === "stile" ? UPRIGHT : LEVEL,
      box: [
        [x[0], 0, z[0]],
        [x[1], thickness, z[1]],
      ],
      inside: "+y",
      show: ["-y"],
    });
    return key;
  };
  const partOf = (id: string): Part => caseParts.find(({ key }) => key === `${home}/${id}`)!;
  const stile = wide(frame.stile);
  const left = add("stile", "stile-left", "left stile", [0, stile], [0, height]);
  const right = add("stile", "stile-right", "right stile", [width - stile, width], [0, height]);
  const inner: Range = [stile, width - stile];

  const cover = design.top.fit === "stretchers" ? "stretcher-front" : "top";
  const topRail = frame.topRail === null ? height + foot - partOf(cover).box[0][2] : frame.topRail;
  const ceiling = frame.topRail === null ? height - place.down(topRail) : height - wide(topRail);
  const above = add("rail", "rail-top", "top rail", inner, [ceiling, height]);
  const bottom = partOf("bottom").box;
  let floor = Math.max(0, place.nearest(bottom[0][2] - foot));
  let below = "";
  if (frame.bottomRail !== null) {
    const upper = place.nearest(bottom[1][2] - foot);
    floor = upper;
    const lower = frame.bottomRail === "to the end" ? 0 : upper - wide(frame.bottomRail);
    below = add("rail", "rail-bottom", "bottom rail", inner, [lower, upper]);
  }

  /** `at`: the bay's path in the tree, "" for the whole case. */
  const lay = (bay: Bay, x: Range, z: Range, around: Around, at: string): void => {
    const rows = bay.kind === "rows" && frame.midRail === null;
    if (bay.kind === "open" || rows) {
      openings.push({
        name: bay.name ?? (at === "" ? "opening" : `opening ${at}`),
        path: bay.path,
        ...around,
        depth: thickness,
      });
      return;
    }
    const columns = bay.kind === "columns";
    const idOf = (i: number): string => `${at === "" ? "" : `${at}.`}${i + 1}`;
    const members = bay.bays.slice(1).map((_, i) => {
      const member = partOf(`${columns ? "divider" : "shelf"}-${idOf(i)}`).box;
      if (columns) {
        const middle = (member[0][0] + member[1][0]) / 2 + overhang;
        const across = wide(frame.midStile);
        const from = place.nearest(middle - across / 2);
        return { range: [from, from + across] as const, key: "" };
      }
      const upper = place.nearest(member[1][2] - foot);
      return { range: [upper - wide(frame.midRail!), upper] as const, key: "" };
    });
    for (const [i, member] of members.entries()) {
      member.key = columns
        ? add("stile", `stile-${idOf(i)}`, "mid stile", member.range, z)
        : add("rail", `rail-${idOf(i)}`, "mid rail", x, member.range);
    }
    bay.bays.forEach((child, i) => {
      const [before, after] = [members[i - 1], members[i]];
      const whole = columns ? x : z;
      const span: Range = [before?.range[1] ?? whole[0], after?.range[0] ?? whole[1]];
      const own: Around = {
        ...around,
        ...(before ? { [columns ? "left" : "below"]: before.key } : {}),
        ...(after ? { [columns ? "right" : "above"]: after.key } : {}),
      };
      lay(child, columns ? span : x, columns ? z : span, own, idOf(i));
    });
  };
  lay(design.bays, inner, [floor, ceiling], { left, right, below, above }, "");
  // Open to the floor, it is no opening with four sides.
  const clear = openings.filter(({ below: under }) => under !== "");
  return { parts, openings: clear };
}
