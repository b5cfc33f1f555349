/**
 * How much of an answer rests on usual values that nobody measured, and which measurement would settle it most. Every
 * toleranced input is stepped its width both ways, as for the bands; its share of a number is that of the number's
 * variance, its share of the answer the mean of those over all numbers of the answer.
 */
import { judgedFrequency } from '../../model/corner/rates.ts';
import type { Working } from '../../model/corner/window.ts';
import { snakeKey } from '../../model/keys.ts';
import { AXLE_NAMES, type AxleName, FAMILIES, type Scenario, type Tolerances } from '../../model/scenario.ts';
import type { Dimension } from '../../model/units.ts';
import { ROWS } from '../measuring.ts';
import { PAIR } from '../quantities/pair.ts';
import { keyOf, type PairWorking } from '../quantities/quantity.ts';
import type { Settling, SettlingMeasurement } from '../result.ts';
import { type Band, bandFrom, extent, judged, type Move, STANDS_AT, stepsOf, toleranceMoves } from './bands.ts';
import { standingMoves } from './bench.ts';
import { assumedName, type Model } from './inputs.ts';

/** The one input that belongs to neither axle. */
export const PITCH_INERTIA: Move['input'] = {
  id: 'pitch_inertia_ratio',
  label: 'pitch inertia ratio',
  measure: 'the car’s moment of inertia in pitch',
};

/** A number of the answer; null: not there, like a looseness that the spring has not. */
interface AnswerNumber {
  readonly key: string;
  readonly axle: AxleName | null;
  readonly read: (pair: PairWorking) => number | null;
}

const OF_CORNER: Readonly<Record<string, (w: Working) => number | null>> = {
  bump_travel_mm: ({ state }) => state.bumpTravel,
  droop_travel_mm: ({ state }) => state.droopTravel,
  lowest_height_mm: ({ window }) => window?.low.height ?? null,
  highest_height_mm: ({ window }) => window?.high.height ?? null,
  thinnest_spare_mm: ({ state }) => Math.min(...state.contacts.map(({ clearance, margin }) => clearance - margin)),
  judged_frequency_hz: ({ state }) => judgedFrequency(state),
  held_spare_mm: ({ state: { slack, corner } }) => (slack > 0 ? corner.perch.engagement - slack : null),
};

/** What the pitch inertia moves. */
const OF_INERTIA = PAIR.filter(({ id }) => id === 'bounce_frequency' || id === 'pitch_frequency');
const OF_PAIR = PAIR.filter(({ id }) => id === 'frequency_ratio' || id === 'pitch_frequency');

const NUMBERS: readonly AnswerNumber[] = [
  ...AXLE_NAMES.flatMap((axle) =>
    Object.entries(OF_CORNER).map(([key, read]) => ({ key, axle, read: (pair: PairWorking) => read(pair[axle]) })),
  ),
  ...OF_PAIR.map((quantity) => ({ key: keyOf(quantity), axle: null, read: quantity.read })),
];

/** Whose input it is; null: the car's. */
interface OwnMove extends Move {
  readonly axle: AxleName | null;
}

/** A number of the answer with what moves it. */
interface Spread {
  readonly key: string;
  readonly axle: AxleName | null;
  readonly moves: readonly OwnMove[];
}

/**
 * How much of the answer rests on assumed values, and the measurements that would settle it, the one with the largest
 * share first; null where nothing is assumed.
 *
 * Equation: share of the answer = mean over its numbers of move^2 / (sum of move^2)
 * Units: `pair` in mm, N, kg and N/mm; result shares 0 to 1, half-widths in the unit of their key.
 * Valid: inputs independent of each other; of both sides the greater move counts, and every number of the answer alike.
 * Source: the variance of a sum of independent deviations is the sum of theirs.
 */
