import { expect, test } from 'vitest';
import { springsOf } from '../../../src/input/assemble/springs.ts';
import { estimate } from '../../../src/input/schema/springs.ts';
import { CATALOGUE, placeOf, problemsOf, readEdited, SCENARIO } from '../edit.ts';

test('a spring whose wire and coils are known has no rate of its own', async () => {
  const read = await readEdited([
    [
      '        rate: { from: 250 lbf/in, to: 350 lbf/in, step: 50 lbf/in }\n',
      '        wire: 10 mm\n        coils: 8\n',
    ],
  ]);
  const [spring] = read.ok ? read.scenario.axles.rear.options.spring : [];
  expect(spring).toMatchObject({ rateEstimated: true, solid: { source: 'wire x coils' } });
});

test('a grid spring that would be solid when free is a problem at its entry, said once', async () => {
  const problems = await problemsOf([
    ['from: 6 in, to: 8 in', 'from: 1 in, to: 8 in'],
    ['step: 50 lbf/in }\n', 'step: 50 lbf/in }\n        wire: 10 mm\n        coils: 8\n'],
  ]);
  expect(problems).toHaveLength(1);
  expect(problems[0]).toMatchObject(placeOf(SCENARIO, 'name: grid'));
  expect(problems[0]?.found).toContain('solid at its free length of 25.4 mm');
});

test('a catalogue row that cannot exist is a problem at its row', async () => {
  const rows = 'name,free_length_mm,rate_n_per_mm,bore_mm,wire_mm,coils\nA,180,55,61,10,8\nB,180,55,61,10,1.5\n';
  const problems = await problemsOf([], rows);
  expect(problems).toMatchObject([{ file: 'springs.csv', line: 3, column: 1 }]);
  expect(problems[0]?.found).toContain('no active coil');
});

test('a solid height no wire can have is a problem', async () => {
  const problems = await problemsOf([], CATALOGUE.replace('61,78,', '61,0.02,'));
  expect(problems[0]?.found).toContain('no wire has both');
});

test('the material of a row goes before that of the entry', async () => {
  const rows = 'free_length_mm,rate_n_per_mm,bore_mm,material\n180,55,61,music_wire\n181,55,61,\n';
  const read = await readEdited([['only:', 'estimate: { material: oil_tempered }\n        only:']], rows);
  const springs = read.ok ? read.scenario.axles.front.options.spring : [];
  expect(springs.map((spring) => spring.wire?.material)).toEqual(['music_wire', 'oil_tempered']);
  expect(read.ok && read.scenario.assumptions).toContainEqual(
    expect.objectContaining({ field: 'springs.csv: material', value: 'oil_tempered (1 of 2 springs)' }),
  );
});

test('prices in a catalogue need a currency too', async () => {
  const withoutPrices = SCENARIO.replaceAll(/,? *price: \d+,?/g, '').replace('currency: EUR\n', '');
  const problems = await problemsOf([[SCENARIO, withoutPrices]]);
  expect(problems.map(({ found }) => found)).toEqual(['prices without a currency']);
});

test('as many rows as a catalogue may have are taken: more than a call has room for arguments', () => {
  const sizes = {
    freeLength: 200,
    rate: 40,
    bore: 60,
    solidHeight: 90,
    wire: 10,
    totalCoils: 8,
    coating: 0,
    price: null,
  };
  const rows = Array.from({ length: 200_000 }, (_, k) => ({
    line: k + 2,
    name: `S${k}`,
    ...sizes,
    ends: null,
    material: null,
    notes: [],
  }));
  const catalogue = {
    columns: new Map(),
    springs: rows,
    separator: ',' as const,
    hasCommas: false,
    problems: [],
    file: { path: 'springs.csv', sha256: '', bytes: 0, text: '' },
  };
  const entry = { catalogue: 'springs.csv', estimate: estimate.parse({}) };
  const found = springsOf([entry], { byName: new Map([['springs.csv', catalogue]]), complaints: [] });
  expect(found.springs).toHaveLength(rows.length);
  expect(found.problems).toEqual([]);
});
