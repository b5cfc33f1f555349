import { expect, test } from 'vitest';
import { auditUnit } from '../../../src/audit/fit/audit.ts';
import { type Cause, type CauseKind, fittedCauses, partCauses } from '../../../src/audit/fit/causes.ts';
import { type MeasuredUnit, unmeasured } from '../../../src/audit/fit/measured.ts';
import type { Corner } from '../../../src/model/corner/site.ts';
import type { AxleName } from '../../../src/model/scenario.ts';
import { SCENARIOS, type ScenarioName } from '../../setup/scenarios.ts';
import { type Chosen, chosen, measuredOn, movedModel, READINGS } from './builds.ts';

const AXLES: readonly AxleName[] = ['front', 'rear'];
const SEEDS = Array.from({ length: 10 }, (_, k) => k + 1);

function audit({ scenario, model, options }: Chosen, unit: MeasuredUnit) {
  return auditUnit(scenario, model, options, unit, READINGS);
}

/** A build with one thing wrong, the rest drawn within tolerance and read within the readings. */
function builtWrong(build: Chosen, cause: Cause, axle: AxleName, seed: number): MeasuredUnit {
  return measuredOn(movedModel(build, cause.model, 7919 * seed, null), axle, 104729 * seed);
}

test.each(SCENARIOS.flatMap((name) => AXLES.map((axle) => [name, axle] as const)))(
  '%s, %s: of 100 clean builds (seeds 1 to 100) at least 95 name nothing',
  async (name, axle) => {
    const build = await chosen(name, axle);
    const clean = Array.from({ length: 100 }, (_, k) => {
      const truth = movedModel(build, build.model, 7919 * (k + 1), null);
      return audit(build, measuredOn(truth, axle, 104729 * (k + 1))).likeliest.verdict;
    });
    expect(clean.filter((verdict) => verdict === 'consistent').length).toBeGreaterThanOrEqual(95);
  },
);

/** Builds with a change to the parts as chosen, where the chosen ones have nothing of the kind to go wrong. */
const BUILDS: readonly (readonly [CauseKind, ScenarioName, AxleName, ((corner: Corner) => Corner) | null])[] = [
  ['stop_uncut', 'hill-hatch', 'front', null],
  ['other_stop', 'loaded-estate', 'rear', null],
  ['sleeve_not_cut', 'hill-hatch', 'front', null],
  ['sleeve_cut_twice', 'hill-hatch', 'front', null],
  ['groove_not_lowered', 'hill-hatch', 'front', (c) => ({ ...c, sleeve: { ...c.sleeve, grooveDrop: 12 } })],
  ['spring_length', 'hill-hatch', 'front', null],
  ['spring_length', 'kit-two-seater', 'rear', null],
  ['spring_rate', 'kit-two-seater', 'front', null],
  ['spring_rate', 'hill-hatch', 'front', null],
  ['helper_missing', 'hill-hatch', 'rear', null],
  [
    'spacer_missing',
    'hill-hatch',
    'rear',
    (c) => ({ ...c, mount: { ...c.mount, spacer: 10, raise: c.mount.raise + 10 } }),
  ],
  ['isolator_missing', 'loaded-estate', 'front', null],
];

test.each(BUILDS)('%s at %s, %s, is the cause that is named, over 10 seeds', async (kind, name, axle, change) => {
  const plain = await chosen(name, axle);
  const model = change ? { site: plain.model.site, corner: change(plain.model.corner) } : plain.model;
  const build: Chosen = { ...plain, model };
  const causes = partCauses(model, build.options).filter((cause) => cause.kind === kind);
  expect(causes.length).toBeGreaterThan(0);
  for (const cause of causes) {
    for (const seed of SEEDS) {
      const { likeliest } = audit(build, builtWrong(build, cause, axle, seed));
      expect([seed, likeliest.verdict]).toEqual([seed, 'cause']);
      if (likeliest.verdict !== 'cause') return;
      expect([likeliest.named.cause.kind, likeliest.named.cause.detail]).toEqual([kind, cause.detail]);
    }
  }
});

