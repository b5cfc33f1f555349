/** Rates, frequencies and damping of the standing corner, and what a turn of the collar does. */
import type { Working } from '../../model/corner/window.ts';
import { dampingRatio, quarterCarModes, reboundDamping, secantDamping } from '../../model/formula/vibration.ts';
import { quantities } from './quantity.ts';

const r = (w: Working) => w.state.rates;
const PARTS = 'rates of the parts';
const VIRTUAL_WORK = 'virtual work: k_d MR^2 + F_d dMR/dz';
const MODES = 'Barton & Fieldhouse, Automotive Chassis Engineering (2018), sec. 3.13';

// biome-ignore format: one row a quantity
export const RATES = quantities('rates', PARTS, [
  ['stack_rate', 'k_stack', 'rate of what is open in the spring stack', 'rate', (w) => r(w).stack],
  ['stop_rate', 'k_stop', 'rate of the bump stop standing', 'rate', (w) => r(w).stop],
  ['gas_rate', 'k_gas', 'rate of the damper gas standing, in a vibration', 'rate', (w) => r(w).gas, gasRate],
  ['settled_gas_rate', 'k_gas_s', 'rate of the damper gas standing, settled', 'rate', (w) => r(w).settledGas, settledGasRate],
  ['damper_rate', 'k_d', 'rate along the damper', 'rate', (w) => r(w).damper, 'k_stack + k_stop + k_gas'],
  ['ratio_slope', 'q', 'slope of the motion ratio with height', 'ratioSlope', (w) => 1000 * r(w).ratioSlope, undefined, { source: 'least squares through the measured pairs' }],
  ['wheel_rate', 'k_w', 'wheel rate', 'rate', (w) => r(w).wheel, (w) => wheelRate(w, 'k_d'), { source: VIRTUAL_WORK }],
  ['settled_wheel_rate', 'k_w_s', 'wheel rate with the gas settled', 'rate', (w) => r(w).settledWheel, (w) => wheelRate(w, '(k_stack + k_stop + k_gas_s)'), { source: VIRTUAL_WORK }],
  ['ride_rate', 'k_ride', 'wheel rate and tyre in series', 'rate', (w) => r(w).ride, 'k_w * k_t / (k_w + k_t)'],
  ['body_frequency', 'f_body', 'body frequency, without the tyre', 'frequency', (w) => r(w).bodyFrequency, 'sqrt(1000 * k_w / m_s) / (2 * pi)'],
  ['ride_frequency', 'f_ride', 'body frequency on the tyre', 'frequency', (w) => r(w).rideFrequency, 'sqrt(1000 * k_ride / m_s) / (2 * pi)'],
  ['first_mode', 'f_1', 'quarter car, first mode', 'frequency', (w) => modes(w)?.[0] ?? null, undefined, { source: MODES }],
  ['second_mode', 'f_2', 'quarter car, second mode (wheel hop)', 'frequency', (w) => modes(w)?.[1] ?? null, undefined, { source: MODES }],
  ['height_per_perch', 'dHdP', 'ride height per mm of perch, both perches of the axle together', 'ratio', (w) => heightPerPerch(w), 'k_stack * MR / k_w_s'],
  ['height_per_turn', 'dH_turn', 'ride height per collar turn, both perches of the axle together', 'length', heightPerTurn, 'dHdP * pitch'],
  ['damping_coefficient', 'c_d', 'damping at 0.1 m/s, bump and rebound averaged', 'damping', (w) => damping(w)],
  ['damping_ratio', 'zeta', 'damping ratio of the body at 0.1 m/s', 'ratio', standingDampingRatio, 'c_d * MR^2 / (2 * sqrt(1000 * k_w * m_s))'],
  ['rebound_coefficient', 'c_reb', 'damping at 0.1 m/s in rebound alone', 'damping', (w) => rebound(w)],
  ['rebound_ratio', 'zeta_reb', 'damping ratio of the body at 0.1 m/s, rebound alone', 'ratio', (w) => ratioOf(w, rebound(w)), 'c_reb * MR^2 / (2 * sqrt(1000 * k_w * m_s))'],
]);

/** The slope of two pushes, or the gas law about the settled state; with 1.3 in a vibration. */
function settledGasRate(w: Working): string {
  const { kind } = w.state.corner.damper.gas;
  if (kind === 'none') return '0';
  if (kind === 'linear') return '(F_in - F_out) / (l_ext - l_in)';
  return '(p_g + p_a) * V_gas * A_rod^2 / (V_gas - A_rod * (l_ext - l_r))^2';
}

function gasRate(w: Working): string {
  return w.state.corner.damper.gas.kind === 'charge' ? '1.3 * k_gas_s' : 'k_gas_s';
}

function wheelRate(w: Working, alongDamper: string): string {
  return `${alongDamper} * MR^2 - F_d * q / 1000${w.state.site.bushes ? ' + k_p' : ''}`;
}

function modes(w: Working): readonly [number, number] | null {
  const { site, rates } = w.state;
  if (!(rates.wheel > 0)) return null;
  const found = quarterCarModes(site.sprungMass, site.unsprungMass, rates.wheel, site.tyreRate);
  return [found.first.frequency, found.second.frequency];
}

function heightPerPerch(w: Working): number | null {
  const { settledWheel, stack } = r(w);
  return settledWheel > 0 ? (stack * w.state.standing.motionRatio) / settledWheel : null;
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

/** Damping ratio of the body at 0.1 m/s, bump and rebound averaged; null where it is not known. */
export function standingDampingRatio(w: Working): number | null {
  return ratioOf(w, damping(w));
}

function ratioOf(w: Working, coefficient: number | null): number | null {
  if (coefficient === null || !(r(w).wheel > 0)) return null;
  return dampingRatio(coefficient, w.state.standing.motionRatio, r(w).wheel, w.state.site.sprungMass);
}
