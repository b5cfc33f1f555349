/**
 * A setup without an answer: its nearest build, what passes on one axle all the same, the change that helps most, and what
 * would work. Everything that is said to work was judged by the model.
 */
import { cornerAt, stackOf } from '../model/corner/options.ts';
import { balanceLimits, isWithinLimits } from '../model/corner/pairBalance.ts';
import { judgedFrequency } from '../model/corner/rates.ts';
import { type Candidate, cornerScore } from '../model/corner/score.ts';
import { type Corner, type Site, siteOf } from '../model/corner/site.ts';
import { findingsAt, lightState, works } from '../model/corner/verdict.ts';
import { fromBase32 } from '../model/ids.ts';
import type { Helper, Spring } from '../model/parts.ts';
import { AXLE_NAMES, type AxleName, type Balance, type Scenario, type Setup } from '../model/scenario.ts';
import type { Steps } from '../model/steps.ts';
import { type Cure, type CureChange, rounded, type WhyNot } from '../result/advice.ts';
import type { ChangedCorner, HelpfulChange } from '../result/nothing.ts';
import { valuesOf } from '../result/quantities/quantity.ts';
import {
  combinationOf,
  type JudgedPair,
  plainCornerReport,
  quantitiesOf,
  workingOf,
} from '../result/records/combination.ts';
import type { AxleAlone, NothingWorks, PassingCorner } from '../result/result.ts';
import { CHANGE_SIZES, type ChangeSize, MOUNT_HEIGHT, TRIM } from './changes.ts';
import { boreOver, genericHelpers } from './generic.ts';
import { partsText } from './messages.ts';
import { helpersBeyond } from './whyNot.ts';
import { type Changed, firstValue, type Mapped, WAYS, type Way, wouldWork } from './wouldWork.ts';

/** One axle of a setup as the sweep left it. */
export interface SweptSide {
  /** The best of each class of passing combinations, by index. */
  readonly candidates: readonly Candidate[];
  /** How many passing combinations have each frequency. */
  readonly frequencies: ReadonlyMap<number, number>;
  readonly stacks: number;
}

export interface NothingFound {
  readonly scenario: Scenario;
  readonly setup: Setup;
  readonly fingerprint: string;
  readonly sides: Readonly<Record<AxleName, SweptSide>>;
  readonly whyNot: Readonly<Record<AxleName, WhyNot>>;
}

export function* nothingWorks(found: NothingFound): Steps<NothingWorks> {
  const empty = AXLE_NAMES.filter((axle) => isEmpty(found.sides[axle]));
  const indices = empty.length > 0 ? nearestOfAxles(found) : nearestToBalance(found);
  const pair = pairOf(found, indices);
  const asked = empty.length > 0 ? empty : AXLE_NAMES;
  const alone = function* (axle: AxleName): Steps<AxleAlone> {
    const passing = passingOf(found, axle, indices);
    if (!asked.includes(axle)) return { passing, change: null, would_work: null };
    return { passing, ...(yield* whatWouldWork(found, axle, pair)) };
  };
  const nearest = combinationOf(pair, 0, found.fingerprint);
  return { nearest, axles: { front: yield* alone('front'), rear: yield* alone('rear') } };
}

const isEmpty = ({ candidates }: SweptSide) => candidates.length === 0;
const otherOf = (axle: AxleName): AxleName => (axle === 'front' ? 'rear' : 'front');

type Indices = JudgedPair['indices'];

function pairOf({ scenario, setup }: NothingFound, indices: Indices): JudgedPair {
  const working = (axle: AxleName) =>
    workingOf(siteOf(scenario, setup, axle), cornerAt(scenario.axles[axle].options, indices[axle]));
  return { scenario, setup, indices, workings: { front: working('front'), rear: working('rear') } };
}

// The nearest build.

/**
 * Of an axle without anything that passes the closest combination of all springs; of the other its best, of those that are
 * in balance with it where there are any.
 */
function nearestOfAxles(found: NothingFound): Indices {
  const { scenario, setup, sides, whyNot } = found;
  const closest = (axle: AxleName) => {
    const row = whyNot[axle].springs.reduce((one, other) => (other.distance < one.distance ? other : one));
    return indexIn(row.closest);
  };
  const beside = (axle: AxleName) => {
    const best = ranked(sides[axle].candidates);
    const other = otherOf(axle);
    const corner = cornerAt(scenario.axles[other].options, closest(other));
    const frequency = judgedFrequency(lightState(siteOf(scenario, setup, other), corner));
    const balanced = best.find((one) => isInBalance(axle, one.frequency, frequency, setup.balance));
    return (balanced ?? (best[0] as Candidate)).index;
  };
  const nearest = (axle: AxleName) => (isEmpty(sides[axle]) ? closest(axle) : beside(axle));
  return { front: nearest('front'), rear: nearest('rear') };
}

