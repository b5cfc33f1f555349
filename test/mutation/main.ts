/**
 * `npm run mutate [-- --size N] [--seed N] [--budget SECONDS] [--files PATTERN] [--tests PATTERN] [--workers N]
 * [--again]`: a seeded sample of small faults is put into `src/domain`, one at a time, in a copy of the project, and the
 * tests are to notice. First all tests run once on a copy with marks, which tells what each of them runs; then every
 * mutant is tried with the tests that run it. Progress goes to stderr, the report to stdout, a record to
 * node_modules/.cache; `--again` draws the same sample, keeps the kills of that record, tries the others only, and
 * reports the whole.
 */
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { ROOT, readFiles, type SourceFile } from '../setup/source-tree.ts';
import { copyProject } from './copy.ts';
import { Judge, type Verdict } from './judge.ts';
import { countAll, type Mutant, sampled } from './mutants.ts';
import { mutantKey, mutantLine, reportText } from './report.ts';
import { distancesOf } from './seen.ts';
import { type FileRun, selectionFor } from './select.ts';

const { values } = parseArgs({
  options: {
    size: { type: 'string', default: '450' },
    seed: { type: 'string', default: '1' },
    budget: { type: 'string', default: '20' },
    files: { type: 'string', default: '' },
    // The domain's own tests and those that use it next. Tests of texts, pages and whole runs say little about it.
    tests: { type: 'string', default: '^test/(domain|reference|sweep|pipeline|live)[/.]' },
    workers: { type: 'string', default: '1' },
    again: { type: 'boolean', default: false },
  },
});

const size = Number(values.size);
const seed = Number(values.seed);
/** Seconds of tests a mutant may cost. */
const budget = Number(values.budget);

const CACHE = join(ROOT, 'node_modules/.cache/springsift');
const RECORD = join(CACHE, 'mutants.json');
/** Test files whose path matches, but for the manual's, which run whole commands. */
const TESTS = new RegExp(`(?:${values.tests})(?!.*readme).*\\.test\\.ts$`);

const say = (text: string) => process.stderr.write(`${text}\n`);

/** One queue, worked off by as many judges as there are, each in its own copy. */
async function share<T>(judges: readonly Judge[], queue: readonly T[], work: (judge: Judge, item: T) => Promise<void>) {
  const left = [...queue];
  const workOff = async (judge: Judge) => {
    for (let item = left.shift(); item !== undefined; item = left.shift()) await work(judge, item);
  };
  await Promise.all(judges.map(workOff));
}

/** Every test file by itself without any mutant: what its tests cost and what they run. Those that fail are left out. */
async function runsOf(judges: readonly Judge[], tests: readonly string[], mutants: readonly Mutant[]) {
  const runs: FileRun[] = [];
  const unmarked: string[] = [];
  const runOnce = async (judge: Judge, file: string, marked: boolean) => {
    const answer = await judge.alone(file);
    if (answer !== null) runs.push({ file, seconds: answer.seconds, tests: answer.passed, marked });
    else if (marked) unmarked.push(file);
    else say(`left out, fails without any mutant: ${file}`);
  };
  for (const judge of judges) judge.mark(mutants);
  await share(judges, tests, (judge, file) => runOnce(judge, file, true));
  for (const judge of judges) judge.mark([]);
  // Some tests read the source as text, where marks disturb.
  await share(judges, unmarked, (judge, file) => runOnce(judge, file, false));
  const seconds = runs.reduce((sum, run) => sum + run.seconds, 0);
  const count = runs.reduce((sum, run) => sum + run.tests.length, 0);
  say(`${runs.length} test files, ${count} tests, ${seconds.toFixed(0)} s; without marks: ${unmarked.join(', ')}`);
  return runs;
}

const readRecord = (): readonly Verdict[] =>
  existsSync(RECORD) ? (JSON.parse(readFileSync(RECORD, 'utf8')) as Verdict[]) : [];

async function tryAll(
  judges: readonly Judge[],
  mutants: readonly Mutant[],
  all: readonly SourceFile[],
  before: readonly Verdict[],
): Promise<readonly Verdict[]> {
  const tests = all.map(({ path }) => path).filter((path) => TESTS.test(path));
  const distance = distancesOf(all, tests);
  const runs = await runsOf(judges, tests, mutants);
  const verdicts: Verdict[] = [];
  await share(judges, [...mutants.entries()], async (judge, [number, mutant]) => {
    const mark = mutant.extent === null ? null : number;
    const selection = selectionFor(runs, mark, (test) => distance(test, mutant.path), budget);
    const verdict = await judge.verdict(mutant, selection);
    verdicts.push(verdict);
    const { outcome, allowed, reaching } = verdict;
    say(`${verdicts.length}/${mutants.length} ${outcome} (${allowed} of ${reaching} tests): ${mutantLine(mutant)}`);
    writeFileSync(RECORD, JSON.stringify([...before, ...verdicts]));
  });
  return [...before, ...verdicts];
}

const all = readFiles(['src', 'test'], '.ts');
const files = all.filter(({ path }) => path.startsWith('src/domain/') && new RegExp(values.files).test(path));
const sample = sampled(files, size, seed);
const killed = new Map(
  (values.again ? readRecord() : [])
    .filter(({ outcome }) => outcome !== 'survived')
    .map((verdict) => [mutantKey(verdict.mutant), verdict]),
);
const before = sample.flatMap((mutant) => killed.get(mutantKey(mutant)) ?? []);
const mutants = sample.filter((mutant) => !killed.has(mutantKey(mutant)));
say(`${mutants.length} to try, a sample of ${sample.length} of ${countAll(files)} mutants, seed ${seed}`);
mkdirSync(CACHE, { recursive: true });

const texts = new Map(files.map(({ path, text }) => [path, text]));
const copies = Array.from({ length: Number(values.workers) }, copyProject);
const judges = copies.map(({ root }) => new Judge(root, texts));
try {
  process.stdout.write(reportText(await tryAll(judges, mutants, all, before)));
} finally {
  for (const judge of judges) judge.stop();
  for (const copy of copies) copy.remove();
}
