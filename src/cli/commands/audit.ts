import { type CommandRecord, LIMIT, OUT, OUTSIDE, option } from '../terminal/command.ts';

export const command: CommandRecord = {
  name: 'audit',
  arguments: { '<scenario>': 'scenario file (YAML)', '[measured]': 'file of measurements (YAML)' },
  options: [
    option('--blank <build>', 'write an empty file of measurements for an id, or for the best of a setup'),
    option('--adopt [file]', 'save what was measured as a scenario (default: NAME.as-built.yaml beside the scenario)'),
    OUT,
    LIMIT,
    OUTSIDE,
    option('--force', 'replace files that stand in the way'),
  ],
  help: 'compare what was measured on a built unit with what was predicted, and correct the numbers by it',
  example: 'audit scenarios/hill-hatch/scenario.yaml --blank street --out out/built',
  load: async () => (await import('../run/audit.ts')).audit,
};
