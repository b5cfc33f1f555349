import type { CommandRecord } from '../terminal/command.ts';

export const command: CommandRecord = {
  name: 'fields',
  arguments: { '[path]': 'e.g. axles.front.springs; without it all fields' },
  options: [],
  help: 'print what may be written in a scenario: each field, its unit, what is taken where it is left out',
  example: 'fields axles.front.motion.pairs.hub_to_arch',
  load: async () => (await import('../run/fields.ts')).fields,
};
