import { evaluate } from 'mathjs';
import { expect, test } from 'vitest';
import { findingsOf } from '../../../src/model/corner/findings.ts';
import { cornerState } from '../../../src/model/corner/state.ts';
import {
  forceAllowed,
  isStressJudged,
  springStress,
  stressAtFullBump,
  stressAtSolid,
  stressDoubts,
} from '../../../src/model/corner/stress.ts';
import type { Spring, WireData } from '../../../src/model/parts.ts';
import { plainCorner, plainSite } from '../../setup/corners.ts';

// tau = 8 F D / (pi d^3), R_m = 1974 / d^0.108 MPa for chrome-silicon wire: Budynas & Nisbett, Shigley's Mechanical
// Engineering Design, Eq. 10-1 and Table 10-4; worked out with mathjs. The shares 0.56 and 0.50 are from memory.
const stressOf = (F: number, d: number): number => evaluate('8 * F * (60 + d) / (pi * d^3)', { F, d });
const strengthOf = (d: number): number => evaluate('1974 / d^0.108', { d });

const d = 9;
const judged: WireData = {
  ...{ diameter: d, activeCoils: 6, totalCoils: 8, material: 'chrome_silicon' },
  ...{ materialGiven: true, estimated: false },
};
const springWith = (wire: WireData | null, solid = 76, source: Spring['solid']['source'] = 'wire x coils'): Spring =>
  plainCorner({ spring: { wire, solid: { source, height: solid, least: solid } } }).spring;
const stateWith = (spring: Spring) => cornerState(plainSite(), plainCorner({ spring }));

test('stress at solid is held against 0.56 of the strength, at full bump against 0.50', () => {
  // 38 N/mm over 220 - 76 = 144 mm.
  expect(stressAtSolid(springWith(judged))).toEqual({
    stress: expect.closeTo(stressOf(38 * 144, d), 6),
    allowed: expect.closeTo(0.56 * strengthOf(d), 6),
  });
  expect(springStress(springWith(judged), 3000)).toEqual({
    stress: expect.closeTo(stressOf(3000, d), 6),
    allowed: expect.closeTo(0.5 * strengthOf(d), 6),
  });
  // Beyond its own solid force the main spring takes no more.
  expect(springStress(springWith(judged), 9000)?.stress).toBeCloseTo(stressOf(38 * 144, d), 6);
  expect(stressAtSolid(springWith(null))).toBeNull();
  expect(springStress(springWith(null), 3000)).toBeNull();
});

test('stress at full bump rises with the perch, that at solid belongs to the spring', () => {
  const at = (height: number) => cornerState(plainSite(), plainCorner({ spring: springWith(judged) }), height);
  const found = [320, 330, 340].map((height) => stressAtFullBump(at(height))?.stress ?? 0);
  expect(found).toEqual(found.toSorted((a, b) => a - b));
  const solid = (height: number) =>
    findingsOf(at(height)).find(({ check, detail }) => check === 'overstressed' && detail === 'solid');
  expect(solid(320)).toEqual(solid(340));
  expect(solid(320)).toMatchObject({ found: expect.closeTo(stressOf(38 * 144, d), 6) });
});

test('only wire and material that were both given reject; either of them unknown warns, or says nothing', () => {
  const rejects = (wire: WireData | null) =>
    findingsOf(stateWith(springWith(wire))).filter(({ check }) => check === 'overstressed').length;
  const told = (wire: WireData | null) => stressDoubts(stateWith(springWith(wire))).map(({ place }) => place);
  expect([rejects(judged), told(judged)]).toEqual([2, []]);
  const taken = { ...judged, materialGiven: false };
  expect([rejects(taken), told(taken)]).toEqual([0, ['solid', 'full bump']]);
  const estimated = { ...judged, estimated: true };
  expect([rejects(estimated), told(estimated)]).toEqual([0, []]);
  expect([rejects(null), told(null)]).toEqual([0, []]);
  expect([judged, taken, estimated, null].map((wire) => isStressJudged(springWith(wire)))).toEqual([
    true,
    false,
    false,
    false,
  ]);
  // A wire thick enough for both lines has nothing to tell.
  expect(told({ ...taken, diameter: 12 })).toEqual([]);
  expect(rejects({ ...judged, diameter: 12 })).toBe(0);
});

test('a catalogued solid height that would take more than 0.65 of the strength is doubted, by estimated wire too', () => {
  const estimated = { ...judged, estimated: true };
  // The force that takes 0.65 of the strength, and the solid height it leaves.
  const force: number = evaluate('0.65 * R * pi * d^3 / (8 * (60 + d))', { R: strengthOf(d), d });
  const height = 220 - force / 38;
  const doubts = (wire: WireData, solid: number, source: Spring['solid']['source'] = 'catalogue') =>
    stressDoubts(stateWith(springWith(wire, solid, source))).map(({ place, isSolidDoubtful }) => [
      place,
      isSolidDoubtful,
    ]);
  expect(doubts(estimated, height - 1)).toEqual([['solid', true]]);
  expect(doubts(estimated, height + 1)).toEqual([]);
  expect(doubts(estimated, height - 1, 'estimated')).toEqual([]);
  const taken = { ...judged, materialGiven: false };
  expect(doubts(taken, height - 1)[0]).toEqual(['solid', true]);
  expect(doubts(taken, height + 1)[0]).toEqual(['solid', false]);
});

test('the allowed force is that of 0.50 of the strength; none where stress does not reject or the spring is solid before', () => {
  const force: number = evaluate('0.5 * R * pi * d^3 / (8 * (60 + d))', { R: strengthOf(d), d });
  expect(forceAllowed(springWith(judged))).toBeCloseTo(force, 6);
  expect(forceAllowed(springWith({ ...judged, materialGiven: false }))).toBe(Number.POSITIVE_INFINITY);
  expect(forceAllowed(springWith(judged, 200))).toBe(Number.POSITIVE_INFINITY);
});
