/**
 * Axle plans with some part families swapped between setups: a combination per setup, alike in the shared digits.
 *
 * The key of a combination is the number made of its shared digits. A first walk notes, for each key and setup, what
 * that setup's part of a plan is worth at most: its corner's bound with the best corner of the other axle, and no more
 * than the setup's own best pair without any sharing. A second walk scores the combinations that, with what the other
 * setups give at most for the same key, could still reach the plans already known. Over each key the setups then
 * choose freely, best first, and a choice is given up as soon as it can't reach those plans.
 */
import type { SubProduct } from '../../model/corner/options.ts';
import type { Steps } from '../../model/steps.ts';
import { HAIR, type PlanSetup, worthOf } from '../axlePlan.ts';
import { limitsOn, mostAnywhere, mostWithin, scoreOn } from '../bounds.ts';
import { indexIn } from '../layout.ts';
import type { Batch, Workspace } from '../workspace.ts';
import { type Choice, type ChoiceClass, type ChoiceList, type Keyed, keyed } from './keys.ts';
import { visitWorkable } from './visit.ts';

/** The shared and the swapped part families of an axle. */
export interface SplitParts {
  readonly shared: SubProduct;
  readonly swapped: SubProduct;
}

/** What bounds one setup's part of a plan from above. */
export interface Ceiling {
  /** Best worth of the other axle's corners. */
  readonly otherAxle: number;
  /** Worth of the setup's own best pair. */
  readonly pair: number;
}

/**
 * @param workspaces one a setup
 * @param least worth that a plan must reach to matter
 */
export function* swappedAxle(
  workspaces: readonly Workspace[],
  setups: readonly PlanSetup[],
  parts: SplitParts,
  ceilings: readonly Ceiling[],
  least: number,
): Steps<Keyed[]> {
  const searches = workspaces.map((workspace, s): Search => {
    return { workspace, at: setups[s] as PlanSetup, keyOf: parts.shared.numberOf, ceiling: ceilings[s] as Ceiling };
  });
  const most: Map<number, number>[] = [];
  for (const search of searches) most.push(yield* mostByKey(search));
  const byKey: ChoicesByKey[] = [];
  for (const [s, search] of searches.entries()) {
    const others = most.filter((_, t) => t !== s);
    byKey.push(yield* choicesByKey(search, (key) => neededFor(key, others, least)));
  }
  return keyedOf(byKey, parts.swapped);
}

/** What one setup's part of a plan must be worth, given the most of the others; Infinity where one lacks the key. */
function neededFor(key: number, others: readonly ReadonlyMap<number, number>[], least: number): number {
  if (others.some((ofKey) => !ofKey.has(key))) return Number.POSITIVE_INFINITY;
  if (least === Number.NEGATIVE_INFINITY) return least;
  return others.reduce((needed, ofKey) => needed - (ofKey.get(key) as number), least);
}

export type ChoicesByKey = Map<number, ChoiceClass[]>;

/** Keys that leave every setup something, the lowest of those that give the same plans but for their shared digits. */
function keyedOf(byKey: readonly ChoicesByKey[], swapped: SubProduct): Keyed[] {
  const [first, ...others] = byKey as readonly [ChoicesByKey, ...ChoicesByKey[]];
  const known = byKey.map(() => new Map<string, number>());
  const seen = new Set<string>();
  const found: Keyed[] = [];
  const common = [...first.keys()].filter((key) => others.every((keyed) => keyed.has(key)));
  for (const key of common.sort((a, b) => a - b)) {
    const lists = byKey.map((keyed, s) =>
      listOf(keyed.get(key) as ChoiceClass[], swapped, known[s] as Map<string, number>),
    );
    // Many keys give the same choices, such as cuts of a sleeve that make no difference.
    const name = lists.map(({ number }) => number).join(' ');
    if (!seen.has(name)) found.push(keyed(lists));
    seen.add(name);
  }
  return found;
}

