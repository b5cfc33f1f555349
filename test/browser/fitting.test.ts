import { beforeAll, expect, test } from 'vitest';
import { fittingsOf } from '../../src/fitting/fitting.ts';
import { fittingHtml } from '../../src/fitting/page.ts';
import { benchOfText, CORNER_TEXT, PARTS_TEXT } from '../setup/benchScenario.ts';
import { expectAccessible, openPage, PHONE, seen } from './harness.ts';

const REAR = CORNER_TEXT.slice(CORNER_TEXT.indexOf('  front:')).replace('front:', 'rear:');
const TEXTS = {
  'of parts': PARTS_TEXT,
  'of both axles, several combinations and a slip': `${CORNER_TEXT.replace('20 mm', '[0 mm, 20 mm, 40 mm]')}${REAR.replace('268 kg', '100 kg')}`,
  'of parts that do not fit': PARTS_TEXT.replace('106 mm', '170 mm'),
} as const;
type Kind = keyof typeof TEXTS;
const KINDS = Object.keys(TEXTS) as Kind[];
const pages = new Map<Kind, string>();

beforeAll(async () => {
  for (const kind of KINDS) {
    const { scenario, warnings } = await benchOfText(TEXTS[kind]);
    const files = [{ path: 'scenario.yaml', sha256: 'f'.repeat(64), text: TEXTS[kind] }];
    pages.set(
      kind,
      await fittingHtml({ scenario, files, warnings, fittings: fittingsOf(scenario), toolVersion: 'test' } as never),
    );
  }
}, 300_000);

test.each(KINDS)('the page %s asks for nothing, says nothing, is accessible and does not scroll sideways', (kind) =>
  expectAccessible(pages.get(kind) ?? ''),
);

test('its first screen tells verdict, lowest and highest perch, on a phone and without scripts, too', async () => {
  const html = pages.get('of parts') ?? '';
  for (const viewport of [{ width: 1280, height: 844 }, PHONE]) {
    const { page } = await openPage(html, { viewport, javaScript: false });
    expect(await seen(page.locator('header'))).toContain('Front: YES by its lengths');
    const range = page.locator('dd', { hasText: 'above the lower eye' }).first();
    expect(await seen(range)).toMatch(/^192\.0 mm.* to \d+\.\d mm/);
    expect((await range.boundingBox())?.y ?? Number.NaN).toBeLessThan(viewport.height);
  }
});

test('combinations stand in a table with their ends, a slip above all, and both axles below each other', async () => {
  const { page } = await openPage(pages.get('of both axles, several combinations and a slip') ?? '');
  expect(await page.locator('#front table').first().locator('tbody tr').count()).toBe(3);
  expect(await seen(page.locator('#input-warnings'))).toContain('100 kg');
  expect(await page.locator('main > section').evaluateAll((all) => all.map(({ id }) => id).slice(0, 2))).toEqual([
    'front',
    'rear',
  ]);
  expect(await page.locator('.fitted svg.drawing').count()).toBe(2);
});
