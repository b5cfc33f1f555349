/** Runs the command line in a process of its own: from source, or the compiled copy while coverage is measured. */

import { spawn } from 'node:child_process';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { vi } from 'vitest';
import { measuredCopy } from '../cover/copy.ts';
import { printed } from './printed.ts';

const copy = measuredCopy();
const MAIN = fileURLToPath(new URL('../../src/cli/main.ts', import.meta.url));

/** What Node is given before the arguments of the program. */
export const PROGRAM: readonly string[] =
  copy === null ? ['--import', import.meta.resolve('tsx'), MAIN] : [join(copy.dist, 'cli', 'main.js')];

/** The environment of the tests, with where to leave what was run; code kept compiled is counted less exactly. */
export const ENVIRONMENT =
  copy === null ? process.env : { ...process.env, NODE_V8_COVERAGE: copy.raw, NODE_DISABLE_COMPILE_CACHE: '1' };

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
  /** Sent so many milliseconds after the start, or as soon as the first combinations are judged. */
  readonly interrupt?: { readonly signal: NodeJS.Signals; readonly after: number | 'progress' };
  /** Set on top of the environment of the tests. */
  readonly env?: Readonly<Record<string, string>>;
  /** A module that is loaded before the program, in its worker threads too. */
  readonly preload?: string;
  /** Nobody reads what is printed. */
  readonly deaf?: boolean;
}

/** Shows progress at once, not after seconds. */
const ON_TERMINAL = 'data:text/javascript,process.stderr.isTTY=true';

/** Runs the command line in this thread, for what a process of its own adds nothing to: the code it would end with, and its words. */
export async function ranHere(args: readonly string[]): Promise<Pick<Ran, 'code' | 'stdout' | 'stderr'>> {
  const { codeOf } = await import('../../src/cli/commandLine.ts');
  const { out, err } = printed();
  try {
    const code = await codeOf(args);
    return { code, stdout: out(), stderr: err() };
  } finally {
    vi.restoreAllMocks();
  }
}

export function springsift(args: readonly string[], options: RunOptions = {}): Promise<Ran> {
  const { cwd, interrupt, env = {}, preload, deaf } = options;
  const first = [
    ...(interrupt?.after === 'progress' ? [ON_TERMINAL] : []),
    ...(preload === undefined ? [] : [pathToFileURL(preload).href]),
  ];
  const flags = first.length === 0 ? {} : { NODE_OPTIONS: first.map((href) => `--import ${href}`).join(' ') };
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [...PROGRAM, ...args], {
      cwd,
      env: { ...ENVIRONMENT, ...flags, ...env },
      stdio: ['ignore', 'pipe', 'pipe'],
    });
    let stdout = '';
    let stderr = '';
    child.stdout.on('data', (text) => {
      stdout += text;
    });
    child.stderr.on('data', (text) => {
      stderr += text;
      // Before anything is judged, nobody knows how long it takes.
      if (interrupt?.after === 'progress' && Number.isNaN(asked) && /\d (?:s|min) left/.test(stderr)) stop();
    });
    let asked = Number.NaN;
    const stop = () => {
      asked = performance.now();
      if (interrupt) child.kill(interrupt.signal);
    };
    if (typeof interrupt?.after === 'number') setTimeout(stop, interrupt.after);
    if (deaf) child.stdout.destroy();
    child.on('error', reject);
    child.on('close', (code, signal) => resolve({ code, stdout, stderr, signal, ending: performance.now() - asked }));
  });
}
