import fc from 'fast-check';
import { expect, test } from 'vitest';
import { CORNER_CHECKS } from '../../src/model/corner/checks.ts';
import { geometryOf } from '../../src/model/corner/geometry.ts';
import { combinationCount, cornerAt } from '../../src/model/corner/options.ts';
import { judgedFrequency } from '../../src/model/corner/rates.ts';
import { type Candidate, cornerCriteria } from '../../src/model/corner/score.ts';
import type { Corner, Site, SiteLoad } from '../../src/model/corner/site.ts';
import { cornerState } from '../../src/model/corner/state.ts';
import { heightWindow } from '../../src/model/corner/window.ts';
import { CORNER_CRITERIA, type CriterionName } from '../../src/model/criteria.ts';
import { uncorrectedStress } from '../../src/model/formula/coil.ts';
import type { AxleOptions, Ranking } from '../../src/model/scenario.ts';
import { rootBetween } from '../../src/model/solve.ts';
import { ultimateStrengthOf } from '../../src/model/spring/strength.ts';
import { newColumns } from '../../src/sweep/assembly.ts';
import { sweepBrute } from '../../src/sweep/brute.ts';
import { sweepKernel } from '../../src/sweep/kernel.ts';
import { assemblyCorner, axleLayout } from '../../src/sweep/layout.ts';
import { candidatesOf, mergeInto, PASS, type Tally, totals } from '../../src/sweep/tally.ts';
import { enterAssembly, fillLate, VERDICT } from '../../src/sweep/verdict.ts';
import type { KernelWork } from '../../src/sweep/workspace.ts';
import {
  anySite,
  EVERY_WEIGHT,
  loadState,
  NO_WEIGHT,
  plainCharge,
  plainCorner,
  plainHelper,
  plainIsolator,
  plainSite,
  plainTarget,
  plainWire,
  sidesApart,
  sprung,
  stopCurve,
} from '../setup/corners.ts';
import { between, few, forAny } from '../setup/random.ts';

const base = plainCorner();
const helper = { ...plainHelper, price: 12 };
const charge = { ...plainCharge, gasVolume: 60_000 };
const price = fc.constantFrom(10, 20, 35);

/** Gas that some loads do not outweigh, now and then. */
const push = fc.oneof({ arbitrary: between(0, 400), weight: 12 }, { arbitrary: between(1000, 4000), weight: 1 });

/** Wire diameter at which the force stresses a spring of a bore to a share of its strength, mm. */
function wireStressedTo(share: number, force: number, bore: number): number {
  const excess = (d: number) => uncorrectedStress(force, bore + d, d) - share * ultimateStrengthOf('chrome_silicon', d);
  return rootBetween(excess, 2, 30);
}

