/** Tables of springs as shops and spreadsheets write them. All names, prices and addresses are invented. */
import { expect, test } from 'vitest';
import { readCatalogue } from '../../../src/input/catalogue/catalogue.ts';

const problemsIn = async (text: string) =>
  readCatalogue(text).problems.map(({ line, column, found, advice }) => `${line}:${column} ${found}: ${advice}`);

/** The three springs that every sample holds; 8 in, 250 lbf/in and so on by NIST SP 811, App. B.8. */
const INCH = 25.4;
const LBF_PER_IN = (0.45359237 * 9.80665) / 25.4;

const GERMAN = [
  '\uFEFFBestellnr.;Bore (mm);Name;Free length, mm;Rate [N/mm];Solid height in mm;Price;Shop',
  '',
  'F-1803;61,5;"Feder ""weich""";180;52,5;78,25;62,00;Federhof',
  ';;;;;;;',
  'F-2004;61,5;"Feder; hart";200;1.062,5;100;1.250,90;Federhof;;',
  '',
].join('\r\n');

const IMPERIAL = [
  'Part number\tSpring rate\tFree length\tInside diameter\tlink',
  'SX-1\t250 lb/in\t8 in\t2 1/2 in\thttps://springs.example/a?x=1&y=2',
  'SX-2\t300 lbs/inch\t7½ in\t2.5"\t',
  'SX-3\t61.3 N/mm\t8-1/4 in\t63.5 mm\twww.springs.example',
].join('\n');

test('semicolons, decimal commas, thousands, a mark at the start, CRLF, blank rows, quotes, columns in any order', async () => {
  const { springs, problems, separator, hasCommas } = readCatalogue(GERMAN);
  expect(problems).toEqual([]);
  expect([separator, hasCommas]).toEqual([';', true]);
  expect(springs).toMatchObject([
    { line: 3, name: 'Feder "weich"', freeLength: 180, rate: 52.5, bore: 61.5, solidHeight: 78.25, price: 62 },
    { line: 5, name: 'Feder; hart', freeLength: 200, rate: 1062.5, bore: 61.5, solidHeight: 100, price: 1250.9 },
  ]);
  expect(springs[1]?.notes).toEqual([
    { column: 'Bestellnr.', text: 'F-2004' },
    { column: 'Shop', text: 'Federhof' },
  ]);
});

test('tabs, units in cells, fractions of an inch and inch marks', async () => {
  const { springs, problems } = readCatalogue(IMPERIAL.replace('2.5"', '"2.5"""'));
  expect(problems).toEqual([]);
  const near = (value: number) => expect.closeTo(value, 9);
  expect(springs.map(({ freeLength, bore, rate }) => [freeLength, bore, rate])).toEqual([
    [near(8 * INCH), near(2.5 * INCH), near(250 * LBF_PER_IN)],
    [near(7.5 * INCH), near(2.5 * INCH), near(300 * LBF_PER_IN)],
    [near(8.25 * INCH), near(63.5), near(61.3)],
  ]);
  expect(springs[1]?.notes).toEqual([{ column: 'Part number', text: 'SX-2' }]);
});

const HEADER = 'free_length_mm;rate_n_per_mm;bore_mm';

test.each([
  ['a comma before three digits', `${HEADER}\n180;60;1,250\n`, '2:8 `1,250`, which', '`1.25`', '`1250`'],
  ['the same with a unit', `${HEADER}\n180;1,250 N/mm;61\n`, '2:5 `1,250 N/mm`, which', '`1.25 N/mm`', '`1250 N/mm`'],
  ['three decimals that count', `${HEADER}\n180;60;"9,525"\n`, '2:8 `9,525`, which', '`9.5250`', '`9525`'],
  ['a point beside decimal commas', `${HEADER}\n180;60;61,5\n1.250;60;61\n`, '3:1 `1.250`, which', '`1.25`', '`1250`'],
  ['a unit that is not the one of the column', `${HEADER}\n8 in;60;61\n`, '2:1 `8 in` in the column', '`203.2`', '`8`'],
])('%s is asked about, with both meanings', async (_, text, found, one, other) => {
  const [problem, ...more] = await problemsIn(text);
  expect(more).toEqual([]);
  expect(problem).toContain(found);
  expect(problem).toContain(one);
  expect(problem).toContain(other);
  // Each of the two is read without another question.
  const [written = ''] = /(?<=`)[^`]+(?=`)/.exec(found) ?? [];
  for (const meant of [one, other]) {
    const { problems } = readCatalogue(text.replace(written, meant.replaceAll('`', '')));
    expect(problems.filter(({ found: left }) => left.includes('two ways') || left.includes('in the column'))).toEqual(
      [],
    );
  }
});

