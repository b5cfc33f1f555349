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

/** Gas in the damper has no time to shed heat in a vibration: polytropic. */
const VIBRATING_EXPONENT = 1.3;

export interface Rates {
  readonly stack: number;
  readonly stop: number;
  readonly gas: number;
  /** `k_d`, along the damper. */
  readonly damper: number;
  /** dMR/dH, 1/mm: how fast the motion ratio grows with droop. */
  readonly ratioSlope: number;
  /** `k_w`; not above 0: the corner has no stable standing height. */
  readonly wheel: number;
  /** `k_ride`, wheel rate and tyre in series. */
  readonly ride: number;
  /** Body frequency without the tyre, and with it; NaN where the rate is not above 0. */
  readonly bodyFrequency: number;
  readonly rideFrequency: number;
}

/**
 * Rates at a standing position.
 * Equation: k_d = k_stack + k_stop + k_gas; k_w = k_d MR^2 - F_d dMR/dH + k_p (z in bump, so dMR/dz = -dMR/dH).
 * Source: virtual work; Barton & Fieldhouse, Automotive Chassis Engineering (2018), sec. 3.9 for k MR^2.
 */
export function ratesAt(site: Site, corner: Corner, geometry: Geometry, standing: Standing, sprungMass: number): Rates {
  const stack = standing.springForce > 0 ? rateUnder(geometry.stack, standing.springForce) : 0;
  const { stop, gas, ratioSlope } = fixedRates(site, corner, geometry, standing);
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
    ride,
    bodyFrequency: naturalFrequency(wheel, sprungMass),
    rideFrequency: naturalFrequency(ride, sprungMass),
  };
}

/** The parts of the rates that no spring changes. */
export function fixedRates(site: Site, corner: Corner, geometry: Geometry, standing: Standing) {
  return {
    stop: stopRate(corner.bumpStop, geometry.stopLength - standing.length),
    gas: gasRateAt(corner.damper, standing.length),
    ratioSlope: ratioSlopeAt(site.motion, standing.height),
  };
}

/** k_w = k_d MR^2 - F_d dMR/dH + k_p. */
export function wheelRate(site: Site, standing: Standing, damperRate: number, ratioSlope: number): number {
  return damperRate * standing.motionRatio ** 2 - standing.axialForce * ratioSlope + (site.bushes?.rate ?? 0);
}

/** The frequency the setup's limits mean: without the tyre, or with it. */
export function judgedFrequencyOf(site: Site, wheel: number, sprungMass: number): number {
  return naturalFrequency(site.frequencyBasis === 'ride' ? seriesRate(wheel, site.tyreRate) : wheel, sprungMass);
}

/** Rate of the damper's gas at a damper length, N/mm. */
export function gasRateAt(damper: Damper, length: number): number {
  const { gas } = damper;
  if (gas.kind === 'none') return 0;
  if (gas.kind === 'charge') {
    const stroke = damper.extended - length;
    return gasRate(gas.chargePressure, gas.rodArea, gas.gasVolume, stroke, VIBRATING_EXPONENT);
  }
  const out = gas.outForce;
  return ((gas.inForce ?? out) - out) / (damper.extended - damper.compressed);
}
