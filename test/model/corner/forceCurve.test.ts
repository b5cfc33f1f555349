import fc from 'fast-check';
import { expect, test } from 'vitest';
import { forceCurveOf } from '../../../src/model/corner/forceCurve.ts';
import { geometryOf } from '../../../src/model/corner/geometry.ts';
import { cornerState } from '../../../src/model/corner/state.ts';
import { anyCorner, anySite, plainCorner, plainHelper, plainSite, stopCurve } from '../../setup/corners.ts';
import { forAny } from '../../setup/random.ts';

test('heights rise from closed stop or metal to full droop, and the parts add up to the total', () => {
  forAny([anySite, anyCorner], 200, (site, corner) => {
    const state = cornerState(site, corner);
    const curve = forceCurveOf(state);
    fc.pre(curve.height_mm.length > 0);
    for (const [k, height] of curve.height_mm.entries()) {
      if (k > 0) expect(height).toBeGreaterThanOrEqual(curve.height_mm[k - 1] ?? 0);
      const sum = [curve.spring_n, curve.gas_n, curve.stop_n, curve.bush_n].reduce((s, part) => s + (part[k] ?? 0), 0);
      // Not known past a stop without a force curve.
      const total = curve.total_n[k] ?? null;
      if (total !== null) expect(Math.abs(sum - total)).toBeLessThan(0.03);
      expect(total === null, `at ${height}`).toBe(curve.stop_n[k] === null);
    }
    expect(curve.height_mm[0]).toBeGreaterThanOrEqual(state.geometry.closedHeight - 1e-3);
    expect(curve.height_mm.at(-1)).toBeCloseTo(state.geometry.droopHeight, 3);
    expect(
      new Set(
        Object.values(curve)
          .filter(Array.isArray)
          .map((list) => list.length),
      ).size,
    ).toBe(1);
  });
});

test('standing, all together carry the sprung load, and the slope there is the wheel rate', () => {
  const site = plainSite();
  const state = cornerState(site, plainCorner());
  const { height_mm, total_n } = forceCurveOf(state);
  const at = height_mm.indexOf(332);
  expect(total_n[at]).toBeCloseTo(site.sprungLoad, 2);
  const slope =
    ((total_n[at + 1] ?? 0) - (total_n[at - 1] ?? 0)) / ((height_mm[at - 1] ?? 0) - (height_mm[at + 1] ?? 0));
  // Virtual work: the wheel rate is the slope of the load over bump travel.
  expect(slope / state.rates.wheel).toBeCloseTo(1, 2);
});

test('a helper bends the spring’s line where it closes, by the ratio of the two rates', () => {
  const helper = { ...plainHelper, freeLength: 60, rate: 6 };
  const spring = { freeLength: 180, solid: { height: 62, least: 62 } };
  const { knee_height_mm, height_mm, spring_n } = forceCurveOf(
    cornerState(plainSite(), plainCorner({ helper, spring })),
  );
  const knee = height_mm.findIndex((height) => Math.abs(height - (knee_height_mm ?? 0)) < 1e-3);
  expect(knee).toBeGreaterThan(0);
  const slope = (from: number, to: number) =>
    ((spring_n[to] ?? 0) - (spring_n[from] ?? 0)) / ((height_mm[from] ?? 0) - (height_mm[to] ?? 0));
  // Springs in series: 1/k = 1/38 + 1/6, so the open stack has 6/44 of the main spring's rate.
  expect(slope(knee + 1, knee) / slope(knee, knee - 1)).toBeCloseTo(6 / 44, 1);
});

test('a stop without a force curve is said to be unknown, one with a curve pushes', () => {
  const silent = forceCurveOf(cornerState(plainSite(), plainCorner()));
  expect(silent.stop_known).toBe(false);
  // Nothing until it is met, not known from there on, and no total that contains it.
  expect(new Set(silent.stop_n)).toEqual(new Set([0, null]));
  const met = geometryOf(plainSite(), plainCorner()).stopHeight;
  for (const [k, height] of silent.height_mm.entries()) {
    const isMet = height < met - 0.001;
    expect([silent.stop_n[k] === null, silent.total_n[k] === null], `at ${height}`).toEqual([isMet, isMet]);
    expect(silent.spring_n[k]).not.toBeNull();
  }
  const stop = { length: 60, curve: stopCurve };
  const pushing = forceCurveOf(cornerState(plainSite(), plainCorner({ bumpStop: stop })));
  expect(pushing.stop_known).toBe(true);
  expect(Math.max(...pushing.stop_n.map((force) => force ?? Number.NaN))).toBeGreaterThan(500);
  expect(pushing.total_n).not.toContain(null);
});

test('a corner whose metal meets before full droop is left no travel to draw', () => {
  const damper = { extended: 330, compressed: 325 };
  const state = cornerState(plainSite(), plainCorner({ damper, sleeve: { ledgeHeight: 260 } }));
  expect(forceCurveOf(state).height_mm).toEqual([]);
});
