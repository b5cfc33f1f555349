#!/usr/bin/env node
/** The command line. Each command is loaded only when it is called, so that `--version` and `--help` are quick. */
import './compiler.ts';
import { Command, CommanderError, Option } from 'commander';
import { RANK_BYS } from '../domain/advice/types.ts';
import type { SweepOptions } from './commands/sweep.ts';
import { badInput, EXIT, type ExitCode, KnownError } from './exit.ts';
import * as say from './messages.ts';
import { TAKES } from './takes.ts';
import { toolVersion } from './version.ts';

const CAUTION = `
Compressed springs store enough energy to maim. The numbers here do not replace a licensed workshop, a proper
spring compressor and stands, or your local road rules.`;

const OUTSIDE = 'read catalogues that lie outside the folder of the scenario';

function commandLine(run: (work: Promise<ExitCode>) => Promise<void>): Command {
  const program = new Command('springsift')
    .description('Sifts springs, sleeve trims, mounts and bump stops for height-adjustable spring-over-damper units.')
    .version(toolVersion())
    .showHelpAfterError('Say springsift --help for the commands.')
    .addHelpText('after', CAUTION)
    .exitOverride();
  program
    .command('new')
    .argument('<dir>', 'folder to write to')
    .description('write a commented scenario with its catalogues')
    .option('--force', 'write into a folder that already holds files')
    .action((dir, options) => run(import('./commands/new.ts').then((c) => c.newScenario(dir, options))));
  program
    .command('check')
    .argument('[scenario]', 'scenario file (YAML)')
    .description('report every problem of a scenario, or how many combinations it holds')
    .option('--explain-checks', 'say what a sweep asks of every combination, in the order it asks')
    .option('--allow-outside', OUTSIDE)
    .action((file, options) => run(import('./commands/check.ts').then((c) => c.check(file, options))));
  program
    .command('fields')
    .argument('[path]', 'e.g. axles.front.springs; without it all fields')
    .description('print what may be written in a scenario: each field, its unit, what is taken where it is left out')
    .action((path) => run(import('./commands/fields.ts').then((c) => c.fields(path))));
  program
    .command('sweep')
    .argument('<scenarios...>', 'scenario files (YAML)')
    .description(
      'judge every combination, rank what works, and write report.html, shortlist.csv, results.json and purchase.md',
    )
    .option('--out <dir>', 'folder to write to (default: out/NAME)')
    .option('--force', 'replace files of an earlier sweep')
    .option('--quiet', 'no progress on stderr')
    .option(
      '--workers <n>',
      'worker threads for large sweeps (default: as many as the machine runs at once)',
      workerCount,
    )
    .addOption(rankBy())
    .option('--keep-partial', 'when stopped by Ctrl-C, write what was found, marked as incomplete')
    .option('--shard <i/n>', 'sweep only the i-th of n parts and write a part file for merge')
    .option('--limit <n>', 'combinations from which on a sweep is refused (default: 1e12)', limit)
    .option('--allow-outside', OUTSIDE)
    .action((files, options) => run(sweepCommand(files, options)));
  program
    .command('merge')
    .argument('<scenario>', 'scenario file (YAML)')
    .argument('<parts...>', 'part files written by sweep --shard')
    .description('join the parts of a shared-out sweep to the report of a single run')
    .option('--out <dir>', 'folder to write to (default: out/NAME)')
    .option('--force', 'replace files of an earlier sweep')
    .addOption(rankBy())
    .option('--allow-outside', OUTSIDE)
    .action((file, parts, options) => run(import('./commands/share.ts').then((c) => c.merge(file, parts, options))));
  program
    .command('explain')
    .argument('<scenario>', 'scenario file (YAML)')
    .argument('<id>', 'id of a combination, e.g. low-F4F7-R2KD-7Q')
    .description('print the full working of one combination, each formula with its numbers')
    .option('--allow-outside', OUTSIDE)
    .action((file, id, options) => run(import('./commands/explain.ts').then((c) => c.explain(file, id, options))));
  program
    .command('reopen')
    .argument('<report>', 'report.html of an earlier sweep')
    .description('show what a report carries, write it out again, or sweep its inputs again and compare')
    .option('--out <dir>', 'folder to write the page, tables, record and order list to, as a sweep does')
    .addOption(
      new Option('--take <what...>', 'write only these to --out; inputs: the scenario and its catalogues').choices(
        TAKES,
      ),
    )
    .option('--again', 'sweep the inputs again, in memory, and say whether the result is the same')
    .option('--force', 'replace files that stand in the way, write a huge page')
    .option('--quiet', 'no progress on stderr')
    .option('--workers <n>', 'worker threads for --again (default: as many as the machine runs at once)', workerCount)
    .action((report, options) => run(import('./commands/reopen.ts').then((c) => c.reopenReport(report, options))));
  program
    .command('compare')
    .argument('<before>', 'report.html of an earlier sweep')
    .argument('<after>', 'report.html of a later one')
    .description('write changes.html: what changed between two reports in inputs, winners, numbers and counts')
    .option('--out <dir>', 'folder to write to (default: out/changes)')
    .option('--force', 'replace a page that stands in the way, write a huge one')
    .action((before, after, options) =>
      run(import('./commands/compare.ts').then((c) => c.compareReports(before, after, options))),
    );
  program
    .command('audit')
    .argument('<scenario>', 'scenario file (YAML)')
    .argument('[measured]', 'file of measurements (YAML)')
    .description('compare what was measured on a built unit with what was predicted, and correct the numbers by it')
    .option('--blank <build>', 'write an empty file of measurements for an id, or for the best of a setup')
    .option('--adopt [file]', 'save what was measured as a scenario (default: NAME.as-built.yaml beside the scenario)')
    .option('--out <dir>', 'folder to write to (default: out/NAME)')
    .option('--allow-outside', OUTSIDE)
    .option('--force', 'replace files that stand in the way')
    .action((file, measured, options) =>
      run(import('./commands/audit.ts').then((c) => c.audit(file, measured, options))),
    );
  program
    .command('measure')
    .argument('[scenario]', 'scenario file (YAML); without it the sheet is blank')
    .description('write measure.html, a sheet to print: what to measure, where, how well, and what hangs on it')
    .option('--out <dir>', 'folder to write to (default: out/NAME, or out/measure)')
    .option('--force', 'replace a sheet that stands in the way')
    .option('--quiet', 'no progress on stderr')
    .option('--workers <n>', 'worker threads for large sweeps', workerCount)
    .option('--allow-outside', OUTSIDE)
    .action((file, options) => run(import('./commands/measure.ts').then((c) => c.measure(file, options))));
  for (const command of program.commands) command.exitOverride();
  return program;
}