/** The index of a combination in its corner's id. */
const indexIn = (id: string) => fromBase32(id.slice(1));

/** Best first. */
function ranked(candidates: readonly Candidate[]): Candidate[] {
  return [...candidates].sort((a, b) => (a.logScore === b.logScore ? a.index - b.index : b.logScore - a.logScore));
}

/** The two passing corners whose frequencies are nearest to the limits of balance; of equal ones the better. */
function nearestToBalance({ sides, setup }: NothingFound): Indices {
  const { from, to } = balanceLimits(setup.balance);
  const [fronts, rears] = AXLE_NAMES.map((axle) => bestByFrequency(sides[axle].candidates)) as [
    Candidate[],
    Candidate[],
  ];
  const pairs = fronts.flatMap((front) => {
    const below = rears.findLast(({ frequency }) => frequency < from * front.frequency);
    const above = rears.find(({ frequency }) => frequency > to * front.frequency);
    return [below, above].flatMap((rear) => {
      if (rear === undefined) return [];
      const ratio = rear.frequency / front.frequency;
      return { front, rear, lack: Math.max(from - ratio, ratio - to), score: front.logScore + rear.logScore };
    });
  });
  const best = pairs.reduce((one, other) =>
    other.lack < one.lack || (other.lack === one.lack && other.score > one.score) ? other : one,
  );
  return { front: best.front.index, rear: best.rear.index };
}

/** The best of each frequency, in rising order. */
function bestByFrequency(candidates: readonly Candidate[]): Candidate[] {
  const best = new Map<number, Candidate>();
  for (const candidate of ranked(candidates)) {
    if (!best.has(candidate.frequency)) best.set(candidate.frequency, candidate);
  }
  return [...best.values()].sort((a, b) => a.frequency - b.frequency);
}

/** The best of an axle by itself, one for each spring and helper. */
function passingOf(found: NothingFound, axle: AxleName, nearest: Indices): PassingCorner[] {
  const { scenario, setup, sides } = found;
  const { candidates, stacks } = sides[axle];
  const best = new Map<number, Candidate>();
  for (const candidate of ranked(candidates)) {
    const stack = stackOf(candidate.index, stacks);
    if (!best.has(stack)) best.set(stack, candidate);
  }
  const site = siteOf(scenario, setup, axle);
  return [...best.values()].slice(0, scenario.ranking.keep).map(({ index, logScore }) => {
    const corner = plainCornerReport(pairOf(found, { ...nearest, [axle]: index }), axle);
    return { score: cornerScore(site, scenario.ranking, logScore), corner };
  });
}

// What would work, and the change that helps most.

/** What a corner has to do: pass at the site and, where the other axle has something that passes, be in balance with it. */
interface Demand {
  readonly site: Site;
  readonly isBalanced: ((corner: Corner) => boolean) | null;
}

function* whatWouldWork(
  found: NothingFound,
  axle: AxleName,
  { workings }: JudgedPair,
): Steps<Pick<AxleAlone, 'change' | 'would_work'>> {
  const { scenario, sides } = found;
  const demand = demandOf(found, axle);
  if (demand === null) return { change: null, would_work: null };
  const nearest = workings[axle].state.corner;
  const mapped = yield* wouldWork({ ...demand, options: scenario.axles[axle].options, nearest });
  const onList = (cures: readonly Cure[]) => (isEmpty(sides[axle]) ? changeOnList(found, axle, demand, cures) : null);
  const cures = found.whyNot[axle].springs.flatMap((spring) => spring.cures);
  const change =
    onList([...cures.filter(isOneChange), ...unlistedCures(found, axle, demand.site)]) ??
    changeOnMap(found, axle, mapped, nearest.spring) ??
    onList(cures);
  return { change, would_work: mapped.map };
}

