import { describe, expect, test } from 'vitest';
import { CONTACT } from '../../../src/model/corner/contacts.ts';
import type { Corner } from '../../../src/model/corner/site.ts';
import type { Balance, LoadCase, Tolerances } from '../../../src/model/scenario.ts';
import { combinationOf, type JudgedPair, workingOf } from '../../../src/result/records/combination.ts';
import { cornerFlags } from '../../../src/result/records/flags.ts';
import {
  type CornerChange,
  noTolerances,
  plainCorner,
  plainPair,
  plainScenario,
  plainSite,
  plainWire,
  pricedCorner,
  ROOMY,
  stopCurve,
  tippingMotion,
} from '../../setup/corners.ts';

const kerb: LoadCase = { name: 'kerb', kind: 'multiple', factor: { front: 3, rear: 1 } };
const bend: LoadCase = { name: 'fast bend', kind: 'cornering', lateral: 0.8 };
const reportOf = (...[front, rear, given]: Parameters<typeof plainPair>) =>
  combinationOf(plainPair(front, rear, given), 2, '1a2b3c4d');

/** The stop with its force curve or without, on a car that asks for nothing else than `given`. */
function pairWith(
  rear: CornerChange['spring'],
  curve: boolean,
  loadCases: readonly LoadCase[] = [],
  given: object = {},
  balance: Balance = { target: 1, from: 0.5, to: 2 },
) {
  const bumpStop = { curve: curve ? stopCurve : null };
  const setup = { loadCases, balance };
  return reportOf(plainCorner({ bumpStop }), plainCorner({ bumpStop, spring: rear }), { setup, scenario: given });
}

const notes = (...given: Parameters<typeof pairWith>) =>
  pairWith(...given)
    .flags.map((flag) => flag.message)
    .join('\n');

test('how the pair stands to Olley’s criterion is said as information, marked as from memory', () => {
  // Wheel rates 34.8 and 52.7 N/mm in series with a tyre of 190 N/mm: 29.4 and 41.2, which is 29 % below.
  expect(notes({ rate: 58 }, true)).toMatch(
    /^Olley’s criterion .*\(from memory, information only\): the front ride rate is 29 % below the rear’s/,
  );
  expect(notes({ rate: 30 }, true)).toMatch(/the front ride rate is \d+ % above the rear’s/);
});

test('heights of roll centre and centre of gravity taken 10 mm or more from the target are a warning where there is a bend', () => {
  const told = (atHeight: number | null, cases = [bend]) => {
    const roll = { track: 1460, rollCentreHeight: 60, barRate: 6, ...(atHeight === null ? {} : { atHeight }) };
    return notes({}, true, cases, { axles: { front: { roll }, rear: { roll: null } } });
  };
  // The target is 332 mm.
  expect(told(342)).toMatch(/Front: the heights of roll centre and centre of gravity were taken at 342.0 mm/);
  expect(told(322)).toMatch(/were taken at 322.0 mm hub to arch, the target is 332.0 mm/);
  for (const none of [told(341.9), told(null), told(300, [])]) expect(none).not.toMatch(/were taken at/);
});

test('a ratio outside the wanted window that its limits let pass is a note with the reason, no failure', () => {
  const limits = { limits: { from: 0.5, to: 2 } };
  const told = (from: number, to: number, more = limits) =>
    notes({ rate: 58 }, true, [], {}, { target: (from + to) / 2, from, to, ...more });
  expect(told(0.95, 1.05)).toMatch(
    /outside the wanted 0.95 to 1.05: it ranks lower and is not rejected.*Crolla & King/,
  );
  expect(told(1.6, 1.9)).toMatch(/outside the wanted/);
  expect(told(1, 1.5)).not.toMatch(/outside the wanted/);
  expect(told(0.95, 1.05, { limits: { from: 0.9, to: 1.1 } })).not.toMatch(/outside the wanted/);
});

test('a load case that reaches a stop of unknown force says that it ends at the closed stop', () => {
  expect(notes({}, false, [kerb])).toMatch(/Front: the bump stop has no force curve/);
  expect(notes({}, false, [kerb])).not.toMatch(/Rear: the bump stop/);
  expect(notes({}, true, [kerb])).not.toMatch(/no force curve/);
  expect(notes({}, false)).not.toMatch(/no force curve/);
});

