import { type CommandRecord, LIMIT, option, QUIET, workersOption } from '../terminal/command.ts';
import { TAKES } from '../terminal/places.ts';

export const command: CommandRecord = {
  name: 'reopen',
  arguments: { '<report>': 'report.html of an earlier sweep' },
  options: [
    option('--out <dir>', 'folder to write the page, tables, record and order list to, as a sweep does'),
    option('--take <what...>', 'write only these to --out; inputs: the scenario and its catalogues').choices(TAKES),
    option('--again', 'sweep the inputs again, in memory, and say whether the result is the same'),
    option('--force', 'replace files that stand in the way, write a huge page'),
    QUIET,
    workersOption('worker threads for --again (default: as many as the machine runs at once)'),
    LIMIT,
  ],
  help: 'show what a report carries, write it out again, or sweep its inputs again and compare',
  example: 'reopen my-car/out/report.html',
  load: async () => (await import('../run/reopen.ts')).reopenReport,
};
