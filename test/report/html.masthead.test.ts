import { expect, test } from 'vitest';
import type { InputWarning } from '../../src/model/scenario.ts';
import { reportHtml, warningsView } from '../../src/report/html.ts';
import { HIDDEN, HOSTILE, result } from './fixture.ts';

const warning = (line: number, change: Partial<InputWarning> = {}): InputWarning => ({
  ...{ file: 'scenario.yaml', line, column: 7, found: '`ledge_height` of `15.5 mm`', usual: '40 mm to 350 mm' },
  advice: 'a factor of ten, `155 mm`? A figure that is right may stay',
  ...change,
});

test('a warning is told with its place and in quotes instead of backticks; without one there is no view', () => {
  expect(warningsView(result())).toBeNull();
  expect(warningsView(result({ warnings: [warning(12)] }))).toEqual({
    count: 'One figure is not usual',
    shown: [
      {
        place: 'scenario.yaml, line 12, column 7',
        found: '“ledge_height” of “15.5 mm”',
        usual: '40 mm to 350 mm',
        advice: 'A factor of ten, “155 mm”? A figure that is right may stay',
      },
    ],
    more: '',
  });
});

test('six are shown, so that the answer stays near, and the others are counted', () => {
  const view = warningsView(result({ warnings: Array.from({ length: 9 }, (_, k) => warning(k + 1)) }));
  expect(view?.count).toBe('9 figures are not usual');
  expect(view?.shown).toHaveLength(6);
  expect(view?.more).toBe('And 3 more');
});

test('the page shows them above the answer, on screen and on paper, and nothing where there are none', async () => {
  const page = await reportHtml(result({ warnings: [warning(12)] }));
  const at = page.indexOf('id="input-warnings"');
  expect(at).toBeGreaterThan(0);
  expect(at).toBeLessThan(page.indexOf('id="answer"'));
  expect(page.slice(at - 200, page.indexOf('</header>', at))).not.toContain('on-screen');
  expect(page.slice(at, at + 900)).toMatch(
    /scenario\.yaml, line 12, column 7.*15\.5 mm.*usual: 40 mm to 350 mm.*A factor of ten/s,
  );
  expect(await reportHtml(result())).not.toContain('id="input-warnings"');
});

test('hostile names in a warning stay text', async () => {
  const page = await reportHtml(result({ warnings: [warning(1, { found: HOSTILE })] }));
  const visible = page.slice(page.indexOf('id="input-warnings"'), page.indexOf('</header>'));
  expect(visible).not.toContain('<script');
  for (const sign of HIDDEN) expect(visible).not.toContain(sign);
});
