/** What is usual where nobody measured, and how it follows what else is known. */
import { describe, expect, test } from 'vitest';
import {
  ASSUMABLE,
  type Assumable,
  allAssumedInWords,
  assumedBeside,
  assumedInWords,
} from '../../../src/input/schema/assumedValues.ts';
import { fieldsBelow } from '../../../src/input/schema/fieldReference.ts';
import { startFile } from '../../../src/measure/measure.ts';
import { benchOfText, CORNER_TEXT } from '../../setup/benchScenario.ts';
import { scenarioOf } from '../edit.ts';

const rateOf = (width: string) => assumedBeside(ASSUMABLE.tyreRate, { tyre_width: width }, 'axles.front');

/**
 * Source: T. B. Rhyne (2005), "Development of a vertical stiffness relationship for belted radial tires", Tire Science
 * and Technology 33(3), from memory: K = 0.00028 p sqrt(W D) + 3.45 kg/mm, W = (1.03 - 0.004 A) S, p in kPa, W the width
 * of the contact, S the section's and D the tyre's diameter in mm, A the aspect ratio in %.
 */
function rhyne(section: number, aspect: number, rim: number, pressure = 210): number {
  const width = (1.03 - 0.004 * aspect) * section;
  const diameter = 25.4 * rim + (2 * section * aspect) / 100;
  return 9.80665 * (0.00028 * pressure * Math.sqrt(width * diameter) + 3.45);
}

test.each([
  [155, 70, 13],
  [165, 65, 14],
  [185, 60, 14],
  [195, 50, 15],
  [205, 55, 16],
  [225, 45, 17],
  [245, 40, 18],
  [265, 35, 18],
])(
  'the usual rate of a tyre %d/%d R %d is near that of the published formula, and its band holds it',
  (section, aspect, rim) => {
    const { take, give, source } = rateOf(`${section} mm`);
    const value = Number.parseFloat(String(take));
    expect(Math.abs(value / rhyne(section, aspect, rim) - 1)).toBeLessThan(0.06);
    // At the pressures that cars are run at.
    for (const pressure of [180, 250])
      expect(Math.abs(value - rhyne(section, aspect, rim, pressure))).toBeLessThan(give);
    expect(source).toMatch(/from memory: Rhyne \(2005\)/);
  },
);

describe('by what else is known', () => {
  const mass = (at: string, driven?: boolean) =>
    assumedBeside(ASSUMABLE.unsprungMass, driven === undefined ? {} : { driven }, at).take;

  test('the unsprung mass goes by axle and drive, the closed fraction by material, the tyre rate by width', () => {
    expect([mass('axles.front'), mass('axles.front', true), mass('front', false)]).toEqual(['32 kg', '35 kg', '29 kg']);
    expect([mass('axles.rear'), mass('axles.rear', true), mass('rear', false)]).toEqual(['33 kg', '38 kg', '28 kg']);
    const closed = (material?: string) => assumedBeside(ASSUMABLE.closedFraction, { material }, '').take;
    expect([closed(), closed('foam'), closed('rubber')]).toEqual([0.35, 0.3, 0.5]);
    expect(['6.5 in', '185 mm', '205 mm', '9 in'].map((width) => rateOf(width).take)).toEqual([
      ...['185 N/mm', '205 N/mm', '230 N/mm', '230 N/mm'],
    ]);
    expect(rateOf('235 mm').take).toBe('255 N/mm');
    expect(assumedBeside(ASSUMABLE.tyreRate, {}, 'axles.front').take).toBe('215 N/mm');
  });

  test('what is usual of a kind lies within what is usual without knowing it', () => {
    for (const { kinds = [], take, give } of Object.values<Assumable>(ASSUMABLE)) {
      for (const kind of kinds) {
        const [value, whole] = [kind.take, take].map((one) => Number.parseFloat(String(one))) as [number, number];
        expect(Math.abs(value - whole), kind.of).toBeLessThanOrEqual(give + 1e-9);
      }
    }
  });

  test('a car takes value and band of the kind, and says so with its source', async () => {
    const { axles, assumptions } = await scenarioOf([
      ['unsprung_mass: 31 kg', 'unsprung_mass: unknown\n    driven: true'],
      ['tyre_rate: 190 N/mm', 'tyre_rate: unknown\n    tyre_width: 165 mm'],
      ['closed_fraction: 0.4', 'closed_fraction: unknown\n    material: rubber'],
    ]);
    expect(axles.front).toMatchObject({ unsprungMass: 35, tyreRate: 185, assumed: { unsprungMass: 10, tyreRate: 40 } });
    expect(axles.front.options.bumpStop[0]).toMatchObject({ closedFraction: 0.5, assumed: { closedFraction: 0.1 } });
    const said = (field: string) => assumptions.find((one) => one.field.startsWith(`axles.front.${field}`));
    expect(said('unsprung_mass')).toMatchObject({
      value: '35 kg, assumed: 10 kg either way',
      source: 'common practice, no source',
    });
    expect(said('tyre_rate')).toMatchObject({
      value: '185 N/mm, assumed: 40 N/mm either way',
      source: rateOf('165 mm').source,
    });
    expect(said('bump_stops')).toMatchObject({ value: '0.5, assumed: 0.1 either way' });
  });

  test('a corner takes them where they are left out, too', async () => {
    const text = CORNER_TEXT.replace('wheel_load: 268 kg', 'driven: false\n    wheel_load: 268 kg');
    const { scenario } = await benchOfText(text.replace('axles:\n  front:', 'axles:\n  rear:'));
    expect(scenario.axles.rear?.own).toMatchObject({ unsprungMass: 28, assumed: { unsprungMass: 9 } });
    const front = await benchOfText(text);
    expect(front.scenario.axles.front?.own).toMatchObject({ unsprungMass: 29, assumed: { unsprungMass: 9 } });
  });
});

test('the one table is what the list of fields and a new file show', () => {
  expect(assumedInWords(ASSUMABLE.gas)).toBe('150 N, 90 % either way');
  expect(assumedInWords(ASSUMABLE.closedFraction)).toBe('0.35, 0.15 either way');
  const rows = ['axles.front.unsprung_mass', 'axles.front.tyre_rate', 'axles.front.bump_stops.closed_fraction'].map(
    (path) => fieldsBelow(path)[0]?.rows[0]?.text,
  );
  for (const [k, usual] of [ASSUMABLE.unsprungMass, ASSUMABLE.tyreRate, ASSUMABLE.closedFraction].entries())
    expect(rows[k]).toContain(`\`unknown\`: ${allAssumedInWords(usual)}`);
  expect(rows[1]).toContain('(common practice, no source; from memory: Rhyne');
  expect(fieldsBelow('axles.front.wheel_load')[0]?.rows[0]?.text).not.toContain('`unknown`');
  expect(startFile()).toContain('may stay unknown (8 mm, 4 mm either way). ');
});
