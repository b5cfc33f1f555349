/** Progress on stderr: one line kept up to date on a terminal, a plain line now and then elsewhere. */
import type { Progress } from '../sweep/sweep.ts';
import * as say from './messages.ts';

const PLAIN_EVERY = 5_000;

export interface ProgressLine {
  readonly update: (progress: Progress) => void;
  /** Takes the line off the terminal. */
  end(): void;
}

export function progressLine(name: string): ProgressLine {
  const { stderr } = process;
  const start = Date.now();
  let lastPlain = start;
  return {
    update(progress) {
      const now = Date.now();
      const text = say.progress(name, progress, (now - start) / 1000);
      if (stderr.isTTY) {
        stderr.write(`\r\u001b[K${text.slice(0, (stderr.columns ?? 80) - 1)}`);
      } else if (now - lastPlain >= PLAIN_EVERY) {
        lastPlain = now;
        stderr.write(`${text}\n`);
      }
    },
    end() {
      if (stderr.isTTY) stderr.write('\r\u001b[K');
    },
  };
}