test.each([
  ['1 250', 1250],
  ["1'250,5", 1250.5],
  ['1.250,5', 1250.5],
  ['1,250.5', 1250.5],
  ['0,125', 0.125],
  [',5', 0.5],
  ['12,', null],
  ['1.2.3', null],
  ['12,34,567', null],
  ['1 1/0', null],
  ['1e2', 100],
])('`%s` has one meaning or none', async (cell, rate) => {
  const { springs, problems } = readCatalogue(`${HEADER}\n180;${cell};61\n`);
  expect(springs.map((spring) => spring.rate)).toEqual(rate === null ? [] : [rate]);
  expect(problems.map(({ found }) => found)).toEqual(rate === null ? [`\`${cell}\``] : []);
});

test('points alone are decimal points, as ever', async () => {
  const { springs } = readCatalogue('free_length_mm,rate_n_per_mm,bore_mm\n180.125,52.535,61\n');
  expect(springs).toMatchObject([{ freeLength: 180.125, rate: 52.535 }]);
});

test('a number without a unit is asked about: in its cell where others have one, else in the header', async () => {
  const some = await problemsIn('free_length;rate_n_per_mm;bore_mm\n8 in;60;61\n7;60;61\n');
  expect(some).toEqual([expect.stringContaining('3:1 `7` without a unit: write `7 mm` (or')]);
  const none = await problemsIn('rate_n_per_mm;free_length;bore_mm\n60;8;61\n60;9;61\n');
  expect(none).toEqual([expect.stringMatching(/^1:15 the column `free_length` without a unit: put the unit/)]);
});

test.each([
  ['180 kg', '2:1 `180 kg`, whose unit `kg` does not fit here'],
  ['long', '2:1 `long`: write a number, like `17.5`, with a unit'],
])('a cell of %s is refused', async (cell, found) => {
  expect(await problemsIn(`${HEADER}\n${cell};60;61\n`)).toEqual([expect.stringContaining(found)]);
});

test('a price with a currency is refused: the scenario names it', async () => {
  const problems = await problemsIn(`${HEADER};price\n180;60;61;62 EUR\n`);
  expect(problems).toEqual(['2:11 `62 EUR`: write a number, like `17.5`, without a unit']);
});

test('a column nearly called like a known one is asked about, and is text where it says so', async () => {
  const asked = await problemsIn(`${HEADER};Sold height mm\n180;60;61;78\n`);
  expect(asked).toEqual([
    expect.stringContaining('did you mean `solid_height_mm`? If it is text to keep, call it `note Sold height mm`'),
  ]);
  const { springs, problems } = readCatalogue(`${HEADER};note Sold height mm;date;;\n180;60;61;78;May;;x\n`);
  expect(problems.map(({ found }) => found)).toEqual(['the unknown column `date`']);
  expect(springs).toEqual([]);
  const kept = readCatalogue(`${HEADER};note Sold height mm;note: date;;\n180;60;61;78;May;;x\n`);
  expect(kept.springs[0]?.notes).toEqual([
    { column: 'Sold height mm', text: '78' },
    { column: 'date', text: 'May' },
    { column: 'column 7', text: 'x' },
  ]);
});

test('a missing column names those that were kept as text, and a column of text stands there once', async () => {
  const [missing] = await problemsIn('length;rate_n_per_mm;bore_mm\n180;60;61\n');
  expect(missing).toContain('or rename the one that holds it: `length`');
  expect(await problemsIn(`${HEADER};shop;shop\n180;60;61;a;b\n`)).toEqual([
    expect.stringContaining('1:43 the column `shop` twice'),
  ]);
});

test('text of more than 2000 characters is refused in its cell', async () => {
  expect(await problemsIn(`${HEADER};shop\n180;60;61;${'x'.repeat(2001)}\n`)).toEqual([
    expect.stringMatching(/^2:11 .*shorten the text$/),
  ]);
});

test('two rows that differ in text alone are the same spring', async () => {
  const [problem] = await problemsIn(`${HEADER};shop\n180;60;61;a\n180;60;61;b\n`);
  expect(problem).toContain('the same spring as in line 2');
});
