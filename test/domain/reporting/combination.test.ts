import { describe, expect, test } from 'vitest';
import { CONTACT_LABELS } from '../../../src/domain/corner/contactLabels.ts';
import type { Corner } from '../../../src/domain/corner/site.ts';
import { motionCurve } from '../../../src/domain/motion.ts';
import {
  type CornerReports,
  combinationOf,
  type JudgedPair,
  workingOf,
} from '../../../src/domain/reporting/combination.ts';
import { cornerFlags } from '../../../src/domain/reporting/flags.ts';
import type { Balance, LoadCase, Scenario, Setup } from '../../../src/domain/scenario.ts';
import { noTolerances, plainCorner, plainSite, plainTarget, stopCurve } from '../../setup/corners.ts';

const weights = { bump_travel: 1, height_coverage: 0, balance: 0, front_frequency: 0, price: 0, clearance: 0 };
const scenario = {
  car: { wheelbase: 2460, pitchInertiaRatio: 0.92, sprungCentreHeight: 545 },
  axles: { front: { roll: null }, rear: { roll: null } },
  ranking: { weights, price: null, goodClearance: null, keep: 1 },
  tolerances: noTolerances,
} as unknown as Scenario;
const WIDE: Balance = { target: 1, from: 0.5, to: 2 };
const kerb: LoadCase = { name: 'kerb', kind: 'multiple', factor: { front: 3, rear: 1 } };

const notes = (
  rear: Partial<Corner['spring']>,
  curve: boolean,
  cases: LoadCase[] = [],
  given = scenario,
  balance: Balance = WIDE,
) =>
  pairWith(rear, curve, cases, given, balance)
    .flags.map((flag) => flag.message)
    .join('\n');

function pairWith(
  rear: Partial<Corner['spring']>,
  curve: boolean,
  loadCases: readonly LoadCase[],
  given: Scenario,
  balance: Balance = WIDE,
) {
  const setup = {
    name: 'low',
    loadStates: [],
    loadCases,
    balance,
    axles: { front: plainTarget, rear: plainTarget },
    frequencyBasis: 'body',
  } as unknown as Setup;
  const bumpStop = { ...plainCorner().bumpStop, curve: curve ? stopCurve : null };
  const spring = { ...plainCorner().spring, ...rear };
  const workings = {
    front: workingOf(plainSite(), plainCorner({ bumpStop })),
    rear: workingOf(plainSite({ axle: 'rear' }), plainCorner({ bumpStop, spring })),
  };
  return combinationOf({ scenario: given, setup, indices: { front: 0, rear: 0 }, workings }, 2, '1a2b3c4d');
}

test('how the pair stands to Olley’s criterion is said as information, marked as from memory', () => {
  // Wheel rates 34.8 and 52.7 N/mm in series with a tyre of 190 N/mm: 29.4 and 41.2, which is 29 % below.
  expect(notes({ rate: 58 }, true)).toMatch(
    /^Olley’s criterion .*\(from memory, information only\): the front ride rate is 29 % below the rear’s/,
  );
  expect(notes({ rate: 30 }, true)).toMatch(/the front ride rate is \d+ % above the rear’s/);
});

test('heights of roll centre and centre of gravity taken 10 mm or more from the target are a warning where there is a bend', () => {
  const bend: LoadCase = { name: 'fast bend', kind: 'cornering', lateral: 0.8 };
  const told = (atHeight: number | null, cases = [bend]) => {
    const roll = { track: 1460, rollCentreHeight: 60, barRate: 6, ...(atHeight === null ? {} : { atHeight }) };
    return notes({}, true, cases, {
      ...scenario,
      axles: { front: { roll }, rear: { roll: null } },
    } as unknown as Scenario);
  };
  // The target is 332 mm.
  expect(told(342)).toMatch(/Front: the heights of roll centre and centre of gravity were taken at 342.0 mm/);
  expect(told(322)).toMatch(/were taken at 322.0 mm hub to arch, the target is 332.0 mm/);
  expect(told(341.9)).not.toMatch(/were taken at/);
  expect(told(null)).not.toMatch(/were taken at/);
  expect(told(300, [])).not.toMatch(/were taken at/);
});

