/** Rates and frequencies by hand: a straight motion of ratio 0.945, so that the slope of the ratio is 0. */

import { all, create, type FactoryFunctionMap } from 'mathjs';
import { describe, expect, test } from 'vitest';
import { heightOn, standingAt } from '../../../src/model/corner/balance.ts';
import { findingsOf } from '../../../src/model/corner/findings.ts';
import { geometryOf } from '../../../src/model/corner/geometry.ts';
import { fixedRates, gasRateAt, judgedFrequencyOf, ratesAt, wheelRate } from '../../../src/model/corner/rates.ts';
import { cornerState } from '../../../src/model/corner/state.ts';
import { heightWindow } from '../../../src/model/corner/window.ts';
import { cornerQuantities } from '../../../src/result/quantities/corner.ts';
import { valuesOf } from '../../../src/result/quantities/quantity.ts';
import { workingOf } from '../../../src/result/records/combination.ts';
import {
  type CornerChange,
  plainCharge,
  plainCorner,
  plainSite,
  type SiteChange,
  stopCurve,
  straightMotion,
} from '../../setup/corners.ts';

const RATIO = 0.945;
const motion = straightMotion;
const { damper } = plainCorner();
const charged = { gas: plainCharge };
const noGas = { gas: { kind: 'none' as const } };

function ratesOf(change: CornerChange, more: SiteChange = {}, height = 332) {
  const site = plainSite({ motion, ...more });
  const corner = plainCorner({ damper: noGas, ...change });
  const geometry = geometryOf(site, corner);
  const standing = standingAt(site, corner, geometry, height, site.sprungLoad);
  return { ...ratesAt(site, corner, geometry, standing, site.sprungMass), standing, site, corner, geometry };
}
const hertz = (rate: number, mass: number) => Math.sqrt((1000 * rate) / mass) / (2 * Math.PI);

test('a spring alone: its rate times the ratio squared at the wheel, the tyre in series on the ride', () => {
  const rates = ratesOf({});
  const wheel = 38 * RATIO ** 2;
  const ride = 1 / (1 / wheel + 1 / 190);
  expect(rates).toMatchObject({ stack: 38, stop: 0, gas: 0, damper: 38, ratioSlope: 0 });
  expect(rates.wheel).toBeCloseTo(wheel, 12);
  expect(rates.ride).toBeCloseTo(ride, 12);
  expect(rates.bodyFrequency).toBeCloseTo(hertz(wheel, 237), 12);
  expect(rates.rideFrequency).toBeCloseTo(hertz(ride, 237), 12);
});

test('spring, gas and a stop that is squeezed act side by side', () => {
  // The stop of 60 mm is met at 318 + 60 = 378 mm; at 300 mm the damper is 409.5 - 35 x 0.945 = 376.4 long.
  const stop = { length: 60, curve: stopCurve };
  const rates = ratesOf({ damper, bumpStop: stop }, {}, 300);
  const gas = (215 - 160) / (474 - 320);
  expect(rates.stack).toBe(38);
  // The curve begins with 250 N over 10 mm, measured on a stop as long as this one.
  expect(rates.stop).toBe(25);
  expect(rates.gas).toBeCloseTo(gas, 12);
  expect(rates.damper).toBeCloseTo(38 + 25 + gas, 12);
  expect(rates.wheel).toBeCloseTo((38 + 25 + gas) * RATIO ** 2, 12);
});

test('twisted bushes add their rate at the wheel', () => {
  const rates = ratesOf({}, { bushes: { rate: 6, unloadedHeight: 332 } });
  expect(rates.wheel).toBeCloseTo(38 * RATIO ** 2 + 6, 12);
});

test('a ratio that grows with droop takes the axial force times its slope off the wheel rate', () => {
  // dl/dH = 0.945 - 2e-4 (H - 335): the ratio falls with droop, by 2e-4 a mm, which stiffens the wheel.
  const curved = ratesOf({}, { motion: plainSite().motion });
  const { axialForce, motionRatio } = curved.standing;
  expect(curved.ratioSlope).toBeCloseTo(-2e-4, 12);
  expect(curved.wheel).toBeCloseTo(38 * motionRatio ** 2 + 2e-4 * axialForce, 9);
  expect(wheelRate(curved.site, curved.standing, 38, 2e-4)).toBeCloseTo(38 * motionRatio ** 2 - 2e-4 * axialForce, 9);
});

