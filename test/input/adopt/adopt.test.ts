import { expect, test } from 'vitest';
import type { AxleAdoption } from '../../../src/domain/audit/adoption.ts';
import { digitsOf } from '../../../src/domain/audit/adoption.ts';
import type { ParameterName } from '../../../src/domain/audit/parameters.ts';
import { withParameter } from '../../../src/domain/audit/parameters.ts';
import { siteOf } from '../../../src/domain/corner/site.ts';
import type { AxleName, Setup } from '../../../src/domain/scenario.ts';
import { adoptedFiles } from '../../../src/input/adopt/adopt.ts';
import { catalogueEdits } from '../../../src/input/adopt/springEdits.ts';
import { edited } from '../../../src/input/adopt/textEdits.ts';
import { memoryFiles } from '../../../src/input/files.ts';
import { formatProblem, readScenario } from '../../../src/input/readScenario.ts';
import { cornerAt } from '../../../src/sweep/options.ts';
import { CATALOGUE, SCENARIO } from '../edit.ts';

const IN_PLACE = { scenario: 'scenario.yaml', catalogue: (name: string) => name };

async function read(scenario = SCENARIO, catalogue = CATALOGUE) {
  const outcome = await readScenario(
    'scenario.yaml',
    memoryFiles([
      { path: 'scenario.yaml', text: scenario },
      { path: 'springs.csv', text: catalogue },
    ]),
  );
  if (!outcome.ok) throw new Error(outcome.problems.map(formatProblem).join('\n'));
  return outcome;
}

type Read = Awaited<ReturnType<typeof read>>;

function adoption(
  { scenario }: Read,
  axle: AxleName,
  index: number,
  changes: Partial<Record<ParameterName, number>>,
  wheelLoad: AxleAdoption['wheelLoad'] = null,
): AxleAdoption {
  const { options } = scenario.axles[axle];
  const site = siteOf(scenario, scenario.setups[0] as Setup, axle);
  const model = Object.entries(changes).reduce((m, [name, value]) => withParameter(m, name as ParameterName, value), {
    site,
    corner: cornerAt(options, index),
  });
  return { axle, digits: digitsOf(options, index), corner: model.corner, changed: changes, wheelLoad };
}

/** Lines that differ, before and after. */
function difference(before: string, after: string): string[] {
  const [a, b] = [before.split('\n'), after.split('\n')];
  expect(b).toHaveLength(a.length);
  return a.flatMap((line, k) => (line === b[k] ? [] : [`- ${line.trim()}`, `+ ${b[k]?.trim()}`]));
}

test('a measured spring changes the cells of its own row, byte for byte nothing else', async () => {
  const before = await read();
  const { options } = before.scenario.axles.front;
  const spring = options.spring.findIndex((s) => CATALOGUE.includes(s.name));
  expect(spring).toBeGreaterThanOrEqual(0);
  const changed = adoption(before, 'front', spring, { free_length: 179.25, solid_height: 61.5 });
  const files = await adoptedFiles(before.files, [changed], IN_PLACE);
  expect(Object.keys(files ?? {}).sort()).toEqual(['scenario.yaml', 'springs.csv']);
  expect(files?.['scenario.yaml']).toBe(SCENARIO);
  const after = await read(SCENARIO, files?.['springs.csv']);
  expect(after.scenario.axles.front.options.spring[spring]).toMatchObject({
    freeLength: 179.25,
    solid: { height: 61.5 },
  });
  const others = (r: Read) => r.scenario.axles.front.options.spring.filter((_, k) => k !== spring);
  expect(others(after)).toEqual(others(before));
});

test('a catalogue under another name is named so wherever the scenario names it', async () => {
  const before = await read();
  const spring = before.scenario.axles.front.options.spring.findIndex((s) => CATALOGUE.includes(s.name));
  const names = { scenario: 's.as-built.yaml', catalogue: (name: string) => `built-${name}` };
  const files = await adoptedFiles(before.files, [adoption(before, 'front', spring, { free_length: 179 })], names);
  expect(Object.keys(files ?? {}).sort()).toEqual(['built-springs.csv', 's.as-built.yaml']);
  const changes = difference(SCENARIO, files?.['s.as-built.yaml'] ?? '');
  expect(changes.filter((line) => line.startsWith('+')).every((line) => line.includes('built-springs.csv'))).toBe(true);
});

test('a column that the catalogue lacks is put in once, as the last one', async () => {
  const bare = 'name,free_length_mm,rate_n_per_mm,wire_mm,coils,bore_mm\nA,180,50,9,6.8,60\n\nB,200,60,9.5,7,60\n';
  const before = await read(SCENARIO, bare);
  const built = adoption(before, 'front', 0, { solid_height: 63.5, rate: 51.5 });
  const files = await adoptedFiles(before.files, [built], IN_PLACE);
  expect(files?.['springs.csv']).toBe(
    'name,free_length_mm,rate_n_per_mm,wire_mm,coils,bore_mm,solid_height_mm\nA,180,51.5,9,6.8,60,63.5\n\nB,200,60,9.5,7,60,\n',
  );
  const both = catalogueEdits(bare, [
    { line: 2, changed: [{ name: 'solid_height', value: 63 }] },
    { line: 4, changed: [{ name: 'solid_height', value: 72 }] },
  ]);
  expect(
    edited(bare, both)
      ?.split('\n')
      .map((line) => line.split(',')[6]),
  ).toEqual(['solid_height_mm', '63', undefined, '72', undefined]);
});

