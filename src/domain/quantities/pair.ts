/** Quantities of front and rear together. */
import { judgedFrequency } from '../corner/findings.ts';
import { halfCarModes, inStepSpeed } from '../formula/vibration.ts';
import { cornerPrice } from '../ranking/price.ts';
import type { Setup } from '../scenario.ts';
import { caseQuantities } from './cases.ts';
import { type PairWorking, type Quantity, quantities } from './quantity.ts';
import { standingDampingRatio } from './rates.ts';

const OLLEY = 'Olley’s criterion for a flat ride (from memory), as information';
const IN_STEP =
  'wheelbase crossed in 1.5 cycles of difference; only where a damping ratio at 0.1 m/s is not known or below 0.2, since above it the swings die out before (Crolla & King, “Olley’s ‘flat ride’ revisited”)';
/** Damping ratio from which front and rear swing out before they could fall in step. */
const DAMPED = 0.2;
const HALF_CAR = '2 x 2 eigenproblem of bounce and pitch, wheel rates without the tyre';

// biome-ignore format: one row a quantity
export const PAIR: readonly Quantity<PairWorking>[] = quantities<PairWorking>('pair', HALF_CAR, [
  ['front_frequency', 'f_front', 'front frequency as the setup judges it', 'frequency', (p) => judgedFrequency(p.front.state), undefined, { source: 'front corner' }],
  ['rear_frequency', 'f_rear', 'rear frequency as the setup judges it', 'frequency', (p) => judgedFrequency(p.rear.state), undefined, { source: 'rear corner' }],
  ['frequency_ratio', 'ratio', 'rear over front frequency', 'ratio', (p) => judgedFrequency(p.rear.state) / judgedFrequency(p.front.state), 'f_rear / f_front', { source: 'ratio of body frequencies' }],
  ['bounce_frequency', 'f_bounce', 'bounce of the whole car', 'frequency', (p) => modes(p).bounce.frequency],
  ['bounce_centre', 'X_bounce', 'bounce centre ahead of the centre of gravity', 'length', (p) => modes(p).bounce.centre],
  ['pitch_frequency', 'f_pitch', 'pitch of the whole car', 'frequency', (p) => modes(p).pitch.frequency],
  ['pitch_centre', 'X_pitch', 'pitch centre ahead of the centre of gravity', 'length', (p) => modes(p).pitch.centre],
  ['in_step_speed', 'v_step', 'road speed at which front and rear fall in step after 1.5 cycles', 'speed', inStep, undefined, { source: IN_STEP }],
  ['ride_rate_front', 'k_ride_f', 'front ride rate, tyre included', 'rate', (p) => p.front.state.rates.ride, undefined, { source: 'front corner' }],
  ['ride_rate_rear', 'k_ride_r', 'rear ride rate, tyre included', 'rate', (p) => p.rear.state.rates.ride, undefined, { source: 'rear corner' }],
  ['ride_rate_below', 'below', 'front ride rate below the rear’s (Olley, from memory: about 30 %)', 'share', rideRateBelow, '100 * (1 - k_ride_f / k_ride_r)', { source: OLLEY }],
  ['bounce_over_pitch', 'f_b_p', 'bounce over pitch (Olley, from memory: below 1.2)', 'ratio', (p) => modes(p).bounce.frequency / modes(p).pitch.frequency, 'f_bounce / f_pitch', { source: OLLEY }],
  ['faster_mode', 'f_faster', 'the faster of bounce and pitch (Olley, from memory: up to about 1.3 Hz)', 'frequency', (p) => Math.max(modes(p).bounce.frequency, modes(p).pitch.frequency), 'max(f_bounce, f_pitch)', { source: OLLEY }],
  ['price_total', 'price', 'price of all parts, both sides', 'money', total, undefined, { better: 'less', source: 'prices given' }],
]);

/** Every quantity of a pair, in order; each load case of the setup brings rows of its own. */
export function pairQuantities(setup: Pick<Setup, 'loadCases'>): readonly Quantity<PairWorking>[] {
  return [...PAIR, ...caseQuantities(setup.loadCases)];
}

function modes({ scenario, front, rear }: PairWorking) {
  const { car } = scenario;
  const massFront = 2 * front.state.site.sprungMass;
  const massRear = 2 * rear.state.site.sprungMass;
  const mass = massFront + massRear;
  const a = (car.wheelbase * massRear) / mass;
  const b = car.wheelbase - a;
  const radius = Math.sqrt(car.pitchInertiaRatio * a * b);
  return halfCarModes(mass, radius, a, b, 2 * front.state.rates.wheel, 2 * rear.state.rates.wheel);
}

function rideRateBelow({ front, rear }: PairWorking): number {
  return 100 * (1 - front.state.rates.ride / rear.state.rates.ride);
}

function inStep({ scenario, front, rear }: PairWorking): number | null {
  const isDamped = [front, rear].every((w) => (standingDampingRatio(w) ?? 0) >= DAMPED);
  if (isDamped) return null;
  return inStepSpeed(scenario.car.wheelbase, judgedFrequency(front.state), judgedFrequency(rear.state));
}

function total({ front, rear }: PairWorking): number | null {
  const a = cornerPrice(front.state.corner);
  const b = cornerPrice(rear.state.corner);
  return a === null || b === null ? null : 2 * (a + b);
}
