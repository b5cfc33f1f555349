import { expect, test } from 'vitest';
import type { LiveRecord } from '../../src/result/live.ts';
import type { PlansResult, Result } from '../../src/result/result.ts';
import { soundnessFault } from '../../src/result/shape.ts';
import { coherent, result } from '../report/fixture.ts';
import { sweptScenario } from '../setup/scenarios.ts';

const swept = await sweptScenario('hill-hatch');
const LOW = 'setups[0]';

/** A copy with one thing changed. */
function changed(change: (copy: Mutable<Result>) => void): Result {
  const copy = structuredClone(swept) as Mutable<Result>;
  change(copy);
  return copy as Result;
}

type Mutable<T> = T extends object ? { -readonly [K in keyof T]: Mutable<T[K]> } : T;

const setup = ({ setups }: Mutable<Result>, k = 0) => setups[k] as Mutable<Result>['setups'][number];

test('a result of a sweep does not contradict itself, stopped or with neither advice, plans nor bench', () => {
  expect(soundnessFault(swept)).toBeNull();
  const { live, plans, ...bare } = coherent(result());
  expect(soundnessFault(bare)).toBeNull();
  const stopped = changed((copy) => {
    copy.incomplete = { judged: 1, of: 2 };
    copy.scenario.axles.front.combinations *= 2;
    copy.scenario.axles.front.options.damper *= 2;
  });
  expect(soundnessFault(stopped)).toBeNull();
});

test.each<[string, (copy: Mutable<Result>) => void, string]>([
  ['a product', (copy) => copy.scenario.axles.rear.combinations++, 'scenario.axles.rear.combinations'],
  ['all combinations', (copy) => setup(copy).axles.front.combinations--, `${LOW}.axles.front.combinations`],
  ['those that pass', (copy) => setup(copy).axles.front.passed++, `${LOW}.axles.front.passed`],
  ['those of springs', (copy) => setup(copy).axles.front.spring_cells.splice(0), `${LOW}.axles.front.spring_cells`],
  ['all pairs', (copy) => setup(copy).pairs.considered++, `${LOW}.pairs.considered`],
  ['balanced pairs', (copy) => setup(copy).pairs.workable++, `${LOW}.pairs.workable`],
  ['an order', (copy) => setup(copy).shortlist.reverse(), `${LOW}.shortlist[0].rank`],
  [
    'an id',
    (copy) => Object.assign(setup(copy).shortlist[0] as object, { id: 'low-F1-R1-00' }),
    `${LOW}.shortlist[0].id`,
  ],
  [
    'a setup',
    (copy) => {
      setup(copy).name = 'high';
    },
    `${LOW}.shortlist[0].id`,
  ],
  [
    'a corner',
    (copy) => Object.assign(setup(copy).shortlist[0]?.axles.rear as object, { id: 'R1' }),
    `${LOW}.shortlist[0].rear`,
  ],
  ['a purchase', (copy) => setup(copy).advice?.purchases.reverse(), `${LOW}.advice.purchases[0].id`],
  ['a purchase too many', (copy) => setup(copy).shortlist.splice(1), `${LOW}.advice.purchases[1].id`],
  [
    'a plan',
    (copy) => Object.assign((copy.plans as Mutable<PlansResult>).plans[0]?.setups[0] as object, { front: 'F1' }),
    'plans.plans[0].setups[0].front',
  ],
  [
    'a place',
    (copy) => Object.assign((copy.live as Mutable<LiveRecord>).setups[0]?.starts[0]?.front as object, { 8: 99 }),
    'live.setups[0].starts[0].front',
  ],
])('%s that is told otherwise elsewhere is found by its place', (_, change, where) => {
  expect(soundnessFault(changed(change))?.where).toBe(where);
});
