/**
 * The spring rate an axle asks for: from the wanted frequency back through wheel rate and motion ratio to the spring,
 * any helper closed and the car clear of its stop.
 */
import { standingAt } from '../model/corner/balance.ts';
import { geometryOf } from '../model/corner/geometry.ts';
import { fixedRates } from '../model/corner/rates.ts';
import type { Corner, Site } from '../model/corner/site.ts';
import type { Spring } from '../model/parts.ts';
import { type RateNeeded, rounded } from '../result/advice.ts';
import { rateHalfWidth } from '../result/tolerance/inputs.ts';

/**
 * Spring rate for a frequency, N/mm.
 * Equation: k_w = m (2 pi f)^2 / 1000, with the tyre k_w = k_r k_t / (k_t - k_r); k = (k_w + F_d dMR/dH - k_p) / MR^2
 * less the rates of gas and stop. Null where no spring gives it: the tyre is softer, or gas and bushes are too stiff.
 * Source: virtual work, as in Barton & Fieldhouse, Automotive Chassis Engineering (2018), sec. 3.9.
 */
export function rateForFrequency(site: Site, corner: Corner, frequency: number): number | null {
  const judged = (site.sprungMass * (2 * Math.PI * frequency) ** 2) / 1000;
  const { tyreRate } = site;
  if (site.frequencyBasis === 'ride' && judged >= tyreRate) return null;
  const wheel = site.frequencyBasis === 'ride' ? (judged * tyreRate) / (tyreRate - judged) : judged;
  const geometry = geometryOf(site, corner);
  const standing = standingAt(site, corner, geometry, site.target.targetHeight, site.sprungLoad);
  const { stop, gas, ratioSlope } = fixedRates(site, corner, geometry, standing);
  const along = wheel + standing.axialForce * ratioSlope - (site.bushes?.rate ?? 0);
  const rate = along / standing.motionRatio ** 2 - gas - stop;
  return rate > 0 ? rate : null;
}

/** @param frequency what is aimed at, Hz, and where that comes from */
export function rateNeeded(
  site: Site,
  corner: Corner,
  springs: readonly Spring[],
  { frequency, from }: { readonly frequency: number; readonly from: RateNeeded['from'] },
  rateShare: number,
): RateNeeded {
  const { frequencyFrom, frequencyTo } = site.target;
  const rate = rateForFrequency(site, corner, frequency);
  const shown = (value: number | null) => (value === null ? null : rounded(value, 2));
  return {
    from,
    frequency_hz: rounded(frequency, 3),
    rate_n_per_mm: shown(rate),
    least_n_per_mm: shown(rateForFrequency(site, corner, frequencyFrom)),
    most_n_per_mm: shown(rateForFrequency(site, corner, frequencyTo)),
    listed: rate !== null && springs.some((s) => Math.abs(s.rate - rate) <= rateHalfWidth(s, rateShare) * s.rate),
    nearest: rate === null ? [] : nearestRates(springs, rate),
  };
}

const SHOWN_RATES = 2;

/** The nearest rates of the list, one spring each: the first that has it. */
function nearestRates(springs: readonly Spring[], rate: number): RateNeeded['nearest'] {
  const firstOfRate = new Map<number, Spring>();
  for (const spring of springs) if (!firstOfRate.has(spring.rate)) firstOfRate.set(spring.rate, spring);
  return [...firstOfRate.values()]
    .sort((a, b) => Math.abs(a.rate - rate) - Math.abs(b.rate - rate))
    .slice(0, SHOWN_RATES)
    .map((s) => ({
      spring: s.name,
      rate_n_per_mm: rounded(s.rate, 2),
      off_pct: rounded(100 * (s.rate / rate - 1), 1),
    }));
}
