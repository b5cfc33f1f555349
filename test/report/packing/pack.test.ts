import { brotliCompressSync, constants } from 'node:zlib';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { resultsJson } from '../../../src/report/embed.ts';
import { NewerPacking, NotPacked } from '../../../src/report/packing/faults.ts';
import { pack, unpack } from '../../../src/report/packing/pack.ts';
import type { Result } from '../../../src/result/result.ts';
import { SCENARIOS, sweptScenario } from '../../setup/scenarios.ts';

/** Through text, as a page carries it. */
const packed = async (data: unknown) => JSON.stringify(await pack(JSON.stringify(data)));
const throughText = async (data: unknown) => unpack(JSON.parse(await packed(data)));

describe('what was packed comes back', () => {
  test('any JSON value, its keys in their order', async () => {
    await fc.assert(
      fc.asyncProperty(fc.jsonValue({ maxDepth: 6 }), async (value) => {
        const text = JSON.stringify(value);
        const back = await throughText(value);
        expect(JSON.stringify(back)).toBe(text);
        expect(back).toEqual(JSON.parse(text));
      }),
      { numRuns: 500 },
    );
  });

  test.each(SCENARIOS)(
    'the result of %s, to the same bytes of results.json, in less than a tenth of the room, packed the same each time',
    { timeout: 240_000 },
    async (name) => {
      const result = await sweptScenario(name);
      const text = JSON.stringify(result);
      const once = await packed(result);
      const back = unpack(JSON.parse(once)) as Result;
      expect(back).toEqual(JSON.parse(text));
      expect(resultsJson(back)).toBe(resultsJson(result));
      expect(once.length).toBeLessThan(text.length / 10);
      expect(await packed(back)).toBe(once);
    },
  );

  test('what JSON has no word for comes back as JSON writes it', async () => {
    expect(await throughText({ a: undefined, b: -0, c: Number.NaN, d: [undefined] })).toEqual({
      b: 0,
      c: null,
      d: [null],
    });
  });
});

function faultOf(packed: unknown, most?: { readonly bytes: number; readonly values: number }): unknown {
  try {
    return unpack(packed, most);
  } catch (error) {
    return error;
  }
}

const FAST = { params: { [constants.BROTLI_PARAM_QUALITY]: 1 } };
const nothing = await pack('null');
const holding = (text: string | Buffer) => ({
  ...nothing,
  brotli: brotliCompressSync(text, FAST).toString('base64'),
});
const long = holding(JSON.stringify('-'.repeat(10_000)));

const sound = await pack('["a"]');

describe('what pack never writes is refused, with its place', () => {
  const cases: readonly (readonly [string, unknown, string, RegExp])[] = [
    ['no record', 7, 'the whole', /not a record/],
    ['another schema', { ...sound, schema: 'other' }, 'schema', /not springsift-packed/],
    ['no version', { ...sound, version: '2' }, 'version', /not 2/],
    ['version 0', { ...sound, version: 0 }, 'version', /not 2/],
    ['nothing packed', { ...sound, brotli: undefined }, 'brotli', /not a text/],
    ['signs that are not of base64', { ...sound, brotli: `${sound.brotli}!` }, 'brotli', /not base64/],
    ['the end cut off', { ...long, brotli: long.brotli.slice(0, 8) }, 'brotli', /does not unfold/],
    ['what is not packed', { ...sound, brotli: Buffer.from('["a"]').toString('base64') }, 'brotli', /does not unfold/],
    ['no JSON', holding('["a",'), 'brotli', /stops being JSON at sign 6$/],
  ];
  test.each(cases)('%s', (_, packed, where, what) => {
    const fault = faultOf(packed);
    expect(fault).toBeInstanceOf(NotPacked);
    expect(fault).toMatchObject({ where, message: expect.stringMatching(what) });
  });

  test('a later version is told apart', () => {
    expect(faultOf({ ...sound, version: 3 })).toBeInstanceOf(NewerPacking);
  });

  test('what unfolds to more bytes or values than is read is refused, and just as many are not', () => {
    const most = { bytes: 10_002, values: 3 };
    expect(faultOf(long, most)).toBe('-'.repeat(10_000));
    expect(faultOf(long, { ...most, bytes: 10_001 })).toMatchObject({
      where: 'brotli',
      message: /more than 0\.010001 MB/,
    });
    expect(faultOf(holding('[{},1]'), most)).toEqual([{}, 1]);
    expect(faultOf(holding('[{},[]]'), most)).toMatchObject({
      where: 'brotli',
      message: /more than 0\.000003 million values/,
    });
  });

  test('a small page made to fill the memory is refused at once', () => {
    const zeros = holding(Buffer.alloc(300_000_000, '0'));
    expect(zeros.brotli.length).toBeLessThan(100_000);
    expect(faultOf(zeros)).toMatchObject({ message: /more than 256 MB/ });
    const lists = holding(`[${'[],'.repeat(6_000_000)}0]`);
    expect(faultOf(lists)).toMatchObject({ message: /more than 10 million values/ });
  });
});

test('whatever is done to a packed text, it comes back the same or is refused, or is another JSON value', async () => {
  const value = { text: 'coil bind, 3.2 mm\n'.repeat(20), list: [1.5, null, true, { a: 'ü' }] };
  const { brotli, ...rest } = await pack(JSON.stringify(value));
  const sign = fc.constantFrom('', 'A', '/', '+', '=', '9', '"', '\u0000', 'é');
  fc.assert(
    fc.property(fc.nat(brotli.length), sign, fc.nat(3), (at, put, lost) => {
      const found = faultOf({ ...rest, brotli: brotli.slice(0, at) + put + brotli.slice(at + lost) });
      if (found instanceof Error) expect(found).toBeInstanceOf(NotPacked);
      else expect(JSON.stringify(found)).toBeTypeOf('string');
    }),
    { numRuns: 3000 },
  );
});
