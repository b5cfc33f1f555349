/** Signals as if sent to this process; it is not to end. */

import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { uninterrupted, watchInterrupts } from '../../../src/cli/terminal/interrupt.ts';

const { stderr } = process;
let said = '';
beforeEach(() => {
  said = '';
  vi.spyOn(stderr, 'write').mockImplementation((text) => {
    said += text;
    return true;
  });
});
afterEach(() => vi.restoreAllMocks());

const ended = () => vi.spyOn(process, 'exit').mockImplementation(() => undefined as never);

test('the first signal asks to stop and tells the exit code, the second ends the process', () => {
  const exit = ended();
  const interrupt = watchInterrupts();
  expect([interrupt.signal.aborted, interrupt.code()]).toEqual([false, null]);
  process.emit('SIGTERM');
  expect([interrupt.signal.aborted, interrupt.code()]).toEqual([true, 143]);
  expect(exit).not.toHaveBeenCalled();
  process.emit('SIGINT');
  expect(exit).toHaveBeenCalledWith(130);
  interrupt.release();
});

test('a hang-up stops like a polite kill, and what ends the process says so', async () => {
  const exit = ended();
  // A program that has written nothing yet.
  vi.resetModules();
  const fresh = await import('../../../src/cli/terminal/interrupt.ts');
  const interrupt = fresh.watchInterrupts();
  process.emit('SIGHUP');
  expect([interrupt.signal.aborted, interrupt.code(), said]).toEqual([true, 129, '']);
  process.emit('SIGHUP');
  expect(exit).toHaveBeenCalledWith(129);
  expect(said).toBe('Stopped. Nothing was written.\n');
  interrupt.release();
});

test('once released nothing is caught any more', () => {
  const before = process.listenerCount('SIGINT');
  const interrupt = watchInterrupts();
  expect(process.listenerCount('SIGINT')).toBe(before + 1);
  interrupt.release();
  expect(process.listenerCount('SIGINT')).toBe(before);
});

test('work that must not be left half done is finished first, and ends the process only when that was asked', async () => {
  const exit = ended();
  expect(await uninterrupted(async () => 'written')).toBe('written');
  expect(exit).not.toHaveBeenCalled();
  const done = await uninterrupted(async () => {
    process.emit('SIGINT');
    expect(exit).not.toHaveBeenCalled();
    return 'written';
  });
  expect(done).toBe('written');
  expect(exit).toHaveBeenCalledWith(130);
  expect(said).toContain('What is said above to be written was written');
});

test('a stop asked for while files are put in place is passed on to the work around it', async () => {
  const exit = ended();
  const interrupt = watchInterrupts();
  await uninterrupted(async () => {
    await uninterrupted(async () => process.emit('SIGTERM'));
    expect(interrupt.signal.aborted).toBe(false);
  });
  expect([interrupt.signal.aborted, interrupt.code()]).toEqual([true, 143]);
  interrupt.release();
  expect(exit).not.toHaveBeenCalled();
});

test('work that fails says why, a stop or not', async () => {
  const exit = ended();
  const work = uninterrupted(async () => {
    process.emit('SIGINT');
    throw new Error('the disk is full');
  });
  await expect(work).rejects.toThrow('the disk is full');
  expect(exit).not.toHaveBeenCalled();
});
