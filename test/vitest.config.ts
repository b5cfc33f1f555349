import { fileURLToPath } from 'node:url';
import { configDefaults, defineConfig } from 'vitest/config';

const root = fileURLToPath(new URL('..', import.meta.url));

/** Two groups: only the browser tests need Chromium, and a group's global setup runs only when its tests do. */
export default defineConfig({
  test: {
    root,
    reporters: ['default', ['json', { outputFile: 'node_modules/.cache/springsift/tests.json' }]],
    coverage: {
      provider: 'v8',
      include: ['src/**/*.ts'],
      reporter: ['text', 'html'],
      reportsDirectory: 'coverage',
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
