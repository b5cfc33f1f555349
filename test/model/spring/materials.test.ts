import { expect, test } from 'vitest';
import { elasticModulusOf, MATERIAL_NAMES, materialOf, shearModulusOf } from '../../../src/model/spring/materials.ts';
import { ultimateStrengthOf } from '../../../src/model/spring/strength.ts';

test('every wire has physically possible moduli, falling strength and a source for every value', () => {
  for (const name of MATERIAL_NAMES) {
    for (const d of [0.5, 1, 2, 5, 12]) {
      const [E, G] = [elasticModulusOf(name, d), shearModulusOf(name, d)];
      // Poisson's ratio of an isotropic solid, E/(2G) - 1, lies near 0.3 for steel; the printed moduli stray a little.
      expect(E / (2 * G) - 1, name).toBeGreaterThan(0.19);
      expect(E / (2 * G) - 1, name).toBeLessThan(0.33);
      expect(ultimateStrengthOf(name, 2 * d)).toBeLessThan(ultimateStrengthOf(name, d));
    }
    const material = materialOf(name);
    expect(material.fittedFrom).toBeLessThan(material.fittedTo);
    for (const source of Object.values(material.sources)) expect(source, name).not.toBe('');
  }
});

test('a band’s value holds up to its edge, and the next one above it', () => {
  expect(shearModulusOf('music_wire', 0.032 * 25.4)).toBe(82_700);
  expect(shearModulusOf('music_wire', 0.033 * 25.4)).toBe(81_700);
  expect(shearModulusOf('music_wire', 0.125 * 25.4)).toBe(81_000);
  expect(shearModulusOf('music_wire', 0.126 * 25.4)).toBe(80_000);
});

test('American and European figures of one steel differ by 3 %, and so stand under two names', () => {
  expect(shearModulusOf('chrome_silicon_en', 10) / shearModulusOf('chrome_silicon', 10)).toBeCloseTo(1.03, 3);
});

test('every steel weighs the same, and the European entry differs from the American in its moduli only', () => {
  for (const name of MATERIAL_NAMES) expect(materialOf(name).density).toBe(7.85e-6);
  const { label, elasticModulus, shearModulus, sources, ...rest } = materialOf('chrome_silicon');
  expect(materialOf('chrome_silicon_en')).toMatchObject(rest);
});

/** Shigley’s Mechanical Engineering Design, Table 10-4, both of its columns from memory: inches hold the millimetres. */
test.each([
  ['music_wire', 0.004, 0.256],
  ['oil_tempered', 0.02, 0.5],
  ['hard_drawn', 0.028, 0.5],
  ['chrome_vanadium', 0.032, 0.437],
  ['chrome_silicon', 0.063, 0.375],
])('the strength of %s was fitted from %d to %d inches of wire', (name, from, to) => {
  const { fittedFrom, fittedTo } = materialOf(name);
  expect(Math.abs(fittedFrom - 25.4 * from)).toBeLessThan(0.05);
  expect(Math.abs(fittedTo - 25.4 * to)).toBeLessThan(0.05);
});

test('an unknown wire is an error that names the known ones', () => {
  expect(() => ultimateStrengthOf('titanium', 10)).toThrow(/no material titanium; known: music_wire/);
  expect(() => materialOf('toString')).toThrow(RangeError);
});

test('a wire without a diameter has no modulus', () => {
  expect(() => shearModulusOf('chrome_silicon', Number.NaN)).toThrow(RangeError);
});