/** Options around the plain corner; small lists whose product is judged whole by the scalar model. */
const anyOptions: fc.Arbitrary<AxleOptions> = fc.record({
  damper: few(
    fc
      .record({ out: push, compressed: between(300, 334), charged: fc.boolean() })
      .map(({ out, compressed, charged }) => {
        const gas = { kind: 'linear' as const, outForce: out, inForce: out * 1.2 };
        return { ...base.damper, price: 0, compressed, gas: charged ? { ...charge, chargePressure: out / 150 } : gas };
      }),
    2,
  ),
  mount: few(
    fc
      .record({ raise: between(0, 30), seat: fc.constantFrom('fixed', 'moving'), bore: between(50, 64), price })
      .map((m) => ({ ...base.mount, ...m, bareRaise: Math.min(10, m.raise) })),
    3,
  ),
  isolator: few(fc.constantFrom(null, { ...plainIsolator, price: 5 }), 2),
  bumpStop: few(
    fc
      .record({
        ...{ length: between(28, 60), curve: fc.constantFrom(null, stopCurve), diameter: fc.constantFrom(46, 50, 52) },
      })
      .map((b) => ({ ...base.bumpStop, ...b, price: 9 })),
    2,
  ),
  rodEnd: fc.constant([null]),
  sleeve: few(
    fc
      .record({
        ...{ trim: between(0, 40), outerDiameter: fc.constantFrom(57, 57, 57, 58.5) },
        // Too tight for the damper body, now and then.
        bore: fc.constantFrom(50.5, 50.5, 50.5, 50.5, 49.5),
        ...{ ledgeHeight: fc.constantFrom(150, 160, 195), price },
      })
      .map((s) => ({ ...base.sleeve, ...s })),
    5,
  ),
  perch: few(
    fc
      .record({ engagement: fc.constantFrom(4, 8), height: between(8, 20), inset: fc.constantFrom(0, 0, 0, 0, 42) })
      .map((p) => ({ ...base.perch, ...p, price: 7 })),
    2,
  ),
  helper: few(fc.constantFrom(null, helper, null, helper, { ...helper, name: 'long', freeLength: 190, rate: 45 }), 2),
  spring: few(
    fc
      .record({
        ...{ freeLength: between(170, 280), rate: fc.constantFrom(28, 34, 38, 44, 52), share: between(0.3, 0.42) },
        ...{ bore: fc.constantFrom(60, 60, 60, 60, 58), stressShare: between(0.48, 0.58) },
        wire: fc.constantFrom('judged', 'judged', 'material taken', 'estimated'),
        price,
      })
      .map((s) => {
        const solid = s.freeLength * s.share;
        const diameter = wireStressedTo(s.stressShare, s.rate * (s.freeLength - solid), s.bore);
        const known = { materialGiven: s.wire !== 'material taken', estimated: s.wire === 'estimated' };
        const wire = { ...plainWire, diameter, activeCoils: 6, totalCoils: 8, ...known };
        return { ...base.spring, ...s, solid: { ...base.spring.solid, height: solid, least: solid }, wire };
      }),
    8,
  ),
});

const anyRanking: fc.Arbitrary<Ranking> = fc
  .record({ keep: fc.integer({ min: 1, max: 4 }), priced: fc.boolean(), clearance: fc.boolean(), covered: fc.nat(3) })
  .map(({ keep, priced, clearance, covered }) => {
    const counted = { price: priced ? 1 : 0, clearance: clearance ? 1 : 0, height_coverage: covered > 0 ? 2 : 0 };
    const weights = { ...EVERY_WEIGHT, bump_travel: 3, balance: 2, ...counted };
    return { weights, price: priced ? { good: 100, worst: 600 } : null, goodClearance: clearance ? 12 : null, keep };
  });

/** Sites that let a fair share of the combinations work. */
const kindSite: fc.Arbitrary<Site> = fc
  .tuple(
    anySite,
    fc.constantFrom(22, 22, 22, 22, 0),
    fc.constantFrom(0, 0, 0, 0, 0, 0, 300),
    fc.constantFrom(0, 120),
    fc.record({
      frequency: fc.constantFrom([1.2, 2.6], [1.5, 1.8], [1.7, 2.0], [1.9, 2.2]),
      slope: fc.constantFrom(0, 3e-3, -3e-3),
      coilBind: fc.constantFrom(
        { kind: 'fixed' as const, value: 6 },
        { kind: 'default' as const, lowered: 0 },
        { kind: 'en_13906' as const, lowered: 0 },
      ),
    }),
  )
  .map(([site, wanted, beyond, more, { frequency, slope, coilBind }]) => {
    const { targetHeight } = site.target;
    const [frequencyFrom = 0, frequencyTo = 0] = frequency;
    const middle = targetHeight + beyond;
    // Loads that close a stop on which the car may stand.
    const loaded = (load: SiteLoad) => loadState(load.name, load.sprungMass + (site.standingOnStop ? more : 0));
    return {
      ...{ ...site, tyreOnArchHeight: 235, margins: { ...site.margins, coilBind } },
      motion: { ...site.motion, ratioSlope: site.motion.ratioSlope + slope },
      loads: site.loads.slice(0, 1).map(loaded),
      target: {
        ...{ ...plainTarget, targetHeight, wantedFrom: middle - wanted / 2, wantedTo: middle + wanted / 2 },
        ...{
          leastBumpTravel: site.standingOnStop ? -25 : 15,
          leastDroopTravel: site.standingOnStop ? 60 : 20,
          allowedSlack: 12,
        },
        ...{ wantedFrequency: 1.8, frequencyFrom, frequencyTo },
      },
    };
  });

