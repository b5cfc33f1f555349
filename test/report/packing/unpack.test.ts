import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Result } from '../../../src/domain/result.ts';
import { resultsJson } from '../../../src/report/json.ts';
import type { Json } from '../../../src/report/packing/format.ts';
import { pack } from '../../../src/report/packing/pack.ts';
import { NewerPacking, NotPacked, unpack } from '../../../src/report/packing/unpack.ts';
import { SCENARIOS, sweptScenario } from '../../setup/scenarios.ts';

/** Through text, as a page carries it. */
const throughText = (data: unknown) => unpack(JSON.parse(JSON.stringify(pack(data))));

/** Values that repeat each other, as results do: few keys, few texts, records within records. */
const repetitive = fc.letrec<{ value: Json; record: Json }>((tie) => ({
  value: fc.oneof(
    { weight: 3, arbitrary: fc.constantFrom<Json>(0, 1, 2, 12.5, -1e-7, null, true, false, '', 'x2', 'a', '1') },
    { weight: 2, arbitrary: tie('record') },
    { weight: 2, arbitrary: fc.array(tie('value'), { maxLength: 6 }) },
  ),
  record: fc.dictionary(fc.constantFrom('a', 'b', 'at', 'x2', '__proto__', '7'), tie('value'), {
    maxKeys: 4,
  }) as fc.Arbitrary<Json>,
})).value;

describe('what was packed comes back', () => {
  test('any JSON value, its keys in their order', () => {
    fc.assert(
      fc.property(fc.oneof(fc.jsonValue({ maxDepth: 6 }), repetitive), (value) => {
        const text = JSON.stringify(value);
        expect(JSON.stringify(throughText(value))).toBe(text);
        expect(throughText(value)).toEqual(JSON.parse(text));
      }),
      { numRuns: 2000 },
    );
  });

  test.each(SCENARIOS)(
    'the result of %s, to the same bytes of results.json, in less than a third of the room',
    { timeout: 240_000 },
    async (name) => {
      const result = await sweptScenario(name);
      const text = JSON.stringify(result);
      const packed = JSON.stringify(pack(result));
      const back = unpack(JSON.parse(packed)) as unknown as Result;
      expect(back).toEqual(JSON.parse(text));
      expect(resultsJson(back)).toBe(resultsJson(result));
      expect(packed.length).toBeLessThan(text.length / 3);
    },
  );

  test('mixed lists and columns, repeats, empty records and lists, a record in itself again', () => {
    const values: readonly unknown[] = [
      [1, 'a', 1, null, true, [1], ['x2'], {}, [], [[]], {}],
      [{ a: 1 }, { a: 'one' }, { a: null }, { a: { a: { a: 1 } } }],
      [0, 0, 0, 0, 0, 0, 0, 1],
      'x3',
      7,
      null,
      {},
    ];
    for (const value of values) expect(JSON.stringify(throughText(value))).toBe(JSON.stringify(value));
  });

  test('what JSON has no word for comes back as JSON writes it', () => {
    expect(throughText({ a: undefined, b: -0, c: Number.NaN, d: [undefined] })).toEqual({ b: 0, c: null, d: [null] });
  });
});

test('a small value packs to what the format’s example shows', () => {
  const failures = [
    { check: 'coil bind', shortfall: 3.2, unit: 'mm' },
    { check: 'coil bind', shortfall: 4.1, unit: 'mm' },
  ];
  expect(pack(failures)).toEqual({
    schema: 'springsift-packed',
    version: 1,
    root: 2,
    texts: ['coil bind', 'mm'],
    lists: [{ at: [3, 4] }],
    tables: [{ keys: ['check', 'shortfall', 'unit'], columns: [{ at: [0, 0] }, [3.2, 4.1], { at: [1, 1] }] }],
  });
  expect(pack([7.5, 7.5, 7.5]).lists).toEqual([[7.5, 'x3']]);
  const five = pack(['a', 'b', 'c', 'd', 'e', 'e', 'e', 'e', 'e', 'e']);
  expect(five.lists).toEqual([{ at: [0, '+4', 'x6'] }]);
  expect(pack(['a', 'b', 'c', 'd', 'e']).lists).toEqual([{ at: [0, '+4'] }]);
});

describe('what pack never writes is refused, with its place', () => {
  const sound = { schema: 'springsift-packed', version: 1, root: 0, texts: ['a'], lists: [], tables: [] };
  const cases: readonly (readonly [string, unknown, string])[] = [
    ['no record', 7, 'the whole'],
    ['another schema', { ...sound, schema: 'other' }, 'schema'],
    ['no version', { ...sound, version: '1' }, 'version'],
    ['a text that is none', { ...sound, texts: [1] }, 'texts[0]'],
    ['an entry that is not there', { ...sound, root: 5 }, 'entry 5'],
    ['half an entry', { ...sound, root: 0.5 }, 'entry 0.5'],
    ['an entry below 0', { ...sound, root: -1 }, 'entry -1'],
    ['no root', { ...sound, root: undefined }, 'a cell'],
    ['a list of nothing', { ...sound, lists: [null] }, 'lists[0]'],
    ['a repeat at the start', { ...sound, lists: [['x3']] }, 'lists[0][0]'],
    ['an endless repeat', { ...sound, lists: [[1, 'x999999999999']] }, 'lists[0][1]'],
    ['a run among plain values', { ...sound, lists: [[1, '+3']] }, 'lists[0][1]'],
    ['a run of what is no number', { ...sound, lists: [{ at: [null, '+3'] }] }, 'lists[0][1]'],
    ['a text among plain values', { ...sound, lists: [[1, 'a']] }, 'lists[0][1]'],
    ['columns too few', { ...sound, tables: [{ keys: ['a'], columns: [] }] }, 'tables[0].columns'],
    [
      'columns of two lengths',
      { ...sound, tables: [{ keys: ['a', 'b'], columns: [[1], [1, 2]] }] },
      'tables[0].columns[1]',
    ],
    ['a key twice', { ...sound, tables: [{ keys: ['a', 'a'], columns: [[1], [1]] }] }, 'tables[0].keys'],
    ['a list in itself', { ...sound, root: 1, lists: [{ at: [1] }] }, 'entry 1'],
  ];
  test.each(cases)('%s', (_, packed, where) => {
    const thrown = (() => {
      try {
        return unpack(packed);
      } catch (error) {
        return error;
      }
    })();
    expect(thrown).toBeInstanceOf(NotPacked);
    expect((thrown as NotPacked).where).toBe(where);
  });

  test('lists that unfold to more than any memory holds', () => {
    const lists = Array.from({ length: 40 }, (_, k) => (k === 0 ? [1] : { at: [k - 1, k - 1] }));
    expect(() => unpack({ ...sound, texts: [], root: 39, lists })).toThrow(NotPacked);
  });

  test('a later version is told apart', () => {
    expect(() => unpack({ ...sound, version: 2 })).toThrow(NewerPacking);
  });
});
