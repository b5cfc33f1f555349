import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { readMeasured } from '../../../src/audit/read/readMeasured.ts';
import { blankMeasurements } from '../../../src/audit/read/schema.ts';
import { formatProblem } from '../../../src/input/problems/problems.ts';
import { memoryFiles } from '../../../src/input/source/files.ts';
import { fingerprintOf, fromBase32, pairId } from '../../../src/model/ids.ts';
import { realScenario, SCENARIOS } from '../../setup/scenarios.ts';

const scenario = await realScenario('hill-hatch');

function read(text: string) {
  return readMeasured('measured.yaml', scenario, memoryFiles([{ path: 'measured.yaml', text }]));
}

async function problems(text: string): Promise<readonly string[]> {
  const outcome = await read(text);
  return outcome.ok ? [] : outcome.problems.map(formatProblem);
}

const HEAD = 'springsift_measured: 1\nbest_of: low\n';

test('values arrive in inner units, sides take over what holds for both', async () => {
  const outcome = await read(
    `${HEAD}front:\n  stop_length: 1.5 in\n  wire: 10 mm\n  coils: 8\n  left: { free_length: 11 in, wheel_load: 600 lb }\n  right: { stop_length: 38 mm }\n`,
  );
  if (!outcome.ok) throw new Error(outcome.problems.map(formatProblem).join('\n'));
  const [left, right] = outcome.measured.units;
  // 1.5 in and 11 in of 25.4 mm, 600 lb of 0.45359237 kg (NIST SP 811).
  expect(left).toMatchObject({
    axle: 'front',
    side: 'left',
    stopLength: expect.closeTo(38.1, 9),
    freeLength: expect.closeTo(279.4, 9),
  });
  expect(left?.wheelLoad).toBeCloseTo(272.155422, 6);
  expect(left?.coil).toEqual({ wire: 10, coils: 8, ends: 'closed_ground' });
  expect(right).toMatchObject({ side: 'right', stopLength: 38, freeLength: null });
  expect(right?.coil).toEqual({ wire: 10, coils: 8, ends: 'closed_ground' });
  expect(outcome.assumptions.map((a) => a.field)).toContain('readings.length');
});

test('all problems come at once, each with line and column', async () => {
  const text = [
    'springsift_measured: 2',
    'combination: low-F1-R1-ZZ',
    'best_of: low',
    'front:',
    '  free_length: 279,5 mm',
    '  wire: 10 mm',
    '  sleve_length: 140 mm',
    '  snug_gaps:',
    '    - { perch: 170 mm, gap: 100 kg }',
    '    - { perch: 170 mm, gap: 100 mm }',
  ].join('\n');
  const found = await problems(text);
  expect(found.map((line) => line.split(': ')[0])).toEqual([
    'measured.yaml:1:22',
    'measured.yaml:5:16',
    'measured.yaml:7:3',
    'measured.yaml:9:29',
  ]);
  expect(found.join('\n')).toContain('did you mean `sleeve_length`?');
  expect(found.join('\n')).toContain('279.5');
});

test.each([
  [`${HEAD}`, 'measured.yaml:1:1', 'no measurement'],
  [`${HEAD}front:\nrear:\n  left:\n`, 'measured.yaml:1:1', 'no measurement'],
  ['springsift_measured: 1\nbest_of: fast\nfront: { stop_length: 38 mm }\n', 'measured.yaml:2:10', '`low` or `street`'],
  ['springsift_measured: 1\ncombination: low-1\nfront: { stop_length: 38 mm }\n', 'measured.yaml:2:14', 'an id like'],
  [
    'springsift_measured: 1\ncombination: low-F2M5-R6G-00\nfront: { stop_length: 38 mm }\n',
    'measured.yaml:2:14',
    'not of this scenario',
  ],
  [
    `${HEAD}front: { wire: 12 mm, coils: 30, free_length: 280 mm }\n`,
    'measured.yaml:3:1',
    'wire times coils of 360 mm',
  ],
  [`${HEAD}front: { coils: 8 }\n`, 'measured.yaml:3:10', 'only one of `wire` and `coils`'],
  [
    `${HEAD}front: { snug_gaps: [{ perch: 170 mm, gap: 9 mm }, { perch: 170 mm, gap: 8 mm }] }\n`,
    'measured.yaml:3:',
    'twice',
  ],
  [`${HEAD}front: { standing: 5 mm }\n`, 'measured.yaml:3:20', 'a list'],
])('%j is refuse at its place', async (text, place, says) => {
  const found = await problems(text);
  expect(found).toHaveLength(1);
  expect(found[0]).toContain(place);
  expect(found[0]).toContain(says);
});

test('a file that is not there, empty, or no YAML is refuse without a stack', async () => {
  const missing = await readMeasured('nowhere.yaml', scenario, memoryFiles([]));
  expect(missing.ok).toBe(false);
  expect(await problems('  \n')).toHaveLength(1);
  expect((await problems('front: [')).length).toBeGreaterThan(0);
});

test.each(SCENARIOS)('the example of %s reads without a problem', async (name) => {
  const path = fileURLToPath(new URL(`../../../scenarios/${name}/built/measured.yaml`, import.meta.url));
  const outcome = await readMeasured(path, await realScenario(name));
  expect(outcome.ok ? [] : outcome.problems.map(formatProblem)).toEqual([]);
  expect(readFileSync(path, 'utf8')).toMatch(/^# .*invented/);
});

test('the empty form is read as holding no measurement, and with the # taken off as holding them', async () => {
  const predicted = [
    { kind: 'free_length', perch: null, value: 280 },
    { kind: 'extended_gap', perch: null, value: 118 },
    { kind: 'snug_gap', perch: 169, value: 110 },
    { kind: 'ride_height', perch: 170, value: 332 },
  ] as const;
  const id = { setup: 'low', front: fromBase32('2M5'), rear: fromBase32('6G') };
  const form = blankMeasurements({
    scenario: 'Hill\nhatch',
    combination: pairId(id, fingerprintOf(scenario)),
    predicted: { front: predicted, rear: [] },
  });
  const refuse = await problems(form);
  expect(refuse).toHaveLength(1);
  expect(refuse[0]).toContain('no measurement');
  const filled = form
    .replace('# free_length:    mm', 'free_length: 281 mm')
    .replace('# snug_gaps:', 'snug_gaps:')
    .replace(/# {3}- \{ perch: 169.0 mm, gap: {4}mm \}/, '  - { perch: 169.0 mm, gap: 109 mm }')
    .replace('# standing:', 'standing:')
    .replace(/# {3}- \{ perch: 170.0 mm, ride_height: {4}mm \}/, '  - { perch: 170.0 mm, ride_height: 331 mm }');
  const outcome = await read(filled);
  if (!outcome.ok) throw new Error(outcome.problems.map(formatProblem).join('\n'));
  expect(outcome.measured.units).toHaveLength(1);
  expect(outcome.measured.units[0]).toMatchObject({
    freeLength: 281,
    snugGaps: [{ perch: 169, gap: 109 }],
    standing: [{ perch: 170, rideHeight: 331 }],
  });
});
