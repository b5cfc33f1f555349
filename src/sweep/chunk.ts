/** One chunk swept, on whichever thread. */
import { siteOf } from '../domain/corner/site.ts';
import { cornerScore } from '../domain/ranking/criteria.ts';
import type { AxleName, Scenario, Setup } from '../domain/scenario.ts';
import { sweepKernel } from './kernel.ts';
import { type AxleLayout, axleLayout } from './layout.ts';
import { bestLogScore, PASS, totals } from './tally.ts';
import { type Board, type Chunk, type ChunkResult, isStopped } from './threads.ts';

export function layoutOf(scenario: Scenario, setup: Setup, axle: AxleName): AxleLayout {
  return axleLayout(siteOf(scenario, setup, axle), scenario.axles[axle].options, scenario.ranking);
}

/** Sweeps a chunk, noting on the board how far it is and stopping after the head at hand when the board says so. */
export function sweepChunk(scenario: Scenario, chunk: Chunk, board: Board): ChunkResult {
  const setup = scenario.setups[chunk.setup] as Setup;
  const layout = layoutOf(scenario, setup, chunk.axle);
  let heads = 0;
  const { tally } = sweepKernel(layout, chunk.from, chunk.to, () => {
    heads++;
    board.judged[chunk.number] = heads * layout.headSize;
    return !isStopped(board);
  });
  board.workable[chunk.number] = totals(tally)[PASS] as number;
  board.best[chunk.number] = cornerScore(layout.site, layout.ranking, bestLogScore(tally.classes));
  return { chunk, tally, judged: heads * layout.headSize };
}
