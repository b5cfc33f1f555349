import fc from 'fast-check';
import { expect, test } from 'vitest';
import { judgedFrequency } from '../../src/domain/corner/findings.ts';
import { geometryOf } from '../../src/domain/corner/geometry.ts';
import type { Corner, Site, SiteLoad } from '../../src/domain/corner/site.ts';
import { cornerState } from '../../src/domain/corner/state.ts';
import { heightWindow } from '../../src/domain/corner/window.ts';
import { uncorrectedStress } from '../../src/domain/formula/coil.ts';
import { ultimateStrengthOf } from '../../src/domain/materials.ts';
import type { AxleOptions, Ranking } from '../../src/domain/scenario.ts';
import { rootBetween } from '../../src/domain/solve.ts';
import { sweepBrute } from '../../src/sweep/brute.ts';
import type { KernelWork } from '../../src/sweep/desk.ts';
import { enterHead, fillLate, headRoom } from '../../src/sweep/head.ts';
import { sweepKernel } from '../../src/sweep/kernel.ts';
import { axleLayout, headCorner } from '../../src/sweep/layout.ts';
import { combinationCount, cornerAt } from '../../src/sweep/options.ts';
import { candidatesOf, mergeInto, PASS, type Tally, totals } from '../../src/sweep/tally.ts';
import { anySite, plainCorner, plainSite, plainTarget, sidesApart, stopCurve } from '../setup/corners.ts';

const base = plainCorner();
const helper = {
  ...{ name: 'h', price: 12, freeLength: 50, blockHeight: 12, rate: 3 },
  bore: 60,
  coupler: 4,
  couplerBore: 60,
};
const charge = { kind: 'charge' as const, rodArea: 150, gasVolume: 60_000 };
type Fc<T> = fc.Arbitrary<T>;
const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const few = <T>(one: fc.Arbitrary<T>, most: number) => fc.array(one, { minLength: 1, maxLength: most });
const price = fc.constantFrom(10, 20, 35);

/** Gas that some loads do not outweigh, now and then. */
const push = fc.oneof({ arbitrary: number(0, 400), weight: 12 }, { arbitrary: number(1000, 4000), weight: 1 });

/** Wire diameter at which the force stresses a spring of a bore to a share of its strength, mm. */
function wireStressedTo(share: number, force: number, bore: number): number {
  const excess = (d: number) => uncorrectedStress(force, bore + d, d) - share * ultimateStrengthOf('chrome_silicon', d);
  return rootBetween(excess, 2, 30);
}

/** Options around the plain corner; small lists whose product is judged whole by the scalar model. */
const anyOptions: fc.Arbitrary<AxleOptions> = fc.record({
  damper: few(
    fc
      .record({ out: push, compressed: number(300, 334), charged: fc.boolean() })
      .map(({ out, compressed, charged }) => {
        const gas = { kind: 'linear' as const, outForce: out, inForce: out * 1.2 };
        return { ...base.damper, price: 0, compressed, gas: charged ? { ...charge, chargePressure: out / 150 } : gas };
      }),
    2,
  ),
  mount: few(
    fc
      .record({
        raise: number(0, 30),
        seat: fc.constantFrom('fixed' as const, 'moving' as const),
        bore: number(50, 64),
        price,
      })
      .map((m) => {
        return { ...base.mount, ...m, bareRaise: Math.min(10, m.raise) };
      }),
    3,
  ),
  isolator: few(fc.constantFrom(null, { name: 'isolator', price: 5, thickness: 6, bore: 56, spigot: 0 }), 2),
  bumpStop: few(
    fc
      .record({
        length: number(28, 60),
        curve: fc.constantFrom(null, stopCurve),
        diameter: fc.constantFrom(46, 50, 52),
      })
      .map((b) => {
        return { ...base.bumpStop, ...b, price: 9 };
      }),
    2,
  ),
  rodEnd: fc.constant([null]),
  sleeve: few(
    fc
      .record({
        trim: number(0, 40),
        outerDiameter: fc.constantFrom(57, 57, 57, 58.5),
        // Too tight for the damper body, now and then.
        bore: fc.constantFrom(50.5, 50.5, 50.5, 50.5, 49.5),
        ledgeHeight: fc.constantFrom(150, 160, 195),
        price,
      })
      .map((s) => {
        return { ...base.sleeve, ...s };
      }),
    5,
  ),
  perch: few(
    fc
      .record({ engagement: fc.constantFrom(4, 8), height: number(8, 20), inset: fc.constantFrom(0, 0, 0, 0, 42) })
      .map((p) => ({ ...base.perch, ...p, price: 7 })),
    2,
  ),
  helper: few(fc.constantFrom(null, helper, null, helper, { ...helper, name: 'long', freeLength: 190, rate: 45 }), 2),
  spring: few(
    fc
      .record({
        freeLength: number(170, 280),
        rate: fc.constantFrom(28, 34, 38, 44, 52),
        share: number(0.3, 0.42),
        bore: fc.constantFrom(60, 60, 60, 60, 58),
        stressShare: number(0.48, 0.58),
        wire: fc.constantFrom('judged' as const, 'judged' as const, 'material taken' as const, 'estimated' as const),
        price,
      })
      .map((s) => {
        const solid = s.freeLength * s.share;
        return {
          ...base.spring,
          ...s,
          solid: { ...base.spring.solid, height: solid, least: solid },
          wire: {
            ...{ diameter: wireStressedTo(s.stressShare, s.rate * (s.freeLength - solid), s.bore) },
            ...{ activeCoils: 6, totalCoils: 8, material: 'chrome_silicon' },
            ...{ materialGiven: s.wire !== 'material taken', estimated: s.wire === 'estimated' },
          },
        };
      }),
    8,
  ),
});

