/** Parts on the bench: hand sums of the perch's safe range, and what holds on any corner whatever was not measured. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  type BenchState,
  benchFaultLabel,
  benchFaults,
  benchSite,
  benchState,
  judgeOnBench,
  NO_WISHES,
  passingCorner,
  thinnestOnBench,
} from '../../../src/model/corner/bench.ts';
import { type CornerCheckName, METAL_CHECKS, recordOf } from '../../../src/model/corner/checks.ts';
import { contactsAt } from '../../../src/model/corner/contacts.ts';
import { FIT } from '../../../src/model/corner/fit.ts';
import type { Corner } from '../../../src/model/corner/site.ts';
import { type CornerState, cornerState } from '../../../src/model/corner/state.ts';
import { heightWindow } from '../../../src/model/corner/window.ts';
import {
  anyFullCorner,
  anySite,
  type CornerChange,
  plainCorner,
  plainHelper,
  plainSite,
  plainWire,
} from '../../setup/corners.ts';
import { between, forAny } from '../../setup/random.ts';

const NAN = Number.NaN;
const site = benchSite('front', plainSite(), plainSite().margins);
const at = (change: CornerChange) => benchState(site, plainCorner(change));
const judge = (change: CornerChange) => judgeOnBench(site, plainCorner(change));

// Hand arithmetic of the plain corner: a_seat = raise 12 + flange 6 + isolator 6 = 24; l_closed = body 318 + 38 x 0.4 =
// 333.2; l_ext = 474; L0 = 220; sleeve top = 160 + 140 - 15 = 285; lowest place 160 + 8 + 11 = 179; bush give 2; margin to
// coil bind 6.
const SOLID_66 = { spring: { solid: { height: 66 } } } as const;

describe('the safe range of the perch seat', () => {
  test('begins where the spring is just seated with the damper out, and ends its margin short of coil bind', () => {
    const { low, high, range } = at(SOLID_66);
    expect(low).toEqual({ perch: 474 - 24 - 220, limit: 'spring_loose' });
    expect(high.limit).toBe('coil_bind');
    expect(high.perch).toBeCloseTo(333.2 - 24 - 66 - 2 - 6, 12);
    expect(range).toBeCloseTo(235.2 - 230, 12);
  });

  test('with a helper grows by the helper’s travel, and its coupler moves both ends alike', () => {
    // L0 = 220 + 50 + 4, S0 = 66 + 12 + 4; down on its lock ring the perch is too high for the lower end.
    const { low, high } = at({ ...SOLID_66, helper: plainHelper, sleeve: { ledgeHeight: 140, length: 160 } });
    expect(low).toEqual({ perch: 474 - 24 - 274, limit: 'spring_loose' });
    expect(high.perch).toBeCloseTo(333.2 - 24 - 82 - 8, 12);
    expect(high.perch - low.perch).toBeCloseTo(5.2 + (50 - 12), 12);
  });

  test('begins at the lock ring and ends at the sleeve’s top, less an inset, where those bind', () => {
    expect(at({ ...SOLID_66, helper: plainHelper }).low).toEqual({ perch: 160 + 8 + 11, limit: 'perch_low' });
    const { high } = at({ ...SOLID_66, sleeve: { trim: 66 }, perch: { inset: 3 } });
    expect(high).toEqual({ perch: 160 + 140 - 66 - 3, limit: 'perch_high' });
  });

  test('ends where a wire that is known bears no more, and not there where its rate or a helper’s is not', () => {
    // 9 mm at 38 N/mm is overstressed long before it is solid at 20 mm.
    const spring = { freeLength: 220, solid: { height: 20 }, wire: plainWire } as const;
    const { high } = at({ spring });
    expect(high.limit).toBe('overstressed');
    expect(high.perch).toBeLessThan(333.2 - 24 - 20 - 8);
    expect(at({ spring, helper: { ...plainHelper, rate: NAN } }).high.limit).toBe('coil_bind');
  });

  test('a seat, a strap and a wish of a setup are no part of it: the spring is never loose, nothing else is asked', () => {
    expect(NO_WISHES.allowedSlack).toBe(0);
    expect(at({ ...SOLID_66, perch: { engagement: 0 } }).low.perch).toBe(230);
    expect(site).toMatchObject({ lowestWheelHeight: null, loads: [], sides: [], bump: { kind: 'closed' } });
  });
});

describe('the contacts at the closed stop', () => {
  test('have the clearance of their lengths, bush give taken off what does not ride on the rod', () => {
    const { contacts } = at(SOLID_66);
    const found = Object.fromEntries(contacts.map(({ name, clearance }) => [name, clearance]));
    // The sleeve, 57 mm, passes neither the isolator's 56 mm bore nor, but for 1 mm, the flange's 62.
    expect(found.damper).toBeCloseTo(333.2 - 320, 12);
    expect(found.sleeve_isolator).toBeCloseTo(333.2 - (285 + 24) - 2, 12);
    expect(found).not.toHaveProperty('coil_bind');
    expect(found).not.toHaveProperty('tyre_arch');
    expect(found).not.toHaveProperty('sleeve_flange');
    // The body, 50 mm, passes both; the damper has 13.2 - 3 beyond its margin, the sleeve 22.2 - 4.
    expect(Object.keys(found).filter((name) => name.startsWith('body'))).toEqual([]);
    expect(thinnestOnBench(at(SOLID_66)).name).toBe('damper');
    expect(thinnestOnBench(at({ ...SOLID_66, sleeve: { trim: 8 } })).name).toBe('damper');
    // 9 mm less trim: 13.2 - 4 is less than 13.2 - 3.
    expect(thinnestOnBench(at({ ...SOLID_66, sleeve: { trim: 6 } })).name).toBe('sleeve_isolator');
  });
});

describe('what fails', () => {
  test('says by how much: contacts and fits in order, the range last, and each has a name', () => {
    const { verdict, faults, sure } = judge({
      // 316 + 15.2 - 325 = 11.2, less 3 asked for: enough. The sleeve: 331.2 - (300 + 24) - 2 = 5.2.
      ...{ damper: { compressed: 332 }, sleeve: { trim: 0, outerDiameter: 59.5 } },
    });
    expect(verdict).toBe('fails');
    expect(sure).toEqual(faults);
    // 333.2 - 332 = 1.2 of 3; 60 - 59.5 = 0.5 of 1. The range has no place: the contact is named in its stead.
    expect(faults).toEqual([
      { kind: 'contact', name: 'damper', short: expect.closeTo(1.8, 9) },
      { kind: 'size', name: 'spring_over_sleeve', short: 0.5 },
    ]);
    expect(faults.map(benchFaultLabel)).toEqual(['damper bottoming inside', 'parts do not fit']);
  });

  test('a range whose ends are crossed lacks what lies between them', () => {
    const { verdict, faults } = judge({});
    // 76 solid in place of 66: 225.2 - 230.
    expect(verdict).toBe('fails');
    expect(faults).toEqual([{ kind: 'range', low: 'spring_loose', high: 'coil_bind', short: expect.closeTo(4.8, 9) }]);
    expect(faults.map(benchFaultLabel)).toEqual(['no safe place for the perch']);
  });
});

describe('what was not measured', () => {
  test('leaves a verdict that depends on it, with what would fail and with nothing that surely does', () => {
    const sleeve = { trim: 0, outerDiameter: NAN };
    const { verdict, faults, sure, state } = judge({
      ...SOLID_66,
      damper: { compressed: 310 },
      sleeve,
      isolator: null,
    });
    // Met by the flange at 300 + 18 or passing it: 333.2 - 318 - 2 = 13.2, fine. By the sleeve 20 mm higher: not.
    expect(verdict).toBe('works');
    expect(faults).toEqual([]);
    expect(sure).toEqual([]);
    expect(state.unjudged).toEqual(['spring_over_sleeve']);
    expect(judge({ ...SOLID_66, sleeve: { ...sleeve, length: 160 }, isolator: null })).toMatchObject({
      verdict: 'depends',
      faults: [{ kind: 'contact', name: 'sleeve_flange' }],
      sure: [],
    });
  });

  test('passes as 0 or as a bore without end, only where it is NaN and where there is a part', () => {
    const corner = plainCorner({ ...SOLID_66, isolator: null, damper: { bodyDiameter: NAN }, mount: { bore: NAN } });
    const passing = passingCorner(corner);
    expect(passing.damper.bodyDiameter).toBe(0);
    expect(passing.mount).toEqual({ ...corner.mount, bore: Number.POSITIVE_INFINITY });
    expect(passing.isolator).toBeNull();
    expect(passing.sleeve).toEqual(corner.sleeve);
  });

  test('a stop that lands on the sleeve closes earlier: what only a stop on the body would spoil is not sure', () => {
    // A sleeve 20 mm proud of the body. On the body the stop closes at 333.2, 1.2 mm before the damper bottoms; on the
    // sleeve, as a stop wider than its bore does, at 338 + 15.2.
    const proud = { ledgeHeight: 178, length: 160, trim: 0, bore: 50.5, outerDiameter: 54 } as const;
    const parts = { damper: { compressed: 332, bodyDiameter: 50 }, sleeve: proud, mount: { bore: 70 }, isolator: null };
    const spring = { freeLength: 230, solid: { height: 60 } };
    const wide = { ...parts, spring, bumpStop: { diameter: 55 } };
    expect(judge({ ...wide, bumpStop: { diameter: 46 } }).verdict).toBe('fails');
    expect(judge(wide).verdict).toBe('works');
    expect(judge({ ...wide, bumpStop: { diameter: NAN } }).verdict).toBe('depends');
    expect(judge({ ...wide, sleeve: { ...proud, bore: NAN } }).verdict).toBe('depends');
  });
});

// Properties on random corners.

const SEATED: readonly CornerCheckName[] = [
  ...(['perch_low', 'perch_high', 'coil_bind', 'spring_loose', 'overstressed'] as const),
  ...(METAL_CHECKS as CornerCheckName[]),
];

/** The details of the checks that fail with the perch at a place, the stop closed. */
function missedAt({ site: bench, corner, geometry }: BenchState, perch: number): string[] {
  const missed: string[] = [];
  const full = { length: geometry.closedLength, height: geometry.closedHeight };
  const state = {
    ...{ site: bench, corner, geometry, full, sides: [], standing: { perch } },
    slack: geometry.droopLength - geometry.seatBelowShoulder - perch - geometry.stack.freeLength,
    contacts: contactsAt(bench, corner, geometry, perch, geometry.closedLength),
  } as unknown as CornerState;
  for (const check of SEATED) {
    const note = (detail: string, isMet: boolean) => {
      if (!isMet && !(check === 'overstressed' && detail === 'solid')) missed.push(`${check} ${detail}`);
    };
    recordOf(check).find?.(state, {
      atLeast: (detail, found, needed) => note(detail, found >= needed - 1e-9),
      atMost: (detail, found, needed) => note(detail, found <= needed + 1e-9),
      above: (detail, found, needed) => note(detail, found > needed),
    });
  }
  return missed;
}

