/** Published values of vibration: how each is computed with the program's formulas. */
import {
  criticalDamping,
  dampingRatio,
  halfCarModes,
  naturalFrequency,
  quarterCarModes,
  seriesRate,
  staticDeflectionFrequency,
} from '../../../src/model/formula/vibration.ts';
import type { Inputs } from '../rows.ts';

const TWO_PI = 2 * Math.PI;
const frequency = (i: Inputs) => naturalFrequency(i.number('k'), i.number('m'));
const sagFrequency = (i: Inputs) => staticDeflectionFrequency(i.number('x'), i.number('g'));
const quarter = (i: Inputs) => quarterCarModes(i.number('ms'), i.number('mu'), i.number('kw'), i.number('kt'));
const omegas = (i: Inputs) => [TWO_PI * quarter(i).first.frequency, TWO_PI * quarter(i).second.frequency] as const;
const half = (i: Inputs) =>
  halfCarModes(i.number('m'), i.number('radius'), i.number('a'), i.number('b'), i.number('kf'), i.number('kr'));

function rideFrequency(i: Inputs): number {
  // The unsprung mass plays no part in this one; it is read so that the row stays one row with the quarter car's.
  i.number('mu');
  return naturalFrequency(seriesRate(i.number('kw'), i.number('kt')), i.number('ms'));
}

function mixedNetwork(i: Inputs): number {
  const inSeries = seriesRate(seriesRate(i.number('k1'), i.number('k2')), i.number('k3'));
  return inSeries + i.number('k4') + i.number('k5');
}

/** A light damper whose swing halves each undamped period: zeta = ln 2/(2 pi). */
const dampingHalving = (i: Inputs) => (criticalDamping(i.number('k'), i.number('m')) * Math.LN2) / TWO_PI;

/** A spring whose load over rate is the same at any load: its rate there is W / delta, and it carries the mass W / g. */
const constantFrequency = (i: Inputs) =>
  naturalFrequency(i.number('W') / i.number('delta'), i.number('W') / i.number('g'));

export const VIBRATION = {
  constant_frequency: constantFrequency,
  frequency,
  omega: (i) => TWO_PI * frequency(i),
  period: (i) => 1 / frequency(i),
  sag_frequency: sagFrequency,
  sag_period: (i) => 1 / sagFrequency(i),
  sag_per_minute: (i) => 60 * sagFrequency(i),
  rate_from_sag: (i) => (i.number('m') * (TWO_PI * sagFrequency(i)) ** 2) / 1000,
  mixed_network: mixedNetwork,
  critical_damping: (i) => criticalDamping(i.number('k'), i.number('m')),
  damping_halving: dampingHalving,
  damping_ratio: (i) => dampingRatio(i.number('c'), i.number('MR'), i.number('k'), i.number('m')),
  quarter_sum: (i) => omegas(i)[0] ** 2 + omegas(i)[1] ** 2,
  quarter_product: (i) => (omegas(i)[0] * omegas(i)[1]) ** 2,
  quarter_first_omega: (i) => omegas(i)[0],
  quarter_second_omega: (i) => omegas(i)[1],
  quarter_first_hz: (i) => quarter(i).first.frequency,
  quarter_second_hz: (i) => quarter(i).second.frequency,
  quarter_first_ratio: (i) => quarter(i).first.ratio,
  ride_frequency: rideFrequency,
  half_bounce_omega: (i) => TWO_PI * half(i).bounce.frequency,
  half_pitch_omega: (i) => TWO_PI * half(i).pitch.frequency,
  half_bounce_centre: (i) => half(i).bounce.centre,
  half_pitch_centre: (i) => half(i).pitch.centre,
} as const satisfies Record<string, (i: Inputs) => number>;
