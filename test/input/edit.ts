/** The fixture scenario with pieces of its text exchanged, read from memory. */

import { readFileSync } from 'node:fs';
import { parse } from 'yaml';
import type { Problem } from '../../src/input/problems/problems.ts';
import { formatProblem, type ReadScenario, readScenario } from '../../src/input/readScenario.ts';
import { memoryFiles } from '../../src/input/source/files.ts';
import type { Scenario } from '../../src/model/scenario.ts';

const fixture = (name: string) => readFileSync(new URL(`fixture/${name}`, import.meta.url), 'utf8');
export const SCENARIO = fixture('scenario.yaml');
export const CATALOGUE = fixture('springs.csv');

export type Edit = readonly [from: string, to: string];

/** Each `from` must stand in the text: a test that edits nothing proves nothing. */
export function edited(text: string, edits: readonly Edit[]): string {
  return edits.reduce((result, [from, to]) => {
    if (!result.includes(from)) throw new Error(`not in the fixture: ${from}`);
    return result.replace(from, () => to);
  }, text);
}

/** The tables of mistakes and slips in the folder of the fixture. */
export const tableOf = (name: string) => parse(fixture(name));

/** An edit as the tables write it: `[from, to]`, or `field: value` for the first field of that name. */
export function editOf(text: string, written: string | Edit): Edit {
  if (typeof written !== 'string') return written;
  const field = written.slice(0, written.indexOf(':'));
  const value = String.raw`(?:\{[^}]*\}|\[[^\]]*\]|[^,}\n#]*[^,}\n# ])`;
  return [new RegExp(String.raw`\b${field}: ${value}`).exec(text)?.[0] ?? `${field}: `, written];
}

export async function scenarioOf(edits: readonly Edit[] = []): Promise<Scenario> {
  const read = await readEdited(edits);
  if (!read.ok) throw new Error(read.problems.map(formatProblem).join('\n'));
  return read.scenario;
}

export function readEdited(edits: readonly Edit[], catalogue = CATALOGUE): Promise<ReadScenario> {
  return readTexts(edited(SCENARIO, edits), catalogue);
}

export function readTexts(scenario: string, catalogue = CATALOGUE): Promise<ReadScenario> {
  const files = [
    { path: 'scenario.yaml', text: scenario },
    { path: 'springs.csv', text: catalogue },
  ];
  return readScenario('scenario.yaml', memoryFiles(files));
}

export async function problemsOf(edits: readonly Edit[], catalogue = CATALOGUE): Promise<readonly Problem[]> {
  const read = await readEdited(edits, catalogue);
  return read.ok ? [] : read.problems;
}

/** Line and column (from 1) at which a piece of text stands. */
export function placeOf(text: string, piece: string): { line: number; column: number } {
  const offset = text.indexOf(piece);
  if (offset < 0) throw new Error(`not in the text: ${piece}`);
  const before = text.slice(0, offset).split('\n');
  return { line: before.length, column: (before.at(-1)?.length ?? 0) + 1 };
}

// The fixture with every field of the format given.

const GRID = 'name: given, free_length: 200 mm, bore: 61 mm, wire: 9 mm, coils: 8, coating: 0.2 mm, price: 50';
const ROLL = 'roll: { track: 1480 mm, roll_centre_height: 20 mm, bar_rate: 9 N/mm }';
/** Every mapping of numbers that the fixture leaves out, and the rate of a spring from its geometry. */
export const EVERY_FIELD: readonly Edit[] = [
  ['wheel_load: 590 lb', 'wheel_load: { left: 260 kg, right: 270 kg }'],
  ['pitch_inertia_ratio: 0.95', 'pitch_inertia_ratio: 0.95, sprung_centre_height: 500 mm'],
  ['    lowest_wheel: 410 mm', `    lowest_wheel: 410 mm\n    tyre_width: 205 mm\n    ${ROLL}`],
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
