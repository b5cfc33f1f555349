import { expect, test } from 'vitest';
import { siteOf } from '../../../src/model/corner/site.ts';
import type { AxleName } from '../../../src/model/scenario.ts';
import { combinationOf, type JudgedPair, workingOf } from '../../../src/result/records/combination.ts';
import { failureOf, sidesOf } from '../../../src/result/records/sides.ts';
import { bentPairs, plainCorner, plainScenario, plainSetup } from '../../setup/corners.ts';
import { between, forAny } from '../../setup/random.ts';

const corner = plainCorner({ spring: { solid: { height: 66, least: 66 } } });

/** One measured pair and a motion ratio of 0.95: no curve that would bend the arithmetic. */
function pairOf(left: number, right: number, rear: { left: number; right: number } | null = null): JudgedPair {
  const axle = {
    ...{ wheelLoad: (left + right) / 2, wheelLoads: { left, right }, unsprungMass: 31, tyreRate: 190 },
    ...{ tyreOnArchHeight: 225, lowestWheelHeight: null, bushes: null, roll: null },
    motion: { pairs: [{ hubToArch: 332, damperLength: 411, raise: 12 }], ratio: 0.95 },
  };
  const scenario = plainScenario({ axles: { front: axle, rear: { ...axle, wheelLoads: rear } } });
  const setup = plainSetup();
  const working = (name: AxleName) => workingOf(siteOf(scenario, setup, name), corner);
  const workings = { front: working('front'), rear: working('rear') };
  return { scenario, setup, indices: { front: 0, rear: 0 }, workings };
}

const reportOf = (pair: JudgedPair) => combinationOf(pair, 2, '1a2b3c4d').axles.front;

test('perch and coil-bind clearance of a side by hand: 10 kg more need 98.0665 / 0.95 N more spring force', () => {
  const { left, right } = reportOf(pairOf(278, 258)).sides ?? {};
  // Virtual work: F_d = W / MR. At the same height gas and stop push alike, so the spring carries the difference:
  // 20 kg x 9.80665 m/s2 / 0.95 = 206.456 N between the sides, and 206.456 / 38 N/mm = 5.4330 mm of deflection.
  const apart = (20 * 9.80665) / 0.95 / 38;
  expect(apart).toBeCloseTo(5.433, 4);
  expect((left?.values.perch_mm ?? 0) - (right?.values.perch_mm ?? 0)).toBeCloseTo(apart, 9);
  // A perch wound up by that much comes to coil bind sooner by as much; the damper inside knows nothing of it.
  const bind = (side: typeof left) => side?.values.clearance_coil_bind_mm ?? Number.NaN;
  expect(bind(right) - bind(left)).toBeCloseTo(apart, 9);
  expect(left?.values.clearance_damper_mm).toBeCloseTo(right?.values.clearance_damper_mm ?? Number.NaN, 9);
  // Same height, same stop: the travel is the same. The heavier side is slower: f = sqrt(k / m) / 2 pi.
  expect(left?.values.bump_travel_mm).toBe(right?.values.bump_travel_mm);
  const hertz = (side: typeof left) => side?.values.body_frequency_hz ?? Number.NaN;
  expect(hertz(right) / hertz(left)).toBeCloseTo(Math.sqrt((278 - 31) / (258 - 31)), 9);
});

test('the corner’s own numbers are those of the mean, whatever the sides', () => {
  forAny([between(0, 60)], 50, (apart) => {
    const { values, sides } = reportOf(pairOf(268 + apart / 2, 268 - apart / 2));
    const [left, right] = [sides?.left.values.perch_mm ?? 0, sides?.right.values.perch_mm ?? 0];
    // With one rate over the whole travel the perch of the mean is the mean of the perches.
    expect((left + right) / 2).toBeCloseTo(values.perch_mm ?? 0, 6);
    expect(left).toBeGreaterThanOrEqual(right);
  });
});

