/** Groups of work: what is cut, sized and grooved together before the next is begun, and what must be true by then. */
import type { Mm } from "../base/length.ts";
import { listInWords } from "../base/words.ts";
import type { DryfitSet, SetAssembly, SetDoor, SetGroup, SetPart, SetSliders, SetTrack } from "../set/schema.ts";
import { behindFrame } from "../set/standing.ts";

type Box = SetGroup["gate"]["boxes"][number];
type Input = Pick<
  DryfitSet,
  "parts" | "assemblies" | "openings" | "asBuilt" | "doors" | "sliders" | "tracks" | "drawers" | "worktops"
>;

/** The case and what it stands on come first; what is made for it as it stands follows, kind after kind. */
const KINDS: readonly SetGroup["kind"][] = ["case", "frame", "doors", "drawers", "worktop"];

const KIND_OF: Record<SetAssembly["kind"], SetGroup["kind"]> = {
  case: "case",
  base: "case",
  frame: "frame",
  return: "frame",
  door: "doors",
  drawer: "drawers",
  packing: "drawers",
  worktop: "worktop",
};

export function planGroups(input: Input): SetGroup[] {
  const { parts, assemblies } = input;
  const kindOf = ({ assembly }: SetPart): SetGroup["kind"] =>
    KIND_OF[assemblies.find(({ name }) => name === assembly)!.kind];
  return KINDS.flatMap((kind) => {
    const own = parts.filter((part) => kindOf(part) === kind);
    return own.length === 0 ? [] : [{ kind, own }];
  }).map(({ kind, own }, i): SetGroup => {
    return {
      n: i + 1,
      kind,
      title: titleOf(kind, own, input),
      parts: own.map(({ mark }) => mark),
      gate: gateOf(kind, input),
    };
  });
}

/** The group that a part is cut with. */
export function groupOf(mark: string, groups: readonly SetGroup[]): SetGroup {
  const group = groups.find(({ parts }) => parts.includes(mark));
  if (group === undefined) throw new Error(`${mark} is in no group`);
  return group;
}

function titleOf(kind: SetGroup["kind"], own: readonly SetPart[], { assemblies }: Input): string {
  const names = new Set(own.map(({ assembly }) => assembly));
  const cases = assemblies.filter((one) => names.has(one.name) && one.kind === "case").length;
  const frames = [...names].filter((name) => assemblies.find((one) => one.name === name)!.kind !== "return").length;
  switch (kind) {
    case "case":
      return cases === 1 ? "Case" : "Cases";
    case "frame":
      return frames === 1 ? "Face frame" : "Face frames";
    case "doors":
      return "Doors";
    case "drawers":
      return "Drawers";
    case "worktop":
      return frames === 1 ? "Worktop" : "Worktops";
  }
}

const FOLLOWS =
  "each figure measured and written in; where one is not as reckoned with, it goes into the project file first, and this page is printed anew.";

function gateOf(kind: SetGroup["kind"], input: Input): SetGroup["gate"] {
  switch (kind) {
    case "case":
      return { text: "The bars of the print measure right, and every stock is as thick as it was taken.", boxes: [] };
    case "frame":
      return {
        text: `The case that the frame goes on is glued up${framedRows(input).some((row) => row.length > 1) ? ", and cases that share a frame are joined" : ""}: ${FOLLOWS}`,
        boxes: framedRows(input).flatMap((row) => behindBoxes(row, input)),
      };
    case "doors":
      return { text: `Each opening is as it stays: ${FOLLOWS}`, boxes: doorBoxes(input) };
    case "drawers":
      return { text: `Each opening is as it stays, the slides are in hand: ${FOLLOWS}`, boxes: drawerBoxes(input) };
    case "worktop":
      return {
        text: `What it lies on is glued up: ${FOLLOWS}`,
        boxes: input.worktops.flatMap((one) => topBoxes(one, input)),
      };
  }
}

const framedRows = ({ assemblies }: Input): SetAssembly[][] =>
  assemblies.filter(({ kind }) => kind === "frame").map((frame) => behindFrame(frame, assemblies));

/** Width and height over all of what a frame stands before, then of each bay; of several cases each, then all together. As measured where they were. */
export function behindBoxes(
  row: readonly SetAssembly[],
  { asBuilt, openings }: Pick<Input, "asBuilt" | "openings">,
): Box[] {
  const standing = (one: SetAssembly, opening: string | null, way: "width" | "height", printed: Mm): Mm =>
    asBuilt.find((each) => each.assembly === one.name && each.opening === opening && each.way === way)?.measured ??
    printed;
  const widthOf = (one: SetAssembly): Mm => standing(one, null, "width", one.size[0]);
  const [first, last] = [row[0]!, row.at(-1)!];
  const wider = row.reduce((sum, one) => sum + widthOf(one) - one.size[0], 0);
  const over = last.place.at[0] + last.size[0] - first.place.at[0] + wider;
  return [
    ...row.flatMap((behind) => [
      { label: `${behind.name}, width at the front`, target: widthOf(behind) },
      { label: `${behind.name}, height`, target: standing(behind, null, "height", behind.size[2]) },
      ...openings
        .filter((one) => one.case === behind.name)
        .flatMap(({ name, width, height }) => [
          { label: `${behind.name}, ${name}: width`, target: standing(behind, name, "width", width) },
          { label: `${behind.name}, ${name}: height`, target: standing(behind, name, "height", height) },
        ]),
    ]),
    ...(row.length === 1 ? [] : [{ label: "joined, width over all at the front", target: over }]),
  ];
}

const both = (what: string, { width, height }: { width: Mm; height: Mm }): Box[] => [
  { label: `Opening of ${what}, width`, target: width },
  { label: `Opening of ${what}, height`, target: height },
];

/** Each opening once, however many doors it has. */
export const doorBoxes = ({ doors, sliders, tracks }: Pick<Input, "doors" | "sliders" | "tracks">): Box[] => [
  ...hingedBoxes(doors),
  ...sliders.flatMap(slidingBoxes),
  ...tracks.flatMap(({ openings }: SetTrack) => openings.flatMap((one) => both(one.name, one))),
];

const slidingBoxes = ({ opening, doors }: SetSliders): Box[] =>
  both(listInWords(doors.map(({ assembly }) => assembly)), opening);

function hingedBoxes(doors: readonly SetDoor[]): Box[] {
  const openings = doors.filter(
    ({ opening }, i) => doors.findIndex((one) => JSON.stringify(one.opening) === JSON.stringify(opening)) === i,
  );
  return openings.flatMap(({ opening, assembly, meets }) =>
    both(meets === null ? assembly : `${assembly} and ${meets}`, opening),
  );
}

/** Of a stack the one opening that all its drawers share. */
export const drawerBoxes = ({ drawers }: Pick<Input, "drawers">): Box[] =>
  drawers
    .filter(({ place }) => place === 1)
    .flatMap(({ assembly, of, opening: { x, z } }) =>
      both(`${assembly}${of > 1 ? ` and the ${of - 1} above it` : ""}`, {
        width: x[1] - x[0],
        height: z[1] - z[0],
      }),
    );

/** What it covers: its own size less what stands out. */
function topBoxes({ assembly, mark, over, overhang }: DryfitSet["worktops"][number], { parts }: Input): Box[] {
  const part = parts.find((one) => one.mark === mark)!;
  const under = listInWords(over);
  return [
    { label: `${under} under ${assembly}, width`, target: part.length - overhang.left - overhang.right },
    { label: `${under} under ${assembly}, depth`, target: part.width - overhang.front - overhang.back },
  ];
}