export function settlingOf(pair: PairWorking): Settling | null {
  const assumed = assumedFields(pair);
  if (assumed.length === 0) return null;
  const isAssumed = ({ input, axle }: OwnMove) => assumedOf(pair, axle, input.id) !== null;
  const spreads = spreadsOf(pair);
  const shares = new Map<string, SettlingMeasurement>();
  for (const { moves } of spreads) {
    for (const move of moves) {
      const { input, axle } = move;
      const id = `${axle} ${input.id}`;
      const share = (shares.get(id)?.share ?? 0) + shareIn(moves, move) / spreads.length;
      const { label } = input;
      const how = measuredBy(input, assumedOf(pair, axle, input.id));
      shares.set(id, { input: input.id, axle, label, ...how, assumed: isAssumed(move), share });
    }
  }
  const measurements = [...shares.values()].sort((a, b) => b.share - a.share);
  return {
    assumed,
    assumed_share: short(sum(measurements.filter((one) => one.assumed).map(({ share }) => share))),
    numbers: spreads.map(({ key, axle, moves }) => ({
      ...{ key, axle, half_width: short(Math.hypot(...moves.map(greater))) },
      assumed_share: short(sum(moves.filter(isAssumed).map((move) => shareIn(moves, move)))),
    })),
    measurements: measurements.map((one) => ({ ...one, share: short(one.share) })),
  };
}

/** A spread is no surer than its tolerances: six digits. */
const short = (value: number) => Number(value.toPrecision(6));
const sum = (values: readonly number[]) => values.reduce((all, one) => all + one, 0);
const greater = ({ down, up }: Move) => Math.max(down, up);
const shareIn = (moves: readonly Move[], move: Move) => greater(move) ** 2 / sum(moves.map((one) => greater(one) ** 2));

/**
 * Bands of bounce and pitch, where the pitch inertia ratio is assumed or has a tolerance.
 *
 * Units: `pair` in mm, N, kg and N/mm; result Hz.
 * Valid: as `toleranceBands`.
 */
export function pairBands(pair: PairWorking): Readonly<Record<string, Band>> {
  if (inertiaWidth(pair.scenario) === 0) return {};
  const { nominal, steps } = steppedOf(pair);
  const bands = OF_INERTIA.map((quantity) => {
    return [keyOf(quantity), bandFrom(quantity.read(pair) as number, movesOf(quantity, nominal, steps))] as const;
  });
  return Object.fromEntries(bands);
}

// Every input of both corners and of the car stepped, and what that does to each number.

/** Rounding of the model's own solving is no move. */
const LEAST_MOVE = 1e-6;

/** A pair with one input at either end of its width. */
interface PairStep extends Pick<OwnMove, 'input' | 'axle'> {
  readonly ends: readonly PairWorking[];
}

function steppedOf(pair: PairWorking): { readonly nominal: PairWorking; readonly steps: readonly PairStep[] } {
  const nominal = { ...pair, front: judged(pair.front.state), rear: judged(pair.rear.state) };
  const ofAxle = (axle: AxleName) =>
    stepsOf(pair[axle].state, pair.scenario.tolerances).map(({ input, ends }): PairStep => {
      return { input, axle, ends: ends.map((end) => ({ ...nominal, [axle]: end })) };
    });
  return { nominal, steps: [...AXLE_NAMES.flatMap(ofAxle), ...inertiaSteps(nominal)] };
}

function movesOf({ read }: Pick<AnswerNumber, 'read'>, nominal: PairWorking, steps: readonly PairStep[]): OwnMove[] {
  const value = read(nominal) ?? Number.NaN;
  return steps.map(({ input, axle, ends }) => {
    const reached = ends.map((end) => read(end) ?? value);
    return { input, axle, ...extent(value, reached) };
  });
}

function spreadsOf(pair: PairWorking): Spread[] {
  const { nominal, steps } = steppedOf(pair);
  const standing = AXLE_NAMES.map((axle): Spread => {
    const { state } = nominal[axle];
    const moves = standingMoves(state, pair.scenario.tolerances, state.standing.perch);
    return { key: STANDS_AT, axle, moves: moves.map((move) => ({ ...move, axle })) };
  });
  const others = NUMBERS.map((number): Spread => ({ ...number, moves: movesOf(number, nominal, steps) }));
  return [...standing, ...others]
    .map((spread) => ({ ...spread, moves: spread.moves.filter((move) => greater(move) > LEAST_MOVE) }))
    .filter(({ moves }) => moves.length > 0);
}

/** 0: taken as exact. */
function inertiaWidth({ car, tolerances }: Scenario): number {
  return Math.max(car.assumed?.pitchInertiaRatio ?? 0, tolerances.pitchInertiaRatio);
}

