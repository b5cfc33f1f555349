/**
 * The inputs that carry a tolerance: how wide it is and how a corner changes when the input is off by some amount.
 *
 * One row an input. `halfWidth` is null where the input does not exist for a corner (no helper, no isolator) or
 * where its tolerance is 0. `moved` never changes what it is given.
 */
import type { Corner, Site } from '../corner/site.ts';
import type { MotionCurve } from '../motion.ts';
import type { Spring } from '../parts.ts';
import type { Tolerances } from '../scenario.ts';

export interface Model {
  readonly site: Site;
  readonly corner: Corner;
}

export interface ToleranceInput {
  readonly id: string;
  readonly label: string;
  /** What to measure to settle it. */
  readonly measure: string;
  readonly halfWidth: (model: Model, tolerances: Tolerances) => number | null;
  /** The model with this input off by `by`, in the input's own unit (a share for relative tolerances). */
  readonly moved: (model: Model, by: number) => Model;
}

type Change = (model: Model, by: number) => Model;

const part =
  <K extends keyof Corner>(
    key: K,
    change: (part: NonNullable<Corner[K]>, by: number) => Partial<NonNullable<Corner[K]>>,
  ): Change =>
  ({ site, corner }, by) => {
    const old = corner[key];
    return old === null
      ? { site, corner }
      : { site, corner: { ...corner, [key]: { ...old, ...change(old as NonNullable<Corner[K]>, by) } } };
  };

const motion =
  (change: (curve: MotionCurve, site: Site, by: number) => Partial<MotionCurve>): Change =>
  ({ site, corner }, by) => ({
    corner,
    site: { ...site, motion: { ...site.motion, ...change(site.motion, site, by) } },
  });

const always =
  (kind: keyof Tolerances) =>
  (_: Model, tolerances: Tolerances): number | null =>
    tolerances[kind] || null;

const withHelper =
  (kind: keyof Tolerances) =>
  ({ corner }: Model, tolerances: Tolerances): number | null =>
    corner.helper === null ? null : tolerances[kind] || null;

/** An estimate is judged on its tall end already: no wire makes it taller, so it only steps down. */
function solidStep({ solid }: Spring, by: number): number {
  return solid.source === 'estimated' ? Math.min(0, by) : by;
}

/** An estimate's own spread counts where it is wider than the tolerance of a measured solid height. */
function solidHalfWidth({ corner }: Model, tolerances: Tolerances): number | null {
  const { height, least } = corner.spring.solid;
  return Math.max(tolerances.solidHeight, height - least) || null;
}

/** How well wire (over its paint) and bore are read with a caliper, mm, and coils are counted. Common practice, no source. */
const READING = { wire: 0.05, bore: 0.3, coils: 0.25 } as const;
/** American and European tables give the same steel a G that differs by 3 %. */
const MODULUS_SHARE = 0.03;

/**
 * Half-width of a spring's rate as a share of it. A rate computed from geometry is no surer than what it is computed
 * from: k = G d^4 / (8 D^3 n) with D = bore + d, so dk/k = dG/G + (4/d - 3/D) dd - 3 d(bore)/D - dn/n. Unlucky together,
 * the magnitudes add. For d = 9, bore 60, n = 5.8: 3.0 + 2.0 + 1.3 + 4.3 = 10.6 %.
 */
export function rateHalfWidth({ wire, bore, rateEstimated }: Spring, rateShare: number): number {
  if (!rateEstimated || wire === null) return rateShare;
  const mean = bore + wire.diameter;
  const ofWire = (4 / wire.diameter - 3 / mean) * READING.wire;
  const geometry = MODULUS_SHARE + ofWire + (3 * READING.bore) / mean + READING.coils / wire.activeCoils;
  return Math.max(rateShare, geometry);
}

