/** Doors that slide in grooves: do they run well for their shape, with the finish on, and through the seasons? */
import { formatDecimal, type Mm, SAME } from "../../base/length.ts";
import { movementOf } from "../../base/moisture.ts";
import { COAT, LEAST_PLAY, SLIDER_HELD, SLIDES_WELL } from "../../project/defaults.ts";
import type { SetCheck, SetPart, SetSliders } from "../../set/schema.ts";
import { type CheckInput, capital, checkOf, computed, PRACTICE, shown, stockOfPart, tapeUp } from "./input.ts";
import { filmOn } from "./inset-film.ts";

type Sliding = { told: SetSliders; name: string; parts: SetPart[]; width: Mm; height: Mm };

export function checkSliders(input: CheckInput): SetCheck[] {
  if (input.sliders.length === 0) return [];
  const doors = input.sliders.flatMap((told) =>
    told.doors.map(({ assembly }): Sliding => {
      const { size } = input.assemblies.find(({ name }) => name === assembly)!;
      const parts = input.parts.filter((part) => part.assembly === assembly);
      return { told, name: assembly, parts, width: size[0], height: size[2] };
    }),
  );
  return [...checkShape(doors, input), ...checkFinish(doors, input), ...checkSeasons(doors, input)];
}

const marksOf = ({ parts }: Sliding): string[] => parts.map(({ mark }) => mark);

function checkShape(doors: readonly Sliding[], { unit }: CheckInput): SetCheck[] {
  const rule = `a door on wooden runners slides well under ${SLIDES_WELL} times as high as it is wide (Fine Woodworking 2004)`;
  const ratio = ({ width, height }: Sliding): number => height / width;
  const slim = doors.filter((door) => ratio(door) > SLIDES_WELL + SAME);
  if (slim.length > 0)
    return slim.map((door) =>
      checkOf("slider-shape", "warning", marksOf(door), {
        text: `${capital(door.name)} is ${shown(door.height, unit)} high and ${shown(door.width, unit)} wide, ${ratio(door).toFixed(2)} times its width: it tips in its grooves and binds when it is pulled.`,
        rule,
        change: `a door at least ${shown(tapeUp(door.height / SLIDES_WELL, unit), unit)} wide: fewer doors or a wider bay; or hang it`,
      }),
    );
  const worst = doors.reduce((most, one) => (ratio(one) > ratio(most) ? one : most));
  return [
    checkOf("slider-shape", "ok", [], {
      text: `Sliding doors are no more than ${ratio(worst).toFixed(2)} times as high as wide.`,
      rule,
    }),
  ];
}

/** Both faces of a door grow by the finish; the walls of its grooves are masked, and so are the edges that run in them. */
function checkFinish(doors: readonly Sliding[], { unit, finishes }: CheckInput): SetCheck[] {
  const rule = `${formatDecimal(COAT.film, unit)} ${unit} a coat of varnish or enamel on each face, grooves and running edges masked, and ${shown(LEAST_PLAY, unit)} of play left (${PRACTICE})`;
  const filmFor = ({ parts }: Sliding): Mm =>
    filmOn(
      parts.filter(({ role }) => role !== "doorPanel").map(({ role }) => role),
      finishes,
    );
  const left = (door: Sliding): Mm => door.told.play - 2 * filmFor(door);
  const tight = doors.filter((door) => left(door) < LEAST_PLAY - SAME);
  if (tight.length > 0)
    return tight.map((door) =>
      checkOf("slider-film", "warning", marksOf(door), {
        text: `${capital(door.name)} has ${shown(door.told.play, unit)} of play in its grooves; ${computed(filmFor(door), unit)} of finish on each face leaves ${left(door) > SAME ? computed(left(door), unit) : "nothing"}.`,
        rule,
        change: `"play" of ${computed(2 * filmFor(door) + LEAST_PLAY, unit)} or more, or fewer coats`,
      }),
    );
  const worst = doors.reduce((least, one) => (left(one) < left(least) ? one : least));
  const film = filmFor(worst);
  return [
    checkOf("slider-film", "ok", [], {
      text:
        film < SAME
          ? `No finish takes room in the grooves: ${shown(worst.told.play, unit)} of play.`
          : `The finish is ${computed(film, unit)} thick on each face; of ${shown(worst.told.play, unit)} of play in the grooves ${computed(left(worst), unit)} is left.`,
      rule,
    }),
  ];
}

/** A slab whose grain runs level grows in height, and shrinks out of its upper groove. */
function checkSeasons(doors: readonly Sliding[], { unit, stock, moisture }: CheckInput): SetCheck[] {
  const { made, driest, wettest } = moisture;
  const rule = "width x coefficient x points of moisture (Wood Handbook 2010, chapter 13); flat-sawn";
  return doors.flatMap((door) => {
    const [part] = door.parts as [SetPart];
    const { solid, species } = stockOfPart(part, stock);
    // Its grain runs up where its length does.
    if (part.role !== "slab" || !solid || part.place?.l === "+z") return [];
    if (species === null)
      return checkOf("slider-seasons", "warning", marksOf(door), {
        text: `${capital(door.name)} is solid wood with its grain level, and its stock does not say of what species: how far its height moves is not reckoned.`,
        rule,
        change: 'give the stock its "species", or let the grain run upright',
      });
    const grows = movementOf(part.width, species.tangential, wettest - (made ?? driest));
    const shrinks = movementOf(part.width, species.tangential, (made ?? wettest) - driest);
    const [over, held] = [grows - door.told.spare, door.told.held - shrinks];
    const least = SLIDER_HELD[unit];
    if (over <= SAME && held >= least - SAME) return [];
    const what = [
      ...(over > SAME
        ? [
            `grows ${computed(grows, unit)} in height, and with ${computed(door.told.spare, unit)} to spare no longer comes out`,
          ]
        : []),
      ...(held < least - SAME
        ? [
            `shrinks ${computed(shrinks, unit)}, and is then held above by ${held > SAME ? computed(held, unit) : "nothing"}`,
          ]
        : []),
    ];
    return checkOf("slider-seasons", "warning", marksOf(door), {
      text: `${capital(door.name)}, ${shown(part.width, unit)} of ${species.name} across its grain, ${what.join("; it ")}.`,
      rule,
      change: "grain that runs upright, or plywood",
    });
  });
}
