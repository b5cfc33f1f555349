/** Runs the command line from source in a process of its own. */
import { spawn } from 'node:child_process';
import { fileURLToPath, pathToFileURL } from 'node:url';

const MAIN = fileURLToPath(new URL('../../src/cli/main.ts', import.meta.url));
const LOADER = import.meta.resolve('tsx');

export interface Ran {
  readonly code: number | null;
  readonly stdout: string;
  readonly stderr: string;
  /** What ended the process, when it was a signal. */
  readonly signal: NodeJS.Signals | null;
  /** From the interrupt to the end, ms. */
  readonly ending: number;
}

export interface RunOptions {
  readonly cwd?: string;
  /** Sent so many milliseconds after the start, or as soon as something appears on stderr. */
  readonly interrupt?: { readonly signal: NodeJS.Signals; readonly after: number | 'progress' };
  /** Set on top of the environment of the tests. */
  readonly env?: Readonly<Record<string, string>>;
  /** A module that is loaded before the program, in its worker threads too. */
  readonly preload?: string;
  /** Nobody reads what is printed. */
  readonly deaf?: boolean;
}

export function springsift(args: readonly string[], options: RunOptions = {}): Promise<Ran> {
  const { cwd, interrupt, env = {}, preload, deaf } = options;
  const flags = preload === undefined ? {} : { NODE_OPTIONS: `--import ${pathToFileURL(preload).href}` };
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, ['--import', LOADER, MAIN, ...args], {
      cwd,
      env: { ...process.env, ...flags, ...env },
      stdio: ['ignore', 'pipe', 'pipe'],
    });
    let stdout = '';
    let stderr = '';
    child.stdout.on('data', (text) => {
      stdout += text;
    });
    child.stderr.on('data', (text) => {
      stderr += text;
    });
    let asked = Number.NaN;
    const stop = () => {
      asked = performance.now();
      if (interrupt) child.kill(interrupt.signal);
    };
    if (interrupt?.after === 'progress') child.stderr.once('data', stop);
    else if (interrupt) setTimeout(stop, interrupt.after);
    if (deaf) child.stdout.destroy();
    child.on('error', reject);
    child.on('close', (code, signal) => resolve({ code, stdout, stderr, signal, ending: performance.now() - asked }));
  });
}
