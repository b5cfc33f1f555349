import { expect, test } from 'vitest';
import type { Step, Steps } from '../src/model/steps.ts';
import { inTurns } from '../src/pipeline.ts';

/** So many steps, each of some milliseconds of work. */
function* busy(steps: number, each: number): Steps<string> {
  for (let done = 0; done < steps; done++) {
    const end = performance.now() + each;
    while (performance.now() < end);
    yield { what: 'waiting', done, of: steps };
  }
  return 'done';
}

test('work done in turns tells its steps in order and lets others be heard long before its end', async () => {
  const seen: Step[] = [];
  let heardAt = -1;
  setTimeout(() => {
    heardAt = seen.length;
  }, 1);
  expect(await inTurns(busy(40, 5), (step) => seen.push(step))).toBe('done');
  expect(seen.map(({ done }) => done)).toEqual(Array.from({ length: 40 }, (_, k) => k));
  expect(heardAt).toBeGreaterThan(0);
  expect(heardAt).toBeLessThan(40);
});

test('work without anybody to tell is done all the same, and what it throws comes through', async () => {
  expect(await inTurns(busy(2, 0))).toBe('done');
  const broken = function* (): Steps<never> {
    yield { what: 'waiting', done: 0, of: 1 };
    throw new RangeError('no');
  };
  await expect(inTurns(broken())).rejects.toThrow(RangeError);
});
