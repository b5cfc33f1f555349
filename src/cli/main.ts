#!/usr/bin/env node
/** The command line. Each command is loaded only when it is called, so that `--version` and `--help` are quick. */
import { Command, CommanderError } from 'commander';
import { EXIT, type ExitCode, KnownError } from './exit.ts';
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
    .argument('<scenario>', 'scenario file (YAML)')
    .description('judge every combination, rank what works, and write report.html, shortlist.csv and results.json')
    .option('--out <dir>', 'folder for the three files (default: out/NAME)')
    .option('--force', 'replace files of an earlier sweep')
    .action((file, options) => run(import('./commands/sweep.ts').then((c) => c.sweep(file, options))));
  program
    .command('explain')
    .argument('<scenario>', 'scenario file (YAML)')
    .argument('<id>', 'id of a combination, e.g. low-F4F7-R2KD-7Q')
    .description('print the full working of one combination, each formula with its numbers')
    .action((file, id) => run(import('./commands/explain.ts').then((c) => c.explain(file, id))));
  for (const command of program.commands) command.exitOverride();
  return program;
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
