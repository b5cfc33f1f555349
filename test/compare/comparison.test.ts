import { expect, test } from 'vitest';
import { comparisonHtml } from '../../src/compare/comparison.ts';
import type { Result } from '../../src/result/result.ts';
import { combination, result, setup } from '../report/fixture.ts';
import { ownSets, planned } from '../report/planFixture.ts';
import { TIGHT, textOf, withCorner } from './pages.ts';

const compare = async (...results: readonly Result[]) =>
  textOf(await comparisonHtml(results.map((given, k) => ({ name: 'ab'.charAt(k), result: given }))));

test('a stopped sweep and clearances that are not sure are named beside the best', async () => {
  const unsure = withCorner(combination('low', 1), 'front', { tight: TIGHT });
  const stopped = result({ incomplete: { judged: 5, of: 10 }, setups: [setup('low', { shortlist: [unsure] })] });
  const text = await compare(stopped, result());
  expect(text).toMatch(/Incomplete: [^.]+\. Its sweep was stopped after 5 of 10 combinations/);
  expect(text).toContain('tight front: coil bind, at worst \u22122.5 mm (\u22120.10 in)');
  expect(text.match(/incomplete/g)?.length).toBe(2);
});

test('whole sweeps say nothing of the kind', async () => {
  expect(await compare(result({ setups: [setup('low')] }))).not.toMatch(/incomplete/i);
});

test('where one build serves several setups it is what is compared, under the plan’s id', async () => {
  const given = planned({ plans: [ownSets] });
  const text = await compare(given);
  expect(text.match(/plan-0000002/g)).toHaveLength(4);
  const [, street] = given.setups;
  // The plan takes the seventh combination for street, whose own best is the first.
  const brought = given.plans?.combinations[0]?.combination;
  expect(brought?.id).not.toBe(street?.shortlist[0]?.id);
  expect(text).toContain(`street plan-0000002 front ${brought?.axles.front.parts.spring.name}`);
});
