/** What is bought and fixed on, assembly by assembly, as the printed model has it. */
import type { Model } from "../model/model.ts";
import type { SetHardware } from "../set/schema.ts";
import { type Marks, markIn } from "./parts.ts";

export const planHardware = ({ assemblies }: Model, marks: Marks): SetHardware[] =>
  assemblies.flatMap(({ name, hardware }) =>
    hardware.map(({ kind, what, sizes, count, unit, parts, where, of, on }) => ({
      kind,
      what,
      sizes: [...sizes],
      count,
      unit,
      assembly: on ?? name,
      parts: parts.map((key) => markIn(marks, key)),
      where,
      of,
    })),
  );
