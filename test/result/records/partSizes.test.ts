import { expect, test } from 'vitest';
import { sizesOf } from '../../../src/result/records/partSizes.ts';
import { plainCorner } from '../../setup/corners.ts';

const corner = plainCorner();

test('every size of a part has its unit in its key and the value that was given', () => {
  const damper = { ...corner.damper, extended: 474, compressed: 322, bodyLength: 300, bodyDiameter: 51 };
  expect(sizesOf('damper', { ...damper, gas: { kind: 'none' }, forceVelocity: null })).toEqual({
    ...{ extended_mm: 474, compressed_mm: 322, body_length_mm: 300, body_diameter_mm: 51 },
    ...{ body: 'twin_tube', gas: 'none', force_velocity: null },
  });
  const helper = {
    name: 'h',
    price: 3,
    freeLength: 60,
    blockHeight: 12,
    rate: 2.5,
    bore: 61,
    coupler: 4,
    couplerBore: 50,
  };
  expect(sizesOf('helper', helper)).toEqual({
    ...{ free_length_mm: 60, block_height_mm: 12, rate_n_per_mm: 2.5, bore_mm: 61, coupler_mm: 4, coupler_bore_mm: 50 },
  });
});

test('gas and damping stand as they were given: two forces, or the charge', () => {
  const forceVelocity = [{ velocity: 0.1, bump: 300, rebound: 900 }];
  expect(
    sizesOf('damper', { ...corner.damper, forceVelocity, gas: { kind: 'linear', outForce: 100, inForce: null } }),
  ).toMatchObject({
    ...{ gas: 'linear', gas_out_n: 100, gas_in_n: null },
    force_velocity: [{ velocity_m_per_s: 0.1, bump_n: 300, rebound_n: 900 }],
  });
  const charge = { kind: 'charge', chargePressure: 1, rodArea: 380, gasVolume: 9e4 } as const;
  expect(sizesOf('damper', { ...corner.damper, gas: charge })).toMatchObject({
    ...{ gas: 'charge', gas_charge_at_working_temperature_mpa: 1, rod_area_mm2: 380, gas_volume_mm3: 9e4 },
  });
});

test('a stop tells its cut, its length as bought and its curve', () => {
  const curve = {
    measuredLength: 60,
    points: [
      { squeeze: 0, force: 0 },
      { squeeze: 30, force: 2500 },
    ],
  };
  expect(sizesOf('bumpStop', { ...corner.bumpStop, length: 40, uncutLength: 60, curve })).toMatchObject({
    ...{ cut_length_mm: 40, uncut_length_mm: 60, curve_measured_length_mm: 60 },
    curve: [
      { squeeze_mm: 0, force_n: 0 },
      { squeeze_mm: 30, force_n: 2500 },
    ],
  });
  expect(sizesOf('bumpStop', { ...corner.bumpStop, curve: null })).toMatchObject({
    ...{ curve_measured_length_mm: null, curve: null },
  });
});

test('a spring tells its solid height with its source, and its wire where it is known', () => {
  const solid = { source: 'estimated', height: 92, least: 80, most: 100, thinWire: 9.5, thickWire: 11 } as const;
  const wire = {
    diameter: 10.4,
    activeCoils: 6.1,
    totalCoils: 7.6,
    material: 'chrome silicon',
    materialGiven: true,
    estimated: true,
  };
  expect(sizesOf('spring', { ...corner.spring, freeLength: 254, rate: 40, bore: 61, solid, wire })).toMatchObject({
    ...{ free_length_mm: 254, rate_n_per_mm: 40, bore_mm: 61, solid_height_mm: 92, solid_height_source: 'estimated' },
    ...{
      least_solid_height_mm: 80,
      most_solid_height_mm: 100,
      thin_wire_mm: 9.5,
      thick_wire_mm: 11,
      wire_mm: 10.4,
      wire_estimated: true,
    },
    ...{ active_coils: 6.1, coils: 7.6, material: 'chrome silicon', material_given: true },
  });
  expect(sizesOf('spring', { ...corner.spring, wire: null })).toMatchObject({ wire_mm: null, coils: null });
});
