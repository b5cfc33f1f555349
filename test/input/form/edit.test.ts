import fc from 'fast-check';
import { expect, test } from 'vitest';
import { parse as parseYaml } from 'yaml';
import { add, fieldAt, isOwn, parse, put, remove, write } from '../../../src/input/form/edit.ts';
import { formFields } from '../../../src/input/form/fields.ts';
import { readYaml } from '../../../src/input/source/yaml.ts';

const CAR = formFields('car');
const TEXT = `# above all
springsift: 1
name: mine # of the car
shared: { hub: &hub 31 kg }
axles:
  front:
    unsprung_mass: *hub
    wheel_load: 300 kg     # weighed twice
    # between
    dampers:
      - { name: one, extended: 474 mm }
      - name: two
        extended: [470 mm, 480 mm] # both were read
`;
const dataOf = (text: string) => readYaml(text).document?.data as Record<string, unknown>;

test('a value that stands is replaced where it stands, every other byte kept', () => {
  const written = write(TEXT, CAR, ['axles', 'front', 'wheel_load'], '310 kg');
  expect(written).toBe(TEXT.replace('300 kg', '310 kg'));
});

test('a value in braces is quoted where it holds what would end it', () => {
  const written = write(TEXT, CAR, ['axles', 'front', 'dampers', 0, 'extended'], '12,5 mm');
  expect(written).toContain('{ name: one, extended: "12,5 mm" }');
});

test.each([
  [['car', 'pitch_inertia_ratio'], '0.95', 0.95],
  [['name'], '0.95', '0.95'],
  [['name'], 'true', 'true'],
  [['setups', 0, 'standing_on_stop'], 'true', true],
  [['axles', 'front', 'dampers', 1, 'body_length'], '474', 474],
  [['axles', 'front', 'dampers', 1, 'body_length'], '474 mm', '474 mm'],
] as const)('%j as %j reads back as %j', (path, typed, value) => {
  const written = write(TEXT, CAR, path, typed);
  expect(path.reduce<unknown>((data, key) => (data as Record<string, unknown>)[key], dataOf(written))).toBe(value);
});

test('what is new stands in the order of the format, with its meaning as a comment; comments of others stay', () => {
  const written = write(TEXT, CAR, ['axles', 'front', 'tyre_rate'], '200 N/mm');
  const lines = written.split('\n').map((line) => line.trim());
  const at = (start: string) => lines.findIndex((line) => line.startsWith(start));
  expect(at('tyre_rate: 200 N/mm # vertical rate of the tyre')).toBeGreaterThan(at('unsprung_mass'));
  expect(at('tyre_rate')).toBeLessThan(at('dampers'));
  for (const comment of ['# above all', '# of the car', '# weighed twice', '# between', '# both were read']) {
    expect(written).toContain(comment);
  }
});

test('several values take the place of one and keep its comment', () => {
  const written = put(TEXT, CAR, ['axles', 'front', 'wheel_load'], { left: '300 kg', right: '310 kg' });
  expect(dataOf(written)).toMatchObject({ axles: { front: { wheel_load: { left: '300 kg', right: '310 kg' } } } });
  const list = put(
    'axles:\n  front:\n    perches:\n      - height: 12 mm # lower face\n',
    CAR,
    ['axles', 'front', 'perches', 0, 'height'],
    ['12 mm', '14 mm'],
  );
  expect(list).toContain('height: [ 12 mm, 14 mm ] # lower face');
});

test('an entry is added to a list that stands, and begins one that does not', () => {
  const more = add(TEXT, CAR, ['axles', 'front', 'dampers'], { name: 'three' });
  const first = add(TEXT, CAR, ['axles', 'front', 'springs'], { free_length: '200 mm' });
  expect(dataOf(more)).toMatchObject({ axles: { front: { dampers: [{}, {}, { name: 'three' }] } } });
  expect(dataOf(first)).toMatchObject({ axles: { front: { springs: [{ free_length: '200 mm' }] } } });
});

test('what is removed takes along the mappings and lists that it leaves empty, but no axle’s other parts', () => {
  const text = write(TEXT, CAR, ['axles', 'front', 'bushes', 'rate'], '2 N/mm');
  expect(dataOf(remove(text, ['axles', 'front', 'bushes', 'rate']))).toEqual(dataOf(TEXT));
  const none = [1, 0].reduce((left, k) => remove(left, ['axles', 'front', 'dampers', k]), TEXT);
  expect(dataOf(none)).toEqual({ ...dataOf(TEXT), axles: { front: { unsprung_mass: '31 kg', wheel_load: '300 kg' } } });
});

test('what stands elsewhere under a name is not written through it', () => {
  const own = (...path: (string | number)[]) => isOwn(parse(TEXT), path);
  expect([own('axles', 'front', 'unsprung_mass'), own('axles', 'front', 'wheel_load')]).toEqual([false, true]);
  expect(isOwn(parse('a: &x { b: 1 }\nc: { <<: *x }\nd: *x\n'), ['c', 'b'])).toBe(false);
  expect(isOwn(parse('a: &x { b: 1 }\nc: { <<: *x }\nd: *x\n'), ['d', 'b'])).toBe(false);
  expect(isOwn(parse('a: 1\n'), ['b', 'c'])).toBe(true);
});

test('a path that no field has leads to none', () => {
  expect(fieldAt(CAR, ['axles', 'front', 'nowhere'])).toBeNull();
  expect(fieldAt(CAR, ['name', 'inside'])).toBeNull();
  expect(fieldAt(CAR, ['axles', 'front', 'wheel_load', 'left'])).toMatchObject({ key: 'left' });
});

test('any text typed anywhere reads back as it was typed', () => {
  const text = fc.string({ unit: 'grapheme', minLength: 1, maxLength: 12 }).filter((typed) => typed.trim() === typed);
  const place = fc.constantFrom<(string | number)[]>(
    ['name'],
    ['description'],
    ['axles', 'front', 'dampers', 0, 'name'],
    ['axles', 'front', 'dampers', 1, 'name'],
    ['axles', 'rear', 'sleeves', 0, 'name'],
  );
  fc.assert(
    fc.property(text, place, (typed, path) => {
      const written = parseYaml(write(TEXT, CAR, path, typed));
      expect(path.reduce((data, key) => data[key], written)).toBe(typed);
    }),
    { numRuns: 300 },
  );
});
