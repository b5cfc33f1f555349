import { parse } from 'csv-parse/sync';
import { expect, test } from 'vitest';
import { plansCsv } from '../../../src/report/files/csv.ts';
import { result } from '../fixture.ts';
import { planned } from '../planFixture.ts';

const read = (text: string): Record<string, string>[] => parse(text, { columns: true, record_delimiter: '\r\n' });

test('one row a plan and setup: plans by rank, then one set, own sets, and each setup alone', () => {
  const rows = read(plansCsv(planned()));
  expect(rows.map((row) => [row.kind, row.plan_rank, row.plan_id, row.setup].join(' '))).toEqual([
    'plan 1 plan-0000001 low',
    'plan 1 plan-0000001 street',
    'plan 2 plan-0000003 low',
    'plan 2 plan-0000003 street',
    'one set  plan-0000001 low',
    'one set  plan-0000001 street',
    'own sets  plan-0000002 low',
    'own sets  plan-0000002 street',
    'alone   low',
  ]);
});

test('a row carries score, price, criteria and the numbers of both axles', () => {
  const row = read(plansCsv(planned())).find(({ kind, setup }) => kind === 'own sets' && setup === 'street');
  expect(row).toMatchObject({
    plan_score: '0.6',
    plan_price: '1100.5',
    plan_springs_price: '600.5',
    id: 'street-F4F7-R2K7-7Q',
    desirability_bump_travel_front: '0.74',
    front_perch_mm: '207.31',
    rear_sleeve_chosen_trim_mm: '0',
  });
});

test('without plans there is a header alone', () => {
  expect(plansCsv(result())).toBe('kind,plan_rank,plan_id,plan_score,plan_price,plan_springs_price,setup,id,score\r\n');
});
