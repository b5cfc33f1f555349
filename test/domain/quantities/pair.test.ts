import { expect, test } from 'vitest';
import type { Corner } from '../../../src/domain/corner/site.ts';
import { PAIR } from '../../../src/domain/quantities/pair.ts';
import { valuesOf } from '../../../src/domain/quantities/quantity.ts';
import { workingOf } from '../../../src/domain/reporting/combination.ts';
import type { Scenario } from '../../../src/domain/scenario.ts';
import { plainCorner, plainSite } from '../../setup/corners.ts';

const car = { wheelbase: 2460, pitchInertiaRatio: 0.81, sprungCentreHeight: 545 };
const scenario = { car } as unknown as Scenario;

function valuesWith(front: Corner, rear: Corner) {
  const workings = { front: workingOf(plainSite(), front), rear: workingOf(plainSite({ axle: 'rear' }), rear) };
  return valuesOf(PAIR, { scenario, ...workings });
}

test('front and rear alike: bounce is the body’s own frequency, pitch faster by the inertia ratio, by hand', () => {
  const values = valuesWith(plainCorner(), plainCorner());
  // a = b = l/2 and equal rates: no coupling. Bounce: 2 k/m as each corner; pitch: k^2 = 0.81 a b, so f_b / sqrt(0.81).
  expect(values.bounce_frequency_hz).toBeCloseTo(values.front_frequency_hz ?? Number.NaN, 9);
  expect(values.pitch_frequency_hz).toBeCloseTo((values.front_frequency_hz ?? Number.NaN) / 0.9, 9);
  expect(values.bounce_over_pitch).toBeCloseTo(0.9, 9);
  expect(values.frequency_ratio).toBe(1);
  expect(values.ride_rate_below_pct).toBeCloseTo(0, 9);
});

test('the price is that of two corners an axle, and there is none as soon as one part has none', () => {
  const corner = plainCorner();
  const priced = (price: number | null) =>
    Object.fromEntries(
      Object.entries(corner).map(([family, part]) => [family, part && { ...part, price }]),
    ) as unknown as Corner;
  // Seven parts a corner.
  expect(valuesWith(priced(10), priced(20)).price_total).toBe(2 * (70 + 140));
  expect(valuesWith(priced(10), priced(null)).price_total).toBeNull();
  expect(valuesWith(priced(null), priced(10)).price_total).toBeNull();
});
