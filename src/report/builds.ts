/** What is built: the best plan over its setups, and for every other setup its own best; alike parts together. */
import type { BuildSheet, Combination, PartChoice, Result, SetupResult } from '../domain/result.ts';
import { AXLE_NAMES, type Family } from '../domain/scenario.ts';
import { answersOf } from './answers.ts';

export interface Build {
  /** Of the plan, or of the combination. */
  readonly id: string;
  readonly isPlan: boolean;
  /** At least one. */
  readonly setups: readonly BuiltSetup[];
}

export interface BuiltSetup {
  readonly setup: SetupResult;
  readonly combination: Combination;
  readonly sheet: BuildSheet;
}

/** Nothing that fails a check is built, nor what was written before there were build sheets. */
export function buildsOf(result: Result): Build[] {
  const planned = plannedBuild(result);
  const names = planned?.setups.map(({ setup }) => setup.name) ?? [];
  const alone = result.setups.filter(({ name }) => !names.includes(name)).flatMap(ownBest);
  return [...(planned ? [planned] : []), ...grouped(alone)];
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

function ownBest(setup: SetupResult): BuiltSetup[] {
  const [combination] = setup.shortlist;
  return combination?.workable && combination.sheet ? [{ setup, combination, sheet: combination.sheet }] : [];
}

/** Setups whose best combinations are made of the same parts, cut the same, are one build. */
function grouped(alone: readonly BuiltSetup[]): Build[] {
  const groups = new Map<string, BuiltSetup[]>();
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
  readonly built: BuiltSetup;
}

export function choicesOf({ setups }: Build, axle: (typeof AXLE_NAMES)[number], family: Family): Choice[] {
  const found = new Map<string, { part: PartChoice; built: BuiltSetup; names: string[] }>();
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
