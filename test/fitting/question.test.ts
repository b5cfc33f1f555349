/** A question in a few words becomes a scenario of the bench, or is told of with the option that is wrong. */
import { expect, test } from 'vitest';
import { parse } from 'yaml';
import { FORMS, OPTIONS, type Option, type Question, scenarioOf, springIn } from '../../src/fitting/question.ts';
import { benchOfText } from '../setup/benchScenario.ts';

/** What each option shows as its example, all of them together. */
const EXAMPLES = Object.fromEntries(OPTIONS.map((option) => [option, FORMS[option].example])) as Question;
const NEEDED = Object.fromEntries(
  OPTIONS.filter((option) => FORMS[option].needed).map((option) => [option, FORMS[option].example]),
) as Question;

const asked = (question: Question) => parse(scenarioOf(question).text).axles.front;

test('the examples of all options are a sound scenario, those of the needed ones, too', async () => {
  for (const question of [EXAMPLES, NEEDED]) {
    const { text, faults } = scenarioOf(question);
    expect(faults).toEqual([]);
    const { scenario } = await benchOfText(text);
    expect(scenario.axles.front?.wheel === null).toBe(question === NEEDED);
  }
});

test('each option becomes the fields that it names, a unit behind the last serving those that have none', () => {
  expect(asked(EXAMPLES)).toEqual({
    wheel_load: '320 kg',
    motion: {
      mount_raise: '12 mm',
      pairs: [{ hub_to_arch: '340 mm', damper_length: '420 mm' }],
      ratio: 0.95,
    },
    dampers: [{ extended: '474 mm', compressed: '324 mm', body_length: '318 mm' }],
    sleeves: [{ ledge_height: '150 mm', length: '160 mm', trim: '20 mm' }],
    perches: [{ height: '19 mm', lock_ring: '0 mm' }],
    mounts: [{ raise: '12 mm', flange_depth: '-10 mm' }],
    isolators: [{ thickness: '6 mm' }],
    // 21 / 60
    bump_stops: [{ length: '60 mm', closed_fraction: 0.35 }],
    springs: [{ free_length: '280 mm', rate: '34 N/mm', solid_height: '116 mm' }],
  });
});

test('inches, a unit of its own for each length and what may be left out are read', async () => {
  const inches: Question = {
    ...{ damper: '18.7/12.8/12.5/2 in', ledge: '5.9 in', sleeve: '6.3 in', perch: '0.75 in' },
    ...{ spring: '11 in, 200 lbf/in, solid 4.6 in, bore 2.5 in', mount: '0.5 in/-10 mm', stop: '2.4/0.84 in' },
  };
  const { dampers, sleeves, mounts, bump_stops, springs } = asked(inches);
  expect(dampers[0].body_diameter).toBe('2 in');
  expect(sleeves).toEqual([{ ledge_height: '5.9 in', length: '6.3 in' }]);
  expect(mounts).toEqual([{ raise: '0.5 in', flange_depth: '-10 mm' }]);
  expect(bump_stops[0].closed_fraction).toBe(0.35);
  expect(springs).toEqual([{ free_length: '11 in', rate: '200 lbf/in', solid_height: '4.6 in', bore: '2.5 in' }]);
  const { scenario } = await benchOfText(scenarioOf(inches, 'rear').text);
  // 18.7 x 25.4 mm
  expect(scenario.axles.rear?.options.damper[0]?.extended).toBeCloseTo(474.98, 9);
  expect(scenario.axles.front).toBeUndefined();
});

test('a stop closed at a height of another unit, or at none, closes as such stops usually do', () => {
  for (const stop of ['60 mm', '60 mm/0.8 in', '60/x mm']) {
    expect(asked({ ...NEEDED, stop }).bump_stops[0].closed_fraction, stop).toBe('unknown');
  }
});

test('a motion without a mount is taken from the tower plane', () => {
  const { mount: _, ...others } = EXAMPLES;
  expect(asked(others).motion.mount_raise).toBe('0 mm');
});

test('a spring is told by its words and units, in any order behind the free length', () => {
  expect(springIn('280 mm, solid 116 mm, 34 N/mm')).toEqual([
    'free_length: "280 mm"',
    'solid_height: "116 mm"',
    'rate: "34 N/mm"',
  ]);
  expect(springIn('10 in, wire 0.4 in, 8.5 coils, Bore 2.5 in')).toEqual([
    'free_length: "10 in"',
    'wire: "0.4 in"',
    'coils: 8.5',
    'bore: "2.5 in"',
  ]);
  for (const wrong of ['', '280 mm, red', '280 mm,', '280 mm, 116 mm', 'solid']) {
    // One word alone might be the free length, which the reader refuses.
    if (wrong === 'solid') expect(springIn(wrong)).toEqual(['free_length: "solid"']);
    else expect(springIn(wrong), wrong).toBeNull();
  }
});

const WRONG: readonly (readonly [Option, string])[] = [
  ['damper', '474/324 mm'],
  ['damper', '474/324/318/50/9 mm'],
  ['damper', '474//318 mm'],
  ['sleeve', '160-20-10 mm'],
  ['mount', '12 mm'],
  ['stop', '60/21/3 mm'],
  ['spring', '280 mm, stiff'],
  ['motion', '340 mm, 0.95'],
  ['motion', '340/420 mm'],
  ['motion', '340/420 mm, most'],
  ['motion', '340/420 mm, 0.95, 3'],
];

test.each(WRONG)('--%s does not read “%s”, and says what it found', (option, text) => {
  expect(scenarioOf({ ...EXAMPLES, [option]: text }).faults).toEqual([{ option, found: `“${text}”` }]);
});

test('everything that is missing or wrong is told of at once', () => {
  expect(
    scenarioOf({})
      .faults.map(({ option }) => option)
      .sort(),
  ).toEqual(Object.keys(NEEDED).sort());
  const { mount: _, ...others } = NEEDED;
  expect(scenarioOf({ ...others, damper: '474 mm', motion: '1' }).faults).toEqual([
    { option: 'motion', found: '“1”' },
    { option: 'mount', found: 'nothing' },
    { option: 'damper', found: '“474 mm”' },
  ]);
});

test('every line of the scenario knows the option that it came from', () => {
  const { text, optionAt } = scenarioOf(EXAMPLES);
  const options = text.split('\n').map((_, k) => optionAt(k + 1));
  expect(new Set(options)).toEqual(new Set([null, ...OPTIONS]));
  text.split('\n').forEach((line, k) => {
    if (line.includes('ledge_height')) expect(options[k]).toBe('ledge');
    if (line.includes('wheel_load')) expect(options[k]).toBe('load');
  });
  expect(optionAt(1000)).toBeNull();
});

test('quotes, braces and line breaks in an option are text, and never another field', async () => {
  for (const evil of ['1 mm" }], name: "x', '1 mm\n    dampers: []', '{a: b}', '*x', '!!js 1']) {
    const { text } = scenarioOf({ ...NEEDED, ledge: evil });
    expect(parse(text).axles.front.sleeves[0].ledge_height).toBe(evil.trim());
  }
});
