import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { reportHtml } from '../../src/report/html.ts';
import { build, hostile, result } from '../report/fixture.ts';
import { expectAccessible, openPage, printPage, seen } from './harness.ts';

const PAGES: readonly (readonly [string, string])[] = [
  ['a sweep', await reportHtml(result())],
  ['a build', await reportHtml(build())],
  ['hostile names', await reportHtml(hostile())],
  ['names of 200 letters', await reportHtml(hostile('M'.repeat(200)))],
];

/** What a reader sees but for the controls, in words: a button in a column's head sets the line anew. */
async function visibleText(page: Page): Promise<string> {
  await page.evaluate(() => {
    for (const controls of document.querySelectorAll('.controls')) controls.remove();
  });
  return (await seen(page.locator('body'))).replace(/\s+/g, ' ');
}

test.each(PAGES)('the page of %s is accessible, asks for nothing, says nothing and trips over nothing', (_, html) =>
  expectAccessible(html),
);

test.each(PAGES)('the page of %s reads the same with JavaScript off', async (_, html) => {
  const [on, off] = await Promise.all([openPage(html), openPage(html, { javaScript: false })]);
  const [seen, seenWithout] = await Promise.all([on, off].map(({ page }) => visibleText(page)));
  expect(seenWithout).toBe(seen);
  expect(seen?.length).toBeGreaterThan(1000);
});

test('print is light from dark mode too, charts included', async () => {
  const { page } = await openPage(PAGES[0]?.[1] ?? '', { colorScheme: 'dark' });
  const colours = () =>
    page.evaluate(() => {
      const text = document.querySelector('svg.chart text');
      return [getComputedStyle(document.body).backgroundColor, text ? getComputedStyle(text).fill : 'no text'];
    });
  const [darkPaper, darkType] = await colours();
  expect(darkPaper).toBe('rgb(20, 24, 26)');
  await page.emulateMedia({ media: 'print' });
  const [paper, type] = await colours();
  expect(paper).toBe('rgb(255, 255, 255)');
  expect(type).not.toBe(darkType);
});

test('a shortlist row that a link leads to is marked', async () => {
  const { page } = await openPage(PAGES[0]?.[1] ?? '');
  const background = () =>
    page.evaluate(() => getComputedStyle(document.querySelector('.shortlist tbody') as Element).backgroundColor);
  const before = await background();
  await page.locator('.pairline a').first().click();
  expect(await background()).not.toBe(before);
});

test.each(['A4', 'Letter'] as const)(
  'a sweep prints on a few pages of %s with nothing cut off at the side',
  async (format) => {
    // Between the margins A4 leaves 186 mm, Letter 192 mm; 96 px an inch (CSS Values 4).
    const width = Math.floor(((format === 'A4' ? 186 : 191.9) / 25.4) * 96);
    const { page } = await openPage(PAGES[0]?.[1] ?? '', { viewport: { width, height: 1000 } });
    const { pages } = await printPage(page, format);
    expect(pages).toBeGreaterThanOrEqual(2);
    expect(pages).toBeLessThanOrEqual(8);
    await page.emulateMedia({ media: 'print' });
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
  },
);

test('header rows repeat on every printed page and nothing waits in a closed fold', async () => {
  const { page } = await openPage(PAGES[0]?.[1] ?? '');
  await page.emulateMedia({ media: 'print' });
  const displays = await page.evaluate(() =>
    [...document.querySelectorAll('thead')].map((head) => getComputedStyle(head).display),
  );
  expect(new Set(displays)).toEqual(new Set(['table-header-group']));
  expect(await page.locator('details').count()).toBe(0);
});

test('figures stand right-aligned in figures of one width', async () => {
  const { page } = await openPage(PAGES[0]?.[1] ?? '');
  const styles = await page.evaluate(() =>
    [...document.querySelectorAll('td.n')].map((cell) => {
      const { textAlign, fontVariantNumeric } = getComputedStyle(cell);
      return `${textAlign} ${fontVariantNumeric}`;
    }),
  );
  expect(new Set(styles)).toEqual(new Set(['right tabular-nums']));
});
