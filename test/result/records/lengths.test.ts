import fc from 'fast-check';
import { expect, test } from 'vitest';
import { cornerLengths, stateLengths } from '../../../src/result/records/lengths.ts';
import { anyJudged, judged } from '../../report/drawing/corners.ts';
import { plainCorner, plainSite } from '../../setup/corners.ts';

type Plain = Readonly<Record<string, unknown>>;

/** Every number of a record by its path. */
function numbersOf(record: unknown, path = ''): [string, unknown][] {
  if (record === null || typeof record !== 'object') return [[path, record]];
  return Object.entries(record as Plain).flatMap(([key, value]) => numbersOf(value, `${path}.${key}`));
}

/** The same record with every number met to a billionth: records keep thirteen digits. */
function near(record: unknown): unknown {
  if (typeof record === 'number') return expect.closeTo(record, 9);
  if (record === null || typeof record !== 'object') return record;
  return Object.fromEntries(Object.entries(record as Plain).map(([key, value]) => [key, near(value)]));
}

test('the lengths of a judged corner are those read off its record, to the record’s thirteen digits', () => {
  let compared = 0;
  fc.assert(
    fc.property(anyJudged, ({ working, report }) => {
      const ofRecord = Object.fromEntries(numbersOf(cornerLengths(report)));
      const ofState = Object.fromEntries(numbersOf(stateLengths(working.state)));
      for (const [path, value] of Object.entries(ofRecord)) {
        compared += 1;
        const other = ofState[path];
        if (typeof value !== 'number') expect([path, other]).toEqual([path, value]);
        else expect(Math.abs((other as number) - value), path).toBeLessThanOrEqual(1e-9 * Math.max(1, Math.abs(value)));
      }
    }),
    { numRuns: 200 },
  );
  expect(compared).toBeGreaterThan(5000);
});

test('the dimensions of the parts come out as the corner has them, an isolator and a rod end where there is one', () => {
  fc.assert(
    fc.property(anyJudged, ({ working: { state }, report }) => {
      const { damper, sleeve, perch, spring, bumpStop, mount, isolator, rodEnd, helper } = state.corner;
      const lengths = cornerLengths(report);
      const parts = {
        body: { diameter: damper.bodyDiameter },
        sleeve: { trim: sleeve.trim, bore: sleeve.bore, diameter: sleeve.outerDiameter },
        perch: { height: perch.height, lockRing: perch.lockRing },
        spring: { solid: spring.solid.height, leastSolid: spring.solid.least, bore: spring.bore },
        stop: { length: bumpStop.length, diameter: bumpStop.diameter, packer: bumpStop.packer },
        mount: {
          raise: mount.raise,
          spacer: mount.spacer,
          spigot: mount.spigot,
          bore: mount.bore,
          give: mount.bushGive,
        },
        isolator: isolator && { thickness: isolator.thickness, bore: isolator.bore, spigot: isolator.spigot },
        helper: helper && { block: helper.blockHeight, bore: helper.bore, coupler: helper.coupler },
      };
      expect(lengths).toMatchObject(near(parts) as object);
      expect(lengths.mount.isBoltedBelow).toBe(mount.bolted === 'below');
      expect(lengths.wire.isKnown).toBe(spring.wire !== null);
      expect(lengths.rodEnd.nuts).toBeCloseTo(rodEnd ? rodEnd.nut + rodEnd.jamNut : 9, 9);
      const margins = lengths.contacts.map(({ margin }) => margin);
      expect(margins).toEqual(state.contacts.map(({ margin }) => expect.closeTo(margin, 9)));
    }),
    { numRuns: 200 },
  );
});

test('between perch and seat helper and main spring carry the same force and fill the room; a solid one carries the rest', () => {
  const seen = { loose: 0, both: 0, closed: 0, solid: 0 };
  fc.assert(
    fc.property(anyJudged, ({ working: { state }, report }) => {
      const { spring, helper } = state.corner;
      const { damper, mount, perch, stack } = cornerLengths(report);
      for (const name of ['droop', 'standing', 'full'] as const) {
        const give = name === 'full' ? mount.give : 0;
        const room = damper[name] - give - mount.seatBelowShoulder - perch.seat - (helper?.coupler ?? 0);
        const found = stack[name];
        const [free, solid] = [
          spring.freeLength + (helper?.freeLength ?? 0),
          spring.solid.height + (helper?.blockHeight ?? 0),
        ];
        // A spring neither pulls nor gets shorter than solid.
        expect(found.helper + found.spring).toBeCloseTo(Math.min(free, Math.max(solid, room)), 6);
        if (room >= free) seen.loose++;
        else if (room <= solid) seen.solid++;
        else if (helper) {
          // Springs in series, Hooke: the same force in both, or one of them wire on wire.
          const [main, other] = [
            spring.rate * (spring.freeLength - found.spring),
            helper.rate * (helper.freeLength - found.helper),
          ];
          if (found.helper > helper.blockHeight + 1e-6 && found.spring > spring.solid.height + 1e-6) {
            seen.both++;
            expect(main).toBeCloseTo(other, 4);
          } else {
            seen.closed++;
            expect(found.helper > helper.blockHeight + 1e-6 ? other : main).toBeGreaterThan(0);
          }
        }
      }
      expect(stack.solid.helper).toBeCloseTo(helper?.blockHeight ?? 0, 9);
      expect(stack.solid.spring).toBeCloseTo(spring.solid.height, 9);
    }),
    { numRuns: 500 },
  );
  for (const [kind, count] of Object.entries(seen)) expect(count, kind).toBeGreaterThan(0);
});

test('what an earlier version did not tell is as usual: the stop is closed by what it meets, a helper as wide as its spring', () => {
  const { report } = judged(plainSite(), plainCorner());
  const { stop, spring } = cornerLengths(report);
  const told = { stop_closes_at_mm: null, helper_free_length_mm: 60, helper_block_height_mm: 20, helper_bore_mm: null };
  const values = { ...report.values, ...told, helper_rate_n_per_mm: 3, coupler_mm: null };
  const earlier = cornerLengths({ ...report, values });
  expect(earlier.stop.closesAt).toBe(stop.meetsAt);
  expect(earlier.helper).toEqual({ block: 20, bore: spring.bore, coupler: 0 });
});

test('a place on the way stands in for full bump, its spring with it', () => {
  const { state } = judged(plainSite(), plainCorner()).working;
  const { damper, hubToArch, stack } = stateLengths(state);
  const there = stateLengths(state, { length: damper.standing, height: hubToArch.standing, give: 0 });
  expect(there.damper.full).toBe(damper.standing);
  expect(there.hubToArch.full).toBe(hubToArch.standing);
  expect(there.stack.full).toEqual(stack.standing);
});
