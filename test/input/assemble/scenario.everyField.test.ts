/** No number of the scenario format is read and then forgotten: each one changes the scenario that the model works on. */

import { expect, test } from 'vitest';
import { assembleScenario } from '../../../src/input/assemble/scenario.ts';
import type { LoadedCatalogues } from '../../../src/input/catalogue/catalogue.ts';
import { formatProblem } from '../../../src/input/readScenario.ts';
import type { ScenarioFields } from '../../../src/input/schema/scenario.ts';
import { numberFields } from '../../../src/measure/measurable.ts';
import { EVERY_FIELD, readEdited } from '../edit.ts';

/** Numbers that may change without the scenario, and why. */
const OTHERWISE: readonly RegExp[] = [
  // They pick rows of a catalogue: see the tests of its reading.
  /^springs\[\]\.only\./,
  // One setup has no plan.
  /^plan\./,
  // They tell the usual value of what nobody measured, and nothing else.
  /^tyre_width$/,
];

const read = await readEdited(EVERY_FIELD);
if (!read.ok) throw new Error(read.problems.map(formatProblem).join('\n'));
const { fields } = read;

const assembled = (changed: ScenarioFields): string =>
  JSON.stringify(assembleScenario(changed, {}, { byName: new Map() } as unknown as LoadedCatalogues).scenario);

const nudged = (value: unknown, absent: unknown): unknown => {
  if (Array.isArray(value)) return value.map((one) => nudged(one, absent));
  return typeof value === 'number' ? value * 1.003 + 0.001 : absent;
};

/** The data with the number at `path` another one, in every entry of its lists; `absent` where there was none. */
function changed(data: unknown, [key, ...rest]: readonly string[], absent: unknown): unknown {
  if (key === undefined) return nudged(data, absent);
  if (typeof data !== 'object' || data === null) return data;
  const name = key.replace('[]', '');
  const child = (data as Readonly<Record<string, unknown>>)[name];
  const deeper = (item: unknown) => changed(item, rest, absent);
  const isList = key.endsWith('[]') && Array.isArray(child);
  if (rest.length > 0 && child === undefined) return data;
  return { ...data, [name]: isList ? child.map(deeper) : deeper(child) };
}

const base = assembled(fields);
const ofCar = /^(?:car|setups\[\]|margins|ranking|tolerances)\./;

test.each(
  numberFields()
    .map(({ path }) => path)
    .filter((path) => OTHERWISE.every((other) => !other.test(path))),
)('%s changes the scenario', (path) => {
  const places = ofCar.test(path) ? [path] : [`axles.front.${path}`, `axles.rear.${path}`];
  // What the fixture leaves out is given one value: of a part a list, since several may be tried.
  const absent = path.includes('[]') ? [12.345] : 12.345;
  const tried = places.map((place) => changed(fields, place.split('.'), absent));
  expect(tried.some((other) => assembled(other as ScenarioFields) !== base)).toBe(true);
});
