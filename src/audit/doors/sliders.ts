/** Doors that slide in grooves: as they stand closed, in grooves that are there for them; slid from end to end; leaned in. */
import type { Box } from "../../base/geometry.ts";
import type { DryfitSet, SetCheck, SetSliders } from "../../set/schema.ts";
import { around, drawnOut, sharedBox, TOUCH } from "../solids/boxes.ts";
import type { Channel, Solid } from "../solids/solid.ts";
import { amount, failure, failureOf, type Job, nameOf, partsOf } from "../words.ts";
import type { Body } from "./body.ts";
import { knobOf, woodOf } from "./doors.ts";
import type { SetSlider, Slid } from "./slid.ts";
import { checkSliderGrooves } from "./slider-grooves.ts";
import { checkLift } from "./slider-lift.ts";
import { checkPull } from "./slider-pull.ts";

export function checkSliders(set: DryfitSet, solids: readonly Solid[]): SetCheck[] {
  return [
    ...strayGrooves(set, solids),
    ...set.sliders.flatMap((told) => {
      const doors = told.doors.flatMap((slider) => slidOf(set, slider, solids));
      if (doors.length < told.doors.length)
        return failureOf(
          "slider",
          [],
          `${told.doors.map(({ assembly }) => assembly).join(", ")} are told to slide in ${told.bay} of ${told.case}, but ${told.doors.length - doors.length} of them stand nowhere or do not slide. Change: their parts and their travel, or leave them out.`,
        );
      const own = new Set(doors.map(({ assembly }) => assembly.name));
      const others = solids.filter(({ assembly }) => !own.has(assembly.name));
      return [
        ...checkSliderGrooves(told, doors, solids, set),
        ...checkSum(told, doors, set.job),
        ...doors.flatMap((door) => checkPull(door, set.job)),
        ...doors.flatMap((door) => checkTravel(told, door, doors, wood(set, others), set.job)),
        ...doors.flatMap((door) => checkLift(told, door, doors, wood(set, others.filter(isFast)), set.job)),
      ];
    }),
  ];
}

const wood = (set: DryfitSet, solids: readonly Solid[]): Body[] => solids.flatMap((solid) => woodOf(set, solid));

/** Hung doors stand open and drawers out while a door is leaned in. */
const isFast = ({ assembly }: Solid): boolean => assembly.kind !== "door" && assembly.kind !== "drawer";

function slidOf(set: DryfitSet, slider: SetSlider, solids: readonly Solid[]): Slid[] {
  const assembly = set.assemblies.find(({ name }) => name === slider.assembly);
  const own = solids.filter((solid) => solid.assembly.name === slider.assembly);
  const travel = assembly?.travel;
  if (assembly === undefined || own.length === 0 || travel?.kind !== "slide" || travel.axis !== "+x") return [];
  const bodies = own.flatMap((solid) => woodOf(set, solid));
  const runs = own.filter(({ part }) => part.role !== "doorPanel");
  return [
    {
      slider,
      assembly,
      parts: partsOf(own),
      bodies: [...bodies, ...knobOf(slider, assembly)],
      bounds: around(bodies.map(({ box }) => box)),
      holes: own.flatMap((solid) => solid.holes),
      thickest: Math.max(...runs.map(({ stock }) => stock.thickest)),
      range: travel.range,
    },
  ];
}

/** A groove that something is to slide in belongs to the doors of a bay. */
function strayGrooves(set: DryfitSet, solids: readonly Solid[]): SetCheck[] {
  const isTold = ({ owner }: Channel): boolean =>
    set.sliders.some(({ above, below }) => [above.mark, below.mark].includes(owner.part.mark));
  return solids.flatMap(({ slideways, part }) =>
    slideways
      .filter((slideway) => !isTold(slideway))
      .map(({ feature }) =>
        failure(
          "slider-groove",
          [part],
          `Something that nothing tells of slides in the groove at ${amount(feature.at, set.job)} on face ${feature.face} of ${nameOf(part)}. Change: say what does.`,
        ),
      ),
  );
}

