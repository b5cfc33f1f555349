import { expect, test } from 'vitest';
import { fuzz } from './watched.ts';

const RUNS = 5_000;
const SEED = 20_261_125;

test(`${RUNS} mutants of real scenarios (seed ${SEED}) give a result or placed problems, never a crash, a hang or a NaN`, {
  timeout: 1_200_000,
}, async () => {
  const { counts, failures } = await fuzz({ runs: RUNS, seed: SEED, sweepEach: 60 });
  expect(failures.join('\n\n')).toBe('');
  // Mutants that all break at once, or none of which is ever swept, would prove little.
  expect(counts.refused + counts.clean + counts.swept).toBe(RUNS);
  expect(counts.refused).toBeGreaterThan(RUNS / 4);
  expect(counts.clean).toBeGreaterThan(RUNS / 4);
  expect(counts.swept).toBeGreaterThan(5);
});
