/** The one list of cautions, and every place that has to hold it. */

import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { blankSheet, drawMeasure } from '../../../src/measure/measure.ts';
import { CAUTIONS, sheetCautions } from '../../../src/report/text/cautions.ts';
import { sweptPage } from '../../setup/scenarios.ts';
import { ROOT } from '../../setup/source-tree.ts';

const README = readFileSync(`${ROOT}/README.md`, 'utf8');
const page = await sweptPage('loaded-estate');
const partOf = (id: string) => {
  const from = page.indexOf(`<section id="${id}"`);
  return page.slice(from, page.indexOf('</section>', from));
};
/** Entities and quotes as a reader sees them. */
const plain = (text: string) => text.replace(/&#x27;|’/g, "'");

test.each(CAUTIONS.map(({ lead }) => lead))('page, paper and README hold: %s', (lead) => {
  const section = partOf('cautions');
  expect(plain(section)).toContain(`<b>${plain(lead)}</b>`);
  // Print hides what is meant for the screen, and what is folded.
  expect(section).not.toMatch(/on-screen|<details/);
  expect(plain(README.slice(0, README.indexOf('## How to read the answer')))).toContain(`**${plain(lead)}**`);
});

test.each([
  ['single-tube bodies', /Never groove or weld a single-tube body\..*inside of that wall, gas pressure behind it/],
  ['a loose spring', /spring loose at full droop fails inspection in many places/],
  ['rebound damping', /Too little rebound damping for a stiffer spring floats:.*drive slowly first/],
  ['settling', /Springs settle:.*measure again after some hundred kilometres/],
  ['scales', /Do not set left and right far apart without scales/],
  ['tape', /Shim a loose sleeve\..*tape is a slip fit \(common practice, no source\), never what carries side load/],
])('of %s the page says what there is to know', (_, words) => {
  expect(partOf('cautions').replace(/<[^>]*>/g, '')).toMatch(words);
});

test('the build sheet says in few words what is met at the bench', () => {
  const words = sheetCautions();
  expect(plain(partOf('build-sheet'))).toContain(plain(words));
  expect(words).toMatch(
    /can kill.*single-tube body.*Tape is no shim.*droop.*drive slowly first.*hundred kilometres.*scales/,
  );
});

test('the measuring sheet says that a single-tube body is never grooved or welded, and what to ask', async () => {
  const sheet = (await drawMeasure(blankSheet('test'))).replace(/<[^>]*>/g, '');
  expect(sheet).toMatch(
    /Never groove or weld a single-tube body: the piston runs on the inside of that wall, gas pressure/,
  );
  expect(sheet).toMatch(/twin or a single tube/);
});
