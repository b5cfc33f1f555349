/** Invented scenarios with two or three setups, small enough to form every plan. */
import fc from 'fast-check';
import type { Axle, AxleOptions, AxleTarget, Ranking, Scenario, Setup } from '../../src/model/scenario.ts';
import {
  bentPairs,
  EVERY_WEIGHT,
  plainAxle,
  plainCorner,
  plainHelper,
  plainIsolator,
  plainSite,
  plainTarget,
  stopCurve,
} from './corners.ts';
import { few } from './random.ts';

const base = plainCorner();

// Few distinct values, so that equal scores happen often.
const price = fc.constantFrom(10, 20, 35);

export const smallOptions: fc.Arbitrary<AxleOptions> = fc.record({
  damper: fc.constant([{ ...base.damper, price: 0 }]),
  mount: few(
    fc.record({ raise: fc.constantFrom(6, 12, 20), price }).map((m) => ({ ...base.mount, ...m, bareRaise: 6 })),
    2,
  ),
  isolator: few(fc.constantFrom(null, { ...plainIsolator, price: 5 }), 2),
  bumpStop: few(
    fc
      .record({
        length: fc.constantFrom(30, 38, 46),
        curve: fc.constantFrom(null, stopCurve),
        // Too wide for a sleeve that stands proud, or for the isolator, now and then.
        diameter: fc.constantFrom(46, 46, 46, 46, 55, 58),
      })
      .map((b) => ({ ...base.bumpStop, ...b, price: 9 })),
    2,
  ),
  rodEnd: fc.constant([null]),
  sleeve: few(
    fc
      .record({
        trim: fc.constantFrom(0, 10, 20, 21, 35),
        ledgeHeight: fc.constantFrom(150, 150, 160, 160, 195),
        outerDiameter: fc.constantFrom(57, 57, 57, 58.5, 58.5, 60.5),
        // Too tight for the damper body, now and then.
        bore: fc.constantFrom(50.5, 50.5, 50.5, 50.5, 50.5, 49.5),
        price,
      })
      .map((s) => ({ ...base.sleeve, ...s })),
    3,
  ),
  perch: few(
    fc
      .record({ engagement: fc.constantFrom(4, 8), inset: fc.constantFrom(0, 0, 0, 42) })
      .map((p) => ({ ...base.perch, ...p, price: 7 })),
    2,
  ),
  helper: few(fc.constantFrom(null, { ...plainHelper, price: 12 }), 2),
  spring: few(
    fc
      .record({ freeLength: fc.constantFrom(210, 220, 235, 250), rate: fc.constantFrom(32, 38, 44), price })
      .map((s) => ({ ...base.spring, ...s })),
    4,
  ),
});

const partlyUnpriced = (options: AxleOptions): AxleOptions => ({
  ...options,
  mount: options.mount.map((mount) => ({ ...mount, price: null })),
  sleeve: options.sleeve.map((sleeve) => ({ ...sleeve, price: null })),
});

const axleOf = (options: AxleOptions): Axle => {
  return {
    ...plainAxle,
    wheelLoad: plainSite().sprungMass + plainAxle.unsprungMass,
    wheelLoads: null,
    motion: { pairs: bentPairs(0.945, -1e-4), ratio: null },
    tyreOnArchHeight: 235,
    roll: null,
    options,
  };
};

const target: fc.Arbitrary<AxleTarget> = fc
  .record({ height: fc.constantFrom(326, 332, 338), wanted: fc.constantFrom(null, 1.8), good: fc.constantFrom(45, 60) })
  .map(({ height, wanted, good }) => ({
    ...plainTarget,
    targetHeight: height,
    wantedFrom: height - 8,
    wantedTo: height + 8,
    leastBumpTravel: 12,
    goodBumpTravel: good,
    leastDroopTravel: 15,
    wantedFrequency: wanted,
    allowedSlack: 12,
  }));

const setup = (name: string): fc.Arbitrary<Setup> =>
  fc
    .record({
      front: target,
      rear: target,
      balance: fc.constantFrom<Setup['balance']>(
        { target: 1, from: 0.85, to: 1.2 },
        { target: 1.05, from: 1, to: 1.1 },
        { target: 1.05, from: 1, to: 1.1, limits: { from: 0.9, to: 1.3 } },
      ),
      multiple: fc.constantFrom(null, null, 3),
      extra: fc.constantFrom(null, null, 20),
    })
    .map(({ front, rear, balance, multiple, extra }) => ({
      name,
      axles: { front, rear },
      balance,
      bump: multiple === null ? { kind: 'closed' as const } : { kind: 'load' as const, multiple },
      standingOnStop: false,
      frequencyBasis: 'body' as const,
      loadStates: extra === null ? [] : [{ name: 'two up', extra: { front: extra, rear: extra } }],
      loadCases: [],
    }));

const ranking: fc.Arbitrary<Ranking> = fc
  .record({
    worst: fc.constantFrom(null, null, 420, 900),
    weighed: fc.constantFrom(true, true, false),
    clearance: fc.boolean(),
  })
  .map(({ worst, weighed, clearance }) => ({
    weights: {
      ...EVERY_WEIGHT,
      bump_travel: 3,
      height_coverage: 2,
      balance: 2,
      price: worst === null || !weighed ? 0 : 1,
      clearance: clearance ? 1 : 0,
    },
    price: worst === null ? null : { good: 100, worst },
    goodClearance: clearance ? 12 : null,
    keep: 3,
  }));

export const smallScenario: fc.Arbitrary<Scenario> = fc
  .record({
    front: smallOptions,
    rear: smallOptions,
    setups: fc
      .constantFrom(2, 2, 3)
      .chain((count) => fc.tuple(...['low', 'street', 'tour'].slice(0, count).map(setup))),
    ranking,
  })
  .map(({ front, rear, setups, ranking: ranked }) => {
    const margins = plainSite().margins;
    // Only a price that weighs something needs the price of every part.
    const sold = (options: AxleOptions) => (ranked.weights.price > 0 ? options : partlyUnpriced(options));
    const axles = { front: axleOf(sold(front)), rear: axleOf(sold(rear)) };
    // Fields that sweeping does not read are left out.
    return { name: 'small', axles, setups, margins, ranking: ranked } as unknown as Scenario;
  });