function inertiaSteps(pair: PairWorking) {
  const width = inertiaWidth(pair.scenario);
  if (width === 0) return [];
  const { car } = pair.scenario;
  const ends = [-width, width].map((by) => {
    const pitchInertiaRatio = Math.max(Number.EPSILON, car.pitchInertiaRatio + by);
    return { ...pair, scenario: { ...pair.scenario, car: { ...car, pitchInertiaRatio } } };
  });
  return [{ input: PITCH_INERTIA, axle: null, ends }];
}

// Which fields usual values were taken for, and how each is measured.

/** The model's name of the field; null where it was measured. */
function assumedOf(pair: PairWorking, axle: AxleName | null, id: string): string | null {
  if (axle !== null) return assumedName(id, pair[axle].state);
  return pair.scenario.car.assumed === undefined ? null : 'pitchInertiaRatio';
}

/** Every field of the build that a usual value was taken for; what follows from others is none. */
function assumedFields({ scenario: { car }, ...pair }: PairWorking): string[] {
  const namesIn = (part: { readonly assumed?: Readonly<Record<string, number>> } | null) =>
    Object.keys(part?.assumed ?? {}).filter((name) => name !== 'raise');
  const ofAxle = (axle: AxleName) => {
    const { site, corner } = pair[axle].state;
    const names = [site, ...FAMILIES.map((family) => corner[family])].flatMap(namesIn);
    return names.map((name) => `axles.${axle}.${fieldOf(name)}`);
  };
  return [...namesIn(car).map(fieldOf), ...AXLE_NAMES.flatMap(ofAxle)];
}

const ALL_ROWS = Object.values(ROWS).flat();

/** Where it stands in a scenario, below its axle: `dampers[].gas`. */
function fieldOf(name: string): string {
  const end = new RegExp(`^(?:car\\.|\\w+\\[\\]\\.)?${snakeKey(name)}(?![^.])`);
  return ALL_ROWS.flatMap(({ paths }) => paths.flatMap((path) => end.exec(path) ?? []))[0] as string;
}

/** How an input is measured: as the row of the measuring sheet says, where there is one. */
export function measuredBy({ id, measure }: Pick<Move['input'], 'id' | 'measure'>, assumed: string | null) {
  const field = assumed === null ? null : fieldOf(assumed);
  const rows = ALL_ROWS.filter(({ inputs }) => inputs?.includes(id));
  const row = rows.find(({ paths }) => field !== null && paths.includes(field)) ?? rows[0];
  const [tool = null, minutes = null] = row?.takes ?? [];
  return { field: field ?? row?.paths[0] ?? null, how: row?.how ?? measure, tool, minutes };
}

// What each toleranced input does to each number: which measurement is worth the most care.

/** What one input, off by its whole tolerance, does to one quantity. */
export interface Effect {
  /** Id of the input, as in the tolerance table. */
  readonly input: string;
  /** Key of the quantity, its unit included: `clearance_coil_bind_mm`. */
  readonly key: string;
  readonly dimension: Dimension;
  /** The greater of its moves up and down, in the quantity's unit. */
  readonly by: number;
  /** Its part of all inputs' moves together, 0 to 1. */
  readonly share: number;
}

/** The effects on one axle of one setup's best combination. */
export interface AxleEffects {
  readonly setup: string;
  readonly axle: AxleName;
  readonly effects: readonly Effect[];
}

/**
 * Effects of every input on every studied quantity, those that move nothing left out.
 *
 * Units: `model` in mm, N, kg and N/mm, `tolerances` half-widths in the same or as shares; result in each quantity's own unit.
 * Valid: as `toleranceBands`, from whose steps it is read.
 */
export function effectsOf(model: Model, tolerances: Tolerances): Effect[] {
  const { perch } = judged(model).state.standing;
  const standing = { key: STANDS_AT, dimension: 'length', moves: standingMoves(model, tolerances, perch) } as const;
  return [standing, ...toleranceMoves(model, tolerances)].flatMap(({ key, dimension, moves }) => {
    const all = moves.reduce((sum, move) => sum + greater(move), 0);
    return moves.flatMap((move): Effect[] => {
      const by = greater(move);
      // Rounding of the model's own solving is no effect.
      return by > 1e-6 ? [{ input: move.input.id, key, dimension, by, share: by / all }] : [];
    });
  });
}
