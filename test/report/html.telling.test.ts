/** Tables and columns that say nothing are left out, on the page and in the purchase list. */

import { expect, test } from 'vitest';
import { purchaseMarkdown } from '../../src/report/files/purchase.ts';
import { sweepSummary } from '../../src/report/files/summary.ts';
import { reportHtml } from '../../src/report/html.ts';
import { shortlistView } from '../../src/report/sections/shortlist.ts';
import { tasteView } from '../../src/report/sections/taste.ts';
import { fruitful, fruitlessText } from '../../src/report/text/adviceText.ts';
import { PLAIN } from '../../src/report/text/numbers.ts';
import type { PurchaseAdvice, Relaxation, Relaxations, SetupAdvice, TasteRow } from '../../src/result/advice.ts';
import type { Combination, Result } from '../../src/result/result.ts';
import { combination, emptySetup, result, setup } from './fixture.ts';

const line = {
  family: 'spring',
  part: 'coil',
  free_length_mm: 200,
  rate_n_per_mm: 40,
  axles: ['front'],
  count: 2,
} as const;

function purchase(rank: number, change: Partial<PurchaseAdvice> = {}): PurchaseAdvice {
  return {
    ...{ id: combination('low', rank).id, dominated_by: null, worst_score: 0, share: 0.5 },
    ranges: { front: [], rear: [] },
    order: { lines: [{ ...line, price: 10, total: 20 }], total: 20, unpriced: [] },
    ...change,
  };
}

function advice(change: Partial<SetupAdvice> = {}): SetupAdvice {
  const never = { springs: [], combinations: 0, looked_at: 0 };
  return {
    ...{ ranked_by: 'nominal', draws: { count: 500, seed: 1, generator: 'g' }, taste: null, relaxations: null },
    purchases: [purchase(1), purchase(2)],
    rates: { front: null, rear: null },
    why_not: { front: never, rear: never },
    ...change,
  };
}

const advised = (change: Partial<SetupAdvice> = {}): Result =>
  result({
    setups: [setup('low', { shortlist: [combination('low', 1), combination('low', 2)], advice: advice(change) })],
  });

async function readers(given: Result): Promise<string[]> {
  const page = (await reportHtml(given)).replace(/<(script|style)[\s\S]*?<\/\1>/g, '').replace(/<[^>]*>/g, ' ');
  return [page, purchaseMarkdown(given)].map((text) => text.replace(/\s+/g, ' '));
}

test('a worst-case score of 0 in every row is one sentence, not a column', async () => {
  for (const text of await readers(advised())) {
    expect(text).toContain('so that their worst-case scores, all 0, do not tell them apart');
    expect(text).not.toMatch(/worst case +score|worst-case score \|/);
  }
  const some = advised({ purchases: [purchase(1), purchase(2, { worst_score: 0.21 })] });
  for (const text of await readers(some)) {
    expect(text).toMatch(/worst case +score|worst-case score \|/);
    expect(text).toContain('0.210');
  }
});

test('marks stand where some purchase is beaten, prices where something has one', async () => {
  const [page] = await readers(advised());
  expect(page).toContain('None is beaten');
  expect(page).not.toContain('stands or beaten');
  const beaten = advised({ purchases: [purchase(1), purchase(2, { dominated_by: purchase(1).id })] });
  expect((await readers(beaten))[0]).toContain('stands or beaten');
  const order = { lines: [{ ...line, price: null, total: null }], total: 0, unpriced: ['coil'] };
  const free = advised({ purchases: [purchase(1, { order }), purchase(2, { order })] });
  for (const text of await readers(free)) {
    expect(text).toContain('No part has a price.');
    expect(text).not.toMatch(/price each|parts, EUR|parts +EUR|together EUR/);
  }
});

const row = (change: Partial<TasteRow>): TasteRow => ({
  ...{ criterion: 'balance', weight: 1, tried: 2, winner: 'low-F1-R1-00', score: 0.5, place: 1, changes: false },
  ...change,
});

test('weights with which the same springs win are counted in a sentence; a table shows the others', () => {
  const taste = (rows: readonly TasteRow[]) =>
    tasteView(setup('low', { advice: advice({ taste: { basis: 'sweep', rows } }) }));
  const same = taste([row({}), row({ tried: 0.5 })]);
  expect(same?.rows).toEqual([]);
  expect(same?.changes).toBe('The same springs win each of the 2 times: the choice does not hang on taste.');
  const other = taste([row({}), row({ tried: 0.5, changes: true, place: 3 })]);
  expect(other?.rows.map(({ tried, what }) => [tried, what])).toEqual([['0.50', 'other springs, number 3 by score']]);
  expect(other?.changes).toBe('Other springs win 1 of 2 times; each other time the same springs do.');
});

test('weights that all say the same bring no table to page and list', async () => {
  const taste = { basis: 'sweep', rows: [row({})] } as const;
  for (const text of await readers(advised({ taste }))) {
    expect(text).toContain('The same springs win each of the 1 times');
    expect(text).not.toContain('best then');
  }
});

