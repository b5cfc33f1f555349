import fc from 'fast-check';
import { expect, test } from 'vitest';
import { shortPath } from '../../src/report/pathData.ts';

/** The corner points of path data, read step by step from the letters of the SVG 1.1 recommendation, section 8.3. */
function pointsOf(d: string): string[] {
  const points: string[] = [];
  let [x, y, startX, startY] = [0, 0, 0, 0];
  for (const [, letter = '', rest = ''] of d.matchAll(/([MmLlHhVvAaZz])([^A-Za-z]*)/g)) {
    const numbers = [...rest.matchAll(/-?(?:\d+\.?\d*|\.\d+)/g)].map(([n]) => Number(n));
    const size = { m: 2, l: 2, h: 1, v: 1, a: 7, z: 0 }[letter.toLowerCase()] ?? 0;
    for (let k = 0; k < Math.max(numbers.length, 1); k += Math.max(size, 1)) {
      const own = letter === letter.toUpperCase();
      const some = numbers.slice(k, k + size);
      const kind = letter.toLowerCase();
      if (kind === 'z') [x, y] = [startX, startY];
      if (kind !== 'v' && kind !== 'z') x = (own ? 0 : x) + (kind === 'a' ? (some[5] ?? 0) : (some[0] ?? 0));
      if (kind !== 'h' && kind !== 'z') y = (own ? 0 : y) + (some.at(-1) ?? 0);
      if (kind === 'm' && k === 0) [startX, startY] = [x, y];
      points.push(`${kind === 'm' && k === 0 ? 'm' : ''}${(x + 1e-9).toFixed(1)},${(y + 1e-9).toFixed(1)}`);
    }
  }
  return points;
}

const number = fc.integer({ min: -9000, max: 9000 }).map((n) => n / 10);
const step = fc.oneof(
  fc.tuple(fc.constantFrom('L', 'l', 'M', 'm'), number, number).map(([c, x, y]) => `${c}${x},${y}`),
  fc.tuple(fc.constantFrom('H', 'h', 'V', 'v'), number).map(([c, x]) => `${c}${x}`),
  fc.tuple(fc.constantFrom('A', 'a'), number, number).map(([c, x, y]) => `${c}3.4,3.4,0,1,1,${x},${y}`),
  fc.constantFrom('Z', 'z'),
);
const path = fc.array(step, { minLength: 1, maxLength: 20 }).map((steps) => `M1.5,-2${steps.join('')}`);

test('the short path goes through the same points', () => {
  fc.assert(
    fc.property(path, (d) => {
      expect(pointsOf(shortPath(d) ?? '')).toEqual(pointsOf(d));
    }),
    { numRuns: 3000 },
  );
});

test('letters and blanks stand only where they are needed', () => {
  expect(shortPath('M16.8,301L20.6,297.9L24.4,294.7L24.4,300L30,300Z')).toBe('M16.8 301l3.8-3.1 3.8-3.2v5.3h5.6z');
  expect(shortPath('M0.5,0.5h10v-0.5M5,5L6,6')).toBe('M.5 .5h10v-.5m-5.5 5 1 1');
});

test('rounding does not add up along a path', () => {
  const steps = Array.from({ length: 100 }, (_, k) => `L${((k + 1) * 0.14).toFixed(2)},0`).join('');
  expect(pointsOf(shortPath(`M0,0${steps}`) ?? '').at(-1)).toBe('14.0,0.0');
});

test('a path can be moved, and one with curves that are not known is left alone', () => {
  expect(shortPath('M-4.7,0L0,-4.7L4.7,0Z', 100, 50)).toBe('M95.3 50l4.7-4.7 4.7 4.7z');
  expect(shortPath('M0,0C1,1,2,2,3,3')).toBeNull();
  expect(shortPath('')).toBeNull();
});
