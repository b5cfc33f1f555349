/** What a sheet of measurements is made of: every number a scenario needs, and what is known of it already. */
import type { AxleName, Tolerances } from './scenario.ts';
import type { AxleEffects } from './tolerance/effects.ts';
import type { Dimension } from './units.ts';

export interface MeasuredField {
  /** Path in the scenario, that of an axle without `axles.front`: `car.wheelbase`, `dampers[].extended`. */
  readonly path: string;
  readonly dimension: Dimension;
  /** What it is, in the words of the table of fields. */
  readonly text: string;
  readonly isNeeded: boolean;
  /** What the scenario holds already, in inner units, each value once; a field of the car stands under front. */
  readonly values: Readonly<Record<AxleName, readonly number[]>>;
}

export interface MeasureSheet {
  readonly tool: string;
  /** Null: a blank sheet. */
  readonly scenario: string | null;
  readonly fields: readonly MeasuredField[];
  /** The defaults, or the scenario's own. */
  readonly tolerances: Tolerances;
  readonly defaults: Tolerances;
  /** Best combination of each setup, for which the effects hold; none without a scenario, or where nothing works. */
  readonly bests: readonly { readonly setup: string; readonly id: string }[];
  readonly effects: readonly AxleEffects[];
}
