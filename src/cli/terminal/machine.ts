/** What the machine lacks, in a sentence with advice: limits of handles and threads, a working folder that is gone. */
import { badInput, failure, type KnownError } from './exit.ts';
import * as say from './messages.ts';

/** By what Node says: the code of an error, or the beginning of what a thread or a loader hands on as text. */
const FAULTS: readonly (readonly [sign: RegExp, fault: () => KnownError])[] = [
  [/\bE[MN]FILE\b/, () => failure(say.tooFewHandles())],
  [/\bERR_WORKER_INIT_FAILED\b|\bEAGAIN\b/, () => failure(say.tooFewThreads())],
  [/\buv_cwd\b/, () => failure(say.folderGone())],
  [/\bENAMETOOLONG\b/, () => badInput(say.pathTooLong())],
];

/** Null where the error is none of the machine's. */
export function machineFault(error: unknown): KnownError | null {
  if (!(error instanceof Error)) return null;
  const said = `${(error as NodeJS.ErrnoException).code ?? ''} ${error.message}`;
  return FAULTS.find(([sign]) => sign.test(said))?.[1]() ?? null;
}

/** @throws KnownError where the folder that relative paths start from is gone */
export function needFolder(): void {
  try {
    process.cwd();
  } catch {
    throw failure(say.folderGone());
  }
}
