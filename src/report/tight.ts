/** What tolerances could do at worst, in words. */
import type { TightClearance } from '../domain/result.ts';
import { type NumberStyle, withUnits } from './numbers.ts';

/** `coil bind: clearance 12.1 mm could be -1.1 mm at worst.` */
export function tightText({ contact, clearance_mm, worst_mm, seat }: TightClearance, style: NumberStyle): string {
  const length = (value: number) => withUnits(value, 'length', style);
  if (!seat) return `${contact}: clearance ${length(clearance_mm)} could be ${length(worst_mm)} at worst.`;
  const { slack_mm, worst_slack_mm, held_mm } = seat;
  const now = slack_mm < 0 ? `preloaded by ${length(-slack_mm)}` : `${length(slack_mm)} loose`;
  return `${contact}: at full droop ${now}, at worst ${length(worst_slack_mm)} loose; its seats hold ${length(held_mm)}.`;
}
