/** Beside every test file: which marks (see marks.ts) each test passes, handed over with its result. */
import { afterEach, beforeEach } from 'vitest';
import { MARKS, type MarkHolder } from './marks.ts';

declare module 'vitest' {
  interface TaskMeta {
    /** Numbers of the marks passed by the test, or before any test of its file. */
    reached?: number[];
  }
}

const passed = new Set<number>();
(globalThis as MarkHolder)[MARKS] = (mark) => passed.add(mark);

/** Passed outside tests: while modules load, tests are collected, or several tests are prepared at once. */
const shared = new Set<number>();

beforeEach(() => {
  for (const mark of passed) shared.add(mark);
  passed.clear();
});

afterEach(({ task }) => {
  task.meta.reached = [...new Set([...shared, ...passed])];
  passed.clear();
});