/** What fails just beyond an end. */
const BEYOND: Readonly<Record<string, string>> = {
  perch_low: 'perch_low lowest',
  perch_high: 'perch_high highest',
  coil_bind: 'coil_bind coil_bind',
  spring_loose: 'spring_loose allowed slack',
  overstressed: 'overstressed full bump',
};

const anyJudged = fc.tuple(anyFullCorner, between(2, 40), between(0, 70)).map(([corner, longer, trim]): Corner => {
  const freeLength = corner.spring.freeLength + longer;
  const { damper, spring, sleeve } = corner;
  return {
    ...corner,
    spring: { ...spring, freeLength },
    damper: { ...damper, compressed: 310 },
    sleeve: { ...sleeve, trim },
  };
});

test('inside the range no seat, coil or metal fails, and 0.01 mm outside of it what the end is named after does', () => {
  const ends = new Set<string>();
  forAny([anyJudged, between(0, 1)], 400, (corner, share) => {
    const state = benchState(site, corner);
    const { low, high, range } = state;
    if (!(range >= 0)) return;
    for (const perch of [low.perch, low.perch + share * range, high.perch]) expect(missedAt(state, perch)).toEqual([]);
    for (const [end, by] of [
      [low, -0.01],
      [high, 0.01],
    ] as const) {
      ends.add(end.limit);
      expect(missedAt(state, end.perch + by)).toContain(BEYOND[end.limit]);
    }
  });
  expect([...ends].sort()).toEqual(expect.arrayContaining(['coil_bind', 'perch_high', 'perch_low', 'spring_loose']));
});

