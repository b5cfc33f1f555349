// The one command that checks everything. Every step runs even when an earlier one failed, so that one run shows all
// there is to mend; the exit code is 0 only when all of them passed. Arguments go to vitest: `npm test -- test/domain`.
// Without any, coverage is measured and has limits: only a whole run can say what the tests do not run.
// What comes before the tests needs nothing of one another, and runs at once.
import { spawn } from 'node:child_process';
import { join } from 'node:path';
import { text } from 'node:stream/consumers';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('..', import.meta.url));
const tool = (...path) => join(root, 'node_modules', ...path);
const asked = process.argv.slice(2);
const which = asked.length > 0 ? asked : ['--coverage'];
const tsc = tool('typescript', 'bin', 'tsc');

const BEFORE = [
  ['build', join(root, '.ci', 'build.mjs')],
  ['lint and format', tool('@biomejs', 'biome', 'bin', 'biome'), 'check', '--error-on-warnings'],
  ['types', tsc, '-p', '.'],
  ['types of the page’s scripts', tsc, '-p', 'src/page'],
  ['types of the tests', tsc, '-p', 'test'],
];
const TESTS = ['tests', tool('vitest', 'vitest.mjs'), 'run', '--config', 'test/vitest.config.ts', ...which];

/** Runs a step; what it prints is said at once, or as a whole at its end. */
async function run([name, ...command], stdio) {
  const child = spawn(process.execPath, command, { cwd: root, stdio });
  const ended = new Promise((resolve) => child.on('close', resolve));
  const said = await Promise.all([child.stdout, child.stderr].map((stream) => (stream ? text(stream) : '')));
  const hasPassed = (await ended) === 0;
  if (stdio !== 'inherit') process.stdout.write(`\n== ${name}\n${said.join('')}`);
  return hasPassed ? [] : [name];
}

const before = await Promise.all(BEFORE.map((step) => run(step, ['ignore', 'pipe', 'pipe'])));
process.stdout.write(`\n== ${TESTS[0]}\n`);
const failed = [...before, await run(TESTS, 'inherit')].flat();

if (failed.length > 0) {
  process.stdout.write(`\nNot passed: ${failed.join(', ')}\n`);
  process.exitCode = 1;
}
