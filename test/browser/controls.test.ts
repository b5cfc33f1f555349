import type { Page } from 'playwright-core';
import { beforeAll, expect, test } from 'vitest';
import { reportHtml } from '../../src/report/html.ts';
import type { Combination, Result } from '../../src/result/result.ts';
import { hostile } from '../report/fixture.ts';
import { sweptPage, sweptScenario } from '../setup/scenarios.ts';
import { openPage, seen } from './harness.ts';

let html = '';
let result: Result;
beforeAll(async () => {
  result = await sweptScenario('hill-hatch');
  html = await sweptPage('hill-hatch');
}, 300_000);

/** The same with those combinations of each shortlist told not to be tight. */
function slackened(isSlack: (place: number) => boolean): Result {
  const loose = (one: Combination): Combination => {
    const { front, rear } = one.axles;
    return { ...one, axles: { front: { ...front, tight: [] }, rear: { ...rear, tight: [] } } };
  };
  const setups = result.setups.map((setup) => ({
    ...setup,
    shortlist: setup.shortlist.map((one, place) => (isSlack(place) ? loose(one) : one)),
  }));
  return { ...result, setups };
}

/** The shortlist's ids from top to bottom, as far as they are shown. */
const idsOf = (page: Page) =>
  page
    .locator('#shortlist .setup')
    .first()
    .locator('tbody.ranked')
    .evaluateAll((bodies) => bodies.filter((body) => !(body as HTMLElement).hidden).map((body) => body.id));

/** What a column of front rows shows. */
const columnOf = (page: Page, column: number) =>
  page
    .locator('#shortlist .setup')
    .first()
    .locator(`tbody.ranked tr:first-child > :nth-child(${column + 1})`)
    .evaluateAll((cells) => cells.map((cell) => Number.parseFloat(cell.firstChild?.textContent ?? '')));

const hashOf = (page: Page) => page.evaluate(() => location.hash);

async function press(page: Page, selector: string, key: string): Promise<void> {
  await page.locator(selector).first().focus();
  await page.keyboard.press(key);
}

test('without scripts there is nothing to set, with them there is', async () => {
  const off = await openPage(html, { javaScript: false });
  expect(await off.page.locator('.controls:visible').count()).toBe(0);
  expect(await off.page.locator('.sorter').count()).toBe(0);
  const on = await openPage(html);
  expect(await on.page.locator('.controls:visible').count()).toBeGreaterThanOrEqual(2);
  expect(on.errors).toEqual([]);
});

test('a column is put in order from the keyboard: rising, falling, as printed, said in words and by aria-sort', async () => {
  const { page, messages, errors } = await openPage(html);
  const printed = await idsOf(page);
  const head = '#shortlist table.shortlist thead th:nth-child(5)';
  const order = page.locator('#shortlist [data-order]').first();
  await press(page, `${head} button`, 'Enter');
  const rising = await columnOf(page, 4);
  expect(rising).toEqual([...rising].sort((a, b) => a - b));
  expect(await page.locator(head).first().getAttribute('aria-sort')).toBe('ascending');
  expect(await order.textContent()).toBe('by free length, rising');
  await press(page, `${head} button`, 'Space');
  const falling = await columnOf(page, 4);
  expect(falling).toEqual([...falling].sort((a, b) => b - a));
  expect(falling).not.toEqual(rising);
  expect(await page.locator(head).first().getAttribute('aria-sort')).toBe('descending');
  expect(await hashOf(page)).toMatch(/sort\d+=4d/);
  await press(page, `${head} button`, 'Enter');
  expect(await idsOf(page)).toEqual(printed);
  expect(await page.locator('[aria-sort]').count()).toBe(0);
  expect(await order.textContent()).toBe('best score first');
  expect(await hashOf(page)).toBe('');
  expect({ messages, errors }).toEqual({ messages: [], errors: [] });
});

test('the two rows of a combination stay together whichever column orders them', async () => {
  const { page } = await openPage(html);
  const pairs = () =>
    page.locator('#shortlist tbody.ranked').evaluateAll((bodies) => bodies.map((body) => body.textContent).sort());
  const before = await pairs();
  for (const column of [2, 3, 9, 16]) await press(page, `#shortlist thead th:nth-child(${column}) button`, 'Enter');
  expect(await pairs()).toEqual(before);
});

