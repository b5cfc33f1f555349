import { expect, test } from 'vitest';
import { explainText } from '../../../src/report/files/explain.ts';
import { explanation, HIDDEN, HOSTILE } from '../fixture.ts';

test('a formula stands in symbols, in numbers and with its value in both worlds', () => {
  expect(explainText(explanation())).toContain('W = m_s * g_n = 237 * 9.80665 = 2324.2 N (522.5 lbf)\n');
});

test('a value without a formula names its source, a given one is just given', () => {
  const text = explainText(explanation());
  expect(text).toContain('l_base = 412.3 mm (16.23 in)  [measured motion curve]\n');
  expect(text).toContain('L = 200.0 mm (7.87 in)\n');
});

test('groups have headings, axle by axle, then the pair and the score', () => {
  const text = explainText(explanation());
  const headings = text.split('\n').filter((_, k, all) => /^-{3,}$/.test(all[k + 1] ?? ''));
  expect(headings).toEqual([
    ...['Front F4F1: parts', 'Front: given', 'Front: standing'],
    ...['Rear R2K1: parts', 'Rear: given', 'Rear: standing'],
    ...['Front and rear together', 'Score (Derringer & Suich 1980)'],
  ]);
});

test('symbols of one group stand under each other', () => {
  const rows = explainText(explanation()).split('\n');
  const columns = rows.flatMap((row) => {
    const at = row.search(/(?:\bW|\bl_base) = /);
    return at < 0 ? [] : [at];
  });
  expect(columns).toHaveLength(4);
  expect(new Set(columns).size).toBe(1);
});

test('a formula too long for the line goes on below, broken before an equals sign', () => {
  const long = {
    symbol: 'F_g',
    label: 'gas push standing',
    dimension: 'force',
    source: 'gas law',
    group: 'standing',
    value: 150,
    expression: 'A_rod * ((p_g + p_a) * V_gas / (V_gas - A_rod * (l_ext - l_r)) - p_a)',
    filled: '201 * ((0.6 + 0.101325) * 220000 / (220000 - 201 * (510 - 430)) - 0.101325)',
  } as const;
  const rows = explainText(explanation({ pair: [long] })).split('\n');
  const first = rows.findIndex((row) => row.includes('F_g ='));
  expect(rows[first + 1]?.trim()).toBe(`= ${long.filled}`);
  expect(rows[first + 2]?.trim()).toBe('= 150.0 N (33.7 lbf)');
  expect(rows.filter((row) => row.length > 100)).toEqual([]);
});

test('failures and each flag once stand at the head', () => {
  const flag = { kind: 'estimate', message: 'Front: the solid height is an estimate.' } as const;
  const failure = { check: 'coil_bind', message: 'Coil bind.', shortfall: 3, unit: 'mm' } as const;
  const text = explainText(explanation({ workable: false, failures: [failure], flags: [flag, flag] }));
  expect(text).toMatch(/^low-F4F1-R2K1-7Q: does not work\n/);
  expect(text).toContain('coil bind: Coil bind.');
  expect(text.match(/solid height is an estimate/g)).toHaveLength(1);
});

test('hostile names reach the terminal as visible escapes', () => {
  const text = explainText(explanation({ scenarioName: HOSTILE, setup: HOSTILE }));
  expect(HIDDEN.filter((character) => text.includes(character))).toEqual([]);
  expect(text).toContain('\\u{1b}[2J');
});

test('a long name stands on a line of its own, a long formula under it', () => {
  const { axles } = explanation();
  const [first] = axles.front.lines;
  if (first === undefined) throw new Error('no line');
  const label = 'a name that is far too long to stand before its own formula on one line of the terminal';
  const long = {
    ...first,
    label,
    symbol: 'x',
    expression: `a + ${'b + '.repeat(30)}c`,
    filled: `1 + ${'2 + '.repeat(30)}3`,
  };
  const rows = explainText(explanation({ axles: { ...axles, front: { ...axles.front, lines: [first, long] } } })).split(
    '\n',
  );
  const at = rows.indexOf(`  ${label}`);
  expect(at).toBeGreaterThan(0);
  expect(rows[at + 1]?.trim()).toMatch(/^x/);
});
