/** Invented corners for tests of the model: a plain one to vary, and random ones for properties. */
import fc from 'fast-check';
import type { Corner, Site, SiteSide } from '../../src/model/corner/site.ts';
import { CRITERION_NAMES, type CriterionName } from '../../src/model/criteria.ts';
import { motionCurve } from '../../src/model/motion.ts';
import type { Helper, Isolator, RodEnd, SolidHeight, Spring, WireData } from '../../src/model/parts.ts';
import type { AxleTarget, Margins, Scenario, Setup, Tolerances } from '../../src/model/scenario.ts';
import { type JudgedPair, workingOf } from '../../src/result/records/combination.ts';
import { between } from './random.ts';

type PartChange<P> = P extends Spring
  ? Partial<Omit<Spring, 'solid'>> & { readonly solid?: Partial<SolidHeight> }
  : Partial<P>;
/** What of each part differs from the plain corner's; null leaves out a part that a corner may lack. */
export type CornerChange = {
  readonly [F in keyof Corner]?: PartChange<NonNullable<Corner[F]>> | Extract<Corner[F], null> | undefined;
};
export type SiteChange = Partial<Omit<Site, 'target' | 'margins'>> & {
  readonly target?: Partial<AxleTarget>;
  readonly margins?: Partial<Margins>;
};

/** 38 mm of travel, closed by 114 N. */
export const plainHelper: Helper = {
  ...{ name: 'h', price: null, freeLength: 50, blockHeight: 12, rate: 3, bore: 60, coupler: 4, couplerBore: 60 },
};

export const plainIsolator: Isolator = { name: 'isolator', price: null, thickness: 6, bore: 56, spigot: 0 };

export const plainRodEnd: RodEnd = {
  ...{ name: 'rod end', price: null, threadStart: 28, threadEnd: 62, plateThickness: 4, upperBush: 12 },
  ...{ upperWashers: 3, nut: 8, jamNut: 6 },
};

export const plainWire: WireData = {
  ...{ diameter: 9, activeCoils: 5.8, totalCoils: 7.8, material: 'chrome_silicon' },
  ...{ materialGiven: true, estimated: false },
};

export const plainCharge = { kind: 'charge', chargePressure: 1, rodArea: 150, gasVolume: 110_000 } as const;

function plainParts(): { readonly [F in keyof Corner]: NonNullable<Corner[F]> } {
  return {
    damper: {
      ...{ name: 'damper', price: null, extended: 474, compressed: 320, bodyLength: 318, bodyDiameter: 50 },
      ...{ body: 'twin_tube', gas: { kind: 'linear', outForce: 160, inForce: 215 }, forceVelocity: null },
    },
    mount: {
      ...{ name: 'mount', price: null, raise: 12, bareRaise: 12, spacer: 0, flangeDepth: 6, bore: 62, spigot: 0 },
      ...{ seat: 'fixed', bolted: 'above', lowerBush: 14, washers: 3, washerDiameter: 46, bushGive: 2 },
    },
    isolator: plainIsolator,
    bumpStop: {
      ...{ name: 'stop', price: null, length: 38, uncutLength: 60, closedFraction: 0.4, closedAtForce: null },
      ...{ diameter: 46, packer: 0, packerDiameter: 0, curve: null },
    },
    rodEnd: plainRodEnd,
    sleeve: {
      ...{ name: 'sleeve', price: null, ledgeHeight: 160, length: 140, bore: 50.5, outerDiameter: 57, trim: 15 },
      ...{ grooveDrop: 0, threadPitch: 2 },
    },
    perch: {
      ...{ name: 'perch', price: null, lockRing: 8, height: 11, inset: 0, spigotDiameter: 59.5, engagement: 8 },
    },
    helper: plainHelper,
    spring: {
      ...{ name: 'spring', price: null, freeLength: 220, rate: 38, bore: 60, wire: null, rateEstimated: false },
      solid: { source: 'catalogue', height: 76, least: 76, most: 76, thinWire: null, thickWire: null },
    },
  };
}

/** A corner that works at a ride height of 332 mm under 2300 N or so, without rod end and helper but where they are changed. */
export function plainCorner(change: CornerChange = {}): Corner {
  const plain = plainParts();
  const changed = Object.entries(change).flatMap(([family, part]) =>
    part === undefined ? [] : [[family, part && { ...plain[family as keyof Corner], ...part }]],
  );
  const corner: Corner = { ...plain, rodEnd: null, helper: null, ...Object.fromEntries(changed) };
  return { ...corner, spring: { ...corner.spring, solid: { ...plain.spring.solid, ...corner.spring.solid } } };
}

