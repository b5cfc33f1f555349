import { expect, test } from 'vitest';
import { orderFor } from '../../src/advice/order.ts';
import { plainCorner } from '../setup/corners.ts';
import { sweptScenario } from '../setup/scenarios.ts';

/** Whole scenarios are swept. */

const priced = plainCorner();
const front = { ...priced, spring: { ...priced.spring, price: 70 }, perch: { ...priced.perch, price: 18 } };
const rear = { ...front, spring: { ...front.spring, name: 'other spring', rate: 52 } };

test('a part of both axles is ordered four times, one of one axle twice, and prices add up', () => {
  const { lines, total } = orderFor([{ front, rear }]);
  const of = (name: string) => lines.find((line) => line.part === name);
  expect(of('perch')).toMatchObject({ count: 4, price: 18, total: 72, axles: ['front', 'rear'] });
  expect(of('spring')).toMatchObject({ count: 2, total: 140, axles: ['front'], rate_n_per_mm: 38 });
  expect(of('other spring')).toMatchObject({ count: 2, total: 140, axles: ['rear'] });
  expect(total).toBe(352);
});

test('springs of one name but another length or rate are different parts', () => {
  const twin = { ...front, spring: { ...front.spring, rate: 52 } };
  expect(orderFor([{ front, rear: twin }]).lines.filter((line) => line.family === 'spring')).toHaveLength(2);
});

test('parts without a price are named once and left out of the total; families without a part are not ordered', () => {
  const { unpriced, lines } = orderFor([{ front, rear }]);
  expect(unpriced).toEqual(['sleeve', 'stop', 'isolator', 'mount', 'damper']);
  expect(lines.map((line) => line.family)).not.toContain('helper');
});

test('cuts and spacers make no other part', () => {
  const cut = { ...front, sleeve: { ...front.sleeve, trim: 30 }, mount: { ...front.mount, spacer: 6, raise: 18 } };
  const { lines } = orderFor([{ front, rear: cut }]);
  expect(lines.find((line) => line.family === 'sleeve')?.count).toBe(4);
  expect(lines.find((line) => line.family === 'mount')?.count).toBe(4);
});

test('over several setups the same options are ordered once, and what differs for each', () => {
  const both = orderFor([
    { front, rear },
    { front: rear, rear },
  ]);
  expect(both.lines.find((line) => line.part === 'perch')?.count).toBe(4);
  expect(both.lines.find((line) => line.part === 'spring')?.count).toBe(2);
  expect(both.lines.find((line) => line.part === 'other spring')?.count).toBe(4);
  expect(both.total).toBe(72 + 140 + 280);
});

test('a sleeve trimmed differently for another setup is another sleeve', () => {
  const cut = { ...front, sleeve: { ...front.sleeve, trim: 30 } };
  const { lines } = orderFor([
    { front, rear: front },
    { front: cut, rear: front },
  ]);
  expect(lines.find((line) => line.family === 'sleeve')?.count).toBe(6);
});

test('the order of the best plan costs what the plan says', async () => {
  const { plans } = await sweptScenario('hill-hatch');
  const priced = (plans?.plans ?? []).filter((plan) => plan.price !== null);
  expect(priced.length).toBeGreaterThan(0);
  for (const plan of priced) expect(plan.order?.total).toBeCloseTo(plan.price ?? Number.NaN, 2);
});
