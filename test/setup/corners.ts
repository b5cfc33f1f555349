/** Invented corners for tests of the model: a plain one to vary, and random ones for properties. */
import fc from 'fast-check';
import type { Corner, Site, SiteSide } from '../../src/domain/corner/site.ts';
import { motionCurve } from '../../src/domain/motion.ts';
import type { Helper } from '../../src/domain/parts.ts';
import type { AxleTarget, Tolerances } from '../../src/domain/scenario.ts';

const priceless = { price: null };

/** A corner that works at a ride height of 332 mm under 2300 N or so; every part can be replaced. */
export function plainCorner(change: Partial<Corner> = {}): Corner {
  return {
    damper: {
      ...priceless,
      name: 'damper',
      extended: 474,
      compressed: 320,
      bodyLength: 318,
      bodyDiameter: 50,
      body: 'twin_tube',
      gas: { kind: 'linear', outForce: 160, inForce: 215 },
      forceVelocity: null,
    },
    mount: {
      ...priceless,
      name: 'mount',
      raise: 12,
      bareRaise: 12,
      spacer: 0,
      flangeDepth: 6,
      bore: 62,
      spigot: 0,
      seat: 'fixed',
      bolted: 'above',
      lowerBush: 14,
      washers: 3,
      washerDiameter: 46,
      bushGive: 2,
    },
    isolator: { ...priceless, name: 'isolator', thickness: 6, bore: 56, spigot: 0 },
    bumpStop: {
      ...priceless,
      name: 'stop',
      length: 38,
      uncutLength: 60,
      closedFraction: 0.4,
      closedAtForce: null,
      diameter: 46,
      packer: 0,
      packerDiameter: 0,
      curve: null,
    },
    rodEnd: null,
    sleeve: {
      ...priceless,
      name: 'sleeve',
      ledgeHeight: 160,
      length: 140,
      bore: 50.5,
      outerDiameter: 57,
      trim: 15,
      grooveDrop: 0,
      threadPitch: 2,
    },
    perch: { ...priceless, name: 'perch', lockRing: 8, height: 11, inset: 0, spigotDiameter: 59.5, engagement: 8 },
    helper: null,
    spring: {
      ...priceless,
      name: 'spring',
      freeLength: 220,
      rate: 38,
      bore: 60,
      solid: { source: 'catalogue', height: 76, least: 76, most: 76, thinWire: null, thickWire: null },
      wire: null,
      rateEstimated: false,
    },
    ...change,
  };
}

/** 38 mm of travel, closed by 114 N. */
export const plainHelper: Helper = {
  name: 'h',
  price: null,
  freeLength: 50,
  blockHeight: 12,
  rate: 3,
  bore: 60,
  coupler: 4,
  couplerBore: 60,
};

/** Everything known exactly. */
export const noTolerances: Tolerances = {
  ...{ freeLength: 0, rateShare: 0, solidHeight: 0, body: 0, damperLength: 0, sleeve: 0, perch: 0, stopLength: 0 },
  ...{ closedFraction: 0, closedFractionOfCurve: 0, stopForceShare: 0, mount: 0, bushGive: 0, isolator: 0 },
  ...{ springBore: 0, diameter: 0, wheelLoadShare: 0, unsprungMassShare: 0, tyreOnArch: 0, lowestWheel: 0 },
  ...{ friction: 0, motionRatioShare: 0, gasShare: 0 },
};

export const plainTarget: AxleTarget = {
  targetHeight: 332,
  wantedFrom: 322,
  wantedTo: 344,
  leastBumpTravel: 35,
  goodBumpTravel: 60,
  leastDroopTravel: 30,
  frequencyFrom: 1.2,
  frequencyTo: 2.6,
  wantedFrequency: null,
  allowedSlack: 4,
  dampingFrom: null,
  dampingTo: null,
};

