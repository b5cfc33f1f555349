#!/usr/bin/env node
/** What is started. Asked for its version alone, it loads nothing else: programs ask that before each use. */
import { writeSync } from 'node:fs';
import { toolVersion } from './terminal/version.ts';

const ASKS_VERSION = ['--version', '-V'];

/** Whether that was all, and could be printed. */
function hasPrintedVersion([asked = '', ...others]: readonly string[]): boolean {
  if (others.length > 0 || !ASKS_VERSION.includes(asked)) return false;
  try {
    // The stream of stdout takes longer to load than all of this.
    writeSync(1, `${toolVersion()}\n`);
    return true;
  } catch {
    // The command line says what is wrong with it.
    return false;
  }
}

const given = process.argv.slice(2);
if (!hasPrintedVersion(given)) {
  await import('./terminal/compiler.ts');
  const { runCommandLine } = await import('./commandLine.ts');
  await runCommandLine(given);
}
