/** What came of the mutants, as text for a reader and as a record for the next run. */
import type { Verdict } from './judge.ts';
import type { Mutant } from './mutants.ts';

export interface Figures {
  readonly tried: number;
  readonly killed: number;
  readonly timedOut: number;
  readonly survived: number;
}

export function figuresOf(verdicts: readonly Verdict[]): Figures {
  const count = (outcome: Verdict['outcome']) => verdicts.filter((verdict) => verdict.outcome === outcome).length;
  return {
    tried: verdicts.length,
    killed: count('killed'),
    timedOut: count('timed out'),
    survived: count('survived'),
  };
}

/** A mutant that never ends is noticed as well as one that fails. */
const share = ({ tried, survived }: Figures) => `${(((tried - survived) / tried) * 100).toFixed(1)} %`;

const row = (name: string, figures: Figures) =>
  `${name.padEnd(44)} ${[figures.tried, figures.killed, figures.timedOut, figures.survived]
    .map((value) => String(value).padStart(8))
    .join(' ')}  ${share(figures).padStart(7)}`;

export const mutantLine = ({ path, line, kind, shown }: Mutant): string => `${path}:${line}  ${kind}: ${shown}`;

/** The same mutant after lines were added above it. */
export const mutantKey = ({ path, kind, shown }: Mutant): string => `${path}  ${kind}: ${shown}`;

const survivorLine = ({ mutant, allowed, reaching }: Verdict) =>
  `${mutantLine(mutant)}  (${allowed} of ${reaching} tests that run it)`;

export function reportText(verdicts: readonly Verdict[]): string {
  const paths = [...new Set(verdicts.map(({ mutant }) => mutant.path))].sort();
  const files = paths.map((path) => row(path, figuresOf(verdicts.filter(({ mutant }) => mutant.path === path))));
  const survivors = verdicts
    .filter(({ outcome }) => outcome === 'survived')
    .map(survivorLine)
    .sort();
  const head = `${'file'.padEnd(44)} ${['tried', 'killed', 'no end', 'survived'].map((s) => s.padStart(8)).join(' ')}  noticed`;
  const lines = [head, ...files, row('all', figuresOf(verdicts)), '', `Survivors: ${survivors.length}`, ...survivors];
  return `${lines.join('\n')}\n`;
}
