/** Which causes belong together. */
import type { CauseKind } from './causes.ts';

/** Causes that differ only in whether an amount or a part is known: a definite one is preferred to a fitted one. */
const GROUPS: Readonly<Partial<Record<CauseKind, string>>> = {
  stop_uncut: 'stop',
  other_stop: 'stop',
  stop_length_off: 'stop',
  sleeve_not_cut: 'sleeve',
  sleeve_cut_twice: 'sleeve',
  sleeve_length_off: 'sleeve',
  spring_length: 'spring length',
  spring_length_off: 'spring length',
  spring_rate: 'spring rate',
  spring_rate_off: 'spring rate',
  spacer_missing: 'spacer',
  other_spacer: 'spacer',
};

export function groupOf(kind: CauseKind): string {
  return GROUPS[kind] ?? kind;
}
