import { expect, test } from 'vitest';
import {
  deflectionUnder,
  forceAt,
  helperClosesFirst,
  kneeForce,
  rateUnder,
  type SpringStack,
  solidForce,
  springStack,
} from '../../src/model/stack.ts';
import { plainCorner, plainHelper } from '../setup/corners.ts';
import { between, forAny } from '../setup/random.ts';

const stack: SpringStack = {
  freeLength: 290,
  solidLength: 96,
  mainRate: 40,
  mainTravel: 144,
  helperRate: 4,
  helperTravel: 50,
};

test('two springs in series share the force: half the rate for equal ones', () => {
  expect(rateUnder({ ...stack, helperRate: 40 }, 10)).toBe(20);
  expect(deflectionUnder(stack, 100)).toBeCloseTo(100 / 40 + 100 / 4, 12);
});

test('a closed helper leaves the main spring alone: the rate jumps, the deflection has a knee', () => {
  expect(kneeForce(stack)).toBe(200);
  expect(rateUnder(stack, 199)).toBeCloseTo(1 / (1 / 40 + 1 / 4), 12);
  expect(rateUnder(stack, 200)).toBe(40);
  expect(deflectionUnder(stack, 1000)).toBe(1000 / 40 + 50);
});

test('a spring does not pull, and a solid stack is metal', () => {
  expect(deflectionUnder(stack, -5)).toBe(0);
  expect(forceAt(stack, -5)).toBe(0);
  expect(forceAt(stack, 194.001)).toBe(Number.POSITIVE_INFINITY);
  expect(deflectionUnder(stack, 1e9)).toBe(194);
  expect(solidForce(stack)).toBe(40 * 144);
});

test('force and deflection undo each other on every open stack, whichever spring closes first', () => {
  forAny(
    [between(5, 100), between(20, 200), between(0.5, 100), between(5, 80), between(0.001, 0.999)],
    (k, m, kh, h, share) => {
      const any = {
        freeLength: m + h + 90,
        solidLength: 90,
        mainRate: k,
        mainTravel: m,
        helperRate: kh,
        helperTravel: h,
      };
      const x = share * (m + h);
      expect(deflectionUnder(any, forceAt(any, x))).toBeCloseTo(x, 7);
    },
  );
});

test('a helper closes first unless its travel takes more force than the main spring’s; both at once counts as first', () => {
  // 40 N/mm over 144 mm are 5760 N.
  expect(helperClosesFirst(stack)).toBe(true);
  expect(helperClosesFirst({ ...stack, helperRate: 57.6, helperTravel: 100 })).toBe(true);
  expect(helperClosesFirst({ ...stack, helperRate: 57.7, helperTravel: 100 })).toBe(false);
  expect(helperClosesFirst({ ...stack, helperRate: 0, helperTravel: 0 })).toBe(true);
});

test('helper and coupler count in free and in solid length', () => {
  const { spring } = plainCorner();
  const helper = plainHelper;
  expect(springStack(spring, helper)).toMatchObject({ freeLength: 220 + 54, solidLength: 76 + 16, helperTravel: 38 });
  expect(springStack(spring, null)).toMatchObject({ freeLength: 220, solidLength: 76, helperTravel: 0 });
});

test('a main spring alone keeps its rate when the load pulls', () => {
  expect(rateUnder({ ...stack, helperRate: 0, helperTravel: 0 }, -10)).toBe(40);
});
