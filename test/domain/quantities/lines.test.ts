import fc from 'fast-check';
import { evaluate } from 'mathjs';
import { expect, test } from 'vitest';
import { cornerQuantities } from '../../../src/domain/quantities/corner.ts';
import { EXPRESSION_CONSTANTS, fillIn, workingLines } from '../../../src/domain/quantities/lines.ts';
import { pairQuantities } from '../../../src/domain/quantities/pair.ts';
import { keyOf } from '../../../src/domain/quantities/quantity.ts';
import { workingOf } from '../../../src/domain/reporting/combination.ts';
import type { Setup } from '../../../src/domain/scenario.ts';
import { anyCorner, anySite } from '../../setup/corners.ts';

test('every printed formula, worked out by mathjs on the printed values, gives the printed value', () => {
  const checked = new Set<string>();
  fc.assert(
    fc.property(anySite, anyCorner, (site, corner) => {
      const lines = workingLines(
        cornerQuantities(
          site.loads.map((l) => l.name),
          1460,
        ),
        workingOf(site, corner),
      );
      const scope = { ...EXPRESSION_CONSTANTS, ...Object.fromEntries(lines.map((l) => [l.symbol, l.value])) };
      for (const line of lines) {
        if (line.expression === null || line.value === null || !Number.isFinite(line.value)) continue;
        checked.add(line.symbol);
        const value = evaluate(line.expression, { ...scope }) as number;
        const size = Math.max(1, Math.abs(line.value));
        expect(Math.abs(value - line.value) / size, `${line.symbol} = ${line.expression}`).toBeLessThan(1e-9);
      }
    }),
    { numRuns: 200 },
  );
  expect(checked.size).toBeGreaterThan(45);
});

test('symbols and keys are each used once', () => {
  const setup = {
    loadCases: [
      { name: 'kerb', kind: 'multiple', factor: { front: 2, rear: 2 } },
      { name: 'bend', kind: 'cornering', lateral: 0.8 },
    ],
  } as unknown as Setup;
  const all = [...cornerQuantities(['two up', 'luggage'], 1460), ...pairQuantities(setup)];
  const symbols = all.map((q) => q.symbol);
  const keys = all.map(keyOf);
  expect(symbols.filter((s, k) => symbols.indexOf(s) !== k)).toEqual([]);
  expect(keys.filter((s, k) => keys.indexOf(s) !== k)).toEqual([]);
});

test('numbers go in for symbols, negative ones in brackets, functions and unknown names stay', () => {
  const values = new Map([
    ['a', 1.23456789],
    ['b', -2],
  ]);
  expect(fillIn('min(a, b) + c', values)).toBe('min(1.23457, (-2)) + c');
});