test('a ratio outside the wanted window that its limits let pass is a note with the reason, no failure', () => {
  const limits = { limits: { from: 0.5, to: 2 } };
  const told = (from: number, to: number, more = limits) =>
    notes({ rate: 58 }, true, [], scenario, { target: (from + to) / 2, from, to, ...more });
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
  const bend: LoadCase = { name: 'fast bend', kind: 'cornering', lateral: 0.8 };
  const spring = plainCorner().spring;
  const solid = { rate: 4, solid: { ...spring.solid, height: 180, least: 180 } };
  const told = (centre: number, rear: Partial<Corner['spring']>) => {
    const car = { ...scenario.car, sprungCentreHeight: centre };
    return notes(rear, true, [bend], {
      ...scenario,
      car,
      axles: { front: { roll }, rear: { roll } },
    } as unknown as Scenario);
  };
  expect(told(545, solid)).toMatch(/Rear: at rest .*\(coil bind\), so no roll is computed for fast bend\./);
  expect(told(9000, {})).toMatch(/no answer for fast bend/);
  expect(told(545, {})).not.toMatch(/fast bend/);
  // The word for what stops a wheel goes with the pair.
  expect(pairWith({}, false, [kerb], scenario).words).toEqual({ case_1_front_stopped_by: 'tyre on arch' });
  expect(pairWith({}, true, [], scenario).words).toBeUndefined();
});

test('a measured curve or a formula outside its range is marked as such, other flags are not', () => {
  const wire = {
    diameter: 11,
    activeCoils: 5,
    totalCoils: 7,
    material: 'chrome_silicon',
    materialGiven: true,
    estimated: false,
  };
  const spring = { ...plainCorner().spring, wire };
  const topics = (site = plainSite(), corner = plainCorner()) =>
    cornerFlags(workingOf(site, corner)).map(({ kind, topic }) => `${kind} ${topic ?? ''}`.trim());
  expect(topics()).toContain('warning range');
  const droop = plainSite({
    lowestWheelHeight: 380,
    tyreOnArchHeight: 240,
    target: { ...plainTarget, targetHeight: 332 },
  });
  const high = plainCorner({ bumpStop: { ...plainCorner().bumpStop, length: 60, closedFraction: 0.7 } });
  expect(topics(droop, high)).not.toContain('warning range');
  expect(topics(droop, { ...high, spring })).toContain('note range');
});

test('a combination works only where neither axle and nothing between them fails', () => {
  const site = { tyreOnArchHeight: 240, target: { ...plainTarget, allowedSlack: 8 } };
  const good = plainCorner();
  // A sleeve too wide for its spring: one failure.
  const bad = plainCorner({ sleeve: { ...good.sleeve, outerDiameter: 59.5 } });
  const made = (front: Corner, rear: Corner, from = 0.5) => {
    const setup = {
      ...{ name: 'low', loadStates: [], loadCases: [], balance: { target: 1.5, from, to: 2 } },
      ...{ axles: { front: plainTarget, rear: plainTarget }, frequencyBasis: 'body' },
    } as unknown as Setup;
    const workings = {
      front: workingOf(plainSite(site), front),
      rear: workingOf(plainSite({ ...site, axle: 'rear' }), rear),
    };
    return combinationOf({ scenario, setup, indices: { front: 0, rear: 0 }, workings }, 2, '1a2b3c4d');
  };
  const { workable, score } = made(good, good);
  expect(workable).toBe(true);
  expect(score).toBeGreaterThan(0);
  const failing = [made(bad, good), made(good, bad), made(bad, bad), made(good, good, 1.2), made(good, bad, 1.2)];
  for (const one of failing) expect(one).toMatchObject({ workable: false, score: 0 });
  const [front, rear] = [made(bad, bad).axles.front, made(bad, bad).axles.rear];
  expect([front.failures.length, rear.failures.length]).toEqual([1, 1]);
  expect(made(good, good, 1.2).failures.map(({ check }) => check)).toEqual(['balance']);
});

test('what a corner is like is told in words: where its numbers come from, and what ends its heights', () => {
  const site = plainSite({ tyreOnArchHeight: 240, target: { ...plainTarget, allowedSlack: 8 } });
  const { spring } = plainCorner();
  const wire = {
    diameter: 9,
    activeCoils: 5.8,
    totalCoils: 7.8,
    material: 'chrome_silicon',
    materialGiven: true,
    estimated: false,
  };
  const wordsOf = (change: Partial<Corner['spring']>, curved = false) => {
    const pairs = [275, 305, 335, 365, 395].map((hubToArch) => {
      const u = hubToArch - 335;
      return { hubToArch, damperLength: 409.5 + 0.75 * u + 4e-3 * u * u, raise: 12 };
    });
    const at = curved ? { ...site, motion: motionCurve({ pairs, ratio: null }) } : site;
    const working = workingOf(at, plainCorner({ spring: { ...spring, ...change } }));
    const setup = {
      ...{ name: 'low', loadStates: [], loadCases: [], balance: { target: 1, from: 0.5, to: 2 } },
      ...{ axles: { front: plainTarget, rear: plainTarget }, frequencyBasis: 'body' },
    } as unknown as Setup;
    const workings = { front: working, rear: working };
    return combinationOf({ scenario, setup, indices: { front: 0, rear: 0 }, workings }, 2, '1a2b3c4d').axles.front
      .words;
  };
  expect(wordsOf({})).toMatchObject({
    ...{ wire_source: 'unknown', solid_height_source: 'catalogue', stop_meets: 'body', window: 'usable' },
    ...{ mount_seat: 'fixed', mount_bolted: 'above' },
  });
  expect(wordsOf({ wire }).wire_source).toBe('given');
  expect(wordsOf({ wire: { ...wire, estimated: true } }).wire_source).toBe('estimated');
  expect(wordsOf({}).lowest_height_limit).not.toBe('no stable window');
  expect(wordsOf({}, true)).toMatchObject({
    ...{ lowest_height_limit: 'no stable window', highest_height_limit: 'no stable window', window: 'empty' },
  });
});

