/** What is bought for each setup: its part of the best plan where one works, else its own best. */
import { AXLE_NAMES, type Family } from '../../model/scenario.ts';
import type { PlannedShare, PurchaseAdvice } from '../../result/advice.ts';
import type {
  BuildSheet,
  Combination,
  PartChoice,
  PlanPart,
  PlanRecord,
  PlansResult,
  Result,
  SetupResult,
} from '../../result/result.ts';
import { fixed, PAGE } from './numbers.ts';

export interface Answer {
  readonly setup: SetupResult;
  readonly combination: Combination;
  /** The plan that it is part of; null where it is the setup's own best. */
  readonly plan: PlanRecord | null;
  /** How it stood up to random builds; null where none were drawn. */
  readonly builds: Tried | null;
}

/** Those of the setups that have one; a given build stands there whether or not it works. */
export function answersOf(result: Result): Answer[] {
  return result.setups.flatMap((setup) => answerOf(result, setup) ?? []);
}

export function answerOf(result: Result, setup: SetupResult): Answer | null {
  const plan = result.plans?.plans[0];
  const part = plan?.setups.find((one) => one.setup === setup.name);
  if (plan && part) return answerWith(result, setup, combinationOf(result, part), plan);
  const [combination] = setup.shortlist;
  return combination ? answerWith(result, setup, combination, null) : null;
}

function answerWith(result: Result, setup: SetupResult, combination: Combination, plan: PlanRecord | null): Answer {
  return { setup, combination, plan, builds: triedOf(result, setup, combination.id) };
}

/** Whether it carries its tolerance bands; those of plans did not in older reports. */
export function isInFull({ plan, combination: { axles } }: Answer): boolean {
  return plan === null || axles.front.force_curve !== undefined;
}

/** What is known of a pair of the plan as of the shortlist; what is expected only where it is of a setup alone. */
export type Tried = PlannedShare & Pick<PurchaseAdvice, 'expected'>;

/** How a pair stood up to random builds, of the plan as of the shortlist; null where none were drawn. */
export function triedOf({ plans }: Result, { advice }: SetupResult, id: string): Tried | null {
  const tried: readonly Tried[] = [...(plans?.purchase?.setups ?? []), ...(advice?.purchases ?? [])];
  return tried.find((one) => one.id === id) ?? null;
}

// Reading plans: the combinations they are made of, their springs, and the gain of one figure over another.

/** The record of a pair: from its setup's shortlist, or from what the plans brought. */
export function combinationOf(result: Result, { setup, id }: PlanPart): Combination {
  const listed = result.setups.find(({ name }) => name === setup)?.shortlist ?? [];
  const brought = result.plans?.combinations.map(({ combination }) => combination) ?? [];
  // What the plans brought may be in full where the shortlist is not.
  const found = [...brought, ...listed].find((one) => one.id === id);
  if (found === undefined) throw new Error(`The result has no combination “${id}”.`);
  return found;
}

/** `HS280-34 / HS220-58 with helper 50`: front, then rear. */
export function springsOf({ axles }: Combination): string {
  return AXLE_NAMES.map((axle) => {
    const { spring, helper } = axles[axle].parts;
    return helper.name === 'none' ? spring.name : `${spring.name} with ${helper.name}`;
  }).join(' / ');
}

export type Value = number | null | undefined;

/** The difference of the two figures as shown, with its sign. */
export function gainText(one: Value, own: Value, decimals: number): string {
  if (typeof one !== 'number' || typeof own !== 'number') return PAGE.none;
  const gain = Number(own.toFixed(decimals)) - Number(one.toFixed(decimals));
  const text = fixed(gain, decimals, PAGE);
  return Number(gain.toFixed(decimals)) > 0 ? `+${text}` : text;
}

/** Both axles have combinations that work in every setup: what is missing is a pair of them. */
export function isUnbalanced({ front, rear }: PlansResult['workable']): boolean {
  return front > 0 && rear > 0;
}

// What is built: the best plan over its setups, and for every other setup its own best; alike parts together.

export interface Build {
  /** Of the plan, or of the combination. */
  readonly id: string;
  readonly isPlan: boolean;
  /** At least one. */
  readonly setups: readonly BuildSetup[];
}

export interface BuildSetup {
  readonly setup: SetupResult;
  readonly combination: Combination;
  readonly sheet: BuildSheet;
}

/** Nothing that fails a check is built, nor what was written before there were build sheets. */
export function buildsOf(result: Result): Build[] {
  const planned = plannedBuild(result);
  const names = planned?.setups.map(({ setup }) => setup.name) ?? [];
  const alone = result.setups.filter(({ name }) => !names.includes(name)).flatMap(ownBest);
  return [...(planned ? [planned] : []), ...groupAlike(alone)];
}

function plannedBuild(result: Result): Build | null {
  const { plans: [best] = [], sheets } = result.plans ?? {};
  if (best === undefined || sheets === undefined) return null;
  const planned = answersOf(result).filter(({ plan }) => plan !== null);
  const setups = best.setups.flatMap((part, k) => {
    const answer = planned.find(({ setup }) => setup.name === part.setup);
    const sheet = sheets[k];
    return answer && sheet ? [{ ...answer, sheet }] : [];
  });
  return { id: best.id, isPlan: true, setups };
}

function ownBest(setup: SetupResult): BuildSetup[] {
  const [combination] = setup.shortlist;
  return combination?.workable && combination.sheet ? [{ setup, combination, sheet: combination.sheet }] : [];
}

/** Setups whose best combinations are made of the same parts, cut the same, are one build. */
function groupAlike(alone: readonly BuildSetup[]): Build[] {
  const groups = new Map<string, BuildSetup[]>();
  for (const built of alone) {
    const key = JSON.stringify(AXLE_NAMES.map((axle) => built.combination.axles[axle].parts));
    groups.set(key, [...(groups.get(key) ?? []), built]);
  }
  return [...groups.values()].map((setups) => {
    return { id: setups.map(({ combination }) => combination.id).join(', '), isPlan: false, setups };
  });
}

/** A family's choice on one axle: once where all setups have the same, else each with the setups it is for. */
export interface Choice {
  /** Null where it is for all. */
  readonly who: string | null;
  readonly part: PartChoice;
  readonly built: BuildSetup;
}

export function choicesOf({ setups }: Build, axle: (typeof AXLE_NAMES)[number], family: Family): Choice[] {
  const found = new Map<string, { part: PartChoice; built: BuildSetup; names: string[] }>();
  for (const built of setups) {
    const part = built.combination.axles[axle].parts[family];
    const key = JSON.stringify(part);
    const known = found.get(key);
    if (known) known.names.push(built.setup.name);
    else found.set(key, { part, built, names: [built.setup.name] });
  }
  const all = [...found.values()];
  return all.map(({ part, built, names }) => ({ who: all.length > 1 ? names.join(', ') : null, part, built }));
}
