/**
 * The inputs that carry a tolerance: how wide it is and how a corner changes when the input is off by some amount.
 *
 * One row an input. `width` is null where the input does not exist for a corner (no helper, no isolator) or
 * where its tolerance is 0. Inputs are moved on a draft, a copy of the model made once for as many of them as one likes:
 * random builds move all of them at once.
 */
import type { Corner, Site } from '../../model/corner/site.ts';
import type { BumpStop, Damper, Spring } from '../../model/parts.ts';
import type { Measurable, Tolerances } from '../../model/scenario.ts';

export interface Model {
  readonly site: Site;
  readonly corner: Corner;
}

/** How far an input may be off to either side, both at least 0. */
export interface Width {
  readonly down: number;
  readonly up: number;
}

/** What an input is off by where a draw from -1 to 1 is spread evenly over its width. */
export function offBy({ down, up }: Width, draw: number): number {
  return (up - down) / 2 + ((up + down) / 2) * draw;
}

/**
 * When the truth about an input comes out: measured on the bench before the saw, by what is measured there; when something is
 * cut, since a saw has an error of its own; once the car stands; or never.
 */
export type Learnt = Measurable | 'cutting' | 'standing' | 'never';

export interface ToleranceInput {
  readonly id: string;
  readonly label: string;
  /** What to measure to settle it. */
  readonly measure: string;
  readonly learnt: Learnt;
  /** The part it belongs to; null: the site. */
  readonly of: keyof Corner | null;
  readonly width: (model: Model, tolerances: Tolerances) => Width | null;
  /** The model with this input off by `by`, in the input's own unit (a share for relative tolerances); the given one stays. */
  readonly moved: (model: Model, by: number) => Model;
  /** The same, done to a draft. */
  readonly move: (draft: Draft, by: number) => void;
}

type Mutable<T> = { -readonly [K in keyof T]: T[K] };

/** A model that may be changed, parts, site and motion curve included; lists and what else lies deeper are replaced. */
export interface Draft {
  readonly site: Mutable<Site>;
  readonly corner: { readonly [K in keyof Corner]: Mutable<NonNullable<Corner[K]>> | Extract<Corner[K], null> };
}

interface Change {
  (draft: Draft, by: number): void;
  /** The part it changes; not given: the site. */
  readonly of?: keyof Corner;
}

/** A copy of a model to move inputs on. */
export function draftOf({ site, corner }: Model): Draft {
  const { damper, mount, isolator, bumpStop, rodEnd, sleeve, perch, helper, spring } = corner;
  return {
    site: { ...site },
    corner: {
      damper: { ...damper },
      mount: { ...mount },
      isolator: isolator && { ...isolator },
      bumpStop: { ...bumpStop },
      rodEnd: rodEnd && { ...rodEnd },
      sleeve: { ...sleeve },
      perch: { ...perch },
      helper: helper && { ...helper },
      spring: { ...spring },
    },
  };
}

function part<K extends keyof Corner>(
  key: K,
  change: (part: Mutable<NonNullable<Corner[K]>>, by: number) => void,
): Change {
  const onDraft = ({ corner }: Draft, by: number) => {
    const moved = corner[key] as Mutable<NonNullable<Corner[K]>> | null;
    if (moved !== null) change(moved, by);
  };
  return Object.assign(onDraft, { of: key });
}

type WidthOf = ToleranceInput['width'];

/** As far to either side; null for none. */
const even = (half: number): Width | null => (half > 0 ? { down: half, up: half } : null);

const always =
  (kind: keyof Tolerances): WidthOf =>
  (_, tolerances) =>
    even(tolerances[kind]);

/** Only where what it belongs to is there. */
const having =
  (has: (model: Model) => unknown, kind: keyof Tolerances): WidthOf =>
  (model, tolerances) =>
    has(model) ? even(tolerances[kind]) : null;

const withHelper = (kind: keyof Tolerances) => having(({ corner }) => corner.helper, kind);

/** An estimate's own spread counts to either side where it is wider than the tolerance of a measured solid height. */
function solidWidth({ corner }: Model, { solidHeight }: Tolerances): Width | null {
  const { height, least, most } = corner.spring.solid;
  const [down, up] = [Math.max(solidHeight, height - least), Math.max(solidHeight, most - height)];
  return down + up > 0 ? { down, up } : null;
}

/** How far a stop closes is surer where its force curve was measured in a press. */
const closedWidth: WidthOf = ({ corner }, { closedFraction, closedFractionOfCurve }) =>
  even(corner.bumpStop.curve === null ? closedFraction : closedFractionOfCurve);

