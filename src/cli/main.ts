#!/usr/bin/env node
/** The command line. */
import './terminal/compiler.ts';
import { Command, CommanderError } from 'commander';
import { COMMANDS } from './commands.ts';
import type { CommandRecord } from './terminal/command.ts';
import { EXIT, type ExitCode, KnownError } from './terminal/exit.ts';
import * as say from './terminal/messages.ts';
import { toolVersion } from './terminal/places.ts';

const CAUTION = `
Compressed springs store enough energy to maim. The numbers here do not replace a licensed workshop, a proper
spring compressor and stands, or your local road rules.`;

function commandLine(run: (command: CommandRecord, given: readonly unknown[]) => Promise<void>): Command {
  const program = new Command('springsift')
    .description('Sifts springs, sleeve trims, mounts and bump stops for height-adjustable spring-over-damper units.')
    .version(toolVersion())
    .showHelpAfterError('Say springsift --help for the commands.')
    .addHelpText('after', CAUTION)
    .exitOverride();
  for (const record of COMMANDS) {
    const command = program.command(record.name).description(record.help).exitOverride();
    for (const [name, meaning] of Object.entries(record.arguments)) command.argument(name, meaning);
    for (const option of record.options) command.addOption(option);
    command.action((...given: unknown[]) => run(record, given));
  }
  return program;
}

/**
 * A reader who has seen enough, such as `head`, closes the pipe: that is no error, and files still to be written are
 * written. Anything else that keeps the program from printing is said on stderr, if it can be.
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
    const program = commandLine(async ({ load }, given) => {
      code = await (await load())(...(given as never[]));
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
