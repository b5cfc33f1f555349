import { expect, test } from 'vitest';
import { pageScript } from '../../../src/report/frame/templates.ts';

test('the page’s own script is made from its sources: one minified file of at most 8 KB, the same every time', async () => {
  const text = await pageScript('page');
  expect(Buffer.byteLength(text)).toBeLessThanOrEqual(8192);
  expect(await pageScript('page')).toBe(text);
  expect(text).toMatch(/^\(\(\)=>\{/);
});

test('it runs without eval, ends no script element, and writes no markup', async () => {
  const text = await pageScript('page');
  expect(text).not.toMatch(/\beval\b|\bFunction\(|innerHTML|outerHTML|insertAdjacentHTML|document\.write/);
  expect(text).not.toMatch(/<\/script|<!--/i);
});

test('a script that nobody wrote says what to do', async () => {
  await expect(pageScript('no-such-script')).rejects.toThrow(/was not built: run npm run build/);
});
