import { expect, test } from 'vitest';
import { distanceOf } from '../../src/advice/trials.ts';
import type { Finding } from '../../src/model/corner/findings.ts';

const lack = (check: Finding['check'], shortfall: number): Finding => {
  return { check, detail: '', found: 0, needed: shortfall, shortfall };
};

test.each<[claim: string, distance: number, ...findings: Finding[]]>([
  ['each shortfall counts in the scale of its unit, and they add up: none', 0],
  ['millimetres', 0.5, lack('coil_bind', 5)],
  ['newtons and megapascals', 1, lack('unloaded_spring', 50), lack('overstressed', 25)],
  ['hertz', 2, lack('frequency', 0.2)],
  ['what no amount would make up is further than any amount', 1000, lack('frequency', Number.NaN)],
  ['an infinite lack too', 1000, lack('coil_bind', Number.POSITIVE_INFINITY)],
])('%s', (_, distance, ...findings) => {
  expect(distanceOf(findings)).toBe(distance);
});
