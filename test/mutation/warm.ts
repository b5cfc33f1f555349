/**
 * A test runner that stays warm: runs the tests it is sent until one fails, and answers with its name or null. A
 * process of its own, because a mutant that never ends can only be killed. In a run the modules are loaded once.
 */
import { createVitest, type TestModule, type TestProject, type TestSpecification, type Vitest } from 'vitest/node';

export interface Asked {
  /** Absolute path of a test file. */
  readonly file: string;
  /** Which of its tests; null for all. */
  readonly ids: readonly string[] | null;
}

export interface Task {
  /** Absolute paths of the files that have been changed since the last task. */
  readonly changed: readonly string[];
  /** In the order in which they are to run. */
  readonly tests: readonly Asked[];
}

export interface Ran {
  readonly id: string;
  readonly seconds: number;
  /** Numbers of the marks it passed. */
  readonly reached: readonly number[];
}

export interface Failure {
  readonly name: string;
  readonly killer: Asked;
}

export interface Answer {
  /** The test that failed; null when all passed. */
  readonly failure: Failure | null;
  readonly seconds: number;
  /** The tests that passed. */
  readonly passed: readonly Ran[];
}

const root = process.argv[2] as string;

const start = (): Promise<Vitest> =>
  createVitest('test', { root, config: `${root}/test/mutation/vitest.config.ts`, watch: false });

function failureOf(module: TestModule): Failure {
  const { moduleId: file, relativeModuleId: name } = module;
  for (const test of module.children.allTests('failed')) {
    return { name: `${name} > ${test.fullName}`, killer: { file, ids: [test.id] } };
  }
  return { name: `${name} could not run`, killer: { file, ids: null } };
}

function passedIn(module: TestModule): readonly Ran[] {
  return [...module.children.allTests('passed')].map((test) => ({
    id: test.id,
    seconds: (test.diagnostic()?.duration ?? 0) / 1000,
    reached: test.meta().reached ?? [],
  }));
}

const specification = (project: TestProject, { file, ids }: Asked): TestSpecification =>
  project.createSpecification(file, ids === null ? undefined : { testIds: [...ids] });

async function run(vitest: Vitest, tests: readonly Asked[]): Promise<Omit<Answer, 'seconds'>> {
  // What earlier runs found would count as failures of this one.
  vitest.state.filesMap.clear();
  vitest.state.idMap.clear();
  const { testModules, unhandledErrors } = await vitest.runTestSpecifications(
    tests.map((asked) => specification(vitest.getRootProject(), asked)),
  );
  const passed = testModules.flatMap(passedIn);
  const failed = testModules.find((module) => module.state() === 'failed');
  if (failed !== undefined) return { failure: failureOf(failed), passed };
  const [first] = tests;
  if (unhandledErrors.length > 0 && first !== undefined) {
    return { failure: { name: 'an unhandled error', killer: first }, passed };
  }
  if (testModules.length !== tests.length) throw new Error(`${testModules.length} of ${tests.length} test files ran`);
  return { failure: null, passed };
}

let lastChanged: readonly string[] = [];

async function judge(vitest: Vitest, { changed, tests }: Task): Promise<Answer> {
  const begin = performance.now();
  // The files of the last task were put back since.
  for (const path of new Set([...changed, ...lastChanged])) vitest.invalidateFile(path);
  lastChanged = changed;
  const found = await run(vitest, tests);
  return { ...found, seconds: (performance.now() - begin) / 1000 };
}

const vitest = await start();
process.on('message', async (task: Task) => process.send?.(await judge(vitest, task)));
process.on('disconnect', () => process.exit());
process.send?.('ready');
