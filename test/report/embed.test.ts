import { createHash } from 'node:crypto';
import { describe, expect, test } from 'vitest';
import { type EmbedFault, embeddedIn, embeddedJson, resultsJson, writtenOf } from '../../src/report/embed.ts';
import { reportHtml } from '../../src/report/html.ts';
import { pack, unpack } from '../../src/report/packing/pack.ts';
import type { Result } from '../../src/result/result.ts';
import { recorded } from '../page/bench/records.ts';
import { coherent, hostile, result } from './fixture.ts';

/** The input as a sweep hands it over: digest and size are those of its text. */
function sound(base: Result, text: string): Result {
  const bytes = Buffer.from(text, 'utf8');
  const sha256 = createHash('sha256').update(bytes).digest('hex');
  return { ...coherent(base), inputs: [{ path: 'scenario.yaml', sha256, bytes: bytes.length, text }] };
}

const TEXT = '\uFEFFname: über </script> \u2028 hatch\n';
const swept = sound(result(), TEXT);
const pageWith = (json: string) =>
  `<!doctype html>\n<p>…</p>\n<script type="application/json" id="springsift-result">${json}</script>\n`;
const carried = await embeddedJson(swept);
const page = pageWith(carried);
/** The second line of the page's data begins after the tag on line 3. */
const START = { line: 3, column: 56 };

function faultOf(html: string): EmbedFault | null {
  const found = embeddedIn(html);
  return found.ok ? null : found.fault;
}

test('the result comes back from its page, its inputs byte for byte', () => {
  const found = embeddedIn(page);
  if (!found.ok) throw new Error(found.fault.kind);
  expect(resultsJson(found.result)).toBe(resultsJson(swept));
  expect(found.result.inputs[0]?.text).toBe(TEXT);
});

test('the bench’s part stands in its own element alone, and comes back as the last of the result', async () => {
  const { record } = await recorded('hill-hatch');
  const whole = { ...swept, live: record };
  const html = await reportHtml(whole);
  expect(html.split(JSON.stringify(writtenOf(record.setups))).length).toBe(2);
  const found = embeddedIn(html);
  if (!found.ok) throw new Error(found.fault.kind);
  expect(resultsJson(found.result)).toBe(resultsJson(whole));
  const start = html.indexOf('id="springsift-live"');
  const changed = html.slice(0, start) + html.slice(start).replace(/\d\.\d/, '0.0');
  expect(faultOf(changed)?.kind).toBe('result changed');
  expect(faultOf(html.replace('id="springsift-live"', 'id="other"'))?.kind).toBe('result changed');
});

test('a bench’s part with signs that the page makes visible is carried whole', async () => {
  const { record } = await recorded('hill-hatch');
  const named = (key: string, value: unknown) => (key === 'name' ? `${value}\u200f` : value);
  const live = JSON.parse(JSON.stringify(record), named) as typeof record;
  const html = await reportHtml({ ...swept, live });
  const found = embeddedIn(html);
  if (!found.ok) throw new Error(found.fault.kind);
  expect(found.result.live).toEqual(live);
});

test('hostile names stay inside the script element', async () => {
  const json = await embeddedJson(sound(hostile(), TEXT));
  expect(json).not.toMatch(/[<\u2028\u2029]/);
  expect(faultOf(pageWith(json))).toBeNull();
});

describe('a page whose result can’t be had says why, and where', () => {
  const edited = (edit: (packed: Record<string, unknown>) => void) => {
    const packed = JSON.parse(carried) as Record<string, unknown>;
    edit(packed);
    return pageWith(JSON.stringify(packed).replaceAll('<', '\\u003c'));
  };
  /** The unfolded JSON changed, its digest left. */
  const rewritten = async (edit: (json: string) => string) => {
    const changed = await pack(edit(JSON.stringify(unpack(JSON.parse(carried)))));
    return edited((packed) => Object.assign(packed, changed));
  };
  const carrying = async (change: object) => pageWith(await embeddedJson({ ...swept, ...change } as unknown as Result));
  const deep = `${'['.repeat(300)}${']'.repeat(300)}`;
  const cases: readonly (readonly [string, string | Promise<string>, object])[] = [
    ['another page', '<!doctype html><p>hello</p>', { kind: 'no result' }],
    [
      'a page cut off',
      page.slice(0, 500),
      { kind: 'cut off', place: { line: 3, column: 500 - page.indexOf('<script') + 1 } },
    ],
    ['a lost sign', page.replace('"brotli":"', '"brotli":'), { kind: 'no JSON' }],
    ['nothing at all', pageWith(''), { kind: 'no JSON', place: START }],
    ['JSON of another kind', pageWith('[1]'), { kind: 'damaged', place: START, where: 'the whole' }],
    ['nothing packed', edited((packed) => Object.assign(packed, { brotli: '' })), { kind: 'damaged', place: START }],
    [
      'a later packing',
      edited((packed) => Object.assign(packed, { version: 9 })),
      { kind: 'newer', what: 'packing', version: 9, known: 2 },
    ],
    ['a later result', carrying({ version: 99 }), { kind: 'newer', what: 'result', version: 99, known: 2 }],
    ['another result', carrying({ schema: 'other' }), { kind: 'damaged', where: 'the result' }],
    [
      'records within records',
      rewritten((json) => json.replace('{', `{"deep":${deep},`)),
      { kind: 'damaged', where: 'the result' },
    ],
    [
      'an input that was edited',
      rewritten((json) => json.replace('über', 'unter')),
      { kind: 'input changed', path: 'scenario.yaml', place: START },
    ],
    [
      'an input with more bytes',
      carrying({ inputs: swept.inputs.map((i) => ({ ...i, bytes: 3 })) }),
      { kind: 'input changed' },
    ],
    [
      'a number that was edited',
      rewritten((json) => json.replace('213.3', '200.3')),
      { kind: 'result changed', place: START },
    ],
    ['a digest that was lost', edited((packed) => Object.assign(packed, { sha256: '' })), { kind: 'result changed' }],
  ];
  test.each(cases)('%s', async (_, html, expected) => {
    expect(faultOf(await html)).toMatchObject(expected);
  });
});

test('every sign cut out of the data is noticed', () => {
  const start = page.indexOf('{"sha256"');
  const end = page.lastIndexOf('</script>');
  for (let at = start; at < end; at += 97) {
    expect(faultOf(page.slice(0, at) + page.slice(at + 1)), `at ${at}`).not.toBeNull();
  }
});
