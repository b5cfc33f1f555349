import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { expect, test } from 'vitest';
import { snakeKey } from '../../src/model/keys.ts';
import { FAMILIES } from '../../src/model/scenario.ts';
import { resultsJson } from '../../src/report/embed.ts';
import { result } from '../report/fixture.ts';
import { RESULT_SCHEMA_FILE, resultSchema, validate } from './resultSchema.ts';

const { resultJsonSchema } = await import(new URL('../../.ci/resultSchema.mjs', import.meta.url).href);
const { $defs } = resultSchema;

test('the schema in dist is the one that today’s types give (npm run build makes it anew)', () => {
  const entry = fileURLToPath(new URL('../../src/result/result.ts', import.meta.url));
  expect(readFileSync(RESULT_SCHEMA_FILE, 'utf8')).toBe(resultJsonSchema(entry, snakeKey));
});

test('it is a sound schema of draft 2020-12, of the result’s version', () => {
  expect(resultSchema.$schema).toBe('https://json-schema.org/draft/2020-12/schema');
  expect(resultSchema.$id).toBe('springsift-result-2');
  expect(new Ajv2020().validateSchema(resultSchema)).toBe(true);
});

test('every key in it is written as results.json writes it, and every record knows all of its keys', () => {
  const keys: string[] = [];
  const open: string[] = [];
  const visit = (node: unknown, place: string): void => {
    if (typeof node !== 'object' || node === null) return;
    const { properties, required, additionalProperties } = node as Record<string, object | undefined>;
    if (properties !== undefined) {
      keys.push(...Object.keys(properties));
      if (additionalProperties as unknown) open.push(place);
      for (const key of (required ?? []) as string[]) expect(properties).toHaveProperty(key);
    }
    for (const [key, child] of Object.entries(node)) visit(child, `${place}/${key}`);
  };
  visit(resultSchema, '#');
  expect(keys.length).toBeGreaterThan(300);
  expect(keys.filter((key) => key !== snakeKey(key))).toEqual([]);
  expect(open).toEqual([]);
});

test('comments of the record are its descriptions', () => {
  expect(resultSchema.description).toMatch(/^What one run found\. Every quantity's key ends in its unit;/);
  expect($defs.TargetSummary.properties.target_height_mm).toEqual({ type: 'number' });
  expect($defs.LiveAxle.properties.tyre_rate.description).toBe('Vertical tyre rate, N/mm.');
});

/** Where a result with one value exchanged breaks the schema. */
function faults(change: (written: Record<string, never>) => void): string[] {
  const written = JSON.parse(resultsJson(result()));
  change(written);
  return validate(written) ? [] : (validate.errors ?? []).map((one) => `${one.instancePath} ${one.keyword}`);
}

test('limits hold: counts are whole, shares end at 1, lines begin at 1, a digest is one', () => {
  const at = (path: string, value: unknown) =>
    faults((written) => {
      const keys = path.split('/').slice(1);
      const owner = keys.slice(0, -1).reduce<Record<string, unknown>>((node, key) => node[key] as never, written);
      owner[keys.at(-1) ?? ''] = value;
    });
  const combination = '/setups/0/shortlist/0';
  for (const [path, value, keyword] of [
    ['/setups/0/axles/front/passed', 1.5, 'type'],
    ['/setups/0/axles/front/passed', -1, 'minimum'],
    ['/setups/0/axles/front/rejected/fit', -1, 'minimum'],
    ['/scenario/axles/rear/options/bump_stop', 0.5, 'type'],
    [`${combination}/score`, 1.2, 'maximum'],
    [`${combination}/rank`, -1, 'minimum'],
    [`${combination}/criteria/0/weight`, -1, 'minimum'],
    [`${combination}/criteria/0/desirability`, 1.1, 'maximum'],
    ['/inputs/0/sha256', 'abc', 'pattern'],
    ['/notes', [], 'minItems'],
    ['/upgraded_from', 2, 'const'],
    ['/mode', 'other', 'enum'],
  ] as const) {
    expect(at(path, value)).toContain(`${path} ${keyword}`);
  }
});

test('a start of the bench has a place in the table of every family', () => {
  const { front, rear } = $defs.LiveStart.properties;
  for (const { minItems, maxItems } of [front, rear])
    expect([minItems, maxItems]).toEqual([FAMILIES.length, FAMILIES.length]);
});
