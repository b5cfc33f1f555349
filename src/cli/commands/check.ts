import { type CommandRecord, OUTSIDE, option } from '../terminal/command.ts';

export const command: CommandRecord = {
  name: 'check',
  arguments: { '[scenario]': 'scenario file (YAML)' },
  options: [
    option('--all', 'print every problem, not the first ten'),
    option('--explain-checks', 'say what a sweep asks of every combination, in the order it asks'),
    option('--spring <text>', 'ask whether one spring fits the parts, like "10 in, 200 lbf/in"'),
    OUTSIDE,
  ],
  help: 'report every problem of a scenario, or how many combinations it holds',
  example: 'check my-car/scenario.yaml',
  load: async () => (await import('../run/check.ts')).check,
};