test('the full model’s window, its stop closed and no slack allowed, lies within it and ends where the same limit binds', () => {
  const same = { low: 0, high: 0 };
  forAny([anySite, anyJudged], 300, (drawn, corner) => {
    const bench = benchState(site, corner);
    const wheel = { ...drawn, bump: { kind: 'closed' }, standingOnStop: false, loads: [], sides: [] } as const;
    const target = { ...NO_WISHES, targetHeight: drawn.target.targetHeight };
    const window = heightWindow(cornerState({ ...wheel, target, tyreOnArchHeight: 0 }, corner));
    if (window === null || !window.usable) return;
    expect(window.low.perch).toBeGreaterThanOrEqual(bench.low.perch - 1e-6);
    expect(window.high.perch).toBeLessThanOrEqual(bench.high.perch + 1e-6);
    for (const end of ['low', 'high'] as const) {
      if (window[end].limit !== bench[end].limit) continue;
      same[end]++;
      expect(window[end].perch).toBeCloseTo(bench[end].perch, 6);
    }
  });
  expect(Math.min(same.low, same.high)).toBeGreaterThan(10);
});

/** Where diameters stand, and what makes some of them NaN. */
const DIAMETERS = [
  ['damper', 'bodyDiameter'],
  ['mount', 'bore'],
  ['mount', 'washerDiameter'],
  ['isolator', 'bore'],
  ['bumpStop', 'diameter'],
  ['bumpStop', 'packerDiameter'],
  ['sleeve', 'bore'],
  ['sleeve', 'outerDiameter'],
  ['spring', 'bore'],
] as const;

