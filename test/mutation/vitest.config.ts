import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';
import { BaseSequencer, type TestSpecification } from 'vitest/node';

const root = fileURLToPath(new URL('../..', import.meta.url));

/** Test files in the order they are asked for: those that are most likely to notice come first. */
class AsAsked extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    return files;
  }
}

/** The unit tests, run one after the other in one process until the first one fails. */
export default defineConfig({
  test: {
    root,
    include: ['test/**/*.test.ts'],
    setupFiles: ['test/mutation/reached.ts'],
    sequence: { sequencer: AsAsked },
    reporters: [{}],
    bail: 1,
    maxWorkers: 1,
    isolate: false,
    coverage: { enabled: false },
    // A limit against hangs of what waits; what never waits is stopped from outside.
    testTimeout: 60_000,
  },
});
