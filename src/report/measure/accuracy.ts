/** How well a number is usually read: the tolerance taken for its kind, or what common practice expects of the tool. */
import type { MeasureSheet } from '../../domain/measuring.ts';
import type { Tolerances } from '../../domain/scenario.ts';
import { fixed, PAGE } from '../numbers.ts';
import { measure } from '../read.ts';
import type { Row } from './rows.ts';

const SHARES: readonly (keyof Tolerances)[] = [
  ...(['rateShare', 'wheelLoadShare', 'unsprungMassShare', 'motionRatioShare', 'gasShare', 'stopForceShare'] as const),
];

export function accuracyOf({ tolerances, defaults }: MeasureSheet, { tolerance, usual }: Row) {
  if (tolerance === undefined) return { accuracy: usual ?? '', isOwn: false };
  const value = tolerances[tolerance];
  return { accuracy: toleranceText(tolerance, value), isOwn: value !== defaults[tolerance] };
}

function toleranceText(kind: keyof Tolerances, value: number): string {
  if (SHARES.includes(kind)) return `${fixed(100 * value, 1, PAGE)} %`;
  if (kind === 'closedFraction') return fixed(value, 2, PAGE);
  const { metric, unit, imperial, imperialUnit } = measure(value, 'length');
  return `${metric} ${unit} (${imperial} ${imperialUnit})`;
}
