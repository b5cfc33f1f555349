/** The warm test runner as seen from outside: started when needed, stopped when it takes too long. */
import { type ChildProcess, fork } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import type { Answer, Task } from './warm.ts';

const PROGRAM = fileURLToPath(new URL('warm.ts', import.meta.url));

export class WarmProcess {
  readonly #root: string;
  #child: ChildProcess | null = null;

  constructor(root: string) {
    this.#root = root;
  }

  /** The answer, or null when there was none within `limit` seconds: what ran then is stopped. */
  async judge(task: Task, limit: number): Promise<Answer | null> {
    this.#child ??= await this.#start();
    const child = this.#child;
    const answered = reply<Answer>(child);
    child.send(task);
    const timer = setTimeout(() => this.stop(), limit * 1000);
    const answer = await answered;
    clearTimeout(timer);
    return answer;
  }

  /** The runner and its workers: it leads a group of its own, so that no hanging worker is left behind. */
  stop(): void {
    const child = this.#child;
    this.#child = null;
    if (child?.pid === undefined) return;
    try {
      process.kill(-child.pid, 'SIGKILL');
    } catch {
      child.kill('SIGKILL');
    }
  }

  async #start(): Promise<ChildProcess> {
    const child = fork(PROGRAM, [this.#root], {
      cwd: this.#root,
      detached: true,
      execArgv: ['--import', import.meta.resolve('tsx')],
      stdio: ['ignore', 'ignore', 'inherit', 'ipc'],
    });
    if ((await reply(child)) === null) throw new Error('the test runner did not start');
    return child;
  }
}

/** The next message, or null once the process has ended. */
function reply<T>(child: ChildProcess): Promise<T | null> {
  return new Promise((resolve) => {
    const ended = () => resolve(null);
    child.once('exit', ended);
    child.once('message', (message) => {
      child.off('exit', ended);
      resolve(message as T);
    });
  });
}
