/** What a spring's wire says: against published worked problems and the definitions. */

import { describe, expect, test } from 'vitest';
import { springDetails, strengthFit, VALIDITY } from '../../../src/model/spring/details.ts';
import { resolveSpring, type SpringGiven } from '../../../src/model/spring/spring.ts';

const GIVEN: SpringGiven = {
  ...{ name: 'S', price: null, freeLength: 162.8, rate: 1.314, bore: 26, solidHeight: null, wire: 2.5 },
  ...{ totalCoils: 14, ends: 'plain_ground', coating: 0 },
  estimate: { material: 'music_wire', grade: null, shearModulus: null, thinStressShare: 0.56, thickStressShare: 0.45 },
};

function detailsOf(change: Partial<SpringGiven>) {
  const details = springDetails(resolveSpring({ ...GIVEN, ...change }));
  if (details === null) throw new Error('no details');
  return details;
}

/** Shigley’s Mechanical Engineering Design, 10th/11th ed., Problem 10-3: d 2.5 mm, D 28.5 mm, 14 coils, plain and ground. */
describe('the spring of Shigley’s Problem 10-3', () => {
  test('has the index 11.4, the strength 1936 MPa and the stress 871.2 MPa at solid', () => {
    const details = detailsOf({});
    expect(details.index).toBeCloseTo(11.4, 9);
    expect(details.tensileStrength).toBeCloseTo(1936, 0);
    expect(Math.abs(details.correctedStressAtSolid / 871.2 - 1)).toBeLessThan(0.001);
    expect(details.rateFromGeometry).toBeCloseTo(1.314, 3);
  });

  test('needs support: it buckles before it is solid', () => {
    const details = detailsOf({});
    expect(details.criticalDeflection.flat).toBeLessThan(162.8 - 35);
    expect(detailsOf({ freeLength: 140 }).criticalDeflection.flat).toBe(Number.POSITIVE_INFINITY);
  });

  test('is slenderer and buckles sooner where a seat can tilt: 0.7 of its length counts instead of 0.5', () => {
    const details = detailsOf({});
    expect(details.slenderness).toEqual({
      flat: expect.closeTo((0.5 * 162.8) / 28.5, 9),
      tilting: expect.closeTo((0.7 * 162.8) / 28.5, 9),
    });
    expect(details.criticalDeflection.tilting).toBeLessThan(details.criticalDeflection.flat);
    // 0.7 x 140 mm is the counted length of a flat-seated spring of 196 mm: the same share of either's length buckles it.
    const tilting = detailsOf({ freeLength: 140 }).criticalDeflection.tilting / 140;
    expect(tilting).toBeCloseTo(detailsOf({ freeLength: 196 }).criticalDeflection.flat / 196, 9);
  });

  test('moves over the share of its length that is not solid', () => {
    expect(detailsOf({}).workingShare).toBeCloseTo((162.8 - 35) / 162.8, 12);
    expect(detailsOf({}).estimated).toBe(false);
    expect(detailsOf({}).breaches).toEqual([]);
  });
});

test('the surge frequency counts the active coils, the mass all of them', () => {
  const details = detailsOf({ ends: 'closed_ground', totalCoils: 14 });
  const perCoil = details.mass / 14;
  expect(details.surgeFrequency).toBeCloseTo(0.5 * Math.sqrt((1000 * 1.314) / (12 * perCoil)), 9);
});

test('a spring without wire has no details', () => {
  expect(springDetails({ ...resolveSpring(GIVEN), wire: null })).toBeNull();
});

test('wire beyond the diameters its strength was fitted to is flagged with that range', () => {
  const estimate = { ...GIVEN.estimate, material: 'chrome_silicon', materialGiven: true };
  const details = detailsOf({
    wire: 11,
    bore: 62,
    totalCoils: 9,
    rate: 50,
    freeLength: 220,
    ends: 'closed_ground',
    estimate,
  });
  expect(details.breaches.map((b) => [b.row.id, b.value])).toEqual([['strength_fit', 11]]);
  expect(strengthFit('chrome_silicon')).toMatchObject({ from: 1.6, to: 9.5 });
});

test('an index, a length and coils outside EN 15800’s scope are flagged', () => {
  const details = detailsOf({
    wire: 2.4,
    bore: 60,
    rate: 0.2,
    freeLength: 650,
    totalCoils: 3.5,
    ends: 'closed_ground',
  });
  expect(details.breaches.map((b) => b.row.id)).toEqual(['index', 'free_length', 'active_coils']);
});

test('every row of the scope says what it bounds, on at least one side, and who says so', () => {
  for (const row of VALIDITY) {
    expect(row.from !== null || row.to !== null).toBe(true);
    expect(row.source).toMatch(/EN 15800/);
  }
});
