/**
 * `npm run fuzz [-- RUNS [SEED [SWEEP_EACH]]]`: many mutants, progress on stderr, a line of JSON at the end.
 * `npm run fuzz -- walk [EACH [FIRST]]`: every number of the scenarios made nothing, tiny, huge and negative; or every so
 * many steps from the first on, so that several processes share them.
 */
import { walk } from './walk.ts';
import { fuzz } from './watched.ts';

if (process.argv[2] === 'walk') {
  const say = (line: string) => process.stderr.write(`${line}\n`);
  const [each = 1, first = 0] = process.argv.slice(3).map(Number);
  const { failures, ...counts } = await walk(each, first, say);
  process.stdout.write(`${JSON.stringify({ ...counts, failures: failures.length })}\n`);
  process.exit(failures.length > 0 ? 1 : 0);
}

const [runs = 200_000, seed = Math.floor(Math.random() * 1e9), sweepEach = 16] = process.argv.slice(2).map(Number);
process.stderr.write(`fuzzing ${runs} inputs from seed ${seed}\n`);

const start = Date.now();
const { counts, slowest, failures } = await fuzz({
  runs,
  seed,
  sweepEach,
  onBatch(done, { counts: so, failures: found }) {
    const seconds = Math.round((Date.now() - start) / 1000);
    process.stderr.write(
      `${done} of ${runs} after ${seconds} s: ${so.refused} refused, ${so.clean} clean, ${so.swept} swept and drawn, ${found.length} failures\n`,
    );
    const latest = found.at(-1);
    if (latest !== undefined && found.length <= 20) process.stderr.write(`${latest}\n`);
  },
});

process.stdout.write(
  `${JSON.stringify({ runs, seed, ...counts, slowest_ms: Math.round(slowest), failures: failures.length })}\n`,
);
process.exitCode = failures.length > 0 ? 1 : 0;
