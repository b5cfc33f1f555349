/** Where a thread starts. */
import { createRequire } from 'node:module';
import { pathToFileURL } from 'node:url';

/**
 * Compiled, a worker is JavaScript beside the file that starts it; from source it needs the loader that runs that file.
 * @param self URL of the file that starts the worker
 * @param name the worker's file beside it, without its ending
 */
export function workerFile(self: string, name: string): { filename: string; execArgv?: string[] } {
  const fromSource = self.endsWith('.ts');
  const filename = new URL(`./${name}.${fromSource ? 'ts' : 'js'}`, self).href;
  if (!fromSource) return { filename };
  // By its path: the folder a user works in may know no such package.
  return { filename, execArgv: ['--import', pathToFileURL(createRequire(self).resolve('tsx')).href] };
}
