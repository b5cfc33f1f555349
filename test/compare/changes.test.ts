import { createHash } from 'node:crypto';
import { expect, test } from 'vitest';
import { changesHtml } from '../../src/compare/changes.ts';
import type { InputChanges } from '../../src/model/differences.ts';
import type { Result } from '../../src/result/result.ts';
import { combination, HIDDEN, hostile, result, setup } from '../report/fixture.ts';
import { ownSets, planned } from '../report/planFixture.ts';
import { TIGHT, textOf, withCorner } from './pages.ts';

const NONE: InputChanges = { changes: [], reworded: [] };
const page = (before: Result, after: Result, changes = NONE) =>
  changesHtml({ path: 'before/report.html', result: before }, { path: 'after/report.html', result: after }, changes);

test('two reports of the same say that nothing differs', async () => {
  const text = textOf(await page(result(), result()));
  expect(text).toContain('All inputs are the same, to the last byte.');
  expect(text).toContain('The same parts and cuts win.');
  expect(text).not.toContain('Two versions of the tool');
});

test('other values, winners, counts and versions stand side by side', async () => {
  const best = combination('low', 1);
  const { parts, values } = best.axles.front;
  const other = withCorner(best, 'front', {
    parts: { ...parts, spring: { ...parts.spring, name: 'coil 60 x 200 x 45' } },
    values: { ...values, bump_travel_mm: 40 },
  });
  const base = setup('low', { shortlist: [best] });
  const after = result({
    tool: { name: 'springsift', version: '9.9.9' },
    incomplete: { judged: 5, of: 10 },
    inputs: result().inputs.map((input) => ({ ...input, sha256: 'ab'.repeat(32) })),
    setups: [setup('low', { shortlist: [other], pairs: { ...base.pairs, workable: base.pairs.workable + 7 } })],
  });
  const change = { file: 'scenario.yaml', names: ['axles', 'front', 'wheel_load'], before: '268 kg', after: '274 kg' };
  const text = textOf(await page(result({ setups: [base] }), after, { changes: [change], reworded: [] }));
  expect(text).toMatch(/1 value differs/);
  expect(text).toMatch(/axles \/ front wheel load 268 kg 274 kg/);
  expect(text).toContain('Other parts or cuts win: front main spring.');
  expect(text).toContain('coil 60 x 200 x 45');
  expect(text).toMatch(/bump travel left at the wheel mm in [\d.]+ [\d.]+ 40\.0 1\.57 [+\u2212][\d.]+/);
  expect(text).toMatch(/workable [\d ]+ \+7/);
  expect(text).toContain('Two versions of the tool.');
  expect(text).toContain('Incomplete after. That sweep was stopped after 5 of 10 combinations');
});

test('a setup that one report lacks, or where nothing works any more, is said so', async () => {
  const none = setup('low', { shortlist: [] });
  const text = textOf(
    await page(result({ setups: [setup('low'), setup('old')] }), result({ setups: [none, setup('new')] })),
  );
  expect(text).toContain('Before, something worked; now nothing does.');
  expect(text).toContain('Only the first report has this setup.');
  expect(text).toContain('Only the second report has this setup.');
});

test('clearances that are not sure are named beside the winner', async () => {
  const best = combination('low', 1);
  const after = result({ setups: [setup('low', { shortlist: [withCorner(best, 'rear', { tight: TIGHT })] })] });
  const text = textOf(await page(result({ setups: [setup('low', { shortlist: [best] })] }), after));
  expect(text).toContain('tight rear: coil bind, at worst \u22122.5 mm (\u22120.10 in)');
});

test('nothing may be loaded or run, and hostile names are shown, neither run nor turned around', async () => {
  const html = await page(hostile(), hostile(), {
    changes: [{ file: '<b>', names: ['<script>', '\u202e'], before: '</table>', after: null }],
    reworded: ['<i>'],
  });
  const css = /<style>([\s\S]*?)<\/style>/.exec(html)?.[1] ?? '';
  const digest = createHash('sha256').update(css).digest('base64');
  const policy = /http-equiv="Content-Security-Policy" content="([^"]*)"/.exec(html)?.[1]?.replaceAll('&#x27;', "'");
  expect(policy?.replaceAll('&#x3D;', '=')).toBe(
    `default-src 'none'; style-src 'sha256-${digest}'; script-src 'none'; img-src data:; base-uri 'none'; form-action 'none'`,
  );
  expect(html).not.toMatch(/<script|<b>|<i>|\sstyle=|\son\w+=/);
  expect(HIDDEN.filter((character) => html.includes(character))).toEqual([]);
});

test('where one build serves several setups it is the winner, not what each would choose alone', async () => {
  const text = textOf(await page(planned({ plans: [ownSets] }), planned()));
  expect(text).toContain('Before: street-F4F7-R2K7-7Q , part of plan-0000002');
  expect(text).toContain('After: street-F4F1-R2K1-7Q , part of plan-0000001');
  expect(textOf(await page(result(), result()))).not.toContain('part of');
});
