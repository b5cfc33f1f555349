/** The commands, in the order of the help. */
import { command as audit } from './commands/audit.ts';
import { command as check } from './commands/check.ts';
import { command as compare } from './commands/compare.ts';
import { command as explain } from './commands/explain.ts';
import { command as fields } from './commands/fields.ts';
import { command as fit } from './commands/fit.ts';
import { command as measure } from './commands/measure.ts';
import { command as merge } from './commands/merge.ts';
import { command as newScenario } from './commands/new.ts';
import { command as reopen } from './commands/reopen.ts';
import { command as sweep } from './commands/sweep.ts';
import type { CommandRecord } from './terminal/command.ts';

export const COMMANDS: readonly CommandRecord[] = [
  fit,
  newScenario,
  check,
  fields,
  sweep,
  merge,
  explain,
  reopen,
  compare,
  audit,
  measure,
];
