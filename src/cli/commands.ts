/** The commands: one record each, read by the command line, its help and the table of the manual. */
import { Option } from 'commander';
import { FORMS, OPTIONS } from '../fitting/question.ts';
import { AXLE_NAMES } from '../model/scenario.ts';
import { RANK_BYS } from '../result/advice.ts';
import type { SweepOptions } from './run/sweep.ts';
import { badInput, type ExitCode } from './terminal/exit.ts';
import * as say from './terminal/messages.ts';
import { TAKES } from './terminal/places.ts';

export interface CommandRecord {
  readonly name: string;
  /** By how they are written: `<needed>`, `[optional]`, `<several...>`. */
  readonly arguments: Readonly<Record<string, string>>;
  readonly options: readonly Option[];
  readonly help: string;
  /** What is typed behind `springsift`; the manual runs it. */
  readonly example: string;
  /** Loads what does the work, so that `--version` and `--help` stay quick; it takes the arguments, then the options. */
  readonly load: () => Promise<(...given: never[]) => Promise<ExitCode>>;
}

function option(flags: string, text: string, read?: (text: string) => unknown): Option {
  const made = new Option(flags, text);
  return read === undefined ? made : made.argParser(read);
}

const OUT = option('--out <dir>', 'folder to write to (default: out/NAME)');
const REPLACE = option('--force', 'replace files of an earlier sweep');
const QUIET = option('--quiet', 'no progress on stderr');
const OUTSIDE = option('--allow-outside', 'read catalogues that lie outside the folder of the scenario');
const LIMIT = option('--limit <n>', 'combinations from which on a sweep is refused (default: 1e12)', (written) => {
  const count = Number(written);
  if (written.trim() === '' || !(count >= 1)) throw badInput(say.notALimit(written));
  return count;
});
const RANK_BY = option(
  '--rank-by <how>',
  'order the shortlist by score, by its worst case, by the share of builds that work, or by the score expected of a build that is measured before it is cut',
)
  .choices(RANK_BYS)
  .default('nominal');

function workersOption(text: string): Option {
  return option('--workers <n>', text, (written) => {
    const count = Number(written);
    if (!Number.isInteger(count) || count < 1 || count > 256) throw badInput(say.notWorkers(written));
    return count;
  });
}

