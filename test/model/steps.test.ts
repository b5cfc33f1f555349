import { expect, test } from 'vitest';
import { finish, type Step, type Steps } from '../../src/model/steps.ts';

function* work(): Steps<string> {
  yield { what: 'first', done: 0, of: 2 };
  yield { what: 'first', done: 1, of: 2 };
  return 'done';
}

test('work is run to its end, and every step is told on the way', () => {
  const told: Step[] = [];
  expect(finish(work(), (step) => told.push(step))).toBe('done');
  expect(told.map(({ done }) => done)).toEqual([0, 1]);
});

test('nobody has to listen', () => {
  expect(finish(work())).toBe('done');
});
