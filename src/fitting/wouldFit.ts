/**
 * Where nothing on the bench fits: which one change makes the nearest combinations fit, and how tall when solid a spring of
 * each length may be. Every answer is one of the bench's own judgements; nothing lies between two of them.
 */
import { boreOver, genericHelpers } from '../advice/generic.ts';
import { type BenchState, judgeOnBench } from '../model/corner/bench.ts';
import type { Corner, Site } from '../model/corner/site.ts';
import type { Spring } from '../model/parts.ts';

/** What may be changed: nothing, the sleeve's trim, a helper spring nobody listed. */
export const CHANGES = ['listed', 'trim', 'helper'] as const;
export type Change = (typeof CHANGES)[number];

export interface WouldFit {
  /**
   * The change with which the perch can be moved farthest, sure where nothing that was not measured could stand against it;
   * null: none of them alone makes anything fit.
   */
  readonly helps: { readonly change: Change; readonly state: BenchState; readonly isSure: boolean } | null;
  readonly springs: readonly TallestSolid[];
}

/** A free length, and the tallest solid height with which a spring of it fits, or may, mm; null: none does. */
export interface TallestSolid {
  readonly freeLength: number;
  readonly tallest: Readonly<Record<Change, number | null>>;
}

/** Combinations that are changed: those that lack least. Own choice, as are the steps, mm. */
const NEAREST = 3;
const TRIM_STEP = 5;
/** What is left of a sleeve at least, mm: thread for the perch and its lock ring. */
const LEAST_SLEEVE = 40;
const LENGTH_STEP = 20;
const LENGTHS_BESIDE = 3;
/** A spring's solid height lies above 0 and this far below its free length, mm. */
const LEAST_TRAVEL = 10;

/** @param corners those that lack least, nearest first */
export function wouldFitOf(site: Site, corners: readonly Corner[]): WouldFit {
  const nearest = corners.slice(0, NEAREST);
  const tried = CHANGES.flatMap((change) =>
    nearest
      .flatMap((corner) => changed(site, corner, change))
      .flatMap((corner) => {
        const { verdict, hoped } = judgeOnBench(site, corner);
        const isSure = verdict === 'works' && hoped.unjudged.length === 0;
        return verdict === 'fails' ? [] : [{ change, state: hoped, isSure }];
      }),
  );
  const [first, ...others] = tried;
  const helps = first === undefined ? null : others.reduce((a, b) => (b.state.range > a.state.range ? b : a), first);
  return { helps, springs: lengthsAround(corners).map((freeLength) => tallestOf(site, nearest, freeLength)) };
}

/** The corner with each way to make the change; itself where nothing changes. */
function changed({ margins }: Site, corner: Corner, change: Change): readonly Corner[] {
  const { sleeve } = corner;
  if (change === 'listed') return [corner];
  if (change === 'trim') {
    const most = Math.max(0, Math.floor((sleeve.length - LEAST_SLEEVE) / TRIM_STEP));
    return Array.from({ length: most + 1 }, (_, k) => ({ ...corner, sleeve: { ...sleeve, trim: k * TRIM_STEP } }));
  }
  if (corner.helper !== null) return [];
  return genericHelpers(boreOver(corner, margins.passing)).map((helper) => ({ ...corner, helper }));
}

/** Even lengths from somewhat below the shortest listed to somewhat above the longest. */
function lengthsAround(corners: readonly Corner[]): readonly number[] {
  const listed = corners.map(({ spring }) => spring.freeLength);
  const step = (length: number) => Math.round(length / LENGTH_STEP);
  const from = Math.max(1, step(Math.min(...listed)) - LENGTHS_BESIDE);
  const to = step(Math.max(...listed)) + LENGTHS_BESIDE;
  return Array.from({ length: to - from + 1 }, (_, k) => (from + k) * LENGTH_STEP);
}

function tallestOf(site: Site, corners: readonly Corner[], freeLength: number): TallestSolid {
  const tallest = (change: Change): number | null => {
    const options = corners.flatMap((corner) => changed(site, corner, change));
    const fits = (solid: number) =>
      options.some((corner) => {
        const spring = springOf(corner.spring, freeLength, solid);
        return judgeOnBench(site, { ...corner, spring }).verdict !== 'fails';
      });
    return lastThatFits(1, freeLength - LEAST_TRAVEL, fits);
  };
  return { freeLength, tallest: { listed: tallest('listed'), trim: tallest('trim'), helper: tallest('helper') } };
}

function springOf(spring: Spring, freeLength: number, height: number): Spring {
  const solid = { ...spring.solid, source: 'catalogue' as const, height, least: height, most: height };
  return { ...spring, freeLength, solid };
}

/** The greatest whole number that fits, halving: a spring that is less tall when solid never fits worse. */
function lastThatFits(least: number, most: number, fits: (value: number) => boolean): number | null {
  if (!fits(least)) return null;
  let [low, high] = [least, most + 1];
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (fits(middle)) low = middle;
    else high = middle;
  }
  return low;
}
