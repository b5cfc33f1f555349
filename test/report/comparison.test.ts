import { expect, test } from 'vitest';
import { comparisonHtml } from '../../src/report/comparison.ts';
import { combination, result, setup } from './fixture.ts';
import { ownSets, planned } from './planFixture.ts';

const textOf = (html: string) =>
  html
    .replace(/<style[\s\S]*?<\/style>/g, '')
    .replace(/<[^>]*>/g, ' ')
    .replace(/\s+/g, ' ');

test('a stopped sweep and clearances that are not sure are told beside the best', async () => {
  const best = combination('low', 1);
  const tight = [{ contact: 'coil bind', clearance_mm: 6, worst_mm: -2.54, measure: 'the spring' }];
  const unsure = { ...best, axles: { ...best.axles, front: { ...best.axles.front, tight } } };
  const stopped = result({ incomplete: { judged: 5, of: 10 }, setups: [setup('low', { shortlist: [unsure] })] });
  const text = textOf(
    await comparisonHtml([
      { name: 'a', result: stopped },
      { name: 'b', result: result() },
    ]),
  );
  expect(text).toMatch(/Incomplete: [^.]+\. Its sweep was stopped after 5 of 10 combinations/);
  expect(text).toContain('tight front: coil bind, at worst \u22122.5 mm (\u22120.10 in)');
  expect(text.match(/incomplete/g)?.length).toBe(2);
});

test('whole sweeps say nothing of the kind', async () => {
  const whole = result({ setups: [setup('low')] });
  const text = textOf(await comparisonHtml([{ name: 'a', result: whole }]));
  expect(text).not.toMatch(/incomplete/i);
});

test('where one build serves several setups it is what is compared, under the plan’s id', async () => {
  const given = planned({ plans: [ownSets] });
  const text = textOf(await comparisonHtml([{ name: 'a', result: given }]));
  expect(text.match(/plan-0000002/g)).toHaveLength(4);
  const [, street] = given.setups;
  // The plan takes the seventh combination for street, whose own best is the first.
  const brought = given.plans?.combinations[0]?.combination;
  expect(brought?.id).not.toBe(street?.shortlist[0]?.id);
  expect(text).toContain(`street plan-0000002 front ${brought?.axles.front.parts.spring.name}`);
});
