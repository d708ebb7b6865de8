/** What a set has in it: every joint, base, back, top and stop by the words that the coverage table counts. */
import type { Project } from "../../../src/project/project.ts";
import type { DryfitSet } from "../../../src/set/schema.ts";

const JOINTS = [
  "housed",
  "back in grooves",
  "tongue",
  "butt, glue",
  "butt, screws",
  "butt, dowels",
  "laid on edges",
  "face on face",
  "edges",
  "pins",
] as const;
const BASES = ["on the floor", "raised", "kick between", "kick applied", "plinth", "bottom under"] as const;
const BACKS = ["none", "captured", "rabbeted", "applied", "houses", "sections"] as const;
const TOPS = ["flush", "lowered", "over", "stretchers", "fillers"] as const;
const STOPS = ["through", "front", "rear", "both", "open", "lipped before", "lipped after", "run-out"] as const;
const OTHERS = [
  "thirds",
  "loose shelves",
  "shared side",
  "beside",
  "on top",
  "several alike",
  "finished glue-up",
  "inch",
  "mm",
] as const;

/** Every word that must be met, by its heap. */
export const WORDS: Record<string, readonly string[]> = {
  joint: JOINTS,
  base: BASES,
  back: BACKS,
  top: TOPS,
  stop: STOPS,
  other: OTHERS,
};

export function wordsOf(project: Project, set: DryfitSet): string[] {
  const words = new Set<string>();
  const say = (heap: string, word: string | false): void => {
    if (word !== false) words.add(`${heap}: ${word}`);
  };
  const role = (mark: string): string => set.parts.find((part) => part.mark === mark)!.role;
  for (const { kind, fit, fixings, fasteners, entering } of set.joints) {
    if (kind === "housed") say("joint", fit === "slip" ? "back in grooves" : "housed");
    else if (kind === "butt") say("joint", `butt, ${fasteners === null ? "glue" : fixings.replace("glue and ", "")}`);
    else if (kind === "face") say("joint", role(entering) === "filler" ? "face on face" : "laid on edges");
    else say("joint", kind === "edge" ? "edges" : kind === "pin" ? "pins" : kind);
  }
  for (const { bottom, kick, plinth, back, top, finished, shares, quantity } of project.cases) {
    say("base", bottom.fit === "under" && "bottom under");
    say("base", plinth !== null && "plinth");
    say("base", kick !== null && `kick ${kick.fit}`);
    say("base", kick === null && plinth === null && (bottom.up > 0 ? "raised" : "on the floor"));
    say("back", back.fit);
    say("back", back.fit !== "none" && back.houses && "houses");
    say("back", back.fit !== "none" && back.sections && "sections");
    say("top", top.fillers !== null ? "fillers" : top.fit);
    say("other", shares !== null && "shared side");
    say("other", finished.length > 0 && "finished glue-up");
    say("other", quantity > 1 && "several alike");
  }
  for (const part of set.parts) {
    if (part.role === "looseShelf") say("other", "loose shelves");
    for (const { lipped } of part.lippings) say("stop", `lipped ${lipped}`);
    for (const { kind, ends, runOuts } of part.features) {
      if (kind !== "groove" && kind !== "rabbet") continue;
      say("stop", runOuts.length > 0 && "run-out");
      say("stop", ends.includes("open") && "open");
      const [low, high] = ends.map((end) => end === "square");
      say("stop", low && high ? "both" : low ? "front" : high ? "rear" : "through");
    }
  }
  say("other", set.checks.some(({ id }) => id === "web-thirds") && "thirds");
  const [one, two] = project.cases;
  if (one && two) say("other", two.at[2] > one.at[2] + one.height / 2 ? "on top" : two.shares === null && "beside");
  say("other", project.unit === "in" ? "inch" : "mm");
  return [...words];
}
