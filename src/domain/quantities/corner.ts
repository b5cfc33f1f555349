/** Every quantity of one corner, in the order in which one follows from the other. */
import { BENCH } from './bench.ts';
import { FIT } from './fits.ts';
import { CONTACT_QUANTITIES, FULL_BUMP } from './fullBump.ts';
import { GEOMETRY } from './geometry.ts';
import { GIVEN } from './given.ts';
import { loadQuantities } from './loads.ts';
import type { CornerQuantity } from './quantity.ts';
import { RATES } from './rates.ts';
import { SPRING } from './spring.ts';
import { STANDING } from './standing.ts';
import { rollQuantities, TRAVEL } from './travel.ts';
import { WINDOW } from './window.ts';
import { WORKING_RANGE } from './workingRange.ts';

/**
 * @param loadStates names of the setup's load states, each of which brings rows of its own
 * @param track track of the axle, mm; null: the roll rate is left out
 */
export function cornerQuantities(
  loadStates: readonly string[],
  track: number | null = null,
): readonly CornerQuantity[] {
  return [
    ...GIVEN,
    ...GEOMETRY,
    ...FIT,
    ...STANDING,
    ...RATES,
    ...TRAVEL,
    ...rollQuantities(track),
    ...FULL_BUMP,
    ...CONTACT_QUANTITIES,
    ...WINDOW,
    ...BENCH,
    ...SPRING,
    ...WORKING_RANGE,
    ...loadQuantities(loadStates),
  ];
}