function comparable(tally: Tally) {
  return {
    cells: [...tally.cells],
    frequencies: [...tally.frequencies].sort((a, b) => a[0] - b[0]),
    candidates: candidatesOf(tally),
  };
}

test('counts, best candidates and ties are those of judging every combination by the scalar model', () => {
  const done: KernelWork = { blocks: 0, runs: 0, single: 0, scored: 0 };
  let passed = 0;
  const told = new Set<CriterionName>();
  const fallen = new Map(CORNER_CHECKS.map((check) => [check, 0]));
  const ended = { overstressed: 0, frequency_from: 0, frequency_to: 0 };
  forAny([kindSite, anyOptions, anyRanking, fc.boolean()], 400, (site, options, ranking, closed) => {
    const kind: Site = closed ? { ...site, bump: { kind: 'closed' }, loads: [] } : site;
    const layout = axleLayout(kind, options, ranking);
    const { tally, work } = sweepKernel(layout, 0, layout.assemblies);
    const judge = sweepBrute(layout, 0, combinationCount(options));
    expect(comparable(tally)).toEqual(comparable(judge));
    for (const key of ['blocks', 'runs', 'single', 'scored'] as const) done[key] += work[key];
    const counts = totals(tally);
    passed += counts[PASS] ?? 0;
    for (const [check, sum] of fallen) fallen.set(check, sum + (counts[VERDICT[check]] ?? 0));
    for (const { index } of candidatesOf(judge)) {
      const state = cornerState(kind, cornerAt(options, index));
      const window = heightWindow(state);
      for (const { criterion, desirability } of cornerCriteria({ state, window }, ranking)) {
        if (desirability > 0 && desirability < 1) told.add(criterion);
      }
      const ends = [window?.low.limit, window?.high.limit];
      for (const limit of Object.keys(ended) as (keyof typeof ended)[]) if (ends.includes(limit)) ended[limit]++;
    }
  });
  // Every path of the kernel ran, and much of what it counted was workable.
  expect(Math.min(done.blocks, done.runs, done.single, done.scored)).toBeGreaterThan(300);
  expect(passed).toBeGreaterThan(200);
  // Each criterion of a corner took something away.
  expect([...told].sort()).toEqual([...CORNER_CRITERIA].sort());
  // Every check of a corner was the verdict on some, so none is left out of the kernel unseen.
  expect([...fallen].filter(([, sum]) => sum === 0)).toEqual([]);
  // Stress and frequency ended windows of what was kept, so that its score and its bounds went by them.
  expect(Math.min(...Object.values(ended))).toBeGreaterThan(0);
});

/** A bump load that presses the two sides apart, so that metal meets on one of them alone. */
const sidedSite: fc.Arbitrary<Site> = fc
  .record({ site: kindSite, apart: between(50, 130), multiple: between(1.5, 2.5) })
  .map(({ site, apart, multiple }) => {
    const pressed: Site = { ...site, bump: { kind: 'load', multiple }, standingOnStop: false };
    return { ...pressed, sides: sidesApart(pressed, apart) };
  });

/** Cars that stand on their stops, some loads closing them; proud sleeves are met by some stops before the body is. */
const onStopSite: fc.Arbitrary<Site> = fc
  .record({ site: kindSite, height: between(262, 292), extra: between(20, 320), driver: between(-30, 30) })
  .map(({ site, height, extra, driver }) => {
    return {
      ...site,
      standingOnStop: true,
      loads: [loadState('luggage', site.sprungMass + extra), loadState('driver', site.sprungMass + driver)],
      heaviestLoad: sprung(site.sprungMass + extra).sprungLoad,
      target: { ...site.target, targetHeight: height, leastBumpTravel: -60, allowedSlack: 60 },
    };
  });

