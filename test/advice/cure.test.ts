/** The smallest single cures on short lists, against every value on the workshop's steps of every combination. */

import { expect, test } from 'vitest';
import { CHANGES, STEP } from '../../src/advice/changes.ts';
import { findFirstWorking, singleCures } from '../../src/advice/cure.ts';
import { listedOf, type Trial, trialsOf } from '../../src/advice/trials.ts';
import { whyNot } from '../../src/advice/whyNot.ts';
import type { Corner, Site } from '../../src/model/corner/site.ts';
import { findingsAt, works } from '../../src/model/corner/verdict.ts';
import { type AxleOptions, FAMILIES } from '../../src/model/scenario.ts';
import { finish } from '../../src/model/steps.ts';
import { plainCorner, plainSite, plainTarget } from '../setup/corners.ts';

const base = plainCorner();
const target = { ...plainTarget, allowedSlack: 8 };
const siteAsking = (change: Partial<typeof target> = {}) =>
  plainSite({ tyreOnArchHeight: 225, target: { ...target, ...change } });

function optionsOf(lists: Partial<AxleOptions>): AxleOptions {
  return Object.fromEntries(FAMILIES.map((f) => [f, lists[f] ?? [base[f]]])) as unknown as AxleOptions;
}

function cornersOf(options: AxleOptions): Corner[] {
  return FAMILIES.reduce<Partial<Corner>[]>(
    (rows, family) => rows.flatMap((row) => options[family].map((part) => ({ ...row, [family]: part }))),
    [{}],
  ) as Corner[];
}

/** The least amount of one change at which a combination works, over all of them; none where no value does. */
function leastByTrying(site: Site, options: AxleOptions): Map<string, number> {
  const least = new Map<string, number>();
  for (const corner of cornersOf(options)) {
    for (const change of CHANGES) {
      const [from, to] = change.limits(corner);
      for (let k = Math.ceil(from / STEP - 1e-9); k * STEP <= to + 1e-9; k++) {
        const amount = Math.abs(k * STEP - change.get(corner));
        if (amount >= (least.get(change.kind) ?? Number.POSITIVE_INFINITY)) continue;
        if (works(site, change.set(corner, k * STEP))) least.set(change.kind, Number(amount.toFixed(1)));
      }
    }
  }
  return least;
}

const sleeves = (ledgeHeight: number, ...trims: readonly number[]) =>
  trims.map((trim) => ({ ...base.sleeve, ledgeHeight, trim }));
const stops = (...lengths: readonly number[]) => lengths.map((length) => ({ ...base.bumpStop, length }));
const wide = { ...base.bumpStop, diameter: 55 };

const CASES: readonly (readonly [string, Site, Partial<AxleOptions>])[] = [
  ['sleeves too tall', siteAsking(), { sleeve: sleeves(184, 0, 5, 12) }],
  ['sleeves of two ledges too tall', siteAsking(), { sleeve: [...sleeves(190, 3, 9), ...sleeves(187, 0, 4)] }],
  ['stops too long', siteAsking({ leastBumpTravel: 48 }), { bumpStop: stops(60, 55, 50) }],
  // Off the workshop's steps, so that cutting the stop takes less than a spacer, which stands first among the changes.
  ['stops too long by odd lengths', siteAsking({ leastBumpTravel: 48 }), { bumpStop: stops(60.3, 55.3, 50.3) }],
  [
    'stops too long, sleeves cut differently',
    siteAsking({ leastBumpTravel: 46 }),
    { bumpStop: stops(58, 52), sleeve: sleeves(160, 0, 15, 20) },
  ],
  [
    'a proud sleeve that the stop meets',
    siteAsking({ leastBumpTravel: 30 }),
    {
      sleeve: sleeves(200, 0, 4),
      bumpStop: [wide, { ...wide, length: 44 }],
      perch: [{ ...base.perch, height: 0, lockRing: 0 }],
    },
  ],
  [
    // Half of what the stop is longer is left when it is closed: 337 mm become 338, and 335 leave the 3 mm asked for.
    'a damper that bottoms by just what four steps give',
    siteAsking(),
    { damper: [{ ...base.damper, compressed: 335 }], bumpStop: [{ ...base.bumpStop, closedFraction: 0.5 }] },
  ],
  ['perches too high on their sleeve', siteAsking(), { perch: [64, 70].map((inset) => ({ ...base.perch, inset })) }],
  ['perches too low on their sleeve', siteAsking(), { perch: [58, 64].map((height) => ({ ...base.perch, height })) }],
];

