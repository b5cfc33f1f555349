/** What was asked for and given, and every value that was assumed. */
import { type Assumption, AXLE_NAMES } from '../../model/scenario.ts';
import type { Result } from '../../result/result.ts';
import { section } from '../frame/section.ts';
import { AXLE_TITLES } from '../text/labels.ts';
import { fixed, PAGE } from '../text/numbers.ts';
import { measure } from '../text/parts.ts';

export const given = section({
  id: 'given',
  link: 'Given and assumed',
  title: 'Given and assumed',
  view: ({ result }) => givenView(result),
  prints: false,
  leaves: 'given and assumed values field by field',
});

export function givenView(result: Result) {
  return {
    loads: loadRows(result),
    targets: targetRows(result),
    wheelbase: measure(result.scenario.wheelbase_mm, 'length'),
    assumptions: result.assumptions,
  };
}

function loadRows({ scenario }: Result) {
  return AXLE_NAMES.map((axle) => {
    const given = scenario.axles[axle];
    const loads = given.wheel_loads_kg;
    return {
      axle: AXLE_TITLES[axle],
      wheelLoad: measure(given.wheel_load_kg, 'mass'),
      /** Left and right where both were given; the wheel load is then their mean. */
      sides: loads ? { left: measure(loads.left, 'mass'), right: measure(loads.right, 'mass') } : null,
      unsprung: measure(given.unsprung_mass_kg, 'mass'),
      sprung: measure(given.sprung_mass_kg, 'mass'),
      tyre: measure(given.tyre_rate_n_per_mm, 'rate'),
      pairs: String(given.motion_pairs),
      from: measure(given.measured_from_mm, 'length'),
      to: measure(given.measured_to_mm, 'length'),
    };
  });
}

function targetRows({ setups }: Result) {
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

/** Values like `sleeve groove_drop 0 mm`, by where they come from. */
export function assumedGroups(assumptions: readonly Assumption[]) {
  const sources = [...new Set(assumptions.map(({ source }) => source))];
  return sources.map((source) => ({ source, values: valuesOf(assumptions.filter((one) => one.source === source)) }));
}

/** Both axles' fields, without their axle, where both took the same. */
function valuesOf(assumptions: readonly Assumption[]): string[] {
  const said = assumptions.map(({ field, value }) => {
    const axle = /^axles\.(front|rear)\./.exec(field)?.[1] ?? null;
    const name = field.replace(/^axles\.(front|rear)\./, '').replaceAll(/\[\d*\]/g, '');
    return { axle, text: /^not given/.test(value) ? name : `${name} ${value}` };
  });
  const texts = [...new Set(said.map(({ text }) => text))];
  return texts.map((text) => {
    const axles = said.filter((one) => one.text === text).map(({ axle }) => axle);
    return axles.length === 1 && axles[0] !== null ? `${axles[0]} ${text}` : text;
  });
}
