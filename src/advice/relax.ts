/**
 * A setup without an answer: what each requirement would have to give, alone, for one. Giving in by more never loses
 * an answer (heights apart), so the least is found by halving, rounded up to a practical step, and swept to confirm.
 */
import { coilBindMargin } from '../model/corner/coilGaps.ts';
import { balanceLimits } from '../model/corner/pairBalance.ts';
import type { AxleName, AxleTarget, CoilBindRule, Margins, Scenario, Setup } from '../model/scenario.ts';
import type { Steps } from '../model/steps.ts';
import { type Relaxation, type Relaxations, rounded, upToStep } from '../result/advice.ts';
import type { Winner } from './taste.ts';

/** The best pair of a setup; null where nothing works. */
export type Resweep = (scenario: Scenario, setup: Setup) => Winner | null;

/** One requirement and how far it may give in. */
export interface Requirement {
  readonly name: string;
  readonly axles: readonly AxleName[];
  readonly unit: 'mm' | 'Hz' | '';
  readonly step: number;
  readonly most: number;
  readonly relax: (scenario: Scenario, setup: Setup, by: number) => readonly [Scenario, Setup];
}

type Change = (target: AxleTarget, by: number) => Partial<AxleTarget>;

const MOST_HERTZ = 1;
const MOST_RATIO = 0.5;
const MOST_SLACK = 20;
const MOST_HEIGHT = 40;

/** @param axles those of which nothing passes */
export function requirementsOf(scenario: Scenario, setup: Setup, axles: readonly AxleName[]): Requirement[] {
  const onTarget = (name: string, unit: Requirement['unit'], greatest: number, change: Change): Requirement => ({
    name,
    axles,
    unit,
    step: unit === 'Hz' ? 0.01 : name.startsWith('target height') ? 1 : 0.5,
    most: greatest,
    relax: (s, old, by) => [s, { ...old, axles: changeTargets(old, axles, change, by) }],
  });
  const travel = (name: string, key: 'leastBumpTravel' | 'leastDroopTravel') =>
    onTarget(name, 'mm', Math.max(...axles.map((axle) => setup.axles[axle][key])), (target, by) => ({
      [key]: Math.max(0, target[key] - by),
    }));
  const margin = (name: string, key: Exclude<keyof Margins, 'coilBind'>): Requirement => ({
    name,
    axles,
    unit: 'mm',
    step: 0.5,
    most: scenario.margins[key],
    relax: (s, old, by) => [{ ...s, margins: { ...s.margins, [key]: Math.max(0, s.margins[key] - by) } }, old],
  });
  const { coilBind } = scenario.margins;
  const springs = axles.flatMap((axle) => scenario.axles[axle].options.spring);
  const all = [
    travel('least bump travel', 'leastBumpTravel'),
    travel('least droop travel', 'leastDroopTravel'),
    onTarget('frequency window, lower end', 'Hz', MOST_HERTZ, (t, by) => ({
      frequencyFrom: Math.max(0.1, t.frequencyFrom - by),
    })),
    onTarget('frequency window, upper end', 'Hz', MOST_HERTZ, (t, by) => ({ frequencyTo: t.frequencyTo + by })),
    onTarget('allowed slack at droop', 'mm', MOST_SLACK, (t, by) => ({ allowedSlack: t.allowedSlack + by })),
    balanceBounds(axles),
    {
      name: 'coil-bind margin',
      axles,
      unit: 'mm' as const,
      step: 0.5,
      most: Math.max(...springs.map((spring) => coilBindMargin(coilBind, spring).value)),
      relax: (s: Scenario, old: Setup, by: number) => [{ ...s, margins: lowerCoilBind(s.margins, by) }, old] as const,
    },
    margin('damper margin', 'damper'),
    margin('sleeve margin', 'sleeve'),
    margin('body margin', 'body'),
    margin('tyre margin', 'tyre'),
    onTarget('target height, higher', 'mm', MOST_HEIGHT, (t, by) => ({ targetHeight: t.targetHeight + by })),
    onTarget('target height, lower', 'mm', MOST_HEIGHT, (t, by) => ({ targetHeight: t.targetHeight - by })),
  ];
  return all.filter((requirement) => requirement.most > 0);
}

function lowerCoilBind(margins: Margins, by: number): Margins {
  const rule = margins.coilBind;
  const coilBind: CoilBindRule =
    rule.kind === 'fixed' ? { ...rule, value: Math.max(0, rule.value - by) } : { ...rule, lowered: rule.lowered + by };
  return { ...margins, coilBind };
}

function balanceBounds(axles: readonly AxleName[]): Requirement {
  return {
    name: 'balance limits, both ends',
    axles,
    unit: '',
    step: 0.01,
    most: MOST_RATIO,
    relax: (s, old, by) => {
      const { from, to } = balanceLimits(old.balance);
      return [s, { ...old, balance: { ...old.balance, limits: { from: Math.max(0.01, from - by), to: to + by } } }];
    },
  };
}

function changeTargets(setup: Setup, axles: readonly AxleName[], change: Change, by: number): Setup['axles'] {
  const changed = (axle: AxleName) => ({ ...setup.axles[axle], ...change(setup.axles[axle], by) });
  return {
    front: axles.includes('front') ? changed('front') : setup.axles.front,
    rear: axles.includes('rear') ? changed('rear') : setup.axles.rear,
  };
}

/** What each requirement costs, the least share of its greatest first; those that never help last. */
export function* relaxations(
  scenario: Scenario,
  setup: Setup,
  axles: readonly AxleName[],
  basis: Relaxations['basis'],
  resweep: Resweep,
): Steps<Relaxations> {
  const requirements = requirementsOf(scenario, setup, axles);
  const rows: Relaxation[] = [];
  for (const requirement of requirements) {
    yield { what: 'what could give in', done: rows.length, of: requirements.length };
    rows.push(rowOf(scenario, setup, requirement, resweep));
  }
  const effort = ({ by, most }: Relaxation) => (by === null ? Number.POSITIVE_INFINITY : by / most);
  return { basis, rows: rows.sort((a, b) => (effort(a) === effort(b) ? 0 : effort(a) - effort(b))) };
}

function rowOf(scenario: Scenario, setup: Setup, requirement: Requirement, resweep: Resweep): Relaxation {
  const at = (by: number) => resweep(...requirement.relax(scenario, setup, by));
  const { name, axles, unit, most, step } = requirement;
  const found = name.startsWith('target height') ? firstStep(at, most, step) : leastStep(at, most, step);
  return {
    requirement: name,
    axles,
    unit,
    by: found === null ? null : rounded(found.by, 2),
    most: rounded(most, 2),
    winner: found === null ? null : found.winner.id,
  };
}

interface Found {
  readonly by: number;
  readonly winner: Winner;
}

/** The least step at which there is an answer, by halving: more is never worse. */
function leastStep(at: (by: number) => Winner | null, most: number, step: number): Found | null {
  let [low, high] = [0, Math.ceil(most / step - 1e-9)];
  const by = (steps: number) => Math.min(most, upToStep(steps * step, step));
  let winner = at(by(high));
  if (winner === null) return null;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    const found = at(by(middle));
    if (found === null) low = middle;
    else [high, winner] = [middle, found];
  }
  return { by: by(high), winner };
}

/** Heights have no such order: an answer may lie between two heights without one, so every step is swept in turn. */
function firstStep(at: (by: number) => Winner | null, most: number, step: number): Found | null {
  for (let k = 1; k * step <= most; k++) {
    const winner = at(k * step);
    if (winner !== null) return { by: k * step, winner };
  }
  return null;
}
