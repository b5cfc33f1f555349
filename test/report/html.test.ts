import { createHash } from 'node:crypto';
import { expect, test } from 'vitest';
import { writtenOf } from '../../src/report/embed.ts';
import { reportHtml } from '../../src/report/html.ts';
import { unpack } from '../../src/report/packing/pack.ts';
import { recorded } from '../page/bench/records.ts';
import { build, combination, HIDDEN, HOSTILE, hostile, result, setup } from './fixture.ts';

const sweep = await reportHtml(result());
const given = await reportHtml(build());
const nasty = await reportHtml(hostile());

const embeddedOf = (html: string) =>
  /<script type="application\/json" id="springsift-result">([\s\S]*?)<\/script>/.exec(html)?.[1] ?? '';
const textOf = (html: string) =>
  html
    .replace(/<(style|script)[\s\S]*?<\/\1>/g, '')
    .replace(/<[^>]*>/g, ' ')
    .replace(/&nbsp;/g, ' ')
    .replace(/\s+/g, ' ');

test('the page carries the whole result', () => {
  expect(unpack(JSON.parse(embeddedOf(sweep)))).toEqual(writtenOf(result()));
  expect(unpack(JSON.parse(embeddedOf(nasty)))).toEqual(writtenOf(hostile()));
});

test('the same result gives the same bytes, in any order of drawing', async () => {
  const [again, other] = await Promise.all([reportHtml(result()), reportHtml(build())]);
  expect(again).toBe(sweep);
  expect(other).toBe(given);
});

test('the policy forbids everything but the one style sheet and the page’s scripts, which it knows by digest', () => {
  const digestOf = (text = '') => `'sha256-${createHash('sha256').update(text).digest('base64')}'`;
  const css = digestOf(/<style>([\s\S]*?)<\/style>/.exec(sweep)?.[1]);
  const scripts = [...sweep.matchAll(/<script>([\s\S]*?)<\/script>/g)].map((match) => digestOf(match[1]));
  expect(scripts.length).toBeGreaterThan(0);
  const policy = /http-equiv="Content-Security-Policy" content="([^"]*)"/.exec(sweep)?.[1]?.replaceAll('&#x27;', "'");
  expect(policy?.replaceAll('&#x3D;', '=')).toBe(
    `default-src 'none'; style-src ${css}; script-src ${scripts.join(' ')}; img-src data:; base-uri 'none'; form-action 'none'`,
  );
});

