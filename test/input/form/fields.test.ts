import { expect, test } from 'vitest';
import { type FormField, formFields } from '../../../src/input/form/fields.ts';
import { fieldSections } from '../../../src/input/schema/fieldReference.ts';

/** Paths of all fields, lists without the places in them, the rear axle's left out as in the reference. */
function paths(field: FormField, path = ''): string[] {
  const here = field.kind === 'list' ? `${path}[]` : path;
  switch (field.kind) {
    case 'group':
      return field.fields.flatMap((child) => {
        const own = here === '' ? child.key : `${here}.${child.key}`;
        const isSecond = child.key === 'rear' && field.fields.some(({ key }) => key === 'front');
        return [own, ...(isSecond ? [] : paths(child, own))];
      });
    case 'list':
      return paths(field.entry, here);
    case 'either':
      return field.options.flatMap((option) => paths(option, path));
    default:
      return [];
  }
}

test('a form of a car has every field of the reference, but the version and the place for anchors', () => {
  const reference = fieldSections().flatMap(({ path, rows }) =>
    rows.map(({ field }) => (path === '' ? field : `${path}.${field}`)),
  );
  const inForm = new Set(paths(formFields('car')));
  expect(reference.filter((path) => !inForm.has(path))).toEqual(['springsift', 'shared']);
});

const find = (field: FormField, path: readonly string[]): FormField | undefined => {
  const [key, ...rest] = path;
  if (key === undefined) return field;
  const inner = field.kind === 'list' ? field.entry : field;
  const groups = inner.kind === 'either' ? inner.options : [inner];
  const child = groups.flatMap((group) => (group.kind === 'group' ? group.fields : [])).find((f) => f.key === key);
  return child && find(child, rest);
};

test.each([
  ['car', ['car', 'wheelbase'], { kind: 'value', dimension: 'length', isNeeded: true, unknown: undefined }],
  ['car', ['car', 'pitch_inertia_ratio'], { kind: 'value', dimension: 'ratio', unknown: { take: 0.95 } }],
  ['car', ['axles', 'front', 'dampers', 'extended'], { kind: 'swept', dimension: 'length' }],
  ['car', ['axles', 'front', 'dampers', 'body'], { kind: 'choice', isNeeded: false }],
  ['car', ['axles', 'front', 'dampers', 'gas'], { kind: 'either', unknown: { take: { out: '150 N' } } }],
  ['car', ['axles', 'front', 'wheel_load'], { kind: 'either', unknown: undefined }],
  ['car', ['setups', 'front', 'wanted_range'], { kind: 'span', dimension: 'length' }],
  ['car', ['setups', 'standing_on_stop'], { kind: 'yesNo' }],
  ['car', ['name'], { kind: 'text', words: [] }],
  ['bench', ['axles', 'front', 'dampers', 'body_diameter'], { kind: 'swept', isNeeded: false, unknown: null }],
  ['bench', ['axles', 'front'], { kind: 'group', isNeeded: false }],
] as const)('of a %s, %j is what the table of fields says', (level, path, says) => {
  expect(find(formFields(level), path)).toMatchObject(says);
});
