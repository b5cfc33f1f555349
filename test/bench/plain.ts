/**
 * The yardstick: a plain loop over typed arrays with the kernel's checks, one combination after the other, in the
 * order of the index. Counts first failures only; it keeps and scores nothing.
 */
import { standingAt } from '../../src/model/corner/balance.ts';
import { CHECKS } from '../../src/model/corner/checks.ts';
import { contactLengths, giveFor, marginFor } from '../../src/model/corner/contacts.ts';
import { geometryOf } from '../../src/model/corner/geometry.ts';
import { fixedRates } from '../../src/model/corner/rates.ts';
import { type AxleLayout, assemblyCorner } from '../../src/sweep/layout.ts';

const code = (name: (typeof CHECKS)[number]) => CHECKS.indexOf(name);
const FIT = code('fit');
const SLEEVE = code('sleeve_metal');
const DAMPER = code('damper_bottoms');
const TYRE = code('tyre_on_arch');
const BUMP = code('bump_travel');
const DROOP = code('droop_travel');
const LOW = code('perch_low');
const HIGH = code('perch_high');
const BIND = code('coil_bind');
const LOOSE = code('spring_loose');
const FREQUENCY = code('frequency');
const PASS = CHECKS.length;

/** Counts per first failing check over heads `from` to `to`; the last entry counts what works. */
export function plainLoop(layout: AxleLayout, from: number, to: number): Float64Array {
  const { site, stacks, sleeves, perches } = layout;
  const { target, margins } = site;
  const counts = new Float64Array(PASS + 1);
  const bore = Float64Array.from(stacks.springs, (s) => s.bore);
  const tops = Float64Array.from(sleeves, (s) => s.ledgeHeight - s.grooveDrop + s.length - s.trim);
  const feet = Float64Array.from(sleeves, (s) => s.ledgeHeight - s.grooveDrop);
  const diameters = Float64Array.from(sleeves, (s) => s.outerDiameter);
  const { freeLength, solidLength, mainRate, mainTravel, helperRate, helperTravel } = stacks;
  for (let head = from; head < to; head++) {
    const corner = assemblyCorner(layout, head);
    const geometry = geometryOf(site, corner);
    const standing = standingAt(site, corner, geometry, target.targetHeight, site.sprungLoad);
    const { stop, gas, ratioSlope } = fixedRates(site, corner, geometry, standing);
    const lengths = new Map(contactLengths(site, corner, geometry, 0));
    const full = geometry.closedLength;
    const seat = geometry.seatBelowShoulder;
    const force = standing.springForce;
    const mr2 = standing.motionRatio ** 2;
    const sleeveOffset = (lengths.get('sleeve_isolator') ?? Number.NEGATIVE_INFINITY) - geometry.sleeveTop;
    const give = giveFor(corner, 'coil_bind');
    const damperSpare = full - (lengths.get('damper') ?? 0) - margins.damper;
    const tyreSpare = full - (lengths.get('tyre_arch') ?? 0) - giveFor(corner, 'tyre_arch') - margins.tyre;
    const sleeveMargin = marginFor(site, corner, 'sleeve_isolator') + giveFor(corner, 'sleeve_isolator');
    const bump = standing.height - geometry.stopHeight - target.leastBumpTravel;
    const droop = geometry.droopHeight - standing.height - target.leastDroopTravel;
    for (let s = 0; s < sleeves.length; s++) {
      for (let p = 0; p < perches.length; p++) {
        const perch = perches[p] as (typeof perches)[number];
        for (let k = 0; k < stacks.count; k++) {
          const at = verdict(s, perch.lockRing + perch.height, perch.inset, perch.engagement, k);
          counts[at] = (counts[at] as number) + 1;
        }
      }
    }

    function verdict(s: number, rise: number, inset: number, engagement: number, k: number): number {
      if ((bore[k] as number) - (diameters[s] as number) < margins.passing) return FIT;
      if (damperSpare < 0) return DAMPER;
      if (full - ((tops[s] as number) + sleeveOffset) < sleeveMargin) return SLEEVE;
      if (tyreSpare < 0) return TYRE;
      if (bump < 0) return BUMP;
      if (droop < 0) return DROOP;
      const travel = helperTravel[k] as number;
      const helper = travel > 0 ? Math.min(force / (helperRate[k] as number), travel) : 0;
      const deflection = Math.min(force / (mainRate[k] as number), mainTravel[k] as number) + helper;
      const place = standing.length - seat - (freeLength[k] as number) + deflection;
      if (place < (feet[s] as number) + rise) return LOW;
      if (place > (tops[s] as number) - inset) return HIGH;
      if (full - (place + seat + (solidLength[k] as number)) - give < (stacks.bindMargin[k] as number)) return BIND;
      const slack = geometry.droopLength - seat - place - (freeLength[k] as number);
      if (slack > target.allowedSlack || slack > engagement) return LOOSE;
      const open = force < (stacks.knee[k] as number) ? seriesOf(k) : (mainRate[k] as number);
      const wheel = (open + stop + gas) * mr2 - standing.axialForce * ratioSlope;
      const hertz = Math.sqrt((1000 * wheel) / site.sprungMass) / (2 * Math.PI);
      return hertz >= target.frequencyFrom && hertz <= target.frequencyTo ? PASS : FREQUENCY;
    }

    function seriesOf(k: number): number {
      const main = mainRate[k] as number;
      const helper = helperRate[k] as number;
      return (main * helper) / (main + helper);
    }
  }
  return counts;
}
