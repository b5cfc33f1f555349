import { type CommandRecord, option } from '../terminal/command.ts';

export const command: CommandRecord = {
  name: 'new',
  arguments: { '<dir>': 'folder to write to' },
  options: [option('--force', 'write into a folder that already holds files')],
  help: 'write a commented scenario with its catalogues',
  example: 'new my-car',
  load: async () => (await import('../run/new.ts')).newScenario,
};
