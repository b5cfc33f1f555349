/** The command line. */

import { Command, CommanderError } from 'commander';
import { WORDS } from '../report/text/glossary.ts';
import { hanging } from '../report/text/textWidth.ts';
import { COMMANDS, type CommandRecord } from './commands.ts';
import { badInput, EXIT, type ExitCode, failure, KnownError, plainLines, remark } from './terminal/exit.ts';
import { endOnStops } from './terminal/interrupt.ts';
import * as say from './terminal/messages.ts';
import { toolVersion } from './terminal/version.ts';

const CAUTION = `
Compressed springs store enough energy to maim. The numbers here do not replace a licensed workshop, a proper
spring compressor and stands, or your local road rules.`;

/** The words of the trade, for somebody new to them. */
function wordsText(): string {
  const lines = WORDS.flatMap(({ word, meaning }) => hanging(`  ${word.padEnd(18)}`, meaning));
  return ['', 'Words:', ...lines].join('\n');
}

function commandLine(run: (command: CommandRecord, given: readonly unknown[]) => Promise<void>): Command {
  const program = new Command('springsift')
    .description('Sifts springs, sleeve trims, mounts and bump stops for height-adjustable spring-over-damper units.')
    .version(toolVersion())
    .showHelpAfterError('Say springsift --help for the commands.')
    .addHelpText('after', () => `${wordsText()}\n${CAUTION}`)
    .configureOutput({ outputError: (text, write) => write(plainLines(text)) })
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
    if (stream !== process.stderr) remark(say.cannotPrint(error.code ?? error.message));
    process.exitCode = EXIT.failure;
  });
}

/** Runs the command line and gives back the exit code; known errors are printed short. */
export async function codeOf(args: readonly string[]): Promise<ExitCode> {
  let code: ExitCode = EXIT.ok;
  try {
    const program = commandLine(async ({ load }, given) => {
      needFolder();
      code = await (await load())(...(given as never[]));
    });
    await program.parseAsync([...args], { from: 'user' });
    return code;
  } catch (error) {
    const known = error instanceof KnownError ? error : machineFault(error);
    if (known !== null) {
      remark(known.message);
      return known.code;
    }
    if (error instanceof CommanderError) return error.exitCode === 0 ? EXIT.ok : EXIT.badInput;
    remark(`springsift: unexpected error, please report it.\n${(error as Error)?.stack ?? error}`);
    return EXIT.failure;
  }
}

/** Runs the program with what it was given, and leaves its exit code. */
export async function runCommandLine(args: readonly string[]): Promise<void> {
  endOnStops();
  printQuietly(process.stdout);
  printQuietly(process.stderr);
  const code = await codeOf(args);
  process.exitCode ??= code;
}

// What the machine lacks, in a sentence with advice: limits of handles and threads, a working folder that is gone.

/** By what Node says: the code of an error, or the beginning of what a thread or a loader hands on as text. */
const FAULTS: readonly (readonly [sign: RegExp, fault: () => KnownError])[] = [
  [/\bE[MN]FILE\b/, () => failure(say.tooFewHandles())],
  [/\bERR_WORKER_INIT_FAILED\b|\bEAGAIN\b/, () => failure(say.tooFewThreads())],
  [/\buv_cwd\b/, () => failure(say.folderGone())],
  [/\bENAMETOOLONG\b/, () => badInput(say.pathTooLong())],
];

/** Null where the error is none of the machine's. */
export function machineFault(error: unknown): KnownError | null {
  if (!(error instanceof Error)) return null;
  const said = `${(error as NodeJS.ErrnoException).code ?? ''} ${error.message}`;
  return FAULTS.find(([sign]) => sign.test(said))?.[1]() ?? null;
}

/** @throws KnownError where the folder that relative paths start from is gone */
export function needFolder(): void {
  try {
    process.cwd();
  } catch {
    throw failure(say.folderGone());
  }
}