/** The choices in the order of their swapped parts, and a number that lists alike in all but their key share. */
function listOf(choices: ChoiceClass[], { partOf }: SubProduct, known: Map<string, number>): ChoiceList {
  const part = ({ best }: ChoiceClass) => partOf(best.corner.index);
  const classes = choices.sort((a, b) => part(a) - part(b));
  const text = classes.map((one) => {
    const { frequency, price } = one.best.corner;
    return `${one.stack} ${frequency} ${price} ${one.best.worth} ${part(one)} ${partOf(one.first.corner.index)}`;
  });
  const name = text.join(',');
  const number = known.get(name) ?? known.size;
  known.set(name, number);
  return { number, classes };
}

interface Search {
  readonly workspace: Workspace;
  readonly at: PlanSetup;
  readonly keyOf: SubProduct['numberOf'];
  readonly ceiling: Ceiling;
}

/** What the setup's part of a plan is worth at most with a corner of this log score. */
function mostWith({ at, ceiling }: Search, logScore: number): number {
  return Math.min(worthOf(logScore, at) + ceiling.otherAxle, ceiling.pair) + HAIR;
}

/** Per key what the setup's part of a plan is worth at most, by bounds alone. */
function* mostByKey(search: Search): Steps<Map<number, number>> {
  const { workspace, keyOf } = search;
  const found = new Map<number, number>();
  const visit = (batches: readonly Batch[], sleeve: number, perch: number, stack: number) => {
    const batch = batches[0] as Batch;
    const key = keyOf(indexIn(workspace.layout, batch.number, sleeve, perch, stack));
    const known = found.get(key);
    if (known !== undefined && known >= mostWith(search, mostAnywhere(batch, stack))) return;
    const most = mostWith(search, mostWithin(batch, stack, limitsOn(batch, sleeve, perch)));
    if (known === undefined || most > known) found.set(key, most);
  };
  yield* visitWorkable([workspace], { begin: () => undefined, visit });
  return found;
}

/**
 * @param neededWith what the setup's part of a plan with a key must be worth to matter
 */
function* choicesByKey(search: Search, neededWith: (key: number) => number): Steps<ChoicesByKey> {
  const { workspace, at, keyOf } = search;
  const found: ChoicesByKey = new Map();
  const visit = (batches: readonly Batch[], sleeve: number, perch: number, stack: number) => {
    const batch = batches[0] as Batch;
    const index = indexIn(workspace.layout, batch.number, sleeve, perch, stack);
    const key = keyOf(index);
    const needed = neededWith(key);
    if (mostWith(search, mostAnywhere(batch, stack)) < needed) return;
    const limits = limitsOn(batch, sleeve, perch);
    if (mostWith(search, mostWithin(batch, stack, limits)) < needed) return;
    const corner = scoreOn(batch, sleeve, perch, stack, index, limits);
    const choice = { corner, worth: worthOf(corner.logScore, at) };
    enterChoice(found, key, stack, choice, at.ranking.price !== null);
  };
  yield* visitWorkable([workspace], { begin: () => undefined, visit });
  return found;
}

/** Enters a choice into its class: of equal worths the lower index is the best. */
export function enterChoice(found: ChoicesByKey, key: number, stack: number, choice: Choice, isPriced: boolean): void {
  const ofKey = found.get(key);
  if (ofKey === undefined) {
    found.set(key, [{ stack, best: choice, first: choice }]);
    return;
  }
  const { frequency, price, index } = choice.corner;
  const known = ofKey.find(({ stack: other, best: { corner } }) => {
    return other === stack && corner.frequency === frequency && (!isPriced || corner.price === price);
  });
  if (known === undefined) {
    ofKey.push({ stack, best: choice, first: choice });
    return;
  }
  const { best } = known;
  if (choice.worth > best.worth || (choice.worth === best.worth && index < best.corner.index)) known.best = choice;
  if (index < known.first.corner.index) known.first = choice;
}
