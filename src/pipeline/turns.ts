/** Long work done bit by bit, so that messages of other threads and signals are heard meanwhile. */
import { setImmediate } from 'node:timers/promises';
import type { Step, Steps } from '../domain/steps.ts';

/** How long nothing else is heard, ms. */
const TURN = 20;

/** Runs work to its end, telling `onStep` how far it is. */
export async function inTurns<T>(work: Steps<T>, onStep: ((step: Step) => void) | null = null): Promise<T> {
  let since = performance.now();
  for (;;) {
    const next = work.next();
    if (next.done) return next.value;
    onStep?.(next.value);
    if (performance.now() - since < TURN) continue;
    await setImmediate();
    since = performance.now();
  }
}
