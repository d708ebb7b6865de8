/** Doors as the set lists them. */
import type { Model } from "../model/model.ts";
import type { SetDoor } from "../set/schema.ts";

export const planDoors = ({ assemblies }: Model): SetDoor[] =>
  assemblies.flatMap(({ name, door }): SetDoor[] => {
    if (door === null) return [];
    const { opening, hinges, knob, side, edges, case: home, fit, least, between, meets, stick, horns } = door;
    const { x, z, front } = opening;
    return [
      {
        assembly: name,
        case: home,
        opening: { at: [x[0], front, z[0]], width: x[1] - x[0], height: z[1] - z[0] },
        fit,
        edges: { ...edges },
        least,
        between,
        meets,
        hinges: {
          side,
          kind: hinges.kind,
          size: hinges.height,
          middles: [...hinges.middles],
          counted: hinges.counted,
          fromEdge: hinges.fromEdge,
        },
        knob: knob === null ? null : { ...knob, at: [...knob.at] },
        stick,
        horns,
      },
    ];
  });
