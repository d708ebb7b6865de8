/** Doors on a track: do they stand before bays that there are, each once, on a track that has something to be bolted to? */
import { SAME } from "../../base/length.ts";
import type { Problem } from "../../base/problem.ts";
import { doorBays } from "../case/bays.ts";
import type { Case } from "../case.ts";
import { quote } from "../file/words.ts";
import type { Project } from "../project.ts";
import { MOST_BAYS } from "../schema/track.ts";
import type { Track, TrackDoor } from "../track.ts";
import { type CaseFaults, faultsOf } from "./case-faults.ts";
import { checkMake } from "./doors.ts";

export function checkTrack(project: Project, design: Case): Problem[] {
  const { track } = design;
  if (track === null) return [];
  const faults = faultsOf(project, design);
  checkAlone(design, faults);
  checkLayout(track, design, faults);
  checkBacking(track, design, project, faults);
  checkHangers(track, faults);
  checkMake(track.make, "track", design, project, faults);
  return faults.problems;
}

/** The columns of a case; one bay where it has none. */
const bayCount = ({ bays }: Case): number => (bays.kind === "columns" ? bays.bays.length : 1);

/** What is hinged cannot open behind what slides. */
function checkAlone(design: Case, { addInput, name }: CaseFaults): void {
  if (design.doors !== null || design.sliders !== null)
    addInput(
      "track",
      `"doors" and "track" in ${name}`,
      "one of the two in a case",
      "hang the others in a case of their own, or take one of the two out",
    );
  const [hinged] = doorBays(design.bays);
  if (design.doors === null && design.sliders === null && hinged !== undefined)
    addInput(
      `${hinged.path.slice(design.path.length + 1)}.door`,
      `a hinged door behind the doors on the track of ${name}`,
      "bays without doors of their own",
      'take "door" out, or "track"',
    );
}

function checkLayout(track: Track, design: Case, faults: CaseFaults): void {
  const { addInput, name } = faults;
  const count = bayCount(design);
  if (count > MOST_BAYS)
    addInput(
      "track",
      `a track in front of ${count} bays of ${name}`,
      `at most ${MOST_BAYS}`,
      "hang the doors before two cases side by side, each with its own track",
    );
  const { layout } = track;
  if (layout.kind === "by-passing") {
    if (track.tracks === 1)
      addInput(
        "track.tracks",
        `${layout.count} by-passing doors on one track in front of ${name}`,
        "two tracks",
        'take "tracks" out, or say which bays each door "covers"',
      );
    return;
  }
  for (const door of layout.doors) checkCovers(door, count, track, design, faults);
  checkOrder(layout.doors, design, faults);
}

const keyOf = (path: string, design: Case): string => path.slice(design.path.length + 1);

function checkCovers(
  { path, covers: [first, last], track: on }: TrackDoor,
  count: number,
  { tracks }: Track,
  design: Case,
  { addInput, name }: CaseFaults,
): void {
  if (last >= count)
    addInput(
      `${keyOf(path, design)}.covers`,
      `a door before bay ${last + 1} of ${name}, which has ${count === 1 ? "one bay" : `${count} bays`}`,
      `bays from 1 to ${count}, counted from the left`,
      first >= count ? "name a bay that there is" : `end with bay ${count}`,
    );
  if (on > tracks)
    addInput(
      `${keyOf(path, design)}.track`,
      `a door on track 2 of ${name}, which has one track`,
      'track 1, or "tracks": 2',
      'take "tracks" or "track" out',
    );
}

/** Doors on one track cannot pass each other. */
function checkOrder(doors: readonly TrackDoor[], design: Case, { addInput, name }: CaseFaults): void {
  doors.forEach((door, i) => {
    const before = doors.slice(0, i).findLast(({ track }) => track === door.track);
    if (before === undefined || before.covers[1] < door.covers[0]) return;
    const meets = before.covers[0] <= door.covers[1];
    addInput(
      `${keyOf(door.path, design)}.covers`,
      meets
        ? `two doors before bay ${Math.max(before.covers[0], door.covers[0]) + 1} of ${name}, on one track`
        : `a door before bay ${door.covers[0] + 1} of ${name} after one before bay ${before.covers[0] + 1}, on one track`,
      "the doors of one track from left to right, none before the bays of another",
      meets ? 'move one of the two, or hang it on "track": 2' : "put them in the order in which they hang",
    );
  });
}

function checkBacking({ on }: Track, design: Case, { worktops }: Project, { addInput, name }: CaseFaults): void {
  if (on === "frame" && design.frame === null)
    addInput(
      "track.on",
      `a track on the face frame of ${name}, which has none`,
      '"frame" in the case',
      'say "top" or "worktop", or add a "frame"',
    );
  if (on === "frame" && design.frame?.bottomRail === null)
    addInput(
      "track",
      `a track in front of ${name}, whose face frame has no bottom rail`,
      "stiles and rails all round the bays",
      'take "bottomRail" out of "omit"',
    );
  if (on === "top" && design.frame !== null)
    addInput(
      "track.on",
      `a track on the top panel of ${name}, behind its face frame`,
      '"frame" or "worktop"',
      'say "frame", or leave "on" out',
    );
  if (on === "worktop" && !worktops.some(({ over }) => over.includes(design.name)))
    addInput(
      "track.on",
      `a track on the worktop over ${name}, which has none`,
      `a worktop of the job over ${quote(design.name)}`,
      'say "frame" or "top", or add one to "worktops"',
    );
  if (on === "top" && design.top.fit === "stretchers")
    addInput(
      "track.on",
      `a track on the top panel of ${name}, which has stretchers in its place`,
      "a top panel, whose front edge takes the bolts",
      'give it a face frame, or a worktop and "on": "worktop"',
    );
}

/** Each hole in the middle of a strap, with as much wood beside it as it is wide. */
function checkHangers({ make, hangers, bolts, length }: Track, { add, show, name }: CaseFaults): void {
  if (length !== null && length < 2 * bolts.fromEnd + SAME)
    add(
      "track.length",
      `a track ${show(length)} long before ${name}, with bolts ${show(bolts.fromEnd)} from its ends`,
      `more than ${show(2 * bolts.fromEnd)}`,
      'make it longer, or "fromEnd" of the bolts less',
    );
  if (make.kind === "slab") return;
  const middle = hangers.fromEdge + hangers.width / 2;
  const most = make.stile - make.stick - hangers.hole;
  if (middle > most + SAME)
    add(
      "track.hangers",
      `hangers whose holes are ${show(middle)} from the edge of doors of ${name} with stiles ${show(make.stile)} wide`,
      `at most ${show(Math.max(0, most))}, so that the bolts hold in the stile, beside its groove`,
      'make the stiles wider, or "fromEdge" or "width" of the hangers less',
    );
}
