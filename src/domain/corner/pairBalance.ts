/** Front against rear: the one check that a corner alone cannot decide. */
import type { Setup } from '../scenario.ts';
import type { Finding } from './findings.ts';

/**
 * Rear over front frequency outside the setup's window; nothing to judge where a corner has no frequency.
 *
 * Units: `front` and `rear` judged frequencies in Hz, `balance` window dimensionless; result dimensionless, shortfall above 0.
 * Valid: frequencies above 0; NaN fails nothing here, since its corner fails already.
 */
export function balanceFindingsOf(front: number, rear: number, balance: Setup['balance']): Finding[] {
  const found = rear / front;
  if (Number.isNaN(found) || (found >= balance.from && found <= balance.to)) return [];
  const low = found < balance.from;
  const needed = low ? balance.from : balance.to;
  return [{ check: 'balance', detail: low ? 'lowest' : 'highest', found, needed, shortfall: Math.abs(found - needed) }];
}
