import { expect, test } from 'vitest';
import { failureOf } from '../../../src/domain/reporting/failure.ts';

test('a finding is told with what is missing, in the unit of its check', () => {
  const bind = { check: 'coil_bind', detail: 'coil_bind', found: 4, needed: 6, shortfall: 2 } as const;
  expect(failureOf(bind)).toMatchObject({ check: 'coil_bind', shortfall: 2, unit: 'mm' });
  const force = { check: 'unloaded_spring', detail: '', found: -50, needed: 0, shortfall: 50 } as const;
  expect(failureOf(force)).toMatchObject({ shortfall: 50, unit: 'N' });
});

test('what no amount would make up has no amount', () => {
  for (const shortfall of [Number.NaN, Number.POSITIVE_INFINITY]) {
    const lost = { check: 'frequency', detail: 'unstable', found: -2, needed: 0, shortfall } as const;
    expect(failureOf(lost).shortfall).toBeNull();
  }
});
