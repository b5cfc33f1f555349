/**
 * The cars that a scenario's numbers may stand for: each toleranced input off by a draw of its own, the same draws for every
 * purchase, so that two of them are compared on the same cars. Of each car there is the truth, and what the bench shows of it
 * before anything is cut.
 */
import type { Corner, Site } from '../model/corner/site.ts';
import { type AxleName, type AxleOptions, FAMILIES, type Scenario, type Tolerances } from '../model/scenario.ts';
import type { Draws } from '../result/advice.ts';
import {
  type Draft,
  type Model,
  offBy,
  TOLERANCE_INPUTS,
  type ToleranceInput,
  type Width,
} from '../result/tolerance/inputs.ts';

/**
 * The minimal standard generator: x' = 16807 x mod (2^31 - 1).
 * Source: Park & Miller (1988), "Random number generators: good ones are hard to find", Communications of the ACM
 * 31(10), pp. 1192-1201. Its test: from x = 1 the 10,000th value after it is 1043618065.
 * Valid: seeds from 1 to 2^31 - 2. Every product stays below 2^46, so doubles carry it exactly.
 */
const GENERATOR = 'Park & Miller 1988, minimal standard';
const MULTIPLIER = 16807;
const MODULUS = 2 ** 31 - 1;

export function nextState(state: number): number {
  return (MULTIPLIER * state) % MODULUS;
}

/** Numbers spread evenly over -1 to 1, the same for the same seed. */
export function symmetricDraws(seed: number): () => number {
  let state = seed;
  return () => {
    state = nextState(state);
    return (2 * state) / MODULUS - 1;
  };
}

export const DRAWS: Draws = { count: 512, seed: 20011, generator: GENERATOR };
/** The rear axle's draws do not repeat the front's. */
const SEEDS: Readonly<Record<AxleName, number>> = { front: DRAWS.seed, rear: DRAWS.seed + 7 };

/** Of one axle of one car: how far each input is off, and how far off it is read, -1 to 1. */
interface Draw {
  readonly errors: readonly number[];
  readonly readings: readonly number[];
}

/** @param count of cars */
export function drawsOf(axle: AxleName, count: number): Draw[] {
  const draw = symmetricDraws(SEEDS[axle]);
  const row = () => TOLERANCE_INPUTS.map(draw);
  return Array.from({ length: count }, () => ({ errors: row(), readings: row() }));
}

/** An axle with what may be put on it: as the scenario has it, as it is in one car, or as the bench shows it. */
export interface Bench {
  readonly site: Site;
  readonly options: AxleOptions;
}

/** What decides how far the cars lie apart, and what the bench shows of them. */
export type Unsure = Pick<Scenario, 'tolerances' | 'measuredBeforeCutting'>;

export interface Cars {
  readonly count: number;
  /** The axle of car k, from 0. */
  truth(k: number): Bench;
  /**
   * The same as the bench shows it: what is measured there with its reading error, all else at its nominal. What would be
   * read no better than it is known counts as not measured.
   */
  shown(k: number): Bench;
}

/** @param count fewer than are usual, for a look */
export function carsOf(bench: Bench, unsure: Unsure, count = DRAWS.count): Cars {
  const draws = drawsOf(bench.site.axle, count);
  const movable = movablesOf(bench, unsure);
  const { tolerances, measuredBeforeCutting } = unsure;
  const reading = ({ learnt }: ToleranceInput) => (learnt === 'lengths' ? tolerances.reading : tolerances.readingShare);
  const isMeasured = ({ input, width }: Off) =>
    (measuredBeforeCutting as readonly string[]).includes(input.learnt) && reading(input) < (width.down + width.up) / 2;
  return {
    count,
    truth: (k) =>
      movedBy(bench, movable, ({ place, width }) => offBy(width, (draws[k] as Draw).errors[place] as number)),
    shown: (k) =>
      movedBy(bench, movable, (off) => {
        const { errors, readings } = draws[k] as Draw;
        const { place, input, width } = off;
        const read = offBy(width, errors[place] as number) + reading(input) * (readings[place] as number);
        return isMeasured(off) ? read : 0;
      }),
  };
}

/** One input that is off, by its place in the table, which is its place among the draws. */
interface Off {
  readonly place: number;
  readonly input: ToleranceInput;
  readonly width: Width;
}

/** What of a model is off at all. */
export function offsOf(isMeant: (input: ToleranceInput) => boolean, model: Model, tolerances: Tolerances): Off[] {
  return TOLERANCE_INPUTS.flatMap((input, place) => {
    const width = isMeant(input) ? input.width(model, tolerances) : null;
    return width === null ? [] : [{ place, input, width }];
  });
}

/** What is off of the site and of each option, in the order of the options. */
type Movables = Readonly<Record<keyof AxleOptions, readonly (readonly Off[])[]>> & { readonly site: readonly Off[] };

function movablesOf({ site, options }: Bench, { tolerances }: Unsure): Movables {
  const first = Object.fromEntries(FAMILIES.map((family) => [family, options[family][0]])) as unknown as Corner;
  const ofFamily = FAMILIES.map((family) => {
    const own = (part: AxleOptions[typeof family][number] | null) =>
      offsOf(({ of }) => of === family, { site, corner: { ...first, [family]: part } }, tolerances);
    return [family, options[family].map((part) => (part === null ? [] : own(part)))];
  });
  return {
    ...Object.fromEntries(ofFamily),
    site: offsOf(({ of }) => of === null, { site, corner: first }, tolerances),
  };
}

function movedBy({ site, options }: Bench, movables: Movables, by: (off: Off) => number): Bench {
  const parts = FAMILIES.map((family) => {
    const moved = options[family].map((part, k) => {
      const draft = { site, corner: { [family]: part && { ...part } } } as unknown as Draft;
      for (const off of movables[family][k] as readonly Off[]) off.input.move(draft, by(off));
      return draft.corner[family];
    });
    return [family, moved];
  });
  const draft = { site: { ...site }, corner: {} } as unknown as Draft;
  for (const off of movables.site) off.input.move(draft, by(off));
  return { site: draft.site, options: Object.fromEntries(parts) };
}
