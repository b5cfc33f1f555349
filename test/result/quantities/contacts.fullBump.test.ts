import { expect, test } from 'vitest';
import { CONTACTS } from '../../../src/model/corner/contacts.ts';
import { cornerQuantities } from '../../../src/result/quantities/corner.ts';
import { valuesOf } from '../../../src/result/quantities/quantity.ts';
import { workingOf } from '../../../src/result/records/combination.ts';
import { workingLines } from '../../../src/result/records/explain.ts';
import { anyCorner, anySite, plainCorner, plainSite, type SiteChange, stopCurve } from '../../setup/corners.ts';
import { forAny } from '../../setup/random.ts';

const QUANTITIES = cornerQuantities([], null);
const curved = plainCorner({ bumpStop: { curve: stopCurve } });
const load: SiteChange = { bump: { kind: 'load', multiple: 2 } };

test('under a bump load every clearance has a second figure, with the stop fully closed and the give taken off', () => {
  const { state, ...working } = workingOf(plainSite(load), curved);
  const values = valuesOf(QUANTITIES, { state, ...working });
  // Hand arithmetic: closed at 318 + 0.4 x 38 = 333.2; the damper in at 320, which moves with the rod; the coils solid at
  // P + 24 + 76 and the sleeve, its top at 285, on the isolator 24 below the shoulder, both less 2 of bush give.
  expect(values.clearance_damper_closed_mm).toBeCloseTo(13.2, 9);
  expect(values.clearance_sleeve_isolator_closed_mm).toBeCloseTo(333.2 - 285 - 24 - 2, 9);
  expect(values.clearance_coil_bind_closed_mm).toBeCloseTo(333.2 - state.standing.perch - 100 - 2, 9);
  // The bench test has the give still in its spare.
  expect(values.clearance_coil_bind_closed_mm).toBeCloseTo((values.snug_spare_mm ?? Number.NaN) - 2, 9);
  expect(state.full.length).toBeGreaterThan(333.3);
});

test('a clearance is never more with the stop fully closed, by as much for all; judged so, there is one figure', () => {
  forAny([anySite, anyCorner], 100, (site, corner) => {
    const working = workingOf(site, corner);
    const values = valuesOf(QUANTITIES, working);
    const { full, geometry } = working.state;
    const keys = [...CONTACTS.map((name) => `clearance_${name}` as const), 'thinnest_clearance' as const];
    for (const key of keys) {
      const [now, closed] = [values[`${key}_mm`] ?? null, values[`${key}_closed_mm`]];
      if (site.bump.kind === 'closed' || now === null) expect(closed, key).toBeNull();
      else expect(now - (closed ?? Number.NaN), key).toBeCloseTo(full.length - geometry.closedLength, 6);
    }
  });
});

test('force and rate at full bump are not known where the stop’s force is not given, and say so in its place', () => {
  const of = (corner: typeof curved, site: SiteChange = {}) => {
    const working = workingOf(plainSite(site), corner);
    const { wheel_force_full_n: force, wheel_rate_full_n_per_mm: rate } = valuesOf(QUANTITIES, working);
    const lines = workingLines(QUANTITIES, working).filter(({ symbol }) => ['W_full', 'k_w_full'].includes(symbol));
    return { force, rate, said: lines.map(({ value, source }) => [value, source]) };
  };
  const words = 'not known, the stop’s force is not given';
  expect(of(plainCorner())).toEqual({
    ...{ force: null, rate: null },
    said: [
      [null, words],
      [null, words],
    ],
  });
  const known = of(curved);
  expect(known.said.map(([, source]) => source)).not.toContain(words);
  // Hand arithmetic of the stop's own share: closed, 38 x 0.6 of squeeze is 36 mm of the 60 mm stop's curve: 5200 N.
  expect(known.force).toBeGreaterThan(5200 * 0.9);
  // A bump load that never reaches the stop squeezes nothing of unknown force.
  expect(of(plainCorner(), { bump: { kind: 'load', multiple: 0.5 } }).force).not.toBeNull();
});