test('no style attribute, no handler, no address to load, no second style, data in one script element', () => {
  for (const html of [sweep, given, nasty]) {
    const tags = html.match(/<[a-z][^>]*>/g) ?? [];
    expect(tags.filter((tag) => /\s(?:style|on\w+|src|srcset)=/.test(tag))).toEqual([]);
    expect(tags.filter((tag) => /\shref="(?!#)/.test(tag))).toEqual([]);
    expect(tags.filter((tag) => tag.startsWith('<script '))).toEqual([
      '<script type="application/json" id="springsift-result">',
    ]);
    expect(tags.filter((tag) => tag.startsWith('<style'))).toHaveLength(1);
    expect(html).not.toMatch(/url\(|@import/);
  }
});

test('colours in charts are the palette’s properties only', () => {
  const drawn = sweep.match(/<svg class="chart on-[\s\S]*?<\/svg>/g) ?? [];
  expect(drawn.length).toBeGreaterThanOrEqual(4);
  const colours = drawn.flatMap((svg) => [...svg.matchAll(/\s(?:fill|stroke)="([^"]*)"/g)].map((match) => match[1]));
  expect(
    colours.filter((colour) => colour !== 'none' && colour !== 'transparent' && !/^var\(--/.test(colour ?? '')),
  ).toEqual([]);
});

test('charts name the limit at both ends of each bar', () => {
  const [front = ''] = sweep.match(/<svg class="chart on-screen"[\s\S]*?<\/svg>/g) ?? [];
  expect(front).toContain('from 327.4: least bump travel (two up)');
  expect(front).toContain('to 359.7: spring loose at droop');
  expect(front).toContain('1: coil 60 x 190 x 50, 190.0 mm, 50.00 N/mm');
});

test('the answer is one sentence with springs, cut, spacer, stop and perch, in both worlds', () => {
  const text = textOf(sweep);
  expect(text).toContain('Best of 2 000 000 workable pairs');
  expect(text).toMatch(
    /in front coil 60 x 190 x 50 \(190\.0 mm \(7\.48 in\) , 50\.00 N\/mm \(285\.5 lbf\/in\) \), sleeve 150 trimmed by 20\.0 mm/,
  );
  expect(text).toMatch(/foam stop cut to 40\.0 mm \(1\.57 in\) , perch seat at 213\.3 mm \(8\.40 in\)/);
});

test('estimated solid heights are called estimates in answer and shortlist', () => {
  expect(textOf(sweep)).toMatch(
    /Measure before you buy estimate front: the solid height of coil 60 x 190 x 50 is an estimate/,
  );
  expect(textOf(sweep)).toContain('solid height: estimate');
  expect(textOf(given)).toContain('front: estimated; rear: estimated');
});

test('a setup where nothing works names the check that rejects most', () => {
  expect(textOf(sweep)).toMatch(
    /Nothing works\. None of the 48 600 front combinations passes every check\. The check that rejects most is coil bind : 30 500 of them \(62\.8 %\)/,
  );
});

test('a setup whose pairs are all out of balance says so', async () => {
  const pairs = { considered: 50, rejected_by_balance: 50, workable: 0 };
  const html = await reportHtml(result({ setups: [setup('low', { pairs, shortlist: [] })] }));
  expect(textOf(html)).toMatch(/all 50 pairs of them are out of balance/);
});

test('a build lists every failing check with its message and every quantity with its formula', () => {
  const text = textOf(given);
  expect(text).toContain('It does not work: 2 checks fail.');
  expect(text).toMatch(
    /Front coil bind Coil bind before full bump, by 3\.2 mm; the margin asks for 8\.0 mm\. 11\.20 mm/,
  );
  expect(text).toMatch(/Both front and rear out of balance Rear over front frequency is 0\.981, below 1\.020\. 0\.039/);
  expect(text).toMatch(/W sprung load 2324\.2 522\.5 2324\.2 522\.5 N lbf W &#x3D; m_s \* g_n/);
  expect(text).toMatch(/L_h helper free length 60\.0 2\.36 – – mm in given/);
});

test('a build that works says so', async () => {
  const html = await reportHtml(
    result({ mode: 'build', setups: [setup('low', { shortlist: [combination('low', 1)] })] }),
  );
  expect(textOf(html)).toContain('It works: every check passes');
});

test('negative values have a true minus', () => {
  expect(textOf(given)).toMatch(/slack looseness at full droop \u22124\.2 \u22120\.17 \u22124\.2 \u22120\.17 mm in/);
});

test('every link leads to an anchor of the page, and no anchor stands twice', () => {
  for (const html of [sweep, given, nasty]) {
    const anchors = [...html.matchAll(/\sid="([^"]*)"/g)].map((match) => match[1]);
    expect(new Set(anchors).size).toBe(anchors.length);
    const links = [...html.matchAll(/\shref="#([^"]*)"/g)].map((match) => match[1]);
    expect(links.filter((link) => !anchors.includes(link))).toEqual([]);
  }
});

test('each column head of a table of figures is a head, each table has a name', () => {
  const tables = [sweep, given].flatMap((html) => html.match(/<table[\s\S]*?<\/table>/g) ?? []);
  expect(tables.length).toBeGreaterThan(10);
  expect(tables.filter((table) => !/<caption/.test(table) || !/<th scope="col"/.test(table))).toEqual([]);
});

test('hostile names are shown, neither run nor turned around', () => {
  expect(HOSTILE).toMatch(/<\/script>/);
  expect(nasty).not.toMatch(/<b onclick|<script>alert/);
  const seen = nasty.replace(/<script type="application\/json"[\s\S]*?<\/script>/, '');
  expect(HIDDEN.filter((character) => seen.includes(character))).toEqual([]);
  expect(seen).toContain('\\u{202e}');
  const [chart = ''] = nasty.match(/<svg class="chart on-screen"[\s\S]*?<\/svg>/g) ?? [];
  expect(chart).toContain('&lt;/script&gt;');
});

test('a small report stays small', () => {
  expect(sweep.length).toBeLessThan(400_000);
});

test('a result with numbers for the bench brings its section, hidden until its script runs, its numbers and its script', async () => {
  expect(sweep).not.toMatch(/id="live"|id="springsift-live"/);
  const { record } = await recorded('hill-hatch');
  const html = await reportHtml(result({ live: record }));
  expect(html).toMatch(/<section id="live" aria-labelledby="live-title" hidden>/);
  const carried = /<script type="application\/json" id="springsift-live">([\s\S]*?)<\/script>/.exec(html)?.[1] ?? '';
  expect(JSON.parse(carried)).toEqual(writtenOf(record));
  const scripts = [...html.matchAll(/<script>([\s\S]*?)<\/script>/g)].map((match) => match[1] ?? '');
  expect(scripts).toHaveLength([...sweep.matchAll(/<script>/g)].length + 1);
  const policy = /http-equiv="Content-Security-Policy" content="([^"]*)"/.exec(html)?.[1]?.replaceAll('&#x3D;', '=');
  for (const text of scripts) expect(policy).toContain(createHash('sha256').update(text).digest('base64'));
});