const relaxed = (requirement: string, by: number | null): Relaxation => ({
  ...{ requirement, axles: ['rear'], unit: 'mm', by, most: 6, winner: by === null ? null : 'low-F1-R1-00' },
});
const found = (rows: readonly Relaxation[], basis: Relaxations['basis'] = 'all'): Relaxations => ({ basis, rows });

test('requirements that give no answer are named in one sentence, with how far was looked', async () => {
  const some = found([relaxed('tyre margin', 2), relaxed('body margin', null)]);
  expect(fruitful(some).map(({ requirement }) => requirement)).toEqual(['tyre margin']);
  expect(fruitlessText(some, PLAIN)).toBe(
    'No other requirement gives an answer alone, not even relaxed so far: body margin by 6.0 mm.',
  );
  expect(fruitlessText(found([relaxed('tyre margin', 2)]), PLAIN)).toBe('');
  const none = found([relaxed('tyre margin', null), relaxed('body margin', null)]);
  const empty = (relaxations: Relaxations) =>
    result({ setups: [{ ...emptySetup('low'), advice: advice({ purchases: [], relaxations }) }] });
  for (const text of await readers(empty(none))) {
    expect(text).toContain(
      'No requirement gives an answer alone, not even relaxed so far: tyre margin by 6.0 mm, body',
    );
    expect(text).not.toMatch(/relaxed +best then|requirement \| axle/);
  }
  for (const text of await readers(empty(some))) {
    expect(text).toContain('No other requirement gives an answer alone');
    expect(text).toMatch(/tyre margin (\| )?rear (\| )?by 2\.0 mm (\| )?low-F1-R1-00/);
  }
  // On thinned lists nobody knows the best by its id.
  for (const text of await readers(empty(found(some.rows, 'thinned')))) expect(text).not.toContain('best then');
});

function shortlisted(change: (corner: Combination['axles']['front']) => Combination['axles']['front']): Combination[] {
  return [1, 2].map((rank) => {
    const one = combination('low', rank);
    return { ...one, axles: { front: change(one.axles.front), rear: change(one.axles.rear) } };
  });
}

test('the shortlist has columns for trims and spacers only where some combination has one', () => {
  const bare = shortlisted((corner) => ({
    ...corner,
    parts: {
      ...corner.parts,
      sleeve: { ...corner.parts.sleeve, choice: { trim_mm: 0 } },
      mount: { ...corner.parts.mount, choice: { spacer_mm: 0 } },
    },
  }));
  expect(shortlistView(setup('low', { shortlist: bare }))).toMatchObject({ hasCut: false, hasSpacer: false });
  expect(shortlistView(setup('low'))).toMatchObject({ hasCut: true, hasSpacer: true });
});

test('criteria by which all are judged the same stand in a sentence', () => {
  const [first, second] = [combination('low', 1), combination('low', 2)];
  const judged = (one: Combination, bump: number): Combination => ({
    ...one,
    criteria: [
      { criterion: 'bump_travel', axle: 'front', weight: 1, desirability: bump },
      { criterion: 'balance', axle: null, weight: 2, desirability: 0.88 },
    ],
  });
  const view = shortlistView(setup('low', { shortlist: [judged(first, 0.7), judged(second, 0.6)] }));
  expect(view.criteria.map(({ label }) => label)).toEqual(['front bump travel']);
  expect(view.scores.map(({ bars }) => bars.map(({ value }) => value))).toEqual([['0.70'], ['0.60']]);
  expect(view.alike).toBe('front-rear balance 0.88 (weight 2.00)');
  // By itself a combination has nothing to be like.
  const alone = shortlistView(setup('low', { shortlist: [judged(first, 0.7)] }));
  expect([alone.criteria.length, alone.alike]).toEqual([2, '']);
});

test('of more springs that never work than are listed, page, purchase and terminal count the rest', async () => {
  const listed = {
    ...{
      spring: 'short',
      free_length_mm: 180,
      rate_n_per_mm: 40,
      closest: 'F0',
      parts: 'parts',
      distance: 1,
      cures: [],
    },
    failures: [{ check: 'perch_high', shortfall: 12, unit: 'mm' }],
  } as const;
  const front = { springs: [listed, { ...listed, spring: 'shorter' }], not_listed: 850, combinations: 9, looked_at: 9 };
  const none = { springs: [], combinations: 9, looked_at: 9 };
  const given = advised({ why_not: { front, rear: none } });
  const [page, purchased] = (await readers(given)) as [string, string];
  expect(page).toContain(', Front: 852 springs that never work');
  expect(page).toContain('2 of those listed have no cure');
  expect(purchased).toContain('852 front springs never work; 0 of those listed have a cure, 2 have none');
  const rest = 'The 2 nearest are listed, by what their closest combination lacks; the other 850 lack as much or more';
  for (const text of [page, purchased]) expect(text).toContain(rest);
  expect(sweepSummary(given).replace(/\s+/g, ' ')).toContain(
    '0 of the nearest 2 front springs that never work (there are 850 more) have a cure',
  );
});
