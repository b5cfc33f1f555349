/**
 * What an audit would save: for each measured axle the parts as built, sides brought together, and which of their numbers
 * changed. Whether it may be saved at all is decided here too.
 */
import type { Corner } from '../../model/corner/site.ts';
import {
  type Axle,
  type AxleName,
  type AxleOptions,
  FAMILIES,
  type Family,
  type SideName,
} from '../../model/scenario.ts';
import type { Model } from '../../result/tolerance/inputs.ts';
import type { AuditedUnit } from './audit.ts';
import type { CauseKind } from './causes.ts';
import { PARAMETERS, type ParameterName, readParameter, withParameter } from './parameters.ts';

export interface AxleAdoption {
  readonly axle: AxleName;
  /** Which option of each family was built. */
  readonly digits: Readonly<Record<Family, number>>;
  /** The parts as measured, the mean of both sides where both were. */
  readonly corner: Corner;
  /** The numbers that changed, in inner units. */
  readonly changed: Readonly<Partial<Record<ParameterName, number>>>;
  /** One load for both wheels or one each, kg; null: as it was. */
  readonly wheelLoad: number | Readonly<Record<SideName, number>> | null;
}

/** Causes that are settled by saving what was measured: the part is as it is, and nothing has to be put right. */
const SETTLED: readonly CauseKind[] = [
  'sleeve_length_off',
  'stop_length_off',
  'spring_length_off',
  'spring_rate_off',
  'wheel_load_off',
];

/** The units that have to be settled first: something is built or measured wrong there. */
export function findUnsettled(units: readonly AuditedUnit[]): readonly AuditedUnit[] {
  return units.filter(({ likeliest }) => {
    if (likeliest.verdict === 'consistent') return false;
    return likeliest.verdict !== 'cause' || !SETTLED.includes(likeliest.named.cause.kind);
  });
}

export function adoptionOf(
  axle: AxleName,
  units: readonly AuditedUnit[],
  digits: Readonly<Record<Family, number>>,
  wheelLoads: Readonly<Record<SideName, number>>,
): AxleAdoption | null {
  const mine = units.filter(({ unit }) => unit.axle === axle);
  const [first] = mine;
  if (!first) return null;
  const names = PARAMETERS.filter((name) => mine.some((unit) => correctionIn(unit, name) !== null));
  const entries = names.map((name) => [name, mean(mine.map((unit) => valueIn(unit, name)))] as const);
  const model = entries
    .filter(([name]) => name !== 'wheel_load')
    .reduce<Model>((m, [name, value]) => withParameter(m, name, value), first.given);
  const changed = Object.fromEntries(entries.filter(([name]) => name !== 'wheel_load'));
  return {
    axle,
    digits,
    corner: model.corner,
    changed,
    wheelLoad: names.includes('wheel_load') ? loadOf(mine, wheelLoads) : null,
  };
}

/** A side that was not weighed keeps its load; what was found for both moves both by as much. */
function loadOf(units: readonly AuditedUnit[], before: Readonly<Record<SideName, number>>): AxleAdoption['wheelLoad'] {
  const both = units.find(({ unit }) => unit.side === null);
  const more = both ? valueIn(both, 'wheel_load') - (readParameter(both.given, 'wheel_load') as number) : 0;
  const loadAt = (side: SideName) => {
    const unit = units.find((u) => u.unit.side === side);
    return unit ? valueIn(unit, 'wheel_load') : before[side] + more;
  };
  const [left, right] = [loadAt('left'), loadAt('right')];
  return left === right ? left : { left, right };
}

function correctionIn({ corrected }: AuditedUnit, name: ParameterName): number | null {
  return corrected.corrections.findLast(({ parameter }) => parameter === name)?.to ?? null;
}

function valueIn(unit: AuditedUnit, name: ParameterName): number {
  return correctionIn(unit, name) ?? (readParameter(unit.given, name) as number);
}

const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;

/** Where the parts of a corner stand in an axle's options; a family whose part is not among them gives -1. */
export function digitsFor(options: AxleOptions, corner: Corner): Record<Family, number> {
  const place = (family: Family) => options[family].findIndex((option) => alike(option, corner[family]));
  return Object.fromEntries(FAMILIES.map((family) => [family, place(family)])) as Record<Family, number>;
}

/** How a spring's numbers came to be known may differ, and what only follows from them. */
const ASIDE = new Set(['source', 'wire', 'rateEstimated', 'thinWire', 'thickWire', 'least', 'uncutLength']);

/** Whether an axle carries and moves as it did, but for what is adopted. */
export function siteTaken(before: Axle, after: Axle, adoption: AxleAdoption | null): boolean {
  const load = adoption?.wheelLoad ?? before.wheelLoads ?? before.wheelLoad;
  const offset = adoption?.changed.motion_offset ?? 0;
  const pairs = before.motion.pairs.map((pair) => ({ ...pair, damperLength: pair.damperLength + offset }));
  return alike(after.wheelLoads ?? after.wheelLoad, load) && alike(after.motion, { ...before.motion, pairs });
}

function alike(one: unknown, other: unknown): boolean {
  if (typeof one === 'number' && typeof other === 'number') {
    return Math.abs(one - other) <= 1e-7 * Math.max(1, Math.abs(other));
  }
  if (typeof one !== 'object' || typeof other !== 'object' || one === null || other === null) return one === other;
  const [a, b] = [one as Record<string, unknown>, other as Record<string, unknown>];
  // An estimated solid height is estimated anew from the measured free length and rate.
  if (a.source === 'estimated' && b.source === 'estimated') return true;
  return [...new Set([...Object.keys(a), ...Object.keys(b)])].every((key) => ASIDE.has(key) || alike(a[key], b[key]));
}
