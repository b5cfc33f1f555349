/** How near to solid the coils may come: the least sum of gaps between them, and the margin to coil bind that follows. */
import { leastGapSum } from '../formula/coil.ts';
import type { Spring } from '../parts.ts';
import type { CoilBindRule } from '../scenario.ts';

/** Margin to coil bind where nothing else is asked for and the wire is unknown, mm. Common practice, no source. */
const COMMON_MARGIN = 6;

/** Where a spring's margin comes from, in words. */
export const MARGIN_BASES = {
  given: 'given',
  least_gaps: 'the least sum of gaps between coils (EN 13906-1, from memory)',
  half_least_gaps: 'half of the least sum of gaps between coils (EN 13906-1, from memory)',
  usual: 'usual (common practice, no source)',
} as const;
type MarginBasis = keyof typeof MARGIN_BASES;

export interface CoilBindMargin {
  /** mm along the damper. */
  readonly value: number;
  readonly basis: MarginBasis;
}

/**
 * Least sum of gaps between coils of a spring; null where nothing is known of its wire.
 *
 * Units: `spring` in mm; result mm.
 * Valid: see `leastGapSum`; as sure as the wire, which may be estimated.
 * Source: see `leastGapSum`.
 */
export function leastGapsOf({ wire, bore }: Spring): number | null {
  return wire === null ? null : leastGapSum(wire.diameter, bore + wire.diameter, wire.activeCoils);
}

/**
 * Margin to coil bind that a spring must keep at full bump.
 *
 * Equation: as given; S_a with `en_13906`; else max(6 mm, S_a / 2) where the wire is known, 6 mm where it is not
 * Units: `rule` and `spring` in mm; result mm.
 * Valid: a spring of unknown wire has no S_a, and keeps the usual 6 mm under every rule but a given one.
 * Source: EN 13906-1 for S_a (from memory); 6 mm and the half are common practice, no source.
 */
export function coilBindMargin(rule: CoilBindRule, spring: Spring): CoilBindMargin {
  if (rule.kind === 'fixed') return { value: rule.value, basis: 'given' };
  const { value, basis } = chooseMargin(rule.kind, spring);
  return { value: Math.max(0, value - rule.lowered), basis };
}

function chooseMargin(kind: 'en_13906' | 'default', spring: Spring): CoilBindMargin {
  const least = leastGapsOf(spring);
  if (kind === 'en_13906' && least !== null) return { value: least, basis: 'least_gaps' };
  if (least === null || spring.wire?.estimated || least / 2 <= COMMON_MARGIN) {
    return { value: COMMON_MARGIN, basis: 'usual' };
  }
  return { value: least / 2, basis: 'half_least_gaps' };
}
