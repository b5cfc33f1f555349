/** Which springs work: a mark each, rate over free length, told apart by shape as well as by shade. */
import { escaped, n } from '../../report/drawing/shapes.ts';
import type { SpringCell } from '../../result/result.ts';

const [WIDTH, HEIGHT] = [300, 190];
const [LEFT, RIGHT, TOP, FOOT] = [44, 12, 10, 34];

export function springMap(cells: readonly SpringCell[], title: string): string {
  const x = scaleOf(
    cells.map((cell) => cell.free_length_mm),
    LEFT,
    WIDTH - RIGHT,
  );
  const y = scaleOf(
    cells.map((cell) => cell.rate_n_per_mm),
    HEIGHT - FOOT,
    TOP,
  );
  // What works is drawn last: springs of one length and rate may differ in the rest.
  const sorted = [...cells].sort((a, b) => Number(a.workable > 0) - Number(b.workable > 0));
  const marks = sorted.map(({ free_length_mm, rate_n_per_mm, workable }) =>
    markAt(x.at(free_length_mm), y.at(rate_n_per_mm), workable > 0),
  );
  const below = x.ticks.map((mm) => text(x.at(mm), HEIGHT - 18, `${mm}`, 'middle'));
  const beside = y.ticks.map((rate) => text(LEFT - 6, y.at(rate) + 4, `${rate}`, 'end'));
  const axes = `<path class="axis" d="M${LEFT} ${TOP}V${HEIGHT - FOOT}H${WIDTH - RIGHT}"/>`;
  const names =
    text((LEFT + WIDTH - RIGHT) / 2, HEIGHT - 4, 'free length, mm', 'middle') + text(2, TOP + 2, 'N/mm', 'start');
  return `<svg class="springs" viewBox="0 0 ${WIDTH} ${HEIGHT}" role="img" font-size="11"><title>${escaped(title)}</title>${axes}${below.join('')}${beside.join('')}${names}${marks.join('')}</svg>`;
}

function markAt(x: number, y: number, works: boolean): string {
  if (works) return `<rect class="works" x="${n(x - 3)}" y="${n(y - 3)}" width="6" height="6"/>`;
  return `<path class="fails" d="M${n(x - 2.5)} ${n(y - 2.5)}l5 5m0 -5l-5 5"/>`;
}

function text(x: number, y: number, words: string, anchor: string): string {
  return `<text x="${n(x)}" y="${n(y)}" text-anchor="${anchor}">${escaped(words)}</text>`;
}

/** About this many marks along an axis. */
const TICKS = 4;

/** A straight scale over the values, with room at both ends, and round numbers along it. */
function scaleOf(values: readonly number[], from: number, to: number) {
  const [least, most] = [Math.min(...values), Math.max(...values)];
  const room = Math.max(0.06 * (most - least), 0.02 * most);
  const [low, high] = [least - room, most + room];
  const step = evenStep((high - low) / TICKS);
  const first = Math.ceil(low / step);
  const count = Math.floor(high / step) - first + 1;
  return {
    at: (value: number) => from + ((value - low) / (high - low)) * (to - from),
    ticks: Array.from({ length: Math.max(0, count) }, (_, k) => Number(((first + k) * step).toPrecision(12))),
  };
}

/** 1, 2 or 5 times a power of ten, at least as large. */
function evenStep(size: number): number {
  const power = 10 ** Math.floor(Math.log10(size));
  return ([1, 2, 5, 10].find((times) => times * power >= size) ?? 10) * power;
}
