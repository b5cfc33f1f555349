import { readFileSync } from 'node:fs';
import { brotliCompressSync, constants } from 'node:zlib';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { draftInReport } from '../../../src/page/form/report.ts';
import { RESULT_ELEMENT } from '../../../src/report/packing/element.ts';
import { pack } from '../../../src/report/packing/pack.ts';

const pageOf = (packed: unknown) =>
  `<script type="application/json" id="${RESULT_ELEMENT}">${JSON.stringify(packed)}</script>`;
/** What unfolds to these bytes. */
const folded = (bytes: Buffer, quality = 1) =>
  brotliCompressSync(bytes, { params: { [constants.BROTLI_PARAM_QUALITY]: quality } }).toString('base64');
/** Packed null: the frame that other contents are put into. */
const EMPTY = await pack('null');
const packed = (data: object) => pack(JSON.stringify(data));
const inputs = (scenario: string) => ({ inputs: [{ path: 'scenario.yaml', text: scenario }] });

test('a report gives its inputs, however it was folded and into how many blocks', async () => {
  const report = readFileSync('reports/hill-hatch.html', 'utf8');
  expect(draftInReport(report)?.scenario).toBe(readFileSync('scenarios/hill-hatch/scenario.yaml', 'utf8'));
  fc.assert(
    fc.property(fc.string({ unit: 'binary', maxLength: 300 }), fc.constantFrom(1, 5, 9, 11), (text, quality) => {
      const json = Buffer.from(JSON.stringify(inputs(text.repeat(40))));
      const draft = draftInReport(pageOf({ ...EMPTY, brotli: folded(json, quality) }));
      expect(draft).toEqual({ scenario: JSON.parse(json.toString()).inputs[0].text, catalogues: {} });
    }),
    { numRuns: 25 },
  );
  // One block of Brotli holds 16 MB at most.
  const long = inputs('abc 123.4\n'.repeat(2_000_000));
  expect(draftInReport(pageOf(await packed(long)))?.scenario).toBe(long.inputs[0]?.text);
});

test('what unfolds to more than the command reads is refused with its words, and no memory is taken for it', async () => {
  const bomb = pageOf({ ...EMPTY, brotli: folded(Buffer.alloc(600_000_000, '0')) });
  expect(bomb.length).toBeLessThan(200_000);
  const before = process.memoryUsage().arrayBuffers;
  expect(() => draftInReport(bomb)).toThrow('it unfolds to more than 256 MB, the most that is read');
  expect(process.memoryUsage().arrayBuffers - before).toBeLessThan(330_000_000);
  const small = pageOf(await packed(inputs('x: 1')));
  const bytes = JSON.stringify(inputs('x: 1')).length;
  expect(draftInReport(small, { bytes, values: 5 })?.scenario).toBe('x: 1');
  expect(() => draftInReport(small, { bytes: bytes - 1, values: 5 })).toThrow('more than');
  expect(() => draftInReport(small, { bytes, values: 1 })).toThrow('million values');
});

test('what is damaged is refused, with what is wrong', async () => {
  const sound = await packed(inputs('x: 1'));
  const refused = (changed: object) => () => draftInReport(pageOf({ ...sound, ...changed }));
  expect(refused({ brotli: '!' })).toThrow('not base64');
  expect(refused({ brotli: folded(Buffer.from('{"inputs":')) })).toThrow('stops being JSON');
  expect(refused({ brotli: sound.brotli.slice(0, 12) })).toThrow('does not unfold');
  expect(refused({ version: 3 })).toThrow();
  expect(draftInReport(pageOf(await packed({ inputs: [] })))).toBeNull();
  expect(draftInReport('<p>nothing</p>')).toBeNull();
});
