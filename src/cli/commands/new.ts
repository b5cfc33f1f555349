import { type CommandRecord, option } from '../terminal/command.ts';

export const command: CommandRecord = {
  name: 'new',
  arguments: { '<dir>': 'folder to write to' },
  options: [
    option('--example', 'write a whole car with its catalogue instead, every value invented'),
    option('--force', 'write into a folder that already holds files'),
  ],
  help: 'write a short file of parts to fill in, with the measuring sheet; or an example of a whole car',
  example: 'new my-car --example',
  load: async () => (await import('../run/new.ts')).newScenario,
};
