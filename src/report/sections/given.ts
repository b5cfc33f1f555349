/** What was asked for and given, and every value that was assumed. */
import type { AxleSummary, Result } from '../../domain/result.ts';
import { AXLE_NAMES } from '../../domain/scenario.ts';
import { AXLE_TITLES } from '../labels.ts';
import { fixed, PAGE } from '../numbers.ts';
import { type Measure, measure } from '../read.ts';

export interface GivenView {
  readonly loads: readonly LoadRow[];
  readonly targets: readonly TargetRow[];
  readonly wheelbase: Measure;
  readonly assumptions: Result['assumptions'];
}

export interface LoadRow {
  readonly axle: string;
  readonly wheelLoad: Measure;
  /** Left and right where both were given; the wheel load is then their mean. */
  readonly sides: { readonly left: Measure; readonly right: Measure } | null;
  readonly unsprung: Measure;
  readonly sprung: Measure;
  readonly tyre: Measure;
  readonly pairs: string;
  readonly from: Measure;
  readonly to: Measure;
}

export interface TargetRow {
  readonly setup: string;
  readonly axle: string;
  readonly height: Measure;
  readonly from: Measure;
  readonly to: Measure;
  readonly bump: Measure;
  readonly goodBump: Measure;
  readonly droop: Measure;
  readonly frequencyFrom: string;
  readonly frequencyTo: string;
  readonly wantedFrequency: string;
  readonly basis: string;
  readonly policy: string;
}

export function givenView(result: Result): GivenView {
  return {
    loads: loadRows(result),
    targets: targetRows(result),
    wheelbase: measure(result.scenario.wheelbase_mm, 'length'),
    assumptions: result.assumptions,
  };
}

function loadRows({ scenario }: Result): LoadRow[] {
  return AXLE_NAMES.map((axle) => {
    const given = scenario.axles[axle];
    return {
      axle: AXLE_TITLES[axle],
      wheelLoad: measure(given.wheel_load_kg, 'mass'),
      sides: sideLoads(given),
      unsprung: measure(given.unsprung_mass_kg, 'mass'),
      sprung: measure(given.sprung_mass_kg, 'mass'),
      tyre: measure(given.tyre_rate_n_per_mm, 'rate'),
      pairs: String(given.motion_pairs),
      from: measure(given.measured_from_mm, 'length'),
      to: measure(given.measured_to_mm, 'length'),
    };
  });
}

function sideLoads({ wheel_loads_kg: loads }: AxleSummary): LoadRow['sides'] {
  return loads ? { left: measure(loads.left, 'mass'), right: measure(loads.right, 'mass') } : null;
}

function targetRows({ setups }: Result): TargetRow[] {
  return setups.flatMap((setup) =>
    AXLE_NAMES.map((axle) => {
      const target = setup.targets[axle];
      const length = (value: number) => measure(value, 'length');
      return {
        setup: setup.name,
        axle: AXLE_TITLES[axle],
        height: length(target.target_height_mm),
        from: length(target.wanted_from_mm),
        to: length(target.wanted_to_mm),
        bump: length(target.least_bump_travel_mm),
        goodBump: length(target.good_bump_travel_mm),
        droop: length(target.least_droop_travel_mm),
        frequencyFrom: fixed(target.frequency_from_hz, 2, PAGE),
        frequencyTo: fixed(target.frequency_to_hz, 2, PAGE),
        wantedFrequency: fixed(target.wanted_frequency_hz, 2, PAGE),
        basis: setup.frequency_basis,
        policy: setup.bump_policy,
      };
    }),
  );
}
