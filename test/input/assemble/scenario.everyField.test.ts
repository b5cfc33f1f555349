/** No number of the scenario format is read and then forgotten: each one changes the scenario that the model works on. */

import { expect, test } from 'vitest';
import { assembleScenario } from '../../../src/input/assemble/scenario.ts';
import type { LoadedCatalogues } from '../../../src/input/catalogue/catalogue.ts';
import { formatProblem } from '../../../src/input/readScenario.ts';
import type { ScenarioFields } from '../../../src/input/schema/scenario.ts';
import { numberFields } from '../../../src/measure/measurable.ts';
import { type Edit, readEdited } from '../edit.ts';

const GRID = 'name: given, free_length: 200 mm, bore: 61 mm, wire: 9 mm, coils: 8, coating: 0.2 mm, price: 50';
const ROLL = 'roll: { track: 1480 mm, roll_centre_height: 20 mm, bar_rate: 9 N/mm }';
/** Every mapping of numbers that the fixture leaves out, and the rate of a spring from its geometry. */
const FULL: readonly Edit[] = [
  ['wheel_load: 590 lb', 'wheel_load: { left: 260 kg, right: 270 kg }'],
  ['pitch_inertia_ratio: 0.95', 'pitch_inertia_ratio: 0.95, sprung_centre_height: 500 mm'],
  ['    lowest_wheel: 410 mm', `    lowest_wheel: 410 mm\n    ${ROLL}`],
  ['tyre_on_arch: 250 mm', 'tyre_on_arch: 250 mm\n    bushes: { rate: 2 N/mm, unloaded_height: 340 mm }'],
  ['    dampers:', `    ${ROLL}\n    dampers:`],
  [
    '    isolators: [none]',
    '    isolators: [none]\n    rod_ends: [{ name: M12, thread_start: 20 mm, thread_end: 50 mm, plate_thickness: 5 mm, upper_bush: 8 mm, upper_washers: 3 mm, nut: 10 mm, jam_nut: 0 mm, price: 1 }]',
  ],
  [
    '        gas: { out',
    '        force_velocity: [{ velocity: 0.1 m/s, bump: 300 N, rebound: 600 N }]\n        gas: { out',
  ],
  [
    '    closed_fraction: 0.4',
    '    closed_fraction: 0.4\n    packer: 5 mm\n    packer_diameter: 40 mm\n    curve: { measured_length: 60 mm, points: [{ squeeze: 36 mm, force: 4 kN }] }',
  ],
  [
    '      - catalogue: springs.csv\n        only: { rate: { from: 50 N/mm, to: 60 N/mm } }',
    `      - { ${GRID}, estimate: { shear_modulus: 79 GPa } }`,
  ],
  [
    'frequency: { from: 1.6 Hz, to: 2.6 Hz }',
    'frequency: { from: 1.6 Hz, to: 2.6 Hz, wanted: 2 Hz }\n      damping_ratio: { from: 0.3, to: 0.8 }',
  ],
  [
    'to: 1.25 }',
    'to: 1.25, limits: { from: 0.8, to: 1.4 } }\n    bump: { load: 3 }\n    load_cases: [{ name: dip, front: 2, rear: 2 }, { name: bend, lateral: 0.8 }]',
  ],
  [
    '\nsetups:',
    '\nmargins: { coil_bind: 6 mm }\nranking: { weights: { price: 2, clearance: 1 }, price: { good: 400, worst: 900 } }\ntolerances: { closed_fraction: 0.05 }\nsetups:',
  ],
];

/** Numbers that may change without the scenario, and why. */
const OTHERWISE: readonly RegExp[] = [
  // They pick rows of a catalogue: see the tests of its reading.
  /^springs\[\]\.only\./,
  // One setup has no plan.
  /^plan\./,
];

const read = await readEdited(FULL);
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
