/**
 * What the live bench of the report starts from: the inner-unit inputs of the model, digit for digit, so that the page
 * computes with the very numbers the sweep did. Part tables hold only what plan and shortlists use.
 */
import type { Axle, AxleName, AxleOptions, Margins, Setup, SideName } from '../model/scenario.ts';
import type { Count } from '../model/units.ts';

export interface LiveRecord {
  readonly margins: Margins;
  readonly axles: Readonly<Record<AxleName, LiveAxle>>;
  readonly setups: readonly LiveSetup[];
}

export interface LiveAxle extends Omit<Axle, 'wheelLoads' | 'roll' | 'options'> {
  /** Left out where one load stands for both sides. */
  readonly wheelLoads?: Readonly<Record<SideName, number>>;
  /** Parts that plan and shortlists use; of helpers all, so that one can be put in. Null: none is fitted. */
  readonly options: AxleOptions;
}

export interface LiveSetup
  extends Pick<Setup, 'name' | 'axles' | 'balance' | 'bump' | 'standingOnStop' | 'frequencyBasis' | 'loadStates'> {
  /** What is bought first: the setup's part of the best plan, if there is one, then the shortlist. */
  readonly starts: readonly LiveStart[];
}

/** A combination to start from. */
export interface LiveStart {
  readonly id: string;
  /** Place on the shortlist, 0: only the plan has it; older reports give none. */
  readonly rank?: Count;
  /** It is the setup's part of the best plan. */
  readonly isPlan?: true;
  readonly front: Places;
  readonly rear: Places;
}

/** Its choice in each of the tables, in the order of the families. @minItems 9 @maxItems 9 */
type Places = readonly Count[];
