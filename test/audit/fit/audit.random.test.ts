import fc from 'fast-check';
import { expect, test } from 'vitest';
import { auditUnit } from '../../../src/audit/fit/audit.ts';
import type { MeasuredUnit } from '../../../src/audit/fit/measured.ts';
import { chosen, READINGS } from './builds.ts';

const build = await chosen('hill-hatch', 'rear');
const given = (min: number, max: number) => fc.option(fc.double({ min, max, noNaN: true }), { nil: null });
const length = given(1, 900);
const place = fc.double({ min: 1, max: 900, noNaN: true });

const anyUnit: fc.Arbitrary<MeasuredUnit> = fc.record({
  axle: fc.constant('rear' as const),
  side: fc.constantFrom(null, 'left' as const),
  freeLength: length,
  rate: given(0.1, 500),
  coil: fc.option(
    fc.record({ wire: place, coils: fc.double({ min: 1, max: 30, noNaN: true }), ends: fc.constant('plain' as const) }),
    { nil: null },
  ),
  helperFreeLength: length,
  sleeveLength: length,
  stopLength: length,
  lowestPerch: length,
  sleeveToSeat: fc.option(fc.record({ distance: place, damperLength: length }), { nil: null }),
  extendedGap: length,
  snugGaps: fc.array(fc.record({ perch: place, gap: place }), { maxLength: 2 }),
  standing: fc.array(fc.record({ perch: place, rideHeight: place }), { maxLength: 3 }),
  wheelLoad: given(1, 2000),
});

test('whatever was written down, an audit ends with a verdict and never with an error', () => {
  fc.assert(
    fc.property(anyUnit, (unit) => {
      const { report } = auditUnit(build.scenario, build.model, build.options, unit, READINGS);
      expect(['consistent', 'cause', 'several', 'unexplained']).toContain(report.cause.verdict);
      expect(JSON.parse(JSON.stringify(report))).toBeTruthy();
    }),
    { numRuns: 150, seed: 7 },
  );
});
