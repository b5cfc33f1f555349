import { describe, expect, test } from 'vitest';
import { CHANGES } from '../../src/advice/changes.ts';
import { distanceOf, listedOf, pickedDigits } from '../../src/advice/trials.ts';
import { curesOf, type DeadSprings, lackOf, whyNot } from '../../src/advice/whyNot.ts';
import { findingsOf } from '../../src/model/corner/findings.ts';
import { combinationCount, cornerAt } from '../../src/model/corner/options.ts';
import { type Corner, siteOf } from '../../src/model/corner/site.ts';
import { cornerState } from '../../src/model/corner/state.ts';
import { findingsAt, works } from '../../src/model/corner/verdict.ts';
import type { DamperBody } from '../../src/model/parts.ts';
import { AXLE_NAMES, type AxleName, type Scenario, type Setup } from '../../src/model/scenario.ts';
import { finish } from '../../src/model/steps.ts';
import { sweepScenario } from '../../src/sweep/outcome.ts';
import { NAMES, type Name, scenarioOf } from './scenarios.ts';

/** Whole scenarios are swept. */

interface Dead extends DeadSprings {
  readonly scenario: Scenario;
  readonly setup: Setup;
  readonly axle: AxleName;
}

function listedIn({ site, options, otherHelpers }: DeadSprings, most = 20_000) {
  return listedOf(site, options, otherHelpers, pickedDigits(options, most));
}

function deadOf(scenario: Scenario): Dead[] {
  return sweepScenario(scenario).flatMap(({ setup, axles }) =>
    AXLE_NAMES.map((axle) => ({
      scenario,
      setup,
      axle,
      site: siteOf(scenario, setup, axle),
      options: scenario.axles[axle].options,
      otherHelpers: [],
      springs: axles[axle].tally.spring_cells.flatMap((cell, k) => (cell.workable === 0 ? [k] : [])),
    })),
  );
}

function withBodies(scenario: Scenario, body: DamperBody): Scenario {
  const changed = AXLE_NAMES.map((name) => {
    const axle = scenario.axles[name];
    const damper = axle.options.damper.map((one) => ({ ...one, body }));
    return [name, { ...axle, options: { ...axle.options, damper } }];
  });
  return { ...scenario, axles: Object.fromEntries(changed) };
}

interface Cured {
  readonly dead: Dead;
  readonly spring: number;
  readonly cures: ReturnType<typeof curesOf>['cures'];
}

function curedOf(dead: Dead): readonly Cured[] {
  const listed = listedIn(dead);
  return dead.springs.map((spring) => ({ dead, spring, cures: curesOf(listed, spring).cures }));
}

const found = new Map<string, Promise<readonly Cured[]>>();

/** Every dead spring of a scenario with its cures, worked out once for all tests. */
function curedWith(name: Name, body: DamperBody): Promise<readonly Cured[]> {
  const key = `${name} ${body}`;
  const cured = found.get(key) ?? scenarioOf(name).then((read) => deadOf(withBodies(read, body)).flatMap(curedOf));
  found.set(key, cured);
  return cured;
}

/** The parts of a corner put at the end of the axle's lists; the other axle, which is no matter, with one of each. */
function withParts({ scenario, axle }: Dead, corner: Corner): Scenario {
  const { options } = scenario.axles[axle];
  const other = axle === 'front' ? 'rear' : 'front';
  const lists = Object.entries(scenario.axles[other].options).map(([family, list]) => [family, list.slice(0, 1)]);
  const single = { ...scenario.axles[other], options: Object.fromEntries(lists) };
  const added = {
    ...options,
    mount: [...options.mount, corner.mount],
    bumpStop: [...options.bumpStop, corner.bumpStop],
    sleeve: [...options.sleeve, corner.sleeve],
    helper: [...options.helper, corner.helper],
  };
  const changed = { [axle]: { ...scenario.axles[axle], options: added }, [other]: single };
  return { ...scenario, axles: { ...scenario.axles, ...changed } };
}

