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
import type { Candidate } from '../../model/corner/score.ts';
import type { Steps } from '../../model/steps.ts';
import { limitsOn, mostAnywhere, mostWithin, scoreOn } from '../bounds.ts';
import { type AxleClass, axlePlanOf, enterClass, HAIR, type PlanSetup, worthOf } from '../join.ts';
import { indexIn } from '../layout.ts';
import type { Batch, Workspace } from '../workspace.ts';
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

interface Choice {
  readonly corner: Candidate;
  readonly worth: number;
  /** What the setup's part of a plan with this corner is worth at most. */
  readonly most: number;
}

/** A setup's choices for one key: of those bought and paired alike, the best and the first. */
interface ChoiceClass {
  readonly stack: number;
  best: Choice;
  first: Choice;
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
): Steps<AxleClass[]> {
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
  return classesOf(byKey, setups, workspaces[0] as Workspace, parts.swapped, least);
}

/** What one setup's part of a plan must be worth, given the most of the others; Infinity where one lacks the key. */
function neededFor(key: number, others: readonly ReadonlyMap<number, number>[], least: number): number {
  if (others.some((ofKey) => !ofKey.has(key))) return Number.POSITIVE_INFINITY;
  if (least === Number.NEGATIVE_INFINITY) return least;
  return others.reduce((needed, ofKey) => needed - (ofKey.get(key) as number), least);
}

export type ChoicesByKey = Map<number, ChoiceClass[]>;

function classesOf(
  byKey: readonly ChoicesByKey[],
  setups: readonly PlanSetup[],
  { layout }: Workspace,
  swapped: SubProduct,
  least: number,
): AxleClass[] {
  const classes = new Map<string, AxleClass>();
  const isPriced = setups[0]?.ranking.price !== null;
  const tried = new Set<string>();
  const [first, ...others] = byKey as readonly [ChoicesByKey, ...ChoicesByKey[]];
  // Many keys give the same choices, such as cuts of a sleeve that make no difference: the lowest stands for them.
  const common = [...first.keys()].filter((key) => others.every((keyed) => keyed.has(key)));
  for (const key of common.sort((a, b) => a - b)) {
    const choices = byKey.map((keyed) => keyed.get(key) as ChoiceClass[]);
    const signature = choices.map((list) => signatureOf(list, swapped)).join('|');
    if (tried.has(signature)) continue;
    tried.add(signature);
    chooseFreely(choices, least, (chosen) => {
      const plan = axlePlanOf(
        chosen.map(({ corner }) => corner),
        setups,
      );
      enterClass(classes, layout.stacks.count, plan, isPriced);
    });
  }
  return [...classes.values()];
}

/** Keys of one signature give the same plans but for their shared digits, and so in the order of their keys. */
function signatureOf(choices: readonly ChoiceClass[], { partOf }: SubProduct): string {
  const parts = choices.map(({ stack, best, first }) => {
    const { frequency, price } = best.corner;
    return `${stack} ${frequency} ${price} ${best.worth} ${partOf(best.corner.index)} ${partOf(first.corner.index)}`;
  });
  return parts.sort().join(',');
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
    const choice = { corner, worth: worthOf(corner.logScore, at), most: mostWith(search, corner.logScore) };
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

/** Every way to choose a class a setup that could reach `least`; both its best and its first corners are entered. */
function chooseFreely(
  choices: readonly (readonly ChoiceClass[])[],
  least: number,
  enter: (chosen: readonly Choice[]) => void,
): void {
  const sorted = choices.map((list) =>
    [...list].sort((a, b) => (a.best.most === b.best.most ? 0 : b.best.most - a.best.most)),
  );
  const top = sorted.map((list) => (list[0] as ChoiceClass).best.most);
  /** What the setups from `s` on are worth at most. */
  const rest = (s: number) => top.slice(s).reduce((sum, most) => sum + most, 0);
  descend(0, 0, []);

  function descend(s: number, sum: number, chosen: readonly ChoiceClass[]): void {
    const list = sorted[s];
    if (list === undefined) {
      enter(chosen.map(({ best }) => best));
      enter(chosen.map(({ first }) => first));
      return;
    }
    for (const one of list) {
      if (sum + one.best.most + rest(s + 1) < least) break;
      descend(s + 1, sum + one.best.most, [...chosen, one]);
    }
  }
}
