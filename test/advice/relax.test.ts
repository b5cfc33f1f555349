/** What may give in, against sweeps that are thresholds made for the purpose. */

import { describe, expect, test } from 'vitest';
import { relaxations, requirementsOf } from '../../src/advice/relax.ts';
import type { Winner } from '../../src/advice/taste.ts';
import { coilBindMargin } from '../../src/model/corner/coilGaps.ts';
import type { AxleTarget, Margins, Scenario, Setup } from '../../src/model/scenario.ts';
import { finish } from '../../src/model/steps.ts';
import { plainCorner, plainTarget } from '../setup/corners.ts';

const margins: Margins = { coilBind: { kind: 'fixed', value: 6 }, damper: 3, sleeve: 0, body: 4, tyre: 8, passing: 1 };
const axles = { front: { options: { spring: [plainCorner().spring] } }, rear: { options: { spring: [] } } };
const scenario = { margins, axles } as unknown as Scenario;
/** In front at least 35 mm of bump and 30 of droop travel, behind 45 and 20. */
const rear: AxleTarget = { ...plainTarget, leastBumpTravel: 45, leastDroopTravel: 20, frequencyFrom: 0.4 };
const balance = { from: 1.05, target: 1.1, to: 1.2 };
const setup = { axles: { front: plainTarget, rear }, balance } as unknown as Setup;

const bindMargin = ({ coilBind }: Margins, { spring } = plainCorner()) => coilBindMargin(coilBind, spring).value;

const winner: Winner = { id: 'won', purchase: 'bought', score: 0.5 };
type Works = (scenario: Scenario, setup: Setup) => boolean;

function rowsWith(works: Works, axles: readonly ('front' | 'rear')[] = ['front', 'rear']) {
  const { rows } = finish(relaxations(scenario, setup, axles, 'all', (s, u) => (works(s, u) ? winner : null)));
  return rows;
}
const rowOf = (name: string, ...given: Parameters<typeof rowsWith>) =>
  rowsWith(...given).find(({ requirement }) => requirement === name);

test('every requirement is tried; a margin of nothing can not give in', () => {
  const rows = rowsWith(() => false);
  expect(rows.map(({ requirement, unit, most }) => [requirement, unit, most])).toEqual([
    ['least bump travel', 'mm', 45],
    ['least droop travel', 'mm', 30],
    ['frequency window, lower end', 'Hz', 1],
    ['frequency window, upper end', 'Hz', 1],
    ['allowed slack at droop', 'mm', 20],
    ['balance limits, both ends', '', 0.5],
    ['coil-bind margin', 'mm', 6],
    ['damper margin', 'mm', 3],
    ['body margin', 'mm', 4],
    ['tyre margin', 'mm', 8],
    ['target height, higher', 'mm', 40],
    ['target height, lower', 'mm', 40],
  ]);
  for (const row of rows) expect(row).toMatchObject({ by: null, winner: null, axles: ['front', 'rear'] });
});

describe('the least step at which there is an answer is found', () => {
  test.each([
    // 45 - 7.3: in steps of 0.5 mm the first at or below it is 7.5.
    ['least bump travel', 7.5, (_, { axles }) => axles.rear.leastBumpTravel <= 37.7],
    ['least droop travel', 0.5, (_, { axles }) => axles.front.leastDroopTravel < 30],
    ['frequency window, lower end', 0.08, (_, { axles }) => axles.front.frequencyFrom <= 1.1249],
    ['frequency window, upper end', 0.33, (_, { axles }) => axles.rear.frequencyTo >= 2.925],
    ['allowed slack at droop', 20, (_, { axles }) => axles.front.allowedSlack > 23.9],
    [
      'balance limits, both ends',
      0.3,
      (_, { balance: { limits: b } }) => (b?.from ?? 9) <= 0.7501 && (b?.to ?? 0) >= 1.495,
    ],
    ['coil-bind margin', 2.5, ({ margins: m }) => bindMargin(m) <= 3.6],
    ['damper margin', 3, ({ margins: m }) => m.damper === 0],
    ['tyre margin', 0.5, ({ margins: m }) => m.tyre <= 7.5],
  ] as const satisfies readonly (readonly [string, number, Works])[])('%s: %d', (name, by, works) => {
    expect(rowOf(name, works)).toMatchObject({ by, winner: 'won' });
  });

  test('heights are tried one by one, since they have no order: an answer may end again', () => {
    const between: Works = (_, { axles }) => axles.front.targetHeight >= 335.5 && axles.front.targetHeight <= 340;
    expect(rowOf('target height, higher', between)).toMatchObject({ by: 4, winner: 'won' });
    expect(rowOf('target height, lower', between)).toMatchObject({ by: null, winner: null });
    const below: Works = (_, { axles }) => axles.rear.targetHeight <= 292;
    expect(rowOf('target height, lower', below)).toMatchObject({ by: 40 });
    expect(rowOf('target height, lower', (_, { axles }) => axles.rear.targetHeight <= 291)?.by).toBeNull();
  });
});

