import { expect, test } from 'vitest';
import { fieldAt } from '../../../src/input/form/edit.ts';
import { type Either, type FormField, formFields } from '../../../src/input/form/fields.ts';
import { optionLabel, optionOf, skeletonOf } from '../../../src/page/form/skeleton.ts';

const CAR = formFields('car');
const at = (...path: (string | number)[]) => fieldAt(CAR, path) as FormField;

test('a new part begins with what it needs, unmeasured, and a name of its own', () => {
  const list = at('axles', 'front', 'perches');
  expect(skeletonOf((list as { entry: FormField }).entry, 'perch 2')).toEqual({
    ...{ name: 'perch 2', lock_ring: 'unknown', height: 'unknown', engagement: 'unknown' },
  });
});

test('of several forms the plainest begins: one value, something rather than nothing', () => {
  expect(skeletonOf(at('axles', 'front', 'wheel_load'), '')).toBe('unknown');
  expect(skeletonOf(at('axles', 'front', 'isolators'), 'isolator 1')).toMatchObject([{ name: 'isolator 1' }]);
  expect(skeletonOf(at('setups', 0, 'front', 'wanted_range'), '')).toEqual(['unknown', 'unknown']);
  expect(skeletonOf(at('setups', 0, 'standing_on_stop'), '')).toBe(false);
  expect(skeletonOf(at('axles', 'front', 'dampers', 0, 'body'), '')).toBe('twin_tube');
});

test('the form of what stands there is told by its shape', () => {
  const load = at('axles', 'front', 'wheel_load') as Either;
  const gas = at('axles', 'front', 'dampers', 0, 'gas') as Either;
  const form = ({ options }: Either, value: unknown) => {
    const option = optionOf(options, value);
    return option === null ? null : optionLabel(option);
  };
  expect(form(load, '300 kg')).toBe('one value');
  expect(form(load, { left: '300 kg' })).toBe('left, right');
  expect(form(gas, 'none')).toBe('none');
  expect(form(gas, { out: '100 N' })).toBe('out');
  expect(form(gas, { charge: '1 MPa', volume: '10 ml' })).toBe('charge, temperature, volume');
  expect(form(gas, 'some')).toBeNull();
  expect(form(gas, ['x'])).toBeNull();
  const margin = at('margins', 'coil_bind') as Either;
  expect(form(margin, 'en_13906')).toBe('en 13906');
  expect(form(margin, { from: '1 mm' })).toBeNull();
});
