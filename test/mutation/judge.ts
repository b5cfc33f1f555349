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
const PATIENCE = { times: 5, seconds: 60 };
const ALONE_LIMIT = 300;
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

  /** What a test takes without any mutant, in seconds; null when it fails, which would kill every mutant. */
  async secondsOf(test: string): Promise<number | null> {
    const answer = await this.#run(UNTOUCHED, [[test]], ALONE_LIMIT);
    return answer?.failure === null ? answer.seconds : null;
  }

  /** Groups of tests are run in their order until a test fails; `expected` is what they take without a mutant, in seconds. */
  async verdict(mutant: Mutant, groups: readonly (readonly string[])[], expected: number): Promise<Verdict> {
    const text = this.#texts.get(mutant.path) as string;
    this.#write(mutant.path, mutated(text, mutant));
    const answer = await this.#run(mutant.path, groups, PATIENCE.times * expected + PATIENCE.seconds);
    this.#write(mutant.path, text);
    if (answer === null) return { mutant, outcome: 'timed out', by: null };
    if (answer.file !== null && ++this.#kills % CHECKED_KILLS === 0) await this.#checkClean(answer.file);
    return { mutant, outcome: answer.failure === null ? 'survived' : 'killed', by: answer.failure };
  }

  stop(): void {
    this.#runner.stop();
  }

  /** The test that failed passes again without the mutant; else the kills before it would mean nothing. */
  async #checkClean(file: string): Promise<void> {
    const killer = relative(this.#root, file);
    if ((await this.secondsOf(killer)) === null) throw new Error(`fails without a mutant, too: ${killer}`);
  }

  #run(changed: string, groups: readonly (readonly string[])[], limit: number): Promise<Answer | null> {
    const absolute = groups.map((tests) => tests.map((test) => join(this.#root, test)));
    return this.#runner.judge({ changed: join(this.#root, changed), groups: absolute }, limit);
  }

  #write(path: string, text: string): void {
    writeFileSync(join(this.#root, path), text);
  }
}
