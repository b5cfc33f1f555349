import { fileURLToPath } from 'node:url';
import { configDefaults, defineConfig } from 'vitest/config';
import { UNMEASURED } from './cover/copy.ts';
import { LIMITS, patternOf } from './cover/parts.ts';

const root = fileURLToPath(new URL('..', import.meta.url));

/** Thousands of cases each, of code that the tests beside them run in full: measuring would take as long again. */
const LONG = [
  'test/fuzz/*.test.ts',
  'test/input/readScenario.hostile.test.ts',
  'test/report/embed.leaves.test.ts',
  'test/result/tolerance/bands.drawn.test.ts',
];

/** Whatever needs no browser. */
const UNIT = {
  globalSetup: 'test/setup/swept.ts',
  setupFiles: 'test/setup/seed.ts',
  pool: 'threads',
  // Each thread loads the sources once for all of its files: no test leaves anything changed in them.
  isolate: false,
  // Limits against hangs, not measures: a busy machine must not fail a test.
  testTimeout: 300_000,
  hookTimeout: 300_000,
} as const;

/** Groups: only the browser tests need Chromium, and a group's global setup runs only when its tests do. */
export default defineConfig({
  // As in `.ci/bundle.mjs`: the inner part of a package.
  resolve: { alias: { 'brotli/dec/decode.js': `${root}node_modules/brotli/dec/decode.js` } },
  test: {
    root,
    // The process that waits for them needs no core of its own.
    maxWorkers: '100%',
    reporters: ['default', ['json', { outputFile: 'node_modules/.cache/springsift/tests.json' }]],
    coverage: {
      provider: 'custom',
      customProviderModule: 'test/cover/provider.ts',
      include: ['src/**/*.ts'],
      // What is not covered in full, file by file, stands in coverage/files.txt; index.html shows it in the sources.
      reporter: [['text', { skipFull: true, file: 'files.txt' }], 'html', 'json'],
      reportsDirectory: 'coverage',
      reportOnFailure: true,
      thresholds: Object.fromEntries(Object.entries(LIMITS).map(([part, least]) => [patternOf(part), least])),
    },
    projects: [
      {
        extends: true,
        test: {
          ...UNIT,
          name: 'unit',
          include: ['test/**/*.test.ts'],
          exclude: [...configDefaults.exclude, 'test/browser/**', 'test/bench/**', ...LONG],
        },
      },
      { extends: true, test: { ...UNIT, name: 'long', include: LONG, env: { [UNMEASURED]: '1' } } },
      {
        extends: true,
        test: {
          name: 'browser',
          include: ['test/browser/**/*.test.ts'],
          globalSetup: ['test/setup/swept.ts', 'test/setup/browser.ts'],
          setupFiles: 'test/browser/closing.ts',
          isolate: false,
          testTimeout: 240_000,
          hookTimeout: 240_000,
        },
      },
    ],
  },
});