const anyRanking: fc.Arbitrary<Ranking> = fc
  .record({ keep: fc.integer({ min: 1, max: 4 }), priced: fc.boolean(), clearance: fc.boolean() })
  .map(({ keep, priced, clearance }) => ({
    weights: {
      bump_travel: 3,
      height_coverage: 2,
      balance: 2,
      front_frequency: 1,
      price: priced ? 1 : 0,
      clearance: clearance ? 1 : 0,
    },
    price: priced ? { good: 100, worst: 600 } : null,
    goodClearance: clearance ? 12 : null,
    keep,
  }));

/** Loads that close a stop on which the car may stand. */
function heavier<T extends Pick<SiteLoad, 'sprungMass'>>(load: T, kilograms: number) {
  const sprungMass = load.sprungMass + kilograms;
  return { sprungMass, sprungLoad: sprungMass * 9.80665 };
}

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
  .map(
    ([
      site,
      wanted,
      beyond,
      more,
      {
        frequency: [from = 0, to = 0],
        slope,
        coilBind,
      },
    ]) => ({
      ...site,
      tyreOnArchHeight: 235,
      margins: { ...site.margins, coilBind },
      motion: { ...site.motion, ratioSlope: site.motion.ratioSlope + slope },
      loads: site.loads.slice(0, 1).map((load) => ({ ...load, ...heavier(load, site.standingOnStop ? more : 0) })),
      target: {
        ...plainTarget,
        targetHeight: site.target.targetHeight,
        wantedFrom: site.target.targetHeight + beyond - wanted / 2,
        wantedTo: site.target.targetHeight + beyond + wanted / 2,
        leastBumpTravel: site.standingOnStop ? -25 : 15,
        leastDroopTravel: 20,
        allowedSlack: 12,
        wantedFrequency: 1.8,
        frequencyFrom: from,
        frequencyTo: to,
      },
    }),
  );

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
  const ended = { overstressed: 0, frequency_from: 0, frequency_to: 0 };
  fc.assert(
    fc.property(kindSite, anyOptions, anyRanking, fc.boolean(), (site, options, ranking, closed) => {
      const kind: Site = closed ? { ...site, bump: { kind: 'closed' }, loads: [] } : site;
      const layout = axleLayout(kind, options, ranking);
      const { tally, work } = sweepKernel(layout, 0, layout.heads);
      const judge = sweepBrute(layout, 0, combinationCount(options));
      expect(comparable(tally)).toEqual(comparable(judge));
      for (const key of ['blocks', 'runs', 'single', 'scored'] as const) done[key] += work[key];
      passed += totals(tally)[PASS] ?? 0;
      for (const { index } of candidatesOf(judge)) {
        const window = heightWindow(cornerState(kind, cornerAt(options, index)));
        const ends = [window?.low.limit, window?.high.limit];
        for (const limit of Object.keys(ended) as (keyof typeof ended)[]) if (ends.includes(limit)) ended[limit]++;
      }
    }),
    { numRuns: 400 },
  );
  // Every path of the kernel ran, and much of what it counted was workable.
  expect(Math.min(done.blocks, done.runs, done.single, done.scored)).toBeGreaterThan(300);
  expect(passed).toBeGreaterThan(200);
  // Stress and frequency ended windows of what was kept, so that its score and its bounds went by them.
  expect(Math.min(...Object.values(ended))).toBeGreaterThan(0);
});