test('a bend without an answer says which axle is not held by its springs, or that the car would roll over', () => {
  const roll = { track: 1460, rollCentreHeight: 60, barRate: 0 };
  const solid = { rate: 4, solid: { height: 180, least: 180 } };
  const told = (centre: number, rear: CornerChange['spring']) => {
    const car = { ...plainScenario().car, sprungCentreHeight: centre };
    return notes(rear, true, [bend], { car, axles: { front: { roll }, rear: { roll } } });
  };
  expect(told(545, solid)).toMatch(/Rear: at rest .*\(coil bind\), so no roll is computed for fast bend\./);
  expect(told(9000, {})).toMatch(/no answer for fast bend/);
  expect(told(545, {})).not.toMatch(/fast bend/);
  // The word for what stops a wheel goes with the pair.
  expect(pairWith({}, false, [kerb]).words).toEqual({ case_1_front_stopped_by: 'tyre on arch' });
  expect(pairWith({}, true).words).toBeUndefined();
});

test('a measured curve or a formula outside its range is marked as such, other flags are not', () => {
  const wire = { ...plainWire, diameter: 11, activeCoils: 5, totalCoils: 7 };
  const topics = (site = plainSite(), corner = plainCorner()) =>
    cornerFlags(workingOf(site, corner)).map(({ kind, topic }) => `${kind} ${topic ?? ''}`.trim());
  expect(topics()).toContain('warning range');
  const droop = plainSite({ lowestWheelHeight: 380, tyreOnArchHeight: 240 });
  const bumpStop = { length: 60, closedFraction: 0.7 };
  expect(topics(droop, plainCorner({ bumpStop }))).not.toContain('warning range');
  expect(topics(droop, plainCorner({ bumpStop, spring: { wire } }))).toContain('note range');
});

test('a combination works only where neither axle and nothing between them fails', () => {
  const good = plainCorner();
  // A sleeve too wide for its spring: one failure.
  const bad = plainCorner({ sleeve: { outerDiameter: 59.5 } });
  const made = (front: Corner, rear: Corner, from = 0.5) =>
    reportOf(front, rear, { site: ROOMY, setup: { balance: { target: 1.5, from, to: 2 } } });
  const { workable, score } = made(good, good);
  expect(workable).toBe(true);
  expect(score).toBeGreaterThan(0);
  const failing = [made(bad, good), made(good, bad), made(bad, bad), made(good, good, 1.2), made(good, bad, 1.2)];
  for (const one of failing) expect(one).toMatchObject({ workable: false, score: 0 });
  const { front, rear } = made(bad, bad).axles;
  expect([front.failures.length, rear.failures.length]).toEqual([1, 1]);
  expect(made(good, good, 1.2).failures.map(({ check }) => check)).toEqual(['balance']);
});

test('what a corner is like is told in words: where its numbers come from, and what ends its heights', () => {
  const wordsOf = (spring: CornerChange['spring'], motion = plainSite().motion) =>
    reportOf(plainCorner({ spring }), undefined, { site: { ...ROOMY, motion } }).axles.front.words;
  expect(wordsOf({})).toMatchObject({
    ...{ wire_source: 'unknown', solid_height_source: 'catalogue', stop_meets: 'body', window: 'usable' },
    ...{ mount_seat: 'fixed', mount_bolted: 'above' },
  });
  expect(wordsOf({ wire: plainWire }).wire_source).toBe('given');
  expect(wordsOf({ wire: { ...plainWire, estimated: true } }).wire_source).toBe('estimated');
  expect(wordsOf({}).lowest_height_limit).not.toBe('no stable window');
  expect(wordsOf({}, tippingMotion())).toMatchObject({
    ...{ lowest_height_limit: 'no stable window', highest_height_limit: 'no stable window', window: 'empty' },
  });
});

