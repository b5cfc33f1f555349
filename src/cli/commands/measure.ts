import { type CommandRecord, LIMIT, OUTSIDE, option, QUIET, workersOption } from '../terminal/command.ts';

export const command: CommandRecord = {
  name: 'measure',
  arguments: { '[scenario]': 'scenario file (YAML); without it the sheet is blank' },
  options: [
    option('--out <dir>', 'folder to write to (default: out/NAME, or out/measure)'),
    option('--force', 'replace a sheet that stands in the way'),
    QUIET,
    workersOption('worker threads for large sweeps'),
    LIMIT,
    OUTSIDE,
  ],
  help: 'write measure.html, a sheet to print: what to measure, where, how well, and what hangs on it',
  example: 'measure --out out/blank',
  load: async () => (await import('../run/measure.ts')).measure,
};