/** A bush can't give less than nothing. */
function giveWidth({ corner }: Model, { bushGive }: Tolerances): Width | null {
  return bushGive > 0 ? { down: Math.min(bushGive, corner.mount.bushGive), up: bushGive } : null;
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
  row('free_length', 'free length of the main spring', 'the spring’s free length', 'lengths', always('freeLength'), part('spring', (s, by) => { s.freeLength += by; })),
  row('rate', 'rate of the main spring', 'the spring’s rate, in a press over two lengths', 'rates', ({ corner }, t) => even(rateHalfWidth(corner.spring, t.rateShare)), part('spring', (s, by) => { s.rate *= 1 + by; })),
  row('solid_height', 'solid height of the main spring', 'the spring’s solid height, or wire and coils', 'lengths', solidWidth, part('spring', (s, by) => { s.solid = { ...s.solid, height: s.solid.height + by }; })),
  row('helper_free_length', 'free length of the helper', 'the helper’s free length', 'lengths', withHelper('freeLength'), part('helper', (h, by) => { h.freeLength += by; })),
  row('helper_rate', 'rate of the helper', 'the helper’s rate', 'rates', withHelper('rateShare'), part('helper', (h, by) => { h.rate *= 1 + by; })),
  row('helper_block', 'solid height of the helper', 'the helper pressed flat', 'lengths', withHelper('solidHeight'), part('helper', (h, by) => { h.blockHeight += by; })),
  row('damper_extended', 'damper length, fully out', 'lower eye to rod shoulder, rod out', 'lengths', always('damperLength'), part('damper', (d, by) => { d.extended += by; })),
  row('damper_compressed', 'damper length, fully in', 'lower eye to rod shoulder, rod in', 'lengths', always('damperLength'), part('damper', (d, by) => { d.compressed += by; })),
  row('body_length', 'lower eye to top of body', 'lower eye to the top of the body', 'lengths', always('body'), part('damper', (d, by) => { d.bodyLength += by; })),
  row('gas', 'gas push of the damper', 'the damper’s push on a scale, out and in', 'forces', having(({ corner }) => corner.damper.gas.kind !== 'none', 'gasShare'), part('damper', moveGas)),
  row('ledge_height', 'lower eye to sleeve ledge', 'lower eye to the ledge the sleeve stands on', 'lengths', always('sleeve'), part('sleeve', (s, by) => { s.ledgeHeight += by; })),
  row('sleeve_cut', 'sleeve length after cutting', 'the sleeve’s length once cut', 'cutting', always('sleeve'), part('sleeve', (s, by) => { s.length += by; })),
  row('perch_height', 'perch and lock ring', 'perch and lock ring together', 'lengths', always('perch'), part('perch', (p, by) => { p.height += by; })),
  row('stop_length', 'bump stop length as cut', 'the bump stop’s length once cut', 'cutting', always('stopLength'), part('bumpStop', (b, by) => { b.length += by; })),
  row('closed_fraction', 'how far the bump stop closes', 'the bump stop in a press, closed', 'forces', closedWidth, part('bumpStop', (b, by) => { b.closedFraction += by; })),
  row('raise', 'rod shoulder above tower plane', 'tower plane to rod shoulder, mount fitted', 'lengths', always('mount'), part('mount', (m, by) => { m.raise += by; m.bareRaise += by; })),
  row('flange_depth', 'seat flange below tower plane', 'tower plane to the mount’s flange', 'lengths', always('mount'), part('mount', (m, by) => { m.flangeDepth += by; })),
  row('isolator_thickness', 'isolator thickness', 'the isolator’s thickness, loaded', 'lengths', having(({ corner }) => corner.isolator, 'isolator'), part('isolator', (i, by) => { i.thickness += by; })),
  row('wheel_load', 'wheel load', 'the corner on scales, driver aboard', 'loads', always('wheelLoadShare'), moveLoad),
  row('unsprung_mass', 'unsprung mass', 'wheel, brake, hub and upright on scales, and half of what swings', 'loads', always('unsprungMassShare'), moveUnsprung),
  row('tyre_on_arch', 'height at which the tyre meets the arch', 'hub to arch with the tyre on the arch, widest tyre, on lock', 'standing', always('tyreOnArch'), ({ site }, by) => { site.tyreOnArchHeight += by; }),
  row('lowest_wheel', 'height at which something else ends the droop', 'hub to arch where strap, joint or driveshaft ends the droop', 'standing', having(({ site }) => site.lowestWheelHeight !== null, 'lowestWheel'), ({ site }, by) => { site.lowestWheelHeight = (site.lowestWheelHeight as number) + by; }),
  row('stop_force', 'force curve of the bump stop', 'the bump stop’s force in a press, as cut', 'forces', having(({ corner }) => corner.bumpStop.curve, 'stopForceShare'), part('bumpStop', moveStopForce)),
  row('bush_give', 'give of the mount’s bush', 'how far the shoulder comes up in the mount, pressed with the bump load', 'never', giveWidth, part('mount', (m, by) => { m.bushGive += by; })),
  row('spring_bore', 'bore of the main spring', 'the spring’s bore, at both ends', 'lengths', always('springBore'), part('spring', (s, by) => { s.bore += by; })),
  row('helper_bore', 'bore of the helper', 'the helper’s bore', 'lengths', withHelper('springBore'), part('helper', (h, by) => { h.bore += by; })),
  row('coupler_bore', 'bore of the coupler', 'the coupler’s bore', 'lengths', having(({ corner }) => (corner.helper?.coupler ?? 0) > 0, 'diameter'), part('helper', (h, by) => { h.couplerBore += by; })),
  row('sleeve_bore', 'bore of the sleeve', 'the sleeve’s bore, at both ends', 'lengths', always('diameter'), part('sleeve', (s, by) => { s.bore += by; })),
  row('sleeve_diameter', 'outer diameter of the sleeve', 'the sleeve over its thread', 'lengths', always('diameter'), part('sleeve', (s, by) => { s.outerDiameter += by; })),
  row('body_diameter', 'diameter of the damper body', 'the damper’s body where the sleeve slides over', 'lengths', always('diameter'), part('damper', (d, by) => { d.bodyDiameter += by; })),
  row('spigot_diameter', 'diameter of the perch’s spigot', 'the perch’s spigot at its widest', 'lengths', having(({ corner }) => corner.perch.spigotDiameter !== null, 'diameter'), part('perch', (p, by) => { p.spigotDiameter = (p.spigotDiameter as number) + by; })),
  row('mount_bore', 'bore of the mount', 'the mount’s bore at its narrowest', 'lengths', always('diameter'), part('mount', (m, by) => { m.bore += by; })),
  row('washer_diameter', 'diameter of the mount’s washers', 'the widest of washers and lower bush', 'lengths', always('diameter'), part('mount', (m, by) => { m.washerDiameter += by; })),
  row('isolator_bore', 'bore of the isolator', 'the isolator’s bore, squeezed', 'lengths', having(({ corner }) => corner.isolator, 'diameter'), part('isolator', (i, by) => { i.bore += by; })),
  row('stop_diameter', 'diameter of the bump stop', 'the bump stop at its widest', 'lengths', always('diameter'), part('bumpStop', (b, by) => { b.diameter += by; })),
  row('packer_diameter', 'diameter of the packer', 'the packer at its widest', 'lengths', having(({ corner }) => corner.bumpStop.packer > 0, 'diameter'), part('bumpStop', (b, by) => { b.packerDiameter += by; })),
  row('tyre_rate', 'rate of the tyre', 'the tyre’s rate: hub height under two known loads', 'never', always('tyreRateShare'), ({ site }, by) => { site.tyreRate *= 1 + by; }),
  row('engagement', 'how deep the seats hold the spring', 'how deep the spigots of both seats hold the spring', 'lengths', always('engagement'), part('perch', (p, by) => { p.engagement = Math.max(0, p.engagement + by); })),
  row('motion_length', 'damper length at ride height', 'damper length at ride height, spring out', 'never', always('damperLength'), moveLengths),
  row('motion_ratio', 'motion ratio', 'more pairs of hub height and damper length', 'never', always('motionRatioShare'), moveRatio),
];