describe.each(NAMES)('%s', (name) => {
  test('every cure fed back into the scenario makes its spring workable', async () => {
    // Bodies that may be grooved: every kind of cure is looked for.
    let cured = 0;
    for (const { dead, spring, cures } of await curedWith(name, 'twin_tube')) {
      const [best] = cures;
      if (!best) continue;
      cured++;
      expect(works(dead.site, best.corner)).toBe(true);
      const outcome = sweepScenario({ ...withParts(dead, best.corner), setups: [dead.setup] })[0];
      expect(outcome?.axles[dead.axle].tally.spring_cells[spring]?.workable).toBeGreaterThan(0);
    }
    expect(cured).toBeGreaterThan(5);
  });

  test('the short judgement finds what the whole model finds, on a spread of combinations', async () => {
    const scenario = await scenarioOf(name);
    for (const { site, options } of deadOf(scenario)) {
      const count = combinationCount(options);
      for (let index = 0; index < count; index += Math.ceil(count / 200)) {
        const corner = cornerAt(options, index);
        expect(findingsAt(site, corner)).toEqual(findingsOf(cornerState(site, corner)));
      }
    }
  });

  test('no value on half-millimetre steps of any listed combination cures a spring by less', async () => {
    const [{ dead }] = (await curedWith(name, 'twin_tube')) as [Cured];
    const listed = listedIn(dead);
    for (const spring of dead.springs.filter((_, k) => k % 12 === 0)) {
      const { trials, cures } = curesOf(listed, spring);
      for (const change of CHANGES) {
        const cure = cures.find((c) => c.changes.length === 1 && c.changes[0]?.kind === change.kind);
        const amount = cure?.amount ?? Number.POSITIVE_INFINITY;
        if (cure !== undefined) {
          expect(works(dead.site, cure.corner)).toBe(true);
          expect(Math.abs(change.get(cure.corner) - change.get(cure.trial.corner))).toBeCloseTo(amount, 9);
        }
        expect(lessThan(amount, dead, trials, change)).toBeNull();
      }
    }
  });

  test('the closest combination is the one with the least distance of all', async () => {
    const [dead] = deadOf(await scenarioOf(name)) as [Dead];
    const report = finish(whyNot({ ...dead, springs: dead.springs.slice(0, 3) }));
    for (const [k, entry] of report.springs.entries()) {
      const distances = Array.from(
        { length: combinationCount(dead.options) / dead.options.spring.length },
        (_, head) => {
          const corner = cornerAt(dead.options, head * dead.options.spring.length + (dead.springs[k] as number));
          return distanceOf(findingsAt(dead.site, corner));
        },
      );
      expect(entry.distance).toBeCloseTo(Math.min(...distances), 2);
    }
  });
});

/** An amount of a change, on half-millimetre steps, that cures a combination and is less than another; null: none. */
function lessThan(
  amount: number,
  { site }: Dead,
  trials: readonly { readonly corner: Corner }[],
  change: (typeof CHANGES)[number],
): number | null {
  for (const { corner } of trials) {
    const from = change.get(corner);
    const [least, most] = change.limits(corner);
    const first = Math.ceil(Math.max(least, from - amount) / 0.5);
    const last = Math.floor(Math.min(most, from + amount) / 0.5);
    for (let step = first; step <= last; step++) {
      const by = Math.abs(step * 0.5 - from);
      if (by > 0 && by < amount - 1e-9 && works(site, change.set(corner, step * 0.5))) return by;
    }
  }
  return null;
}

test('a cure written into the YAML text makes its spring workable', async () => {
  const [dead] = deadOf(await scenarioOf('hill-hatch')) as [Dead];
  const listed = listedIn(dead);
  const stops = dead.springs.flatMap((spring) => {
    const [cure] = curesOf(listed, spring).cures;
    return cure?.changes.length === 1 && cure.changes[0]?.kind === 'stop' ? [{ spring, to: cure.changes[0].to }] : [];
  });
  expect(stops.length).toBeGreaterThan(0);
  for (const { spring, to } of stops) {
    const after = await scenarioOf('hill-hatch', [['cut_length: [', `cut_length: [${to} mm, `]]);
    expect(sweepScenario(after)[0]?.axles.front.tally.spring_cells[spring]?.workable).toBeGreaterThan(0);
  }
});

test('two changes together are found where single ones fail, and each is needed', async () => {
  // At the mean loads: with a load on each side, coils judged on both, no spring has a cure of two changes.
  const mean: [string, string][] = [
    ['{ left: 408 kg, right: 396 kg }', '402 kg'],
    ['{ left: 314 kg, right: 322 kg }', '318 kg'],
  ];
  const deads = deadOf(await scenarioOf('loaded-estate', mean));
  const pairs = deads.flatMap(curedOf).flatMap(({ dead, cures: [cure] }) => {
    return cure && cure.changes.length === 2 ? [{ dead, cure }] : [];
  });
  expect(pairs.length).toBeGreaterThan(0);
  for (const { dead, cure } of pairs) {
    expect(works(dead.site, cure.corner)).toBe(true);
    for (const { kind, to } of cure.changes) {
      const alone = CHANGES.find((change) => change.kind === kind)?.set(cure.trial.corner, to) as Corner;
      expect(works(dead.site, alone)).toBe(false);
    }
  }
});

