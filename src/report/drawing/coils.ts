/** Where a sectioned spring's wire is cut: circles left and right of the axis, half a turn apart. */
import type { Span } from './layout.ts';

export interface Coils {
  /** Heights of the wire's centre, mm, from below. */
  readonly left: readonly number[];
  readonly right: readonly number[];
}

/**
 * Cuts through a spring of `total` turns of which `active` work: the dead turns at either end lie wire on wire, the
 * working ones share what is left of the length evenly.
 */
export function coilsIn(
  span: Span,
  wire: { readonly diameter: number; readonly active: number; readonly total: number },
): Coils {
  const height = (turn: number) => span[0] + wire.diameter / 2 + riseAt(turn, span[1] - span[0], wire);
  const turns = (from: number) =>
    Array.from({ length: Math.max(0, Math.floor(wire.total - from) + 1) }, (_, k) => height(from + k));
  return { left: turns(0), right: turns(0.5) };
}

function riseAt(
  turn: number,
  length: number,
  { diameter, active, total }: { readonly diameter: number; readonly active: number; readonly total: number },
): number {
  const dead = Math.max(0, total - active) / 2;
  const whole = length - diameter;
  // At the solid end dead turns of a ground spring are thinner than the wire.
  const deadPitch = Math.min(diameter, whole / total);
  const pitch = active > 0 ? (whole - 2 * dead * deadPitch) / active : 0;
  const working = Math.min(Math.max(0, turn - dead), active);
  return Math.min(turn, dead) * deadPitch + working * pitch + Math.max(0, turn - dead - active) * deadPitch;
}
