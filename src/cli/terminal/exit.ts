import { visible } from '../../report/text/escape.ts';

/** Known ends of a run: what the person sees and the exit code. Anything else is a bug and shows its stack. */
export const EXIT = {
  ok: 0,
  failure: 1,
  badInput: 2,
  nothingWorkable: 3,
  /** Two things that were compared are not the same. */
  different: 4,
  /** 128 and the number of the signal, as shells count: SIGHUP, SIGINT (Ctrl-C) and SIGTERM. */
  hungUp: 129,
  interrupted: 130,
  terminated: 143,
} as const;
export type ExitCode = (typeof EXIT)[keyof typeof EXIT];

export class KnownError extends Error {
  readonly code: ExitCode;

  constructor(message: string, code: ExitCode) {
    super(message);
    this.code = code;
  }
}

export function badInput(message: string): KnownError {
  return new KnownError(message, EXIT.badInput);
}

export function failure(message: string): KnownError {
  return new KnownError(message, EXIT.failure);
}

// What is said to the person: nothing in it moves a terminal's cursor or turns a line around, line ends apart.

export function plainLines(text: string): string {
  return text.split('\n').map(visible).join('\n');
}

/** The answer, on stdout. */
export function tell(text: string): void {
  process.stdout.write(`${plainLines(text)}\n`);
}

/** What is not the answer, on stderr. */
export function remark(text: string): void {
  process.stderr.write(`${plainLines(text)}\n`);
}
