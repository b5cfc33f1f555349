import { expect, test } from 'vitest';
import { readCatalogue } from '../../../src/input/catalogue/catalogue.ts';

/** The columns that no catalogue can do without. */
const NEEDED = 'free_length_mm,rate_n_per_mm,bore_mm';
const ALL = `name,${NEEDED},solid_height_mm,wire_mm,coils,ends,coating_mm,material,price`;
const problemsIn = async (text: string) =>
  readCatalogue(text).problems.map(({ line, column, found }) => `${line}:${column} ${found}`);

test('a full row is read into inner units', async () => {
  const { springs, problems } = readCatalogue(`${ALL}\nA,180,60,61,92,9.5,8.5,closed_ground,0.2,chrome_silicon,62\n`);
  expect(problems).toEqual([]);
  expect(springs).toEqual([
    {
      ...{ line: 2, name: 'A', freeLength: 180, rate: 60, bore: 61, solidHeight: 92, wire: 9.5, totalCoils: 8.5 },
      ...{ ends: 'closed_ground', coating: 0.2, material: 'chrome_silicon', price: 62, notes: [] },
    },
  ]);
});

test('the unit of a column stands in its name', async () => {
  // 25.4 mm, 0.1751268 N/mm per lbf/in (NIST SP 811, Appendix B.8).
  const [spring] = readCatalogue('free_length_in,rate_lbf_per_in,bore_in\n7,350,2.5\n').springs;
  expect(spring?.freeLength).toBeCloseTo(177.8, 10);
  expect(spring?.rate).toBeCloseTo(350 * 0.1751268, 4);
  expect(spring?.bore).toBeCloseTo(63.5, 10);
  expect(spring?.name).toBe('177.8 mm 61.29 N/mm');
});

test('a row without rate but with wire and coils is legal', async () => {
  const { springs, problems } = readCatalogue('free_length_mm,bore_mm,wire_mm,coils\n180,61,9.5,8.5\n');
  expect(problems).toEqual([]);
  expect(springs[0]).toMatchObject({ rate: null, wire: 9.5, totalCoils: 8.5 });
});

test.each<[title: string, text: string, found: string]>([
  ['a short row of semicolons', 'free_length_mm;rate_n_per_mm;bore_mm\n180;60\n', '2:1 a row of 2 cells'],
  ['a long row of tabs', 'free_length_mm\trate_n_per_mm\tbore_mm\n180\t60\t61\t5\n', '2:1 a row of 4 cells'],
  ['a header alone', `${NEEDED}\n`, '1:1 a header without rows'],
  ['an unknown column', `${NEEDED},coil\n1,1,1,1\n`, '1:38 the unknown column `coil`'],
  [
    'a column without unit',
    'free_length,rate_n_per_mm,bore_mm\n1,1,1\n',
    '1:1 the column `free_length` without a unit',
  ],
  [
    'a wrong unit',
    'free_length_mm,rate_mm,bore_mm\n1,1,1\n',
    '1:16 the column `rate_mm`, whose unit `mm` does not fit',
  ],
  [
    'one quantity twice',
    'free_length_mm,free_length_in,rate_n_per_mm,bore_mm\n',
    '1:16 the columns `free_length_mm` and `free_length_in`',
  ],
  [
    'a missing column',
    'free_length_mm,rate_n_per_mm\n1,1\n',
    '1:1 no column `bore_mm`, `bore_cm`, `bore_m`, `bore_in` or `bore_ft`',
  ],
  ['a short row', `${NEEDED}\n1,1\n`, '2:1 a row of 2 cells'],
  ['a comma of two meanings', `${NEEDED}\n180,60,"1,615"\n`, '2:8 `1,615`'],
  ['a wrong unit in a cell', `${NEEDED}\n180 kg,60,61\n`, '2:1 `180 kg`'],
  ['an empty cell', `${NEEDED}\n180,60,\n`, '2:8 an empty cell'],
  ['neither rate nor wire', `${NEEDED},wire_mm\n180,,61,9\n`, '2:5 a row without rate and without wire and coils'],
  ['a negative number', `${NEEDED}\n180,-60,61\n`, '2:5 `-60`'],
  ['not a number', `${NEEDED}\n180,NaN,61\n`, '2:5 `NaN`'],
  ['unknown ends', `${NEEDED},ends\n180,60,61,close\n`, '2:11 `close`'],
  [
    'solid when free',
    `${NEEDED},solid_height_mm\n180,60,61,180\n`,
    '2:11 a solid height of 180 mm beside a free length of 180 mm',
  ],
  ['an open quote', `${NEEDED}\n180,60,"61\n181,60,61\n`, '2:1 a quote that is never closed'],
])('%s: the place and what was found', async (_, text, found) => {
  expect(await problemsIn(text)).toEqual([expect.stringContaining(found)]);
});

