import { expect, test } from 'vitest';
import { scenarioOf } from '../../advice/scenarios.ts';

test('what is taken for tolerances and estimates stands among the assumptions, each with its source', async () => {
  const { assumptions, tolerances, axles } = await scenarioOf('kit-two-seater');
  const of = (field: string) => assumptions.find((one) => one.field === field);
  expect(of('tolerances.friction')).toMatchObject({ value: '80 N', source: 'common practice, no source' });
  expect(of('tolerances.unsprung_mass')?.value).toBe('20 %');
  expect(of('tolerances.tyre_on_arch')?.value).toBe('4 mm');
  expect(of('tolerances.stop_force')?.value).toBe('20 %');
  expect(of('tolerances.closed_fraction')?.value).toMatch(/^not given: 0\.06, or 0\.03 for a stop whose force curve/);
  expect(assumptions.some(({ field, value }) => field.endsWith('estimate.grade') && value.startsWith('any'))).toBe(
    true,
  );
  expect(tolerances).toMatchObject({ closedFraction: 0.06, closedFractionOfCurve: 0.03, friction: 80 });
  expect(axles.front.options.bumpStop[0]?.closedAtForce).toBeNull();
});
