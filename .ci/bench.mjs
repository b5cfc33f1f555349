/** Compiles sources and measures, as users run them, and measures: a loader that rewrites code would be measured, too. */
import { execFileSync } from 'node:child_process';

const run = (command, ...args) => execFileSync(command, args, { stdio: 'inherit' });

run(process.execPath, '.ci/build.mjs');
run('npx', 'tsc', '-p', 'test/bench/tsconfig.json');
run(process.execPath, 'node_modules/.cache/springsift/bench/test/bench/main.js');
