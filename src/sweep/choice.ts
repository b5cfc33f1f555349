/** Chosen combinations, found by their indices: judged in full, or found anew with other weights. */
import type { Resweep } from '../advice/taste.ts';
import { cornerAt } from '../model/corner/options.ts';
import { cornerWeights, scoreOf } from '../model/corner/score.ts';
import { siteOf } from '../model/corner/site.ts';
import type { Working } from '../model/corner/window.ts';
import { pairId } from '../model/ids.ts';
import { AXLE_NAMES, type AxleName, type Ranking, type Scenario, type Setup } from '../model/scenario.ts';
import { allCriteria, type JudgedPair, workingOf } from '../result/records/combination.ts';
import { pairUp, type ScoredPair, type Side } from './join.ts';
import { sweepKernel } from './kernel.ts';
import { type AxleLayout, layoutOf } from './layout.ts';
import { candidatesOf } from './tally.ts';

/** Indices of both combinations. */
export type Choice = Readonly<Record<AxleName, number>>;

export function judgeChoice(scenario: Scenario, setup: Setup, choice: Choice): JudgedPair {
  const working = (axle: AxleName) => {
    const known = judgedCorners(scenario, setup)[axle];
    const index = choice[axle];
    const found =
      known.get(index) ?? workingOf(siteOf(scenario, setup, axle), cornerAt(scenario.axles[axle].options, index));
    known.set(index, found);
    return found;
  };
  return { scenario, setup, indices: choice, workings: { front: working('front'), rear: working('rear') } };
}

type JudgedCorners = Readonly<Record<AxleName, Map<number, Working>>>;

/** Corners judged in full by setup and index: pairs, plans and sweeps with other weights share many. */
const corners = new WeakMap<Scenario, Map<Setup, JudgedCorners>>();

function judgedCorners(scenario: Scenario, setup: Setup): JudgedCorners {
  const setups = corners.get(scenario) ?? new Map<Setup, JudgedCorners>();
  corners.set(scenario, setups);
  const known = setups.get(setup) ?? { front: new Map<number, Working>(), rear: new Map<number, Working>() };
  setups.set(setup, known);
  return known;
}

/**
 * Who wins a setup with other weights or ranges, on this thread, for advice.
 * @param fingerprint of the scenario whose option lists the ids belong to
 */
export function resweepOf(fingerprint: string): Resweep {
  const known = new WeakMap<Scenario, { readonly setup: Setup; readonly bestBy: BestBy }>();
  return (scenario, setup, weights = scenario.ranking.weights) => {
    const last = known.get(scenario);
    const bestBy = last?.setup === setup ? last.bestBy : bestPairs(scenario, setup);
    known.set(scenario, { setup, bestBy });
    const ranking = { ...scenario.ranking, weights };
    const best = bestBy(ranking);
    if (!best) return null;
    const choice = { front: best.front.index, rear: best.rear.index };
    const pair = { ...judgeChoice(scenario, setup, choice), scenario: { ...scenario, ranking } };
    const bought = AXLE_NAMES.map((axle) => pair.workings[axle].state.corner);
    return {
      id: pairId({ setup: setup.name, ...choice }, fingerprint),
      purchase: JSON.stringify(bought.map(({ helper, spring }) => [helper, spring])),
      score: scoreOf(allCriteria(pair)),
    };
  };
}

type BestBy = (ranking: Ranking) => ScoredPair | undefined;

/**
 * The best pair by ranking, straight through the kernel: nothing else is asked for, so nothing else is tallied or listed.
 * Rankings differ in their weights only, so corners are judged once, and an axle is swept once for its own weights.
 */
function bestPairs(scenario: Scenario, setup: Setup): BestBy {
  const sideBy = (axle: AxleName) => {
    const layout = { ...layoutOf(scenario, setup, axle), judged: judgedCorners(scenario, setup)[axle] };
    const known = new Map<string, Side>();
    return (ranking: Ranking): Side => {
      const weights = cornerWeights(layout.site, ranking).join();
      const side = known.get(weights) ?? sideOf({ ...layout, ranking });
      known.set(weights, side);
      return side;
    };
  };
  const [front, rear] = [sideBy('front'), sideBy('rear')];
  return (ranking) => pairUp(front(ranking), rear(ranking), setup, { ...ranking, keep: 1 }).best[0];
}

function sideOf(layout: AxleLayout): Side {
  const { tally } = sweepKernel(layout, 0, layout.assemblies);
  return { candidates: candidatesOf(tally), frequencies: tally.frequencies, stacks: layout.stacks.count };
}