// biome-ignore format: one row an input
export const TOLERANCE_INPUTS: readonly ToleranceInput[] = [
  row('free_length', 'free length of the main spring', 'the spring’s free length', always('freeLength'), part('spring', (s, by) => ({ freeLength: s.freeLength + by }))),
  row('rate', 'rate of the main spring', 'the spring’s rate, in a press over two lengths', ({ corner }, t) => rateHalfWidth(corner.spring, t.rateShare) || null, part('spring', (s, by) => ({ rate: s.rate * (1 + by) }))),
  row('solid_height', 'solid height of the main spring', 'the spring’s solid height, or wire and coils', solidHalfWidth, part('spring', (s, by) => ({ solid: { ...s.solid, height: s.solid.height + solidStep(s, by) } }))),
  row('helper_free_length', 'free length of the helper', 'the helper’s free length', withHelper('freeLength'), part('helper', (h, by) => ({ freeLength: h.freeLength + by }))),
  row('helper_rate', 'rate of the helper', 'the helper’s rate', withHelper('rateShare'), part('helper', (h, by) => ({ rate: h.rate * (1 + by) }))),
  row('helper_block', 'block height of the helper', 'the helper pressed flat', withHelper('solidHeight'), part('helper', (h, by) => ({ blockHeight: h.blockHeight + by }))),
  row('damper_extended', 'damper length, fully out', 'lower eye to rod shoulder, rod out', always('damperLength'), part('damper', (d, by) => ({ extended: d.extended + by }))),
  row('damper_compressed', 'damper length, fully in', 'lower eye to rod shoulder, rod in', always('damperLength'), part('damper', (d, by) => ({ compressed: d.compressed + by }))),
  row('body_length', 'lower eye to top of body', 'lower eye to the top of the body', always('body'), part('damper', (d, by) => ({ bodyLength: d.bodyLength + by }))),
  row('gas', 'gas push of the damper', 'the damper’s push on a scale, out and in', gasHalfWidth, moveGas),
  row('ledge_height', 'lower eye to sleeve ledge', 'lower eye to the ledge the sleeve stands on', always('sleeve'), part('sleeve', (s, by) => ({ ledgeHeight: s.ledgeHeight + by }))),
  row('sleeve_cut', 'sleeve length after cutting', 'the sleeve’s length once cut', always('sleeve'), part('sleeve', (s, by) => ({ length: s.length + by }))),
  row('perch_height', 'perch and lock ring', 'perch and lock ring together', always('perch'), part('perch', (p, by) => ({ height: p.height + by }))),
  row('stop_length', 'bump stop length as cut', 'the bump stop’s length once cut', always('stopLength'), part('bumpStop', (b, by) => ({ length: b.length + by }))),
  row('closed_fraction', 'how far the bump stop closes', 'the bump stop in a press, closed', always('closedFraction'), part('bumpStop', (b, by) => ({ closedFraction: b.closedFraction + by }))),
  row('raise', 'rod shoulder above tower plane', 'tower plane to rod shoulder, mount fitted', always('mount'), part('mount', (m, by) => ({ raise: m.raise + by, bareRaise: m.bareRaise + by }))),
  row('flange_depth', 'seat flange below tower plane', 'tower plane to the mount’s flange', always('mount'), part('mount', (m, by) => ({ flangeDepth: m.flangeDepth + by }))),
  row('isolator_thickness', 'isolator thickness', 'the isolator’s thickness, loaded', ({ corner }, t) => (corner.isolator ? t.isolator || null : null), part('isolator', (i, by) => ({ thickness: i.thickness + by }))),
  row('wheel_load', 'wheel load', 'the corner on scales, driver aboard', always('wheelLoadShare'), moveLoad),
  row('motion_length', 'damper length at ride height', 'damper length at ride height, spring out', always('damperLength'), motion((curve, _, by) => ({ bases: curve.bases.map((b) => b + by) }))),
  row('motion_ratio', 'motion ratio', 'more pairs of hub height and damper length', always('motionRatioShare'), motion(moveRatio)),
];

function row(
  id: string,
  label: string,
  measure: string,
  halfWidth: ToleranceInput['halfWidth'],
  moved: Change,
): ToleranceInput {
  return { id, label, measure, halfWidth, moved };
}

function gasHalfWidth({ corner }: Model, tolerances: Tolerances): number | null {
  return corner.damper.gas.kind === 'none' ? null : tolerances.gasShare || null;
}

function moveGas({ site, corner }: Model, by: number): Model {
  const { gas } = corner.damper;
  const scaled =
    gas.kind === 'none'
      ? gas
      : gas.kind === 'charge'
        ? { ...gas, chargePressure: gas.chargePressure * (1 + by) }
        : { ...gas, outForce: gas.outForce * (1 + by), inForce: gas.inForce === null ? null : gas.inForce * (1 + by) };
  return { site, corner: { ...corner, damper: { ...corner.damper, gas: scaled } } };
}

/** The scales are off by a share of what they read: of the whole wheel load, unsprung mass included. */
function moveLoad({ site, corner }: Model, by: number): Model {
  const kilograms = by * (site.sprungMass + site.unsprungMass);
  const newtons = kilograms * (site.sprungLoad / site.sprungMass);
  const loads = site.loads.map((l) => ({
    ...l,
    sprungMass: l.sprungMass + kilograms,
    sprungLoad: l.sprungLoad + newtons,
  }));
  return {
    corner,
    site: {
      ...site,
      sprungMass: site.sprungMass + kilograms,
      sprungLoad: site.sprungLoad + newtons,
      heaviestLoad: site.heaviestLoad + newtons,
      loads,
    },
  };
}

/** Turns the motion curve about the target height, so that the damper length there stays. */
function moveRatio(curve: MotionCurve, site: Site, by: number): Partial<MotionCurve> {
  const pivot = site.target.targetHeight;
  const turn = (height: number) => by * curve.ratioAtMiddle * (height - pivot);
  return {
    bases: curve.bases.map((base, k) => base + turn(curve.heights[k] as number)),
    slopes: curve.slopes.map((slope) => slope + by * curve.ratioAtMiddle),
    ratioAtMiddle: curve.ratioAtMiddle * (1 + by),
  };
}
