/** The machines of the shop, and what they reach. */
import type { Mm } from "../base/length.ts";

export type Tooling = {
  saw: {
    kerf: Mm;
    bladeRadius: Mm;
    rip: Mm; // fence to blade, at most
    ripOther: Mm; // the same with the fence on the other side of the blade; 0: it does not go there
    narrowest: Mm; // ripped between fence and blade, at least
    sled: Mm; // longest part the sled or mitre gauge carries across
    sledDepth: Mm; // widest part it carries, along the cut
    stop: Mm; // farthest its stop stands from the cutter
    stopped: "router" | "saw"; // who cuts what stops short of one end
    dado: { least: Mm; most: Mm; radius: Mm }; // widths the dado cutter can be set to
  };
  router: {
    baseHalf: Mm; // bit's middle to the side of the base that rides on the straightedge
    baseAhead: Mm; // bit's middle to the edge of the base that goes first
    plunge: Mm; // deepest cut in one pass
    bits: { name: string; diameter: Mm; reach: Mm }[];
  };
  lift: number | null; // kg, what one person handles at the saw; null: sheets are cut strip by strip, however heavy
  throat: Mm; // how far in from an edge a clamp reaches
  planer: Mm; // widest board it takes
  jointer: Mm;
};
