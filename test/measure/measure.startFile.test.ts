/** The file that a newcomer fills in: every value unknown, the needed ones first, each with how it is measured. */
import { readFileSync } from 'node:fs';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { expect, test } from 'vitest';
import { parse } from 'yaml';
import { fittingsOf } from '../../src/fitting/fitting.ts';
import { benchJsonSchema } from '../../src/input/schema/jsonSchema.ts';
import { startFile } from '../../src/measure/measure.ts';
import { benchOfText, problemsInBench } from '../setup/benchScenario.ts';
import { filled } from '../setup/newcomer.ts';

const text = startFile();

test('it holds no number, and only the needed values keep it from being swept', async () => {
  const { axles } = parse(text);
  const values = Object.values(axles.front as Record<string, object[]>).flatMap(([part = {}]) => Object.values(part));
  expect(new Set(values)).toEqual(new Set(['unknown']));
  const needed = text.split('\n').filter((line) => line.includes(': unknown') && !line.includes('may stay unknown'));
  const problems = await problemsInBench(text);
  expect(problems.map(({ line }) => line)).toEqual(
    expect.arrayContaining(
      needed.filter((line) => !/solid_height/.test(line)).map((line) => text.split('\n').indexOf(line) + 1),
    ),
  );
  expect(problems.length).toBeGreaterThanOrEqual(needed.length - 1);
  expect(needed.length).toBeLessThanOrEqual(20);
});

test('every value says where it is measured, the needed ones first in each list', () => {
  const rows = text.split('\n').filter((line) => line.includes(': unknown'));
  expect(rows.filter((line) => !/ # (?:may stay unknown(?: \([^)]*\))?\. )?\S.{8,}/.test(line))).toEqual([]);
  for (const block of text.split(/^ {4}\w+:$/m).slice(1)) {
    const marks = block.split('\n').filter((line) => line.includes(': unknown'));
    const open = marks.map((line) => line.includes('may stay unknown'));
    expect(open).toEqual([...open].sort((a, b) => Number(a) - Number(b)));
  }
  expect(text).toMatch(/trim: unknown +# may stay unknown \(0 mm\)\. How much you would trim its upper end/);
});

test('once the needed values are filled in it answers, with the commented lines, too', async () => {
  const { scenario } = await benchOfText(filled(text));
  expect(fittingsOf(scenario)[0]).toMatchObject({ level: 'parts', counts: { works: 1 } });
  const uncommented = filled(text)
    .replace('rate: unknown', 'rate: 34 N/mm')
    .replace(/^ {4}# (isolators|helpers|wheel_load|motion):/gm, '    $1:');
  const corner = fittingsOf((await benchOfText(uncommented)).scenario)[0];
  expect(corner).toMatchObject({ level: 'corner', combinations: 2 });
});

const built = JSON.parse(readFileSync(new URL('../../dist/bench.schema.json', import.meta.url), 'utf8'));

test('the schema of the bench in dist is today’s, accepts the file once filled, and refuses a wrong word', () => {
  // Which quantity was defined first decides no more than the order of the definitions.
  const { $defs: _, ...today } = JSON.parse(benchJsonSchema());
  expect(built).toMatchObject(today);
  const validate = new Ajv2020({ strict: true, allErrors: true }).compile(built);
  const faults = (yaml: string) => (validate(parse(yaml)) ? [] : (validate.errors ?? []));
  expect(faults(filled(text))).toEqual([]);
  expect(faults(filled(text).replace('engagement: unknown', 'engagement: nobody'))).not.toEqual([]);
  expect(faults(filled(text).replace('extended:', 'extend:'))).not.toEqual([]);
});
