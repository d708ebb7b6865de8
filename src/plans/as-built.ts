/** What was measured on the piece, beside what was printed. */
import type { AsBuilt } from "../project/project.ts";
import type { DryfitSet, SetAssembly, SetOpening } from "../set/schema.ts";

type Measured = DryfitSet["asBuilt"][number];

export const planAsBuilt = (
  measured: readonly AsBuilt[],
  assemblies: readonly SetAssembly[],
  openings: readonly SetOpening[],
): Measured[] =>
  measured.flatMap(({ name, width, height }) => {
    const whole = assemblies.find((one) => one.name === name);
    const opening = openings.find((one) => `${one.case}/${one.name}` === name);
    const printed = whole ? { width: whole.size[0], height: whole.size[2] } : opening!;
    return (["width", "height"] as const).flatMap((way): Measured[] => {
      const found = { width, height }[way];
      if (found === null) return [];
      return [
        {
          assembly: whole?.name ?? opening!.case,
          opening: whole ? null : opening!.name,
          way,
          printed: printed[way],
          measured: found,
        },
      ];
    });
  });
