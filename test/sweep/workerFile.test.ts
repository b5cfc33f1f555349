import { expect, test } from 'vitest';
import { workerFile } from '../../src/sweep/workerFile.ts';

test('the worker is the file beside this one, as source with its loader, compiled without', () => {
  const source = workerFile(import.meta.url, 'worker');
  expect(source.filename).toBe(new URL('./worker.ts', import.meta.url).href);
  expect(source.execArgv).toEqual(['--import', expect.stringMatching(/^file:.*\/tsx\//)]);
  expect(workerFile('file:///here/dist/sweep/pool.js', 'worker')).toEqual({
    filename: 'file:///here/dist/sweep/worker.js',
  });
});