describe('a pair of one setup', () => {
  const pairOf = (corner: Corner, change: Partial<Tolerances> = {}): JudgedPair => {
    const tolerances = { ...noTolerances, ...change };
    const pair = plainPair(corner, corner, { site: ROOMY, scenario: { tolerances } });
    return { ...pair, indices: { front: 3, rear: 5 } };
  };

  test('shares its corners with other pairs: what was reported once is not made again', () => {
    const pair = pairOf(plainCorner());
    const first = combinationOf(pair, 2, '1a2b3c4d');
    const other = combinationOf(pairOf(plainCorner()), 2, '1a2b3c4d');
    expect(other.axles.front).not.toBe(first.axles.front);
    // The best alone carries its force curve, which is not kept for others.
    expect(combinationOf(pair, 1, '1a2b3c4d').axles.front.force_curve).toBeDefined();
    const again = combinationOf({ ...pair }, 3, '1a2b3c4d');
    expect(again.axles.front).toBe(first.axles.front);
    expect(again.axles.rear).toBe(first.axles.rear);
    expect(again.axles.front).not.toHaveProperty('force_curve');
  });

  test('tells which clearances its tolerances could use up', () => {
    const tightWith = (body: number) => combinationOf(pairOf(plainCorner(), { body }), 2, '1a2b3c4d').axles.front.tight;
    // Inside the damper 13.2 mm are kept, and every millimetre of body is one of them.
    expect(tightWith(13).map(({ contact }) => contact)).not.toContain(CONTACT.damper.label);
    const damper = tightWith(14).find(({ contact }) => contact === CONTACT.damper.label);
    expect(damper).toMatchObject({ clearance_mm: 13.2, worst_mm: -0.8 });
    expect(tightWith(0)).toEqual([]);
  });

  test('tells a spring that its tolerances could let out of its seat, though none of its clearances is used up', () => {
    const corner = plainCorner({ perch: { engagement: 9 } });
    const tightWith = (rateShare: number) =>
      combinationOf(pairOf(corner, { rateShare }), 2, '1a2b3c4d').axles.front.tight;
    const { slack, standing } = workingOf(plainSite(ROOMY), corner).state;
    // The perch set anew, slack = l_ext - l_r - F/k: a stiffer spring is squeezed less, by x (1 - 1/1.05).
    const worst = slack + standing.deflection * (1 - 1 / 1.05);
    expect(slack).toBeLessThan(9);
    expect(worst).toBeGreaterThan(9);
    expect(tightWith(0.05)).toEqual([
      {
        contact: 'spring leaving its seat',
        clearance_mm: expect.closeTo(9 - slack, 3),
        worst_mm: expect.closeTo(9 - worst, 3),
        seat: { slack_mm: expect.closeTo(slack, 3), worst_slack_mm: expect.closeTo(worst, 3), held_mm: 9 },
        measure: 'the spring’s rate, in a press over two lengths',
      },
    ]);
    expect(tightWith(0.01)).toEqual([]);
  });

  test('counts on no more of its seats than is sure', () => {
    const tightAt = (engagement: number, change: Partial<Tolerances>, assumed = {}) => {
      const corner = plainCorner({ perch: { engagement, ...assumed } });
      return combinationOf(pairOf(corner, { body: 0.1, ...change }), 2, '1a2b3c4d').axles.front.tight;
    };
    const { slack } = workingOf(plainSite(ROOMY), plainCorner()).state;
    expect(tightAt(slack + 2, {})).toEqual([]);
    const seat = { seat: { held_mm: expect.closeTo(slack + 2, 3) }, worst_mm: expect.closeTo(2 - 4, 3) };
    expect(tightAt(slack + 2, { engagement: 4 })).toMatchObject([seat]);
    expect(tightAt(slack + 2, {}, { assumed: { engagement: 4 } })).toMatchObject([seat]);
  });

  test('shown in full it says how much of it is assumed and how sure bounce and pitch are, else not', () => {
    const corner = plainCorner({ bumpStop: { assumed: { closedFraction: 0.1 } } });
    const pair = pairOf(corner, { pitchInertiaRatio: 0.1 });
    const [first, second] = [1, 2].map((rank) => combinationOf(pair, rank, '1a2b3c4d'));
    expect(first?.settling?.assumed).toHaveLength(2);
    expect(Object.keys(first?.bands ?? {})).toEqual(['bounce_frequency_hz', 'pitch_frequency_hz']);
    expect(second).not.toHaveProperty('settling');
    expect(second).not.toHaveProperty('bands');
    expect(combinationOf(pairOf(plainCorner()), 1, '1a2b3c4d')).not.toHaveProperty('settling');
  });

  test('says which parts have no price, where a spring has one', () => {
    const toldOf = (corner: Corner) => combinationOf(pairOf(corner), 2, '1a2b3c4d').flags.map(({ message }) => message);
    const priced = (price: number | null, spring: number | null) => {
      const corner = pricedCorner(price);
      return { ...corner, spring: { ...corner.spring, price: spring } };
    };
    const parts = ['damper', 'mount', 'isolator', 'stop', 'sleeve', 'perch'];
    const about = (corner: Corner) => toldOf(corner).filter((message) => parts.every((name) => message.includes(name)));
    expect(about(priced(null, 70))).toHaveLength(1);
    expect(about(priced(null, null))).toEqual([]);
    expect(about(priced(10, 70))).toEqual([]);
  });
});