type SweepFlags = SweepOptions & { readonly shard?: string };

async function sweepCommand(files: readonly string[], { shard, ...options }: SweepFlags): Promise<ExitCode> {
  if (shard === undefined) return sweepWhole(files, options);
  const [file, ...others] = files;
  if (file === undefined || others.length > 0) throw badInput(say.shardsOneScenario());
  const { readShare, sweepShare } = await import('./commands/share.ts');
  return sweepShare(file, readShare(shard), options);
}

async function sweepWhole(files: readonly string[], options: SweepOptions): Promise<ExitCode> {
  // First of all, so that the thread that draws gets ready while this one still loads, reads and sweeps.
  const easel = (await import('../pipeline/easel.ts')).newEasel();
  easel.getReady();
  try {
    return await (await import('./commands/sweep.ts')).sweep(files, options, easel);
  } finally {
    await easel.close();
  }
}

function rankBy(): Option {
  const meaning = 'order the shortlist by score, by its worst case, or by the share of builds that work';
  return new Option('--rank-by <how>', meaning).choices(RANK_BYS).default('nominal');
}

function workerCount(text: string): number {
  const count = Number(text);
  if (!Number.isInteger(count) || count < 1 || count > 256) throw badInput(say.notWorkers(text));
  return count;
}

function limit(text: string): number {
  const count = Number(text);
  if (text.trim() === '' || !(count >= 1)) throw badInput(say.notALimit(text));
  return count;
}

/**
 * A reader who has seen enough, such as `head`, closes the pipe: that is no error, and files still to be written are
 * written. Anything else that keeps the program from printing is told, if it can be.
 */
function printQuietly(stream: NodeJS.WriteStream): void {
  stream.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code === 'EPIPE') return;
    if (stream !== process.stderr) process.stderr.write(`${say.cannotPrint(error.code ?? error.message)}\n`);
    process.exitCode = EXIT.failure;
  });
}

/** Runs the command line and gives back the exit code; known errors are printed short. */
async function main(args: readonly string[]): Promise<ExitCode> {
  let code: ExitCode = EXIT.ok;
  try {
    const program = commandLine(async (work) => {
      code = await work;
    });
    await program.parseAsync([...args], { from: 'user' });
    return code;
  } catch (error) {
    if (error instanceof KnownError) {
      process.stderr.write(`${error.message}\n`);
      return error.code;
    }
    if (error instanceof CommanderError) return error.exitCode === 0 ? EXIT.ok : EXIT.badInput;
    process.stderr.write(`springsift: unexpected error, please report it.\n${(error as Error)?.stack ?? error}\n`);
    return EXIT.failure;
  }
}

printQuietly(process.stdout);
printQuietly(process.stderr);
const code = await main(process.argv.slice(2));
process.exitCode ??= code;
