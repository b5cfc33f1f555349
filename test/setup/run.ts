/** Runs the command line from source in a process of its own. */
import { spawn } from 'node:child_process';
import { fileURLToPath } from 'node:url';

const MAIN = fileURLToPath(new URL('../../src/cli/main.ts', import.meta.url));
const LOADER = import.meta.resolve('tsx');

export interface Ran {
  readonly code: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

export interface RunOptions {
  readonly cwd?: string;
  /** Sent once the text appears on stderr, or at once when `after` is empty. */
  readonly interrupt?: { readonly signal: NodeJS.Signals; readonly after: number };
}

export function springsift(args: readonly string[], { cwd, interrupt }: RunOptions = {}): Promise<Ran> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, ['--import', LOADER, MAIN, ...args], {
      cwd,
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
    if (interrupt) setTimeout(() => child.kill(interrupt.signal), interrupt.after);
    child.on('error', reject);
    child.on('close', (code) => resolve({ code, stdout, stderr }));
  });
}
