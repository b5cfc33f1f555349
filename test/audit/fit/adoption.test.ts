import { expect, test } from 'vitest';
import { type AxleAdoption, adoptionOf, digitsFor, findUnsettled, siteTaken } from '../../../src/audit/fit/adoption.ts';
import type { AuditedUnit } from '../../../src/audit/fit/audit.ts';
import { combinationCount, cornerAt, digitsOf, indexOf } from '../../../src/model/corner/options.ts';
import type { Axle } from '../../../src/model/scenario.ts';
import { plainCorner, plainSite } from '../../setup/corners.ts';
import { realScenario, SCENARIOS } from '../../setup/scenarios.ts';

test('digits, index and parts of a combination lead to each other, for every kind of part', async () => {
  for (const name of SCENARIOS) {
    const {
      front: { options },
    } = (await realScenario(name)).axles;
    const count = combinationCount(options);
    for (let k = 0; k < 60; k++) {
      const index = Math.floor((k * count) / 60);
      const digits = digitsOf(options, index);
      expect(indexOf(options, digits)).toBe(index);
      expect(cornerAt(options, indexOf(options, digitsFor(options, cornerAt(options, index))))).toEqual(
        cornerAt(options, index),
      );
    }
  }
});

test('a part that is not among the options has no digit', async () => {
  const {
    front: { options },
  } = (await realScenario('hill-hatch')).axles;
  const corner = cornerAt(options, 0);
  const other = { ...corner, spring: { ...corner.spring, freeLength: corner.spring.freeLength + 1 } };
  expect(digitsFor(options, other).spring).toBe(-1);
  expect(digitsFor(options, other).sleeve).toBe(0);
});

test('what is only off is settled by saving it; anything built or measured wrong, or unexplained, is not', () => {
  const unit = (likeliest: object) => ({ likeliest }) as unknown as AuditedUnit;
  const named = (kind: string) => unit({ verdict: 'cause', named: { cause: { kind } } });
  const open = [named('stop_uncut'), unit({ verdict: 'several' }), unit({ verdict: 'unexplained' })];
  expect(findUnsettled([unit({ verdict: 'consistent' }), named('stop_length_off'), ...open])).toEqual(open);
});

test('a side that was not weighed keeps its load; one load for both moves both by as much', () => {
  const given = { site: plainSite(), corner: plainCorner() };
  const unit = (side: 'left' | 'right' | null, to: number) => {
    const corrections = [{ parameter: 'wheel_load', from: 268, to, basis: 'measured', by: 'wheel_load' }];
    return { unit: { axle: 'front', side }, given, corrected: { corrections } } as unknown as AuditedUnit;
  };
  const loadOf = (...units: AuditedUnit[]) =>
    adoptionOf('front', units, {} as Parameters<typeof adoptionOf>[2], { left: 270, right: 266 })?.wheelLoad;
  expect(loadOf(unit('left', 280))).toEqual({ left: 280, right: 266 });
  expect(loadOf(unit('right', 270))).toBe(270);
  expect(loadOf(unit('left', 280), unit('right', 275))).toEqual({ left: 280, right: 275 });
  // 268 was given, 272 found: 4 kg more on either side.
  expect(loadOf(unit(null, 272))).toEqual({ left: 274, right: 270 });
  expect(
    adoptionOf('rear', [unit(null, 272)], {} as Parameters<typeof adoptionOf>[2], { left: 1, right: 1 }),
  ).toBeNull();
});

test('an axle is taken over where loads and motion are as they were, but for what is adopted', () => {
  const pairs = [275, 335].map((hubToArch) => ({ hubToArch, damperLength: hubToArch + 75, raise: 12 }));
  const before = { wheelLoad: 268, wheelLoads: null, motion: { pairs, ratio: null } } as unknown as Axle;
  const moved = (by: number): Axle => {
    const longer = pairs.map((pair) => ({ ...pair, damperLength: pair.damperLength + by }));
    return { ...before, motion: { ...before.motion, pairs: longer } };
  };
  const adopting = (wheelLoad: AxleAdoption['wheelLoad'], motion_offset?: number) =>
    ({ wheelLoad, changed: motion_offset === undefined ? {} : { motion_offset } }) as AxleAdoption;
  const sides = { left: 270, right: 266 };
  expect(siteTaken(before, before, null)).toBe(true);
  expect(siteTaken(before, { ...before, wheelLoad: 272 }, null)).toBe(false);
  expect(siteTaken(before, { ...before, wheelLoad: 272 }, adopting(272))).toBe(true);
  expect(siteTaken(before, before, adopting(272))).toBe(false);
  expect(siteTaken(before, { ...before, wheelLoads: sides }, adopting(sides))).toBe(true);
  expect(siteTaken(before, { ...before, wheelLoads: sides }, null)).toBe(false);
  // Loads of both sides stay, too, unless others are adopted.
  const sided = { ...before, wheelLoads: sides };
  expect(siteTaken(sided, sided, null)).toBe(true);
  expect(siteTaken(sided, sided, adopting({ left: 280, right: 266 }))).toBe(false);
  expect(siteTaken(before, moved(4), adopting(null, 4))).toBe(true);
  expect(siteTaken(before, moved(4), null)).toBe(false);
  expect(siteTaken(before, moved(-4), adopting(null, 4))).toBe(false);
  expect(siteTaken(before, moved(4 + 1e-7), adopting(null, 4))).toBe(true);
  expect(siteTaken(before, moved(4 - 1e-3), adopting(null, 4))).toBe(false);
  expect(siteTaken(before, moved(4 + 1e-3), adopting(null, 4))).toBe(false);
  expect(siteTaken(before, { ...before, motion: { ...before.motion, ratio: 0.9 } }, null)).toBe(false);
});

test('only what was corrected is adopted, of both sides the mean', () => {
  const given = { site: plainSite(), corner: plainCorner() };
  const unit = (side: 'left' | 'right', ...corrections: readonly (readonly [string, number])[]) => {
    const list = corrections.map(([parameter, to]) => ({ parameter, from: 0, to, basis: 'measured', by: 'rate' }));
    return { unit: { axle: 'front', side }, given, corrected: { corrections: list } } as unknown as AuditedUnit;
  };
  const digits = {} as Parameters<typeof adoptionOf>[2];
  const adopted = (...units: AuditedUnit[]) => adoptionOf('front', units, digits, { left: 270, right: 266 });
  expect(adopted(unit('left'))).toMatchObject({ changed: {}, wheelLoad: null, corner: given.corner });
  // The last correction of a number counts; a side that was not measured is as given: 38 N/mm.
  const one = adopted(unit('left', ['rate', 40], ['rate', 42]), unit('right', ['free_length', 216]));
  expect(one?.changed).toEqual({ free_length: 218, rate: 40 });
  expect(one?.corner.spring).toMatchObject({ freeLength: 218, rate: 40 });
  expect(adopted(unit('left', ['wheel_load', 280]))).toMatchObject({
    changed: {},
    wheelLoad: { left: 280, right: 266 },
  });
});
