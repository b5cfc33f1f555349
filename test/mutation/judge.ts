/** One mutant after the other: put in, tested by the tests that can see it, taken out. */
import { writeFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { marked } from './marks.ts';
import { type Mutant, mutated } from './mutants.ts';
import type { Answer, Asked } from './warm.ts';
import { WarmProcess } from './warmProcess.ts';

export interface Verdict {
  readonly mutant: Mutant;
  readonly outcome: 'killed' | 'timed out' | 'survived';
  /** The test that failed. */
  readonly by: string | null;
  /** How many tests ran the mutated code, and how many of them the budget allowed. */
  readonly reaching: number;
  readonly allowed: number;
}

/** How much longer than without a mutant the tests may take before they count as hanging. */
const PATIENCE = { times: 5, seconds: 60 };
const ALONE_LIMIT = 300;
/** After so many kills it is made sure that the killing test passes without a mutant. */
const CHECKED_KILLS = 10;

/** Tests to run, by their files' paths from the root, and what they take without a mutant, in seconds. */
export interface Selection {
  readonly tests: readonly Asked[];
  readonly seconds: number;
  readonly reaching: number;
  readonly allowed: number;
}

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

  /** From now on the files carry the marks of mutants, or no marks. */
  mark(mutants: readonly Mutant[]): void {
    const numbered = [...mutants.entries()];
    for (const [path, text] of this.#texts) {
      this.#write(
        path,
        marked(
          text,
          numbered.filter(([, mutant]) => mutant.path === path),
        ),
      );
    }
    this.#runner.stop();
  }

  /** A test file without any mutant; null when it fails, which would kill every mutant. */
  async alone(test: string): Promise<Answer | null> {
    const answer = await this.#run([], [{ file: test, ids: null }], ALONE_LIMIT);
    return answer === null || answer.failure !== null ? null : answer;
  }

  /** Tests are run in their order until one fails. */
  async verdict(mutant: Mutant, { tests, seconds, reaching, allowed }: Selection): Promise<Verdict> {
    const counts = { mutant, reaching, allowed };
    if (tests.length === 0) return { ...counts, outcome: 'survived', by: null };
    const text = this.#texts.get(mutant.path) as string;
    this.#write(mutant.path, mutated(text, mutant));
    const answer = await this.#run([mutant.path], tests, PATIENCE.times * seconds + PATIENCE.seconds);
    this.#write(mutant.path, text);
    if (answer === null) return { ...counts, outcome: 'timed out', by: null };
    if (answer.failure === null) return { ...counts, outcome: 'survived', by: null };
    if (++this.#kills % CHECKED_KILLS === 0) await this.#checkClean(answer.failure.killer);
    return { ...counts, outcome: 'killed', by: answer.failure.name };
  }

  stop(): void {
    this.#runner.stop();
  }

  /** The test that failed passes again without the mutant; else the kills before it would mean nothing. */
  async #checkClean({ file, ids }: Asked): Promise<void> {
    const killer = { file: relative(this.#root, file), ids };
    const answer = await this.#run([], [killer], ALONE_LIMIT);
    if (answer === null || answer.failure !== null) throw new Error(`fails without a mutant, too: ${killer.file}`);
  }

  #run(changed: readonly string[], tests: readonly Asked[], limit: number): Promise<Answer | null> {
    const absolute = (path: string) => join(this.#root, path);
    const task = {
      changed: changed.map(absolute),
      tests: tests.map(({ file, ids }) => ({ file: absolute(file), ids })),
    };
    return this.#runner.judge(task, limit);
  }

  #write(path: string, text: string): void {
    writeFileSync(join(this.#root, path), text);
  }
}
