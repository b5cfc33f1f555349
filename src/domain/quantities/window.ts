/** The height window and what it covers of the wanted range. */
import { coveredShare } from '../corner/window.ts';
import { type CornerQuantity, quantities, type Working } from './quantity.ts';

const LIMITS = 'the limits solved for the ride height that meets them';
const target = (w: Working) => w.state.site.target;

// biome-ignore format: one row a quantity
export const WINDOW: readonly CornerQuantity[] = quantities<Working>('height window', LIMITS, [
  ['wanted_from', 'H_from', 'wanted heights from', 'length', (w) => target(w).wantedFrom, undefined, { source: 'given' }],
  ['wanted_to', 'H_to', 'wanted heights to', 'length', (w) => target(w).wantedTo, undefined, { source: 'given' }],
  ['lowest_height', 'H_low', 'lowest usable ride height', 'length', (w) => w.window?.low.height ?? null],
  ['highest_height', 'H_high', 'highest usable ride height', 'length', (w) => w.window?.high.height ?? null],
  ['lowest_perch', 'P_low', 'lowest usable place of the perch seat', 'length', (w) => w.window?.low.perch ?? null],
  ['highest_perch', 'P_high', 'highest usable place of the perch seat', 'length', (w) => w.window?.high.perch ?? null],
  ['height_coverage', 'cover', 'share of the wanted heights that the window covers', 'share', (w) => 100 * coveredShare(w.window, target(w).wantedFrom, target(w).wantedTo), coverage, { better: 'more' }],
]);

function coverage(w: Working): string | null {
  if (!w.window?.usable || target(w).wantedTo <= target(w).wantedFrom) return null;
  return '100 * max(0, min(H_high, H_to) - max(H_low, H_from)) / (H_to - H_from)';
}
