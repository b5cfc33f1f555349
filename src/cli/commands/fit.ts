import { FORMS, OPTIONS } from '../../fitting/question.ts';
import { AXLE_NAMES } from '../../model/scenario.ts';
import { type CommandRecord, option } from '../terminal/command.ts';

export const command: CommandRecord = {
  name: 'fit',
  arguments: {},
  options: [
    ...OPTIONS.map((name) => {
      const { form, meaning, example, needed } = FORMS[name];
      return option(`--${name} <text>`, `${form}: ${meaning}, like "${example}"${needed ? '' : ' (may be left out)'}`);
    }),
    option('--axle <which>', 'axle that the saved scenario is for').choices(AXLE_NAMES).default(AXLE_NAMES[0]),
    option('--save <file>', 'write the scenario that the question is'),
    option('--force', 'replace a file of that name'),
  ],
  help: 'ask in a few words whether parts fit: yes or no, by how much, what to change, lowest and highest perch',
  example: `fit ${OPTIONS.filter((name) => FORMS[name].needed)
    .map((name) => `--${name} "${FORMS[name].example}"`)
    .join(' ')}`,
  load: async () => (await import('../run/fit.ts')).fit,
};
