/**
 * Ctrl-C and a polite kill. While a sweep runs, the first one asks it to stop and the second one ends the process.
 * Before and after, neither is caught and the process ends at once: nothing has been written by then. While files are
 * being put in place it waits for them.
 */
import { EXIT, type ExitCode } from './exit.ts';

const CODES = { SIGINT: EXIT.interrupted, SIGTERM: EXIT.terminated } as const;
type Stop = keyof typeof CODES;
const STOPS = Object.keys(CODES) as readonly Stop[];

export interface Interrupt {
  readonly signal: AbortSignal;
  /** The exit code that tells what stopped the work; null when nothing did. */
  code(): ExitCode | null;
  /** Catches nothing any more. */
  release(): void;
}

export function watchInterrupts(): Interrupt {
  const controller = new AbortController();
  let first: Stop | null = null;
  const release = onStops((stop) => {
    if (first !== null) process.exit(CODES[stop]);
    first = stop;
    controller.abort();
  });
  return { signal: controller.signal, code: () => (first === null ? null : CODES[first]), release };
}

/** Runs work that must not be left half done; a stop asked for meanwhile ends the process right after it. */
export async function uninterrupted<T>(work: () => Promise<T>): Promise<T> {
  let asked: Stop | null = null;
  const release = onStops((stop) => {
    asked = stop;
  });
  try {
    return await work();
  } finally {
    release();
    if (asked !== null) process.exit(CODES[asked as Stop]);
  }
}

function onStops(take: (stop: Stop) => void): () => void {
  const handlers = STOPS.map((stop) => [stop, () => take(stop)] as const);
  for (const [stop, handler] of handlers) process.on(stop, handler);
  return () => {
    for (const [stop, handler] of handlers) process.off(stop, handler);
  };
}
