import { expect, test } from 'vitest';
import { adoptionOf, digitsFor, digitsOf, indexOf, unsettled } from '../../../src/domain/audit/adoption.ts';
import type { AuditedUnit } from '../../../src/domain/audit/audit.ts';
import { combinationCount, cornerAt } from '../../../src/sweep/options.ts';
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
  expect(unsettled([unit({ verdict: 'consistent' }), named('stop_length_off'), ...open])).toEqual(open);
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
