/**
 * Long work that says now and then how far it is: a generator, so that whoever runs it can show progress, or give it
 * up, while the work itself knows nothing of who runs it.
 */

/** How far long work is. */
export interface Step {
  /** What is being done, for a progress line. */
  readonly what: string;
  readonly done: number;
  readonly of: number;
}

export type Steps<T> = Generator<Step, T, void>;

/** Runs work to its end at once, telling `onStep` how far it is. */
export function finish<T>(work: Steps<T>, onStep: ((step: Step) => void) | null = null): T {
  for (;;) {
    const next = work.next();
    if (next.done) return next.value;
    onStep?.(next.value);
  }
}
