import { readFileSync } from 'node:fs';
import { gunzipSync } from 'node:zlib';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { embeddedIn } from '../../../src/report/embed.ts';
import { NotPacked } from '../../../src/report/packing/faults.ts';
import { unpack } from '../../../src/report/packing/pack.ts';

/** A page as springsift wrote it before brotli: the loaded estate, without what is only shown. */
const page = gunzipSync(readFileSync(new URL('./packing1.html.gz', import.meta.url))).toString('utf8');
const carried = /id="springsift-result">([\s\S]*?)<\/script>/.exec(page)?.[1] ?? '';
const sound = { schema: 'springsift-packed', version: 1, root: 0, texts: ['a'], lists: [], tables: [] };

test('a page of this packing gives its result of version 2, whose digest is right, and its bench', () => {
  expect(JSON.parse(carried)).toMatchObject({ schema: 'springsift-packed', version: 1, live: 'beside' });
  const found = embeddedIn(page);
  if (!found.ok) throw new Error(found.fault.kind);
  const { version, upgraded_from, scenario, setups, live } = found.result;
  expect({ version, upgraded_from, name: scenario.name }).toEqual({ version: 2, name: 'Loaded estate' });
  expect(setups[0]?.shortlist[0]?.id).toMatch(/^daily-F/);
  expect(live?.setups.length).toBeGreaterThan(0);
});

test('repeats, runs, numbers beside entries, empty lists and records are read', () => {
  const unpacked = (fields: object) => unpack({ ...sound, ...fields });
  const columns = [{ at: [0, 0] }, [3.2, 4.1], { at: [1, 1] }];
  const tables = [{ keys: ['check', 'shortfall', 'unit'], columns }];
  expect(unpacked({ root: 2, texts: ['coil bind', 'mm'], lists: [{ at: [3, 4] }], tables })).toEqual([
    { check: 'coil bind', shortfall: 3.2, unit: 'mm' },
    { check: 'coil bind', shortfall: 4.1, unit: 'mm' },
  ]);
  expect(unpacked({ root: 1, lists: [[7.5, 'x3', null, true]] })).toEqual([7.5, 7.5, 7.5, null, true]);
  const texts = ['a', 'b', 'c', 'x3'];
  expect(
    unpacked({
      root: 4,
      texts,
      lists: [{ at: [0, '+3', 'x2', [1], false, 5, 6] }, []],
      tables: [{ keys: [], columns: [] }],
    }),
  ).toEqual(['a', 'b', 'c', 'x3', 'x3', 1, false, [], {}]);
  const named = unpacked({ root: 1, tables: [{ keys: ['__proto__', '7'], columns: [[1], [2]] }] });
  expect(JSON.stringify(named)).toBe('{"7":2,"__proto__":1}');
  expect(unpacked({ root: [7] })).toBe(7);
});

describe('what was never written so is refused, with its place', () => {
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
    ['a run of more rows than any page has', { ...sound, lists: [[1, 'x10000000']] }, 'lists[0][1]'],
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

  test('lists that are shared in the page and would stand apart in memory', () => {
    const lists = [{ at: [] }, { at: [0, 'x2100'] }, { at: [1, 'x2100'] }];
    const refuse = () => unpack({ ...sound, texts: [], root: 2, lists });
    // 2100 times 2100 empty lists: few signs, much memory.
    expect(refuse).toThrow('too large');
  });

  test('texts and keys that are repeated beyond what a text can hold', () => {
    const word = 'a'.repeat(9_000);
    expect(() => unpack({ ...sound, root: 1, texts: [word], lists: [{ at: [0, 'x10000'] }] })).toThrow('too large');
    const tables = [{ keys: [word], columns: [[1, 'x10000']] }];
    const lists = [{ at: [1, '+9999'] }];
    expect(() => unpack({ ...sound, root: 0, texts: [], lists, tables })).toThrow('too large');
  });
});

test('whatever sign of a page of this packing is lost or changed, its result is refused or the same', () => {
  const start = page.indexOf('{"sha256"');
  const whole = JSON.stringify(embeddedIn(page));
  const sign = fc.constantFrom('', '"', '[', ']', ',', '0', '9', 'x', '+', '-', '{');
  fc.assert(
    fc.property(fc.nat(carried.length), sign, (at, put) => {
      const found = embeddedIn(page.slice(0, start + at) + put + page.slice(start + at + 1));
      if (found.ok) expect(JSON.stringify(found)).toBe(whole);
      else
        expect(['cut off', 'no JSON', 'damaged', 'newer', 'input changed', 'result changed', 'no result']).toContain(
          found.fault.kind,
        );
    }),
    { numRuns: 150 },
  );
});