/** A bump load that presses the two sides apart, so that metal meets on one of them alone. */
const sidedSite: Fc<Site> = fc
  .record({ site: kindSite, apart: number(50, 130), multiple: number(1.5, 2.5) })
  .map(({ site, apart, multiple }) => {
    const pressed: Site = { ...site, bump: { kind: 'load', multiple }, standingOnStop: false };
    return { ...pressed, sides: sidesApart(pressed, apart) };
  });

/** Cars that stand on their stops, some loads closing them; proud sleeves are met by some stops before the body is. */
const onStopSite: Fc<Site> = fc
  .record({ site: kindSite, height: number(262, 292), extra: number(20, 320), driver: number(-30, 30) })
  .map(({ site, height, extra, driver }) => {
    const load = (name: string, kilograms: number) => ({ name, ...heavier(site, kilograms) });
    return {
      ...site,
      standingOnStop: true,
      loads: [load('luggage', extra), load('driver', driver)],
      heaviestLoad: heavier(site, extra).sprungLoad,
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
  fc.assert(
    fc.property(fc.oneof(sidedSite, onStopSite), options, anyRanking, (site, some, ranking) => {
      const layout = axleLayout(site, some, ranking);
      const judge = sweepBrute(layout, 0, combinationCount(some));
      expect(comparable(sweepKernel(layout, 0, layout.heads).tally)).toEqual(comparable(judge));
    }),
    { numRuns: 200 },
  );
});

test('parts of the range merge to the whole, whichever way it is cut and in any order', () => {
  fc.assert(
    fc.property(kindSite, anyOptions, anyRanking, fc.integer({ min: 1, max: 5 }), (site, options, ranking, size) => {
      const layout = axleLayout(site, options, ranking);
      const whole = sweepKernel(layout, 0, layout.heads).tally;
      const starts = Array.from({ length: Math.ceil(layout.heads / size) }, (_, k) => k * size);
      const parts = starts
        .map((from) => sweepKernel(layout, from, Math.min(layout.heads, from + size)).tally)
        .reverse();
      const merged = parts.reduce((sum, part) => {
        mergeInto(sum, part);
        return sum;
      });
      expect(comparable(merged)).toEqual(comparable(whole));
    }),
    { numRuns: 60 },
  );
});

const plainOptions: AxleOptions = {
  damper: [base.damper],
  mount: [base.mount],
  isolator: [base.isolator],
  bumpStop: [base.bumpStop],
  rodEnd: [null],
  sleeve: [base.sleeve],
  perch: [base.perch],
  helper: [null],
  spring: [base.spring],
};
const plainRanking: Ranking = {
  weights: { bump_travel: 1, height_coverage: 1, balance: 1, front_frequency: 0, price: 0, clearance: 0 },
  price: null,
  goodClearance: null,
  keep: 2,
};

test('where everything works, all is counted in runs and only what can be kept is scored', () => {
  const site = plainSite({
    tyreOnArchHeight: 200,
    target: { ...plainTarget, leastBumpTravel: 5, leastDroopTravel: 5, allowedSlack: 30 },
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
  const room = headRoom(1);
  const corner = headCorner(layout, 0);
  const head = enterHead(layout, room, corner, geometryOf(layout.site, corner));
  fillLate(layout, room, head, base.perch.engagement);
  expect(room.frequency[0]).toBe(judgedFrequency(cornerState(layout.site, corner)));
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
  const target = {
    ...plainTarget,
    targetHeight: 335,
    leastBumpTravel: 5,
    leastDroopTravel: 5,
    allowedSlack: 60,
    frequencyFrom: 0.01,
  };
  const site = plainSite({ motion, tyreOnArchHeight: 200, target });
  const layout = axleLayout(site, options, plainRanking);
  const found = comparable(sweepKernel(layout, 0, 1).tally);
  expect(found).toEqual(comparable(sweepBrute(layout, 0, 200)));
  const between = options.spring.filter((spring) => {
    const { rates } = cornerState(site, { ...headCorner(layout, 0), spring, sleeve: base.sleeve });
    return rates.wheel > 0 && rates.settledWheel <= 0;
  });
  expect(between.length).toBeGreaterThan(5);
});
