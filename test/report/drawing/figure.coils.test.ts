import { expect, test } from 'vitest';
import { coilsIn } from '../../../src/report/drawing/figure.ts';

const wire = { diameter: 10, active: 6, total: 8 };

test('a spring of 8 turns is cut nine times left and eight times right, from end to end', () => {
  const { left, right } = coilsIn([100, 300], wire);
  expect(left).toHaveLength(9);
  expect(right).toHaveLength(8);
  // The wire lies on the seat, and under the upper one.
  expect(left[0]).toBe(105);
  expect(left.at(-1)).toBeCloseTo(295, 9);
});

test('dead turns lie wire on wire, working turns share the rest', () => {
  const { left } = coilsIn([0, 200], wire);
  const pitches = left.slice(1).map((height, k) => height - (left[k] ?? 0));
  // Hand arithmetic: 190 between the wire's centres, less two dead turns of 10, over 6 working ones.
  expect(pitches[0]).toBeCloseTo(10, 9);
  expect(pitches.at(-1)).toBeCloseTo(10, 9);
  for (const pitch of pitches.slice(1, -1)) expect(pitch).toBeCloseTo(170 / 6, 9);
});

test('gone solid with ground ends, the turns lie evenly', () => {
  const { left } = coilsIn([0, 80], wire);
  const pitches = left.slice(1).map((height, k) => height - (left[k] ?? 0));
  for (const pitch of pitches) expect(pitch).toBeCloseTo(70 / 8, 9);
});
