/** What labels and checks say of look-alikes, against the parts themselves: sizes subtracted, features turned over by hand. */
import { labelFields } from "../../../src/drawings/labels/label-words.ts";
import type { DryfitSet, SetPart } from "../../../src/set/schema.ts";
import { parseFigure } from "../pages/read-figures.ts";

const NEAR = 1e-4;
const ROUNDED = 0.01275; // half a thousandth of an inch, the coarser of the last digits printed, and a little

type Told = { of: string; than: string; said: string };

const SIZES = {
  longer: "length",
  shorter: "length",
  wider: "width",
  narrower: "width",
  thicker: "thickness",
  thinner: "thickness",
} as const;
const LESS = ["shorter", "narrower", "thinner"];

/** Every feature after some of the part's own axes have been turned round, as far as its ends go. */
function turned(part: SetPart, flips: readonly boolean[]): number[][] {
  const sizes = [part.length, part.width, part.thickness];
  return part.features.map(({ box: [lo, hi] }) =>
    sizes.flatMap((size, i) => (flips[i] ? [size - hi[i]!, size - lo[i]!] : [lo[i]!, hi[i]!])),
  );
}

/** Whether one looks like the other with an odd number of axes turned round (in a mirror), or an even one (lifted and laid down again). */
function looksLike(one: SetPart, other: SetPart, odd: boolean, within: number): boolean {
  const ways = [0, 1, 2, 3, 4, 5, 6, 7].map((bits) => [1, 2, 4].map((bit) => (bits & bit) > 0));
  const own = turned(one, [false, false, false]);
  return ways
    .filter((flips) => (flips.filter(Boolean).length % 2 === 1) === odd)
    .some((flips) => {
      const left = turned(other, flips);
      return (
        own.length === left.length &&
        own.every((box) => {
          const i = left.findIndex((each) => each.every((value, k) => Math.abs(value - box[k]!) <= within));
          if (i >= 0) left.splice(i, 1);
          return i >= 0;
        })
      );
    });
}

/** What is said, in either form of words, is true of the two parts; null, or why not. */
function faultOf({ of, than, said }: Told, set: DryfitSet): string | null {
  const [other, one] = [of, than].map((mark) => set.parts.find((part) => part.mark === mark)!) as [SetPart, SetPart];
  const { unit, step } = set.job;
  const told = [
    ...said.matchAll(/(?:(\d+ \d+\/\d+|\d+\/\d+|[\d.]+))(?: in| mm)? (longer|shorter|wider|narrower|thicker|thinner)/g),
  ];
  const wrong = (why: string): string => `${of} ${said} ${than}: ${why}`;
  for (const axis of ["length", "width", "thickness"] as const) {
    const by = other[axis] - one[axis];
    const found = told.find(([, , word]) => SIZES[word as keyof typeof SIZES] === axis);
    if (found === undefined && Math.abs(by) > NEAR) return wrong(`its ${axis} differs by ${by}`);
    if (found === undefined) continue;
    const value = parseFigure(found[1]!, unit)! * (LESS.includes(found[2]!) ? -1 : 1);
    if (Math.abs(value - by) > ROUNDED) return wrong(`its ${axis} differs by ${by}`);
  }
  const rounding = 3 * step + Math.max(...set.assemblies.map(({ fits }) => fits.allowance));
  const spread = Math.max(...set.stock.map(({ thickness, thickest }) => thickest - thickness));
  if (told.length === 0 && /mirror/.test(said)) {
    if (!looksLike(one, other, true, rounding + spread + NEAR)) return wrong("it does not look so in a mirror");
    if (!looksLike(one, other, true, NEAR) && looksLike(one, other, false, NEAR)) return wrong("it is the same");
  }
  if (told.length === 0 && /other/.test(said)) {
    if (looksLike(one, other, true, NEAR) && !looksLike(one, other, false, NEAR) && one.features.length > 0) {
      const isBare = [one, other].every(({ show, lippings }) => show.length === 0 && lippings.length === 0);
      if (isBare) return wrong("it is a mirror image");
    }
  }
  return null;
}

/** "44 ... 50 is 0.2 mm narrower than 44, ..." of the checks page. */
const onChecks = ({ checks }: DryfitSet): Told[] =>
  checks
    .filter(({ id, level }) => id === "look-alike" && level === "note")
    .flatMap(({ text }) =>
      [...text.matchAll(/(?<=[:,] )(\d+) ((?:is|has) .+?) (?:than|of) (\d+)(?=[,.])/g)].map(([, of, said, than]) => ({
        of: of!,
        said: said!,
        than: than!,
      })),
    );

/** "not 50 (that is 0.2 narrower), 51, 52 (mirror image)" of a label. */
const onLabel = (set: DryfitSet, part: SetPart): Told[] =>
  labelFields(set, part)
    .filter(({ text }) => text.startsWith("not "))
    .flatMap(({ text }) =>
      [...text.slice("not ".length).matchAll(/((?:\d+, )*\d+) \(([^)]*)\)/g)].flatMap(([, marks, said]) =>
        marks!.split(", ").map((of) => ({ of, than: part.mark, said: said! })),
      ),
    );

/** How many sentences there are, and what is wrong with them: not true of the parts, left out, or one thing on the label and another among the checks. */
export function likenessFaults(set: DryfitSet): { told: number; faults: string[] } {
  const labels = set.parts.flatMap((part) => onLabel(set, part));
  const checks = onChecks(set);
  const missing = set.parts.flatMap(({ mark, alike }) =>
    alike
      .filter((of) => !labels.some((one) => one.of === of && one.than === mark))
      .map((of) => `the label of ${mark} does not tell ${of}`),
  );
  const kindOf = ({ said }: Told): string =>
    /mirror/.test(said)
      ? "mirror"
      : (said
          .match(/\S+ (?:longer|shorter|wider|narrower|thicker|thinner)/g)
          ?.map((each) => each.split(" ").at(-1))
          .join() ?? "other");
  const apart = checks.flatMap((one) => {
    const label = labels.find(({ of, than }) => of === one.of && than === one.than);
    return label === undefined || kindOf(label) === kindOf(one)
      ? []
      : [`${one.of} ${one.said} ${one.than}, but on its label ${label.said}`];
  });
  const untrue = [...labels, ...checks].flatMap((one) => faultOf(one, set) ?? []);
  return { told: labels.length + checks.length, faults: [...missing, ...apart, ...untrue] };
}
