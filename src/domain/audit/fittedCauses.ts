/** Causes that come with an amount that is not known beforehand: it is fitted to the measurements. */
import type { Model } from '../tolerance/inputs.ts';
import type { FittedCause, FittedKind } from './causes.ts';
import { type Marks, TRUE_MARKS } from './observations.ts';
import { dimensionOf, type ParameterName, readParameter, withParameter } from './parameters.ts';

/** A part may be off by this share of what it is, a mark by this many mm: more is another part, or no mark at all. */
const MOST_SHARE = 0.5;
const MOST_MARK = 150;

const FITTED_PARAMETERS: readonly {
  readonly kind: FittedKind;
  readonly parameter: ParameterName;
  readonly step: number;
}[] = [
  { kind: 'sleeve_length_off', parameter: 'sleeve_length', step: 5 },
  { kind: 'stop_length_off', parameter: 'stop_length', step: 5 },
  { kind: 'spring_length_off', parameter: 'free_length', step: 5 },
  { kind: 'spring_rate_off', parameter: 'rate', step: 2 },
  { kind: 'wheel_load_off', parameter: 'wheel_load', step: 10 },
];

const FITTED_MARKS: readonly { readonly kind: FittedKind; readonly mark: keyof Marks }[] = [
  { kind: 'perch_mark', mark: 'perch' },
  { kind: 'ride_height_mark', mark: 'rideHeight' },
  { kind: 'gap_mark', mark: 'gap' },
];

/** Causes with an amount. */
export function fittedCauses(model: Model): readonly FittedCause[] {
  const ofParts = FITTED_PARAMETERS.map(({ kind, parameter, step }): FittedCause => {
    const given = readParameter(model, parameter) as number;
    const at = (amount: number) => withParameter(model, parameter, given + amount);
    return {
      ...{ kind, step, dimension: dimensionOf(parameter), most: MOST_SHARE * given },
      at: (amount) => ({ kind, detail: '', model: at(amount), marks: TRUE_MARKS }),
    };
  });
  const ofMarks = FITTED_MARKS.map(
    ({ kind, mark }): FittedCause => ({
      ...{ kind, step: 5, dimension: 'length', most: MOST_MARK },
      at: (amount) => ({ kind, detail: '', model, marks: { ...TRUE_MARKS, [mark]: amount } }),
    }),
  );
  return [...ofParts, ...ofMarks];
}
