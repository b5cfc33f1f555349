/**
 * `npm run mutate [-- --size N] [--seed N] [--budget SECONDS] [--files PATTERN] [--workers N] [--again]`: a seeded sample of small
 * faults is put into `src/domain`, one at a time, in a copy of the project, and the tests are to notice. Progress goes
 * to stderr, the report to stdout, a record to node_modules/.cache; `--again` tries the survivors of that record only.
 */
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { ROOT, readFiles, type SourceFile } from '../setup/source-tree.ts';
import { copyProject } from './copy.ts';
import { Judge, type Verdict } from './judge.ts';
import { countAll, type Mutant, mutantsOf, sampled } from './mutants.ts';
import { reportText, survivorLine } from './report.ts';
import { testsByFile } from './seen.ts';

const { values } = parseArgs({
  options: {
    size: { type: 'string', default: '450' },
    seed: { type: 'string', default: '1' },
    budget: { type: 'string', default: '40' },
    files: { type: 'string', default: '' },
    workers: { type: 'string', default: '1' },
    again: { type: 'boolean', default: false },
  },
});

const size = Number(values.size);
const seed = Number(values.seed);
/** Seconds of tests a mutant may cost. */
const budget = Number(values.budget);

/** Test files that run before all others. */
const NEAR = 3;

const CACHE = join(ROOT, 'node_modules/.cache/springsift');
const RECORD = join(CACHE, 'mutants.json');
const COSTS = join(CACHE, 'mutate-seconds.json');
/** The domain's own tests and those that use it next. Tests of texts, pages and whole runs say little about it. */
const TESTS = /^test\/(?:domain|reference|sweep|pipeline|live)[/.](?!readme).*\.test\.ts$/;

const say = (text: string) => process.stderr.write(`${text}\n`);

type Cost = (test: string) => number;
const costOf = (tests: readonly string[], cost: Cost) => tests.reduce((sum, test) => sum + cost(test), 0);

/** Tests in their order as long as the budget lasts; the first always runs. */
function affordable(tests: readonly string[], most: number, cost: Cost): readonly string[] {
  let left = most;
  return tests.filter((test, index) => {
    if (index > 0 && cost(test) > left) return false;
    left -= cost(test);
    return true;
  });
}

/** The nearest tests by themselves, because they kill most, then all others that the budget allows. */
function groupsFor(tests: readonly string[], cost: Cost): readonly (readonly string[])[] {
  const near = affordable(tests.slice(0, NEAR), Math.min(budget, NEAR), cost);
  const others = tests.filter((test) => !near.includes(test));
  const far = affordable(others, budget - costOf(near, cost), cost).filter((test) => cost(test) <= budget);
  return far.length > 0 ? [near, far] : [near];
}

/** What each test costs without a mutant, kept from one run to the next. Tests that fail are left out. */
async function costsOf(judge: Judge, tests: readonly string[]): Promise<ReadonlyMap<string, number>> {
  const known = existsSync(COSTS) ? (JSON.parse(readFileSync(COSTS, 'utf8')) as Record<string, number>) : {};
  const costs = new Map<string, number>();
  for (const test of tests) {
    const seconds = known[test] ?? (await judge.secondsOf(test));
    if (seconds === null) say(`left out, fails without any mutant: ${test}`);
    else costs.set(test, seconds);
  }
  writeFileSync(COSTS, JSON.stringify({ ...known, ...Object.fromEntries(costs) }));
  return costs;
}

function lastSurvivors(files: readonly SourceFile[]): readonly Mutant[] {
  const record = existsSync(RECORD) ? (JSON.parse(readFileSync(RECORD, 'utf8')) as Verdict[]) : [];
  const wanted = new Set(record.filter(({ outcome }) => outcome === 'survived').map(survivorLine));
  return files
    .flatMap(mutantsOf)
    .filter((mutant) => wanted.has(survivorLine({ mutant, outcome: 'survived', by: null })));
}

/** Work from one queue for as many judges as there are, each in its own copy. */
async function tryAll(
  judges: readonly Judge[],
  mutants: readonly Mutant[],
  all: readonly SourceFile[],
): Promise<Verdict[]> {
  const tests = all.map(({ path }) => path).filter((path) => TESTS.test(path));
  const seen = testsByFile(all, tests, new Map());
  const needed = [...new Set(mutants.flatMap(({ path }) => seen(path)))].sort();
  say(`${needed.length} test files that can see them`);
  const costs = await costsOf(judges[0] as Judge, needed);
  const cost = (test: string) => costs.get(test) ?? 0;
  const nearest = testsByFile(all, [...costs.keys()], costs);
  const verdicts: Verdict[] = [];
  const queue = [...mutants];
  const work = async (judge: Judge) => {
    for (let mutant = queue.shift(); mutant !== undefined; mutant = queue.shift()) {
      const groups = groupsFor(nearest(mutant.path), cost);
      const verdict = await judge.verdict(mutant, groups, costOf(groups.flat(), cost));
      verdicts.push(verdict);
      say(`${verdicts.length}/${mutants.length} ${verdict.outcome}: ${survivorLine(verdict)}`);
      writeFileSync(RECORD, JSON.stringify(verdicts));
    }
  };
  await Promise.all(judges.map(work));
  return verdicts.sort((a, b) => mutants.indexOf(a.mutant) - mutants.indexOf(b.mutant));
}

const all = readFiles(['src', 'test'], '.ts');
const files = all.filter(({ path }) => path.startsWith('src/domain/') && new RegExp(values.files).test(path));
const mutants = values.again ? lastSurvivors(files) : sampled(files, size, seed);
say(`${mutants.length} of ${countAll(files)} mutants of ${files.length} files, seed ${seed}`);
mkdirSync(CACHE, { recursive: true });

const texts = new Map(files.map(({ path, text }) => [path, text]));
const copies = Array.from({ length: Number(values.workers) }, copyProject);
const judges = copies.map(({ root }) => new Judge(root, texts));
try {
  process.stdout.write(reportText(await tryAll(judges, mutants, all)));
} finally {
  for (const judge of judges) judge.stop();
  for (const copy of copies) copy.remove();
}
