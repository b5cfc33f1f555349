#!/usr/bin/env node
/** The command line. Each command is loaded only when it is called, so that `--version` and `--help` are quick. */
import { Command, CommanderError, Option } from 'commander';
import { RANK_BYS } from '../domain/advice/types.ts';
import type { SweepOptions } from './commands/sweep.ts';
import { badInput, EXIT, type ExitCode, KnownError } from './exit.ts';
import * as say from './messages.ts';
import { toolVersion } from './version.ts';

const CAUTION = `
Compressed springs store enough energy to maim. The numbers here do not replace a licensed workshop, a proper
spring compressor and stands, or your local road rules.`;

function commandLine(run: (work: Promise<ExitCode>) => Promise<void>): Command {
  const program = new Command('springsift')
    .description('Sifts springs, sleeve cuts, mounts and bump stops for height-adjustable spring-over-damper units.')
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
    .argument('<scenario>', 'scenario file (YAML)')
    .description('report every problem of a scenario, or how many combinations it holds')
    .action((file) => run(import('./commands/check.ts').then((c) => c.check(file))));
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
    .addOption(
      new Option(
        '--rank-by <how>',
        'order the shortlist by score, by its worst case, or by the share of builds that work',
      )
        .choices(RANK_BYS)
        .default('nominal'),
    )
    .option('--keep-partial', 'when stopped by Ctrl-C, write what was found, marked as incomplete')
    .option('--shard <i/n>', 'sweep only the i-th of n parts and write a part file for merge')
    .action((files, options) => run(sweepCommand(files, options)));
  program
    .command('merge')
    .argument('<scenario>', 'scenario file (YAML)')
    .argument('<parts...>', 'part files written by sweep --shard')
    .description('join the parts of a shared-out sweep to the report of a single run')
    .option('--out <dir>', 'folder to write to (default: out/NAME)')
    .option('--force', 'replace files of an earlier sweep')
    .action((file, parts, options) => run(import('./commands/share.ts').then((c) => c.merge(file, parts, options))));
  program
    .command('explain')
    .argument('<scenario>', 'scenario file (YAML)')
    .argument('<id>', 'id of a combination, e.g. low-F4F7-R2KD-7Q')
    .description('print the full working of one combination, each formula with its numbers')
    .action((file, id) => run(import('./commands/explain.ts').then((c) => c.explain(file, id))));
  for (const command of program.commands) command.exitOverride();
  return program;
}

type SweepFlags = SweepOptions & { readonly shard?: string };

async function sweepCommand(files: readonly string[], { shard, ...options }: SweepFlags): Promise<ExitCode> {
  if (shard === undefined) return (await import('./commands/sweep.ts')).sweep(files, options);
  const [file, ...others] = files;
  if (file === undefined || others.length > 0) throw badInput(say.shardsOneScenario());
  const { readShare, sweepShare } = await import('./commands/share.ts');
  return sweepShare(file, readShare(shard), options);
}

function workerCount(text: string): number {
  const count = Number(text);
  if (!Number.isInteger(count) || count < 1 || count > 256) throw badInput(say.notWorkers(text));
  return count;
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

process.exitCode = await main(process.argv.slice(2));
