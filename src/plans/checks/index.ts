/** Checks on the printed model that the dry fit does not make. Each says what, where, how much, by what rule, and what to change. */
import type { SetCheck } from "../../set/schema.ts";
import { checkAlike } from "./alike.ts";
import { checkCrossGrain } from "./cross-grain.ts";
import { checkDoors } from "./doors.ts";
import { checkDoorway } from "./doorway.ts";
import { checkDrawers } from "./drawers.ts";
import { checkFooting } from "./footing.ts";
import type { CheckInput } from "./input.ts";
import { checkInsetFilm } from "./inset-film.ts";
import { checkLengths } from "./lengths.ts";
import { checkReadings } from "./readings.ts";
import { checkSag } from "./sag.ts";
import { checkSliders } from "./sliders.ts";
import { checkSquare } from "./square.ts";
import { checkTipping } from "./tipping.ts";
import { checkOpen } from "./tipping-open.ts";
import { checkTools } from "./tools.ts";
import { checkTracks } from "./tracks.ts";
import { checkThirds, checkWebs } from "./web.ts";
import { checkWeight } from "./weight.ts";

export { checkLayouts } from "./tools.ts";

export function planChecks(input: CheckInput): SetCheck[] {
  return [
    ...checkLengths(input),
    ...checkThirds(input),
    ...checkWebs(input),
    ...checkReadings(input),
    ...checkSag(input),
    ...checkCrossGrain(input),
    ...checkDoors(input),
    ...checkInsetFilm(input),
    ...checkSliders(input),
    ...checkTracks(input),
    ...checkTools(input),
    ...checkAlike(input),
    ...checkTipping(input),
    ...checkOpen(input),
    ...checkDrawers(input),
    ...checkFooting(input),
    ...checkDoorway(input),
    ...checkWeight(input),
    ...checkSquare(input),
  ];
}
