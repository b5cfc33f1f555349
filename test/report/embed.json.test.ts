import { expect, test } from 'vitest';
import { CHECKS } from '../../src/model/corner/checks.ts';
import { snakeKey } from '../../src/model/keys.ts';
import { FAMILIES } from '../../src/model/scenario.ts';
import { resultFrom, resultsJson } from '../../src/report/embed.ts';
import { recorded } from '../page/bench/records.ts';
import { resultSchema as schema, validate } from '../setup/resultSchema.ts';
import { SCENARIOS } from '../setup/scenarios.ts';
import { build, hostile, result } from './fixture.ts';

test.each([
  ['a sweep', result()],
  ['a build', build()],
  ['hostile names', hostile()],
  ['a warning', result({ warnings: [{ file: 'a.yaml', line: 1, column: 2, found: 'x', usual: 'y', advice: 'z' }] })],
])('the schema accepts %s', (_, given) => {
  validate(JSON.parse(resultsJson(given)));
  expect(validate.errors).toBeNull();
});

// Found by fuzzing: margins by rule, limits of the balance and loads of both sides were none of the schema's.
test.each(SCENARIOS)('the schema accepts what the bench of %s starts from', async (name) => {
  const { record } = await recorded(name);
  validate(JSON.parse(resultsJson({ ...result(), live: record })));
  expect(validate.errors).toBeNull();
});

test('the schema refuses a missing key, an unknown key, a wrong version and a score above 1', () => {
  const good = JSON.parse(resultsJson(result()));
  const { mode, ...withoutMode } = good;
  expect(mode).toBe('sweep');
  expect(validate(withoutMode)).toBe(false);
  expect(validate({ ...good, extra: 1 })).toBe(false);
  expect(validate({ ...good, version: 1 })).toBe(false);
  good.setups[0].shortlist[0].score = 1.2;
  expect(validate(good)).toBe(false);
});

test('the schema knows every check and every part family', () => {
  // In JSON Schema the order of either says nothing.
  expect(schema.$defs.CheckName.enum.toSorted()).toEqual(CHECKS.toSorted());
  expect(Object.keys(schema.$defs.AxleTally.properties.rejected.properties).sort()).toEqual(CHECKS.toSorted());
  expect(Object.keys(schema.$defs.CornerReport.properties.parts.properties)).toEqual(FAMILIES.map(snakeKey));
});

test('JSON gives the result back unchanged, hostile names included, and ends in one newline', () => {
  for (const given of [result(), build(), hostile()]) {
    const text = resultsJson(given);
    expect(resultFrom(JSON.parse(text))).toEqual(given);
    expect(text).toMatch(/[^\n]\n$/);
    expect(resultsJson(structuredClone(given))).toBe(text);
  }
});

test('keys stand in the order of the result, its name first', () => {
  expect(resultsJson(result()).startsWith('{\n  "schema": "springsift-result",\n  "version": 2,')).toBe(true);
});
