/** `unknown` in every field of the format: accepted and named among what was taken, or refused with how to know it. */
import { Ajv2020 } from 'ajv/dist/2020.js';
import { expect, test } from 'vitest';
import { parse, stringify } from 'yaml';
import { z } from 'zod';
import { alternatives, fits, isMapping } from '../../../src/input/schema/issues.ts';
import { scenarioJsonSchema } from '../../../src/input/schema/jsonSchema.ts';
import { scenario } from '../../../src/input/schema/scenario.ts';
import { EVERY_FIELD, edited, problemsOf, readTexts, SCENARIO, scenarioOf } from '../edit.ts';

const DATA: unknown = parse(edited(SCENARIO, EVERY_FIELD));

const validate = new Ajv2020({ strict: true }).compile(JSON.parse(scenarioJsonSchema()));

type Path = readonly (string | number)[];

/** Every field of the schema that has a place in the data, the front axle's for both, one entry of each list. */
function* places(schema: z.core.$ZodType, data: unknown, path: Path = []): Generator<Path> {
  for (const option of alternatives(schema)) {
    if (option instanceof z.ZodArray && Array.isArray(data)) {
      for (const inner of alternatives(option.element as z.core.$ZodType)) {
        const at = data.findIndex((item) => inner instanceof z.ZodObject && isMapping(item) && fits(inner, item));
        if (at >= 0) yield* places(inner, data[at], [...path, at]);
      }
    }
    if (!(option instanceof z.ZodObject && isMapping(data) && fits(option, data))) continue;
    for (const [key, field] of Object.entries(option.shape as Record<string, z.core.$ZodType>)) {
      if (key === 'rear' && option.shape.front !== undefined) continue;
      yield [...path, key];
      yield* places(field, data[key], [...path, key]);
    }
  }
}

/** `axles.front.mounts[1].raise`, as an assumption names it. */
const inWords = (path: Path) =>
  path
    .map((key) => (typeof key === 'number' ? `[${key + 1}]` : `.${key}`))
    .join('')
    .replace(/^\./, '');

function withUnknown(data: unknown, [key, ...rest]: Path): unknown {
  if (key === undefined) return 'unknown';
  if (Array.isArray(data)) return data.map((item, i) => (i === key ? withUnknown(item, rest) : item));
  const mapping = data as Record<string, unknown>;
  return { ...mapping, [key]: withUnknown(mapping[key], rest) };
}

const ALL = [...places(scenario, DATA)];

/** Where `unknown` is a word like any other. */
const WORDS = /(?:^|\.)(?:name|description|currency|shared|body)$/;
/** Fields that a wish of the fixture asks for: it says so, and what to do. */
const ASKED_FOR = /^axles.*price$|^car\.sprung_centre_height$|\.roll$|\.curve$/;
/** Lists and mappings whose own fields are asked for one by one. */
const HOLDERS =
  /^(?:springsift|axles|axles\.front|axles\.front\.\w+s|.*\.(?:pairs|points)|setups|plan|margins|ranking|tolerances|measured_before_cutting)$/;

test('every field of the format has its place in the fixture', () => {
  expect(ALL.length).toBeGreaterThan(170);
  expect(new Set(ALL.map(inWords)).size).toBeGreaterThan(165);
});

test.each(ALL.map((path) => [inWords(path), path] as const))(
  '%s is taken and named, or refused with how to come by it',
  async (name, path) => {
    const data = withUnknown(DATA, path);
    const read = await readTexts(stringify(data));
    // What a neighbour may stand in for, the schema leaves to the reader.
    if (read.ok) expect(validate(data), 'the JSON Schema takes it, too').toBe(true);
    if (read.ok) {
      const said = read.scenario.assumptions.filter(({ field }) => field === name || field.startsWith(`${name}.`));
      if (WORDS.test(name)) return;
      expect(said.length, 'named among what was taken').toBeGreaterThan(0);
      for (const { value, source } of said) expect(`${value} ${source}`).toMatch(/\w+ \w+/);
      return;
    }
    const [problem] = read.problems;
    if (ASKED_FOR.test(name)) {
      expect(problem?.advice).toMatch(/add |set the weight to 0/);
      return;
    }
    expect(problem?.found).toBe('`unknown`');
    expect(problem?.line).toBeGreaterThan(0);
    if (HOLDERS.test(name) || /seat$|bolted$/.test(name)) expect(problem?.advice).toMatch(/^(?:write|start|choose) /);
    else
      expect(problem?.advice).toMatch(/^(?:measure it: no usual value can stand for it\. \S|write a value: it is \S)/);
  },
);

test('what is measured is refused in the words of the measuring sheet, at its own place', async () => {
  const [problem, ...others] = await problemsOf([['body_length: 290 mm', 'body_length: unknown']]);
  expect(others).toEqual([]);
  expect(problem).toMatchObject({
    expected: 'a length with its unit (mm, cm, m, in or ft)',
    advice:
      'measure it: no usual value can stand for it. Lower eye centre to the top of the body, or to whatever the stop will meet. (springsift measure writes the sheet)',
  });
});

test('of two fields of which one is needed, both unknown are both refused, and one is left out, whatever else is wrong', async () => {
  const both = await problemsOf([['plate_height: 30 mm', 'plate_height: unknown\n        raise: unknown']]);
  const more = await problemsOf([
    ['plate_height: 30 mm', 'plate_height: unknown\n        raise: unknown'],
    ['raise: 12 mm\n', 'raise: unknown\n'],
    ['flange_depth: 10 mm', 'flange_depth: unknown'],
  ]);
  expect(more).toHaveLength(4);
  expect(both.map(({ found, advice }) => [found, advice.slice(0, 70)])).toEqual([
    ['`unknown`', expect.stringMatching(/^measure it: .*Instead of the raise/)],
    ['`unknown`', expect.stringMatching(/^measure it: .*Mount fitted without/)],
  ]);
  const { assumptions } = await scenarioOf([['plate_height: 30 mm', 'plate_height: 30 mm\n        raise: unknown']]);
  expect(assumptions).toContainEqual({
    field: 'axles.rear.mounts[1].raise',
    value: 'unknown: taken as not given',
    source: 'left out of the scenario',
  });
});

test('a problem elsewhere in a mapping that misses nothing stays what it was', async () => {
  const problems = await problemsOf([['body_length: 290 mm', 'body_length: 2900 mm\n        force_velocity: unknown']]);
  expect(problems.map(({ found }) => found)).toEqual([expect.stringContaining('2900 mm')]);
});
