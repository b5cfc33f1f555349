import { expect, test } from 'vitest';
import { reportHtml } from '../../src/report/html.ts';
import { planned } from '../report/planFixture.ts';
import { accessibilityViolations, openPage } from './harness.ts';

test.each([
  ['a plan', await reportHtml(planned())],
  ['no plan', await reportHtml(planned({ plans: [] }))],
])('the page with %s is accessible and does not scroll sideways, on a desk and on a phone', async (_, html) => {
  for (const width of [1280, 390]) {
    const { page, errors, requests } = await openPage(html, { viewport: { width, height: 844 } });
    expect({ errors, requests }).toEqual({ errors: [], requests: [] });
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(width);
    expect(await accessibilityViolations(page)).toEqual([]);
  }
});