/** In the order of the help. */
export const COMMANDS: readonly CommandRecord[] = [
  {
    name: 'fit',
    arguments: {},
    options: [
      ...OPTIONS.map((name) => {
        const { form, meaning, example, needed } = FORMS[name];
        return option(
          `--${name} <text>`,
          `${form}: ${meaning}, like "${example}"${needed ? '' : ' (may be left out)'}`,
        );
      }),
      option('--axle <which>', 'axle that the saved scenario is for').choices(AXLE_NAMES).default(AXLE_NAMES[0]),
      option('--save <file>', 'write the scenario that the question is'),
      option('--force', 'replace a file of that name'),
    ],
    help: 'ask in a few words whether parts fit: yes or no, by how much, what to change, lowest and highest perch',
    example: `fit ${OPTIONS.filter((name) => FORMS[name].needed)
      .map((name) => `--${name} "${FORMS[name].example}"`)
      .join(' ')}`,
    load: async () => (await import('./run/fit.ts')).fit,
  },
  {
    name: 'new',
    arguments: { '<dir>': 'folder to write to' },
    options: [
      option('--example', 'write a whole car with its catalogue instead, every value invented'),
      option('--force', 'write into a folder that already holds files'),
    ],
    help: 'write a short file of parts to fill in, with the measuring sheet; or an example of a whole car',
    example: 'new my-car --example',
    load: async () => (await import('./run/new.ts')).newScenario,
  },
  {
    name: 'check',
    arguments: { '[scenario]': 'scenario file (YAML)' },
    options: [
      option('--all', 'print every problem, not the first ten'),
      option('--explain-checks', 'say what a sweep asks of every combination, in the order it asks'),
      option('--spring <text>', 'ask whether one spring fits the parts, like "10 in, 200 lbf/in"'),
      OUTSIDE,
    ],
    help: 'report every problem of a scenario, or how many combinations it holds',
    example: 'check my-car/scenario.yaml',
    load: async () => (await import('./run/check.ts')).check,
  },
  {
    name: 'fields',
    arguments: { '[path]': 'e.g. axles.front.springs; without it all fields' },
    options: [],
    help: 'print what may be written in a scenario: each field, its unit, what is taken where it is left out',
    example: 'fields axles.front.motion.pairs.hub_to_arch',
    load: async () => (await import('./run/fields.ts')).fields,
  },
  {
    name: 'sweep',
    arguments: { '<scenarios...>': 'scenario files (YAML)' },
    options: [
      OUT,
      REPLACE,
      QUIET,
      workersOption('worker threads for large sweeps (default: as many as the machine runs at once)'),
      RANK_BY,
      option('--keep-partial', 'when stopped by Ctrl-C, write what was found, marked as incomplete'),
      option('--shard <i/n>', 'sweep only the i-th of n parts and write a part file for merge'),
      LIMIT,
      OUTSIDE,
    ],
    help: 'judge every combination, rank what works, and write report.html, shortlist.csv, results.json and purchase.md',
    example: 'sweep my-car/scenario.yaml --out my-car/out',
    load: async () => sweepWholeOrShare,
  },
  {
    name: 'merge',
    arguments: { '<scenario>': 'scenario file (YAML)', '<parts...>': 'part files written by sweep --shard' },
    options: [OUT, REPLACE, RANK_BY, OUTSIDE],
    help: 'join the parts of a shared-out sweep to the report of a single run',
    example: 'merge my-car/scenario.yaml parts/part-1-of-2.json parts/part-2-of-2.json --out out/merged',
    load: async () => (await import('./run/share.ts')).merge,
  },
  {
    name: 'explain',
    arguments: {
      '<scenario>': 'scenario file (YAML), or a report.html, whose inputs are read',
      '<id>': 'id of a combination, e.g. low-F4F7-R2KD-7Q',
    },
    options: [OUTSIDE],
    help: 'print the full working of one combination, each formula with its numbers',
    example: 'explain my-car/scenario.yaml low-F2M5-R6S-Z7',
    load: async () => (await import('./run/explain.ts')).explain,
  },
  {
    name: 'reopen',
    arguments: { '<report>': 'report.html of an earlier sweep' },
    options: [
      option('--out <dir>', 'folder to write the page, tables, record and order list to, as a sweep does'),
      option('--take <what...>', 'write only these to --out; inputs: the scenario and its catalogues').choices(TAKES),
      option('--again', 'sweep the inputs again, in memory, and say whether the result is the same'),
      option('--force', 'replace files that stand in the way, write a huge page'),
      QUIET,
      workersOption('worker threads for --again (default: as many as the machine runs at once)'),
      LIMIT,
    ],
    help: 'show what a report carries, write it out again, or sweep its inputs again and compare',
    example: 'reopen my-car/out/report.html',
    load: async () => (await import('./run/reopen.ts')).reopenReport,
  },
  {
    name: 'compare',
    arguments: { '<before>': 'report.html of an earlier sweep', '<after>': 'report.html of a later one' },
    options: [
      option('--out <dir>', 'folder to write to (default: out/changes)'),
      option('--force', 'replace a page that stands in the way, write a huge one'),
    ],
    help: 'write changes.html: what changed between two reports in inputs, winners, numbers and counts',
    example: 'compare my-car/out/report.html my-car/out/report.html --out out/what-changed',
    load: async () => (await import('./run/compare.ts')).compareReports,
  },
  {
    name: 'audit',
    arguments: { '<scenario>': 'scenario file (YAML)', '[measured]': 'file of measurements (YAML)' },
    options: [
      option('--blank <build>', 'write an empty file of measurements for an id, or for the best of a setup'),
      option(
        '--adopt [file]',
        'save what was measured as a scenario (default: NAME.as-built.yaml beside the scenario)',
      ),
      OUT,
      LIMIT,
      OUTSIDE,
      option('--force', 'replace files that stand in the way'),
    ],
    help: 'compare what was measured on a built unit with what was predicted, and correct the numbers by it',
    example: 'audit scenarios/hill-hatch/scenario.yaml --blank street --out out/built',
    load: async () => (await import('./run/audit.ts')).audit,
  },
  {
    name: 'measure',
    arguments: { '[scenario]': 'scenario file (YAML); without it the sheet is blank' },
    options: [
      option('--out <dir>', 'folder to write to (default: out/NAME, or out/measure)'),
      option('--force', 'replace a sheet that stands in the way'),
      QUIET,
      workersOption('worker threads for large sweeps'),
      LIMIT,
      OUTSIDE,
    ],
    help: 'write measure.html, a form to fill in or a sheet to print: what to measure, where, how well, what hangs on it',
    example: 'measure --out out/blank',
    load: async () => (await import('./run/measure.ts')).measure,
  },
];

type Options = SweepOptions & { readonly shard?: string };

async function sweepWholeOrShare(files: readonly string[], { shard, ...options }: Options): Promise<ExitCode> {
  if (shard === undefined) return sweepWhole(files, options);
  const [file, ...others] = files;
  if (file === undefined || others.length > 0) throw badInput(say.shardsOneScenario());
  const { readShare, sweepShare } = await import('./run/share.ts');
  return sweepShare(file, readShare(shard), options);
}

async function sweepWhole(files: readonly string[], options: SweepOptions): Promise<ExitCode> {
  // First of all, so that the thread that draws gets ready while this one still loads, reads and sweeps.
  const drawings = (await import('../pipeline/drawing.ts')).newDrawingThread();
  drawings.getReady();
  try {
    return await (await import('./run/sweep.ts')).sweep(files, options, drawings);
  } finally {
    await drawings.close();
  }
}
