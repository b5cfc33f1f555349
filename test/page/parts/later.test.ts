import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { debounce, inTurn } from '../../../src/page/parts/later.ts';

beforeEach(() => {
  vi.useFakeTimers();
});
afterEach(() => {
  vi.useRealTimers();
});

test('jobs are done one a pause, each once', () => {
  const done: number[] = [];
  const jobs = inTurn([0, 1, 2].map((k) => () => done.push(k)));
  jobs.start();
  expect(done).toEqual([]);
  vi.advanceTimersToNextTimer();
  expect(done).toEqual([0]);
  vi.runAllTimers();
  expect(done).toEqual([0, 1, 2]);
});

test('work that is started again and again still gives each job its turn', () => {
  const done: number[] = [];
  const jobs = inTurn([0, 1, 2].map((k) => () => done.push(k)));
  for (let k = 0; k < 6; k++) {
    jobs.start();
    vi.advanceTimersToNextTimer();
  }
  expect(done).toEqual([0, 1, 2, 0, 1, 2]);
  vi.runAllTimers();
  expect(done).toEqual([0, 1, 2, 0, 1, 2, 0, 1]);
});

test('what settles is done once, after the last request for it', () => {
  let count = 0;
  const request = debounce(100, () => {
    count += 1;
  });
  for (let k = 0; k < 5; k++) {
    request();
    vi.advanceTimersByTime(60);
  }
  expect(count).toBe(0);
  vi.advanceTimersByTime(60);
  expect(count).toBe(1);
});
