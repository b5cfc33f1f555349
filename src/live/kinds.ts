/** Kinds of things that words are made of. */
import type { AxleName } from '../domain/scenario.ts';

export const CONTROL_IDS = ['height', 'perch', 'trim', 'spacer', 'stop', 'load', 'bump'] as const;
export type ControlId = (typeof CONTROL_IDS)[number];

/** One value of the bench that is not as swept, in words. */
export interface Difference {
  /** Null: of the whole setup. */
  readonly axle: AxleName | null;
  readonly what: string;
  readonly now: string;
  readonly swept: string;
}
