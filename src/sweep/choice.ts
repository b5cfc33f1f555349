/** Chosen combinations, found by their indices: judged in full, or found anew with other weights. */
import type { Resweep } from '../advice/relax.ts';
import type { Winner } from '../advice/taste.ts';
import { cornerAt } from '../model/corner/options.ts';
import { scoreOf } from '../model/corner/score.ts';
import { siteOf } from '../model/corner/site.ts';
import type { Working } from '../model/corner/window.ts';
import { askedOf, pairId } from '../model/ids.ts';
import { AXLE_NAMES, type AxleName, type Ranking, type Scenario, type Setup } from '../model/scenario.ts';
import { allCriteria, type JudgedPair, workingOf } from '../result/records/combination.ts';
import { pairUp, type ScoredPair, type Side } from './join.ts';
import { sweepKernel } from './kernel.ts';
import { type AxleLayout, layoutOf } from './layout.ts';
import { candidatesOf } from './tally.ts';

/** Indices of both combinations. */
export type Choice = Readonly<Record<AxleName, number>>;

export function judgeChoice(scenario: Scenario, setup: Setup, choice: Choice): JudgedPair {
  const working = (axle: AxleName) => judgedCorner(scenario, setup, axle, choice[axle]);
  return { scenario, setup, indices: choice, workings: { front: working('front'), rear: working('rear') } };
}

/** A corner judged in full, once. */
export function judgedCorner(scenario: Scenario, setup: Setup, axle: AxleName, index: number): Working {
  const known = judgedCorners(scenario, setup)[axle];
  const found =
    known.get(index) ?? workingOf(siteOf(scenario, setup, axle), cornerAt(scenario.axles[axle].options, index));
  known.set(index, found);
  return found;
}

type JudgedCorners = Readonly<Record<AxleName, Map<number, Working>>>;

/** Corners judged in full by what is asked of them and index: pairs, plans, sweeps with other weights and setups share many. */
const corners = new WeakMap<Scenario, { readonly ofSetups: Map<Setup, JudgedCorners>; readonly asked: JudgedAlike }>();
type JudgedAlike = Map<string, Map<number, Working>>;

/** Those of a setup that are judged already. */
export function judgedCorners(scenario: Scenario, setup: Setup): JudgedCorners {
  const { ofSetups, asked } = corners.get(scenario) ?? { ofSetups: new Map(), asked: new Map() };
  corners.set(scenario, { ofSetups, asked });
  const known = ofSetups.get(setup) ?? { front: alike(asked, setup, 'front'), rear: alike(asked, setup, 'rear') };
  ofSetups.set(setup, known);
  return known;
}

function alike(asked: JudgedAlike, setup: Setup, axle: AxleName): Map<number, Working> {
  const text = askedOf(setup, axle);
  const known = asked.get(text) ?? new Map<number, Working>();
  asked.set(text, known);
  return known;
}

/**
 * Who wins a setup with other ranges, on this thread, for advice.
 * @param fingerprint of the scenario whose option lists the ids belong to
 */
export function resweepOf(fingerprint: string): Resweep {
  return (scenario, setup) => {
    const [front, rear] = AXLE_NAMES.map((axle) => sideOf(layoutOf(scenario, setup, axle))) as [Side, Side];
    const [best] = pairUp(front, rear, setup, { ...scenario.ranking, keep: 1 }).best;
    return best ? winnerOf(scenario, setup, scenario.ranking, fingerprint, best) : null;
  };
}

/** What the sweep of an axle finds, as pairing needs it. */
export function sideOf(layout: AxleLayout): Side {
  const { tally } = sweepKernel(layout, 0, layout.assemblies);
  return { candidates: candidatesOf(tally), frequencies: tally.frequencies, stacks: layout.stacks.of };
}

/** @param ranking with the weights that the score is told by */
export function winnerOf(
  scenario: Scenario,
  setup: Setup,
  ranking: Ranking,
  fingerprint: string,
  best: Pick<ScoredPair, AxleName>,
): Winner {
  const choice = { front: best.front.index, rear: best.rear.index };
  const pair = { ...judgeChoice(scenario, setup, choice), scenario: { ...scenario, ranking } };
  const bought = AXLE_NAMES.map((axle) => pair.workings[axle].state.corner);
  return {
    id: pairId({ setup: setup.name, ...choice }, fingerprint),
    purchase: JSON.stringify(bought.map(({ helper, spring }) => [helper, spring])),
    score: scoreOf(allCriteria(pair)),
  };
}
