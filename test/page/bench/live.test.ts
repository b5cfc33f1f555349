import { expect, test } from 'vitest';
import { pageScript } from '../../../src/report/frame/templates.ts';

test('the bench with the whole model is one minified script of at most 90 KB, the same every time', async () => {
  const text = await pageScript('bench');
  expect(Buffer.byteLength(text)).toBeLessThanOrEqual(90 * 1024);
  expect(await pageScript('bench')).toBe(text);
});

test('it runs without eval, asks nobody, and ends no script element', async () => {
  const text = await pageScript('bench');
  expect(text).not.toMatch(/\beval\b|\bFunction\(|\bfetch\(|XMLHttpRequest|\bimport\(|WebSocket|document\.write/);
  expect(text).not.toMatch(/<\/script|<!--/i);
});
