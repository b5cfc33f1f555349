import { afterEach, expect, test, vi } from 'vitest';
import { progressLine } from '../../../src/cli/run/sweep.ts';

const { stderr } = process;
const was = { isTTY: stderr.isTTY, columns: stderr.columns };
afterEach(() => {
  vi.restoreAllMocks();
  vi.useRealTimers();
  Object.assign(stderr, was);
});

const half = { judged: 5, of: 10, workable: 2, best: 0.5 };

/** What is written while some work is done, a second at a time. */
function written(isTTY: boolean, columns: number, work: (line: ReturnType<typeof progressLine>) => void): string[] {
  const texts: string[] = [];
  vi.useFakeTimers();
  vi.spyOn(stderr, 'write').mockImplementation((text) => texts.push(String(text)) > 0);
  Object.assign(stderr, { isTTY, columns });
  work(progressLine('demo'));
  return texts;
}

test('on a terminal one line is kept up to date, no wider than the terminal, and taken away at the end', () => {
  const texts = written(true, 40, (line) => {
    vi.advanceTimersByTime(1000);
    line.update(half);
    line.update(half);
    vi.advanceTimersByTime(1000);
    line.step({ what: 'cures', done: 1, of: 4 });
    line.end();
  });
  expect(texts).toHaveLength(3);
  for (const text of texts) expect(text.startsWith('\r\u001b[K')).toBe(true);
  expect(texts[0]?.length).toBe('\r\u001b[K'.length + 39);
  expect(texts.at(-1)).toBe('\r\u001b[K');
});

test('elsewhere a plain line comes every few seconds, without signs for a terminal, and nothing at the end', () => {
  const texts = written(false, 0, (line) => {
    for (let k = 0; k < 12; k++) {
      vi.advanceTimersByTime(1000);
      line.update(half);
    }
    vi.advanceTimersByTime(6000);
    line.step({ what: 'cures', done: 1, of: 4 });
    vi.advanceTimersByTime(6000);
    line.step({ what: 'cures', done: 2, of: 4 });
    line.end();
  });
  expect(texts).toHaveLength(4);
  expect([...texts.join('')].filter((sign) => sign < ' ' && sign !== '\n')).toEqual([]);
  // The time of a phase counts from its first step: six seconds for one of four, so six for the other two.
  expect(texts[3]).toBe('demo: swept; cures: 2 of 4, 6 s left\n');
});

test('a terminal that does not say how wide it is gets eighty columns', () => {
  const texts = written(true, 0, (line) => {
    vi.advanceTimersByTime(1000);
    line.update({ ...half, of: 1e12, workable: 123456789 });
  });
  expect(texts[0]?.length).toBe('\r\u001b[K'.length + 79);
});
