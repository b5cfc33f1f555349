import { type CommandRecord, OUTSIDE, option } from '../terminal/command.ts';

export const command: CommandRecord = {
  name: 'check',
  arguments: { '[scenario]': 'scenario file (YAML)' },
  options: [option('--explain-checks', 'say what a sweep asks of every combination, in the order it asks'), OUTSIDE],
  help: 'report every problem of a scenario, or how many combinations it holds',
  example: 'check my-car/scenario.yaml',
  load: async () => (await import('../run/check.ts')).check,
};