test('nothing gives in below nothing, and only what is asked', () => {
  const seen: [Scenario, Setup][] = [];
  rowsWith(
    (s, u) => {
      seen.push([s, u]);
      return false;
    },
    ['rear'],
  );
  for (const [s, { axles, balance: b }] of seen) {
    expect(axles.front).toBe(plainTarget);
    expect(axles.rear.leastBumpTravel).toBeGreaterThanOrEqual(0);
    expect(axles.rear.leastDroopTravel).toBeGreaterThanOrEqual(0);
    // A window that began at 0.4 Hz does not begin at 0.
    expect(axles.rear.frequencyFrom).toBeGreaterThanOrEqual(0.1);
    expect(b.from).toBeGreaterThan(0);
    const { coilBind: _, ...others } = s.margins;
    expect(Math.min(bindMargin(s.margins), ...Object.values(others))).toBeGreaterThanOrEqual(0);
  }
  expect(Math.min(...seen.map(([, { axles }]) => axles.rear.frequencyFrom))).toBe(0.1);
});

test('windows open, travels and margins shrink, each by what is given in', () => {
  const after = (name: string, by: number) => {
    const found = requirementsOf(scenario, setup, ['front']).find((requirement) => requirement.name === name);
    const [s, u] = found?.relax(scenario, setup, by) ?? [scenario, setup];
    return { margins: s.margins, front: u.axles.front, balance: u.balance };
  };
  expect(after('least bump travel', 5).front.leastBumpTravel).toBe(30);
  expect(after('least bump travel', 50).front.leastBumpTravel).toBe(0);
  expect(after('least droop travel', 5).front.leastDroopTravel).toBe(25);
  expect(after('frequency window, lower end', 0.5).front.frequencyFrom).toBeCloseTo(0.7, 12);
  expect(after('frequency window, lower end', 1.15).front.frequencyFrom).toBe(0.1);
  expect(after('frequency window, upper end', 0.5).front.frequencyTo).toBeCloseTo(3.1, 12);
  expect(after('allowed slack at droop', 5).front.allowedSlack).toBe(9);
  expect(after('target height, higher', 5).front.targetHeight).toBe(337);
  expect(after('target height, lower', 5).front.targetHeight).toBe(327);
  expect(after('coil-bind margin', 2).margins).toEqual({ ...margins, coilBind: { kind: 'fixed', value: 4 } });
  expect(bindMargin(after('coil-bind margin', 9).margins)).toBe(0);
  expect(after('balance limits, both ends', 0.25).balance).toEqual({
    ...{ from: 1.05, target: 1.1, to: 1.2 },
    limits: { from: 0.8, to: 1.45 },
  });
});

test('the least effort comes first, a share of the most; what never helps comes last, in its own order', () => {
  const works: Works = ({ margins: m }, { axles }) =>
    bindMargin(m) <= 3 || m.body <= 3 || axles.front.leastBumpTravel <= 34.5 - 10;
  const found = rowsWith(works).filter(({ by }) => by !== null);
  // 1 of 4, 10.5 of 45, 3 of 6.
  expect(found.map(({ requirement, by }) => [requirement, by])).toEqual([
    ['least bump travel', 10.5],
    ['body margin', 1],
    ['coil-bind margin', 3],
  ]);
  const never = rowsWith(works).slice(3);
  expect(never.map(({ requirement }) => requirement)).toEqual(
    rowsWith(() => false)
      .map(({ requirement }) => requirement)
      .filter((name) => !['least bump travel', 'body margin', 'coil-bind margin'].includes(name)),
  );
});

test('a margin that each spring has of its own gives in by the same for all, at most by the greatest', () => {
  // S_a = 8 (0.0015 72^2 / 10 + 0.1 10) = 14.22 mm, worked out by hand; half of it is the default margin.
  const wire = { diameter: 10, activeCoils: 8, totalCoils: 10, material: 'chrome_silicon', materialGiven: true };
  const spring = { ...plainCorner().spring, bore: 62, wire: { ...wire, estimated: false } };
  const options = { spring: [plainCorner().spring, spring] };
  const asDefault = { ...margins, coilBind: { kind: 'default', lowered: 0 } as const };
  const given = { margins: asDefault, axles: { front: { options }, rear: { options } } } as unknown as Scenario;
  const found = requirementsOf(given, setup, ['front']).find(({ name }) => name === 'coil-bind margin');
  expect(found?.most).toBeCloseTo(7.11, 2);
  const [relaxed] = found?.relax(given, setup, 2) ?? [given];
  expect(bindMargin(relaxed.margins)).toBe(4);
  expect(bindMargin(relaxed.margins, { ...plainCorner(), spring })).toBeCloseTo(5.11, 2);
  const [beyond] = found?.relax(given, setup, 6.5) ?? [given];
  expect(bindMargin(beyond.margins)).toBe(0);
});
