/** Signals as if sent to this process; it is not to end. */

import { afterEach, expect, test, vi } from 'vitest';
import { uninterrupted, watchInterrupts } from '../../../src/cli/terminal/interrupt.ts';

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
});
