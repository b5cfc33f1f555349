/** Rates, frequencies and damping of the standing corner, and what a turn of the collar does. */
import { stressAtFullBump } from '../corner/findings.ts';
import { reboundDamping, secantDamping } from '../formula/damping.ts';
import { dampingRatio, quarterCarModes } from '../formula/vibration.ts';
import { type CornerQuantity, quantities, type Working } from './quantity.ts';

const r = (w: Working) => w.state.rates;
const PARTS = 'rates of the parts';
const MODES = 'Barton & Fieldhouse, Automotive Chassis Engineering (2018), sec. 3.13';

// biome-ignore format: one row a quantity
export const RATES: readonly CornerQuantity[] = quantities<Working>('rates', PARTS, [
  ['stack_rate', 'k_stack', 'rate of what is open in the spring stack', 'rate', (w) => r(w).stack],
  ['stop_rate', 'k_stop', 'rate of the bump stop standing', 'rate', (w) => r(w).stop],
  ['gas_rate', 'k_gas', 'rate of the damper gas standing', 'rate', (w) => r(w).gas],
  ['damper_rate', 'k_d', 'rate along the damper', 'rate', (w) => r(w).damper, 'k_stack + k_stop + k_gas'],
  ['ratio_slope', 'q', 'slope of the motion ratio with height', 'ratioSlope', (w) => 1000 * r(w).ratioSlope, undefined, { source: 'least squares through the measured pairs' }],
  ['wheel_rate', 'k_w', 'wheel rate', 'rate', (w) => r(w).wheel, wheelRate, { source: 'virtual work: k_d MR^2 + F_d dMR/dz' }],
  ['ride_rate', 'k_ride', 'wheel rate and tyre in series', 'rate', (w) => r(w).ride, 'k_w * k_t / (k_w + k_t)'],
  ['body_frequency', 'f_body', 'body frequency, without the tyre', 'frequency', (w) => r(w).bodyFrequency, 'sqrt(1000 * k_w / m_s) / (2 * pi)'],
  ['ride_frequency', 'f_ride', 'body frequency on the tyre', 'frequency', (w) => r(w).rideFrequency, 'sqrt(1000 * k_ride / m_s) / (2 * pi)'],
  ['first_mode', 'f_1', 'quarter car, first mode', 'frequency', (w) => modes(w)?.[0] ?? null, undefined, { source: MODES }],
  ['second_mode', 'f_2', 'quarter car, second mode (wheel hop)', 'frequency', (w) => modes(w)?.[1] ?? null, undefined, { source: MODES }],
  ['height_per_perch', 'dHdP', 'ride height per mm of perch', 'ratio', (w) => heightPerPerch(w), 'k_stack * MR / k_w'],
  ['height_per_turn', 'dH_turn', 'ride height per collar turn', 'length', heightPerTurn, 'dHdP * pitch'],
  ['damping_coefficient', 'c_d', 'damping at 0.1 m/s, bump and rebound averaged', 'damping', (w) => damping(w)],
  ['damping_ratio', 'zeta', 'damping ratio of the body', 'ratio', (w) => ratioOf(w, damping(w)), 'c_d * MR^2 / (2 * sqrt(1000 * k_w * m_s))'],
  ['rebound_coefficient', 'c_reb', 'damping at 0.1 m/s in rebound alone', 'damping', (w) => rebound(w)],
  ['rebound_ratio', 'zeta_reb', 'damping ratio of the body, rebound alone', 'ratio', (w) => ratioOf(w, rebound(w)), 'c_reb * MR^2 / (2 * sqrt(1000 * k_w * m_s))'],
  ['stress_full', 'tau_full', 'stress of the main spring at full bump', 'stress', (w) => stressAtFullBump(w.state)?.stress ?? null],
  ['stress_allowed', 'tau_allowed', 'stress allowed (0.56 R_m, EN 13906-1, from memory)', 'stress', (w) => stressAtFullBump(w.state)?.allowed ?? null],
]);

function wheelRate(w: Working): string {
  return `k_d * MR^2 - F_d * q / 1000${w.state.site.bushes ? ' + k_p' : ''}`;
}

function modes(w: Working): readonly [number, number] | null {
  const { site, rates } = w.state;
  if (!(rates.wheel > 0)) return null;
  const found = quarterCarModes(site.sprungMass, site.unsprungMass, rates.wheel, site.tyreRate);
  return [found.first.frequency, found.second.frequency];
}

function heightPerPerch(w: Working): number | null {
  const { wheel, stack } = r(w);
  return wheel > 0 ? (stack * w.state.standing.motionRatio) / wheel : null;
}

function heightPerTurn(w: Working): number | null {
  const pitch = w.state.corner.sleeve.threadPitch;
  const perMillimetre = heightPerPerch(w);
  return pitch === null || perMillimetre === null ? null : perMillimetre * pitch;
}

function damping(w: Working): number | null {
  const table = w.state.corner.damper.forceVelocity;
  return table === null ? null : secantDamping(table);
}

function rebound(w: Working): number | null {
  const table = w.state.corner.damper.forceVelocity;
  return table === null ? null : reboundDamping(table);
}

function ratioOf(w: Working, coefficient: number | null): number | null {
  if (coefficient === null || !(r(w).wheel > 0)) return null;
  return dampingRatio(coefficient, w.state.standing.motionRatio, r(w).wheel, w.state.site.sprungMass);
}
