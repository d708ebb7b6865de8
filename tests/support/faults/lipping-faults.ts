/** Faults of lippings: the panel is cut to suit, and the lipping's own piece, so that only the wood beside it can tell. */
import type { Face, SetLipping, SetPart } from "../../../src/set/schema.ts";
import type { Planter } from "./faults.ts";

export function plantLippings(planter: Planter, part: SetPart): void {
  part.lippings.forEach((lipping, i) => {
    plantLipping(planter, part, lipping, i);
  });
}

function plantLipping(planter: Planter, part: SetPart, lipping: SetLipping, index: number): void {
  const { mark } = part;
  const { off } = planter;
  const corners = part.features.filter((feature) => feature.lipping);
  const others = planter.base.parts.filter(
    (other) =>
      other.mark !== mark &&
      other.assembly === part.assembly &&
      other.lippings.some(({ name, lipped }) => name === lipping.name && lipped === lipping.lipped),
  );
  const edit = (kind: string, change: (each: SetLipping, owner: SetPart) => void): void =>
    planter.plant(`lipping ${kind}`, mark, (each, set) => {
      const own = each.lippings[index]!;
      change(own, each);
      const piece = set.pieces.filter((cut) => cut.mark === mark && cut.kind === "lipping")[index];
      if (piece) Object.assign(piece, { length: own.to - own.from, thickness: own.thickness });
    });
  for (const by of [off, -off]) {
    const kind = by > 0 ? "too thick" : "too thin";
    if (lipping.thickness + by <= 1e-6)
      planter.leaveOut(`lipping ${kind}`, mark, "two steps are its whole depth: planted as missing");
    else if (corners.length === 0 && others.length === 0)
      planter.leaveOut(`lipping ${kind}`, mark, "it is the only lipping by its name, and nothing stops for it");
    else
      edit(kind, (own) => {
        own.thickness += by;
      });
    edit(by > 0 ? "too long at its far end" : "too short at its far end", (own) => {
      own.to += by;
    });
    edit(by > 0 ? "too short at its near end" : "too long at its near end", (own) => {
      own.from += by;
    });
  }
  if (corners.length === 0) {
    planter.leaveOut("lipping missing", mark, "without it the panel is as large, and nothing stops for it");
    return;
  }
  planter.plant("lipping missing", mark, (each, set) => {
    each.lippings.splice(index, 1);
    set.pieces = set.pieces.filter((cut) => cut.mark !== mark || cut.kind !== "lipping");
  });
  edit("on the other edge", (own) => {
    own.edge = `${own.edge[0]}${own.edge[1] === "0" ? "1" : "0"}` as Face;
  });
  planter.plant("lipping's corner filled up", mark, (each) => {
    each.features.splice(
      each.features.findIndex((feature) => feature.lipping),
      1,
    );
  });
}