/** The same with one price for every part that it has. */
export function pricedCorner(price: number | null, change: CornerChange = {}): Corner {
  const parts = Object.entries(plainCorner(change)).map(([family, part]) => [family, part && { ...part, price }]);
  return Object.fromEntries(parts) as unknown as Corner;
}

/** Everything known exactly. */
export const noTolerances: Tolerances = {
  ...{ freeLength: 0, rateShare: 0, solidHeight: 0, body: 0, damperLength: 0, sleeve: 0, perch: 0, stopLength: 0 },
  ...{ closedFraction: 0, closedFractionOfCurve: 0, stopForceShare: 0, mount: 0, bushGive: 0, isolator: 0 },
  ...{ springBore: 0, diameter: 0, wheelLoadShare: 0, unsprungMassShare: 0, tyreOnArch: 0, lowestWheel: 0 },
  ...{ friction: 0, motionRatioShare: 0, gasShare: 0, tyreRateShare: 0, engagement: 0, pitchInertiaRatio: 0 },
  ...{ reading: 0, readingShare: 0 },
};

export const plainTarget: AxleTarget = {
  ...{ targetHeight: 332, wantedFrom: 322, wantedTo: 344, leastBumpTravel: 35, goodBumpTravel: 60 },
  ...{ leastDroopTravel: 30, frequencyFrom: 1.2, frequencyTo: 2.6, wantedFrequency: null, allowedSlack: 4 },
  ...{ dampingFrom: null, dampingTo: null },
};

/** What an axle is, whatever stands on it; for a site of the plain corner and for the axle of a scenario. */
export const plainAxle = {
  unsprungMass: 31,
  tyreRate: 190,
  tyreOnArchHeight: 262,
  lowestWheelHeight: null,
  bushes: null,
};

/** Five measured pairs about 335 mm: a parabola of that ratio and bend. */
export function bentPairs(ratio: number, bend: number) {
  return [275, 305, 335, 365, 395].map((hubToArch) => {
    const u = hubToArch - 335;
    return { hubToArch, damperLength: 409.5 + ratio * u + bend * u * u, raise: 12 };
  });
}
export const bentMotion = (ratio: number, bend: number) => motionCurve({ ratio: null, pairs: bentPairs(ratio, bend) });
/** A ratio that grows so fast with height that the load tips the corner over in part of the travel. */
export const tippingMotion = () => bentMotion(0.75, 4e-3);
/** One measured pair and a motion ratio of 0.945: no curve that would bend hand arithmetic. */
export const straightMotion = motionCurve({
  ...{ pairs: [{ hubToArch: 335, damperLength: 409.5, raise: 12 }], ratio: 0.945 },
});

/** What a sprung mass weighs. */
export const sprung = (sprungMass: number) => ({ sprungMass, sprungLoad: sprungMass * 9.80665 });
export const loadState = (name: string, sprungMass: number) => ({ name, ...sprung(sprungMass) });

export function plainSite(change: SiteChange = {}): Site {
  const margins: Margins = {
    coilBind: { kind: 'fixed', value: 6 },
    damper: 3,
    sleeve: 4,
    body: 4,
    tyre: 8,
    passing: 1,
  };
  return {
    ...{ axle: 'front', motion: bentMotion(0.945, -1e-4), ...plainAxle, ...sprung(237) },
    bump: { kind: 'closed' },
    ...{ standingOnStop: false, frequencyBasis: 'body', loads: [], heaviestLoad: sprung(237).sprungLoad, sides: [] },
    ...change,
    target: { ...plainTarget, ...change.target },
    margins: { ...margins, ...change.margins },
  };
}

/** Where the plain corner works: its tyre stays off the arch, and its spring may be a little loose. */
export const ROOMY = { tyreOnArchHeight: 240, target: { allowedSlack: 8 } } as const;

export function plainSetup(change: Partial<Setup> = {}): Setup {
  return {
    ...{ name: 'low', axles: { front: plainTarget, rear: plainTarget }, balance: { target: 1, from: 0.5, to: 2 } },
    ...{ bump: { kind: 'closed' }, standingOnStop: false, frequencyBasis: 'body', loadStates: [], loadCases: [] },
    ...change,
  };
}