test('metal on one side alone, and loads that close the stop the car stands on, are those of the scalar model', () => {
  const sprung = {
    ...stopCurve,
    points: stopCurve.points.map(({ squeeze, force }) => ({ squeeze, force: force / 2 })),
  };
  const options = anyOptions.map((some) => ({
    ...some,
    bumpStop: some.bumpStop.map((stop) => ({ ...stop, curve: sprung })),
    damper: some.damper.map((damper) => ({ ...damper, compressed: damper.compressed + 12 })),
  }));
  forAny([fc.oneof(sidedSite, onStopSite), options, anyRanking], 200, (site, some, ranking) => {
    const layout = axleLayout(site, some, ranking);
    const judge = sweepBrute(layout, 0, combinationCount(some));
    expect(comparable(sweepKernel(layout, 0, layout.assemblies).tally)).toEqual(comparable(judge));
  });
});

test('above a floor the candidates are those of judging everything, and less is scored for it', () => {
  const scored = { whole: 0, above: 0 };
  const kept = { all: 0, some: 0 };
  const anyFloor = fc.record({ rank: between(0, 0.8), slope: between(0, 0.5) });
  forAny([kindSite, anyOptions, anyRanking, anyFloor], 120, (site, options, ranking, { rank, slope }) => {
    const layout = axleLayout(site, options, ranking);
    const all = candidatesOf(sweepBrute(layout, 0, combinationCount(options)));
    const anywhere = all[Math.floor(rank * all.length)]?.logScore ?? -1;
    const at = (frequency: number) => anywhere + slope * Math.abs(frequency - 1.8);
    const { tally, work } = sweepKernel({ ...layout, floor: { anywhere, at } }, 0, layout.assemblies);
    const found = candidatesOf(tally);
    const sought = ({ frequency, logScore }: Candidate) => logScore >= at(frequency);
    expect(found.filter(sought)).toEqual(all.filter(sought));
    scored.above += work.scored;
    scored.whole += sweepKernel(layout, 0, layout.assemblies).work.scored;
    kept.all += all.length;
    kept.some += found.length;
  });
  expect(scored.above).toBeLessThan(scored.whole);
  expect(Math.min(kept.some, kept.all - kept.some)).toBeGreaterThan(5);
});

test('parts of the range merge to the whole, whichever way it is cut and in any order', () => {
  forAny([kindSite, anyOptions, anyRanking, fc.integer({ min: 1, max: 5 })], 60, (site, options, ranking, size) => {
    const layout = axleLayout(site, options, ranking);
    const whole = sweepKernel(layout, 0, layout.assemblies).tally;
    const starts = Array.from({ length: Math.ceil(layout.assemblies / size) }, (_, k) => k * size);
    const parts = starts
      .map((from) => sweepKernel(layout, from, Math.min(layout.assemblies, from + size)).tally)
      .reverse();
    const merged = parts.reduce((sum, part) => {
      mergeInto(sum, part);
      return sum;
    });
    expect(comparable(merged)).toEqual(comparable(whole));
  });
});

const plainOptions = Object.fromEntries(
  Object.entries(base).map(([family, part]) => [family, [part]]),
) as unknown as AxleOptions;
const plainRanking: Ranking = {
  weights: { ...NO_WEIGHT, bump_travel: 1, height_coverage: 1, balance: 1 },
  price: null,
  goodClearance: null,
  keep: 2,
};

test('where everything works, all is counted in runs and only what can be kept is scored', () => {
  const site = plainSite({
    tyreOnArchHeight: 200,
    target: { leastBumpTravel: 5, leastDroopTravel: 5, allowedSlack: 30 },
  });
  const options: AxleOptions = {
    ...plainOptions,
    sleeve: Array.from({ length: 30 }, (_, k) => ({ ...base.sleeve, trim: 15 + k / 5 })),
    perch: [{ ...base.perch, engagement: 30 }],
    spring: Array.from({ length: 40 }, (_, k) => ({ ...base.spring, rate: 40 + k / 10 })),
  };
  const { tally, work } = sweepKernel(axleLayout(site, options, plainRanking), 0, 1);
  expect(totals(tally)[PASS]).toBe(1200);
  expect(work).toMatchObject({ blocks: 0, runs: 1200, single: 0 });
  expect(work.scored).toBeLessThan(300);
});

