/** The joints as the set states them, held against the joints that the solids make. */
import type { Mm } from "../../base/length.ts";
import type { DryfitSet, Face, SetCheck, SetFeature, SetJoint, SetPart } from "../../set/schema.ts";
import type { Pinned } from "../cases/pins.ts";
import { TOUCH } from "../solids/boxes.ts";
import { amount, endOf, failure, nameOf } from "../words.ts";
import type { Contact } from "./ends.ts";
import type { Housing } from "./grooves.ts";
import type { Lapped } from "./laps.ts";

type Found = {
  entering: SetPart;
  receiving: SetPart;
  end: Face;
  receivingFace: Face;
  housed: boolean;
  /** Only a tongue of it is: a shoulder stands beside. */
  tongue: boolean;
  lapped?: Lapped["kind"];
  fit: "seated" | "slip" | "floating";
  depth: Mm;
  gap: [Mm, Mm];
  /** The gap before rounding. */
  meant: Mm;
  loose: Mm;
};

/** Every joint that the placed parts make; an end in two grooves of one part is one joint with the span of its gaps. */
export function foundJoints(
  housings: readonly Housing[],
  contacts: readonly Contact[],
  pinned: readonly Pinned[],
  lapped: readonly Lapped[],
): Found[] {
  const found: Found[] = [];
  for (const { channel, entering, end, gap, loose, rule, tongue } of housings) {
    const known = found.find(
      (each) => each.entering === entering.part && each.receiving === channel.owner.part && each.end === end,
    );
    if (known) {
      known.gap = [Math.min(known.gap[0], gap), Math.max(known.gap[1], gap)];
      continue;
    }
    found.push({
      entering: entering.part,
      receiving: channel.owner.part,
      end,
      receivingFace: channel.feature.face,
      housed: true,
      tongue: tongue.shoulder > TOUCH,
      fit: rule.fit,
      depth: channel.feature.depth,
      gap: [gap, gap],
      meant: rule.least,
      loose,
    });
  }
  for (const { entering, end, receiving, receivingFace, gap } of contacts) {
    found.push({
      entering: entering.part,
      receiving: receiving.part,
      end,
      receivingFace,
      housed: false,
      tongue: false,
      fit: "seated",
      depth: 0,
      gap: [gap, gap],
      meant: 0,
      loose: 0,
    });
  }
  for (const { shelf, end, holder, holderFace, gap } of pinned) {
    found.push({
      entering: shelf.part,
      receiving: holder.part,
      end,
      receivingFace: holderFace,
      housed: false,
      tongue: false,
      fit: "floating",
      depth: 0,
      gap: [gap, gap],
      meant: shelf.assembly.fits.clearance,
      loose: 0,
    });
  }
  for (const { kind, entering, end, receiving, receivingFace, depth, gap } of lapped) {
    found.push({
      entering: entering.part,
      receiving: receiving.part,
      end,
      receivingFace,
      housed: false,
      tongue: false,
      lapped: kind,
      fit: "seated",
      depth,
      gap: [gap, gap],
      meant: 0,
      loose: 0,
    });
  }
  return found;
}

/** What kinds of joint so meet: a panel laid on edges and an end butted against a face are alike in the wood. */
function kindsOf({ housed, tongue, lapped, fit, end, receivingFace }: Found): SetJoint["kind"][] {
  if (lapped) return [lapped];
  if (housed) return [tongue ? "tongue" : "housed"];
  if (fit === "floating") return ["pin"];
  const faces = [end, receivingFace].filter((face) => face[0] === "t").length;
  return faces === 2 ? ["face"] : faces === 1 ? ["butt", "face"] : ["edge", "butt"];
}

/** A butt has a direction only in words: either part may be stated as the one that enters. */
function isSameJoint(joint: SetJoint, found: Found): boolean {
  const straight =
    joint.entering === found.entering.mark &&
    joint.receiving === found.receiving.mark &&
    joint.enteringEnd === found.end &&
    joint.receivingFace === found.receivingFace;
  const turned =
    !found.housed &&
    !found.lapped &&
    joint.entering === found.receiving.mark &&
    joint.receiving === found.entering.mark &&
    joint.enteringEnd === found.receivingFace &&
    joint.receivingFace === found.end;
  return straight || turned;
}

/** What a stated joint says otherwise than the solids, in words. */
function differences(joint: SetJoint, found: Found, set: DryfitSet): string[] {
  const { job } = set;
  const words: string[] = [];
  if (!kindsOf(found).includes(joint.kind))
    words.push(`kind ${joint.kind}, but what the parts make is ${kindsOf(found).join(" or ")}`);
  if (joint.fit !== found.fit) words.push(`fit ${joint.fit}, but the rule is ${found.fit}`);
  const compare = (what: string, stated: Mm, measured: Mm): void => {
    if (Math.abs(stated - measured) > TOUCH)
      words.push(`${what} ${amount(stated, job)}, but the solids leave ${amount(measured, job)}`);
  };
  compare("depth", joint.depth, found.depth);
  compare("least gap", joint.gap[0], found.gap[0]);
  compare("largest gap", joint.gap[1], found.gap[1]);
  compare("loose", joint.loose, found.loose);
  compare("rounding", joint.rounding, found.gap[0] - found.meant);
  return words;
}

/** Each joint stated is made, each joint made is stated, and both tell the same figures. Sets without joints are judged by the rules alone; grooves that something slides in hold nothing. */
export function checkJoints(set: DryfitSet, found: readonly Found[], slideways: ReadonlySet<SetFeature>): SetCheck[] {
  if (set.joints.length === 0) return [];
  const stated = set.joints.flatMap((joint) => {
    const match = found.find((each) => isSameJoint(joint, each));
    const parts = set.parts.filter((part) => part.mark === joint.entering || part.mark === joint.receiving);
    const name = `The joint of ${joint.entering} (${endOf(joint.enteringEnd)}) with ${joint.receiving} (face ${joint.receivingFace})`;
    if (!match)
      return failure(
        "joints",
        parts,
        `${name} is stated, but the parts do not meet there. Change: place or size one of the two, or leave the joint out.`,
      );
    const words = differences(joint, match, set);
    return words.length === 0
      ? []
      : failure("joints", parts, `${name} is not as stated: ${words.join("; ")}. Change: state what the parts make.`);
  });
  const unstated = found
    .filter((each) => !set.joints.some((joint) => isSameJoint(joint, each)))
    .map((each) =>
      failure(
        "joints",
        [each.entering, each.receiving],
        `${nameOf(each.entering)} (${endOf(each.end)}) meets ${nameOf(each.receiving)} (face ${each.receivingFace}), but no joint is stated there. Change: state the joint.`,
      ),
    );
  const held = set.parts.flatMap((part) =>
    part.features
      .filter((feature) => feature.holds !== null && ["groove", "rabbet", "stub mortise"].includes(feature.kind))
      .filter((feature) => !slideways.has(feature))
      .filter(
        (feature) =>
          !found.some(
            (each) =>
              each.receiving === part && each.entering.mark === feature.holds && each.receivingFace === feature.face,
          ),
      )
      .map((feature) =>
        failure(
          "joints",
          [part],
          `The ${feature.kind} at ${amount(feature.at, set.job)} on face ${feature.face} of ${nameOf(part)} is to hold ${feature.holds}, which does not enter it. Change: what it holds, or where that part stands.`,
        ),
      ),
  );
  return [...stated, ...unstated, ...held];
}
