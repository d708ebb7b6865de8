/** What parts weigh together. */
import type { SetPart } from "./schema.ts";

/** kg. */
export const massOf = (parts: readonly Pick<SetPart, "mass">[]): number =>
  parts.reduce((sum, { mass }) => sum + mass, 0);

/** kg, of all parts of an assembly. */
export const massOfAssembly = (parts: readonly SetPart[], assembly: string): number =>
  massOf(parts.filter((part) => part.assembly === assembly));