describe('a pair of one setup', () => {
  const site = { tyreOnArchHeight: 240, target: { ...plainTarget, allowedSlack: 8 } };
  const setup = {
    ...{ name: 'low', loadStates: [], loadCases: [], balance: { target: 1, from: 0.5, to: 2 } },
    ...{ axles: { front: plainTarget, rear: plainTarget }, frequencyBasis: 'body' },
  } as unknown as Setup;
  const pairOf = (corner: Corner, tolerances: Partial<Scenario['tolerances']> = {}): JudgedPair => ({
    scenario: { ...scenario, tolerances: { ...noTolerances, ...tolerances } } as Scenario,
    setup,
    indices: { front: 3, rear: 5 },
    workings: {
      front: workingOf(plainSite(site), corner),
      rear: workingOf(plainSite({ ...site, axle: 'rear' }), corner),
    },
  });

  test('shares its corners with other pairs: what was reported once is not made again', () => {
    const known: CornerReports = new Map();
    const first = combinationOf(pairOf(plainCorner()), 2, '1a2b3c4d', known);
    expect([...known.values()]).toEqual([first.axles.front, first.axles.rear]);
    const again = combinationOf(pairOf(plainCorner()), 3, '1a2b3c4d', known);
    expect(again.axles.front).toBe(first.axles.front);
    expect(again.axles.rear).toBe(first.axles.rear);
    expect(known.size).toBe(2);
    // The best alone carries its force curve, which is not kept for others.
    const best = combinationOf(pairOf(plainCorner()), 1, '1a2b3c4d', known);
    expect(best.axles.front.force_curve).toBeDefined();
    expect(known.get(first.axles.front.id)).not.toHaveProperty('force_curve');
  });

  test('tells which clearances its tolerances could use up', () => {
    const tightWith = (body: number) => combinationOf(pairOf(plainCorner(), { body }), 2, '1a2b3c4d').axles.front.tight;
    // Inside the damper 13.2 mm are kept, and every millimetre of body is one of them.
    expect(tightWith(13).map(({ contact }) => contact)).not.toContain(CONTACT_LABELS.damper);
    const damper = tightWith(14).find(({ contact }) => contact === CONTACT_LABELS.damper);
    expect(damper).toMatchObject({ clearance_mm: 13.2, worst_mm: -0.8 });
    expect(tightWith(0)).toEqual([]);
  });

  test('tells a spring that its tolerances could let out of its seat, though none of its clearances is used up', () => {
    const corner = plainCorner({ perch: { ...plainCorner().perch, engagement: 9 } });
    const tightWith = (rateShare: number) =>
      combinationOf(pairOf(corner, { rateShare }), 2, '1a2b3c4d').axles.front.tight;
    const { slack, standing } = workingOf(plainSite(site), corner).state;
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

  test('says which parts have no price, where a spring has one', () => {
    const toldOf = (corner: Corner) => combinationOf(pairOf(corner), 2, '1a2b3c4d').flags.map(({ message }) => message);
    const priced = (price: number | null, spring: number | null) => {
      const parts = Object.entries(plainCorner()).map(([family, part]) => [family, part && { ...part, price }]);
      const corner = Object.fromEntries(parts) as unknown as Corner;
      return { ...corner, spring: { ...corner.spring, price: spring } };
    };
    const parts = ['damper', 'mount', 'isolator', 'stop', 'sleeve', 'perch'];
    const about = (corner: Corner) => toldOf(corner).filter((message) => parts.every((name) => message.includes(name)));
    expect(about(priced(null, 70))).toHaveLength(1);
    expect(about(priced(null, null))).toEqual([]);
    expect(about(priced(10, 70))).toEqual([]);
  });
});
