// The one command that checks everything. Every step runs even when an earlier one failed, so that one run shows all
// there is to mend; the exit code is 0 only when all of them passed. Arguments go to vitest: `npm test -- test/domain`.
// Without any, coverage is measured and has limits: only a whole run can say what the tests do not run.
import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('..', import.meta.url));
const tool = (...path) => join(root, 'node_modules', ...path);
const asked = process.argv.slice(2);
const which = asked.length > 0 ? asked : ['--coverage'];

const STEPS = [
  ['lint and format', tool('@biomejs', 'biome', 'bin', 'biome'), 'check', '--error-on-warnings'],
  ['types', tool('typescript', 'bin', 'tsc'), '-p', '.'],
  ['types of the page’s scripts', tool('typescript', 'bin', 'tsc'), '-p', 'src/page'],
  ['types of the tests', tool('typescript', 'bin', 'tsc'), '-p', 'test'],
  ['build', join(root, '.ci', 'build.mjs')],
  ['tests', tool('vitest', 'vitest.mjs'), 'run', '--config', 'test/vitest.config.ts', ...which],
];

const failed = STEPS.filter(([name, ...command]) => {
  process.stdout.write(`\n== ${name}\n`);
  return spawnSync(process.execPath, command, { cwd: root, stdio: 'inherit' }).status !== 0;
});

if (failed.length > 0) {
  process.stdout.write(`\nNot passed: ${failed.map(([name]) => name).join(', ')}\n`);
  process.exitCode = 1;
}