/** What a pair's report reads of a scenario. */
export function plainScenario(change: object = {}): Scenario {
  const car = { wheelbase: 2460, pitchInertiaRatio: 0.92, sprungCentreHeight: 545 };
  const ranking = { weights: { ...NO_WEIGHT, bump_travel: 1 }, price: null, goodClearance: null, keep: 1 };
  const axles = { front: { roll: null }, rear: { roll: null } };
  const scenario = { car, axles, ranking, margins: plainSite().margins, tolerances: noTolerances, ...change };
  return scenario as unknown as Scenario;
}

/** Front and rear at one site each; the rear is as the front where it is not given. */
export function plainPair(
  front: Corner,
  rear: Corner = front,
  { site = {}, setup = {}, scenario = {} }: { site?: SiteChange; setup?: Partial<Setup>; scenario?: object } = {},
): JudgedPair {
  const workings = {
    front: workingOf(plainSite(site), front),
    rear: workingOf(plainSite({ ...site, axle: 'rear' }), rear),
  };
  return {
    ...{ scenario: plainScenario(scenario), setup: plainSetup(setup), indices: { front: 0, rear: 0 }, workings },
  };
}

/** A progressive stop curve of our own: soft at first, steep at the end. */
export const stopCurve = {
  measuredLength: 60,
  points: [
    { squeeze: 0, force: 0 },
    { squeeze: 10, force: 250 },
    { squeeze: 20, force: 800 },
    { squeeze: 30, force: 2200 },
    { squeeze: 36, force: 5200 },
    { squeeze: 39, force: 9000 },
  ],
};

/** Corners around the plain one; many work, many fail, all are physically possible. */
export const anyCorner: fc.Arbitrary<Corner> = fc
  .record({
    freeLength: between(120, 280),
    rate: between(18, 90),
    solidShare: between(0.3, 0.5),
    trim: between(0, 40),
    raise: between(0, 30),
    stopLength: between(25, 60),
    helper: fc.option(fc.record({ rate: between(1, 20), free: between(30, 80) }), { nil: null }),
    seat: fc.constantFrom('fixed' as const, 'moving' as const),
    curve: fc.boolean(),
    gasOut: between(0, 300),
  })
  .map((r) => {
    const solid = r.freeLength * r.solidShare;
    const helped = r.helper && { freeLength: r.helper.free, blockHeight: r.helper.free * 0.25, rate: r.helper.rate };
    return plainCorner({
      damper: { gas: { kind: 'linear', outForce: r.gasOut, inForce: r.gasOut * 1.3 } },
      spring: { freeLength: r.freeLength, rate: r.rate, solid: { height: solid, least: solid } },
      sleeve: { trim: r.trim },
      mount: { raise: r.raise, bareRaise: Math.min(12, r.raise), seat: r.seat },
      bumpStop: { length: r.stopLength, curve: r.curve ? stopCurve : null },
      helper: helped && { ...helped, name: 'helper' },
    });
  });

/** Left and right of a site, one `apart` kg under and the other over its sprung mass. */
export function sidesApart({ sprungMass, sprungLoad, heaviestLoad }: Site, apart: number): SiteSide[] {
  const side = (name: SiteSide['name'], more: number): SiteSide => ({
    name,
    ...sprung(sprungMass + more),
    heaviestLoad: (sprungMass + more) * 9.80665 + (heaviestLoad - sprungLoad),
  });
  return [side('left', -apart), side('right', apart)];
}

/** Sites around the plain one, with and without load states, bump load, standing on the stop and a load on each side. */
export const anySite: fc.Arbitrary<Site> = fc
  .record({
    mass: between(150, 350),
    target: between(300, 370),
    curvature: between(-3e-4, 3e-4),
    extra: fc.array(between(-30, 60), { maxLength: 2 }),
    multiple: fc.option(between(1.5, 5), { nil: null }),
    onStop: fc.option(between(-15, 0), { nil: null, freq: 2 }),
    apart: fc.oneof({ arbitrary: fc.constant(null), weight: 2 }, { arbitrary: between(-40, 40), weight: 1 }),
  })
  .map((r) => {
    const { sprungLoad } = sprung(r.mass);
    const loads = r.extra.map((kg, k) => loadState(`state ${k + 1}`, r.mass + kg));
    const site = plainSite({
      ...{ ...sprung(r.mass), loads, heaviestLoad: Math.max(sprungLoad, ...loads.map((l) => l.sprungLoad)) },
      ...{ bump: r.multiple === null ? { kind: 'closed' } : { kind: 'load', multiple: r.multiple } },
      standingOnStop: r.onStop !== null,
      target: { targetHeight: r.target, leastBumpTravel: r.onStop ?? plainTarget.leastBumpTravel },
      motion: bentMotion(0.945, r.curvature),
    });
    return r.apart === null ? site : { ...site, sides: sidesApart(site, r.apart) };
  });