/** Null where both axles have what passes and no frequency within this one's window is in balance with the other's. */
function demandOf({ scenario, setup, sides }: NothingFound, axle: AxleName): Demand | null {
  const site = siteOf(scenario, setup, axle);
  const others = [...sides[otherOf(axle)].frequencies.keys()];
  if (others.length === 0) return { site, isBalanced: null };
  const { from, to } = balanceLimits(setup.balance);
  const [least, most] = axle === 'front' ? [1 / to, 1 / from] : [from, to];
  const frequencyFrom = Math.max(site.target.frequencyFrom, least * Math.min(...others));
  const frequencyTo = Math.min(site.target.frequencyTo, most * Math.max(...others));
  if (frequencyFrom > frequencyTo) return isEmpty(sides[axle]) ? { site, isBalanced: null } : null;
  const narrow = { ...site, target: { ...site.target, frequencyFrom, frequencyTo } };
  const isBalanced = (corner: Corner) => {
    const own = judgedFrequency(lightState(narrow, corner));
    return others.some((other) => isInBalance(axle, own, other, setup.balance));
  };
  return { site: narrow, isBalanced };
}

function isInBalance(axle: AxleName, own: number, other: number, balance: Balance): boolean {
  return isWithinLimits(axle === 'front' ? other / own : own / other, balance);
}

/** One change, and none that depends on what nobody said the damper's body is. */
const isOneChange = ({ changes }: Cure) => changes.length === 1 && changes.every(({ body }) => body === undefined);

/** The closest combination of each spring with what is in no list: a generic helper, or another mount. */
function unlistedCures({ scenario, whyNot }: NothingFound, axle: AxleName, site: Site): Cure[] {
  const { options } = scenario.axles[axle];
  return whyNot[axle].springs.flatMap(({ closest: on }): Cure[] => {
    const corner = cornerAt(options, indexIn(on));
    const to = firstValue(site, { corner, findings: findingsAt(site, corner) }, MOUNT_HEIGHT);
    const mounted =
      to === null ? [] : [sizeChange({ before: corner, corner: MOUNT_HEIGHT.set(corner, to) }, MOUNT_HEIGHT)];
    const helped = unlistedHelpers(scenario, axle).filter((helper) => works(site, { ...corner, helper }));
    const changes = [...helped.map(({ name }) => helperChange(name)), ...mounted];
    const parts = partsText(corner);
    return changes.map((change) => {
      return { on, parts, changes: [change], amount_mm: rounded(Math.abs(change.to_mm - change.from_mm), 1) };
    });
  });
}

function unlistedHelpers({ axles, margins }: Scenario, axle: AxleName): Helper[] {
  return genericHelpers(boreOver(cornerAt(axles[axle].options, 0), margins.passing));
}

const helperChange = (part: string): CureChange => ({ kind: 'helper', part, from_mm: 0, to_mm: 0 });

/** Distinct cures that are tried on all listed springs. */
const MOST_OFFERS = 30;

/**
 * Of some cures of listed springs the one with which most of them pass on the parts it is made on; of equal ones the
 * smaller. Null where none is left that does all that is asked for.
 */
function changeOnList(
  found: NothingFound,
  axle: AxleName,
  { site, isBalanced }: Demand,
  cures: readonly Cure[],
): HelpfulChange | null {
  const { options } = found.scenario.axles[axle];
  const rows = found.whyNot[axle].springs;
  const springs = rows.map(({ closest }) => options.spring[indexIn(closest) % options.spring.length] as Spring);
  const helpers = [...helpersBeyond(found.scenario, axle, true), ...unlistedHelpers(found.scenario, axle)];
  const passes = (corner: Corner) => works(site, corner) && (isBalanced === null || isBalanced(corner));
  const tried = distinctCures(cures).map((cure) => {
    const corner = cure.changes.reduce(
      (made, change) => changed(made, change, helpers),
      cornerAt(options, indexIn(cure.on)),
    );
    return { cure, corner, work: springs.filter((spring) => passes({ ...corner, spring })).length };
  });
  const able = tried.filter(({ corner }) => passes(corner));
  const [best] = able.sort((a, b) => b.work - a.work);
  if (best === undefined) return null;
  const { cure, corner, work } = best;
  const { on, changes } = cure;
  const parts = partsText(cornerAt(options, indexIn(on)));
  return {
    ...{ on, parts, changes, spring: springRecord(corner.spring, true) },
    springs: { work, of: springs.length },
    ...thenOf(found, axle, corner),
  };
}

