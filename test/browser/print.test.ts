import { stat } from 'node:fs/promises';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { beforeAll, expect, test } from 'vitest';
import { pageScript } from '../../src/report/frame/templates.ts';
import { reportHtml } from '../../src/report/html.ts';
import { failingResult } from '../advice/nothingScenarios.ts';
import { SCENARIOS, type ScenarioName, sweptPage, sweptScenario } from '../setup/scenarios.ts';
import { ROOT } from '../setup/source-tree.ts';
import { type OpenedPage, openPage, printPage, seen } from './harness.ts';

const FORMATS = ['A4', 'Letter'] as const;
/** Between the margins A4 leaves 186 mm, Letter 191.9 mm; 96 px an inch (CSS Values 4). */
const WIDTHS = { A4: Math.floor((186 / 25.4) * 96), Letter: Math.floor((191.9 / 25.4) * 96) };

const pages = new Map<ScenarioName, string>();
beforeAll(async () => {
  for (const name of SCENARIOS) pages.set(name, await sweptPage(name));
}, 240_000);

const looked = new Map<ScenarioName, Promise<OpenedPage>>();

/** The page of a scenario, opened once in dark mode for all that only look at it, as wide as asked for; null: the medium it is on. */
async function lookAt(name: ScenarioName, media: 'print' | null, width = 1280): Promise<Page> {
  const opened = looked.get(name) ?? openPage(pages.get(name) ?? '', { colorScheme: 'dark' });
  looked.set(name, opened);
  const { page } = await opened;
  await page.setViewportSize({ width, height: 1000 });
  await page.emulateMedia({ media });
  return page;
}

const CASES = SCENARIOS.flatMap((name) => FORMATS.map((format) => [name, format] as const));

const bytesOf = async (text: string | Promise<string>) => Buffer.byteLength(await text);

/** By how much a script is longer than the one that users get: while coverage is measured pages carry it as written. */
async function longer(name: string): Promise<number> {
  const short = await stat(join(ROOT, 'dist', 'page', `${name}.js`));
  return (await bytesOf(pageScript(name))) - short.size;
}

test.each(SCENARIOS)(
  'the page of %s takes less than 700 kB without the numbers and the script of its bench, and 800 kB with them',
  async (name) => {
    const { live, ...rest } = await sweptScenario(name);
    expect(live).toBeDefined();
    expect((await bytesOf(await reportHtml(rest))) - (await longer('page'))).toBeLessThan(700_000);
    const more = (await longer('page')) + (await longer('bench'));
    expect((await bytesOf(pages.get(name) ?? '')) - more).toBeLessThan(800_000);
  },
);

test.each(CASES)('%s prints on two to four pages of %s from dark mode', async (name, format) => {
  const printed = await printPage(await lookAt(name, null), format);
  expect(printed.pages).toBeGreaterThanOrEqual(2);
  expect(printed.pages).toBeLessThanOrEqual(4);
});

test.each(CASES)('no part of %s is wider than a page of %s, and no type smaller than 6.8 pt', async (name, format) => {
  const page = await lookAt(name, 'print', WIDTHS[format]);
  // What is wider makes the browser shrink the whole print.
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(WIDTHS[format]);
  const small = await page.evaluate(() => {
    const texts = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    const found: string[] = [];
    while (texts.nextNode()) {
      const holder = texts.currentNode.parentElement;
      if (!holder?.checkVisibility() || holder.closest('script, .vh') || !texts.currentNode.textContent?.trim())
        continue;
      const matrix = holder instanceof SVGGraphicsElement ? holder.getScreenCTM() : null;
      const size = Number.parseFloat(getComputedStyle(holder).fontSize) * (matrix ? Math.hypot(matrix.a, matrix.b) : 1);
      // 72 points an inch.
      if ((size * 72) / 96 < 6.8) found.push(`${size.toFixed(1)} px: ${texts.currentNode.textContent}`);
    }
    return found;
  });
  expect(small).toEqual([]);
});

