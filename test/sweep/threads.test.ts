import { expect, test } from 'vitest';
import { lossOf, startThread, WorkerLost, workerFile } from '../../src/sweep/threads.ts';

test('a thread that ended unasked is a lost worker, an error of the sweep stays what it is', () => {
  const memory = Object.assign(new Error('no memory'), { code: 'ERR_WORKER_OUT_OF_MEMORY' });
  expect(lossOf(memory)).toBeInstanceOf(WorkerLost);
  expect(lossOf(new Error('worker exited with code: 1'))).toBeInstanceOf(WorkerLost);
  const own = new RangeError('no combination 7');
  expect(lossOf(own)).toBe(own);
  expect(lossOf(Object.assign(own, { code: 'ERR_OTHER' }))).toBe(own);
  expect(lossOf('thrown text')).toBe('thrown text');
});

test('the worker is the file beside this one, as source with its loader, compiled without', () => {
  const source = workerFile(import.meta.url, 'worker');
  expect(source.filename).toBe(new URL('./worker.ts', import.meta.url).href);
  expect(source.execArgv).toEqual(['--import', expect.stringMatching(/^file:.*\/tsx\//)]);
  expect(workerFile('file:///here/dist/sweep/threads.js', 'worker')).toEqual({
    filename: 'file:///here/dist/sweep/worker.js',
  });
});

const started = (name: string) => startThread<number, number>(import.meta.url, name);

test('a thread without a file gives an error, not a hang', async () => {
  const thread = started('threadNowhere');
  await expect(thread.run(1)).rejects.toThrow(/threadNowhere/);
  await thread.end();
});

test('a thread does its work, tells what it cannot do, and is lost when it ends by itself', async () => {
  const thread = started('threadHelper');
  expect(await thread.run(20)).toBe(21);
  await expect(thread.run(-1)).rejects.toThrow('less than nothing');
  await expect(thread.run(0)).rejects.toThrow(WorkerLost);
  await thread.end();
});

test('a thread that fails while it has no work says so with the next task', async () => {
  const thread = started('threadHelper');
  expect(await thread.run(1)).toBe(2);
  await new Promise((resolve) => setTimeout(resolve, 500));
  await expect(thread.run(20)).rejects.toThrow('tired');
  await thread.end();
});
