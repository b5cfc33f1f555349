/**
 * A test runner that stays warm: runs the test files it is sent, one after the other until one fails, and answers
 * with the name of the failure or null. A process of its own, because a mutant that never ends can only be killed.
 */
import { createVitest, type TestModule, type TestSpecification, type Vitest } from 'vitest/node';

export interface Task {
  /** Absolute path of the file that has been changed since the last task. */
  readonly changed: string;
  /** Absolute paths of test files. */
  readonly tests: readonly string[];
}

export interface Answer {
  /** Test file and test that failed; null when all passed. */
  readonly failure: string | null;
  /** What each run test file took, in seconds. */
  readonly seconds: Readonly<Record<string, number>>;
}

const root = process.argv[2] as string;

function start(): Promise<Vitest> {
  return createVitest('test', {
    root,
    config: `${root}/test/vitest.config.ts`,
    project: ['unit'],
    watch: false,
    reporters: [{}],
    bail: 1,
    maxWorkers: 1,
    isolate: false,
    coverage: { enabled: false },
    // A limit against hangs of what waits; what never waits is stopped from outside.
    testTimeout: 60_000,
  });
}

function failureOf(module: TestModule): string {
  for (const test of module.children.allTests('failed')) return `${module.relativeModuleId} > ${test.fullName}`;
  return `${module.relativeModuleId} could not run`;
}

async function run(vitest: Vitest, specification: TestSpecification): Promise<string | null> {
  const { testModules, unhandledErrors } = await vitest.runTestSpecifications([specification]);
  const failed = testModules.find((module) => !module.ok());
  if (failed !== undefined) return failureOf(failed);
  return unhandledErrors.length > 0 ? `${specification.moduleId} with an unhandled error` : null;
}

let lastChanged = '';

async function judge(vitest: Vitest, { changed, tests }: Task): Promise<Answer> {
  // The file of the last task was put back since.
  for (const path of new Set([changed, lastChanged])) vitest.invalidateFile(path);
  lastChanged = changed;
  const seconds: Record<string, number> = {};
  const project = vitest.getProjectByName('unit');
  for (const test of tests) {
    const begin = performance.now();
    const failure = await run(vitest, project.createSpecification(test));
    seconds[test] = (performance.now() - begin) / 1000;
    if (failure !== null) return { failure, seconds };
  }
  return { failure: null, seconds };
}

const vitest = await start();
process.on('message', async (task: Task) => process.send?.(await judge(vitest, task)));
process.on('disconnect', () => process.exit());
process.send?.('ready');
