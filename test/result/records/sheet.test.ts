import { expect, test } from 'vitest';
import { AXLE_NAMES } from '../../../src/model/scenario.ts';
import { sweptScenario } from '../../setup/scenarios.ts';

const hill = await sweptScenario('hill-hatch');
const estate = await sweptScenario('loaded-estate');

test('the best of every setup and every part of the best plan has a sheet, nothing else has', () => {
  for (const { shortlist } of [...hill.setups, ...estate.setups]) {
    expect(shortlist.map(({ sheet }) => sheet !== undefined)).toEqual(shortlist.map((_, k) => k === 0));
  }
  expect(hill.plans?.sheets).toHaveLength(hill.plans?.setups.length ?? 0);
});

test('the formulas of a sheet end in the values of its combination', () => {
  const keys = {
    W: 'sprung_load_n',
    F_d: 'axial_force_n',
    P: 'perch_mm',
    l_full: 'length_full_mm',
    k_w: 'wheel_rate_n_per_mm',
  } as const;
  for (const [best] of [...hill.setups, ...estate.setups].map(({ shortlist }) => shortlist)) {
    for (const axle of AXLE_NAMES) {
      const lines = best?.sheet?.working.axles[axle] ?? [];
      for (const [symbol, key] of Object.entries(keys)) {
        const line = lines.find((one) => one.symbol === symbol);
        expect(line?.value, symbol).toBeCloseTo(best?.axles[axle].values[key] ?? Number.NaN, 6);
      }
    }
  }
});

test('the metal that comes nearest stands among the formulas, and the frequency as the setup judges it', () => {
  const [best] = estate.setups[0]?.shortlist ?? [];
  for (const axle of AXLE_NAMES) {
    const lines = best?.sheet?.working.axles[axle] ?? [];
    const metal = lines[lines.findIndex(({ symbol }) => symbol === 'c_coil_bind') + 1];
    expect(metal?.value).toBeCloseTo(best?.axles[axle].values.thinnest_metal_clearance_mm ?? Number.NaN, 6);
    expect(metal?.label).toContain(best?.axles[axle].words.thinnest_metal ?? 'nothing');
    expect(lines.at(-1)?.symbol).toBe('f_body');
  }
});

test('beyond a full bump under load the stop closes further, and metal comes as much nearer', () => {
  for (const axle of AXLE_NAMES) {
    const values = estate.setups[0]?.shortlist[0]?.axles[axle].values ?? {};
    const further = (values.length_full_mm ?? 0) - (values.length_closed_mm ?? 0);
    expect(further).toBeGreaterThan(1);
    expect(values.closed_metal_clearance_mm).toBeCloseTo((values.thinnest_metal_clearance_mm ?? 0) - further, 9);
  }
});
