import { expect, test } from 'vitest';
import { distanceOf } from '../../../src/domain/advice/closeness.ts';
import type { Finding } from '../../../src/domain/corner/findings.ts';

const lack = (check: Finding['check'], shortfall: number): Finding => {
  return { check, detail: '', found: 0, needed: shortfall, shortfall };
};

test('each shortfall counts in the scale of its unit, and they add up', () => {
  expect(distanceOf([])).toBe(0);
  expect(distanceOf([lack('coil_bind', 5)])).toBe(0.5);
  expect(distanceOf([lack('unloaded_spring', 50), lack('overstressed', 25)])).toBe(1);
  expect(distanceOf([lack('frequency', 0.2)])).toBe(2);
});

test('what no amount would make up is further than any amount', () => {
  expect(distanceOf([lack('frequency', Number.NaN)])).toBe(1000);
  expect(distanceOf([lack('coil_bind', Number.POSITIVE_INFINITY)])).toBe(1000);
});
