/** A small car swept in the page: the best pairs of each setup, and which springs work. */
import { choiceTextOf } from '../../fitting/words.ts';
import { combinationCount, cornerAt } from '../../model/corner/options.ts';
import { judgedFrequency } from '../../model/corner/rates.ts';
import { scoreOf } from '../../model/corner/score.ts';
import { siteOf } from '../../model/corner/site.ts';
import type { Working } from '../../model/corner/window.ts';
import { fingerprintOf, pairId } from '../../model/ids.ts';
import { AXLE_NAMES, type AxleName, type Scenario, type Setup } from '../../model/scenario.ts';
import { fixed, PAGE, withUnits } from '../../report/text/numbers.ts';
import { allCriteria, workingOf } from '../../result/records/combination.ts';
import type { SpringCell } from '../../result/result.ts';
import { type SetupOutcome, sweepScenario } from '../../sweep/outcome.ts';
import type { Draft } from './draft.ts';
import { MOST_IN_PAGE, readDraft } from './judge.ts';

/** Pairs of a setup that are shown. */
const SHOWN = 5;

export interface SweptDraft {
  readonly setups: readonly SweptSetup[];
}

export interface SweptSetup {
  readonly name: string;
  /** Combinations that work, an axle each, and pairs that are balanced. */
  readonly works: Readonly<Record<AxleName, number>>;
  readonly pairs: readonly SweptPair[];
  readonly springs: Readonly<Record<AxleName, readonly SpringCell[]>>;
}

export interface SweptPair {
  readonly id: string;
  /** 0 to 1. */
  readonly score: string;
  readonly axles: Readonly<Record<AxleName, SweptCorner>>;
}

export interface SweptCorner {
  readonly choice: string;
  readonly perch: string;
  readonly bumpTravel: string;
  readonly droopTravel: string;
  readonly frequency: string;
}

/** Whether a page takes it on. */
export function isSmallEnough({ axles }: Scenario): boolean {
  return AXLE_NAMES.every((axle) => combinationCount(axles[axle].options) <= MOST_IN_PAGE);
}

/** Null for what is no sound car, or too large. */
export async function sweepDraft(draft: Draft): Promise<SweptDraft | null> {
  const read = await readDraft(draft);
  if (!read.ok || read.level !== 'car' || !isSmallEnough(read.scenario)) return null;
  const { scenario } = read;
  return { setups: sweepScenario(scenario).map((outcome) => setupOf(scenario, outcome)) };
}

function setupOf(scenario: Scenario, { setup, axles, pairs }: SetupOutcome): SweptSetup {
  const print = fingerprintOf(scenario);
  return {
    name: setup.name,
    works: { front: axles.front.tally.passed, rear: axles.rear.tally.passed },
    pairs: pairs.best.slice(0, SHOWN).map(({ front, rear }) => {
      const indices = { front: front.index, rear: rear.index };
      const workings = {
        front: workingAt(scenario, setup, 'front', front.index),
        rear: workingAt(scenario, setup, 'rear', rear.index),
      };
      return {
        id: pairId({ setup: setup.name, ...indices }, print),
        score: fixed(scoreOf(allCriteria({ scenario, setup, indices, workings })), 3, PAGE),
        axles: {
          front: cornerOf(scenario, 'front', workings.front),
          rear: cornerOf(scenario, 'rear', workings.rear),
        },
      };
    }),
    springs: { front: axles.front.tally.spring_cells, rear: axles.rear.tally.spring_cells },
  };
}

function workingAt(scenario: Scenario, setup: Setup, axle: AxleName, index: number): Working {
  return workingOf(siteOf(scenario, setup, axle), cornerAt(scenario.axles[axle].options, index));
}

function cornerOf(scenario: Scenario, axle: AxleName, { state }: Working): SweptCorner {
  const mm = (value: number) => withUnits(value, 'length', PAGE);
  return {
    choice: choiceTextOf(scenario.axles[axle].options, state.corner, PAGE),
    perch: mm(state.standing.perch),
    bumpTravel: mm(state.bumpTravel),
    droopTravel: mm(state.droopTravel),
    frequency: withUnits(judgedFrequency(state), 'frequency', PAGE),
  };
}
