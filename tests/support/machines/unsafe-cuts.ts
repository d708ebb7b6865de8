/**
 * Cuts that nobody is to be asked for, by the manuals of saw makers and by what has cost fingers: a part shorter along the fence than across
 * it without sled or mitre gauge, a through cut with a dado cutter, fence and mitre gauge together on a through cut, stopped at both ends on
 * the table saw, a stopped cut entered at its stop, fence 0.
 */
import { expect } from "vitest";
import type { Tooling } from "../../../src/project/tooling.ts";
import type { DryfitSet } from "../../../src/set/schema.ts";
import { alongOf, missingAt, passOf, sizeOf } from "./cut-back.ts";

const HAIR = 1e-4; // mm

export function expectNoUnsafeCut({ parts, settings }: Pick<DryfitSet, "parts" | "settings">, { saw }: Tooling): void {
  for (const setting of settings) {
    const where = `setting ${setting.n}`;
    expect(setting.fence, where).toBeGreaterThan(HAIR);
    expect(setting.caution, where).toMatch(/manual comes first/);
    for (const run of setting.runs) {
      const part = parts.find(({ mark }) => mark === run.mark)!;
      const [along, across] = [sizeOf(part, alongOf(run)), sizeOf(part, run.datum[0] as "l" | "w")];
      // Never through: wood is left under every groove.
      expect(setting.depth, where).toBeLessThan(part.thickness - 1);
      if (setting.tool === "router") {
        expect(setting.carrier, where).toBe("straightedge");
        expect(setting.caution, where).toContain("straightedge on the router's left");
        if (run.stops.length > 0)
          expect(setting.caution, where).toContain("wait until the bit stands still, then lift");
        continue;
      }
      const low = missingAt(part, `${alongOf(run)}0`);
      const high = along - missingAt(part, `${alongOf(run)}1`);
      const pass = passOf(part, part.features[run.feature]!);
      expect(pass.from, `${where}: enters at its stop`).toBeLessThan(low + HAIR);
      expect(pass.to, `${where}: stops on the saw`).toBeGreaterThan(high - HAIR);
      if (setting.carrier === "fence") {
        expect(along, `${where}: twists off the fence`).toBeGreaterThanOrEqual(across - HAIR);
        expect(setting.fence, where).toBeLessThanOrEqual(saw.rip + setting.width + HAIR);
      } else {
        expect(across, where).toBeLessThanOrEqual(saw.sled + HAIR);
      }
      expect(setting.caution, where).toContain("Guard and riving knife are off for this cut and go back on after it");
      if (setting.sacrificial) expect(setting.caution, where).toContain("sacrificial face");
      if (setting.carrier === "fence" && across < 150) expect(setting.caution, where).toContain("push stick");
      if (setting.carrier === "fence" ? along > 1200 : across > 900) {
        expect(setting.caution, where).toContain("support it level with the table");
        expect(run.notes.length, where).toBeGreaterThan(0);
      }
    }
  }
}