test('cuts, loads and lengths are written where they stand, comments and order kept', async () => {
  const before = await read();
  const { sleeve } = cornerAt(before.scenario.axles.front.options, 0);
  const cut = sleeve.length - sleeve.trim - 1.5;
  const changed = adoption(
    before,
    'front',
    0,
    { sleeve_length: cut, ledge_height: 151.5 },
    { left: 250, right: 254.5 },
  );
  const files = await adoptedFiles(before.files, [changed], IN_PLACE);
  const text = files?.['scenario.yaml'] ?? '';
  const comments = (from: string) => from.match(/#.*/g);
  expect(comments(text)).toEqual(comments(SCENARIO));
  const after = await read(text);
  expect(after.scenario.axles.front.wheelLoads).toEqual({ left: 250, right: 254.5 });
  const built = cornerAt(after.scenario.axles.front.options, 0);
  expect(built.sleeve.length - built.sleeve.trim).toBeCloseTo(cut, 9);
  expect(built.sleeve.ledgeHeight).toBe(151.5);
  expect(after.scenario.axles.rear).toEqual(before.scenario.axles.rear);
});

/** Anchors would share the parts between the axles, where nothing can be adopted into one of them. */
const APART = SCENARIO.replace('bump_stops: [*stop]', 'bump_stops: [{ <<: *stop, name: front cone, length: 60 mm }]')
  .replace(
    /(rear:[\s\S]*)bump_stops: \[\*stop\]/,
    '$1bump_stops:\n      - name: rear cone\n        length: 60 mm\n        cut_length: [40 mm, 50 mm]\n        closed_fraction: 0.4\n        diameter: 45 mm\n        price: 15',
  )
  .replace(
    /(rear:[\s\S]*)perches: \[\*perch\]/,
    '$1perches: [{ name: stepped, lock_ring: 8 mm, height: [12 mm, 14 mm], spigot_diameter: 60 mm, engagement: 5 mm, price: 20 }]',
  );

test('whatever of a corner was measured, the scenario read anew holds the corner as built, and its other cuts no more', async () => {
  const before = await read(APART);
  const { options } = before.scenario.axles.rear;
  const last = Object.values(options).reduce((count, list) => count * list.length, 1) - 1;
  const measured = {
    ...{ free_length: 202.5, rate: 60.5, solid_height: 91.25, helper_free_length: 59.5, stop_length: 48.5 },
    ...{ flange_depth: 8.25, body_length: 294.5, ledge_height: 127.5, perch_height: 13.5, motion_offset: 0.75 },
  };
  const built = adoption(before, 'rear', last, measured, 270.5);
  const files = await adoptedFiles(before.files, [built], IN_PLACE);
  const after = await read(files?.['scenario.yaml'] ?? '');
  const { rear, front } = after.scenario.axles;
  const count = Object.values(rear.options).reduce((product, list) => product * list.length, 1);
  // Isolator and helper stay choices beside none.
  expect(count).toBe(rear.options.isolator.length * rear.options.helper.length);
  const found = cornerAt(rear.options, count - 1);
  const near = (value: number) => expect.closeTo(value, 9);
  expect(found.spring).toMatchObject({ freeLength: near(202.5), rate: near(60.5), solid: { height: near(91.25) } });
  expect(found.bumpStop).toMatchObject({ uncutLength: 60, length: 48.5 });
  for (const family of ['damper', 'mount', 'sleeve', 'perch', 'helper'] as const) {
    const same = Object.entries(built.corner[family] ?? {}).map(([field, value]) => [
      field,
      typeof value === 'number' ? near(value) : value,
    ]);
    expect(found[family], family).toEqual(Object.fromEntries(same));
  }
  expect(rear.wheelLoad).toBeCloseTo(270.5, 9);
  expect(rear.motion.pairs.map((pair) => pair.damperLength)).toEqual([400.75]);
  expect(front).toEqual(before.scenario.axles.front);
});

test('a field that the scenario left to its default is put in beside its neighbours, in blocks and in braces', async () => {
  const before = await read(APART);
  const built = adoption(before, 'rear', 0, { solid_height: 92.5 });
  const text = (await adoptedFiles(before.files, [built], IN_PLACE))?.['scenario.yaml'] ?? '';
  expect(text).toMatch(/- name: grid\n {8}solid_height: [\d.]+ in\n {8}free_length: 6 in\n/);
  const braced = APART.replace(
    /- name: grid[\s\S]*?price: 55/,
    '- { name: grid, free_length: 7 in, rate: 300 lbf/in, bore: 61 mm, price: 55 }',
  );
  const inBraces = await read(braced);
  const files = await adoptedFiles(inBraces.files, [adoption(inBraces, 'rear', 0, { solid_height: 92.5 })], IN_PLACE);
  expect(files?.['scenario.yaml']).toMatch(/- \{ name: grid, solid_height: [\d.]+ \w+, free_length: 7 in,/);
});

test('a catalogue’s new name that YAML would misread is put in quotes', async () => {
  const before = await read();
  const names = { scenario: 'scenario.yaml', catalogue: () => '2026: built.csv' };
  const files = await adoptedFiles(before.files, [adoption(before, 'front', 0, { free_length: 159 })], names);
  expect(files?.['scenario.yaml']).toContain('catalogue: "2026: built.csv"');
});