/** The field of a part that an input is about, where a usual value may have been taken for it. */
const ASSUMABLE: Readonly<Record<string, readonly [part: keyof Corner, field: string]>> = {
  perch_height: ['perch', 'lockRing'],
  raise: ['mount', 'raise'],
  bush_give: ['mount', 'bushGive'],
  isolator_thickness: ['isolator', 'thickness'],
  closed_fraction: ['bumpStop', 'closedFraction'],
  gas: ['damper', 'gas'],
  engagement: ['perch', 'engagement'],
};

/** The same of the wheel; their widths are shares. */
const ASSUMABLE_OF_WHEEL: Readonly<Record<string, 'unsprungMass' | 'tyreRate'>> = {
  unsprung_mass: 'unsprungMass',
  tyre_rate: 'tyreRate',
};

/** The field that a usual value was taken for, which this input is about; null where it was measured. */
export function assumedName(id: string, { site, corner }: Model): string | null {
  const field = ASSUMABLE_OF_WHEEL[id] ?? '';
  return site.assumed?.[field] === undefined ? (assumedField(id, { corner })?.[1] ?? null) : field;
}

/** The part and field of a usual value that was taken for this input; null where it was measured. */
export function assumedField(id: string, { corner }: Pick<Model, 'corner'>): (typeof ASSUMABLE)[string] | null {
  const [part, field] = ASSUMABLE[id] ?? [];
  if (part === undefined || field === undefined) return null;
  return corner[part]?.assumed?.[field] === undefined ? null : [part, field];
}

