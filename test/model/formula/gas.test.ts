/** The gas law held against its own work and slope, and against pressures at both ends. */
import { expect, test } from 'vitest';
import { gasForceCharge, gasForceLinear, gasRate, pressureAtTemperature } from '../../../src/model/formula/gas.ts';
import { between, forAny } from '../../setup/random.ts';

const AREA = 154;
const VOLUME = 100_000;
const ATMOSPHERE = 0.101325;
const charge = between(0.1, 4);
const stroke = between(0, 250);
const exponent = between(1, 1.4);

test('fully out the force is gauge pressure times rod area', () => {
  forAny([charge, exponent], (p, n) => {
    expect(gasForceCharge(p, AREA, VOLUME, 0, n)).toBeCloseTo(p * AREA, 9);
  });
});

test('p V^n of the absolute pressure stays what it was at every stroke', () => {
  forAny([charge, stroke, exponent], (p, s, n) => {
    const absolute = gasForceCharge(p, AREA, VOLUME, s, n) / AREA + ATMOSPHERE;
    const kept = absolute * (VOLUME - AREA * s) ** n;
    expect(kept / ((p + ATMOSPHERE) * VOLUME ** n)).toBeCloseTo(1, 12);
  });
});

test('the rate is the slope of the force about the pressure at which the gas has settled', () => {
  forAny([charge, stroke, exponent], (p, s, n) => {
    // Settled at the stroke with n = 1, that pressure and what is left of the volume are the charge it swings about.
    const settled = gasForceCharge(p, AREA, VOLUME, s, 1) / AREA;
    const left = VOLUME - AREA * s;
    const step = 1e-3;
    const rise = gasForceCharge(settled, AREA, left, step, n) - gasForceCharge(settled, AREA, left, -step, n);
    expect(rise / (2 * step) / gasRate(p, AREA, VOLUME, s, n)).toBeCloseTo(1, 5);
  });
});

test('where the rod would fill the gas, force and rate are infinite', () => {
  for (const s of [VOLUME / AREA, 2 * (VOLUME / AREA)]) {
    expect(gasForceCharge(1, AREA, VOLUME, s, 1.3)).toBe(Number.POSITIVE_INFINITY);
    expect(gasRate(1, AREA, VOLUME, s, 1.3)).toBe(Number.POSITIVE_INFINITY);
  }
});

test('two measured forces are met at both ends and in the middle', () => {
  expect([0, 60, 120].map((s) => gasForceLinear(200, 260, 120, s))).toEqual([200, 230, 260]);
});

test('a charge read in the cold pushes harder in the warm, as its absolute pressure goes with absolute temperature', () => {
  // 9.9 bar gauge and 1.01325 bar of air at 0 degC are 273.15 K; at 27.315 degC all of it is a tenth more.
  expect(pressureAtTemperature(0.99, 0, 27.315)).toBeCloseTo(1.1 * (0.99 + ATMOSPHERE) - ATMOSPHERE, 12);
  expect(pressureAtTemperature(0.99, 35, 35)).toBeCloseTo(0.99, 12);
});
