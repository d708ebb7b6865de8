/** Doors that slide in grooves, as the set lists them: bay by bay. */
import type { AssemblyModel, Model, Slider } from "../model/model.ts";
import type { SetSliders } from "../set/schema.ts";
import { type Marks, markIn } from "./parts.ts";

type Sliding = AssemblyModel & { slider: Slider };
const isSliding = (one: AssemblyModel): one is Sliding => one.slider !== null;

export function planSliders({ assemblies }: Model, marks: Marks): SetSliders[] {
  const all = assemblies.filter(isSliding);
  const firsts = all.filter(({ slider }) => slider.index === 0);
  return firsts.map(({ slider }) =>
    slidersOf(
      all.filter((one) => one.slider.case === slider.case && one.slider.bay === slider.bay),
      marks,
    ),
  );
}

function slidersOf(doors: readonly Sliding[], marks: Marks): SetSliders {
  const { slider } = doors[0]!;
  const { opening, entrance, above, below, groove } = slider;
  const track = (of: 0 | 1): number => doors.find((one) => one.slider.track === of)!.slider.groove.from;
  const room = ({ x, z, front }: Slider["opening"]): SetSliders["opening"] => ({
    at: [x[0], front, z[0]],
    width: x[1] - x[0],
    height: z[1] - z[0],
  });
  return {
    case: slider.case,
    bay: slider.bay,
    opening: room(opening),
    entrance: room(entrance),
    above: { mark: markIn(marks, above.part), depth: above.depth },
    below: { mark: markIn(marks, below.part), depth: below.depth },
    tracks: [track(0), track(1)],
    groove: groove.width,
    play: groove.play,
    apart: groove.apart,
    overlap: slider.overlap,
    spare: slider.spare,
    held: slider.held,
    doors: doors.map(({ name, slider: { track, lean, knob, pull, stick, horns } }) => ({
      assembly: name,
      track,
      lean: { ...lean },
      knob: knob === null ? null : { ...knob, at: [...knob.at] },
      pull: pull === null ? null : { ...pull, at: [...pull.at] },
      stick,
      horns,
    })),
  };
}
