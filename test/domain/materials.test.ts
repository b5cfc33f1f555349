import { expect, test } from 'vitest';
import {
  elasticModulusOf,
  MATERIAL_NAMES,
  materialOf,
  shearModulusOf,
  ultimateStrengthOf,
} from '../../src/domain/materials.ts';

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

test('an unknown wire is an error that names the known ones', () => {
  expect(() => ultimateStrengthOf('titanium', 10)).toThrow(/no material titanium; known: music_wire/);
  expect(() => materialOf('toString')).toThrow(RangeError);
});