test('a spring that carries nothing has no rate, and a corner without any rate no frequency', () => {
  // 237 kg put 2459 N on the damper; a push of 3000 N carries them all.
  const gas = { kind: 'linear', outForce: 3000, inForce: 3000 } as const;
  const rates = ratesOf({ damper: { gas } });
  expect(rates).toMatchObject({ stack: 0, gas: 0, wheel: 0 });
  expect(rates.bodyFrequency).toBeNaN();
});

describe('the gas of a damper', () => {
  test('none has no rate; two pushes make a slope over the stroke, one alone none', () => {
    expect(gasRateAt({ ...damper, ...noGas }, 400, 'vibrating')).toBe(0);
    expect(gasRateAt(damper, 400, 'vibrating')).toBeCloseTo(55 / 154, 12);
    expect(gasRateAt({ ...damper, gas: { kind: 'linear', outForce: 160, inForce: null } }, 400, 'vibrating')).toBe(0);
  });

  test('a charge swings by p V^1.3 about the pressure at which it has settled, and by p V where it may settle again', () => {
    // p V = const down to the stroke at rest, then p V^n from there; the slope by central differences, 64 digits of mathjs.
    const math = create(all as FactoryFunctionMap, { number: 'BigNumber', precision: 64 });
    const slope = (stroke: number, n: number) =>
      Number(
        math
          .evaluate(
            [
              `V = 110000 - 150 * ${stroke}`,
              'settled = 1.101325 * 110000 / V',
              `force(u) = 150 * (settled * (V / (V - 150 * u)) ^ ${n} - 0.101325)`,
              'h = 1e-12',
              '(force(h) - force(-h)) / (2 * h)',
            ].join(';'),
          )
          .entries.at(-1),
      );
    for (const stroke of [0, 74, 150]) {
      expect(gasRateAt({ ...damper, ...charged }, 474 - stroke, 'vibrating')).toBeCloseTo(slope(stroke, 1.3), 12);
      expect(gasRateAt({ ...damper, ...charged }, 474 - stroke, 'settled')).toBeCloseTo(slope(stroke, 1), 12);
    }
  });

  test('what is slow goes by the settled gas: the collar lifts the car as its own balance says', () => {
    const found = ratesOf({ damper: charged });
    const { site, corner, geometry, standing } = found;
    const height = (perch: number) => heightOn(site, corner, geometry, site.sprungLoad, perch);
    const perMm = (height(standing.perch + 0.01) - height(standing.perch - 0.01)) / 0.02;
    const values = valuesOf(cornerQuantities([]), workingOf(site, corner));
    expect(values.height_per_perch).toBeCloseTo(perMm, 6);
    expect((38 * RATIO) / found.settledWheel).toBeCloseTo(perMm, 6);
    expect(found.settledWheel).toBeLessThan(found.wheel);
  });

  test('a height that only warm gas would hold is not stable', () => {
    // The ratio grows so fast that the spring alone would not hold: vibrating gas makes up for it, settled gas does not.
    const { gas, settledGas, standing } = ratesOf({ damper: charged }, {}, 335);
    const slope = (38 + (gas + settledGas) / 2) * (RATIO ** 2 / standing.axialForce);
    const steep = {
      ...motion,
      heights: [300, 370],
      bases: [364.425, 430.575],
      slopes: [RATIO, RATIO],
      ratioSlope: slope,
    };
    const target = { targetHeight: motion.middle };
    const state = cornerState(plainSite({ motion: steep, target }), plainCorner({ damper: charged }));
    expect(state.rates.wheel).toBeGreaterThan(0);
    expect(state.rates.settledWheel).toBeLessThan(0);
    expect(findingsOf(state).map((f) => f.detail)).toContain('unstable');
    expect(heightWindow(state)).toBeNull();
  });
});

test('what no spring changes is told apart from what it does', () => {
  const { site, corner, geometry, standing } = ratesOf({ damper });
  expect(fixedRates(site, corner, geometry, standing)).toEqual({
    stop: 0,
    gas: 55 / 154,
    settledGas: 55 / 154,
    ratioSlope: 0,
  });
});

test('the frequency that is judged is the body’s own or that on its tyre, as the setup says', () => {
  const frequency = (frequencyBasis: 'body' | 'ride') => judgedFrequencyOf(plainSite({ frequencyBasis }), 40, 237);
  expect(frequency('body')).toBeCloseTo(hertz(40, 237), 12);
  expect(frequency('ride')).toBeCloseTo(hertz((40 * 190) / 230, 237), 12);
  expect(judgedFrequencyOf(plainSite(), -1, 237)).toBeNaN();
});
