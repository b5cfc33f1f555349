import type { SweepOptions } from '../run/sweep.ts';
import {
  type CommandRecord,
  LIMIT,
  OUT,
  OUTSIDE,
  option,
  QUIET,
  RANK_BY,
  REPLACE,
  workersOption,
} from '../terminal/command.ts';
import { badInput, type ExitCode } from '../terminal/exit.ts';
import * as say from '../terminal/messages.ts';

export const command: CommandRecord = {
  name: 'sweep',
  arguments: { '<scenarios...>': 'scenario files (YAML)' },
  options: [
    OUT,
    REPLACE,
    QUIET,
    workersOption('worker threads for large sweeps (default: as many as the machine runs at once)'),
    RANK_BY,
    option('--keep-partial', 'when stopped by Ctrl-C, write what was found, marked as incomplete'),
    option('--shard <i/n>', 'sweep only the i-th of n parts and write a part file for merge'),
    LIMIT,
    OUTSIDE,
  ],
  help: 'judge every combination, rank what works, and write report.html, shortlist.csv, results.json and purchase.md',
  example: 'sweep my-car/scenario.yaml --out my-car/out',
  load: async () => sweepWholeOrShare,
};

type Options = SweepOptions & { readonly shard?: string };

async function sweepWholeOrShare(files: readonly string[], { shard, ...options }: Options): Promise<ExitCode> {
  if (shard === undefined) return sweepWhole(files, options);
  const [file, ...others] = files;
  if (file === undefined || others.length > 0) throw badInput(say.shardsOneScenario());
  const { readShare, sweepShare } = await import('../run/share.ts');
  return sweepShare(file, readShare(shard), options);
}

async function sweepWhole(files: readonly string[], options: SweepOptions): Promise<ExitCode> {
  // First of all, so that the thread that draws gets ready while this one still loads, reads and sweeps.
  const drawings = (await import('../../pipeline/drawingThread.ts')).newDrawingThread();
  drawings.getReady();
  try {
    return await (await import('../run/sweep.ts')).sweep(files, options, drawings);
  } finally {
    await drawings.close();
  }
}
