import { expect, test } from 'vitest';
import { purchaseMarkdown } from '../../../src/report/files/purchase.ts';
import { sweepSummary } from '../../../src/report/files/summary.ts';
import { build, emptySetup, HIDDEN, HOSTILE, hostile, result, setup } from '../fixture.ts';

test('counts, the best id and its numbers stand under each setup', () => {
  const text = sweepSummary(result());
  expect(text).toContain('front     1,204 of 48,600 pass; most fall at: coil bind, 18,000');
  expect(text).toContain('pairs     2,000,000 of 6,044,080 work, 4,044,080 out of balance');
  expect(text).toContain('best      low-F4F1-R2K1-7Q, score 0.782 of 1');
  expect(text).toContain('perch 213.3 mm (8.40 in) above the lower eye');
});

test('estimates are called estimates', () => {
  expect(sweepSummary(result())).toMatch(/estimate {2}front: the solid height of .* is an estimate/);
});

test('a clearance that tolerances could use up is called tight, with what to measure', () => {
  const text = sweepSummary(result()).replace(/\s+/g, ' ');
  expect(text).toContain(
    'TIGHT front, damper bottoming inside: clearance 4.1 mm (0.16 in) could be -0.6 mm (-0.02 in) at worst.',
  );
  expect(text).toContain('Measure before you buy: the bump stop in a press, closed.');
  expect(text).not.toContain('TIGHT rear');
});

test('where nothing works the check that rejects most is named', () => {
  const text = sweepSummary(result({ setups: [emptySetup('street')] }));
  expect(text).toContain('NOTHING   works: no front combination passes; 62.8 % fall at: coil bind.');
  expect(text).not.toContain('best ');
});

test('where only the pairs fail, balance is named', () => {
  const pairs = { considered: 50, rejected_by_balance: 50, workable: 0 };
  const text = sweepSummary(result({ setups: [setup('low', { pairs, shortlist: [] })] }));
  expect(text).toContain('NOTHING   works: all 50 pairs are out of balance.');
});

test('a build that fails lists every failing check with its axle', () => {
  const text = sweepSummary(build());
  expect(text).toContain('does NOT work');
  expect(text).toContain('FAILS     front, coil bind: Coil bind before full bump, by 3.2 mm');
  expect(text).toContain('FAILS     front and rear out of balance: Rear over front frequency is 0.981');
});

test('no line is longer than 100 columns', () => {
  const long = [result(), build()].flatMap((r) => sweepSummary(r).split('\n')).filter((line) => line.length > 100);
  expect(long).toEqual([]);
});

test('hostile names reach the terminal as visible escapes', () => {
  const text = sweepSummary(hostile());
  expect(HIDDEN.every((character) => HOSTILE.includes(character))).toBe(true);
  expect(HIDDEN.filter((character) => text.includes(character))).toEqual([]);
  expect(text).toContain('\\u{202e}');
});

test('a sweep that was stopped is called incomplete, by the terminal and by the order list', () => {
  const stopped = result({ incomplete: { judged: 5000, of: 48_600 } });
  expect(sweepSummary(stopped)).toContain(
    'INCOMPLETE: stopped after 5,000 of 48,600 combinations; better ones may exist.',
  );
  const list = purchaseMarkdown(stopped);
  expect(list).toContain('The sweep was stopped after 5,000 of 48,600 combinations: better ones may exist.');
  expect(list).toContain('The sweep was stopped: no advice.');
});

test('a build that works says so, without anything to order', () => {
  const [built] = build().setups;
  const [best] = built?.shortlist ?? [];
  if (!built || !best) throw new Error('no build');
  const works = { ...build(), setups: [{ ...built, shortlist: [{ ...best, workable: true }] }] };
  expect(sweepSummary(works)).toContain(`build     ${best.id} works, score`);
  expect(sweepSummary(works)).not.toContain('order ');
});
