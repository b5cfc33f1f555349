/**
 * A test runner that stays warm: runs the groups of test files it is sent, one group after the other until a test
 * fails, and answers with the name of the failure or null. A process of its own, because a mutant that never ends can
 * only be killed. Within a group the modules are loaded once.
 */
import { createVitest, type TestModule, type Vitest } from 'vitest/node';

export interface Task {
  /** Absolute path of the file that has been changed since the last task. */
  readonly changed: string;
  /** Absolute paths of test files. */
  readonly groups: readonly (readonly string[])[];
}

export interface Answer {
  /** Test file and test that failed; null when all passed. */
  readonly failure: string | null;
  /** Absolute path of the test file that failed. */
  readonly file: string | null;
  readonly seconds: number;
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

type Failure = Pick<Answer, 'failure' | 'file'>;
const NONE: Failure = { failure: null, file: null };

function failureOf(module: TestModule): Failure {
  const { moduleId: file, relativeModuleId: name } = module;
  for (const test of module.children.allTests('failed')) return { failure: `${name} > ${test.fullName}`, file };
  return { failure: `${name} could not run`, file };
}

async function run(vitest: Vitest, tests: readonly string[]): Promise<Failure> {
  // What earlier runs found would count as failures of this one.
  vitest.state.filesMap.clear();
  vitest.state.idMap.clear();
  const project = vitest.getProjectByName('unit');
  const { testModules, unhandledErrors } = await vitest.runTestSpecifications(
    tests.map((test) => project.createSpecification(test)),
  );
  const failed = testModules.find((module) => module.state() === 'failed');
  if (failed !== undefined) return failureOf(failed);
  if (unhandledErrors.length > 0) return { failure: 'an unhandled error', file: tests[0] as string };
  if (testModules.length !== tests.length) throw new Error(`${testModules.length} of ${tests.length} test files ran`);
  return NONE;
}

let lastChanged = '';

async function judge(vitest: Vitest, { changed, groups }: Task): Promise<Answer> {
  const begin = performance.now();
  // The file of the last task was put back since.
  for (const path of new Set([changed, lastChanged])) vitest.invalidateFile(path);
  lastChanged = changed;
  let found = NONE;
  for (const tests of groups) if (found.failure === null) found = await run(vitest, tests);
  return { ...found, seconds: (performance.now() - begin) / 1000 };
}

const vitest = await start();
process.on('message', async (task: Task) => process.send?.(await judge(vitest, task)));
process.on('disconnect', () => process.exit());
process.send?.('ready');
