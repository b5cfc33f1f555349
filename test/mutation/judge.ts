/** One mutant after the other: put in, tested by the tests that can see it, taken out. */
import { writeFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { type Mutant, mutated } from './mutants.ts';
import type { Answer } from './warm.ts';
import { WarmProcess } from './warmProcess.ts';

export interface Verdict {
  readonly mutant: Mutant;
  readonly outcome: 'killed' | 'timed out' | 'survived';
  /** The test that failed. */
  readonly by: string | null;
}

/** How much longer than without a mutant the tests may take before they count as hanging. */
const PATIENCE = { times: 3, seconds: 20 };
const BASELINE_LIMIT = 300;
const UNTOUCHED = 'src/domain/units.ts';
/** After so many kills it is made sure that the killing test passes without a mutant. */
const CHECKED_KILLS = 10;

export class Judge {
  readonly #root: string;
  readonly #texts: ReadonlyMap<string, string>;
  readonly #runner: WarmProcess;
  #kills = 0;

  constructor(root: string, texts: ReadonlyMap<string, string>) {
    this.#root = root;
    this.#texts = texts;
    this.#runner = new WarmProcess(root);
  }

  /** What each test takes without any mutant; one that fails would kill every mutant and is left out. */
  async baseline(tests: readonly string[], failing: (failure: string) => void): Promise<ReadonlyMap<string, number>> {
    const seconds = new Map<string, number>();
    for (const test of tests) {
      const answer = await this.#run(UNTOUCHED, [test], BASELINE_LIMIT);
      if (answer?.failure === null) seconds.set(test, answer.seconds[join(this.#root, test)] ?? 0);
      else failing(answer?.failure ?? `${test} does not end within ${BASELINE_LIMIT} s`);
    }
    return seconds;
  }

  /** The tests are run in their order until one fails; `expected` is what they take without a mutant, in seconds. */
  async verdict(mutant: Mutant, tests: readonly string[], expected: number): Promise<Verdict> {
    const text = this.#texts.get(mutant.path) as string;
    this.#write(mutant.path, mutated(text, mutant));
    const answer = await this.#run(mutant.path, tests, PATIENCE.times * expected + PATIENCE.seconds);
    this.#write(mutant.path, text);
    if (answer === null) return { mutant, outcome: 'timed out', by: null };
    if (answer.failure !== null && ++this.#kills % CHECKED_KILLS === 0) await this.#checkClean(answer);
    return { mutant, outcome: answer.failure === null ? 'survived' : 'killed', by: answer.failure };
  }

  stop(): void {
    this.#runner.stop();
  }

  /** The test that failed passes again without the mutant; else the kills before it would mean nothing. */
  async #checkClean({ seconds }: Answer): Promise<void> {
    const killer = relative(this.#root, Object.keys(seconds).at(-1) as string);
    const answer = await this.#run(UNTOUCHED, [killer], BASELINE_LIMIT);
    if (answer?.failure !== null) throw new Error(`fails without the mutant, too: ${answer?.failure ?? killer}`);
  }

  #run(changed: string, tests: readonly string[], limit: number): Promise<Answer | null> {
    const absolute = tests.map((test) => join(this.#root, test));
    return this.#runner.judge({ changed: join(this.#root, changed), tests: absolute }, limit);
  }

  #write(path: string, text: string): void {
    writeFileSync(join(this.#root, path), text);
  }
}
