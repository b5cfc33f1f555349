import { type CommandRecord, OUTSIDE } from '../terminal/command.ts';

export const command: CommandRecord = {
  name: 'explain',
  arguments: {
    '<scenario>': 'scenario file (YAML), or a report.html, whose inputs are read',
    '<id>': 'id of a combination, e.g. low-F4F7-R2KD-7Q',
  },
  options: [OUTSIDE],
  help: 'print the full working of one combination, each formula with its numbers',
  example: 'explain my-car/scenario.yaml low-F2M5-R6S-Z7',
  load: async () => (await import('../run/explain.ts')).explain,
};
