/**
 * How sure the numbers are: bands for clearances, travels, window ends and frequencies, by stepping each input its
 * full tolerance both ways through the whole model, the perch re-set to the target height each time.
 *
 * `worst`: all steps in the unlucky direction added. `rss`: root of the sum of squares, which holds about 95 % of
 * builds when each tolerance is two standard deviations of an independent input. Whole steps, not derivatives: at
 * the helper's knee, the stop and every min or max a slope would lie.
 */
import { cornerState } from '../../model/corner/state.ts';
import { type Limit, type Working, windowOverTravel } from '../../model/corner/window.ts';
import type { Tolerances } from '../../model/scenario.ts';
import type { Dimension } from '../../model/units.ts';
import { CONTACT_QUANTITIES } from '../quantities/contacts.ts';
import { type CornerKey, STANDING } from '../quantities/corner.ts';
import { keyOf } from '../quantities/quantity.ts';
import { RATES } from '../quantities/rates.ts';
import { type Model, TOLERANCE_INPUTS, type ToleranceInput } from './inputs.ts';

export interface Band {
  readonly nominal: number;
  readonly worstLow: number;
  readonly worstHigh: number;
  readonly rssLow: number;
  readonly rssHigh: number;
  /** The input that moves this quantity most, and by how much, in the quantity's unit. */
  readonly contributor: { readonly id: string; readonly label: string; readonly measure: string; readonly by: number };
}

const STUDIED_IDS = new Set(['perch', 'bump_travel', 'droop_travel', 'slack', 'body_frequency', 'ride_frequency']);

/** Quantities that get a band by themselves: every clearance at full bump, the travels, the frequencies. */
export const STUDIED = [...STANDING, ...RATES, ...CONTACT_QUANTITIES].filter(
  (q) => STUDIED_IDS.has(q.id) || (q.id.startsWith('clearance_') && !q.id.endsWith('_closed')),
);

/**
 * Quantities that are the greatest or least of several: the ends of the window and the thinnest clearance. Each of
 * the several is studied by itself, since one that doesn't bind today may bind when inputs move together.
 */
const EXTREMES: readonly { key: CornerKey; pick: (...values: number[]) => number; several: (w: Working) => Named[] }[] =
  [
    { key: 'lowest_height_mm', pick: Math.max, several: (w) => limits(w.window?.lower) },
    { key: 'highest_height_mm', pick: Math.min, several: (w) => limits(w.window?.upper) },
    { key: 'thinnest_spare_mm', pick: Math.min, several: spares },
  ];

type Named = readonly [name: string, value: number];

const limits = (several: readonly Limit[] | undefined): Named[] => (several ?? []).map((l) => [l.name, l.height]);

function spares({ state }: Working): Named[] {
  return state.contacts.map((c) => [c.name, c.clearance - c.margin]);
}

/** Where the car stands on the perch as set (`bench.ts`): everything else is set anew in each perturbed model. */
export const STANDS_AT = 'ride_height_mm';

/** Keys of everything that gets a band. */
export const STUDIED_KEYS: readonly CornerKey[] = [STANDS_AT, ...STUDIED.map(keyOf), ...EXTREMES.map((e) => e.key)];

/**
 * Bands by key (`bump_travel_mm`): none for a quantity that doesn't exist for the corner, and none at all where every
 * tolerance is 0.
 *
 * Equation: worst = sum of the moves to either side; rss = root of the sum of their squares
 * Units: `model` in mm, N, kg and N/mm, `tolerances` half-widths in the same or as shares; result in each quantity's own unit.
 * Valid: inputs independent of each other; whole steps, so that kinks count.
 * Source: root sum of squares of independent deviations, standard; held against random draws by test.
 */
export function toleranceBands(model: Model, tolerances: Tolerances): Record<string, Band> {
  const nominal = judged(model);
  const steps = stepsOf(model, tolerances);
  const bands: Record<string, Band> = {};
  for (const quantity of STUDIED) {
    const band = bandOf(quantity.read, nominal, steps);
    if (band) bands[keyOf(quantity)] = band;
  }
  for (const { key, pick, several } of EXTREMES) {
    const read = readOnce(several);
    const parts = read(nominal).flatMap(([name]) => {
      return bandOf((w) => read(w).find(([n]) => n === name)?.[1] ?? null, nominal, steps) ?? [];
    });
    if (parts.length > 0) bands[key] = extremeOf(parts, pick);
  }
  return bands;
}

/** The several of each working listed once, however many of them are asked for. */
function readOnce(several: (w: Working) => Named[]): (w: Working) => Named[] {
  const known = new Map<Working, Named[]>();
  return (working) => {
    const listed = known.get(working) ?? several(working);
    known.set(working, listed);
    return listed;
  };
}

/**
 * The moves that `toleranceBands` adds up, for each studied quantity that exists for the corner.
 *
 * Units: `model` in mm, N, kg and N/mm, `tolerances` half-widths in the same or as shares; result in each quantity's own unit.
 * Valid: as `toleranceBands`.
 */
