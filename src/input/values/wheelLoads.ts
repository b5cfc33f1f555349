/** The load on the wheels of an axle: one for both, or left and right. */
import type { SideName } from '../../domain/scenario.ts';

export type WheelLoad = number | Readonly<Record<SideName, number>>;

/** Left and right, or null where one load stands for both. */
export function sideLoads(load: WheelLoad): Readonly<Record<SideName, number>> | null {
  return typeof load === 'number' ? null : load;
}

/** The load the sweep judges: the mean of both sides. */
export function meanLoad(load: WheelLoad): number {
  return typeof load === 'number' ? load : (load.left + load.right) / 2;
}

export function leastLoad(load: WheelLoad): number {
  return typeof load === 'number' ? load : Math.min(load.left, load.right);
}
