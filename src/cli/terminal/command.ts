/** What a command is: one record, read by the command line, its help and the table of the manual. */
import { Option } from 'commander';
import { RANK_BYS } from '../../result/advice.ts';
import { badInput, type ExitCode } from './exit.ts';
import * as say from './messages.ts';

export interface CommandRecord {
  readonly name: string;
  /** By how they are written: `<needed>`, `[optional]`, `<several...>`. */
  readonly arguments: Readonly<Record<string, string>>;
  readonly options: readonly Option[];
  readonly help: string;
  /** What is typed behind `springsift`; the manual runs it. */
  readonly example: string;
  /** Loads what does the work, so that `--version` and `--help` stay quick; it takes the arguments, then the options. */
  readonly load: () => Promise<(...given: never[]) => Promise<ExitCode>>;
}

export function option(flags: string, text: string, read?: (text: string) => unknown): Option {
  const made = new Option(flags, text);
  return read === undefined ? made : made.argParser(read);
}

export const OUT = option('--out <dir>', 'folder to write to (default: out/NAME)');
export const REPLACE = option('--force', 'replace files of an earlier sweep');
export const QUIET = option('--quiet', 'no progress on stderr');
export const OUTSIDE = option('--allow-outside', 'read catalogues that lie outside the folder of the scenario');
export const LIMIT = option(
  '--limit <n>',
  'combinations from which on a sweep is refused (default: 1e12)',
  (written) => {
    const count = Number(written);
    if (written.trim() === '' || !(count >= 1)) throw badInput(say.notALimit(written));
    return count;
  },
);
export const RANK_BY = option(
  '--rank-by <how>',
  'order the shortlist by score, by its worst case, or by the share of builds that work',
)
  .choices(RANK_BYS)
  .default('nominal');

export function workersOption(text: string): Option {
  return option('--workers <n>', text, (written) => {
    const count = Number(written);
    if (!Number.isInteger(count) || count < 1 || count > 256) throw badInput(say.notWorkers(written));
    return count;
  });
}
