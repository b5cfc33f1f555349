import { expect, test } from 'vitest';
import { digitsFor, digitsOf, indexOf } from '../../../src/domain/audit/adoption.ts';
import { combinationCount, cornerAt } from '../../../src/sweep/options.ts';
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
