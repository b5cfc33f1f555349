/** The lines that `check` offers beside its problems are copied into broken scenarios, and read again. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { mend } from '../../src/input/mend/mend.ts';
import type { MendedLines, Problem } from '../../src/input/problems/problems.ts';
import { readScenario } from '../../src/input/readScenario.ts';
import { bytesOf, SEEDS } from './corpus.ts';
import { readerOf } from './judge.ts';
import { inputOf, mutants } from './mutants.ts';
import { pick } from './mutateTree.ts';

/** In five parts, each with a seed of its own; `MUTANTS=100 npm test -- test/fuzz/mend` takes 500. */
const MUTANTS = Number(process.env.MUTANTS ?? 30);
const SEEDS_OF_PARTS = [20_261_130, 20_261_131, 20_261_132, 20_261_133, 20_261_134];
/** As many problems as are printed. */
const PRINTED = 10;
/** A problem of a whole file, or of a whole axle, has no line to be copied. */
const LEAST_SHARE = 0.95;
const EXAMPLE = SEEDS[0]?.scenario ?? '';

async function problemsIn(text: string, catalogue: string): Promise<readonly Problem[]> {
  const read = await readScenario('scenario.yaml', readerFor(text, catalogue));
  return read.ok ? [] : read.problems;
}

const readerFor = (text: string, catalogue: string) =>
  readerOf({ scenario: bytesOf(text), catalogue: bytesOf(catalogue) });

/** As somebody copies them. */
function copied(text: string, { line, count, lines }: MendedLines): string {
  const all = text.split('\n');
  all.splice(line - 1, count, ...lines);
  return all.join('\n');
}

const like = (problems: readonly Problem[], { found, expected }: Problem) =>
  problems.filter((other) => other.found === found && other.expected === expected).length;

const total = { problems: 0, offered: 0 };

test.each(SEEDS_OF_PARTS)(
  `of ${MUTANTS} mutants (seed %d) each line offered passes: its problem is gone, and no new one stands there`,
  {
    timeout: 1_800_000,
  },
  async (seed) => {
    const sample = fc
      .sample(mutants, { seed, numRuns: 5 * MUTANTS })
      .filter(({ tree, text, bytes }) => tree.length + text.length > 0 && bytes.length === 0);
    const counts = { broken: 0, problems: 0, offered: 0 };
    const wrong: string[] = [];
    for (const mutant of sample) {
      if (counts.broken === MUTANTS) break;
      const { catalogue } = pick(SEEDS, mutant.seed);
      const text = new TextDecoder().decode(inputOf({ ...mutant, csv: [] }).scenario);
      const before = await problemsIn(text, catalogue);
      if (before.length === 0) continue;
      counts.broken++;
      const printed = before.slice(0, PRINTED);
      counts.problems += printed.length;
      const offers = await mend('scenario.yaml', printed, readerFor(text, catalogue), EXAMPLE);
      counts.offered += offers.size;
      for (const [problem, offer] of offers) {
        const after = await problemsIn(copied(text, offer), catalogue);
        const inPlace = after.filter(
          ({ line }) => line >= offer.line && line < offer.line + Math.max(1, offer.lines.length),
        );
        const isNew = inPlace.some((one) => like(after, one) > like(before, one));
        if (isNew || like(after, problem) >= like(before, problem)) {
          wrong.push(`${problem.line}:${problem.column} ${problem.found}: ${offer.lines.join('\n')}`);
        }
      }
    }
    expect(wrong.join('\n\n')).toBe('');
    expect(counts.broken).toBe(MUTANTS);
    total.problems += counts.problems;
    total.offered += counts.offered;
  },
);

test('nearly every problem of them all has a line', () => {
  expect(total.problems).toBeGreaterThan(100);
  expect(total.offered / total.problems).toBeGreaterThan(LEAST_SHARE);
});
