import { readFileSync } from 'node:fs';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { scenarioJsonSchema } from '../../../src/input/schema/jsonSchema.ts';
import { filesOf } from '../../setup/manual.ts';
import { SCENARIOS } from '../../setup/scenarios.ts';
import { type Edit, edited, SCENARIO } from '../edit.ts';

const schema = JSON.parse(scenarioJsonSchema());
const ajv = new Ajv2020({ strict: true, allErrors: true });
const validate = ajv.compile(schema);
const text = (path: string) => readFileSync(new URL(`../../../${path}`, import.meta.url), 'utf8');

/** Every mapping of the schema that has fields, by its place in it. */
function mappings(node: unknown = schema, place = '#'): [string, Record<string, { description?: string }>][] {
  if (typeof node !== 'object' || node === null) return [];
  const { properties } = node as { properties?: Record<string, object> };
  const below = Object.entries(node).flatMap(([key, child]) => mappings(child, `${place}/${key}`));
  return properties === undefined ? below : [[place, properties], ...below];
}

/** Where a scenario breaks the schema, with the keyword that says so. */
function faults(yaml: string): string[] {
  return validate(parse(yaml)) ? [] : (validate.errors ?? []).map((one) => `${one.instancePath} ${one.keyword}`);
}

test('it is a sound schema of draft 2020-12', () => {
  expect(schema.$schema).toBe('https://json-schema.org/draft/2020-12/schema');
  expect(ajv.validateSchema(schema)).toBe(true);
});

test('every field has a description', () => {
  const bare = mappings().flatMap(([place, properties]) =>
    Object.entries(properties).flatMap(([name, { description }]) => (description ? [] : [`${place} ${name}`])),
  );
  expect(mappings().length).toBeGreaterThan(30);
  expect(bare).toEqual([]);
});

test('a quantity says how it is written, a field that may be left out what then holds', () => {
  const { properties } = schema.$defs.sleeve;
  expect(properties.thread_pitch.description).toBe(
    'rise of the perch per turn. Written: a length with its unit (mm, cm, m, in or ft), above 0, at least 0.1. Left out: collar turns not computed',
  );
  expect(properties.trim.description).not.toContain('Left out');
});

test('what both axles and both targets are stands in it once', () => {
  const [{ front, rear }, setup] = [schema.properties.axles.properties, schema.$defs.setup.properties];
  expect([front.$ref, rear.$ref]).toEqual(['#/$defs/axle', '#/$defs/axle']);
  expect([setup.front.$ref, setup.rear.$ref]).toEqual(['#/$defs/target', '#/$defs/target']);
  // A window of two ends is written at its field.
  const large = mappings().filter(([place, properties]) => Object.keys(properties).length > 3 && !/_swept/.test(place));
  const texts = large.map(([, properties]) => JSON.stringify(properties));
  expect(large.length).toBeGreaterThan(15);
  expect(texts.filter((one, k) => texts.indexOf(one) !== k)).toEqual([]);
});

describe('it accepts', () => {
  test.each(SCENARIOS)('the scenario %s', (name) => {
    expect(faults(text(`scenarios/${name}/scenario.yaml`))).toEqual([]);
  });

  test('the fixture, in which every kind of part is written out', () => {
    expect(faults(SCENARIO)).toEqual([]);
  });

  test('the example of the manual, and refuses its wrong one', () => {
    const files = filesOf(text('README.md')).filter(({ path }) => path.endsWith('.yaml'));
    const wrong = files.filter(({ text }) => /^setups:/m.test(text) && faults(text).length > 0).map(({ path }) => path);
    expect(files.length).toBeGreaterThan(wrong.length);
    expect(wrong).toEqual(['wrong.yaml']);
  });
});

const WRONG: readonly [string, Edit, string][] = [
  ['a misspelt field', ['wheel_load: 268 kg', 'wheel_laod: 268 kg'], '/axles/front additionalProperties'],
  ['a missing field', ['    unsprung_mass: 31 kg\n', ''], '/axles/front required'],
  ['a number without its unit', ['tyre_rate: 190 N/mm', 'tyre_rate: 190'], '/axles/front/tyre_rate type'],
  ['a unit without its number', ['tyre_rate: 190 N/mm', 'tyre_rate: N/mm'], '/axles/front/tyre_rate pattern'],
  ['a text for a list', ['isolators: [none]', 'isolators: none'], '/axles/front/isolators type'],
  ['an empty list', ['bump_stops: [*stop]', 'bump_stops: []'], '/axles/front/bump_stops minItems'],
  ['another word than those', ['seat: fixed', 'seat: loose'], '/axles/front/mounts/0/seat enum'],
  ['a range without step', [', step: 20 mm }', ' }'], '/axles/front/sleeves/0/trim required'],
  ['a number below its least', ['price: 90', 'price: -90'], '/axles/front/mounts/0/price minimum'],
  [
    'a number that must be above 0',
    ['pitch_inertia_ratio: 0.95', 'pitch_inertia_ratio: 0'],
    '/car/pitch_inertia_ratio exclusiveMinimum',
  ],
  [
    'a number above its most',
    ['pitch_inertia_ratio: 0.95', 'pitch_inertia_ratio: 6'],
    '/car/pitch_inertia_ratio maximum',
  ],
  ['another version', ['springsift: 1', 'springsift: 2'], '/springsift const'],
];

test.each(WRONG)('it refuses %s, and says where', (_, edit, fault) => {
  expect(faults(edited(SCENARIO, [edit]))).toContain(fault);
});