test('a spacer under a seat that moves with the rod is told from a wrong mark by nothing, and the tool says so', async () => {
  const build = await chosen('kit-two-seater', 'rear');
  const cause = partCauses(build.model, build.options).find((c) => c.kind === 'spacer_missing');
  const { likeliest } = audit(build, builtWrong(build, cause as Cause, 'rear', 1));
  expect(likeliest.verdict).toBe('several');
  if (likeliest.verdict !== 'several') return;
  expect(likeliest.candidates.map((c) => c.cause.kind)).toEqual(['spacer_missing', 'ride_height_mark']);
});

test('two things wrong at once are not laid on one', async () => {
  const build = await chosen('hill-hatch', 'front');
  const unit = measuredOn(build.model, 'front', 1);
  const wrong = { ...unit, freeLength: (unit.freeLength ?? 0) + 15, sleeveLength: (unit.sleeveLength ?? 0) - 12 };
  const { likeliest, report } = audit(build, wrong);
  expect(likeliest.verdict).toBe('unexplained');
  expect(report.cause.measure).toEqual({ kind: expect.stringMatching(/free_length|sleeve_length/), again: true });
});

test.each(['wheel_load_off', 'sleeve_length_off', 'perch_mark'] as const)(
  '%s is found with its amount',
  async (kind) => {
    const build = await chosen('loaded-estate', 'front');
    const fitted = fittedCauses(build.model).find((c) => c.kind === kind);
    const amount = kind === 'wheel_load_off' ? 45 : 12;
    const wrong = fitted?.at(amount) as Cause;
    const honest = measuredOn(wrong.model, 'front', 3, 0);
    const shifted = (perch: number) => perch + wrong.marks.perch;
    const unit: MeasuredUnit = {
      ...honest,
      lowestPerch: shifted(honest.lowestPerch ?? 0),
      standing: honest.standing.map((s) => ({ ...s, perch: shifted(s.perch) })),
      snugGaps: honest.snugGaps.map((s) => ({ ...s, perch: shifted(s.perch) })),
    };
    const { likeliest } = audit(build, unit);
    expect(likeliest.verdict).toBe('cause');
    if (likeliest.verdict !== 'cause') return;
    expect(likeliest.named.cause.kind).toBe(kind);
    expect(likeliest.named.amount).toBeCloseTo(amount, 0);
  },
);

test('with one gap alone a missing packer is not told from another stop or mark', async () => {
  const plain = await chosen('hill-hatch', 'front');
  const bumpStop = { ...plain.model.corner.bumpStop, packer: 12, packerDiameter: 46 };
  const build: Chosen = { ...plain, model: { ...plain.model, corner: { ...plain.model.corner, bumpStop } } };
  const cause = partCauses(build.model, build.options).find((c) => c.kind === 'packer_missing');
  const { likeliest, report } = audit(build, builtWrong(build, cause as Cause, 'front', 1));
  const kinds = likeliest.ranked.filter((r) => r.chance > 0.001).map((r) => r.cause.kind);
  expect(kinds).toContain('packer_missing');
  expect(report.cause.named).toBeGreaterThan(1);
  // A packer leaves its mark on the gap alone, as a wrong mark would: only looking at the parts tells.
  expect(report.cause.ranked.slice(0, report.cause.named).map((r) => r.kind)).toContain('gap_mark');
});

test('one measurement alone that is far off is the one to make again, where nothing could explain it', async () => {
  const build = await chosen('hill-hatch', 'front');
  const unit = { ...unmeasured('front', null), lowestPerch: 400 };
  const { likeliest } = audit(build, unit);
  expect(likeliest).toMatchObject({ verdict: 'unexplained', measureAgain: 0 });
});

test('one measurement alone is explained by any amount that fits it', async () => {
  const build = await chosen('hill-hatch', 'front');
  const { sprungMass, unsprungMass } = build.model.site;
  const unit = { ...unmeasured('front', null), wheelLoad: sprungMass + unsprungMass + 60 };
  const { likeliest } = audit(build, unit);
  const fitted = likeliest.ranked.find(({ cause }) => cause.kind === 'wheel_load_off');
  expect(fitted?.amount).toBeCloseTo(60, 3);
  expect(fitted?.chance).toBe(1);
});
