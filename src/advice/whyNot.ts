/**
 * Why a spring never works: its closest combination, what that lacks, and the smallest cures, each confirmed by the
 * model. A cure may start from any listed combination with the spring, since the lists are what can be bought.
 */
import { CHECK } from '../model/corner/checks.ts';
import type { Finding } from '../model/corner/findings.ts';
import { cornerAt } from '../model/corner/options.ts';
import type { Corner, Site } from '../model/corner/site.ts';
import { cornerId } from '../model/ids.ts';
import type { Helper } from '../model/parts.ts';
import { type AxleName, type AxleOptions, FAMILIES, type Scenario } from '../model/scenario.ts';
import type { Steps } from '../model/steps.ts';
import { type Cure, rounded, type WhyNot, type WhyNotSpring } from '../result/advice.ts';
import { type CureFound, singleCures } from './cure.ts';
import { boreOver, genericHelpers } from './generic.ts';
import { partsText } from './messages.ts';
import { nearestSprings } from './nearest.ts';
import { CLOSEST, pairCure } from './pairCure.ts';
import { type Listed, listedOf, pickedDigits, type Trial, trialsOf, withHelpers } from './trials.ts';

/** Springs that are listed with their cures: all where there are few, else the nearest, and the rest is counted. */
export const MOST_LISTED = { all: 60, nearest: 50 } as const;
/** Combinations with one spring that are all tried; beyond, the option lists are thinned evenly. */
const MOST_A_SPRING = 20_000;
/** The same over all listed springs of an axle, and over all that the nearest are found among. */
const MOST_AN_AXLE = 150_000;
const MOST_TO_FIND = 6_000_000;

export interface DeadSprings {
  readonly site: Site;
  readonly options: AxleOptions;
  /** Helpers that its own list does not hold. */
  readonly otherHelpers: readonly Helper[];
  /** Places in `options.spring` of the springs that never work. */
  readonly springs: readonly number[];
}

/** Helpers that an axle does not list: those of the other axle, or generic ones where neither lists one and nothing passes. */
export function helpersBeyond({ axles, margins }: Scenario, axle: AxleName, isEmpty: boolean): Helper[] {
  const { options } = axles[axle];
  const other = axles[axle === 'front' ? 'rear' : 'front'].options.helper;
  const listed = new Set(options.helper.map((helper) => JSON.stringify(helper)));
  if (isEmpty && [...options.helper, ...other].every((helper) => helper === null)) {
    return genericHelpers(boreOver(cornerAt(options, 0), margins.passing));
  }
  return other.flatMap((helper) => (helper !== null && !listed.has(JSON.stringify(helper)) ? [helper] : []));
}

export function* whyNot({ site, options, otherHelpers, springs }: DeadSprings): Steps<WhyNot> {
  const combinations = FAMILIES.reduce((n, f) => (f === 'spring' ? n : n * options[f].length), 1);
  const picked = pickedDigits(options, mostTried(springs.length));
  const looked_at = picked.reduce((product, digits) => product * digits.length, 1);
  const listed = listedOf(site, options, otherHelpers, picked);
  const isCut = springs.length > MOST_LISTED.all;
  const nearest = isCut ? nearestSprings(listed, springs, MOST_LISTED.nearest) : springs;
  const rows: WhyNotSpring[] = [];
  for (const spring of nearest) {
    yield { what: `springs that fail, ${site.axle}`, done: rows.length, of: nearest.length };
    rows.push(whyNotSpring(listed, spring));
  }
  return { combinations, looked_at, springs: rows, ...(isCut ? { not_listed: springs.length - rows.length } : {}) };
}

/** Combinations with one spring that are tried where so many never work. */
function mostTried(springs: number): number {
  const isCut = springs > MOST_LISTED.all;
  const most = isCut
    ? [MOST_AN_AXLE / MOST_LISTED.nearest, MOST_TO_FIND / springs]
    : [MOST_A_SPRING, MOST_AN_AXLE / Math.max(1, springs)];
  return Math.max(1, Math.floor(Math.min(...most)));
}

/** The trials of one spring, closest first, and its cures: what `whyNot` reports of it. */
export function curesOf(listed: Listed, spring: number): { trials: Trial[]; cures: CureFound[] } {
  const trials = trialsOf(listed, spring);
  return { trials, cures: curesFor(listed, trials) };
}

/** What can be advised freely comes first: one change, else a helper, else two changes; what is of last resort follows. */
function curesFor(listed: Listed, trials: readonly Trial[]): CureFound[] {
  const isFree = ({ isLast }: CureFound) => !isLast;
  const single = singleCures(listed, trials);
  if (single.some(isFree)) return single;
  const helped = helperCures(listed, withHelpers(listed, trials.slice(0, CLOSEST)));
  if (helped.some(isFree)) return [...helped, ...single];
  const pair = pairCure(listed.site, trials);
  if (pair) return [pair, ...single];
  const last = single.length > 0 ? single : helped;
  if (last.length > 0) return last;
  const lastPair = pairCure(listed.site, trials, true);
  return lastPair ? [lastPair] : [];
}

function whyNotSpring(listed: Listed, index: number): WhyNotSpring {
  const { trials, cures } = curesOf(listed, index);
  const closest = trials[0] as Trial;
  const { spring } = closest.corner;
  return {
    spring: spring.name,
    free_length_mm: spring.freeLength,
    rate_n_per_mm: spring.rate,
    closest: cornerId(listed.site.axle, closest.index),
    parts: partsText(closest.corner),
    distance: rounded(closest.distance, 2),
    failures: worstOfEach(closest.findings).map(lackOf),
    cures: cures.map((cure) => cureOf(listed.site, cure)),
  };
}

/** What a check lacks, in its unit; null where no amount would do. */
export function lackOf({ check, shortfall }: Pick<Finding, 'check' | 'shortfall'>) {
  const { unit } = CHECK[check];
  return { check, shortfall: Number.isFinite(shortfall) ? rounded(shortfall, unit === 'Hz' ? 3 : 1) : null, unit };
}

function cureOf({ axle }: Site, { trial, changes, amount, isLast }: CureFound): Cure {
  return {
    on: cornerId(axle, trial.index),
    parts: partsText(trial.corner),
    changes: changes.map(({ kind, part, from, to }) => ({
      kind,
      part,
      from_mm: rounded(from, 1),
      to_mm: rounded(to, 1),
      ...(kind === 'groove' && isLast ? { body: 'unknown' as const } : {}),
    })),
    amount_mm: rounded(amount, 1),
  };
}

/** A helper swapped in: alone where that is enough, else with the smallest change that goes with it. */
function helperCures(listed: Listed, helped: readonly Trial[]): CureFound[] {
  const swap = (corner: Corner) => ({ kind: 'helper' as const, part: (corner.helper as Helper).name, from: 0, to: 0 });
  const alone = helped.find((trial) => trial.findings.length === 0);
  if (alone) return [{ trial: alone, corner: alone.corner, changes: [swap(alone.corner)], amount: 0, isLast: false }];
  const [best] = singleCures(listed, helped);
  return best ? [{ ...best, changes: [swap(best.corner), ...best.changes] }] : [];
}

/** One finding a check, the worst: the same lack is not reported twice. */
function worstOfEach(findings: readonly Finding[]): Finding[] {
  const checks = [...new Set(findings.map((f) => f.check))];
  return checks.map((check) =>
    findings.filter((f) => f.check === check).reduce((worst, f) => (f.shortfall > worst.shortfall ? f : worst)),
  );
}