test('a row that repeats another says which', async () => {
  const rows = 'A,180,60,61\nB,180,60,61\nA,180,60,61\n';
  expect(await problemsIn(`name,${NEEDED}\n${rows}`)).toEqual(['4:1 the same spring as in line 2']);
});

test('all faults of all rows come at once, lines counted past empty lines and line breaks in quotes', async () => {
  const rows = '\n\n"A\nB",x,60,61\n\nC,180,y,z\n';
  expect(await problemsIn(`name,${NEEDED}\n${rows}`)).toEqual(['5:4 `x`', '7:9 `z`', '7:7 `y`']);
});

test('rows before a broken quote are still judged', async () => {
  const text = `${NEEDED}\nx,60,61\n181,60,"61\n182,60,61\n`;
  expect(await problemsIn(text)).toEqual(['2:1 `x`', '3:1 a quote that is never closed']);
});

test('rows of nothing but commas are passed over', async () => {
  const { springs, problems } = readCatalogue(`${NEEDED}\n,,\n180,60,61\n,,\n`);
  expect(problems).toEqual([]);
  expect(springs.map((spring) => spring.line)).toEqual([3]);
});

test('after 200 problems the rest is counted', async () => {
  const rows = Array.from({ length: 500 }, (_, i) => `${100 + i},x,61`).join('\n');
  const { problems } = readCatalogue(`${NEEDED}\n${rows}`);
  expect(problems).toHaveLength(201);
  expect(problems[200]?.found).toBe('300 further problems in this file');
});

test('50,000 rows are read', async () => {
  const rows = Array.from({ length: 50_000 }, (_, i) => `s${i},180,${20 + i / 1000},61,90,62`).join('\n');
  const { springs, problems } = readCatalogue(`name,${NEEDED},solid_height_mm,price\n${rows}`);
  expect(problems).toEqual([]);
  expect(springs).toHaveLength(50_000);
});

test('quotes in the middle of a cell end the reading at their row, as CSV that cannot be read', async () => {
  const [problem, ...others] = await problemsIn(`${NEEDED}\n180,60,61\n180,6"0,61\n`);
  expect(others).toEqual([]);
  expect(problem).toMatch(/^3:1 CSV that cannot be read/);
});

test.each([
  ['a unit on a name', `name_mm,${NEEDED}\nA,1,1,1\n`, 'the column `name_mm`, whose unit `mm` does not fit'],
  ['neither rate nor wire with coils', 'free_length_mm,bore_mm,wire_mm\n180,61,9\n', 'no column `rate_n_per_mm`'],
  ['one column twice', `free_length_mm,${NEEDED}\n`, 'the column `free_length_mm` twice'],
  ['a column called nearly like one', `coatng_mm,${NEEDED}\n1,1,1,1\n`, 'the unknown column `coatng_mm`'],
])('a header with %s is refused', async (_, text, found) => {
  expect((await problemsIn(text)).join('\n')).toContain(found);
});
