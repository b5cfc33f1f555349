/** A sweep that is ranked by what is expected of builds measured before they are cut, from scenario to every page. */
import { beforeAll, expect, test } from 'vitest';
import type { Scenario } from '../../src/model/scenario.ts';
import { sift } from '../../src/pipeline.ts';
import { plansCsv, shortlistCsv } from '../../src/report/files/csv.ts';
import { purchaseMarkdown } from '../../src/report/files/purchase.ts';
import { sweepSummary } from '../../src/report/files/summary.ts';
import { reportHtml } from '../../src/report/html.ts';
import type { SetupAdvice } from '../../src/result/advice.ts';
import type { Result } from '../../src/result/result.ts';
import { scenarioOf } from '../advice/scenarios.ts';
import { smallScenario } from '../advice/small.ts';

let result: Result;
beforeAll(async () => {
  const small = await smallScenario('hill-hatch', 2);
  const { setups } = await scenarioOf('hill-hatch');
  const scenario: Scenario = { ...small, setups, ranking: { ...small.ranking, keep: 2 } };
  result = await sift({ scenario, files: [] }, 'test', undefined, { rankBy: 'expected' });
}, 120_000);

const adviceOf = (name: string) => result.setups.find((setup) => setup.name === name)?.advice as SetupAdvice;

test('each purchase carries both builds, in the order of what is expected of them, measured first', () => {
  for (const { advice, shortlist } of result.setups) {
    const { purchases, ranked_by, considered } = advice as SetupAdvice;
    expect(ranked_by).toBe('expected');
    expect(considered?.front.built).toBe(considered?.front.of);
    const scores = purchases.map(({ expected }) => expected?.measured_first.expected_score as number);
    expect(scores).toEqual(scores.toSorted((a, b) => b - a));
    expect(purchases.map(({ id }) => id)).toEqual(shortlist.map(({ id }) => id));
    // The cars are those of the random builds: as planned they are the same builds.
    for (const { share, fails, expected } of purchases) expect(expected?.as_planned).toMatchObject({ share, fails });
  }
});

test('the plan that is bought is told without: each setup would cut by itself what the plan cuts once', () => {
  const shares = result.plans?.purchase?.setups ?? [];
  expect(shares).toHaveLength(2);
  for (const share of shares) expect(share).not.toHaveProperty('expected');
});

test('terminal, tables, purchase and page tell what is expected', async () => {
  const [low] = adviceOf('low').purchases;
  const expected = low?.expected?.measured_first.expected_score ?? Number.NaN;
  const score = expected.toFixed(3);
  // Without a plan the setup's own best is the answer.
  const { plans: _, ...alone } = result;
  expect(sweepSummary(alone)).toMatch(/expected {2}.*of 100 builds work/);
  expect(sweepSummary(result)).not.toMatch(/expected {2}/);
  const [header, first] = shortlistCsv(result).split('\n') as [string, string];
  const place = header.split(',').indexOf('measured_first_expected_score');
  expect(Number(first.split(',')[place])).toBe(expected);
  expect(plansCsv(result)).not.toContain('measured_first');
  const markdown = purchaseMarkdown(result);
  expect(markdown).toContain('works, measured first | expected score');
  expect(markdown).toContain(`| ${score} |`);
  expect(markdown).toMatch(/Sought among all \d+ front and \d+ rear purchases/);
  const page = await reportHtml(result);
  expect(page).toContain('Measured first: lengths');
  expect(page).toContain(`<td class="n">${score}</td>`);
});
