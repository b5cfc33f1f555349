import { expect, test } from 'vitest';
import type { Combination, Result } from '../../../src/domain/result.ts';
import { reportHtml } from '../../../src/report/html.ts';
import { answerView } from '../../../src/report/sections/answer.ts';
import { shortlistView } from '../../../src/report/sections/shortlist.ts';
import { sweepSummary } from '../../../src/report/summary.ts';
import { combination, result, setup } from '../fixture.ts';

/** The fixture's best, its clearance of 9.6 mm 2.4 mm with the stop fully closed; null: full bump is that. */
function resultWith(closed: number | null): Result {
  const best = combination('low', 1);
  const { front, rear } = best.axles;
  const values = { ...front.values, thinnest_clearance_closed_mm: closed };
  const axles: Combination['axles'] = { front: { ...front, values }, rear };
  return result({ setups: [setup('low', { shortlist: [{ ...best, axles }] })] });
}

const WORDS = 'with the stop fully closed';

test('under a bump load answer, shortlist and terminal show the clearance twice, in those words', async () => {
  const shown = resultWith(2.4);
  const [low] = shown.setups as [Result['setups'][0]];
  const corner = answerView(shown, low).best?.corners[0];
  expect([corner?.thinnest.clearance.metric, corner?.thinnest.closed?.metric]).toEqual(['9.6', '2.4']);
  // Less than 3 mm beyond its margin: it stands among what to measure, with both figures.
  expect(answerView(shown, low).best?.thin.find(({ axle }) => axle === 'Front')).toMatchObject({
    clearance: '9.6',
    closed: '2.4',
  });
  expect(shortlistView(low).isUnderLoad).toBe(true);
  const page = await reportHtml(shown);
  expect(/2\.4\s?mm\s?\(0\.09\s?in\) with the stop fully closed/.test(page.replaceAll(/<[^>]*>|&nbsp;/g, ''))).toBe(
    true,
  );
  expect(page).toContain('<small>closed 2.4</small>');
  expect(page).toContain('closed: with the stop fully closed');
  expect(sweepSummary(shown).replaceAll(/\s+/g, ' ')).toContain(`9.6 mm (0.38 in) (2.4 mm (0.09 in) ${WORDS})`);
});

test('where full bump is the stop closed there is one figure, and no words about another', async () => {
  const shown = resultWith(null);
  const [low] = shown.setups as [Result['setups'][0]];
  expect(answerView(shown, low).best?.corners[0]?.thinnest.closed).toBeNull();
  expect(shortlistView(low).isUnderLoad).toBe(false);
  expect(sweepSummary(shown)).not.toContain(WORDS);
  expect(await reportHtml(shown)).not.toMatch(/closed: with the stop fully closed|<small>closed /);
});
