/** What the sweep of a range of heads writes on: its tally, its columns, and what it remembers between heads. */
import { type Geometry, perchLimits } from '../domain/corner/geometry.ts';
import type { BoundGrid } from './bound.ts';
import { type Head, type HeadRoom, headRoom } from './head.ts';
import type { AxleLayout } from './layout.ts';
import { type CandidateClass, emptyTally, type Tally, VERDICTS } from './tally.ts';

/** Counts of what the kernel did, so that tests can see that the fast path ran. */
export interface KernelWork {
  /** Combinations counted in blocks, in runs, and stack by stack. */
  blocks: number;
  runs: number;
  single: number;
  /** Corners handed to the scalar model for their score. */
  scored: number;
}

/** Everything the sweep of a range writes on; a round is one head with the sleeves and perches that share columns. */
export interface Desk {
  readonly layout: AxleLayout;
  readonly tally: Tally;
  readonly work: KernelWork;
  readonly room: HeadRoom;
  /** Per sleeve and perch the lowest and the highest place of the perch, see `placesOn`. */
  readonly places: readonly Places[];
  readonly fits: Map<string, FitMask>;
  /** Per sleeve and perch its mask, once asked for. */
  readonly masks: (FitMask | null)[];
  /** Per stack the frequency's part of the log score, and the frequency it was worked out for. */
  readonly wanted: Readonly<Record<'frequency' | 'log', Float64Array>>;
  /** Cuts of the same sleeve, by the set of sleeves looked at. */
  readonly cuts: Map<readonly number[], readonly (readonly number[])[]>;
  /** Per verdict how many sleeves and perches fell whole, all their stacks at once. */
  readonly fallen: Float64Array;
  /** All sleeves, for the many heads in which none stands proud. */
  readonly allSleeves: readonly number[];
  /** Per place in the perch order: how many runs begin to be high enough after it, and end before it. */
  readonly tooLow: Float64Array;
  readonly tooHigh: Float64Array;
  /** Per stack: what its score is at most in this round, NaN until asked for. */
  readonly bounds: Float64Array;
  /** Per stack its class in this round, where the round has one for it. */
  readonly classes: (CandidateClass | null)[];
  /** Workable stacks that are worth looking at in this round, `liveCount` of them. */
  readonly live: Int32Array;
  /** Per stack what it scores at most in this round within some limits (lowest Infinity: not known yet). */
  readonly scores: Readonly<Record<'score' | 'lowest' | 'highest' | 'spare', Float64Array>>;
}

export type Places = Pick<Geometry, 'perchLowest' | 'perchHighest'>;

export interface FitMask {
  readonly fitting: Uint8Array;
  readonly all: boolean;
  readonly none: boolean;
}

export function newDesk(layout: AxleLayout): Desk {
  const { count } = layout.stacks;
  return {
    layout,
    tally: emptyTally(layout.options.spring.length, count),
    work: { blocks: 0, runs: 0, single: 0, scored: 0 },
    room: headRoom(count, layout.sides.length),
    places: layout.sleeves.flatMap((sleeve) => layout.perches.map((perch) => perchLimits(sleeve, perch))),
    fits: new Map(),
    masks: new Array<FitMask | null>(layout.sleeves.length * layout.perches.length).fill(null),
    wanted: { frequency: new Float64Array(count).fill(Number.NaN), log: new Float64Array(count) },
    cuts: new Map(),
    fallen: new Float64Array(VERDICTS),
    allSleeves: layout.sleeves.map((_, k) => k),
    live: new Int32Array(count),
    classes: new Array<CandidateClass | null>(count).fill(null),
    tooLow: new Float64Array(count + 1),
    tooHigh: new Float64Array(count + 1),
    bounds: new Float64Array(count),
    scores: {
      score: new Float64Array(count),
      lowest: new Float64Array(count),
      highest: new Float64Array(count),
      spare: new Float64Array(count),
    },
  };
}

export interface Round {
  readonly desk: Desk;
  readonly number: number;
  readonly head: Head;
  readonly sleeves: readonly number[];
  readonly perches: readonly number[];
  /** How deep the seats of these perches hold the spring, mm. */
  readonly engagement: number;
  readonly grid: BoundGrid;
  /** Per sleeve its least clearance beyond its margin, mm; NaN until asked for. */
  readonly sleeveSpares: Float64Array;
  /** How many entries of the desk's `live` are in use; -1 before the first look. */
  liveCount: number;
  /** The lowest perch last asked for, mm, and where in the perch order it begins. */
  readonly lowest: { value: number; begin: number };
}

/** Where the perch may stand on a sleeve; no head changes it. */
export function placesOn({ places, layout }: Desk, sleeve: number, perch: number): Places {
  return places[sleeve * layout.perches.length + perch] as Places;
}

/** Adds combinations of one spring with one verdict. */
export function count(tally: Tally, spring: number, verdict: number, times: number): void {
  const cell = spring * VERDICTS + verdict;
  tally.cells[cell] = (tally.cells[cell] as number) + times;
}
