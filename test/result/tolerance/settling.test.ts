/** How much of an answer rests on usual values, and which measurement settles it most. */
import { describe, expect, test } from 'vitest';
import { ROWS } from '../../../src/result/measuring.ts';
import { TOLERANCE_INPUTS } from '../../../src/result/tolerance/inputs.ts';
import { measuredBy, PITCH_INERTIA, pairBands, settlingOf } from '../../../src/result/tolerance/settling.ts';
import { noTolerances, plainCorner, plainPair, plainScenario, ROOMY, tippingMotion } from '../../setup/corners.ts';

type Change = Parameters<typeof plainCorner>[0];

function pairOf(corner: Change, site: object = {}, scenario: object = {}) {
  const pair = plainPair(plainCorner(corner), plainCorner(corner), { site: { ...ROOMY, ...site }, scenario });
  return { scenario: pair.scenario, ...pair.workings };
}
const CAR = plainScenario().car;
const unsureCar = { car: { ...CAR, assumed: { pitchInertiaRatio: 0.1 } } };
const settled = (...given: Parameters<typeof pairOf>) => {
  const found = settlingOf(pairOf(...given));
  if (found === null) throw new Error('nothing assumed');
  return found;
};

test('nothing is said where nothing is assumed, whatever the tolerances', () => {
  expect(settlingOf(pairOf({}, {}, { tolerances: { ...noTolerances, wheelLoadShare: 0.03 } }))).toBeNull();
});

test('all of the spread rests on the one value that is assumed where everything else is exact', () => {
  const { assumed, assumed_share, numbers, measurements } = settled({ bumpStop: { assumed: { closedFraction: 0.1 } } });
  expect(assumed).toEqual(['axles.front.bump_stops[].closed_fraction', 'axles.rear.bump_stops[].closed_fraction']);
  expect(assumed_share).toBeCloseTo(1, 5);
  for (const { assumed_share: share } of numbers) expect(share).toBeCloseTo(1, 5);
  // Both axles alike.
  expect(measurements.map(({ axle, input, assumed: is, share }) => [axle, input, is, share])).toEqual([
    ['front', 'closed_fraction', true, expect.closeTo(0.5, 5)],
    ['rear', 'closed_fraction', true, expect.closeTo(0.5, 5)],
  ]);
  // Stop 60 mm long: 0.1 of it, less the 4 mm that bind elsewhere or not; the height it stands at is none of its business.
  expect(numbers.map(({ key }) => key)).not.toContain('ride_height_mm');
  const { length } = plainCorner().bumpStop;
  const spare = numbers.find(({ key, axle }) => key === 'thinnest_spare_mm' && axle === 'front');
  expect(spare?.half_width).toBeCloseTo(0.1 * length, 6);
});

test('of two loads that are off, the share of each in the height is that of its kilograms squared', () => {
  // Scales off by 1 % of 268 kg, an unsprung mass by 12 kg; both move the sprung mass, and so the height, alike.
  const tolerances = { ...noTolerances, wheelLoadShare: 0.01 };
  const { numbers, measurements } = settled({}, { assumed: { unsprungMass: 12 } }, { tolerances });
  const height = numbers.find(({ key, axle }) => key === 'ride_height_mm' && axle === 'front');
  expect(height?.assumed_share).toBeCloseTo(12 ** 2 / (12 ** 2 + 2.68 ** 2), 2);
  expect(measurements[0]).toMatchObject({ input: 'unsprung_mass', assumed: true, field: 'unsprung_mass' });
  expect(measurements.map(({ share }) => share)).toEqual(measurements.map(({ share }) => share).sort((a, b) => b - a));
  expect(measurements.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 4);
  expect(measurements.find(({ input }) => input === 'wheel_load')).toMatchObject({ assumed: false });
});

test('an assumed engagement moves what holds a loose spring, and nothing where it is not loose', () => {
  const loose = { perch: { assumed: { engagement: 4 } } };
  const keysOf = (corner: Change) =>
    settled({ ...loose, ...corner }).numbers.flatMap(({ key, half_width }) => (half_width > 0 ? [key] : []));
  expect(keysOf({ spring: { freeLength: 170, rate: 80 } })).toContain('held_spare_mm');
  expect(keysOf({ spring: { freeLength: 300, rate: 25 } })).not.toContain('held_spare_mm');
});

