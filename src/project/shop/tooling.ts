/** Tooling: the shop's machines with what differs in the job over them, in millimetres. */
import type { Mm, Unit } from "../../base/length.ts";
import { lengthOf } from "../../base/parse-length.ts";
import { readMass } from "../file/mass.ts";
import type { ToolingFile, ToolingOverrides } from "../schema/shop.ts";
import type { Tooling } from "../tooling.ts";

/** Only what is given, in millimetres. */
function inMm(lengths: Record<string, number | string | undefined>, unit: Unit): Record<string, Mm> {
  return Object.fromEntries(
    Object.entries(lengths).flatMap(([key, value]) => (value === undefined ? [] : [[key, lengthOf(value, unit)]])),
  );
}

export function toolingOf(shop: ToolingFile, job: ToolingOverrides | undefined, unit: Unit): Tooling {
  const mm = (value: number | string): Mm => lengthOf(value, shop.unit);
  const { dado, ...saw } = shop.saw;
  const { dado: jobDado = {}, stopped, ...jobSaw } = job?.saw ?? {};
  const bits = (list: ToolingFile["router"]["bits"], listUnit: Unit): Tooling["router"]["bits"] =>
    list.map(({ name, diameter, reach }) => ({
      name,
      diameter: lengthOf(diameter, listUnit),
      reach: lengthOf(reach, listUnit),
    }));
  return {
    saw: {
      kerf: mm(saw.kerf),
      bladeRadius: mm(saw.bladeRadius),
      rip: mm(saw.rip),
      ripOther: mm(saw.ripOther ?? 0),
      narrowest: mm(saw.narrowest),
      sled: mm(saw.sled),
      sledDepth: mm(saw.sledDepth),
      stop: mm(saw.stop),
      ...inMm(jobSaw, unit),
      stopped: stopped ?? saw.stopped,
      dado: { least: mm(dado.least), most: mm(dado.most), radius: mm(dado.radius), ...inMm(jobDado, unit) },
    },
    router: {
      baseHalf: ridingHalf(shop, job, unit),
      baseAhead: (job?.router?.base === undefined ? mm(shop.router.base) : lengthOf(job.router.base, unit)) / 2,
      plunge: job?.router?.plunge === undefined ? mm(shop.router.plunge) : lengthOf(job.router.plunge, unit),
      bits: job?.router?.bits === undefined ? bits(shop.router.bits, shop.unit) : bits(job.router.bits, unit),
    },
    lift: liftOf(shop, job),
    throat: job?.clamps === undefined ? mm(shop.clamps.throat) : lengthOf(job.clamps.throat, unit),
    planer: job?.planer?.width === undefined ? mm(shop.planer.width) : lengthOf(job.planer.width, unit),
    jointer: job?.jointer?.width === undefined ? mm(shop.jointer.width) : lengthOf(job.jointer.width, unit),
  };
}

const liftOf = (shop: ToolingFile, job: ToolingOverrides | undefined): number | null => {
  const written = job?.lift ?? shop.lift;
  return written === undefined ? null : readMass(written);
};

/** Half the base, unless it is off-centre and the riding side was measured; a job with another base has another riding side. */
function ridingHalf({ router, unit: shopUnit }: ToolingFile, job: ToolingOverrides | undefined, unit: Unit): Mm {
  if (job?.router?.ride !== undefined) return lengthOf(job.router.ride, unit);
  if (job?.router?.base !== undefined) return lengthOf(job.router.base, unit) / 2;
  return router.ride === undefined ? lengthOf(router.base, shopUnit) / 2 : lengthOf(router.ride, shopUnit);
}
