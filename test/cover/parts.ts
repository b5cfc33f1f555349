/** The parts of src, what the tests have to cover of each, and how a report says so. */

/** What of one part was covered, percent. */
export interface PartFigures {
  readonly part: string;
  readonly files: number;
  readonly lines: number;
  readonly branches: number;
}

/** Counts of one file, as coverage summaries give them. */
export interface FileCounts {
  readonly lines: Counts;
  readonly branches: Counts;
}

interface Counts {
  readonly total: number;
  readonly covered: number;
}

const WHOLE = { lines: 100, branches: 100 };
const MOST = { lines: 90, branches: 90 };

/** Least shares of lines and branches by part, percent. The model and the sweep decide what is safe: all of it. */
export const LIMITS: Readonly<Record<string, { readonly lines: number; readonly branches: number }>> = {
  model: WHOLE,
  result: WHOLE,
  advice: WHOLE,
  sweep: WHOLE,
  'audit/fit': WHOLE,
  audit: MOST,
  input: MOST,
  report: MOST,
  page: MOST,
  measure: MOST,
  compare: MOST,
  fitting: MOST,
  pipeline: MOST,
  cli: MOST,
};

/** `src/pipeline.ts` tells the story of the files in `src/pipeline/`: one part. What an audit infers is a part of its own. */
const PATTERNS: Readonly<Record<string, string>> = {
  pipeline: 'src/pipeline{.ts,/**}',
  audit: 'src/audit/{*.ts,read/**,page/**}',
};

export const patternOf = (part: string) => PATTERNS[part] ?? `src/${part}/**`;

/** @param path from the project's root, with forward slashes */
export const partOf = (path: string): string => /^src\/(audit\/fit|[a-z]+)/.exec(path)?.[1] ?? path;

export function figuresOf(files: ReadonlyMap<string, FileCounts>): readonly PartFigures[] {
  return Object.keys(LIMITS).map((part) => {
    const counts = [...files].filter(([path]) => partOf(path) === part).map(([, file]) => file);
    return {
      part,
      files: counts.length,
      lines: share(counts.map(({ lines }) => lines)),
      branches: share(counts.map(({ branches }) => branches)),
    };
  });
}

function share(counts: readonly Counts[]): number {
  const sum = (key: keyof Counts) => counts.reduce((all, one) => all + one[key], 0);
  return sum('total') === 0 ? 100 : (100 * sum('covered')) / sum('total');
}

/** One row a part, with its limits; `!` marks a part that falls short. */
export function tableOf(figures: readonly PartFigures[]): string {
  const rows = figures.map(({ part, files, lines, branches }) => {
    const least = LIMITS[part] ?? MOST;
    const mark = lines < least.lines || branches < least.branches ? ' !' : '';
    const cells = [files, percent(lines), least.lines, percent(branches), least.branches];
    return `${part.padEnd(10)}${cells.map((cell) => String(cell).padStart(10)).join('')}${mark}`;
  });
  const head = ['files', 'lines %', 'least', 'branches %', 'least'].map((cell) => cell.padStart(10)).join('');
  return [`${'src/'.padEnd(10)}${head}`, ...rows].join('\n');
}

/** Rounded down: 99.996 is not 100. */
const percent = (value: number) => (Math.floor(value * 100) / 100).toFixed(2);
