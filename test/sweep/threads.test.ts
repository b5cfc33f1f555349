import { expect, test } from 'vitest';
import { lossOf, WorkerLost } from '../../src/sweep/threads.ts';

test('a thread that ended unasked is a lost worker, an error of the sweep stays what it is', () => {
  const memory = Object.assign(new Error('no memory'), { code: 'ERR_WORKER_OUT_OF_MEMORY' });
  expect(lossOf(memory)).toBeInstanceOf(WorkerLost);
  expect(lossOf(new Error('worker exited with code: 1'))).toBeInstanceOf(WorkerLost);
  const own = new RangeError('no combination 7');
  expect(lossOf(own)).toBe(own);
  expect(lossOf(Object.assign(own, { code: 'ERR_OTHER' }))).toBe(own);
  expect(lossOf('thrown text')).toBe('thrown text');
});
