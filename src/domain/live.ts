/**
 * What the live bench of the report starts from: the inner-unit inputs of the model, digit for digit, so that the page
 * computes with the very numbers the sweep did. Part tables hold only what the shortlist uses.
 */
import type { Axle, AxleName, AxleOptions, Margins, Setup } from './scenario.ts';

export interface LiveRecord {
  readonly margins: Margins;
  readonly axles: Readonly<Record<AxleName, LiveAxle>>;
  readonly setups: readonly LiveSetup[];
}

export interface LiveAxle extends Omit<Axle, 'wheelLoads' | 'roll' | 'options'> {
  /** Parts that the shortlists use; of helpers all, so that one can be put in. */
  readonly options: AxleOptions;
}

export interface LiveSetup
  extends Pick<Setup, 'name' | 'axles' | 'balance' | 'bump' | 'standingOnStop' | 'frequencyBasis' | 'loadStates'> {
  /** Best first. */
  readonly starts: readonly LiveStart[];
}

/** A combination of the shortlist: its choice in each of the tables, in the order of the families. */
export interface LiveStart {
  readonly id: string;
  readonly front: readonly number[];
  readonly rear: readonly number[];
}
