import { fileURLToPath } from 'node:url';
import { configDefaults, defineConfig } from 'vitest/config';

const root = fileURLToPath(new URL('..', import.meta.url));

/**
 * What tests run where coverage is not measured: the page's own parts in Chromium, by test/browser; the command line
 * in processes of its own, by test/cli; the worker on threads of its own, by test/sweep.
 */
const RUN_ELSEWHERE = [
  ...['page', 'filter', 'sorting', 'units'].map((name) => `src/report/script/${name}.ts`),
  ...['amount', 'board', 'element', 'keep', 'later', 'live', 'look', 'picker', 'sliders', 'stage'].map(
    (name) => `src/live/${name}.ts`,
  ),
  'src/cli/**',
  'src/sweep/worker.ts',
];

/** A hair below what was measured: random tests and threads do not take every turn in every run. */
const CORE = { lines: 99, statements: 99, functions: 98, branches: 98 };
const OTHERS = { lines: 90, statements: 90 };

/** Two groups: only the browser tests need Chromium, and a group's global setup runs only when its tests do. */
export default defineConfig({
  test: {
    root,
    reporters: ['default', ['json', { outputFile: 'node_modules/.cache/springsift/tests.json' }]],
    coverage: {
      provider: 'v8',
      include: ['src/**/*.ts'],
      exclude: [...RUN_ELSEWHERE],
      // Files that are covered in full are left out of the table.
      reporter: [['text', { skipFull: true }], 'html'],
      reportsDirectory: 'coverage',
      thresholds: {
        'src/domain/**': CORE,
        'src/sweep/**': CORE,
        ...Object.fromEntries(['input', 'report', 'live'].map((part) => [`src/${part}/**`, OTHERS])),
      },
    },
    projects: [
      {
        extends: true,
        test: {
          name: 'unit',
          include: ['test/**/*.test.ts'],
          exclude: [...configDefaults.exclude, 'test/browser/**', 'test/bench/**'],
          // A limit against hangs, not a measure: a busy machine must not fail a test.
          testTimeout: 120_000,
        },
      },
      {
        extends: true,
        test: {
          name: 'browser',
          include: ['test/browser/**/*.test.ts'],
          globalSetup: 'test/setup/browser.ts',
          testTimeout: 60_000,
          hookTimeout: 60_000,
        },
      },
    ],
  },
});
