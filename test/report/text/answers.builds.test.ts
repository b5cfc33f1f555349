import { expect, test } from 'vitest';
import { buildsOf, choicesOf } from '../../../src/report/text/answers.ts';
import { build, combination, emptySetup, result, SHEET, setup } from '../fixture.ts';
import { planned } from '../planFixture.ts';

test('a setup’s best combination is built, a setup without one and a build that fails are not', () => {
  expect(buildsOf(result()).map(({ id, setups }) => [id, setups.length])).toEqual([['low-F4F1-R2K1-7Q', 1]]);
  expect(buildsOf(result({ setups: [emptySetup('low')] }))).toEqual([]);
  expect(buildsOf(build())).toEqual([]);
});

test('a result written before there were build sheets has none', () => {
  const { sheet, ...old } = combination('low', 1);
  expect(sheet).toBeDefined();
  expect(buildsOf(result({ setups: [setup('low', { shortlist: [old] })] }))).toEqual([]);
});

test('setups with the same parts are one build, others one each', () => {
  const other = combination('track', 2, { sheet: SHEET });
  const builds = buildsOf(result({ setups: [setup('low'), setup('street'), setup('track', { shortlist: [other] })] }));
  expect(builds.map(({ setups }) => setups.map(({ setup: { name } }) => name))).toEqual([['low', 'street'], ['track']]);
  expect(builds[0]?.id).toBe('low-F4F1-R2K1-7Q, street-F4F1-R2K1-7Q');
});

test('the best plan is built for its setups, each other setup by itself', () => {
  const given = planned({ sheets: [SHEET, SHEET] });
  const builds = buildsOf({ ...given, setups: [...given.setups, setup('track')] });
  expect(builds.map(({ id, isPlan }) => [id, isPlan])).toEqual([
    ['plan-0000001', true],
    ['track-F4F1-R2K1-7Q', false],
  ]);
});

test('a choice that all setups share stands once, others name the setups they are for', () => {
  const [low] = buildsOf(result())[0]?.setups ?? [];
  const [street] =
    buildsOf(result({ setups: [setup('street', { shortlist: [combination('street', 2, { sheet: SHEET })] })] }))[0]
      ?.setups ?? [];
  if (!low || !street) throw new Error('no build');
  const both = { id: 'x', isPlan: true, setups: [low, street] };
  expect(choicesOf(both, 'front', 'damper').map(({ who, part }) => [who, part.name])).toEqual([
    [null, 'twin-tube insert'],
  ]);
  expect(choicesOf(both, 'front', 'spring').map(({ who, part }) => [who, part.name])).toEqual([
    ['low', 'coil 60 x 190 x 50'],
    ['street', 'coil 60 x 180 x 50'],
  ]);
});
