/** Rates and frequencies of the standing corner. Rates in N/mm, frequencies in Hz. */
import { stopRate } from '../bumpStop.ts';
import { gasRate } from '../formula/gas.ts';
import { naturalFrequency, seriesRate } from '../formula/vibration.ts';
import { ratioSlopeAt } from '../motion.ts';
import type { Damper } from '../parts.ts';
import { rateUnder } from '../stack.ts';
import type { Standing } from './balance.ts';
import type { Geometry } from './geometry.ts';
import type { Corner, Site } from './site.ts';

/** Exponents of the gas about its settled state: no time to shed heat in a vibration, time enough while a collar is turned. */
const GAS_EXPONENT = { vibrating: 1.3, settled: 1 } as const;
type GasMotion = keyof typeof GAS_EXPONENT;

export interface Rates {
  readonly stack: number;
  readonly stop: number;
  readonly gas: number;
  /** `k_d`, along the damper. */
  readonly damper: number;
  /** dMR/dH, 1/mm: how fast the motion ratio grows with droop. */
  readonly ratioSlope: number;
  /** `k_w`, in a vibration. */
  readonly wheel: number;
  /** The same with the gas settled, as after every slow change; not above 0: the corner has no stable standing height. */
  readonly settledGas: number;
  readonly settledWheel: number;
  /** `k_ride`, wheel rate and tyre in series. */
  readonly ride: number;
  /** Body frequency without the tyre, and with it; NaN where the rate is not above 0. */
  readonly bodyFrequency: number;
  readonly rideFrequency: number;
}

/**
 * Rates and frequencies at a standing position.
 *
 * Equation: k_d = k_stack + k_stop + k_gas; k_w = k_d MR^2 - F_d dMR/dH + k_p (z in bump, so dMR/dz = -dMR/dH)
 * Units: `site`, `corner`, `geometry`, `standing` in mm, N and N/mm, `sprungMass` kg; result N/mm, Hz and 1/mm.
 * Valid: small motions about the position, gas at the exponent 1.3 of a vibration about its settled state; NaN frequencies
 * where k_w is not above 0. Whether a height is stable, and what a turn of the collar does, goes by the settled gas: what
 * gas holds only while it is warm it lets go as it cools.
 * Source: virtual work; Barton & Fieldhouse, Automotive Chassis Engineering (2018), sec. 3.9 for k MR^2.
 */
export function ratesAt(site: Site, corner: Corner, geometry: Geometry, standing: Standing, sprungMass: number): Rates {
  const stack = standing.springForce > 0 ? rateUnder(geometry.stack, standing.springForce) : 0;
  const { stop, gas, settledGas, ratioSlope } = fixedRates(site, corner, geometry, standing);
  const damper = stack + stop + gas;
  const wheel = wheelRate(site, standing, damper, ratioSlope);
  const ride = seriesRate(wheel, site.tyreRate);
  return {
    stack,
    stop,
    gas,
    damper,
    ratioSlope,
    wheel,
    settledGas,
    settledWheel: wheelRate(site, standing, stack + stop + settledGas, ratioSlope),
    ride,
    bodyFrequency: naturalFrequency(wheel, sprungMass),
    rideFrequency: naturalFrequency(ride, sprungMass),
  };
}

/**
 * The parts of the rates that no spring changes.
 *
 * Units: `site`, `corner`, `geometry`, `standing` in mm and N; result N/mm for stop and gas (vibrating
 * and settled), 1/mm for the slope of the ratio.
 * Valid: as `ratesAt`.
 * Source: see `stopRate`, `gasRateAt` and `ratioSlopeAt`.
 */
export function fixedRates(site: Site, corner: Corner, geometry: Geometry, standing: Standing) {
  return {
    stop: stopRate(corner.bumpStop, geometry.squeezeLength - standing.length),
    gas: gasRateAt(corner.damper, standing.length, 'vibrating'),
    settledGas: gasRateAt(corner.damper, standing.length, 'settled'),
    ratioSlope: ratioSlopeAt(site.motion, standing.height),
  };
}

/**
 * Wheel rate of a corner.
 *
 * Equation: k_w = k_d MR^2 - F_d dMR/dH + k_p
 * Units: `site` bush rate k_p in N/mm, `standing` with MR and F_d in N, `damperRate` k_d N/mm, `ratioSlope` dMR/dH 1/mm; result N/mm.
 * Valid: small motions about the position; not above 0 with the settled gas where the corner has no stable height.
 * Source: virtual work; Barton & Fieldhouse, Automotive Chassis Engineering (2018), sec. 3.9 for k MR^2.
 */
export function wheelRate(site: Site, standing: Standing, damperRate: number, ratioSlope: number): number {
  return damperRate * standing.motionRatio ** 2 - standing.axialForce * ratioSlope + (site.bushes?.rate ?? 0);
}

/**
 * The frequency the setup's limits mean: without the tyre, or with it.
 *
 * Units: `site` tyre rate in N/mm, `wheel` rate N/mm, `sprungMass` kg; result Hz.
 * Valid: NaN for a wheel rate not above 0.
 * Source: see `naturalFrequency` and `seriesRate`.
 */
export function judgedFrequencyOf(site: Site, wheel: number, sprungMass: number): number {
  return naturalFrequency(site.frequencyBasis === 'ride' ? seriesRate(wheel, site.tyreRate) : wheel, sprungMass);
}

interface Swinging {
  readonly site: Site;
  readonly rates: Rates;
}

/**
 * The frequency the setup's limits mean, without the tyre or with it, of a judged corner.
 *
 * Units: `state` of the judged corner; result Hz.
 * Valid: NaN where the wheel rate is not above 0.
 */
export function judgedFrequency(state: Swinging): number {
  const { rates, site } = state;
  return site.frequencyBasis === 'ride' ? rates.rideFrequency : rates.bodyFrequency;
}

/**
 * Rate of the damper's gas at a damper length.
 *
 * Units: `damper` lengths in mm, forces in N, pressure in MPa; `length` mm, `motion` `vibrating` or `settled`; result N/mm.
 * Valid: about the settled state, in a vibration (exponent 1.3) or slowly (1); where pushes are given instead, their slope
 * over the stroke.
 * Source: see `gasRate`.
 */
export function gasRateAt(damper: Damper, length: number, motion: GasMotion): number {
  const { gas } = damper;
  if (gas.kind === 'none') return 0;
  if (gas.kind === 'charge') {
    const stroke = damper.extended - length;
    return gasRate(gas.chargePressure, gas.rodArea, gas.gasVolume, stroke, GAS_EXPONENT[motion]);
  }
  const out = gas.outForce;
  return ((gas.inForce ?? out) - out) / (damper.extended - damper.compressed);
}
