import { parse } from 'csv-parse/sync';
import { expect, test } from 'vitest';
import { resultsJson } from '../../../src/report/embed.ts';
import { shortlistCsv } from '../../../src/report/files/csv.ts';
import { sweepSummary } from '../../../src/report/files/summary.ts';
import { reportHtml } from '../../../src/report/html.ts';
import { answerView } from '../../../src/report/sections/answer.ts';
import { sidesView, thinnerSide } from '../../../src/report/sections/corner.ts';
import { shortlistView } from '../../../src/report/sections/shortlist.ts';
import type { CornerReport, Result, SideReport } from '../../../src/result/result.ts';
import { withCorner } from '../../compare/pages.ts';
import { validate } from '../../setup/resultSchema.ts';
import { combination, result, setup } from '../fixture.ts';

const whole = combination('low', 1);
const { front } = whole.axles;

/** Made-up numbers: what is tested is where they are shown. */
function side(load: number, perch: number, spare: number, failures: SideReport['failures'] = []): SideReport {
  const values = { ...front.values, wheel_load_kg: load, perch_mm: perch, thinnest_spare_mm: spare };
  return {
    values: { ...values, thinnest_clearance_mm: spare + 8 },
    words: { thinnest_contact: 'tyre on arch' },
    failures,
  };
}

const failure = { check: 'coil_bind', message: 'Coil bind.', shortfall: 1.5, unit: 'mm' } as const;
const lopsided: CornerReport = {
  ...front,
  tight: [],
  sides: { left: side(295, 181.2, 0.9, [failure]), right: side(275, 176.4, 40) },
};
const best = withCorner(whole, 'front', lopsided);
const low = setup('low', { shortlist: [best] });
const shown: Result = result({ setups: [low] });

test('the thinner side is named only where its clearance is nearer its margin than at the mean load', () => {
  expect(thinnerSide(lopsided)?.name).toBe('left');
  expect(thinnerSide({ ...lopsided, sides: { left: side(280, 179, 900), right: side(280, 179, 900) } })).toBeNull();
  expect(thinnerSide(front)).toBeNull();
  expect(sidesView(low, front)).toBeNull();
});

test('a thin side stands among what to measure before buying', () => {
  const [thin] = answerView(shown, low).best?.thin ?? [];
  expect(thin).toEqual({ axle: 'Front left', name: 'tyre on arch', clearance: '8.9', closed: null, spare: '0.9' });
});

test('the page gives a perch height for each side and says which side fails', async () => {
  const text = (await reportHtml(shown))
    .replace(/<(style|script)[\s\S]*?<\/\1>/g, '')
    .replace(/<[^>]*>/g, ' ')
    .replace(/&nbsp;/g, ' ')
    .replace(/\s+/g, ' ');
  expect(text).toMatch(/perch seat at 181\.2 mm \(7\.13 in\) left and 176\.4 mm \(6\.94 in\) right/);
  expect(text).toContain('fails: coil bind');
  expect(text).toContain('less on the left: 8.9 mm, tyre on arch, 0.9 mm beyond its margin');
});

test('terminal and spreadsheet give both sides', () => {
  // The terminal breaks lines where they get long.
  const terminal = sweepSummary(shown).replace(/\s+/g, ' ');
  expect(terminal).toContain('perch 181.2 mm (7.13 in) left, 176.4 mm (6.94 in) right above the lower eye');
  expect(terminal).toContain('on the left 8.9 mm (0.35 in), tyre on arch');
  const [row] = parse(shortlistCsv(shown), { columns: true, record_delimiter: '\r\n' }) as Record<string, string>[];
  expect(row).toMatchObject({ front_left_perch_mm: '181.2', front_right_perch_mm: '176.4' });
  expect(row).toMatchObject({ front_left_failing_checks: 'coil_bind', front_right_failing_checks: '' });
});

test('the schema of results knows sides and both loads', () => {
  const { front: axle, rear } = shown.scenario.axles;
  const axles = { front: { ...axle, wheel_loads_kg: { left: 295, right: 275 } }, rear };
  validate(JSON.parse(resultsJson({ ...shown, scenario: { ...shown.scenario, axles } })));
  expect(validate.errors).toBeNull();
});

/** The fixture's best, its clearance of 9.6 mm 2.4 mm with the stop fully closed; null: full bump is that. */
function resultWith(closed: number | null): Result {
  const values = { ...front.values, thinnest_clearance_closed_mm: closed };
  return result({ setups: [setup('low', { shortlist: [withCorner(whole, 'front', { values })] })] });
}

const WORDS = 'with the stop fully closed';

test('under a bump load answer, shortlist and terminal show the clearance twice, in those words', async () => {
  const given = resultWith(2.4);
  const [only] = given.setups as [Result['setups'][0]];
  const corner = answerView(given, only).best?.corners[0];
  expect([corner?.thinnest.clearance.metric, corner?.thinnest.closed?.metric]).toEqual(['9.6', '2.4']);
  // Less than 3 mm beyond its margin: it stands among what to measure, with both figures.
  expect(answerView(given, only).best?.thin.find(({ axle }) => axle === 'Front')).toMatchObject({
    clearance: '9.6',
    closed: '2.4',
  });
  expect(shortlistView(only).isUnderLoad).toBe(true);
  const page = await reportHtml(given);
  expect(/2\.4\s?mm\s?\(0\.09\s?in\) with the stop fully closed/.test(page.replaceAll(/<[^>]*>|&nbsp;/g, ''))).toBe(
    true,
  );
  expect(page).toContain('<small>closed 2.4</small>');
  expect(page).toContain('closed: with the stop fully closed');
  expect(sweepSummary(given).replaceAll(/\s+/g, ' ')).toContain(`9.6 mm (0.38 in) (2.4 mm (0.09 in) ${WORDS})`);
});

test('where full bump is the stop closed there is one figure, and no words about another', async () => {
  const given = resultWith(null);
  const [only] = given.setups as [Result['setups'][0]];
  expect(answerView(given, only).best?.corners[0]?.thinnest.closed).toBeNull();
  expect(shortlistView(only).isUnderLoad).toBe(false);
  expect(sweepSummary(given)).not.toContain(WORDS);
  expect(await reportHtml(given)).not.toMatch(/closed: with the stop fully closed|<small>closed /);
});