describe('pitch inertia', () => {
  test('moves pitch and, the car alike at both ends, not bounce: f ~ 1 / sqrt(k^2/ab)', () => {
    // Front and rear alike: a = b, so bounce and pitch are uncoupled, pitch inertia m k^2 = m r a b.
    const bands = pairBands(pairOf({}, {}, unsureCar));
    const { nominal, rssHigh, rssLow } = bands.pitch_frequency_hz as NonNullable<typeof bands.x>;
    expect(rssHigh / nominal).toBeCloseTo(Math.sqrt(0.92 / 0.82), 9);
    expect(rssLow / nominal).toBeCloseTo(Math.sqrt(0.92 / 1.02), 9);
    expect(bands.bounce_frequency_hz).toMatchObject({ contributor: { id: 'pitch_inertia_ratio' } });
    expect(bands.bounce_frequency_hz?.contributor.by).toBeCloseTo(0, 9);
  });

  test('has no band where it is exact, one where a tolerance is written, and never goes below 0', () => {
    expect(pairBands(pairOf({}))).toEqual({});
    const written = { tolerances: { ...noTolerances, pitchInertiaRatio: 0.1 } };
    expect(pairBands(pairOf({}, {}, written))).toEqual(pairBands(pairOf({}, {}, unsureCar)));
    const wide = pairBands(pairOf({}, {}, { tolerances: { ...noTolerances, pitchInertiaRatio: 1 } }));
    expect(wide.pitch_frequency_hz?.rssHigh).toBeGreaterThan(100);
  });

  test('is the car’s own among the measurements, assumed or with a tolerance beside what is', () => {
    expect(settled({}, {}, unsureCar)).toMatchObject({
      assumed: ['car.pitch_inertia_ratio'],
      assumed_share: 1,
      measurements: [{ input: 'pitch_inertia_ratio', axle: null, assumed: true, field: 'car.pitch_inertia_ratio' }],
    });
    const tolerances = { ...noTolerances, pitchInertiaRatio: 0.1 };
    const { measurements } = settled({}, { assumed: { unsprungMass: 12 } }, { tolerances });
    expect(measurements.find(({ axle }) => axle === null)).toMatchObject({ assumed: false });
  });
});

test('a field that follows from others is not counted, and is measured itself', () => {
  const plate = { mount: { assumed: { lowerBush: 6, washers: 2, raise: 8 } } };
  const { assumed, measurements } = settled(plate);
  expect(assumed.slice(0, 2)).toEqual(['axles.front.mounts[].lower_bush', 'axles.front.mounts[].washers']);
  expect(assumed).toHaveLength(4);
  expect(measurements[0]).toMatchObject({ input: 'raise', field: 'mounts[].raise', assumed: true });
});

test('how it is measured and what it takes stand in the rows of the measuring sheet', () => {
  const rows = Object.values(ROWS).flat();
  for (const input of [...TOLERANCE_INPUTS, PITCH_INERTIA]) {
    const { how, tool, minutes } = measuredBy(input, null);
    const row = rows.find((one) => one.how === how);
    expect([tool, minutes], input.id).toEqual(row?.takes);
  }
  expect(measuredBy({ id: 'perch_height', measure: '' }, 'lockRing').field).toBe('perches[].lock_ring');
  expect(measuredBy({ id: 'gas', measure: '' }, 'gas').field).toBe('dampers[].gas');
  // What the sheet has no row for says itself how it is measured.
  expect(measuredBy({ id: 'friction', measure: 'press and let go' }, null)).toEqual({
    ...{ field: null, how: 'press and let go', tool: null, minutes: null },
  });
});

test('a corner that has no height window has no ends of it that could move', () => {
  const load = { assumed: { unsprungMass: 12 } };
  const keys = (site: object) => settled({}, { ...load, ...site }).numbers.map(({ key }) => key);
  expect(keys({})).toEqual(expect.arrayContaining(['lowest_height_mm', 'highest_height_mm']));
  expect(keys({ motion: tippingMotion() })).not.toContain('lowest_height_mm');
  expect(keys({ motion: tippingMotion() })).not.toContain('highest_height_mm');
});