/**
 * The same corners with every part that a formula can be printed for: charge gas, packers, spigots, rod ends, seats
 * that move, spacers, wires given and estimated, damping tables.
 */
export const anyFullCorner: fc.Arbitrary<Corner> = fc
  .tuple(
    anyCorner,
    fc.record({
      gas: fc.constantFrom('none' as const, 'linear' as const, 'charge' as const),
      pressure: between(0.5, 3),
      packer: fc.constantFrom(0, 6, 25),
      spigots: fc.boolean(),
      isolator: fc.boolean(),
      rodEnd: fc.boolean(),
      wire: fc.constantFrom('unknown' as const, 'given' as const, 'estimated' as const),
      wireDiameter: between(8, 13),
      spacer: fc.constantFrom(0, 8),
      damping: fc.boolean(),
      proud: fc.boolean(),
      stopDiameter: fc.constantFrom(46, 50, 55),
    }),
  )
  .map(([corner, r]) => fullCorner(corner, r));

interface FullChoice {
  readonly gas: 'none' | 'linear' | 'charge';
  readonly pressure: number;
  readonly packer: number;
  readonly spigots: boolean;
  readonly isolator: boolean;
  readonly rodEnd: boolean;
  readonly wire: 'unknown' | 'given' | 'estimated';
  readonly wireDiameter: number;
  readonly spacer: number;
  readonly damping: boolean;
  /** The sleeve stands proud of the body, where a wide stop meets it. */
  readonly proud: boolean;
  readonly stopDiameter: number;
}

function fullCorner(corner: Corner, r: FullChoice): Corner {
  const spigot = r.spigots ? 4 : 0;
  const washerDiameter = r.proud ? 46 : 52;
  const charge = { chargePressure: r.pressure, rodArea: 150, gasVolume: 110_000 };
  const gas = { none: { kind: 'none' }, linear: corner.damper.gas, charge: { kind: 'charge', ...charge } } as const;
  const coils = corner.spring.solid.height / r.wireDiameter;
  const wire = { ...plainWire, diameter: r.wireDiameter, totalCoils: coils, activeCoils: coils - 2 };
  return {
    ...corner,
    damper: {
      ...corner.damper,
      gas: gas[r.gas],
      forceVelocity: r.damping
        ? [
            { velocity: 0.05, bump: 200, rebound: 420 },
            { velocity: 0.2, bump: 500, rebound: 900 },
          ]
        : null,
    },
    bumpStop: { ...corner.bumpStop, diameter: r.stopDiameter, packer: r.packer, packerDiameter: r.packer > 0 ? 52 : 0 },
    mount: { ...corner.mount, raise: corner.mount.raise + r.spacer, spacer: r.spacer, spigot, washerDiameter },
    isolator: r.isolator ? { ...plainIsolator, spigot } : null,
    perch: { ...corner.perch, spigotDiameter: r.spigots ? 59.5 : null },
    rodEnd: r.rodEnd ? plainRodEnd : null,
    sleeve: { ...corner.sleeve, ledgeHeight: r.proud ? 200 : 160 },
    spring: { ...corner.spring, wire: r.wire === 'unknown' ? null : { ...wire, estimated: r.wire === 'estimated' } },
  };
}

/** The same sites with twisted bushes and with a strap that ends the droop. */
export const anyFullSite: fc.Arbitrary<Site> = fc
  .record({ site: anySite, bushes: fc.boolean(), strap: fc.boolean() })
  .map(({ site, bushes, strap }) => ({
    ...site,
    bushes: bushes ? { rate: 3, unloadedHeight: 345 } : null,
    lowestWheelHeight: strap ? 385 : null,
  }));

const allWeights = (weight: number) =>
  Object.fromEntries(CRITERION_NAMES.map((name) => [name, weight])) as Record<CriterionName, number>;
/** Every criterion weighs something, so that one more takes part in every comparison with brute force. */
export const EVERY_WEIGHT = allWeights(1);
export const NO_WEIGHT = allWeights(0);
