/** The quick verdict of advice against the whole model, on random corners and sites. */
import { expect, test } from 'vitest';
import { findingsOf } from '../../../src/model/corner/findings.ts';
import { cornerState } from '../../../src/model/corner/state.ts';
import { findingsAt, lightState, works } from '../../../src/model/corner/verdict.ts';
import { anyFullCorner, anyFullSite, plainCorner, plainSite } from '../../setup/corners.ts';
import { forAny } from '../../setup/random.ts';

test('what is judged quickly is what the whole model says, travels under every load included', () => {
  let loaded = 0;
  forAny([anyFullSite, anyFullCorner], 60, (site, corner) => {
    const whole = cornerState(site, corner);
    const light = lightState(site, corner);
    expect(findingsAt(site, corner)).toEqual(findingsOf(whole));
    expect(works(site, corner)).toBe(findingsOf(whole).length === 0);
    const { standing, geometry, full, rates, bumpTravel, droopTravel, slack } = whole;
    expect(light).toMatchObject({ standing, geometry, full, rates, bumpTravel, droopTravel, slack });
    expect(light.contacts.map(({ atWheel, ...rest }) => rest)).toEqual(
      whole.contacts.map(({ atWheel, ...rest }) => rest),
    );
    loaded += whole.loads.length;
    const travels = (state: typeof whole) =>
      state.loads.map(({ load, height, bumpTravel: bump, droopTravel: droop }) => [load, height, bump, droop]);
    expect(travels(light)).toEqual(travels(whole));
  });
  expect(loaded).toBeGreaterThan(10);
});

test('under a load the bump travel shrinks by what the droop travel gains', () => {
  const more = { name: 'laden', sprungMass: 257, sprungLoad: 257 * 9.80665 };
  const { bumpTravel, droopTravel, loads } = lightState(plainSite({ loads: [more] }), plainCorner());
  const [laden] = loads;
  expect(laden?.bumpTravel).toBeLessThan(bumpTravel);
  expect((laden?.bumpTravel ?? 0) + (laden?.droopTravel ?? 0)).toBeCloseTo(bumpTravel + droopTravel, 9);
});