test('what is meant for paper alone stays off the screen, pictures included, and the other way round', async () => {
  const page = await lookAt('hill-hatch', null);
  const shown = (selector: string) =>
    page.evaluate((s) => [...document.querySelectorAll(s)].filter((part) => part.checkVisibility()).length, selector);
  expect(await shown('.on-screen')).toBeGreaterThan(0);
  expect(await shown('.on-paper')).toBe(0);
  await page.emulateMedia({ media: 'print' });
  expect(await shown('svg.on-paper')).toBeGreaterThan(0);
  expect(await shown('.on-screen')).toBe(0);
});

test('print shows the answer, pictures, sheets, cautions and provenance, in that order, and names the rest', async () => {
  const page = await lookAt('hill-hatch', 'print');
  const shown = await page.evaluate(() =>
    [...document.querySelectorAll('main section')].filter((part) => part.checkVisibility()).map((part) => part.id),
  );
  expect(shown).toEqual([
    ...['answer', 'drawing', 'forces', 'windows'],
    ...['build-sheet', 'workshop', 'cautions', 'provenance'],
  ]);
  expect(await seen(page.locator('#provenance'))).toMatch(
    /Only on screen.*further plans.*by itself.*shortlist.*maps.*cures/s,
  );
  expect(await page.locator('details:visible, .controls:visible').count()).toBe(0);
});

test('where no plan serves several setups the shortlist is printed, with its order', async () => {
  const page = await lookAt('kit-two-seater', 'print');
  expect(await seen(page.locator('#shortlist .setup > .prose'))).toContain('best score first');
});

test('where nothing works paper has what comes nearest, what passes and what would work, drawn', async () => {
  const { page } = await openPage(await reportHtml(await failingResult()));
  await page.emulateMedia({ media: 'print' });
  const shown = await page.evaluate(() =>
    [...document.querySelectorAll('main section')].filter((part) => part.checkVisibility()).map((part) => part.id),
  );
  expect(shown).toEqual(['answer', 'nothing', 'would-work', 'cautions', 'provenance']);
  expect(await page.locator('#nothing svg.drawing:visible').count()).toBe(2);
  expect(await page.locator('#nothing .lacking li:visible').count()).toBeGreaterThan(0);
  expect(await page.locator('#would-work svg.chart:visible').count()).toBe(1);
  expect(await seen(page.locator('#nothing'))).toMatch(/What helps most.*Another spring.*the rear passes/s);
});

test('a sheet of paper is white where dark mode was on the screen', async () => {
  const page = await lookAt('kit-two-seater', 'print');
  const shot = (await page.screenshot({ clip: { x: 0, y: 0, width: 400, height: 400 } })).toString('base64');
  // Drawn in a page of its own: the report's policy lets no script but its own run.
  const { page: easel } = await openPage('<html><body><canvas width="400" height="400"></canvas></body></html>');
  const mean = await easel.evaluate(async (png) => {
    const picture = new Image();
    picture.src = `data:image/png;base64,${png}`;
    await picture.decode();
    const context = document.querySelector('canvas')?.getContext('2d');
    context?.drawImage(picture, 0, 0);
    const { data } = context?.getImageData(0, 0, 400, 400) ?? { data: [] };
    let sum = 0;
    for (const [k, value] of data.entries()) if (k % 4 < 3) sum += value;
    return sum / (data.length * 0.75);
  }, shot);
  expect(mean).toBeGreaterThan(225);
});

test('after sorting and narrowing, paper shows the first of what is left and says how', async () => {
  const { page } = await openPage(pages.get('kit-two-seater') ?? '');
  await page.locator('#shortlist thead th:nth-child(5) button').first().click();
  await page.locator('#find').fill('road-FK-');
  await page.emulateMedia({ media: 'print' });
  const setup = page.locator('#shortlist .setup').first();
  expect(await setup.locator('tbody.ranked:visible').count()).toBe(5);
  expect(await seen(setup.locator('.prose'))).toMatch(/by free length, rising.*Shown: \d+ of 12/s);
});
