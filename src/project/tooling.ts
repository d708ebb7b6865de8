/** Tooling: the shop's machines with what differs in the job over them, in millimetres. */
import type { Mm, Unit } from "../base/length.ts";
import { lengthOf } from "../base/parse-length.ts";
import type { Tooling } from "./project.ts";
import type { ToolingFile, ToolingOverrides } from "./shop-schema.ts";

/** Only what is given, in millimetres. */
function inMm(lengths: Record<string, number | string | undefined>, unit: Unit): Record<string, Mm> {
  return Object.fromEntries(
    Object.entries(lengths).flatMap(([key, value]) => (value === undefined ? [] : [[key, lengthOf(value, unit)]])),
  );
}

export function toolingOf(shop: ToolingFile, job: ToolingOverrides | undefined, unit: Unit): Tooling {
  const mm = (value: number | string): Mm => lengthOf(value, shop.unit);
  const { dado, ...saw } = shop.saw;
  const { dado: jobDado = {}, ...jobSaw } = job?.saw ?? {};
  const bits = (list: ToolingFile["router"]["bits"], listUnit: Unit): Tooling["router"]["bits"] =>
    list.map(({ name, diameter, reach }) => ({
      name,
      diameter: lengthOf(diameter, listUnit),
      reach: lengthOf(reach, listUnit),
    }));
  const base = job?.router?.base === undefined ? mm(shop.router.base) : lengthOf(job.router.base, unit);
  return {
    saw: {
      kerf: mm(saw.kerf),
      bladeRadius: mm(saw.bladeRadius),
      rip: mm(saw.rip),
      narrowest: mm(saw.narrowest),
      sled: mm(saw.sled),
      ...inMm(jobSaw, unit),
      dado: { least: mm(dado.least), most: mm(dado.most), radius: mm(dado.radius), ...inMm(jobDado, unit) },
    },
    router: {
      baseHalf: base / 2,
      bits: job?.router?.bits === undefined ? bits(shop.router.bits, shop.unit) : bits(job.router.bits, unit),
    },
  };
}