export function plainSite(change: Partial<Site> = {}): Site {
  const sprungLoad = 237 * 9.80665;
  return {
    axle: 'front',
    motion: motionCurve({
      ratio: null,
      pairs: [275, 305, 335, 365, 395].map((hubToArch) => {
        const u = hubToArch - 335;
        return { hubToArch, damperLength: 409.5 + 0.945 * u - 1e-4 * u * u, raise: 12 };
      }),
    }),
    unsprungMass: 31,
    sprungMass: 237,
    sprungLoad,
    tyreRate: 190,
    tyreOnArchHeight: 262,
    lowestWheelHeight: null,
    bushes: null,
    target: plainTarget,
    bump: { kind: 'closed' },
    standingOnStop: false,
    frequencyBasis: 'body',
    loads: [],
    heaviestLoad: sprungLoad,
    sides: [],
    margins: { coilBind: { kind: 'fixed', value: 6 }, damper: 3, sleeve: 4, body: 4, tyre: 8, passing: 1 },
    ...change,
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

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });

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
    const base = plainCorner();
    const solid = r.freeLength * r.solidShare;
    return plainCorner({
      damper: { ...base.damper, gas: { kind: 'linear', outForce: r.gasOut, inForce: r.gasOut * 1.3 } },
      spring: {
        ...base.spring,
        freeLength: r.freeLength,
        rate: r.rate,
        solid: { ...base.spring.solid, height: solid, least: solid },
      },
      sleeve: { ...base.sleeve, trim: r.trim },
      mount: { ...base.mount, raise: r.raise, bareRaise: Math.min(12, r.raise), seat: r.seat },
      bumpStop: { ...base.bumpStop, length: r.stopLength, curve: r.curve ? stopCurve : null },
      helper: r.helper && {
        name: 'helper',
        price: null,
        freeLength: r.helper.free,
        blockHeight: r.helper.free * 0.25,
        rate: r.helper.rate,
        bore: 60,
        coupler: 4,
        couplerBore: 60,
      },
    });
  });

/** Left and right of a site, one `apart` kg under and the other over its sprung mass. */
export function sidesApart({ sprungMass, sprungLoad, heaviestLoad }: Site, apart: number): SiteSide[] {
  const side = (name: SiteSide['name'], more: number): SiteSide => ({
    name,
    sprungMass: sprungMass + more,
    sprungLoad: (sprungMass + more) * 9.80665,
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
    const sprungLoad = r.mass * 9.80665;
    const loads = r.extra.map((kg, k) => {
      return { name: `state ${k + 1}`, sprungMass: r.mass + kg, sprungLoad: (r.mass + kg) * 9.80665 };
    });
    const site = plainSite({
      sprungMass: r.mass,
      sprungLoad,
      loads,
      heaviestLoad: Math.max(sprungLoad, ...loads.map((l) => l.sprungLoad)),
      bump: r.multiple === null ? { kind: 'closed' } : { kind: 'load', multiple: r.multiple },
      standingOnStop: r.onStop !== null,
      target: { ...plainTarget, targetHeight: r.target, leastBumpTravel: r.onStop ?? plainTarget.leastBumpTravel },
      motion: motionCurve({
        ratio: null,
        pairs: [275, 305, 335, 365, 395].map((hubToArch) => {
          const u = hubToArch - 335;
          return { hubToArch, damperLength: 409.5 + 0.945 * u + r.curvature * u * u, raise: 12 };
        }),
      }),
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
  const wire = {
    diameter: r.wireDiameter,
    totalCoils: coils,
    activeCoils: coils - 2,
    material: 'chrome_silicon',
    materialGiven: true,
  };
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
    isolator: r.isolator ? { name: 'isolator', price: null, thickness: 6, bore: 56, spigot } : null,
    perch: { ...corner.perch, spigotDiameter: r.spigots ? 59.5 : null },
    rodEnd: r.rodEnd ? rodEnd : null,
    sleeve: { ...corner.sleeve, ledgeHeight: r.proud ? 200 : 160 },
    spring: { ...corner.spring, wire: r.wire === 'unknown' ? null : { ...wire, estimated: r.wire === 'estimated' } },
  };
}

const rodEnd = {
  name: 'rod end',
  price: null,
  threadStart: 28,
  threadEnd: 62,
  plateThickness: 4,
  upperBush: 12,
  upperWashers: 3,
  nut: 8,
  jamNut: 6,
};

/** The same sites with twisted bushes and with a strap that ends the droop. */
export const anyFullSite: fc.Arbitrary<Site> = fc
  .record({ site: anySite, bushes: fc.boolean(), strap: fc.boolean() })
  .map(({ site, bushes, strap }) => ({
    ...site,
    bushes: bushes ? { rate: 3, unloadedHeight: 345 } : null,
    lowestWheelHeight: strap ? 385 : null,
  }));
