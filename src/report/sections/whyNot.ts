/** Springs that never work: what the closest combination lacks and the smallest cure; and what a whole setup must give. */
import { cureText } from '../../advice/messages.ts';
import { CHECK } from '../../model/corner/checks.ts';
import { AXLE_NAMES } from '../../model/scenario.ts';
import type { Relaxations, WhyNot, WhyNotSpring } from '../../result/advice.ts';
import type { SetupResult } from '../../result/result.ts';
import { ofSetups, section } from '../frame/section.ts';
import {
  CLOSENESS,
  CURE_LIMITS,
  fruitful,
  fruitlessText,
  lackText,
  lookedText,
  neverWorking,
  relaxationText,
  restText,
  springText,
} from '../text/adviceText.ts';
import { AXLE_TITLES } from '../text/labels.ts';
import { PAGE } from '../text/numbers.ts';

export const whyNot = section({
  id: 'why-not',
  link: 'Cures',
  title: 'Why not the others, and what would cure them',
  view: ({ result }) => ofSetups(result.setups.map(whyNotView)),
  prints: false,
  leaves: 'cures',
});

export function whyNotView({ name, advice }: SetupResult) {
  if (!advice) return null;
  const axles = AXLE_NAMES.filter((axle) => advice.why_not[axle].springs.length > 0);
  if (axles.length === 0 && advice.relaxations === null) return null;
  return {
    setup: name,
    limits: CURE_LIMITS,
    closeness: CLOSENESS,
    axles: axles.map((axle) => axleView(AXLE_TITLES[axle], advice.why_not[axle])),
    relaxations: relaxationsView(advice.relaxations),
  };
}

function axleView(axle: string, found: WhyNot) {
  const { springs, combinations, looked_at } = found;
  const cured = springs.filter((spring) => spring.cures.length > 0);
  return {
    axle,
    count: String(neverWorking(found)),
    rest: restText(found),
    without: String(springs.length - cured.length),
    cured: [...cured]
      .sort((a, b) => leastAmount(a) - leastAmount(b))
      .map((spring) => ({
        spring: springText(spring, PAGE),
        lacks: lackText(spring, PAGE),
        closest: spring.closest,
        cures: spring.cures.map((cure) => ({ text: cureText(cure), on: cure.on, parts: cure.parts })),
      })),
    groups: groupsOf(springs.filter((spring) => spring.cures.length === 0)),
    looked: lookedText(combinations, looked_at),
  };
}

export function leastAmount({ cures }: WhyNotSpring): number {
  return cures[0]?.amount_mm ?? Number.POSITIVE_INFINITY;
}

/** Springs without a cure whose closest combinations fail the same checks; the largest group first. */
function groupsOf(springs: readonly WhyNotSpring[]) {
  const groups = new Map<string, WhyNotSpring[]>();
  for (const spring of springs) {
    const checks = spring.failures.map(({ check }) => CHECK[check].label).join(' + ');
    groups.set(checks, [...(groups.get(checks) ?? []), spring]);
  }
  const rows = [...groups].map(([checks, members]) => ({
    checks,
    springs: members.map((spring) => ({ spring: shortSpring(spring), lacks: amounts(spring) })),
  }));
  return rows.sort((a, b) => b.springs.length - a.springs.length);
}

function shortSpring({ spring, free_length_mm, rate_n_per_mm }: WhyNotSpring): string {
  return `${spring} (${free_length_mm.toFixed(0)}\u00a0mm, ${rate_n_per_mm.toFixed(1)}\u00a0N/mm)`;
}

function amounts({ failures }: WhyNotSpring): string {
  return failures
    .map(({ shortfall, unit }) =>
      shortfall === null ? '' : `${shortfall.toFixed(unit === 'Hz' ? 3 : 1)}\u00a0${unit}`,
    )
    .join(' + ');
}

function relaxationsView(relaxations: Relaxations | null) {
  if (relaxations === null) return null;
  return {
    basis: RELAXATION_BASES[relaxations.basis],
    /** Requirements that give no answer by themselves, in a sentence; empty where every one gives one. */
    none: fruitlessText(relaxations, PAGE),
    /** Ids of the best are known: not where lists were thinned. */
    hasWinners: relaxations.basis === 'all',
    /** What gives an answer. */
    rows: fruitful(relaxations).map((row) => ({
      requirement: row.requirement,
      axles: row.axles.join(' and '),
      amount: relaxationText(row, PAGE),
      winner: row.winner ?? PAGE.none,
    })),
  };
}

export const RELAXATION_BASES = {
  all: 'Each was relaxed alone, in small steps, and everything swept again.',
  thinned: 'Each was relaxed alone and swept on evenly thinned option lists: less may do.',
} as const;
