/** Parts of no list: their names tell their sizes, and their springs follow the rules of estimates. */
import { expect, test } from 'vitest';
import { boreOver, genericHelpers, genericSpring } from '../../src/advice/generic.ts';
import { MATERIALS } from '../../src/model/spring/materials.ts';
import { plainCorner } from '../setup/corners.ts';

test('the name of a generic helper tells every number it is judged by, and that nobody published them', () => {
  for (const { name, freeLength, blockHeight, rate, coupler, bore, couplerBore } of genericHelpers(61)) {
    expect(name).toBe(
      `generic helper, ${freeLength} mm long, ${blockHeight} mm at block, ${rate} N/mm, with a ${coupler} mm coupler (estimate; common practice, no source)`,
    );
    expect([bore, couplerBore]).toEqual([61, 61]);
  }
});

test.each([
  ['judged', 0.45],
  ['least', 0.56],
] as const)('pressed solid at the %s height the wire bears %f of its strength', (end, share) => {
  const { rate, freeLength, solid, wire, bore } = genericSpring(250, 35, 60, end);
  const { diameter } = wire as NonNullable<typeof wire>;
  // tau = 8 F D / (pi d^3) (Shigley's Mechanical Engineering Design, eq. 10-1), strength A / d^m of the usual steel.
  const stress = (8 * rate * (freeLength - solid.height) * (bore + diameter)) / (Math.PI * diameter ** 3);
  const { strengthConstant, strengthExponent } = MATERIALS.chrome_silicon;
  expect(stress / (strengthConstant / diameter ** strengthExponent)).toBeCloseTo(share, 6);
  expect(solid.source).toBe('estimated');
});

test('the bore is that of the nearest spring, or a whole one that goes over sleeve and spigot', () => {
  expect(
    boreOver(plainCorner({ spring: { bore: 60 }, sleeve: { outerDiameter: 57 }, perch: { spigotDiameter: 59.5 } }), 1),
  ).toBe(60);
  expect(
    boreOver(plainCorner({ spring: { bore: 57 }, sleeve: { outerDiameter: 57 }, perch: { spigotDiameter: 59.5 } }), 1),
  ).toBe(60);
  expect(
    boreOver(
      plainCorner({ spring: { bore: 57 }, sleeve: { outerDiameter: 60.2 }, perch: { spigotDiameter: null } }),
      1,
    ),
  ).toBe(62);
});
