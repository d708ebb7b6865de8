/** Faults of screws and dowels as the joints tell them: the wood is right, and where one goes is not. */
import type { DryfitSet, SetJoint } from "../../../src/set/schema.ts";
import type { Excluded, Fault, Planted } from "./faults.ts";

type Fasteners = NonNullable<SetJoint["fasteners"]>;

export function plantFastenerFaults(set: DryfitSet): Planted {
  const faults: Fault[] = [];
  const excluded: Excluded[] = [];
  const off = 2 * set.job.step;
  set.joints.forEach((joint, i) => {
    const { fasteners } = joint;
    if (fasteners === null) return;
    const { kind } = fasteners;
    const plant = (words: string, edit: (fasteners: Fasteners) => void): void => {
      const joints = structuredClone(set.joints);
      edit(joints[i]!.fasteners!);
      faults.push({
        kind: `${kind} ${words}`,
        mark: joint.entering,
        blame: [joint.entering, joint.receiving],
        set: { ...set, joints },
      });
    };
    // From face to face no middle is asked for.
    const isFlat = joint.enteringEnd.startsWith("t");
    if (isFlat) {
      excluded.push({
        kind: "screw off the middle",
        mark: joint.entering,
        reason: "a screw may stand anywhere in sound wood",
      });
      plant("beside what it holds", (each) => {
        const { length, width } = set.parts.find(({ mark }) => mark === joint.entering)!;
        each.at += length + width;
      });
      if (fasteners.positions.length > 1)
        plant("on another", (each) => {
          each.positions[1] = each.positions[0]!;
        });
    }
    for (const by of isFlat ? [] : [off, -off]) {
      plant(by > 0 ? "off the middle, away from the datum" : "off the middle, towards the datum", (each) => {
        each.at += by;
      });
      if (kind === "screw")
        excluded.push({
          kind: "screw along the joint",
          mark: joint.entering,
          reason: "a screw may stand anywhere along",
        });
      else
        plant(by > 0 ? "too far along the joint" : "too near along the joint", (each) => {
          each.positions[0]! += by;
        });
    }
    plant("beyond the end of the joint", (each) => {
      each.positions[0] = -10;
    });
    if (kind === "screw") return;
    plant("missing", (each) => {
      each.positions.pop();
    });
    if (kind === "dowel") {
      plant("too long for its holes", (each) => {
        each.size!.length += 10;
      });
      return;
    }
    for (const size of ["length", "width", "thickness"] as const) {
      for (const by of [off, -off])
        plant(`of another ${size} than its mortises, ${by > 0 ? "more" : "less"}`, (each) => {
          each.tenon![size] += by;
        });
    }
    if (fasteners.positions.length > 1)
      plant("with another slack than its mortises have", (each) => {
        each.tenon!.slack += off;
      });
  });
  return { faults, excluded };
}
