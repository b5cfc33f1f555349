import { expect, test } from 'vitest';
import {
  CHECK_LABELS,
  CHECKS,
  CORNER_CHECKS,
  FAILING_LABELS,
  FAILINGS,
  worstFailing,
} from '../../src/domain/checks.ts';

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

test.each([
  ['coil_bind', 'coil_bind', -0.1, 'metal'],
  ['coil_bind', 'coil_bind', 0, 'margin'],
  ['damper_bottoms', 'damper', -2, 'metal'],
  ['sleeve_metal', 'sleeve_isolator', 3.9, 'margin'],
  ['body_metal', 'body_flange', -4, 'metal'],
  ['tyre_on_arch', 'tyre_arch', 7, 'margin'],
  ['fit', 'sleeve_over_body', -0.1, 'metal'],
  ['fit', 'spring_over_sleeve', 0.8, 'margin'],
  ['overstressed', 'full bump', 900, 'margin'],
  ['spring_loose', 'spigot engagement', 9, 'seat'],
  ['spring_loose', 'allowed slack', 3, 'wish'],
  ['unloaded_spring', 'standing', -20, 'seat'],
  ['bump_travel', 'design load', -4, 'wish'],
  ['droop_travel', 'two up', 20, 'wish'],
  ['perch_low', 'lowest', 140, 'wish'],
  ['perch_high', 'highest', 240, 'wish'],
  ['frequency', 'lowest', 1.1, 'wish'],
  ['balance', 'highest', 1.3, 'wish'],
] as const)('%s (%s) found at %d is a failing of the kind: %4$s', (check, detail, found, failing) => {
  expect(worstFailing([{ check, detail, found }])).toBe(failing);
});

test('every check has its kind of failing, and every kind a label', () => {
  for (const check of CHECKS) expect(FAILINGS).toContain(worstFailing([{ check, detail: '', found: 1 }]));
  expect(Object.keys(FAILING_LABELS)).toEqual([...FAILINGS]);
});

test('a build is counted by the worst it fails, whatever comes first, and by nothing where it works', () => {
  const missed = { check: 'frequency', detail: 'lowest', found: 1.1 } as const;
  const eaten = { check: 'tyre_on_arch', detail: 'tyre_arch', found: 2 } as const;
  const loose = { check: 'spring_loose', detail: 'spigot engagement', found: 9 } as const;
  const bound = { check: 'coil_bind', detail: 'coil_bind', found: -1 } as const;
  expect(worstFailing([missed, eaten])).toBe('margin');
  expect(worstFailing([loose, eaten, missed])).toBe('seat');
  expect(worstFailing([missed, loose, bound])).toBe('metal');
  expect(worstFailing([])).toBeNull();
});