test('the shortlist is narrowed by words and by what is tight, and says so', async () => {
  // Each of the demo's combinations is tight: told so of every second one alone, there is something to choose.
  const { page } = await openPage(await reportHtml(slackened((place) => place % 2 === 1)));
  const all = await idsOf(page);
  await page.locator('#find').focus();
  await page.keyboard.type('hs260 helper');
  const found = await idsOf(page);
  expect(found.length).toBeGreaterThan(0);
  expect(found.length).toBeLessThan(all.length);
  expect(await page.locator('.found').first().textContent()).toBe(
    `Shown: ${found.length} of ${all.length}, with \u201chs260 helper\u201d.`,
  );
  await page.locator('#find').fill('');
  await page.locator('input[name=care][value="not tight"]').focus();
  await page.keyboard.press('Space');
  const safe = await idsOf(page);
  await page.locator('input[name=care][value="tight"]').focus();
  await page.keyboard.press('Space');
  const tight = await idsOf(page);
  expect([...safe, ...tight].sort()).toEqual([...all].sort());
  expect(Math.min(safe.length, tight.length)).toBeGreaterThan(0);
  expect(tight).toEqual(all.filter((_, place) => place % 2 === 0));
});

test.each([
  ['each combination is', false],
  ['none is', true],
])('where %s tight there is no such choice', async (_, isSlack) => {
  const { page } = await openPage(await reportHtml(slackened(() => isSlack)));
  expect(await page.locator('#find').isVisible()).toBe(true);
  expect(await page.locator('input[name=care]').count()).toBe(0);
});

test('one world of units is put aside and comes back', async () => {
  const { page } = await openPage(html);
  const text = () => seen(page.locator('#answer .corner'));
  const head = () => seen(page.locator('#shortlist thead th:nth-child(5)'));
  const both = await text();
  expect(both).toMatch(/\d\smm\s*\(\d+\.\d\d\sin\)/);
  await press(page, 'input[name=units][value=both]', 'ArrowRight');
  expect(await text()).toMatch(/\d\smm/);
  expect(await text()).not.toMatch(/\sin\)/);
  expect(await head()).toMatch(/mm$/);
  await page.keyboard.press('ArrowRight');
  expect(await hashOf(page)).toBe('#units=imperial');
  expect(await text()).toMatch(/\d+\.\d\d\sin\n/);
  expect(await text()).not.toMatch(/\(\d+\.\d\d\sin\)/);
  expect(await head()).toMatch(/in$/);
  expect(await seen(page.locator('#answer .sentence'))).not.toMatch(/\d\smm|N\/mm/);
  await page.keyboard.press('ArrowRight');
  expect(await text()).toBe(both);
});

test('what was set is there again after a reload, beside a link to a row', async () => {
  const { page } = await openPage(html);
  const id = (await idsOf(page))[3] ?? '';
  await page.locator('input[name=units][value=metric]').check();
  await press(page, '#shortlist thead th:nth-child(9) button', 'Enter');
  const order = await idsOf(page);
  // What a setup would buy alone is folded away behind the plan.
  await page.locator('#purchase details > summary').first().click();
  await page.locator(`#purchase a[href="#${id}"]`).first().click();
  expect(await hashOf(page)).toMatch(new RegExp(`^#${id}&units=metric&sort\\d+=8a$`));
  expect(await page.locator(':target').getAttribute('id')).toBe(id);
  await page.reload();
  expect(await page.locator('html').getAttribute('data-units')).toBe('metric');
  expect(await page.locator('input[name=units][value=metric]').isChecked()).toBe(true);
  expect(await idsOf(page)).toEqual(order);
  expect(await page.locator(':target').getAttribute('id')).toBe(id);
  expect(await page.locator(`#${id}`).evaluate((row) => row.getBoundingClientRect().top < innerHeight)).toBe(true);
});

test('foreign text in the address is taken as words to look for, never as markup', async () => {
  const { page, errors, messages } = await openPage(await reportHtml(hostile()));
  await page.evaluate(() => {
    location.hash = '#find=%3Cimg%20src%3Dx%20onerror%3Dalert(1)%3E&units=metric';
  });
  await page.waitForFunction(() => document.documentElement.dataset.units === 'metric');
  expect(await page.locator('img').count()).toBe(0);
  expect(await page.locator('.found').first().textContent()).toContain('<img');
  expect({ errors, messages }).toEqual({ errors: [], messages: [] });
});
