import { expect, test } from 'vitest';
import { changesHtml } from '../../src/compare/changes.ts';
import { comparisonHtml } from '../../src/compare/comparison.ts';
import { hostile, result } from '../report/fixture.ts';
import { expectAccessible, openPage, PHONE, printPage } from './harness.ts';

const CHANGES = {
  changes: [
    { file: 'scenario.yaml', names: ['axles', 'front', 'wheel_load'], before: '268 kg', after: '274 kg' },
    { file: 'springs.csv', names: ['HS280-34'], before: 'rate_n_per_mm: 34, free_length_mm: 280', after: null },
  ],
  reworded: ['helpers.csv'],
};
const stopped = result({
  tool: { name: 'springsift', version: '9.9.9' },
  incomplete: { judged: 5, of: 10 },
  inputs: result().inputs.map((input) => ({ ...input, sha256: 'ab'.repeat(32) })),
});
const PAGES: readonly (readonly [string, string])[] = [
  [
    'what changed',
    await changesHtml({ path: 'a/report.html', result: result() }, { path: 'b/report.html', result: stopped }, CHANGES),
  ],
  [
    'what changed with hostile names',
    await changesHtml({ path: 'a', result: hostile() }, { path: 'b', result: result() }, { changes: [], reworded: [] }),
  ],
  [
    'several scenarios beside each other',
    await comparisonHtml([
      { name: 'a', result: stopped },
      { name: 'b', result: hostile() },
    ]),
  ],
];

test.each(PAGES)('the page of %s is accessible, asks for nothing and needs no script', async (_, html) => {
  await expectAccessible(html);
  expect(html).not.toContain('<script');
});

test('values before and after are both seen on a phone without scrolling', async () => {
  const { page } = await openPage(PAGES[0]?.[1] ?? '', { viewport: PHONE });
  const right = await page.evaluate(() =>
    [...document.querySelectorAll('.given td:last-child, .amounts td:last-child')].map(
      (cell) => cell.getBoundingClientRect().right,
    ),
  );
  expect(right.length).toBeGreaterThan(10);
  expect(Math.max(...right)).toBeLessThanOrEqual(PHONE.width);
});

test.each(['A4', 'Letter'] as const)(
  'what changed prints on a few pages of %s, with nothing cut off',
  async (format) => {
    const width = Math.floor(((format === 'A4' ? 186 : 191.9) / 25.4) * 96);
    const { page } = await openPage(PAGES[0]?.[1] ?? '', { viewport: { width, height: 1000 } });
    expect((await printPage(page, format)).pages).toBeLessThanOrEqual(6);
    await page.emulateMedia({ media: 'print' });
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
  },
);
