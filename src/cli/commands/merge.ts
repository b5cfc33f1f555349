import { type CommandRecord, OUT, OUTSIDE, RANK_BY, REPLACE } from '../terminal/command.ts';

export const command: CommandRecord = {
  name: 'merge',
  arguments: { '<scenario>': 'scenario file (YAML)', '<parts...>': 'part files written by sweep --shard' },
  options: [OUT, REPLACE, RANK_BY, OUTSIDE],
  help: 'join the parts of a shared-out sweep to the report of a single run',
  example: 'merge my-car/scenario.yaml parts/part-1-of-2.json parts/part-2-of-2.json --out out/merged',
  load: async () => (await import('../run/share.ts')).merge,
};
