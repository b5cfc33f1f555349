import fc from 'fast-check';
import { expect, test } from 'vitest';
import { Heap } from '../../src/sweep/heap.ts';
import { forAny } from '../setup/random.ts';

test('what is taken comes in its order, however pushes and pops alternate', () => {
  forAny([fc.array(fc.oneof(fc.integer({ min: 0, max: 20 }), fc.constant(null)), { maxLength: 60 })], (steps) => {
    const heap = new Heap<number>((one, other) => one - other);
    const held: number[] = [];
    for (const step of steps) {
      if (step === null) expect(heap.pop()).toBe(held.shift() ?? null);
      else {
        heap.push(step);
        held.push(step);
        held.sort((a, b) => a - b);
      }
    }
    expect(held.map(() => heap.pop())).toEqual(held);
    expect(heap.pop()).toBeNull();
  });
});
