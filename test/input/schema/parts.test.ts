import { expect, test } from 'vitest';
import { PARTS } from '../../../src/input/schema/parts.ts';

const { damper, sleeve } = PARTS;

// Rod 10 mm across (78.54 mm^2), stroke 100 mm: 7854 mm^3, and 1.1 times that is 8639 mm^3.
test.each([
  ['8638 mm3', false],
  ['8640 mm3', true],
])('gas of %s for a rod of 7854 mm3: taken is %s', (volume, taken) => {
  const gas = { charge: '2 MPa', temperature: '20 degC', rod_diameter: '10 mm', volume };
  const sizes = { extended: '400 mm', compressed: '300 mm', body_length: '290 mm', body_diameter: '46 mm' };
  expect(damper.safeParse({ name: 'a', ...sizes, gas }).success).toBe(taken);
});

test('a thread so fine that turns have no count is refused', () => {
  const sizes = { ledge_height: '150 mm', length: '160 mm', bore: '50 mm', outer_diameter: '57 mm', trim: '0 mm' };
  const taken = (pitch: string) => sleeve.safeParse({ name: 'a', ...sizes, thread_pitch: pitch }).success;
  expect([taken('1e-9 mm'), taken('0.1 mm')]).toEqual([false, true]);
});
