import { expect, test } from 'vitest';
import { MARKS, type MarkHolder, marked } from './marks.ts';
import { mutantsOf } from './mutants.ts';
import { type FileRun, selectionFor } from './select.ts';

const SOURCE = `
function f(list: readonly number[] | null, n: number): number {
  if (n > 2 && list?.filter((x) => x > 1).length === 1) return n * 2;
  return -n + (list ?? [3])[0];
}
`;

/** Runs the source with its types cut out, and tells which mutants were passed. */
function run(source: string, ...args: readonly unknown[]) {
  const passed = new Set<number>();
  const plain = source.replace(/: readonly number\[\] \| null|: number/g, '');
  const holder = globalThis as MarkHolder;
  const before = holder[MARKS];
  holder[MARKS] = (mark) => passed.add(mark);
  try {
    const f = new Function(`${plain}; return f;`)() as (...given: readonly unknown[]) => unknown;
    return { value: f(...args), passed };
  } finally {
    if (before) holder[MARKS] = before;
    else delete holder[MARKS];
  }
}

test('marks change no value, and tell what was run', () => {
  const mutants = mutantsOf({ path: 'src/domain/f.ts', text: SOURCE });
  const text = marked(SOURCE, [...mutants.entries()]);
  for (const args of [
    [null, 1],
    [[5, 0], 3],
    [[5, 6], 3],
    [null, 3],
  ] as const) {
    expect(run(text, ...args).value).toBe(run(SOURCE, ...args).value);
  }
  const shownIn = (passed: ReadonlySet<number>) => [...passed].map((k) => mutants[k]?.shown ?? '').join('\n');
  // With n = 1 neither the list nor the product is reached.
  expect(shownIn(run(text, null, 1).passed)).not.toContain('n [* => /] 2');
  expect(shownIn(run(text, null, 1).passed)).toContain('n [> => >=] 2');
  expect(shownIn(run(text, [5, 0], 3).passed)).toContain('n [* => /] 2');
  expect(shownIn(run(text, [5, 0], 3).passed)).not.toContain('[-n => (n)]');
});

test('a mutant is tried with the tests that run it, its mirror first, as the budget allows', () => {
  const file = (name: string, seconds: number, ...reached: readonly (readonly number[])[]): FileRun => ({
    file: name,
    seconds: 0.15 + seconds * reached.length,
    tests: reached.map((marks, k) => ({ id: `${name} ${k}`, seconds, reached: marks })),
    marked: true,
  });
  const runs = [file('far', 4, [7], [7]), file('near', 1, [7], [8], [7]), file('other', 1, [8])];
  const steps = (name: string) => (name === 'near' ? 0 : 3);
  const { tests, reaching, allowed, seconds } = selectionFor(runs, 7, steps, 5);
  expect(tests).toEqual([
    { file: 'near', ids: ['near 0', 'near 2'] },
    { file: 'far', ids: ['far 0'] },
  ]);
  expect([reaching, allowed]).toEqual([4, 3]);
  expect(seconds).toBeCloseTo(6, 9);
  expect(selectionFor(runs, 9, steps, 5)).toEqual({ tests: [], seconds: 0, reaching: 0, allowed: 0 });
});
