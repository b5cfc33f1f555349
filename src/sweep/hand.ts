/** One more thread for one kind of work. */
import { Piscina } from 'piscina';
import { lossOf } from './threads.ts';
import { workerFile } from './workerFile.ts';

export interface Hand<Task, Done> {
  /**
   * @param name the export that does the work, if not the default one
   * @throws WorkerLost when the thread died, out of memory or killed
   */
  run(task: Task, name?: string): Promise<Done>;
  dismiss(): Promise<void>;
}

/**
 * Starts the thread at once; it loads its file and waits for work.
 * @param self URL of the file beside which the thread's file lies
 * @param name the thread's file without its ending; its default export does the work
 */
export function hire<Task, Done>(self: string, name: string): Hand<Task, Done> {
  // Without atomics: a thread that waits on them cannot go on loading what it will need.
  const pool = new Piscina({ ...workerFile(self, name), minThreads: 1, maxThreads: 1, atomics: 'disabled' });
  // A thread may also die while it has no work, and would be started again and again.
  const lost = new Promise<never>((_, reject) => pool.on('error', reject));
  lost.catch(() => undefined);
  return {
    async run(task, name = 'default') {
      try {
        return await Promise.race([pool.run(task, { name }), lost]);
      } catch (error) {
        throw lossOf(error);
      }
    },
    dismiss: () => pool.destroy(),
  };
}
