import { expect, test } from 'vitest';
import type { AxleAdoption } from '../../../src/audit/fit/adoption.ts';
import { type ParameterName, withParameter } from '../../../src/audit/fit/parameters.ts';
import { adoptText, isSameCar } from '../../../src/audit/read/adopt.ts';
import { formatProblem, readScenario } from '../../../src/input/readScenario.ts';
import { memoryFiles } from '../../../src/input/source/files.ts';
import { cornerAt, digitsOf } from '../../../src/model/corner/options.ts';
import { siteOf } from '../../../src/model/corner/site.ts';
import type { AxleName, Setup } from '../../../src/model/scenario.ts';
import { CATALOGUE, SCENARIO } from '../../input/edit.ts';

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

test('a measured spring of a catalogue is told by row and column, and neither file is changed', async () => {
  const before = await read();
  const { options } = before.scenario.axles.front;
  const spring = options.spring.findIndex(({ name }) => name === 'A 180-60');
  const changed = adoption(before, 'front', spring, { free_length: 179.25, solid_height: 61.5 });
  const { text, cells, catalogues } = await adoptText(before.files, [changed]);
  expect(text).toBe(SCENARIO);
  const place = { file: 'springs.csv', row: 4, spring: 'A 180-60', isNewColumn: false };
  expect(cells).toEqual([
    { ...place, column: 'free_length_mm', before: '180', after: '179.25' },
    { ...place, column: 'solid_height_mm', before: '92', after: '61.5' },
  ]);
  const after = await read(SCENARIO, catalogues[0]?.text);
  expect(after.scenario.axles.front.options.spring[spring]).toMatchObject({
    freeLength: 179.25,
    solid: { height: 61.5 },
  });
  const others = (r: Read) => r.scenario.axles.front.options.spring.filter((_, k) => k !== spring);
  expect(others(after)).toEqual(others(before));
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
  const { text } = await adoptText(before.files, [changed]);
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
  const after = await read((await adoptText(before.files, [built])).text);
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
  const text = (await adoptText(before.files, [built])).text;
  expect(text).toMatch(/- name: grid\n {8}solid_height: [\d.]+ in\n {8}free_length: 6 in\n/);
  const braced = APART.replace(
    /- name: grid[\s\S]*?price: 55/,
    '- { name: grid, free_length: 7 in, rate: 300 lbf/in, bore: 61 mm, price: 55 }',
  );
  const inBraces = await read(braced);
  const put = await adoptText(inBraces.files, [adoption(inBraces, 'rear', 0, { solid_height: 92.5 })]);
  expect(put.text).toMatch(/- \{ name: grid, solid_height: [\d.]+ \w+, free_length: 7 in,/);
});

test('a value is written back in the unit that stands there, and no other sign of the text changes', async () => {
  const commented = SCENARIO.replace('ledge_height: 5 in', 'ledge_height: 5 in     # to the ring')
    .replace(
      'wheel_load: 268 kg',
      'wheel_load:\n      left:  262 kg     # the driver sits there\n      right: 274 kg\n',
    )
    .replace('length: 7 in', '\'length\': "7 in"   # as bought');
  const before = await read(`\uFEFF${commented}`);
  const inch = 25.4;
  const rear = adoption(
    before,
    'rear',
    0,
    { ledge_height: 4.95 * inch, sleeve_length: 7.125 * inch },
    600.5 * 0.45359237,
  );
  const front = adoption(before, 'front', 0, { motion_offset: 0.5 }, { left: 263.5, right: 274 });
  const { text } = await adoptText(before.files, [rear, front]);
  expect(text).toBe(
    [
      ['ledge_height: 5 in', 'ledge_height: 4.95 in'],
      ['"7 in"', '"7.125 in"'],
      ['590 lb', '600.5 lb'],
      ['262 kg', '263.5 kg'],
      ['damper_length: 330 mm', 'damper_length: 330.5 mm'],
      ['damper_length: 368 mm', 'damper_length: 368.5 mm'],
      ['damper_length: 406.5 mm', 'damper_length: 407 mm'],
      ['damper_length: 445 mm', 'damper_length: 445.5 mm'],
    ].reduce((done, [from = '', to = '']) => done.replace(from, to), `\uFEFF${commented}`),
  );
});

test('one load in quotes becomes a load for either side', async () => {
  const before = await read(SCENARIO.replace('wheel_load: 268 kg', "wheel_load: '268 kg' # scales"));
  const { text } = await adoptText(before.files, [adoption(before, 'front', 0, {}, { left: 250, right: 254.5 })]);
  expect(text).toBe(SCENARIO.replace('wheel_load: 268 kg', 'wheel_load: { left: 250 kg, right: 254.5 kg } # scales'));
});

test('of several values the one that was built stays, in nested fields and in bare numbers too', async () => {
  const several = APART.replace('{ thickness: 6 mm, bore: 57 mm }', '{ thickness: [6 mm, 8 mm], bore: 57 mm }').replace(
    'closed_fraction: 0.4\n        diameter: 45 mm\n        price: 15',
    'closed_fraction: [0.4, 0.45]\n        diameter: 45 mm\n        packer: [0 mm, 5 mm]\n        packer_diameter: [30 mm, 40 mm]\n        price: 15',
  );
  const before = await read(several);
  const { options } = before.scenario.axles.rear;
  const last = Object.values(options).reduce((count, list) => count * list.length, 1) - 1;
  const built = adoption(before, 'rear', last, { helper_free_length: 59, stop_length: 45 });
  const { text } = await adoptText(before.files, [built]);
  expect(text).toContain('coupler: { thickness: 8 mm, bore: 57 mm }');
  expect(text).toMatch(/closed_fraction: 0\.45\n {8}diameter: 45 mm\n {8}packer: 5 mm\n {8}packer_diameter: 40 mm\n/);
});

test('what both axles share through an anchor is changed once; where they want different values the first stands', async () => {
  const before = await read();
  const cut = async (front: number, rear: number) =>
    (
      await adoptText(before.files, [
        adoption(before, 'front', 0, { stop_length: front }),
        adoption(before, 'rear', 0, { stop_length: rear }),
      ])
    ).text;
  const cutTo = (text: string) => SCENARIO.replace('{ from: 30 mm, to: 60 mm, step: 10 mm }', text);
  expect(await cut(35, 35)).toBe(cutTo('35 mm'));
  expect(await cut(35, 36)).toBe(cutTo('35 mm'));
  const uncut = await read(cutTo('60 mm').replace('    cut_length: 60 mm\n', ''));
  const both = (['front', 'rear'] as const).map((axle) => adoption(uncut, axle, 0, { stop_length: 35 }));
  expect((await adoptText(uncut.files, both)).text).toContain('name: cone\n    cut_length: 35 mm\n    length: 60 mm\n');
});

test('only a scenario of the same name and car is an older state of a scenario', () => {
  expect(isSameCar(SCENARIO.replace('268 kg', '270 kg'), `\uFEFF${SCENARIO}`)).toBe(true);
  expect(isSameCar(SCENARIO.replace('name: Two axle fixture', 'name: Another'), SCENARIO)).toBe(false);
  expect(isSameCar(SCENARIO.replace('2460 mm', '2461 mm'), SCENARIO)).toBe(false);
  // Notes that begin like a scenario are none.
  expect(isSameCar(SCENARIO.replace(/^axles:[\s\S]*/m, 'notes: my own'), SCENARIO)).toBe(false);
  for (const other of ['', CATALOGUE, 'combination: low-F1-R1-00\n', '{ broken', 'name: Two axle fixture\n']) {
    expect(isSameCar(other, SCENARIO), other).toBe(false);
  }
});
