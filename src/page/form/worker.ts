/** The judging and the sweep off the page's thread, or on it where a page may start none. */
import type { Draft } from './draft.ts';
import { type AxleAnswer, answersOf, type JudgedDraft, judgeDraft, MOST_AT_ONCE, MOST_IN_PAGE } from './judge.ts';
import { type SweptDraft, sweepDraft } from './sweep.ts';

/** Said between two keystrokes. */
export interface QuickAnswer {
  readonly judged: JudgedDraft;
  readonly answers: readonly AxleAnswer[];
}

/** Two things take longer: the answers of axles with many combinations, and the sweep of a car. */
export const WORK = {
  quick: async (draft: Draft): Promise<QuickAnswer> => ({
    judged: await judgeDraft(draft),
    answers: await answersOf(draft, 0, MOST_AT_ONCE),
  }),
  late: (draft: Draft): Promise<readonly AxleAnswer[]> => answersOf(draft, MOST_AT_ONCE, MOST_IN_PAGE),
  sweep: (draft: Draft): Promise<SweptDraft | null> => sweepDraft(draft),
};
export type Kind = keyof typeof WORK;
type AnswerTo<K extends Kind> = Awaited<ReturnType<(typeof WORK)[K]>>;

/** The global of a worker, as far as it is used. */
interface WorkerScope {
  onmessage: ((event: { readonly data: { readonly kind: Kind; readonly draft: Draft } }) => void) | null;
  postMessage(message: unknown): void;
}

/** In a worker the same script answers what it is asked. */
export function answerAsWorker(scope: WorkerScope): void {
  scope.onmessage = async ({ data: { kind, draft } }) => scope.postMessage(await WORK[kind](draft));
}

/** Asks for answers; only the one to the latest question is told. A late answer that is overtaken is given up. */
export class Asker<K extends Kind> {
  readonly #kind: K;
  readonly #tell: (answer: AnswerTo<K>) => void;
  /** Of the script that is also the worker's; null: everything on the page's own thread. */
  #address: string | null;
  #worker: Worker | null = null;
  #asked: Draft | null = null;
  #next: Draft | null = null;

  constructor(kind: K, address: string | null, tell: (answer: AnswerTo<K>) => void) {
    this.#kind = kind;
    this.#address = address;
    this.#tell = tell;
  }

  ask(draft: Draft): void {
    if (this.#asked !== null && this.#kind === 'quick') {
      this.#next = draft;
      return;
    }
    if (this.#asked !== null) this.#end();
    this.#asked = draft;
    const worker = this.#start();
    if (worker === null) this.#askHere(draft);
    else worker.postMessage({ kind: this.#kind, draft });
  }

  #end(): void {
    this.#worker?.terminate();
    this.#worker = null;
  }

  #start(): Worker | null {
    if (this.#worker !== null || this.#address === null) return this.#worker;
    try {
      const worker = new Worker(this.#address);
      worker.addEventListener('message', ({ data }: MessageEvent<AnswerTo<K>>) => this.#take(data));
      worker.addEventListener('error', () => this.#withoutWorker());
      this.#worker = worker;
    } catch {
      // Some previews allow no threads.
      this.#address = null;
    }
    return this.#worker;
  }

  #withoutWorker(): void {
    this.#end();
    this.#address = null;
    if (this.#asked !== null) this.#askHere(this.#asked);
  }

  #take(answer: AnswerTo<K>): void {
    const next = this.#next;
    this.#asked = null;
    this.#next = null;
    if (next === null) this.#tell(answer);
    else this.ask(next);
  }

  #askHere(draft: Draft): void {
    setTimeout(async () => {
      if (draft !== this.#asked) return;
      const answer = (await WORK[this.#kind](draft)) as AnswerTo<K>;
      if (draft === this.#asked) this.#take(answer);
    });
  }
}
