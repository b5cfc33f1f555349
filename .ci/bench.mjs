/** Compiles sources and measures, as users run them, and measures: a loader that rewrites code would be measured, too. */
import { execFileSync } from 'node:child_process';

const compiled = 'node_modules/.cache/springsift/bench';
const run = (command, ...args) => execFileSync(command, args, { stdio: 'inherit' });

run(process.execPath, '.ci/build.mjs');
run('npx', 'tsc', '-p', 'test', '--noEmit', 'false', '--rootDir', '.', '--outDir', compiled);
run(process.execPath, `${compiled}/test/bench/main.js`, ...process.argv.slice(2));