/** Widths and overlaps make the opening; the outer doors stand against what bounds it. */
function checkSum(told: SetSliders, doors: readonly Slid[], job: Job): SetCheck[] {
  const { opening, overlap } = told;
  const ends = [opening.at[0], opening.at[0] + opening.width] as const;
  const laps = doors.slice(1).map(({ bounds }, i) => doors[i]!.bounds[1][0] - bounds[0][0]);
  const widths = doors.map(({ bounds }) => bounds[1][0] - bounds[0][0]);
  const sum = widths.reduce((all, one) => all + one, 0) - overlap * (doors.length - 1);
  const faults = [
    ...(Math.abs(sum - opening.width) > TOUCH * doors.length
      ? [`their widths less ${amount(overlap, job)} of overlap make ${amount(sum, job)}`]
      : []),
    ...laps.filter((lap) => Math.abs(lap - overlap) > TOUCH).map((lap) => `one lies ${amount(lap, job)} over the next`),
    ...(Math.abs(doors[0]!.bounds[0][0] - ends[0]) > TOUCH || Math.abs(doors.at(-1)!.bounds[1][0] - ends[1]) > TOUCH
      ? ["the outer ones do not stand against the sides of the bay"]
      : []),
  ];
  if (faults.length === 0) return [];
  return [
    failure(
      "slider-sum",
      doors.flatMap(({ parts }) => parts),
      `The doors of ${told.bay} of ${told.case} do not close ${amount(opening.width, job)}: ${[...new Set(faults)].join("; ")}. Change: their widths, or their places.`,
    ),
  ];
}

/** All that a door passes over, slid: against what stands still, the doors of the other groove wherever they are, and those of its own closed. */
function checkTravel(
  told: SetSliders,
  { slider, bodies, bounds, parts, range }: Slid,
  all: readonly Slid[],
  still: readonly Body[],
  job: Job,
): SetCheck[] {
  const swept = (one: Pick<Slid, "range">, box: Box): Box =>
    drawnOut(box, 0, box[0][0] + one.range[0], box[1][0] + one.range[1]);
  // Two grooves: each pair of doors is looked at once, from the left.
  const isLeft = (one: Slid): boolean => all.indexOf(one) < all.findIndex((each) => each.slider === slider);
  const others = all
    .filter((one) => one.slider !== slider && (one.slider.track === slider.track || !isLeft(one)))
    .flatMap((one) =>
      one.bodies.map((body) => ({ ...body, box: one.slider.track === slider.track ? body.box : swept(one, body.box) })),
    );
  const checks: SetCheck[] = [];
  const met = new Map<string, { own: Body; other: Body; shared: Box }>();
  for (const own of bodies)
    for (const other of [...still, ...others]) {
      const shared = sharedBox(swept({ range }, own.box), other.box);
      if (shared !== null && !met.has(other.words)) met.set(other.words, { own, other, shared });
    }
  for (const { own, other, shared } of met.values())
    checks.push(
      failure(
        "slider-travel",
        [...parts, ...(other.part === null ? [] : [other.part])],
        `${slider.assembly} cannot slide by: ${own.words} meets ${other.words}, ${amount(Math.min(...[0, 1, 2].map((i) => shared[1][i]! - shared[0][i]!)), job)} into each other. Change: ${own.part === null || other.part === null ? "a recess instead of a knob, or one that stands out less" : 'more "apart", a groove that goes on, or less travel'}.`,
      ),
    );
  const [left, right] = [told.opening.at[0], told.opening.at[0] + told.opening.width];
  const own = all.filter((one) => one.slider !== slider && one.slider.track === slider.track);
  const low = Math.max(left, ...own.map((one) => one.bounds[1][0]).filter((x) => x <= bounds[0][0] + TOUCH));
  const high = Math.min(right, ...own.map((one) => one.bounds[0][0]).filter((x) => x >= bounds[1][0] - TOUCH));
  const off = Math.max(Math.abs(bounds[0][0] + range[0] - low), Math.abs(bounds[1][0] + range[1] - high));
  if (off > TOUCH)
    checks.push(
      failure(
        "slider-travel",
        parts,
        `${slider.assembly} is told to end ${amount(off, job)} off where the side of its bay, or the next door in its groove, stops it. Change: its travel.`,
      ),
    );
  return checks;
}
