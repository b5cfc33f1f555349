import { expect, test } from 'vitest';
import { cellsToEnter, numberIn } from '../../../src/audit/read/adopt.ts';
import { readCatalogue } from '../../../src/input/catalogue/catalogue.ts';
import { innerUnit } from '../../../src/model/units.ts';

async function loaded(text: string) {
  const catalogue = readCatalogue(text);
  expect(catalogue.problems).toEqual([]);
  return { ...catalogue, file: { path: 'springs.csv', sha256: '', bytes: text.length, text } };
}

const BARE = 'name,free_length_mm,rate_n_per_mm,wire_mm,coils,bore_mm\nA,180,50,9,6.8,60\n\nB,200,60,9.5,7,60\n';

test('rows are counted as a spreadsheet does, through quote line ends, empty rows and both line ends', async () => {
  const text =
    '\uFEFFname,Free_length_in,rate_n_per_mm,bore_mm\r\n\r\n"a, b",7,50,60\r\n"two\r\nlines",8,,60\r\nlast, 9 ,60,60';
  const catalogue = await loaded(text.replace('8,,60', '8,55,60'));
  const [, second, third] = catalogue.springs;
  if (!second || !third) throw new Error('three springs');
  const { cells, file } = cellsToEnter(catalogue, [
    { spring: third, values: { free_length: 9.02 * 25.4 } },
    { spring: second, values: { rate: 54.5 } },
  ]);
  expect(cells).toMatchObject([
    { row: 5, spring: 'last', column: 'Free_length_in', before: '9', after: '9.02', isNewColumn: false },
    { row: 4, column: 'rate_n_per_mm', before: '55', after: '54.5', isNewColumn: false },
  ]);
  const read = await loaded(file.text);
  expect(read.springs.map(({ freeLength }) => freeLength)).toEqual([
    expect.closeTo(7 * 25.4, 9),
    expect.closeTo(8 * 25.4, 9),
    expect.closeTo(9.02 * 25.4, 9),
  ]);
  expect(read.springs.map(({ rate, name }) => [name, rate])).toEqual([
    ['a, b', 50],
    [second.name, 54.5],
    ['last', 60],
  ]);
});

test('a column that the catalogue lacks is new for the first spring that needs it, and empty for the others', async () => {
  const catalogue = await loaded(BARE);
  const [a, b] = catalogue.springs;
  if (!a || !b) throw new Error('two springs');
  const { cells, file } = cellsToEnter(catalogue, [
    { spring: a, values: { solid_height: 63.5 } },
    { spring: b, values: { solid_height: 72 } },
  ]);
  const column = 'solid_height_mm';
  expect(cells).toEqual([
    { file: 'springs.csv', row: 2, spring: 'A', column, isNewColumn: true, before: '', after: '63.5' },
    { file: 'springs.csv', row: 4, spring: 'B', column, isNewColumn: false, before: '', after: '72' },
  ]);
  expect((await loaded(file.text)).springs.map((spring) => spring.solidHeight)).toEqual([63.5, 72]);
});

test('what both axles measured alike is entered once, and springs of other catalogues not at all', async () => {
  const [catalogue, other] = [await loaded(BARE), await loaded(BARE)];
  const measured = [catalogue, catalogue, other].flatMap(({ springs }) =>
    springs.slice(0, 1).map((spring) => ({ spring, values: { rate: 51 } })),
  );
  expect(cellsToEnter(catalogue, measured).cells).toHaveLength(1);
});

test('numbers lose the noise of binary fractions and nothing else', () => {
  const mm = innerUnit('length');
  expect(numberIn(0.1 + 0.2, mm)).toBe('0.3');
  expect(Math.abs(Number(numberIn(Math.PI, mm)) - Math.PI)).toBeLessThan(1e-11);
});
