/** What the reader of a best combination must know before trusting it, in a few words each; its report says more. */
import type { Combination } from '../domain/result.ts';
import { AXLE_NAMES } from '../domain/scenario.ts';
import { PAGE, withUnits } from './numbers.ts';
import { wordOf } from './read.ts';

export function careWords(best: Combination): string[] {
  return [...failing(best), ...tight(best), ...estimates(best), ...warnings(best)];
}

function failing({ workable, failures, axles }: Combination): string[] {
  if (workable) return [];
  const count = failures.length + axles.front.failures.length + axles.rear.failures.length;
  return [`does not work: ${count} ${count === 1 ? 'check fails' : 'checks fail'}`];
}

/** Clearances whose worst case is negative, and springs that may leave their seats: measure before you buy. */
function tight({ axles }: Combination): string[] {
  return AXLE_NAMES.flatMap((axle) =>
    axles[axle].tight.map(
      ({ contact, worst_mm, seat }) =>
        `tight ${axle}: ${contact}, at worst ${withUnits(seat?.worst_slack_mm ?? worst_mm, 'length', PAGE)}${seat ? ` loose of ${withUnits(seat.held_mm, 'length', PAGE)}` : ''}`,
    ),
  );
}

function estimates({ axles }: Combination): string[] {
  return AXLE_NAMES.filter((axle) => wordOf(axles[axle], 'solid_height_source') === 'estimated').map(
    (axle) => `estimate ${axle}: solid height`,
  );
}

function warnings({ axles, flags }: Combination): string[] {
  const all = [...axles.front.flags, ...axles.rear.flags, ...flags].filter(({ kind }) => kind === 'warning');
  const count = new Set(all.map(({ message }) => message)).size;
  return count === 0 ? [] : [`${count} ${count === 1 ? 'warning' : 'warnings'} in its report`];
}
