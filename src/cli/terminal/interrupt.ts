/**
 * Ctrl-C, a hang-up and a polite kill. The innermost work that watches for them decides. While a sweep runs, the first one
 * asks it to stop and the second one ends the process. While files are being put in place it waits for them. Else the
 * process ends at once, with a word.
 */
import { EXIT, type ExitCode, remark } from './exit.ts';
import * as say from './messages.ts';

const CODES = { SIGHUP: EXIT.hungUp, SIGINT: EXIT.interrupted, SIGTERM: EXIT.terminated } as const;
type Stop = keyof typeof CODES;
const STOPS = Object.keys(CODES) as readonly Stop[];

export interface Interrupt {
  readonly signal: AbortSignal;
  /** The exit code that tells what stopped the work; null when nothing did. */
  code(): ExitCode | null;
  /** Catches nothing any more. */
  release(): void;
}

/** Lets a stop end the process with a word wherever nothing else watches for it. */
export function endOnStops(): void {
  onStops(end);
}

export function watchInterrupts(): Interrupt {
  const controller = new AbortController();
  let first: Stop | null = null;
  const release = onStops((stop) => {
    if (first !== null) end(stop);
    first = stop;
    controller.abort();
  });
  return { signal: controller.signal, code: () => (first === null ? null : CODES[first]), release };
}

let hasWritten = false;

/** Runs work that must not be left half done; a stop asked for meanwhile counts right after it. */
export async function uninterrupted<T>(work: () => Promise<T>): Promise<T> {
  let asked: Stop | null = null;
  const release = onStops((stop) => {
    asked = stop;
  });
  // What went wrong is said by whoever is told of it, and ends the process as well.
  const done = await work().finally(release);
  hasWritten = true;
  if (asked !== null) (watching.at(-1) ?? end)(asked);
  return done;
}

function end(stop: Stop): void {
  if (process.stderr.isTTY) process.stderr.write('\r\u001b[K');
  remark(hasWritten ? say.stoppedAfterWriting() : say.stoppedAtOnce());
  process.exit(CODES[stop]);
}

/** Who watches, the innermost last. */
const watching: ((stop: Stop) => void)[] = [];

function onStops(take: (stop: Stop) => void): () => void {
  watching.push(take);
  const handlers = STOPS.map((stop) => [stop, () => watching.at(-1) === take && take(stop)] as const);
  for (const [stop, handler] of handlers) process.on(stop, handler);
  return () => {
    if (watching.includes(take)) watching.splice(watching.lastIndexOf(take), 1);
    for (const [stop, handler] of handlers) process.off(stop, handler);
  };
}