test('equal loads give both sides the numbers of the corner itself', () => {
  const { values, sides, words } = reportOf(pairOf(268, 268));
  expect(words.lowest_height_limit).not.toBe('no stable window');
  for (const side of [sides?.left, sides?.right]) {
    expect(words).toMatchObject(side?.words ?? {});
    expect(Object.keys(side?.words ?? {})).toEqual(['thinnest_contact', 'lowest_height_limit', 'highest_height_limit']);
    expect(Object.keys(side?.values ?? {}).length).toBeGreaterThan(15);
    expect(side?.values.wheel_load_kg).toBe(268);
    for (const key of ['perch_mm', 'body_frequency_hz', 'thinnest_spare_mm'] as const) {
      expect(side?.values[key], key).toBeCloseTo(values[key] ?? Number.NaN, 9);
    }
  }
});

test('a side that fails a check is a warning with the check and what is missing; the corner still works', () => {
  const { failures, flags, sides, values } = reportOf(pairOf(292, 244));
  expect(failures).toEqual([]);
  expect(sides?.left.failures).toEqual([]);
  expect(sides?.right.failures.map(({ check }) => check)).toContain('spring_loose');
  // 24 kg less than the mean let the perch sink by 24 x 9.80665 / 0.95 / 38 mm, and the spring rattles by as much more.
  const slack = (values.slack_mm ?? Number.NaN) + (24 * 9.80665) / 0.95 / 38;
  expect(sides?.right.values.slack_mm).toBeCloseTo(slack, 9);
  const [warning] = flags.filter(({ message }) => message.startsWith('Front right'));
  expect(warning?.kind).toBe('warning');
  // The setup allows 4 mm.
  expect(warning?.message).toBe(
    `Front right, at its own load of 244.0 kg: spring loose at droop, by ${(slack - 4).toFixed(1)} mm. At full droop the spring is ${slack.toFixed(1)} mm loose; 4.0 mm is allowed.`,
  );
});

test('a side whose coils bind rejects the corner, with its own clearance, and is no warning beside that', () => {
  // At the mean the spring keeps what is left of its travel; 24 kg more on the left take the deflection of their own force
  // at the same height, F / MR / k, from it. The solid height is set so that the mean keeps the margin and left does not.
  const apart = (24 * 9.80665) / 0.95 / 38;
  const keeping = (height: number) => {
    const pair = pairOf(292, 244);
    const { site } = pair.workings.front.state;
    const working = workingOf(site, plainCorner({ spring: { solid: { height, least: height } } }));
    return combinationOf({ ...pair, workings: { ...pair.workings, front: working } }, 2, '1a2b3c4d');
  };
  const at66 = keeping(66).axles.front.values.clearance_coil_bind_mm ?? Number.NaN;
  const { workable, axles } = keeping(66 + at66 - 6 - apart / 2);
  expect(axles.front.values.clearance_coil_bind_mm).toBeCloseTo(6 + apart / 2, 9);
  expect(workable).toBe(false);
  expect(axles.front.failures).toEqual([
    {
      check: 'coil_bind',
      message: `Left side, at its own load: coil bind with only ${(6 - apart / 2).toFixed(1)} mm to spare at full bump; the margin asks for 6.0 mm.`,
      shortfall: expect.closeTo(apart / 2, 9),
      unit: 'mm',
    },
  ]);
  expect(axles.front.flags.filter(({ message }) => message.startsWith('Front left'))).toEqual([]);
});

test('one load for both sides brings no sides', () => {
  const { axles } = combinationOf(pairOf(268, 260), 2, '1a2b3c4d');
  expect(axles.front.sides).toBeDefined();
  expect(axles.rear).not.toHaveProperty('sides');
});

test('a side that is not stable over its travel has no limits of a window', () => {
  const pair = pairOf(278, 258);
  const front = { ...pair.scenario.axles.front, motion: { pairs: bentPairs(0.75, 4e-3), ratio: null } };
  const scenario = { ...pair.scenario, axles: { ...pair.scenario.axles, front } };
  const { left } = sidesOf({ ...pair, scenario }, 'front', []) ?? {};
  expect(left?.words.lowest_height_limit).toBe('no stable window');
  expect(left?.words.highest_height_limit).toBe('no stable window');
});

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
