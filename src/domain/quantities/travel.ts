/** The corner away from rest: wheel rates at full bump and at droop, and what the axle's springs hold in roll. */

import { forcesAt } from '../corner/balance.ts';
import { type Rates, ratesAt } from '../corner/rates.ts';
import { isStopForceKnown } from '../corner/state.ts';
import { STOP_FORCE_UNKNOWN } from '../messages.ts';
import { type CornerQuantity, quantities, type Working } from './quantity.ts';

const RATES_OF_PARTS = 'rates of the parts there, as at rest';

// biome-ignore format: one row a quantity
export const TRAVEL: readonly CornerQuantity[] = quantities<Working>('rates', RATES_OF_PARTS, [
  ['wheel_rate_full', 'k_w_full', 'wheel rate at full bump, stop included', 'rate', (w) => whereKnown(w, () => ratesWhere(w, w.state.full.height).wheel), undefined, { unknown: STOP_FORCE_UNKNOWN }],
  ['wheel_rate_droop', 'k_w_droop', 'wheel rate at full droop', 'rate', (w) => ratesWhere(w, w.state.geometry.droopHeight).wheel],
  ['wheel_force_full', 'W_full', 'force at the wheel at full bump', 'force', (w) => whereKnown(w, () => forcesWhere(w, w.state.full.height).load), undefined, { unknown: STOP_FORCE_UNKNOWN }],
]);

/** Roll rate of one axle's springs; exists where the axle's track is given. */
export function rollQuantities(track: number | null): CornerQuantity[] {
  if (track === null) return [];
  return quantities<Working>('rates', 'virtual work: k_w t^2 / 2', [
    ['track', 'track', 'track', 'length', () => track, undefined, { source: 'given' }],
    [
      'roll_rate',
      'K_roll',
      'roll rate of the springs of the axle',
      'angularRate',
      (w) => (((w.state.rates.wheel * track ** 2) / 2) * Math.PI) / 180 / 1000,
      'k_w * track^2 / 2 * pi / 180 / 1000',
    ],
  ]);
}

/** Null where full bump squeezes a stop whose force nobody gave: then no total that contains it is known. */
function whereKnown(w: Working, read: () => number): number | null {
  return isStopForceKnown(w.state) ? read() : null;
}

function forcesWhere(w: Working, height: number) {
  const { site, corner, geometry, standing } = w.state;
  return forcesAt(site, corner, geometry, height, standing.perch);
}

function ratesWhere(w: Working, height: number): Rates {
  const { site, corner, geometry } = w.state;
  return ratesAt(site, corner, geometry, forcesWhere(w, height), site.sprungMass);
}
