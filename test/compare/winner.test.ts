import { expect, test } from 'vitest';
import { winnerView } from '../../src/compare/winner.ts';
import type { Combination } from '../../src/result/result.ts';
import { combination, setup } from '../report/fixture.ts';
import { withCorner } from './pages.ts';

const best = combination('low', 1);
const side = (combination: Combination) => ({
  setup: setup('low'),
  answer: { setup: setup('low'), combination, plan: null, builds: null },
});
const works = side(best);
const fails = side({ ...best, workable: false });
const none = { setup: setup('low', { shortlist: [] }), answer: null };

test.each([
  ['The same parts and cuts win.', works, works],
  ['It worked, and does not any more. The same parts and cuts win.', works, fails],
  ['It did not work, and does now. The same parts and cuts win.', fails, works],
  ['It does not work, before and after. The same parts and cuts win.', fails, fails],
  ['Before, nothing worked; now something does.', none, works],
  ['Before, something worked; now nothing does.', works, none],
  ['Nothing works, before and after.', none, none],
])('%s', (verdict, before, after) => {
  expect(winnerView(before, after).verdict).toBe(verdict);
});

test('the least clearance with every tolerance against it is the worst of all clearances; without bands there is none', () => {
  const bands = {
    clearance_coil_bind_mm: { worst_low: 3 },
    clearance_body_mm: { worst_low: 1.5 },
    slack_mm: { worst_low: -9 },
  };
  const withBands = (own: object) => side(withCorner(best, 'front', { bands: own as never }));
  const [front] = winnerView(withBands(bands), withBands({})).axles;
  const row = front?.rows.at(-1);
  expect(row?.label).toBe('least clearance, every tolerance against it');
  expect(JSON.stringify(row)).toContain('1.5');
});
