import { readFileSync } from 'node:fs';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { parse } from 'csv-parse/sync';
import { expect, test } from 'vitest';
import type { CornerReport, Result, SideReport } from '../../../src/domain/result.ts';
import { shortlistCsv } from '../../../src/report/csv.ts';
import { reportHtml } from '../../../src/report/html.ts';
import { resultsJson } from '../../../src/report/json.ts';
import { answerView } from '../../../src/report/sections/answer.ts';
import { sidesView, thinnerSide } from '../../../src/report/sections/sides.ts';
import { sweepSummary } from '../../../src/report/summary.ts';
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
const best = { ...whole, axles: { ...whole.axles, front: lopsided } };
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
  const url = new URL('../../../src/report/results.schema.json', import.meta.url);
  const validate = new Ajv2020({ strict: true, allErrors: true, allowUnionTypes: true }).compile(
    JSON.parse(readFileSync(url, 'utf8')),
  );
  const { front: axle, rear } = shown.scenario.axles;
  const axles = { front: { ...axle, wheel_loads_kg: { left: 295, right: 275 } }, rear };
  validate(JSON.parse(resultsJson({ ...shown, scenario: { ...shown.scenario, axles } })));
  expect(validate.errors).toBeNull();
});
