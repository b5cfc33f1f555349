import fc from 'fast-check';
import { expect, test } from 'vitest';
import { marginsOf } from '../../../src/domain/advice/margins.ts';
import { findingsOf } from '../../../src/domain/corner/findings.ts';
import { cornerState } from '../../../src/domain/corner/state.ts';
import { anyFullCorner, anyFullSite } from '../../setup/corners.ts';

test('a corner lacks something exactly where a margin is below 0, by what the finding misses', () => {
  const met = new Set<string>();
  fc.assert(
    fc.property(anyFullSite, anyFullCorner, (site, corner) => {
      const state = cornerState(site, corner);
      fc.pre(state.rates.wheel > 0);
      const lacking = marginsOf(state).filter(({ value }) => value < 0);
      const findings = findingsOf(state);
      expect(lacking.length > 0).toBe(findings.length > 0);
      const missing = lacking.map(({ value }) => -value);
      for (const { check, shortfall } of findings) {
        // Slack is one margin, the nearer of two limits.
        if (check === 'spring_loose') continue;
        expect(
          missing.some((value) => Math.abs(value - shortfall) < 1e-9),
          check,
        ).toBe(true);
      }
      for (const { name } of lacking) met.add(name);
    }),
    { numRuns: 400 },
  );
  for (const name of ['clear_of_stop', 'bump', 'droop', 'perch_low', 'slack', 'stress_solid', 'stress_full'])
    expect(met).toContain(name);
});
