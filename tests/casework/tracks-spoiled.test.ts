/** Doors on a track, spoiled in one thing after another, and found. */
import { describe, expect, it } from "vitest";
import { dryFit } from "../../src/audit/dryfit.ts";
import type { DryfitSet, SetPart, SetTrack } from "../../src/set/schema.ts";
import { inch, widthOf } from "../support/doors/track-jobs.ts";
import { foundBy } from "../support/faults/found-by.ts";
import { exampleFile, setOf } from "../support/jobs/examples.ts";

describe("spoiled, and found", () => {
  const trackIn = (set: DryfitSet): SetTrack => set.tracks[0]!;
  const doorIn = (set: DryfitSet, i: number): DryfitSet["assemblies"][number] =>
    set.assemblies.find(({ name }) => name === trackIn(set).doors[i]!.assembly)!;

  it("nothing, untouched", () => {
    for (const name of ["doors-track", "doors-by-passing"]) expect(foundBy(name, () => {})).toEqual(new Set());
  });

  describe("the console: three doors on one track in front of four bays", () => {
    const console = setOf(exampleFile("glaze-console"));
    const spoiled = (spoil: (track: SetTrack, set: DryfitSet) => void): Set<string> => {
      const set = structuredClone(console);
      spoil(trackIn(set), set);
      return new Set(
        dryFit(set)
          .filter(({ level }) => level === "failure")
          .map(({ id }) => id),
      );
    };

    const railOf = (track: SetTrack, set: DryfitSet): SetPart =>
      set.parts.find(({ mark }) => mark === track.bolts.at[0]!.mark)!;

    it("has its bolts marked on the rail's stick beside the seats of the stiles under it", () => {
      const track = trackIn(console);
      const rail = railOf(track, console);
      const home = console.assemblies.find(({ name }) => name === rail.assembly)!;
      const stick = console.sticks.find(({ parts }) => parts.some(({ mark }) => mark === rail.mark))!;
      const lines = stick.marks.filter(({ kind, parts }) => kind === "line" && parts.includes(rail.mark));
      // From the rail's left end, by the track's own place in the room.
      const wanted = track.bolts.at.map(({ at }) => track.at[0] + at - home.place.at[0] - rail.place!.at[0]);
      expect(lines.map(({ at }) => at).sort((a, b) => a - b)).toEqual(wanted.map((at) => expect.closeTo(at, 6)));
      expect(stick.marks.some(({ kind }) => kind === "seat")).toBe(true);
    });

    it("fits: closed, at both ends of every door's way, each bolt in the top rail", () => {
      const track = trackIn(console);
      expect([track.doors.length, track.openings.length]).toEqual([3, 4]);
      expect(spoiled(() => {})).toEqual(new Set());
      const rail = console.parts.find(({ key }) => key.endsWith("frame/rail-top"))!;
      expect(new Set(track.bolts.at.map(({ mark }) => mark))).toEqual(new Set([rail.mark]));
      // Every bay can be cleared, and no more of them at once than one fewer than would leave three doors nowhere.
      expect(new Set(track.together.flatMap(({ open }) => open))).toEqual(new Set([0, 1, 2, 3]));
      for (const { open, at } of track.together) {
        const stands = at.map((x, i): [number, number] => [
          track.at[0] + x,
          track.at[0] + x + widthOf(console, track.doors[i]!.assembly),
        ]);
        for (const bay of open) {
          const { at: corner, width } = track.openings[bay]!;
          for (const [low, high] of stands)
            expect(high <= corner[0] + 1e-6 || low >= corner[0] + width - 1e-6).toBe(true);
        }
        for (const [i, [low]] of stands.slice(1).entries()) expect(low).toBeGreaterThanOrEqual(stands[i]![1] - 1e-6);
      }
    });

    it.each<[string, string, (track: SetTrack, set: DryfitSet) => void]>([
      [
        "a bolt beside the rail",
        "track-bolt",
        (track) => {
          track.at[2] += inch(4);
        },
      ],
      [
        "a track one inch shorter",
        "track-length",
        (track) => {
          track.length -= inch(1);
        },
      ],
      [
        "a door told elsewhere",
        "track",
        (track) => {
          track.doors[1]!.closed += 2;
        },
      ],
      [
        "a stop moved inwards",
        "track-stop",
        (track) => {
          track.stops.at[0] += 5;
        },
      ],
      [
        "a bolt marked on the rail a step beside its place",
        "track-bolt",
        (track, set) => {
          railOf(track, set).lines[0]!.points[2]! += set.job.step;
        },
      ],
      [
        "the bolts marked on the rail too high",
        "track-bolt",
        (track, set) => {
          railOf(track, set).lines[0]!.at += 1;
        },
      ],
      ["no bolt marked on the rail", "track-bolt", (track, set) => void railOf(track, set).lines.splice(0, 1)],
      [
        "a bolt marked on the rail that the track has not",
        "track-bolt",
        (track, set) => void railOf(track, set).lines[0]!.points.push(800),
      ],
      [
        "bolts marked thinner than they are",
        "track-bolt",
        (track, set) => {
          railOf(track, set).lines[0]!.bolt!.diameter -= 1;
        },
      ],
      ["a guide left out", "track-guide", (track) => void track.guides.at.splice(0, 1)],
      [
        "more overlap asked for",
        "track-lap",
        (track) => {
          track.overlap += 5;
        },
      ],
      [
        "a worktop over the hangers",
        "track-way",
        (_, set) => {
          const top = set.assemblies.find(({ kind }) => kind === "worktop")!;
          top.place.at[1] -= 60;
          top.place.at[2] -= 25;
        },
      ],
    ])("%s", (_, id, spoil) => expect([...spoiled(spoil)]).toContain(id));
  });

  it.each<[string, string, string, (set: DryfitSet) => void]>([
    [
      "a door told elsewhere",
      "doors-track",
      "track",
      (set) => {
        trackIn(set).doors[0]!.closed += set.job.step;
      },
    ],
    [
      "a door hung beside its bay, and told so",
      "doors-track",
      "track-lap",
      (set) => {
        for (const by of [inch(1)]) {
          const [door] = trackIn(set).doors;
          door!.closed += by;
          const assembly = doorIn(set, 0);
          assembly.place.at[0] += by;
          if (assembly.travel.kind === "slide")
            assembly.travel.range = [door!.from - door!.closed, door!.to - door!.closed];
        }
      },
    ],
    [
      "a door hung too low",
      "doors-track",
      "track",
      (set) => {
        doorIn(set, 1).place.at[2] -= 1;
      },
    ],
    [
      "a door out of line with its bar",
      "doors-by-passing",
      "track",
      (set) => {
        doorIn(set, 1).place.at[1] -= 1;
      },
    ],
    [
      "a travel that ends early",
      "doors-track",
      "track",
      (set) => {
        doorIn(set, 0).travel = { kind: "none" };
      },
    ],
    [
      "more overlap asked for",
      "doors-track",
      "track-lap",
      (set) => {
        trackIn(set).overlap += 2;
      },
    ],
    [
      "by-passing: more overlap",
      "doors-by-passing",
      "track-lap",
      (set) => {
        trackIn(set).overlap += 2;
      },
    ],
    [
      "more lap below asked for",
      "doors-track",
      "track-lap",
      (set) => {
        trackIn(set).below += 2;
      },
    ],
    [
      "a stop moved inwards",
      "doors-track",
      "track-stop",
      (set) => {
        trackIn(set).stops.at[0] += 2;
      },
    ],
    [
      "a stop off the track",
      "doors-track",
      "track-stop",
      (set) => {
        trackIn(set).stops.at[1] += 60;
      },
    ],
    [
      "a door that goes past its stop",
      "doors-track",
      "track-stop",
      (set) => {
        trackIn(set).doors[1]!.to += 5;
      },
    ],
    [
      "a shorter track",
      "doors-track",
      "track-length",
      (set) => {
        trackIn(set).length -= 2;
      },
    ],
    [
      "a need told too small",
      "doors-track",
      "track-length",
      (set) => {
        trackIn(set).needed -= 20;
      },
    ],
    [
      "a bolt moved to a seam",
      "doors-track",
      "track-bolt",
      (set) => {
        trackIn(set).bolts.at[0]!.at = trackIn(set).bolts.at[0]!.at - inch(1.5);
      },
    ],
    [
      "a bolt told in another part",
      "doors-track",
      "track-bolt",
      (set) => {
        trackIn(set).bolts.at[0]!.mark = "1";
      },
    ],
    [
      "a bolt left out",
      "doors-track",
      "track-bolt",
      (set) => {
        trackIn(set).bolts.at.splice(1, 1);
      },
    ],
    [
      "a guide left out",
      "doors-track",
      "track-guide",
      (set) => {
        trackIn(set).guides.at.splice(1, 1);
      },
    ],
    [
      "a guide off the wood",
      "doors-track",
      "track-guide",
      (set) => {
        trackIn(set).guides.height += inch(9);
      },
    ],
    [
      "an opening told wider",
      "doors-track",
      "track-opening",
      (set) => {
        trackIn(set).openings[0]!.width += 5;
      },
    ],
    [
      "pushed together too far",
      "doors-track",
      "track-meet",
      (set) => {
        trackIn(set).doors[1]!.from -= inch(1);
      },
    ],
    [
      "a hanger told elsewhere",
      "doors-track",
      "track",
      (set) => {
        trackIn(set).doors[0]!.hangers[0] += 1;
      },
    ],
    [
      "a knob in the other door's way",
      "doors-by-passing",
      "track-way",
      (set) => {
        trackIn(set).knob!.projection = 60;
      },
    ],
    [
      "something in the way",
      "doors-track",
      "track-way",
      (set) => {
        set.assemblies.find(({ kind }) => kind === "frame")!.place.at[1] -= inch(1);
      },
    ],
    [
      "more to lift",
      "doors-by-passing",
      "track-bolt",
      (set) => {
        trackIn(set).bolts.into += 60;
      },
    ],
    [
      "a door that is not there",
      "doors-track",
      "track",
      (set) => {
        trackIn(set).doors[0]!.assembly = "no door";
      },
    ],
    [
      "no track told",
      "doors-track",
      "door",
      (set) => {
        set.tracks = [];
      },
    ],
    [
      "a hanger's hole left out",
      "doors-by-passing",
      "track",
      (set) => {
        const slab = set.parts.find(({ role }) => role === "slab")!;
        slab.features.splice(0, 1);
      },
    ],
  ])("%s", (_, name, id, spoil) => {
    expect(foundBy(name, spoil)).toContain(id);
  });
});
