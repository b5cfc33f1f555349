import { expect, test } from 'vitest';
import { CHECK_LABELS, CHECKS, CORNER_CHECKS } from '../../src/domain/checks.ts';

test('a corner alone is held to every check but the balance of the pair, in the same order', () => {
  expect(CORNER_CHECKS).not.toContain('balance');
  expect([...CORNER_CHECKS, 'balance'].sort()).toEqual([...CHECKS].sort());
  const places = CORNER_CHECKS.map((name) => CHECKS.indexOf(name));
  expect(places).toEqual(places.toSorted((a, b) => a - b));
});

test('every check has a name of its own', () => {
  const labels = CHECKS.map((name) => CHECK_LABELS[name]);
  expect(new Set(labels).size).toBe(CHECKS.length);
});
