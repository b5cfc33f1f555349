import { expect, test } from 'vitest';
import { cornerState } from '../../../src/model/corner/state.ts';
import { toleranceBands } from '../../../src/result/tolerance/bands.ts';
import { benchBands } from '../../../src/result/tolerance/bench.ts';
import { effectsOf } from '../../../src/result/tolerance/settling.ts';
import { noTolerances as none, plainCorner, plainSite } from '../../setup/corners.ts';

const some = { ...none, freeLength: 2, solidHeight: 1.5, stopLength: 1 };
const model = { site: plainSite({ tyreOnArchHeight: 240, target: { allowedSlack: 8 } }), corner: plainCorner() };

test('what each input does to coil bind by hand: free length and solid height in full, the stop by its closed share', () => {
  const effects = effectsOf(model, some).filter(({ key }) => key === 'clearance_coil_bind_mm');
  const by = Object.fromEntries(effects.map(({ input, by: amount }) => [input, amount]));
  expect(by).toEqual({
    free_length: expect.closeTo(2, 9),
    solid_height: expect.closeTo(1.5, 9),
    // Closed it is 0.4 of its length.
    stop_length: expect.closeTo(0.4, 9),
  });
  expect(effects.map(({ share }) => share)).toEqual([2, 1.5, 0.4].map((amount) => expect.closeTo(amount / 3.9, 9)));
});

test('the effects on a quantity add up to no less than its worst-case band reaches, and their shares to the whole', () => {
  const effects = effectsOf(model, some);
  const { perch } = cornerState(model.site, model.corner).standing;
  const bands = { ...toleranceBands(model, some), ...benchBands(model, some, perch) };
  for (const key of new Set(effects.map((effect) => effect.key))) {
    const ofKey = effects.filter((effect) => effect.key === key);
    const sum = ofKey.reduce((total, { by }) => total + by, 0);
    const band = bands[key];
    if (band === undefined) throw new Error(key);
    expect(sum, key).toBeGreaterThanOrEqual(
      Math.max(band.nominal - band.worstLow, band.worstHigh - band.nominal) - 1e-5,
    );
    expect(
      ofKey.reduce((total, { share }) => total + share, 0),
      key,
    ).toBeCloseTo(1, 5);
  }
});

test('what moves nothing has no effect', () => {
  expect(effectsOf(model, none)).toEqual([]);
  // The solid height says nothing about travel.
  expect(effectsOf(model, { ...none, solidHeight: 1.5 }).some(({ key }) => key === 'bump_travel_mm')).toBe(false);
});

test('a quantity that does not exist has no effects', () => {
  // Without gas, with a motion ratio of next to nothing, the corner has no frequency.
  const bushes = { rate: -400, unloadedHeight: 332 };
  const keys = effectsOf({ ...model, site: { ...model.site, bushes } }, some).map(({ key }) => key);
  expect(keys).not.toContain('body_frequency_hz');
  expect(keys).toContain('clearance_coil_bind_mm');
});