function withDiameters(corner: Corner, sizes: readonly (number | null)[]): Corner {
  const parts = structuredClone(corner) as unknown as Record<string, Record<string, number> | null>;
  DIAMETERS.forEach(([family, field], k) => {
    const [part, size] = [parts[family], sizes[k] ?? null];
    if (field === 'packerDiameter' && corner.bumpStop.packer === 0) return;
    if (part && size !== null) part[field] = size;
  });
  return parts as unknown as Corner;
}

const sizeOf = fc.oneof(between(40, 75), fc.constantFrom(20, 500));
const sizes = fc.array(sizeOf, { minLength: DIAMETERS.length, maxLength: DIAMETERS.length });
const isMissing = fc.array(fc.boolean(), { minLength: DIAMETERS.length, maxLength: DIAMETERS.length });

/**
 * What is tried for the unknown: all that may meet does or passes; a stop that only just does not enter the sleeve, or
 * enters without the passing clearance.
 */
function triedFor(measured: Corner, lost: readonly boolean[]): number[][] {
  const [body, stop, bore] = [lost[0] ? 1 : measured.damper.bodyDiameter, lost[4], lost[6]];
  const onStop = stop ? null : measured.bumpStop.diameter;
  const sleeve = bore ? body : measured.sleeve.bore;
  const meeting = (diameter: number, hole: number) => [500, 1, 500, 1, diameter, 500, hole, 500, 500];
  const passing = (diameter: number, hole: number) => [body, 500, 1, 500, diameter, 1, hole, 1, 500];
  const pairs = [
    [1, 500],
    [onStop ?? sleeve + 0.001, sleeve],
    [onStop ?? sleeve - 0.5, bore ? (onStop ?? 50) + 0.5 : sleeve],
    [500, 1],
  ] as const;
  return pairs.flatMap(([diameter, hole]) => [meeting(diameter, hole), passing(diameter, hole)]);
}

test('`works` holds for any size of what was not measured, `fails` fails for any, and `depends` has both', () => {
  const seen = { works: 0, depends: 0, fails: 0 };
  forAny(
    [anyJudged, isMissing, sizes, fc.array(sizes, { minLength: 6, maxLength: 6 })],
    { numRuns: 300, endOnFailure: true },
    (plain, lost, own, draws) => {
      // Of a spring whose bore nobody knows no stress is worked out: its wire says nothing.
      const wire = lost[8] ? null : plain.spring.wire;
      const measured = withDiameters({ ...plain, helper: null, spring: { ...plain.spring, wire } }, own);
      const corner = withDiameters(
        measured,
        lost.map((isLost) => (isLost ? NAN : null)),
      );
      const { verdict, state } = judgeOnBench(site, corner);
      seen[verdict]++;
      const filled = (drawn: readonly number[]) =>
        withDiameters(
          measured,
          drawn.map((size, k) => (lost[k] ? size : null)),
        );
      /** But for fits that are said to be not judged. */
      const failsWith = (drawn: readonly number[]) =>
        benchFaults(benchState(site, filled(drawn))).some(
          (fault) => fault.kind !== 'size' || !state.unjudged.includes(fault.name),
        );
      if (verdict === 'works') expect(draws.filter(failsWith)).toEqual([]);
      if (verdict === 'fails') expect(draws.filter((drawn) => !failsWith(drawn))).toEqual([]);
      if (verdict !== 'depends') return;
      const tried = new Set([...triedFor(measured, lost), ...draws].map(failsWith));
      expect(tried).toContain(false);
      // A bore that lets in the stop may be wider than the washers it would have to meet.
      if (!lost[6]) expect(tried).toContain(true);
    },
  );
  expect(Math.min(...Object.values(seen))).toBeGreaterThan(10);
});

test('a fit is judged where its sizes are known, and told apart from those that are not', () => {
  const { fits, unjudged } = at({ ...SOLID_66, helper: plainHelper, spring: { bore: NAN } });
  expect(unjudged).toContain('spring_over_sleeve');
  expect(fits.map(({ name }) => name)).toEqual(expect.arrayContaining(['sleeve_over_body', 'helper_over_sleeve']));
  const all = [...fits.map(({ name }) => name), ...unjudged];
  expect(all.every((name) => name in FIT)).toBe(true);
  expect(new Set(all).size).toBe(all.length);
});