export function toleranceMoves(
  model: Model,
  tolerances: Tolerances,
): { readonly key: string; readonly dimension: Dimension; readonly moves: readonly Move[] }[] {
  const nominal = judged(model);
  const steps = stepsOf(model, tolerances);
  return STUDIED.flatMap((quantity) => {
    const value = quantity.read(nominal);
    if (value === null || !Number.isFinite(value)) return [];
    const moves = steps.map(({ input, ends }) => ({ input, ...moveOf(quantity.read, value, ends) }));
    return [{ key: keyOf(quantity), dimension: quantity.dimension, moves }];
  });
}

/** The band of the greatest (or least) of several banded quantities; the one that binds names the contributor. */
function extremeOf(bands: readonly Band[], pick: (...values: number[]) => number): Band {
  const of = (read: (band: Band) => number) => pick(...bands.map(read));
  const nominal = of((b) => b.nominal);
  const binding = bands.find((b) => b.nominal === nominal) as Band;
  return {
    nominal,
    worstLow: of((b) => b.worstLow),
    worstHigh: of((b) => b.worstHigh),
    rssLow: of((b) => b.rssLow),
    rssHigh: of((b) => b.rssHigh),
    contributor: binding.contributor,
  };
}

/** One input stepped: the corner as it would be with the input at either end of its tolerance. */
export interface Step {
  readonly input: ToleranceInput;
  readonly ends: readonly [Working, Working];
}

/**
 * Every input that has a width, stepped through the whole of it.
 *
 * Units: `model` in mm, N, kg and N/mm, `tolerances` half-widths in the same or as shares; result corners in the same.
 * Valid: as `judged`.
 */
export function stepsOf(model: Model, tolerances: Tolerances): Step[] {
  return TOLERANCE_INPUTS.flatMap((input) => {
    const width = input.width(model, tolerances);
    if (width === null) return [];
    return [{ input, ends: [judged(input.moved(model, -width.down)), judged(input.moved(model, width.up))] }];
  });
}

type Read = (working: Working) => number | null;

/**
 * The corner of a model judged with its window, the perch re-set to the target height.
 *
 * Units: `site` and `corner` in mm, N, kg and N/mm; result in the same units.
 * Valid: any model.
 */
export function judged({ site, corner }: Model): Working {
  const state = cornerState(site, corner);
  // A limit that does not bind today may bind when inputs move together.
  return { state, window: windowOverTravel(state) };
}

function bandOf(read: Read, nominal: Working, steps: readonly Step[]): Band | null {
  const value = read(nominal);
  if (value === null || !Number.isFinite(value) || steps.length === 0) return null;
  return bandFrom(
    value,
    steps.map(({ input, ends }) => ({ input, ...moveOf(read, value, ends) })),
  );
}

/** What one input at its full tolerance does to a quantity: how far down and up, both at least 0. */
export interface Move {
  readonly input: Pick<ToleranceInput, 'id' | 'label' | 'measure'>;
  readonly down: number;
  readonly up: number;
}

/**
 * The band that moves of independent inputs make about a value.
 *
 * Equation: worst = sum of the moves to either side; rss = root of the sum of their squares
 * Units: `value` and `moves` in the quantity's own unit; result in the same.
 * Valid: at least one move.
 */
export function bandFrom(value: number, moves: readonly Move[]): Band {
  const sums = { down: 0, up: 0, squaresDown: 0, squaresUp: 0 };
  for (const { down, up } of moves) {
    sums.down += down;
    sums.up += up;
    sums.squaresDown += down ** 2;
    sums.squaresUp += up ** 2;
  }
  const most = moves.reduce((a, b) => (Math.max(b.down, b.up) > Math.max(a.down, a.up) ? b : a));
  const { id, label, measure } = most.input;
  return {
    nominal: value,
    worstLow: value - sums.down,
    worstHigh: value + sums.up,
    rssLow: value - Math.sqrt(sums.squaresDown),
    rssHigh: value + Math.sqrt(sums.squaresUp),
    contributor: { id, label, measure, by: Math.max(most.down, most.up) },
  };
}

/** How far a quantity goes down and up when an input goes through its tolerance; both at least 0. */
function moveOf(read: Read, value: number, ends: readonly [Working, Working]) {
  return extent(
    value,
    ends.map((end) => read(end) ?? value),
  );
}

/**
 * How far values lie below and above another; both at least 0.
 *
 * Units: `value` and `ends` in one unit; result in the same.
 * Valid: ends that are not finite are left out.
 */
export function extent(value: number, ends: readonly number[]): Pick<Move, 'down' | 'up'> {
  const changes = ends.map((end) => end - value).filter(Number.isFinite);
  return { down: Math.max(0, ...changes.map((c) => -c)), up: Math.max(0, ...changes) };
}
