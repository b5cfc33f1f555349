import { expect, test } from 'vitest';
import { workshopView } from '../../../src/report/sections/workshop.ts';
import { sweptScenario } from '../../setup/scenarios.ts';
import { emptySetup, result } from '../fixture.ts';

const hill = await sweptScenario('hill-hatch');
const view = workshopView(hill);
const [first] = view?.builds ?? [];

test('the dozen formulas that decide stand with their numbers, front, rear and the pair', () => {
  const symbols = first?.formulas.map(({ symbol }) => symbol);
  expect(symbols).toHaveLength(12);
  expect(symbols).toEqual(
    expect.arrayContaining(['W', 'F_d', 'F_s', 'x', 'P', 'l_full', 'c_coil_bind', 'k_w', 'f_body', 'ratio']),
  );
  // (268 - 31) kg x 9.80665 m/s2 = 2324.2 N in front, (207 - 26) kg = 1775.0 N at the rear.
  const [load] = first?.formulas ?? [];
  expect(load).toMatchObject({ symbol: 'W', expression: 'm_s · g_n', isPair: false });
  expect(load?.cells.map((cell) => `${cell?.filled} = ${cell?.value} ${cell?.unit}`)).toEqual([
    '237 · 9.80665 = 2324.2 N',
    '181 · 9.80665 = 1775.0 N',
  ]);
  expect(first?.formulas.at(-1)).toMatchObject({ symbol: 'ratio', isPair: true });
});

test('the longer formula, with the helper, stands for both axles', () => {
  expect(first?.formulas.find(({ symbol }) => symbol === 'x')?.expression).toBe(
    'min(F_s / k, L − S) + min(F_s / k_h, L_h − S_h)',
  );
});

test('the force at solid is rate times travel to solid, with its band', () => {
  const block = first?.rows.find(({ label }) => label.startsWith('force at solid'))?.cells[0];
  // HS280-34: 34 N/mm x (280 - 115.9) mm = 5579.4 N; 5 % of the rate is 279.0 N, 2 mm of free length and of solid height 68 N
  // each: 415 N, and steps of both are whole, so 5 % applies to the nominal travel.
  expect(block?.readings[0]?.figures[0]?.metric).toBe('5579.4');
  expect(block?.note).toBe('at worst 5164 to 5994 N');
});

test('what was not given is asked and told', () => {
  expect(view?.knowsSides).toBe(false);
  expect(first?.asks).toMatchObject({ groove: false, unknownDamping: ['rear'], knownDamping: true, rodEnds: true });
  expect(first?.rows.find(({ label }) => label.startsWith('damping'))?.cells[1]).toMatchObject({
    readings: [],
    unknown: 'no damper table given',
  });
});

test('without a build there is nothing to hand to a workshop', () => {
  expect(workshopView(result({ setups: [emptySetup('low')] }))).toBeNull();
});