test('a main spring that goes solid before its helper leaves the helper’s rate, as in the scalar model', () => {
  // 5 mm at 38 N/mm close the main spring by 190 N; 138 mm at 40 N/mm of helper stay open under the car.
  const stiff = { ...helper, freeLength: 150, rate: 40 };
  const solid = { ...base.spring, freeLength: 100, solid: { ...base.spring.solid, height: 95, least: 95 } };
  const options = { ...plainOptions, helper: [stiff], spring: [solid] };
  const layout = axleLayout(plainSite({ tyreOnArchHeight: 200 }), options, plainRanking);
  expect(layout.stacks.mainTravel[0]).toBeLessThan(10);
  expect(comparable(sweepKernel(layout, 0, 1).tally)).toEqual(comparable(sweepBrute(layout, 0, 1)));
  // The column itself, whatever check the corner falls at.
  const columns = newColumns(1);
  const corner = assemblyCorner(layout, 0);
  const assembly = enterAssembly(layout, columns, corner, geometryOf(layout.site, corner));
  fillLate(layout, columns, assembly, base.perch.engagement);
  expect(columns.frequency[0]).toBe(judgedFrequency(cornerState(layout.site, corner)));
});

test('a height that only vibrating gas would hold is counted as unstable, as in the scalar model', () => {
  // A ratio that grows with droop: springs from too soft to stiff enough, with those between that gas decides.
  const options = {
    ...plainOptions,
    damper: [{ ...base.damper, gas: { ...charge, chargePressure: 2 } }],
    spring: Array.from({ length: 200 }, (_, k) => ({ ...base.spring, rate: 36 + k / 50, freeLength: 230 })),
  };
  const gasDamper = options.damper[0] as Corner['damper'];
  const flat = { ...plainSite().motion, ratioSlope: 0 };
  const { standing, rates } = cornerState(plainSite({ motion: flat }), plainCorner({ damper: gasDamper }), 335);
  const ratioSlope = ((38 + rates.gas) * standing.motionRatio ** 2) / standing.axialForce;
  const motion = { ...flat, ratioSlope };
  const least = { leastBumpTravel: 5, leastDroopTravel: 5 };
  const target = { ...least, targetHeight: 335, allowedSlack: 60, frequencyFrom: 0.01 };
  const site = plainSite({ motion, tyreOnArchHeight: 200, target });
  const layout = axleLayout(site, options, plainRanking);
  const found = comparable(sweepKernel(layout, 0, 1).tally);
  expect(found).toEqual(comparable(sweepBrute(layout, 0, 200)));
  const between = options.spring.filter((spring) => {
    const { rates } = cornerState(site, { ...assemblyCorner(layout, 0), spring, sleeve: base.sleeve });
    return rates.wheel > 0 && rates.settledWheel <= 0;
  });
  expect(between.length).toBeGreaterThan(5);
});

test('a corner that fails at bump or droop travel alone is counted there, as in the scalar model', () => {
  const travel = { leastBumpTravel: 5, leastDroopTravel: 5, allowedSlack: 30 };
  const verdictWith = (least: object) => {
    const site = plainSite({ tyreOnArchHeight: 200, target: { ...travel, ...least } });
    const layout = axleLayout(site, plainOptions, plainRanking);
    const { tally } = sweepKernel(layout, 0, 1);
    expect(comparable(tally)).toEqual(comparable(sweepBrute(layout, 0, 1)));
    return totals(tally).indexOf(1);
  };
  expect(verdictWith({})).not.toBe(VERDICT.droop_travel);
  expect(verdictWith({ leastDroopTravel: 500 })).toBe(VERDICT.droop_travel);
  expect(verdictWith({ leastBumpTravel: 500 })).toBe(VERDICT.bump_travel);
});
