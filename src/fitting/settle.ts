/**
 * How sure an answer of the bench is, and what would settle it most: every toleranced length stepped its width both ways,
 * a usual value that stands for a measurement by as much as it may be off.
 */

import type { BenchState } from '../model/corner/bench.ts';
import { benchState, thinnestOnBench } from '../model/corner/bench.ts';
import type { Corner, Site } from '../model/corner/site.ts';
import type { AxleName, BenchAxle, BenchScenario } from '../model/scenario.ts';
import { assumedName, type Model, TOLERANCE_INPUTS } from '../result/tolerance/inputs.ts';
import { measuredBy } from '../result/tolerance/settling.ts';
import { answerAt, wheelSite } from './wheel.ts';

/** A measurement, and how much of the answer's spread hangs on it. */
export interface Settling extends ReturnType<typeof measuredBy> {
  readonly id: string;
  readonly label: string;
  /** A usual value stands for it. */
  readonly isAssumed: boolean;
  /** Of the variance of the answer, 0 to 1. */
  readonly share: number;
  /** What it moves each number of the answer by to either side, mm. */
  readonly moves: Readonly<Partial<Record<AnswerKey, number>>>;
}

/** What an answer consists of: ends and width of the perch's safe range, the thinnest clearance, ends of the heights. */
export const ANSWER_KEYS = ['low', 'high', 'range', 'thinnest', 'lowHeight', 'highHeight'] as const;
export type AnswerKey = (typeof ANSWER_KEYS)[number];
type Answer = Readonly<Partial<Record<AnswerKey, number>>>;

/** What is about the wheel alone moves nothing on the bench. */
const OF_THE_WHEEL: ReadonlySet<string> = new Set([
  ...['wheel_load', 'unsprung_mass', 'tyre_rate', 'tyre_on_arch', 'lowest_wheel', 'motion_length', 'motion_ratio'],
]);

/** Every input that moves the answer, the one that moves it most first. */
export function settlingsOf(
  { margins, tolerances }: Pick<BenchScenario, 'margins' | 'tolerances'>,
  axle: AxleName,
  { own, wheel }: BenchAxle,
  { site, corner }: BenchState,
): readonly Settling[] {
  const isDriven = wheel !== null && !Number.isNaN(corner.spring.rate) && !Number.isNaN(corner.helper?.rate ?? 0);
  const atWheel = isDriven ? wheelSite(margins, axle, { ...own, ...wheel }) : null;
  const at = (model: Model) => answerOf(site, model.corner, atWheel === null ? null : model.site);
  const model: Model = { site: atWheel ?? site, corner };
  const nominal = at(model);
  const inputs = TOLERANCE_INPUTS.filter(({ id }) => atWheel !== null || !OF_THE_WHEEL.has(id));
  const moved = inputs.flatMap((input) => {
    const width = input.width(model, tolerances);
    if (width === null) return [];
    const ends = [at(input.moved(model, -width.down)), at(input.moved(model, width.up))];
    const moves = movesOf(nominal, ends);
    const square = Object.values(moves).reduce((sum, by) => sum + by * by, 0);
    return square > 0 ? [{ input, moves, square }] : [];
  });
  const whole = moved.reduce((sum, { square }) => sum + square, 0);
  return moved
    .sort((a, b) => b.square - a.square)
    .map(({ input, moves, square }) => {
      const assumed = assumedName(input.id, model);
      const { id, label } = input;
      const how = measuredBy(input, assumed);
      return { id, label, ...how, isAssumed: assumed !== null, share: square / whole, moves };
    });
}

function answerOf(bench: Site, corner: Corner, wheel: Site | null): Answer {
  const state = benchState(bench, corner);
  const { clearance, margin } = thinnestOnBench(state);
  const heights = wheel === null ? null : answerAt(wheel, corner);
  return {
    low: state.low.perch,
    high: state.high.perch,
    range: state.range,
    thinnest: clearance - margin,
    ...(heights && { lowHeight: heights.low.height, highHeight: heights.high.height }),
  };
}

/** The greater move to either side; a number that is gone on one side moves by nothing that could be told. */
function movesOf(nominal: Answer, ends: readonly Answer[]): Answer {
  const moves = ANSWER_KEYS.flatMap((key) => {
    const by = ends.map((end) => Math.abs((end[key] ?? Number.NaN) - (nominal[key] ?? Number.NaN)));
    const finite = by.filter(Number.isFinite);
    return finite.length > 0 ? [[key, Math.max(...finite)] as const] : [];
  });
  return Object.fromEntries(moves);
}

/** Half-width of each number of an answer: the root of the sum of squares of all moves. */
export function spreadOf(settlings: readonly Settling[], key: AnswerKey): number {
  return Math.hypot(...settlings.map(({ moves }) => moves[key] ?? 0));
}

/** Share of the spread that rests on usual values. */
export function assumedShare(settlings: readonly Settling[]): number {
  return settlings.reduce((sum, { isAssumed, share }) => sum + (isAssumed ? share : 0), 0);
}
