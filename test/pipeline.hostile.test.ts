/** Names that would run, obey or break something, in every text field a scenario has, through everything it prints. */

import { readFileSync } from 'node:fs';
import { parse as parseCsv } from 'csv-parse/sync';
import { beforeAll, expect, test } from 'vitest';
import { parse } from 'yaml';
import { formatProblem, readScenario } from '../src/input/readScenario.ts';
import { scenarioJsonSchema } from '../src/input/schema/jsonSchema.ts';
import { memoryFiles } from '../src/input/source/files.ts';
import { draw, type Pages } from '../src/pipeline/drawing.ts';
import { explain, sift } from '../src/pipeline.ts';
import { explainText } from '../src/report/files/explain.ts';
import { sweepSummary } from '../src/report/files/summary.ts';
import type { Result } from '../src/result/result.ts';
import { FREE_FIELDS, HOSTILE_NAME, withHostileNames } from './setup/hostileNames.ts';

const file = (path: string) => readFileSync(new URL(`../${path}`, import.meta.url), 'utf8');
const hostile = withHostileNames(parse(file('scenarios/kit-two-seater/scenario.yaml')));
const CATALOGUE = [
  'name,free_length_mm,rate_n_per_mm,bore_mm',
  ...[200, 230, 260, 290].flatMap((length) =>
    [20, 30, 40].map((rate) => `"${HOSTILE_NAME.replaceAll('"', '""')}\u001b[2J\u202e",${length},${rate},64`),
  ),
].join('\n');

let result: Result;
let pages: Pages;
let terminal = '';

beforeAll(async () => {
  const tree = structuredClone(hostile.tree) as { currency: string; axles: { front: { springs: unknown[] } } };
  tree.currency = '<b>=@"\'';
  tree.axles.front.springs.push({ catalogue: 'springs.csv' });
  const files = [
    { path: 'scenario.yaml', text: JSON.stringify(tree) },
    { path: 'springs.csv', text: CATALOGUE },
  ];
  const read = await readScenario('scenario.yaml', memoryFiles(files));
  if (!read.ok) throw new Error(read.problems.map(formatProblem).join('\n'));
  result = await sift(read, 'test');
  pages = await draw(result);
  const best = result.setups[0]?.shortlist[0]?.id ?? '';
  const explained = explain(read.scenario, best);
  terminal = sweepSummary(result) + (explained.ok ? explainText(explained.explanation) : '');
}, 300_000);

/** Control characters, and what turns a line around. */
const unseenIn = (text: string) =>
  [...text].filter((sign) => (sign < ' ' && !'\n\r\t'.includes(sign)) || sign === '\u202e');

test('every text field of the schema is one of those exchanged here, or has a narrow form of its own', () => {
  const found = new Set<string>();
  const walk = (value: unknown): void => {
    if (typeof value !== 'object' || value === null) return;
    const { properties = {} } = value as { properties?: Record<string, Record<string, unknown>> };
    for (const [name, field] of Object.entries(properties)) {
      const isText = field.type === 'string' && field.enum === undefined && field.pattern === undefined;
      if (isText) found.add(name);
    }
    Object.values(value).forEach(walk);
  };
  walk(JSON.parse(scenarioJsonSchema()));
  expect([...found].sort()).toEqual([...FREE_FIELDS, 'catalogue', 'currency'].sort());
});

test('the names were exchanged everywhere, and something works with them', () => {
  expect(hostile.places.length).toBeGreaterThan(15);
  expect(hostile.places).toEqual(expect.arrayContaining(['name', 'description', 'axles.rear.mounts.0.name']));
  expect(result.setups[0]?.shortlist.length).toBeGreaterThan(3);
});

test('the page shows them as text: no element, no attribute, no end of an element comes from them', () => {
  const page = pages['report.html'];
  const outside = page.replace(/<script\b[^>]*>[\s\S]*?<\/script>/g, '');
  expect(page).toContain(`default-src &#x27;none&#x27;`);
  // Quoted values taken away, what is left of a tag is its own names.
  const bare = outside.replaceAll(/"[^"]*"/g, '""');
  const around = [...bare.matchAll(/<img|<b>=|<[a-z][^>]*\son\w+=/gi)].map(({ index }) =>
    bare.slice(index - 60, index + 60),
  );
  expect(around).toEqual([]);
  expect(outside.match(/<\/style>/g)).toHaveLength(outside.match(/<style>/g)?.length ?? -1);
  expect(outside).toContain('{{x}}');
  expect(outside).toContain('&lt;img src');
  // In the embedded data they are data: the page shows them through the same escapes.
  expect(unseenIn(outside)).toEqual([]);
  expect(page.match(/<script\b/g)?.length).toBe(page.match(/<\/script>/g)?.length);
});

test('no cell of a table is a formula', () => {
  for (const name of ['shortlist.csv', 'plans.csv'] as const) {
    const rows: readonly string[][] = parseCsv(pages[name]);
    const wild = rows.flat().filter((cell) => /^[=+\-@\t\r]/.test(cell) && !Number.isFinite(Number(cell)));
    expect(wild).toEqual([]);
  }
  expect(pages['shortlist.csv']).toContain(`'=1+1|`);
});

test('results.json gives them back as they were', () => {
  const read = JSON.parse(pages['results.json']) as Result;
  expect(read.scenario.name).toBe(`${HOSTILE_NAME}1`);
  expect(unseenIn(pages['results.json'])).not.toContain('\u001b');
});

test('a terminal has nothing to obey', () => {
  expect(terminal).toContain(HOSTILE_NAME);
  expect(terminal.replaceAll('\n', '')).not.toMatch(/[\p{Cc}\p{Bidi_Control}]/u);
});

test('the order list holds no markup of theirs', () => {
  expect(pages['purchase.md']).not.toMatch(/(?<!\\)<img/);
  expect(unseenIn(pages['purchase.md'])).toEqual([]);
});