/** How far off a usual value may be that stands for what nobody measured. */
function assumedWidth(id: string, model: Model): number {
  const ofWheel = ASSUMABLE_OF_WHEEL[id];
  if (ofWheel !== undefined) return (model.site.assumed?.[ofWheel] ?? 0) / model.site[ofWheel];
  const [part, field] = assumedField(id, model) ?? [];
  return part === undefined ? 0 : (model.corner[part]?.assumed?.[field as string] as number);
}

/** No surer than what was assumed. */
function widened(width: Width | null, half: number): Width | null {
  if (!(half > 0)) return width;
  return { down: Math.max(half, width?.down ?? 0), up: Math.max(half, width?.up ?? 0) };
}

function row(
  id: string,
  label: string,
  measure: string,
  learnt: Learnt,
  measured: WidthOf,
  move: Change,
): ToleranceInput {
  const width: WidthOf = (model, tolerances) => widened(measured(model, tolerances), assumedWidth(id, model));
  const moved = (model: Model, by: number) => {
    const draft = draftOf(model);
    move(draft, by);
    return draft;
  };
  return { id, label, measure, learnt, of: move.of ?? null, width, moved, move };
}

function moveGas(damper: Mutable<Damper>, by: number): void {
  const { gas } = damper;
  if (gas.kind === 'none') return;
  damper.gas =
    gas.kind === 'charge'
      ? { ...gas, chargePressure: gas.chargePressure * (1 + by) }
      : { ...gas, outForce: gas.outForce * (1 + by), inForce: gas.inForce === null ? null : gas.inForce * (1 + by) };
}

/** The scales are off by a share of what they read: of the whole wheel load, unsprung mass included, on either side. */
function moveLoad(draft: Draft, by: number): void {
  const { unsprungMass } = draft.site;
  addSprung(draft, (sprungMass) => by * (sprungMass + unsprungMass));
}

/** @param kilogramsOn added to a sprung mass: to the mean's, and so to the load states', and to each side's */
function addSprung({ site }: Draft, kilogramsOn: (sprungMass: number) => number): void {
  const perKilogram = site.sprungLoad / site.sprungMass;
  const kilograms = kilogramsOn(site.sprungMass);
  const newtons = kilograms * perKilogram;
  site.sprungMass += kilograms;
  site.sprungLoad += newtons;
  site.heaviestLoad += newtons;
  site.sides = site.sides.map((side) => {
    const more = kilogramsOn(side.sprungMass);
    const heavier = more * perKilogram;
    return {
      name: side.name,
      sprungMass: side.sprungMass + more,
      sprungLoad: side.sprungLoad + heavier,
      heaviestLoad: side.heaviestLoad + heavier,
    };
  });
  site.loads = site.loads.map((l) => ({
    ...l,
    sprungMass: l.sprungMass + kilograms,
    sprungLoad: l.sprungLoad + newtons,
  }));
}

/** The scales read the whole wheel: what is unsprung is not sprung. */
function moveUnsprung(draft: Draft, by: number): void {
  const kilograms = by * draft.site.unsprungMass;
  draft.site.unsprungMass += kilograms;
  addSprung(draft, () => -kilograms);
}

function moveStopForce(stop: Mutable<BumpStop>, by: number): void {
  if (stop.curve === null) return;
  const points = stop.curve.points.map((point) => ({ ...point, force: point.force * (1 + by) }));
  stop.curve = { ...stop.curve, points };
}

function moveLengths({ site }: Draft, by: number): void {
  site.motion = { ...site.motion, bases: site.motion.bases.map((base) => base + by) };
}

/** Turns the motion curve about the target height, so that the damper length there stays. */
function moveRatio({ site }: Draft, by: number): void {
  const { motion, target } = site;
  const turn = by * motion.ratioAtMiddle;
  site.motion = {
    ...motion,
    bases: motion.bases.map((base, k) => base + turn * ((motion.heights[k] as number) - target.targetHeight)),
    slopes: motion.slopes.map((slope) => slope + turn),
    ratioAtMiddle: motion.ratioAtMiddle * (1 + by),
  };
}
