/** Axle plans with every part shared: one and the same combination in all setups. */
import type { Candidate } from '../../domain/ranking/criteria.ts';
import { FAMILIES } from '../../domain/scenario.ts';
import type { Steps } from '../../domain/steps.ts';
import type { Desk } from '../desk.ts';
import { type AxleLayout, indexOf } from '../layout.ts';
import type { AxleClass, AxlePlan } from './axlePlan.ts';
import { mostAnywhere, mostOn, type PlanRound, scoreOn } from './score.ts';
import { type Visitor, visitWorkable } from './visit.ts';
import { HAIR, type PlanSetup, worthOf } from './worth.ts';

export interface SharedOutcome {
  readonly classes: readonly AxleClass[];
  /** Combinations of the axle that work in every setup. */
  readonly workable: number;
}

/** @param desks one a setup, in the order of `setups` */
export function* sharedAxle(desks: readonly [Desk, ...Desk[]], setups: readonly PlanSetup[]): Steps<SharedOutcome> {
  const keeper = new ClassKeeper(desks[0].layout, setups);
  yield* visitWorkable(desks, keeper);
  return { classes: keeper.found(), workable: keeper.workable };
}

/** A class while it is being filled: numbers only, until something is worth a score. */
interface Filling {
  readonly price: number;
  best: AxlePlan | null;
  bestIndex: number;
  firstIndex: number;
}

/** The classes of one stack that share their frequencies, by price. */
interface Family {
  readonly frequencies: readonly number[];
  readonly byPrice: Map<number, Filling>;
}

class ClassKeeper implements Visitor {
  workable = 0;
  readonly #layout: AxleLayout;
  readonly #setups: readonly PlanSetup[];
  readonly #families: Family[][];
  /** Per stack what holds for the round at hand: its family, and its bound on an endless sleeve. */
  readonly #family: (Family | null)[];
  readonly #bound: Float64Array;
  #headPrice = 0;

  constructor(layout: AxleLayout, setups: readonly PlanSetup[]) {
    const { count } = layout.stacks;
    this.#layout = layout;
    this.#setups = setups;
    this.#families = Array.from({ length: count }, () => []);
    this.#family = new Array<Family | null>(count).fill(null);
    this.#bound = new Float64Array(count);
  }

  begin(rounds: readonly PlanRound[]): void {
    this.#family.fill(null);
    this.#bound.fill(Number.NaN);
    this.#headPrice = headPrice(rounds[0] as PlanRound);
  }

  visit(rounds: readonly PlanRound[], sleeve: number, perch: number, stack: number): void {
    this.workable++;
    const index = indexOf(this.#layout, (rounds[0] as PlanRound).number, sleeve, perch, stack);
    const filling = this.#fillingOf(rounds, sleeve, perch, stack);
    if (index < filling.firstIndex) filling.firstIndex = index;
    if (!couldLead(filling, this.#endless(rounds, stack), index)) return;
    if (!couldLead(filling, this.#sum(rounds, (round) => mostOn(round, sleeve, perch, stack)) + HAIR, index)) return;
    const corners = rounds.map((r) => scoreOn(r, sleeve, perch, stack, index));
    const worth = corners.reduce((sum, c, s) => sum + worthOf(c.logScore, this.#setups[s] as PlanSetup), 0);
    if (!couldLead(filling, worth, index)) return;
    filling.best = { corners, worth };
    filling.bestIndex = index;
  }

  found(): AxleClass[] {
    return this.#families.flatMap((families, stack) => {
      const purchase = this.#setups.map(() => stack).join(' ');
      return families.flatMap(({ byPrice }) =>
        [...byPrice.values()].map((filling) => {
          const { firstIndex } = filling;
          // Whatever is met first leads an empty class, so none is left empty.
          const best = filling.best as AxlePlan;
          const corners = best.corners.map((c): Candidate => ({ ...c, index: firstIndex }));
          return { purchase, best, first: { corners, worth: Number.NEGATIVE_INFINITY } };
        }),
      );
    });
  }

  #fillingOf(rounds: readonly PlanRound[], sleeve: number, perch: number, stack: number): Filling {
    const family = this.#family[stack] ?? this.#familyOf(rounds, stack);
    this.#family[stack] = family;
    const price = this.#setups[0]?.ranking.price === null ? 0 : this.#price(sleeve, perch, stack);
    const known = family.byPrice.get(price);
    if (known) return known;
    const made = { price, best: null, bestIndex: -1, firstIndex: Number.POSITIVE_INFINITY };
    family.byPrice.set(price, made);
    return made;
  }

  #familyOf(rounds: readonly PlanRound[], stack: number): Family {
    const frequencies = rounds.map(({ desk }) => desk.room.frequency[stack] as number);
    const ofStack = this.#families[stack] as Family[];
    const known = ofStack.find((f) => f.frequencies.every((frequency, s) => frequency === frequencies[s]));
    if (known) return known;
    const made = { frequencies, byPrice: new Map<number, Filling>() };
    ofStack.push(made);
    return made;
  }

  /** As the price of a corner is summed, family by family; NaN as soon as a part has none. */
  #price(sleeve: number, perch: number, stack: number): number {
    const { sleeves, perches, stacks } = this.#layout;
    const parts = [sleeves[sleeve], perches[perch], stacks.helpers[stack], stacks.springs[stack]];
    return parts.reduce((sum, part) => sum + (part ? (part.price ?? Number.NaN) : 0), this.#headPrice);
  }

  #endless(rounds: readonly PlanRound[], stack: number): number {
    if (Number.isNaN(this.#bound[stack] as number)) {
      this.#bound[stack] = this.#sum(rounds, (round) => mostAnywhere(round, stack)) + HAIR;
    }
    return this.#bound[stack] as number;
  }

  #sum(rounds: readonly PlanRound[], logScore: (round: PlanRound) => number): number {
    let sum = 0;
    for (let s = 0; s < rounds.length; s++)
      sum += worthOf(logScore(rounds[s] as PlanRound), this.#setups[s] as PlanSetup);
    return sum;
  }
}

/** Whether a combination of at most this worth could still be the best of its class. */
function couldLead({ best, bestIndex }: Filling, worth: number, index: number): boolean {
  if (best === null) return true;
  return worth > best.worth || (worth === best.worth && index < bestIndex);
}

const HEAD_FAMILIES = FAMILIES.slice(0, FAMILIES.indexOf('sleeve'));

function headPrice({ head }: PlanRound): number {
  return HEAD_FAMILIES.reduce((sum, family) => {
    const part = head.corner[family];
    return sum + (part ? (part.price ?? Number.NaN) : 0);
  }, 0);
}
