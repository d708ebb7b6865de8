/** What was measured on the piece against what was printed, and whether a frame follows the case as it stands. */
import type { Mm } from "../../base/length.ts";
import { listInWords } from "../../base/words.ts";
import type { DryfitSet, SetAssembly, SetCheck } from "../../set/schema.ts";
import { casesBehind } from "../frames/behind.ts";
import { TOUCH } from "../solids/boxes.ts";
import { amount, failureOf } from "../words.ts";

type Measured = DryfitSet["asBuilt"][number];

/** What a tape read twice may differ by, 1/16 in: common practice, no source. */
const TELLS: Mm = 25.4 / 16;

export const checkAsBuilt = ({ asBuilt, job }: DryfitSet): SetCheck[] =>
  asBuilt.map((one): SetCheck => {
    const off = one.measured - one.printed;
    const name = one.opening === null ? one.assembly : `${one.opening} of ${one.assembly}`;
    const differs =
      Math.abs(off) < TOUCH ? "as printed" : `${amount(Math.abs(off), job)} ${off > 0 ? "more" : "less"} than printed`;
    return {
      id: "as-built",
      level: Math.abs(off) > TELLS + TOUCH ? "warning" : "note",
      parts: [],
      text: `${name} measures ${amount(one.measured, job)} ${one.way === "width" ? "across" : "in height"}, ${differs} (${amount(one.printed, job)}). What is made after it follows.`,
      rule: "A figure measured on the piece stands in for the printed one (common practice, no source: 1/16 in is what two readings of a tape differ by).",
      change:
        Math.abs(off) > TELLS + TOUCH
          ? "Measure again, and look for the cause in the parts already cut, before anything is made to it."
          : null,
    };
  });

/** Over all, as measured where it was. */
const sizeOf = (one: SetAssembly, asBuilt: readonly Measured[], way: Measured["way"]): Mm =>
  asBuilt.find((each) => each.assembly === one.name && each.opening === null && each.way === way)?.measured ??
  one.size[way === "width" ? 0 : 2];

/** A frame stands out beyond its case alike at both sides, and ends with its upper end. */
export function checkFrameStands({ assemblies, asBuilt, job, returns }: DryfitSet): SetCheck[] {
  const frames = assemblies.filter(({ kind }) => kind === "frame");
  return frames.flatMap((frame): SetCheck[] => {
    const [x, , z] = frame.place.at;
    const row = casesBehind(frame, assemblies);
    const [first, last] = [row[0], row.at(-1)];
    if (first === undefined || last === undefined)
      return [failureOf("frame", [], `${frame.name} lies against no case. Change: where it stands.`)];
    const names = listInWords(row.map(({ name }) => name));
    const isIn = (assembly: string): boolean => row.some(({ name }) => name === assembly);
    // An opening measured wider takes the far side with it, over all measured or not.
    const openings = asBuilt.some(({ assembly, opening }) => isIn(assembly) && opening !== null);
    // What stands right of a case that came out wider stands so much farther right.
    const wider = row.reduce((sum, one) => sum + sizeOf(one, asBuilt, "width") - one.size[0], 0);
    const left = first.place.at[0] - x;
    const right = x + frame.size[0] - last.place.at[0] - last.size[0] - wider;
    const above = Math.min(...row.map((one) => z + frame.size[2] - one.place.at[2] - sizeOf(one, asBuilt, "height")));
    const checks: SetCheck[] = [];
    const isMeasured = (way: Measured["way"]): boolean =>
      !openings || asBuilt.some((each) => isIn(each.assembly) && each.opening === null && each.way === way);
    // With a return at one end alone it stands out by that return's thickness there, and is judged with it.
    const isEven = returns.filter((one) => one.frame === frame.name).length !== 1;
    if (isEven && isMeasured("width") && Math.abs(left - right) > job.step + TOUCH)
      checks.push(
        failureOf(
          "frame",
          [],
          `${frame.name} stands out beyond ${names} by ${amount(left, job)} at the left and ${amount(right, job)} at the right. Change: its width, or where it stands, by ${amount((left - right) / 2, job)}.`,
        ),
      );
    if (isMeasured("height") && Math.abs(above) > job.step + TOUCH)
      checks.push(
        failureOf(
          "frame",
          [],
          `${frame.name} ends ${amount(above, job)} ${above > 0 ? "above" : "below"} the upper end of ${names}. Change: its height by as much.`,
        ),
      );
    return checks;
  });
}
