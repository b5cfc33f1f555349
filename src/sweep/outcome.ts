/**
 * What a sweep comes to: chunks of each setup's axles swept on this thread, their tallies merged and the axles joined.
 * The same functions sweep in a page.
 */

import { CHECKS, type CheckName } from '../model/corner/checks.ts';
import { combinationCount } from '../model/corner/options.ts';
import { cornerScore } from '../model/corner/score.ts';
import { AXLE_NAMES, type AxleName, type Scenario, type Setup } from '../model/scenario.ts';
import type { AxleTally, SpringCell } from '../result/result.ts';
import { type Chunk, type ChunkResult, newSharedState, sweepChunk } from './chunk.ts';
import { type PairOutcome, pairUp, type Side } from './join.ts';
import { type AxleLayout, layoutOf } from './layout.ts';
import {
  bestLogScore,
  type CandidateClass,
  candidatesOf,
  emptyTally,
  mergeTallies,
  PASS,
  type Tally,
  totals,
  VERDICTS,
} from './tally.ts';

export interface AxleOutcome extends Side {
  readonly tally: AxleTally;
}

export interface SetupOutcome {
  readonly setup: Setup;
  readonly axles: Readonly<Record<AxleName, AxleOutcome>>;
  readonly pairs: PairOutcome;
}

/** How much there is to sweep. */
export interface Sizes {
  readonly combinations: Readonly<Record<AxleName, number>>;
  /** All combinations judged over all setups. */
  readonly judged: number;
  /** True when nothing is left to choose: one given build. */
  readonly isBuild: boolean;
}

export function sizesOf(scenario: Scenario): Sizes {
  const front = combinationCount(scenario.axles.front.options);
  const rear = combinationCount(scenario.axles.rear.options);
  return {
    combinations: { front, rear },
    judged: (front + rear) * scenario.setups.length,
    isBuild: front === 1 && rear === 1,
  };
}

/** Sweeps everything on this thread, at once. */
export function sweepScenario(scenario: Scenario): SetupOutcome[] {
  const chunks = chunksOf(scenario, 1);
  const state = newSharedState(chunks.length);
  const results = chunks.map((chunk) => sweepChunk(scenario, { chunk, worker: 0 }, state));
  return scenario.setups.map((setup, k) => joinSetup(scenario, setup, k, results));
}

/** Assemblies of each setup and axle, cut into at most `parts` even ranges. */
export function chunksOf(scenario: Scenario, parts: number): Chunk[] {
  const ranges = scenario.setups.flatMap((setup, k) =>
    AXLE_NAMES.flatMap((axle) => {
      const { assemblies } = layoutOf(scenario, setup, axle);
      const count = Math.min(parts, assemblies);
      const cut = (part: number) => Math.floor((part * assemblies) / count);
      return Array.from({ length: count }, (_, part) => ({ setup: k, axle, from: cut(part), to: cut(part + 1) }));
    }),
  );
  return ranges.map((range, number) => ({ number, ...range }));
}

export function joinSetup(
  scenario: Scenario,
  setup: Setup,
  number: number,
  results: readonly ChunkResult[],
): SetupOutcome {
  const [front, rear] = AXLE_NAMES.map((axle) => {
    const layout = layoutOf(scenario, setup, axle);
    const tallies = results.filter(({ chunk }) => chunk.setup === number && chunk.axle === axle).map((r) => r.tally);
    return axleOutcome(
      layout,
      mergeTallies([emptyTally(layout.options.spring.length, layout.stacks.count), ...tallies]),
    );
  }) as [AxleOutcome, AxleOutcome];
  return { setup, axles: { front, rear }, pairs: pairUp(front, rear, setup, scenario.ranking) };
}

function axleOutcome(layout: AxleLayout, tally: Tally): AxleOutcome {
  const sums = totals(tally);
  const passed = sums[PASS] as number;
  const rejected = Object.fromEntries(CHECKS.map((name, k) => [name, sums[k]])) as Record<CheckName, number>;
  return {
    tally: {
      combinations: sums.reduce((a, b) => a + b, 0),
      passed,
      rejected,
      spring_cells: springCells(layout, tally),
    },
    candidates: candidatesOf(tally),
    frequencies: tally.frequencies,
    stacks: layout.stacks.count,
  };
}

/** Per spring: how many of its combinations work, the best score, and where the others fall. */
function springCells(layout: AxleLayout, tally: Tally): SpringCell[] {
  const { site, options, ranking } = layout;
  return options.spring.map((spring, k) => {
    const counts = tally.cells.subarray(k * VERDICTS, (k + 1) * VERDICTS);
    const workable = counts[PASS] as number;
    const rejected = CHECKS.flatMap((name, check) => (counts[check] ? [[name, counts[check]] as const] : []));
    const best = bestOfSpring(layout, tally, k);
    return {
      spring: spring.name,
      free_length_mm: spring.freeLength,
      rate_n_per_mm: spring.rate,
      workable,
      best_score: workable > 0 ? cornerScore(site, ranking, best) : null,
      rejected: Object.fromEntries(rejected),
    };
  });
}

/** Best log score over the stacks with this spring. */
function bestOfSpring({ options }: AxleLayout, { classes }: Tally, spring: number): number {
  return bestLogScore(options.helper.map((_, k) => classes[k * options.spring.length + spring] as CandidateClass[]));
}
