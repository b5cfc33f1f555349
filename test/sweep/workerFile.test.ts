import { expect, test } from 'vitest';
import { workerFile } from '../../src/sweep/workerFile.ts';

test('the worker is the file beside this one, as source with its loader, compiled without', () => {
  const source = workerFile('file:///here/src/sweep/pool.ts', 'worker');
  expect(source).toEqual({ filename: 'file:///here/src/sweep/worker.ts', execArgv: ['--import', 'tsx'] });
  expect(workerFile('file:///here/dist/sweep/pool.js', 'worker')).toEqual({
    filename: 'file:///here/dist/sweep/worker.js',
  });
});
