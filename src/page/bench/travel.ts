/** A place on the way from full droop over standing to full bump, and the corner's lengths there. */
import { damperLengthAt } from '../../model/corner/site.ts';
import type { CornerState } from '../../model/corner/state.ts';
import { type CornerLayout, cornerLayout } from '../../report/drawing/layout.ts';
import { type Bumped, stateLengths } from '../../result/records/lengths.ts';

/** -1 full droop, 0 standing, 1 full bump; between them in proportion to the wheel's travel. */
export type Share = number;

export interface Place extends Bumped {
  /** Wheel travel from standing, mm: positive into bump. */
  readonly travel: number;
  /** Along the damper to the stop, mm: negative, how far it is squeezed. */
  readonly toStop: number;
}

export function placeAt(state: CornerState, share: Share): Place {
  const { standing, geometry, full, corner } = state;
  const height = heightAt(state, share);
  const length = lengthAt(state, share, height);
  // The bush is pressed in with the squeeze of the stop, all of it at full bump.
  const squeeze = geometry.squeezeLength - length;
  const whole = geometry.squeezeLength - full.length;
  const pressed = whole > 0 ? Math.min(1, Math.max(0, squeeze / whole)) : Number(share >= 1);
  return {
    height,
    length,
    travel: standing.height - height,
    toStop: length - geometry.stopLength,
    give: corner.mount.bushGive * pressed,
  };
}

function heightAt({ standing, geometry, full }: CornerState, share: Share): number {
  const end = share < 0 ? geometry.droopHeight : full.height;
  return standing.height + Math.abs(share) * (end - standing.height);
}

/** The ends are the model's own lengths, digit for digit. */
function lengthAt({ standing, geometry, full, site, corner }: CornerState, share: Share, height: number): number {
  if (share === 0) return standing.length;
  if (share >= 1) return full.length;
  if (share <= -1) return geometry.droopLength;
  return damperLengthAt(site, corner.mount, height);
}

/**
 * The layout of a drawing whose full-bump figure stands at this place instead; its clearances stay those judged. What they
 * are with the stop fully closed stands in the table beside it, for which the picture has no room.
 */
export function layoutAt(state: CornerState, place: Place): CornerLayout {
  const lengths = stateLengths(state, place);
  return cornerLayout({ ...lengths, contacts: lengths.contacts.map((contact) => ({ ...contact, closed: null })) });
}
