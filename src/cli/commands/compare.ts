import { type CommandRecord, option } from '../terminal/command.ts';

export const command: CommandRecord = {
  name: 'compare',
  arguments: { '<before>': 'report.html of an earlier sweep', '<after>': 'report.html of a later one' },
  options: [
    option('--out <dir>', 'folder to write to (default: out/changes)'),
    option('--force', 'replace a page that stands in the way, write a huge one'),
  ],
  help: 'write changes.html: what changed between two reports in inputs, winners, numbers and counts',
  example: 'compare my-car/out/report.html my-car/out/report.html --out out/what-changed',
  load: async () => (await import('../run/compare.ts')).compareReports,
};
