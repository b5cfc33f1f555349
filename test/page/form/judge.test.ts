import { readFile } from 'node:fs/promises';
import { expect, test } from 'vitest';
import { valueAt } from '../../../src/input/schema/issues.ts';
import { readYaml } from '../../../src/input/source/yaml.ts';
import { startFile } from '../../../src/measure/measure.ts';
import { draftIn } from '../../../src/page/form/draft.ts';
import { answersOf, isOpen, judgeDraft } from '../../../src/page/form/judge.ts';
import { textsAt } from '../../../src/page/form/sheet.ts';
import { springMap } from '../../../src/page/form/springMap.ts';
import { sweepDraft } from '../../../src/page/form/sweep.ts';
import { sweptScenario } from '../../setup/scenarios.ts';

const NOTHING = { scenario: startFile(), catalogues: {} };
const demoText = (name: string) =>
  readFile(new URL(`../../../scenarios/kit-two-seater/${name}`, import.meta.url), 'utf8');
const DEMO = { scenario: await demoText('scenario.yaml'), catalogues: {} };

test('of an empty sheet everything that is said is open, at the field that it is about', async () => {
  const { level, said } = await judgeDraft(NOTHING);
  expect(level).toBe('bench');
  expect(said.length).toBeGreaterThan(5);
  expect(said.filter((one) => !isOpen(one))).toEqual([]);
  const data = readYaml(NOTHING.scenario).document?.data;
  for (const { path } of said) expect(valueAt(data, path ?? [])).toBe('unknown');
});

test('a field that is missing is named below what lacks it, a slip where it stands', async () => {
  const { said } = await judgeDraft({
    scenario: 'springsift: 1\naxles:\n  front:\n    dampers:\n      - { extended: 474, compressed: 324 mm }\n',
    catalogues: {},
  });
  const about = (path: string) => said.filter((one) => one.path?.join('.') === path);
  expect(about('axles.front.dampers.0.body_length')).toMatchObject([{ isLacking: true, kind: 'problem' }]);
  expect(about('axles.front.dampers.0.extended')).toMatchObject([{ isLacking: false, line: 5 }]);
});

test('what is about a file has no field', async () => {
  const { said, level } = await judgeDraft({ scenario: 'a: [', catalogues: {} });
  expect(level).toBe('car');
  expect(said.map(({ path }) => path)).toEqual([null]);
});

test('each axle of a car is answered as on the bench, however many combinations it has', async () => {
  const few = await answersOf(DEMO, 0, 10);
  const all = await answersOf(DEMO, 0, 1_000_000);
  expect(few).toEqual([]);
  expect(all.map(({ axle, level }) => [axle, level])).toEqual([
    ['front', 'corner'],
    ['rear', 'corner'],
  ]);
  expect(all[0]?.svg).toContain('<title>Front corner on the bench, to scale</title>');
});

test('a small car is swept to the pairs of the sweep, with their scores', async () => {
  const swept = await sweepDraft(DEMO);
  const { setups } = await sweptScenario('kit-two-seater');
  const best = setups.map(({ shortlist }) => shortlist.slice(0, 5).map(({ id, score }) => [id, score.toFixed(3)]));
  expect(swept?.setups.map(({ pairs }) => pairs.map(({ id, score }) => [id, score]))).toEqual(best);
  expect(await sweepDraft(NOTHING)).toBeNull();
  const cells = swept?.setups[0]?.springs.front ?? [];
  const map = springMap(cells, 'a <map>');
  expect(map.match(/class="works"/g)?.length).toBe(cells.filter(({ workable }) => workable > 0).length);
  expect(map.match(/class="fails"/g)?.length).toBe(cells.filter(({ workable }) => workable === 0).length);
  expect(map).toContain('a &lt;map&gt;');
});

test('what was typed is found for the boxes of the sheet: each text once, lists and ranges in words', () => {
  const data = {
    dampers: [{ extended: '474 mm' }, { extended: ['474 mm', '480 mm'] }],
    sleeves: [{ trim: { from: '0 mm', to: '20 mm', step: '5 mm' } }],
  };
  expect([...textsAt(data, ['dampers[]', 'extended'])]).toEqual(['474 mm', '480 mm']);
  expect([...textsAt(data, ['sleeves[]', 'trim'])]).toEqual(['0 mm to 20 mm by 5 mm']);
  expect([...textsAt(data, ['mounts[]', 'raise'])]).toEqual([]);
  expect([...textsAt({ a: 'unknown' }, ['a'])]).toEqual([]);
});

test.each([
  null,
  'text',
  {},
  { scenario: 1, catalogues: {} },
  { scenario: 'a', catalogues: null },
  { scenario: 'a', catalogues: { b: 1 } },
])('%j is no draft', (data) => {
  expect(draftIn(data)).toBeNull();
});

test('a draft is read as it was stored', () => {
  const draft = { scenario: 'a: 1', catalogues: { 'springs.csv': 'b' } };
  expect(draftIn(JSON.parse(JSON.stringify(draft)))).toEqual(draft);
});
