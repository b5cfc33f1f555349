/** Progress on stderr: one line kept up to date on a terminal, a plain line now and then elsewhere. */

import type { Step } from '../../model/steps.ts';
import type { Progress } from '../../sweep/sweep.ts';
import * as say from './messages.ts';

const PLAIN_EVERY = 5_000;
const TERMINAL_EVERY = 100;

export interface ProgressLine {
  readonly update: (progress: Progress) => void;
  /** The same for what is worked out after the sweep. */
  readonly step: (step: Step) => void;
  /** Takes the line off the terminal. */
  end(): void;
}

export function progressLine(name: string): ProgressLine {
  const { stderr } = process;
  const start = Date.now();
  let lastShown = stderr.isTTY ? 0 : start;
  let phase = { what: '', start };
  const show = (text: (now: number) => string) => {
    const now = Date.now();
    if (now - lastShown < (stderr.isTTY ? TERMINAL_EVERY : PLAIN_EVERY)) return;
    lastShown = now;
    stderr.write(stderr.isTTY ? `\r\u001b[K${text(now).slice(0, (stderr.columns || 80) - 1)}` : `${text(now)}\n`);
  };
  return {
    update: (progress) => show((now) => say.progress(name, progress, (now - start) / 1000)),
    step(step) {
      if (step.what !== phase.what) phase = { what: step.what, start: Date.now() };
      show((now) => say.step(name, step, (now - phase.start) / 1000));
    },
    end() {
      if (stderr.isTTY) stderr.write('\r\u001b[K');
    },
  };
}
