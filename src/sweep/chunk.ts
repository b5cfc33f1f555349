/** One taker's part in a chunk, on whichever thread. */
import { siteOf } from '../domain/corner/site.ts';
import { cornerScore } from '../domain/ranking/criteria.ts';
import type { AxleName, Scenario, Setup } from '../domain/scenario.ts';
import { sweepKernel } from './kernel.ts';
import { type AxleLayout, axleLayout } from './layout.ts';
import { bestLogScore, PASS, totals } from './tally.ts';
import { type Board, type ChunkResult, deal, isStopped, type Task } from './threads.ts';

export function layoutOf(scenario: Scenario, setup: Setup, axle: AxleName): AxleLayout {
  return axleLayout(siteOf(scenario, setup, axle), scenario.axles[axle].options, scenario.ranking);
}

/**
 * Sweeps the heads of a chunk that this taker is dealt, noting on the board how far it is and stopping after the head
 * at hand when the board says so. What the takers of a chunk find adds up to the same, whoever is dealt what.
 */
export function sweepChunk(scenario: Scenario, { chunk, taker }: Task, board: Board): ChunkResult {
  const setup = scenario.setups[chunk.setup] as Setup;
  const layout = layoutOf(scenario, setup, chunk.axle);
  const place = chunk.number * board.takers + taker;
  let taken = -1;
  const { tally } = sweepKernel(layout, chunk.from, chunk.to, () => {
    taken++;
    board.judged[place] = taken * layout.headSize;
    return taken > 0 && isStopped(board) ? STOPPED : deal(board, chunk);
  });
  board.workable[place] = totals(tally)[PASS] as number;
  board.best[place] = cornerScore(layout.site, layout.ranking, bestLogScore(tally.classes));
  return { chunk, tally, judged: taken * layout.headSize };
}

/** Beyond every head. */
const STOPPED = Number.POSITIVE_INFINITY;
