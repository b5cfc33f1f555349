import type { Page } from 'playwright-core';
import { beforeAll, expect, test } from 'vitest';
import { SCENARIOS, type ScenarioName, sweptPage } from '../setup/scenarios.ts';
import { expectAccessible, openPage, PHONE } from './harness.ts';

const pages = new Map<ScenarioName, string>();

beforeAll(async () => {
  for (const name of SCENARIOS) pages.set(name, await sweptPage(name));
}, 240_000);

const open = (name: ScenarioName, options: Parameters<typeof openPage>[1] = {}) =>
  openPage(pages.get(name) ?? '', options);

/** Smallest type in pictures as a reader sees it, CSS pixels. */
function smallestType(page: Page): Promise<number> {
  return page.evaluate(() => {
    const texts = [...document.querySelectorAll<SVGTextElement>('svg.drawing text, svg.chart text')];
    const sizes = texts.map((text) => {
      const matrix = text.getScreenCTM();
      const scale = matrix ? Math.hypot(matrix.a, matrix.b) : 0;
      return Number.parseFloat(getComputedStyle(text).fontSize) * scale;
    });
    return Math.min(...sizes);
  });
}

test.each(SCENARIOS)('the page of %s has pictures, is accessible and asks for nothing', async (name) => {
  const html = pages.get(name) ?? '';
  expect(html.match(/<svg class="drawing/g)?.length).toBeGreaterThanOrEqual(2);
  await expectAccessible(html);
});

test.each(SCENARIOS)('on a phone the pictures of %s can be read', async (name) => {
  const { page } = await open(name, { viewport: PHONE });
  // 11 px less what rounding the page’s width takes.
  expect(await smallestType(page)).toBeGreaterThan(10.8);
});

test.each(SCENARIOS)('no words of the drawings of %s overlap as a browser sets them', async (name) => {
  const { page } = await open(name, { viewport: PHONE });
  const overlapping = await page.evaluate(() => {
    const inset = 0.5;
    return [...document.querySelectorAll('svg.drawing')].flatMap((svg) => {
      const texts = [...svg.querySelectorAll('text')].map((text) => ({ text, box: text.getBoundingClientRect() }));
      return texts.flatMap((a, k) =>
        texts.slice(k + 1).flatMap((b) => {
          const across = Math.min(a.box.right, b.box.right) - Math.max(a.box.left, b.box.left);
          const down = Math.min(a.box.bottom, b.box.bottom) - Math.max(a.box.top, b.box.top);
          // A text's box is as high as its line, which lies closer than that in the columns.
          const limit = 3.5;
          return across > inset && down > limit ? [`${a.text.textContent} on ${b.text.textContent}`] : [];
        }),
      );
    });
  });
  expect(overlapping).toEqual([]);
});

test('a drawing follows dark mode, and print is light again', async () => {
  const { page } = await open('kit-two-seater', { colorScheme: 'dark' });
  const colours = () =>
    page.evaluate(() => {
      const look = (selector: string) => getComputedStyle(document.querySelector(selector) as Element);
      return [look('svg.drawing .words').fill, look('svg.drawing .f').stroke, look('svg.drawing text.thin').fill];
    });
  const dark = await colours();
  await page.emulateMedia({ media: 'print' });
  const print = await colours();
  for (const [k, colour] of dark.entries()) expect(print[k]).not.toBe(colour);
  expect(print[0]).toBe('rgb(27, 32, 36)');
});

test('each drawing is printed whole: it and its table fit on one page', async () => {
  const { page } = await open('hill-hatch', { viewport: { width: 703, height: 1000 } });
  await page.emulateMedia({ media: 'print' });
  const heights = await page.evaluate(() =>
    [...document.querySelectorAll('.drawings figure')].map((figure) => figure.getBoundingClientRect().height),
  );
  // Letter leaves 251 mm between the margins, 96 px an inch.
  for (const height of heights) expect(height).toBeLessThan((251 / 25.4) * 96);
});
