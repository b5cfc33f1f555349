/** A usual value that stands for a measurement is no surer than such values are. */
import { expect, test } from 'vitest';
import { assumedField, assumedName, type Model, TOLERANCE_INPUTS } from '../../../src/result/tolerance/inputs.ts';
import { noTolerances, plainCorner, plainSite } from '../../setup/corners.ts';

const widthOf = (id: string, model: Model, tolerances = {}) =>
  TOLERANCE_INPUTS.find((input) => input.id === id)?.width(model, { ...noTolerances, ...tolerances });
const modelWith = (change: Parameters<typeof plainCorner>[0], site = {}): Model => ({
  site: plainSite(site),
  corner: plainCorner(change),
});

test.each([
  ['perch_height', { perch: { assumed: { lockRing: 4 } } }, 4],
  ['raise', { mount: { assumed: { raise: 8 } } }, 8],
  ['bush_give', { mount: { assumed: { bushGive: 2 } } }, 2],
  ['isolator_thickness', { isolator: { assumed: { thickness: 3 } } }, 3],
  ['closed_fraction', { bumpStop: { assumed: { closedFraction: 0.1 } } }, 0.1],
  ['engagement', { perch: { assumed: { engagement: 4 } } }, 4],
  ['gas', { damper: { assumed: { gas: 0.9 } } }, 0.9],
] as const)('%s is as wide as the assumption to either side, though nothing else is off', (id, change, half) => {
  const model = modelWith(change);
  expect(widthOf(id, model)).toEqual({ down: half, up: half });
  const [[part, fields] = []] = Object.entries(change);
  expect(assumedField(id, model)).toEqual([part, Object.keys((fields as { assumed: object }).assumed)[0]]);
  // Measured, it is as sure as the tolerance says.
  expect(widthOf(id, modelWith({}))).toBeNull();
  expect(assumedField(id, modelWith({}))).toBeNull();
});

test('an unsprung mass that nobody weighed is off by its share', () => {
  // 12 of 31 kg
  expect(widthOf('unsprung_mass', modelWith({}, { assumed: { unsprungMass: 12 } }))).toEqual({
    down: 12 / 31,
    up: 12 / 31,
  });
  expect(widthOf('unsprung_mass', modelWith({}))).toBeNull();
  expect(widthOf('unsprung_mass', modelWith({}, { assumed: { tyreRate: 50 } }))).toBeNull();
});

test('a tyre rate that nobody measured is off by its share, and one with a tolerance by that', () => {
  // 50 of 190 N/mm
  const half = 50 / 190;
  expect(widthOf('tyre_rate', modelWith({}, { assumed: { tyreRate: 50 } }))).toEqual({ down: half, up: half });
  expect(widthOf('tyre_rate', modelWith({}))).toBeNull();
  expect(widthOf('tyre_rate', modelWith({}), { tyreRateShare: 0.1 })).toEqual({ down: 0.1, up: 0.1 });
  expect(assumedName('tyre_rate', modelWith({}, { assumed: { tyreRate: 50 } }))).toBe('tyreRate');
  expect(assumedName('tyre_rate', modelWith({}, { assumed: { unsprungMass: 12 } }))).toBeNull();
});

test('seats hold a spring by no less than nothing', () => {
  const engagement = TOLERANCE_INPUTS.find(({ id }) => id === 'engagement');
  expect(engagement?.moved(modelWith({ perch: { engagement: 3 } }), -4).corner.perch.engagement).toBe(0);
});

test('the wider of assumption and tolerance counts, to each side by itself', () => {
  const assumed = modelWith({ mount: { assumed: { bushGive: 1.5 } } });
  // A bush that gives 2 mm can give 2 mm less; by its tolerance it may give 5 more.
  expect(widthOf('bush_give', assumed, { bushGive: 5 })).toEqual({ down: 2, up: 5 });
  expect(widthOf('bush_give', assumed, { bushGive: 1 })).toEqual({ down: 1.5, up: 1.5 });
  expect(widthOf('bush_give', modelWith({}), { bushGive: 1 })).toEqual({ down: 1, up: 1 });
});

test('what no usual value can stand for is no field of a part', () => {
  expect(assumedField('wheel_load', modelWith({ perch: { assumed: { lockRing: 4 } } }))).toBeNull();
  expect(assumedField('isolator_thickness', modelWith({ isolator: null }))).toBeNull();
});
