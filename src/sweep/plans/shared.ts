/** Axle plans with every part shared: one and the same combination in all setups. */
import { ASSEMBLY_FAMILIES } from '../../model/corner/options.ts';
import type { Candidate } from '../../model/corner/score.ts';
import type { Steps } from '../../model/steps.ts';
import { type AxleClass, type AxlePlan, axlePlanOf, HAIR, type PlanSetup, worthOf } from '../axlePlan.ts';
import { limitsOn, mostAnywhere, mostWithin, scoreOn } from '../bounds.ts';
import { type AxleLayout, indexIn } from '../layout.ts';
import type { Batch, Workspace } from '../workspace.ts';
import { type Visitor, visitWorkable } from './visit.ts';

export interface SharedOutcome {
  readonly classes: readonly AxleClass[];
  /** Combinations of the axle that work in every setup. */
  readonly workable: number;
}

/** @param workspaces one a setup, in the order of `setups` */
export function* sharedAxle(
  workspaces: readonly [Workspace, ...Workspace[]],
  setups: readonly PlanSetup[],
): Steps<SharedOutcome> {
  const collector = new ClassCollector(workspaces[0].layout, setups);
  yield* visitWorkable(workspaces, collector);
  return { classes: collector.found(), workable: collector.workable };
}

/** A class while it is being filled: numbers only, until something is worth a score. */
interface Filling {
  readonly price: number;
  best: AxlePlan | null;
  bestIndex: number;
  firstIndex: number;
}

/** The classes of one stack that share their frequencies, by price. */
interface PriceClasses {
  readonly frequencies: readonly number[];
  readonly byPrice: Map<number, Filling>;
}

class ClassCollector implements Visitor {
  workable = 0;
  readonly #layout: AxleLayout;
  readonly #setups: readonly PlanSetup[];
  readonly #classes: PriceClasses[][];
  /** Per stack what holds for the batch being visited: its classes, and its bound on an endless sleeve. */
  readonly #current: (PriceClasses | null)[];
  readonly #bound: Float64Array;
  #assemblyPrice = 0;

  constructor(layout: AxleLayout, setups: readonly PlanSetup[]) {
    const { count } = layout.stacks;
    this.#layout = layout;
    this.#setups = setups;
    this.#classes = Array.from({ length: count }, () => []);
    this.#current = new Array<PriceClasses | null>(count).fill(null);
    this.#bound = new Float64Array(count);
  }

  begin(batches: readonly Batch[]): void {
    this.#current.fill(null);
    this.#bound.fill(Number.NaN);
    this.#assemblyPrice = assemblyPrice(batches[0] as Batch);
  }

  visit(batches: readonly Batch[], sleeve: number, perch: number, stack: number): void {
    this.workable++;
    const index = indexIn(this.#layout, (batches[0] as Batch).number, sleeve, perch, stack);
    const filling = this.#fillingOf(batches, sleeve, perch, stack);
    if (index < filling.firstIndex) filling.firstIndex = index;
    if (!couldLead(filling, this.#endless(batches, stack), index)) return;
    const most = this.#sum(batches, (batch) => mostWithin(batch, stack, limitsOn(batch, sleeve, perch)));
    if (!couldLead(filling, most + HAIR, index)) return;
    const corners = batches.map((batch) => scoreOn(batch, sleeve, perch, stack, index, limitsOn(batch, sleeve, perch)));
    const plan = axlePlanOf(corners, this.#setups);
    if (!couldLead(filling, plan.worth, index)) return;
    filling.best = plan;
    filling.bestIndex = index;
  }

  found(): AxleClass[] {
    return this.#classes.flat().flatMap(({ byPrice }) =>
      [...byPrice.values()].map((filling) => {
        const { firstIndex } = filling;
        // Whatever is met first leads an empty class, so none is left empty.
        const best = filling.best as AxlePlan;
        const corners = best.corners.map((c): Candidate => ({ ...c, index: firstIndex }));
        return { best, first: { corners, worth: Number.NEGATIVE_INFINITY } };
      }),
    );
  }

  #fillingOf(batches: readonly Batch[], sleeve: number, perch: number, stack: number): Filling {
    const ofPrices = this.#current[stack] ?? this.#classesOf(batches, stack);
    this.#current[stack] = ofPrices;
    const price = this.#setups[0]?.ranking.price === null ? 0 : this.#price(sleeve, perch, stack);
    const known = ofPrices.byPrice.get(price);
    if (known) return known;
    const made = { price, best: null, bestIndex: -1, firstIndex: Number.POSITIVE_INFINITY };
    ofPrices.byPrice.set(price, made);
    return made;
  }

  #classesOf(batches: readonly Batch[], stack: number): PriceClasses {
    const frequencies = batches.map(({ workspace }) => workspace.columns.frequency[stack] as number);
    const ofStack = this.#classes[stack] as PriceClasses[];
    const known = ofStack.find((f) => f.frequencies.every((frequency, s) => frequency === frequencies[s]));
    if (known) return known;
    const made = { frequencies, byPrice: new Map<number, Filling>() };
    ofStack.push(made);
    return made;
  }

  /** As the price of a corner is summed, part by part; NaN as soon as a part has none. */
  #price(sleeve: number, perch: number, stack: number): number {
    const { sleeves, perches, stacks } = this.#layout;
    const parts = [sleeves[sleeve], perches[perch], stacks.helpers[stack], stacks.springs[stack]];
    return parts.reduce((sum, part) => sum + (part ? (part.price ?? Number.NaN) : 0), this.#assemblyPrice);
  }

  #endless(batches: readonly Batch[], stack: number): number {
    if (Number.isNaN(this.#bound[stack] as number)) {
      this.#bound[stack] = this.#sum(batches, (batch) => mostAnywhere(batch, stack)) + HAIR;
    }
    return this.#bound[stack] as number;
  }

  #sum(batches: readonly Batch[], logScore: (batch: Batch) => number): number {
    let sum = 0;
    for (let s = 0; s < batches.length; s++)
      sum += worthOf(logScore(batches[s] as Batch), this.#setups[s] as PlanSetup);
    return sum;
  }
}

/** Whether a combination of at most this worth could still be the best of its class. */
function couldLead({ best, bestIndex }: Filling, worth: number, index: number): boolean {
  if (best === null) return true;
  return worth > best.worth || (worth === best.worth && index < bestIndex);
}

function assemblyPrice({ assembly }: Batch): number {
  return ASSEMBLY_FAMILIES.reduce((sum, family) => {
    const part = assembly.corner[family];
    return sum + (part ? (part.price ?? Number.NaN) : 0);
  }, 0);
}