test('long option lists are thinned evenly, both ends kept, and the report says how many were looked at', async () => {
  const [dead] = deadOf(await scenarioOf('hill-hatch')) as [Dead];
  const picked = pickedDigits(dead.options, 20);
  expect(picked.reduce((n, digits) => n * digits.length, 1)).toBeLessThanOrEqual(20);
  expect(picked[5]?.[0]).toBe(0);
  expect(picked[5]?.at(-1)).toBe(dead.options.sleeve.length - 1);
  const whole = finish(whyNot({ ...dead, springs: dead.springs.slice(0, 1) }));
  const each = combinationCount(dead.options) / dead.options.spring.length;
  expect([whole.looked_at, whole.combinations]).toEqual([each, each]);
});

test('a helper that only the other axle lists is a cure of its own', async () => {
  const scenario = await scenarioOf('hill-hatch');
  const { rear } = scenario.axles;
  const bareRear = { ...rear, options: { ...rear.options, helper: [null] } };
  const bare: Scenario = { ...scenario, axles: { ...scenario.axles, rear: bareRear } };
  const [, dead] = deadOf(bare) as [Dead, Dead];
  const withHelper = sweepScenario(scenario)[0]?.axles.rear.tally.spring_cells;
  const gained = dead.springs.filter((k) => (withHelper?.[k]?.workable ?? 0) > 0);
  expect(gained.length).toBeGreaterThan(0);
  const otherHelpers = rear.options.helper.filter((helper) => helper !== null);
  const report = finish(whyNot({ ...dead, otherHelpers, springs: gained }));
  for (const { cures } of report.springs) expect(cures.length).toBeGreaterThan(0);
  expect(report.springs.some(({ cures }) => cures[0]?.changes.some((change) => change.kind === 'helper'))).toBe(true);
});

test.each(NAMES)(
  'on single tubes of %s no cure is a groove; on bodies of unknown kind it comes behind all others',
  async (name) => {
    const isGroove = ({ changes }: { changes: readonly { kind: string }[] }) =>
      changes.some(({ kind }) => kind === 'groove');
    for (const { cures } of await curedWith(name, 'single_tube')) expect(cures.filter(isGroove)).toEqual([]);
    const [twin, unknown] = [await curedWith(name, 'twin_tube'), await curedWith(name, 'unknown')];
    for (const [k, { dead, cures }] of unknown.entries()) {
      const first = cures.findIndex(isGroove);
      if (first >= 0) expect(cures.slice(first).every(isGroove)).toBe(true);
      for (const { corner, isLast, ...cure } of cures) {
        expect(isLast).toBe(isGroove(cure));
        expect(works(dead.site, corner)).toBe(true);
      }
      // Asking first loses nothing: whatever a groove alone cures is still told.
      if (twin[k]?.cures.some((cure) => isGroove(cure) && cure.changes.length === 1))
        expect(cures.some(isGroove)).toBe(true);
    }
  },
);

test('a groove that was the smallest cure makes room for a helper or two other changes once the body is unknown', async () => {
  const all = async (body: DamperBody) =>
    (await Promise.all(NAMES.map((name) => curedWith(name, body)))).flat().map(({ cures }) => cures.map(kindsOf));
  const [twin, unknown] = [await all('twin_tube'), await all('unknown')];
  const both = unknown.map((after, k) => [twin[k], after]);
  const moved = both.filter(([before, after]) => before?.[0] === 'groove' && after?.[0] !== 'groove');
  expect(moved.length).toBeGreaterThan(0);
  for (const [, after] of moved) expect(after?.at(-1)).toBe('groove');
});

function kindsOf({ changes }: { changes: readonly { kind: string }[] }): string {
  return changes.map(({ kind }) => kind).join(' + ');
}

test('what a check lacks is rounded in its unit, and null where no amount would do', () => {
  expect(lackOf({ check: 'frequency', shortfall: 0.12345 })).toEqual({
    check: 'frequency',
    shortfall: 0.123,
    unit: 'Hz',
  });
  expect(lackOf({ check: 'perch_low', shortfall: 1.26 })).toEqual({ check: 'perch_low', shortfall: 1.3, unit: 'mm' });
  expect(lackOf({ check: 'coil_bind', shortfall: Number.POSITIVE_INFINITY }).shortfall).toBeNull();
});