test.each(CASES)('%s: the smallest cure of each kind is that found by trying all', (_, site, lists) => {
  const options = optionsOf(lists);
  expect(cornersOf(options).some((corner) => works(site, corner))).toBe(false);
  const [spring] = finish(whyNot({ site, options, otherHelpers: [], springs: [0] })).springs;
  const single = (spring?.cures ?? []).filter(({ changes }) => changes.length === 1);
  const least = leastByTrying(site, options);
  expect(least.size).toBeGreaterThan(0);
  expect(new Map(single.map(({ changes, amount_mm }) => [changes[0]?.kind ?? '', amount_mm]))).toEqual(least);
  const amounts = single.map(({ amount_mm }) => amount_mm);
  expect(amounts).toEqual(amounts.toSorted((a, b) => a - b));
  for (const { changes, amount_mm } of single) {
    const [change] = changes;
    expect(Math.abs((change?.to_mm ?? 0) - (change?.from_mm ?? 0))).toBeCloseTo(amount_mm, 9);
  }
});

test('steps are walked either way from the listed value, to the first that works below the limit', () => {
  const site = siteAsking({ leastBumpTravel: 46 });
  const corner = plainCorner({ bumpStop: { ...base.bumpStop, length: 52.3 } });
  const stop = CHANGES.find(({ kind }) => kind === 'stop') as (typeof CHANGES)[number];
  const tried = { corner, findings: findingsAt(site, corner) };
  let shortest = 52;
  while (!works(site, stop.set(corner, shortest))) shortest -= STEP;
  expect(findFirstWorking(site, tried, stop, -1, Number.POSITIVE_INFINITY)).toBe(shortest);
  expect(findFirstWorking(site, tried, stop, 1, Number.POSITIVE_INFINITY)).toBeNull();
  expect(findFirstWorking(site, tried, stop, -1, 52.3 - shortest)).toBeNull();
  expect(findFirstWorking(site, tried, stop, -1, 52.3 - shortest + 0.01)).toBe(shortest);
  // What does not count does not stop the walk: the next step down is enough.
  expect(findFirstWorking(site, tried, stop, -1, Number.POSITIVE_INFINITY, () => false)).toBe(52);
  expect(findFirstWorking(site, tried, stop, 1, Number.POSITIVE_INFINITY, () => false)).toBe(52.5);
});

test('a helper that only the other axle lists is swapped in where no change of the listed parts is enough', () => {
  // At 60 N/mm the load squeezes the spring by 40 mm only, and it is loose by 30 at droop; a spacer that closed so much
  // would leave less droop travel than is asked for.
  const site = siteAsking({ allowedSlack: 2 });
  const helper = { name: 'helper', price: null, freeLength: 50, blockHeight: 10, rate: 2, bore: 60 };
  const coupled = { ...helper, coupler: 2, couplerBore: 60 };
  const spring = { ...base.spring, rate: 60, solid: { ...base.spring.solid, height: 60, least: 60 } };
  const options = optionsOf({ spring: [spring] });
  const curesWith = (...otherHelpers: readonly (typeof coupled)[]) =>
    finish(whyNot({ site, options, otherHelpers, springs: [0] })).springs[0]?.cures ?? [];
  const kindsOf = (cures: ReturnType<typeof curesWith>) => cures.map(({ changes }) => changes.map(({ kind }) => kind));
  expect(leastByTrying(site, options).size).toBe(0);
  expect(works(site, plainCorner({ spring, helper: coupled }))).toBe(true);
  expect(kindsOf(curesWith(coupled))).toEqual([['helper']]);
  expect(curesWith(coupled)[0]).toMatchObject({ amount_mm: 0, changes: [{ part: 'helper' }] });
  expect(kindsOf(curesWith()).flat()).not.toContain('helper');
  // One so short that it leaves the spring loose is no cure alone.
  expect(works(site, plainCorner({ spring, helper: { ...coupled, freeLength: 20 } }))).toBe(false);
  expect(kindsOf(curesWith({ ...coupled, freeLength: 20 }))).not.toContainEqual(['helper']);
});

test('in whatever order combinations come, the smallest cures of all of them are found', () => {
  const site = siteAsking();
  // Cut by 12 mm it lacks little, by 5 more, and the sleeve on the higher ledge a great deal.
  const options = optionsOf({ sleeve: [...sleeves(184, 12, 5), ...sleeves(214, 0)] });
  const listed = listedOf(site, options, [], [[0], [0], [0], [0], [0], [0, 1, 2], [0], [0]]);
  const trials = trialsOf(listed, 0);
  const [one, two, three] = trials as [Trial, Trial, Trial];
  const found = singleCures(listed, trials);
  expect(found.map(({ changes }) => changes[0]?.kind)).toContain('trim');
  expect(Math.min(...found.map(({ amount }) => amount))).toBe(Math.min(...leastByTrying(site, options).values()));
  const orders = [
    [one, three, two],
    [two, one, three],
    [two, three, one],
    [three, one, two],
    [three, two, one],
  ];
  for (const order of orders) expect(singleCures(listed, order)).toEqual(found);
});