/** One of each kind and value, single ones first, then by amount. */
function distinctCures(cures: readonly Cure[]): Cure[] {
  const isLast = ({ changes }: Cure) => Number(changes.some(({ body }) => body !== undefined));
  const inOrder = [...cures].sort(
    (a, b) => isLast(a) - isLast(b) || a.changes.length - b.changes.length || a.amount_mm - b.amount_mm,
  );
  const known = new Map<string, Cure>();
  for (const cure of inOrder) {
    const key = JSON.stringify(cure.changes.map(({ kind, part, to_mm }) => [kind, part, to_mm]));
    if (!known.has(key)) known.set(key, cure);
  }
  return [...known.values()].slice(0, MOST_OFFERS);
}

function changed(corner: Corner, { kind, part, to_mm }: CureChange, helpers: readonly Helper[]): Corner {
  const size = [...CHANGE_SIZES, MOUNT_HEIGHT].find((one) => one.kind === kind);
  if (size !== undefined) return size.set(corner, to_mm);
  return { ...corner, helper: helpers.find(({ name }) => name === part) as Helper };
}

/**
 * The cell nearest to the nearest build's spring: of those that work with parts as listed, else with the first change that
 * does it; at the solid height as judged, else at the least it could be.
 */
function changeOnMap(found: NothingFound, axle: AxleName, { cells }: Mapped, nearest: Spring): HelpfulChange | null {
  const apart = ({ freeLength, rate }: Spring) =>
    Math.abs(Math.log(freeLength / nearest.freeLength)) + Math.abs(Math.log(rate / nearest.rate));
  const near = [...cells].sort((a, b) => apart(a.springs.judged) - apart(b.springs.judged));
  const orders = WAYS.flatMap((way) => (['judged', 'least'] as const).map((solid) => ({ solid, way })));
  for (const { solid, way } of orders) {
    const made = near.map(({ ways }) => ways[way]).find((one) => one?.solid === solid);
    if (!made) continue;
    const { corner, before } = made;
    const spring = springRecord(corner.spring, false);
    const parts = partsText(way === 'as_listed' ? corner : before);
    return { on: null, parts, changes: CHANGES_OF[way](made), spring, springs: null, ...thenOf(found, axle, corner) };
  }
  return null;
}

const CHANGES_OF: Readonly<Record<Way, (made: Changed) => readonly CureChange[]>> = {
  as_listed: () => [],
  trim: (made) => [sizeChange(made, TRIM)],
  helper: ({ corner }) => [helperChange((corner.helper as Helper).name)],
  mount: (made) => [sizeChange(made, MOUNT_HEIGHT)],
};

function sizeChange(
  { corner, before }: Pick<Changed, 'corner' | 'before'>,
  { kind, part, get }: ChangeSize,
): CureChange {
  return { kind, part: part(before), from_mm: rounded(get(before), 1), to_mm: rounded(get(corner), 1) };
}

function springRecord({ name, freeLength, rate, solid }: Spring, isListed: boolean): HelpfulChange['spring'] {
  return {
    name: isListed ? name : null,
    free_length_mm: rounded(freeLength, 1),
    rate_n_per_mm: rounded(rate, 2),
    solid_height_mm: rounded(solid.height, 1),
    solid_height_source: solid.source,
  };
}

/** The changed corner judged at the setup's own window, and with how much of the other axle it is in balance. */
function thenOf(found: NothingFound, axle: AxleName, corner: Corner): Pick<HelpfulChange, 'corner' | 'balanced_with'> {
  const { scenario, setup, sides } = found;
  const working = workingOf(siteOf(scenario, setup, axle), corner);
  const values = valuesOf(quantitiesOf(found, axle), working);
  const own = judgedFrequency(working.state);
  const other = sides[otherOf(axle)];
  const balanced = [...other.frequencies].filter(([frequency]) => isInBalance(axle, own, frequency, setup.balance));
  const figures = CHANGED_FIGURES.map((key) => [key, values[key]]);
  return {
    corner: { ...(Object.fromEntries(figures) as ChangedFigures), frequency_hz: own },
    balanced_with: isEmpty(other) ? null : balanced.reduce((sum, [, count]) => sum + count, 0),
  };
}

const CHANGED_FIGURES = [
  'perch_mm',
  'bump_travel_mm',
  'droop_travel_mm',
  'lowest_height_mm',
  'highest_height_mm',
] as const satisfies readonly (keyof ChangedCorner)[];
type ChangedFigures = Omit<ChangedCorner, 'frequency_hz'>;
