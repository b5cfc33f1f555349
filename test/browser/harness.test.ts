import { expect, test } from 'vitest';
import { accessibilityViolations, COLOURS, openPage, printPage } from './harness.ts';

const QUIET = '<!doctype html><html lang="en"><head><meta charset="utf-8"><title>Quiet</title></head>';
const GOOD = `${QUIET}<body><main><h1>Spring</h1><p>Free length 180 mm</p></main></body></html>`;
const withBody = (body: string) => `${QUIET}<body><main><h1>Spring</h1>${body}</main></body></html>`;

test('a self-contained page leaves every record empty', async () => {
  const { page, requests, messages, errors } = await openPage(GOOD);
  expect({ requests, messages, errors }).toEqual({ requests: [], messages: [], errors: [] });
  expect(await accessibilityViolations(page)).toEqual([]);
});

test('a request is recorded and refused, to the web as well as to a neighbouring file', async () => {
  const { requests } = await openPage(withBody('<img alt="" src="https://example.org/a.png"><img alt="" src="b.png">'));
  expect(requests).toContain('https://example.org/a.png');
  expect(requests.some((address) => address.startsWith('file:') && address.endsWith('/b.png'))).toBe(true);
});

test('a console message and an uncaught error are recorded', async () => {
  const { messages, errors } = await openPage(
    withBody('<script>console.warn("stop cut short"); throw new Error("no such seat")</script>'),
  );
  expect(messages).toContain('warning: stop cut short');
  expect(errors).toEqual(['no such seat']);
});

test('an accessibility violation is found even where the page forbids foreign scripts', async () => {
  const policy = '<meta http-equiv="Content-Security-Policy" content="default-src \'none\'">';
  const { page } = await openPage(withBody('<button></button>').replace('</head>', `${policy}</head>`));
  const violations = await accessibilityViolations(page);
  expect(violations.map((violation) => violation.id)).toContain('button-name');
});

test('of texts that look alike one is measured: a pale one among them is found, wherever it gets its colour from', async () => {
  const row = (style: string, inner = '') => `<p style="${style}">text <b style="${inner}">more</b></p>`;
  const pale = { own: row('color: #ccc'), within: row('', 'color: #ccc'), around: row('background: #222') };
  const alike = row('').repeat(5);
  const found = async (body: string) => {
    const { page } = await openPage(withBody(body));
    return (await accessibilityViolations(page, { rules: COLOURS })).map(({ id, nodes }) => [id, nodes.length]);
  };
  expect(await found(alike)).toEqual([]);
  expect(await found(`${alike}<p><b></b></p>${pale.own}${alike}`)).toEqual([['color-contrast', 2]]);
  expect(await found(`${alike}${pale.within}${pale.within}`)).toEqual([['color-contrast', 1]]);
  expect(await found(`${alike}${pale.around}`)).toEqual([['color-contrast', 2]]);
  expect(await found(`<p style="color: #ccc"></p>${pale.own}`)).toEqual([['color-contrast', 2]]);
});

test('scripts stay silent with JavaScript off', async () => {
  const { page, messages } = await openPage(withBody('<noscript>plain</noscript><script>console.log("on")</script>'), {
    javaScript: false,
  });
  expect(messages).toEqual([]);
  expect(await page.locator('noscript').isVisible()).toBe(true);
});

test('colour scheme and viewport are those asked for', async () => {
  const style =
    '<style>p { color: rgb(1, 1, 1) } @media (prefers-color-scheme: dark) { p { color: rgb(2, 2, 2) } }</style>';
  const { page } = await openPage(withBody(`${style}<p>dark</p>`), {
    colorScheme: 'dark',
    viewport: { width: 390, height: 844 },
  });
  expect(await page.evaluate(() => getComputedStyle(document.querySelector('p') as Element).color)).toBe(
    'rgb(2, 2, 2)',
  );
  expect(await page.evaluate(() => window.innerWidth)).toBe(390);
});

test('printing counts its pages', async () => {
  const { page } = await openPage(
    withBody('<p style="break-before: page">second</p><p style="break-before: page">third</p>'),
  );
  const { bytes, pages } = await printPage(page, 'A4');
  expect(bytes.subarray(0, 5).toString()).toBe('%PDF-');
  expect(pages).toBe(3);
});

test('text is drawn with the glyphs of a proportional typeface', async () => {
  const { page } = await openPage(withBody('<span id="i">iiii</span><br><span id="w">wwww</span>'));
  const width = (id: string) =>
    page.evaluate((name) => document.getElementById(name)?.getBoundingClientRect().width ?? 0, id);
  expect(await width('i')).toBeGreaterThan(0);
  expect(await width('w')).toBeGreaterThan(1.5 * (await width('i')));
});
