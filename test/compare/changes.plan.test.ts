import { expect, test } from 'vitest';
import { planChangeView } from '../../src/compare/changes.ts';
import type { PlansResult, Result } from '../../src/result/result.ts';
import { result, setup } from '../report/fixture.ts';
import { oneSet, ownSets, planned } from '../report/planFixture.ts';

const NO_PLAN: Partial<PlansResult> = { plans: [] };
const without = result({ setups: [setup('low'), setup('street')] });
const other = planned({ plans: [{ ...oneSet, id: 'plan-0000009', score: 0.45 }] });

test('without plans there is nothing to compare', () => {
  expect(planChangeView(without, without)).toBeNull();
});

test.each<[verdict: string, before: Result, after: Result]>([
  ['Only the second report looked for one build for all setups.', without, planned()],
  ['Only the first report looked for one build for all setups.', planned(), without],
  ['No one build works in every setup, before and after.', planned(NO_PLAN), planned(NO_PLAN)],
  ['Before, no one build worked in every setup; now one does.', planned(NO_PLAN), planned()],
  ['Before, one build worked in every setup; now none does.', planned(), planned(NO_PLAN)],
  ['The same springs win.', planned(), other],
])('%s', (verdict, before, after) => {
  expect(planChangeView(before, after)?.verdict).toBe(verdict);
});

test('the springs of each setup stand side by side, and what the plan costs', () => {
  const view = planChangeView(planned(NO_PLAN), planned());
  expect(view?.rows[0]).toEqual({ label: 'plan', before: 'none', after: oneSet.id });
  expect(view?.rows.slice(1).map(({ label, before }) => [label, before])).toEqual([
    ['springs, setup low', 'none'],
    ['springs, setup street', 'none'],
  ]);
  const dearer = planChangeView(planned(), planned({ plans: [ownSets] }));
  expect(dearer?.amounts.map(({ label }) => label)).toEqual([
    'score (0 to 1)',
    'price of all parts',
    'of it springs and helpers',
  ]);
  expect(dearer?.rows[0]?.after).toBe(ownSets.id);
});
