import { expect, test } from 'vitest';
import { GIVEN } from '../../../src/result/quantities/given.ts';
import { valuesOf } from '../../../src/result/quantities/quantity.ts';
import { workingOf } from '../../../src/result/records/combination.ts';
import { plainCorner, plainSite, plainWire } from '../../setup/corners.ts';

const corner = plainCorner({
  damper: { gas: { kind: 'charge', chargePressure: 1.5, rodArea: 154, gasVolume: 110_000 } },
  bumpStop: { packer: 6, packerDiameter: 52 },
  helper: { freeLength: 51, blockHeight: 12.5, rate: 3.5, bore: 61, couplerBore: 60.5 },
  spring: { solid: { height: 76, least: 74 }, wire: { ...plainWire, diameter: 9.5 } },
  rodEnd: { upperWashers: 3.5, jamNut: 6.5 },
});

test('what is given of parts that a corner may lack stands under its own name', () => {
  const site = plainSite({ bushes: { rate: 3, unloadedHeight: 345 }, lowestWheelHeight: 385 });
  expect(valuesOf(GIVEN, workingOf(site, corner))).toMatchObject({
    ...{ bush_rate_n_per_mm: 3, bush_unloaded_mm: 345, lowest_wheel_mm: 385, wheel_load_kg: 268 },
    ...{ gas_out_n: null, gas_in_n: null, gas_charge_mpa: 1.5 },
    ...{ wire_diameter_mm: 9.5, active_coils: 5.8, total_coils: 7.8, solid_height_mm: 76, solid_height_least_mm: 74 },
    ...{ helper_free_length_mm: 51, helper_rate_n_per_mm: 3.5, helper_block_height_mm: 12.5, helper_bore_mm: 61 },
    ...{ coupler_mm: 4, coupler_bore_mm: 60.5, isolator_thickness_mm: 6, isolator_bore_mm: 56, isolator_spigot_mm: 0 },
    ...{ packer_mm: 6, packer_diameter_mm: 52, thread_starts_mm: 28, thread_ends_mm: 62, plate_thickness_mm: 4 },
    ...{ upper_bush_mm: 12, upper_washers_mm: 3.5, nut_mm: 8, jam_nut_mm: 6.5 },
  });
});

test('a corner that lacks them has none of their numbers', () => {
  const values = valuesOf(GIVEN, workingOf(plainSite(), plainCorner({ isolator: null })));
  const missing = Object.entries(values).flatMap(([key, value]) => (value === null ? [key] : []));
  expect(missing).toEqual([
    ...[
      'lowest_wheel_mm',
      'bush_rate_n_per_mm',
      'bush_unloaded_mm',
      'gas_charge_mpa',
      'rod_area_mm2',
      'gas_volume_mm3',
    ],
    ...['wire_diameter_mm', 'active_coils', 'total_coils', 'helper_free_length_mm', 'helper_rate_n_per_mm'],
    ...['helper_block_height_mm', 'helper_bore_mm', 'coupler_mm', 'coupler_bore_mm'],
    ...['isolator_thickness_mm', 'isolator_bore_mm', 'isolator_spigot_mm', 'closed_at_force_n', 'packer_diameter_mm'],
    ...['thread_starts_mm', 'thread_ends_mm', 'plate_thickness_mm', 'upper_bush_mm', 'upper_washers_mm', 'nut_mm'],
    'jam_nut_mm',
  ]);
});
