import { expect, test } from 'vitest';
import type { Answer } from '../../../src/report/text/answers.ts';
import { PAGE, PLAIN } from '../../../src/report/text/numbers.ts';
import {
  buildsText,
  buildsView,
  consideredText,
  estimateText,
  expectedText,
  failsText,
  worstOver,
  worstText,
} from '../../../src/report/text/working.ts';
import type { BenchBuilds, Builds } from '../../../src/result/advice.ts';
import type { Combination } from '../../../src/result/result.ts';

const fails = { metal_share: 0.006, seat_share: 0.02, margin_share: 0.524, wish_share: 0.152 };
const builds: Builds = { share: 0.298, fails };
const flag = { kind: 'estimate', message: 'the solid height is an estimate' };
const pair = (front: boolean, rear: boolean) => {
  const corner = (estimated: boolean) => ({ flags: estimated ? [flag] : [{ kind: 'warning', message: 'look' }] });
  return { axles: { front: corner(front), rear: corner(rear) } } as unknown as Combination;
};

test('the worst that any build does comes first, however few do it', () => {
  expect(worstText(builds, PLAIN)).toBe('at worst metal meets or a coil binds, in 0.6 %');
  expect(worstText({ share: 0.3, fails: { ...fails, metal_share: 0 } }, PLAIN)).toBe(
    'at worst the spring can leave its seat, in 2.0 %',
  );
  const mild = { ...fails, metal_share: 0, seat_share: 0 };
  expect(worstText({ share: 0.3, fails: mild }, PLAIN)).toMatch(/a margin is eaten into, in 52\.4 %/);
  expect(worstText({ share: 0.8, fails: { ...mild, margin_share: 0 } }, PLAIN)).toMatch(/a wish is missed, in 15\.2 %/);
});

test('where all builds work, or a report of an earlier version does not tell, there is no worst', () => {
  const none = { metal_share: 0, seat_share: 0, margin_share: 0, wish_share: 0 };
  expect(worstText({ share: 1, fails: none }, PLAIN)).toBeNull();
  expect(worstText({ share: 0.4 }, PLAIN)).toBeNull();
  expect(failsText({ share: 0.4 }, PLAIN)).toBe('');
  expect(buildsView({ share: 0.4 }, pair(false, false), 500)).toEqual({
    ...{ worst: '', works: '40.0 % of 500 random builds within tolerance work.', share: '40.0 %' },
    ...{ fails: [], estimate: null, expected: null },
  });
});

test('all four that fail are told with their names, the worst first', () => {
  expect(failsText(builds, PLAIN)).toBe(
    'metal meets 0.6 %, spring can leave its seat 2.0 %, margin eaten into 52.4 %, wish missed 15.2 %',
  );
});

test('a share that rests on an estimate says so in the same line, and of which spring', () => {
  expect(estimateText(pair(false, false))).toBeNull();
  expect(estimateText(pair(true, true))).toBe('rests on an estimate of the front and rear spring');
  expect(buildsText(builds, pair(false, true), PLAIN)).toBe(
    '29.8 % work; at worst metal meets or a coil binds, in 0.6 %; rests on an estimate of the rear spring',
  );
  expect(buildsText({ share: 0.298 }, pair(false, false), PLAIN)).toBe('29.8 % work');
  const view = buildsView(builds, pair(true, false), 500);
  expect(view.worst).toMatch(
    /^At worst metal meets or a coil binds, in 0\.6.% of 500 random builds within tolerance\.$/,
  );
  expect(view.works).toMatch(/^29\.8.% work\.$/);
  expect(view.estimate).toBe('That rests on an estimate of the front spring.');
  expect(view.fails.map(({ share }) => share)).toEqual(['0.6', '2.0', '52.4', '15.2'].map((n) => `${n} %`));
});

test('the style is the page’s or plain', () => {
  expect(worstText(builds, PAGE)).toContain('0.6');
});

test('over several setups the worst of any counts, with the setup in which most builds do it', () => {
  const answer = (name: string, metal: number, seat: number) =>
    ({
      setup: { name },
      builds: { share: 0.5, fails: { metal_share: metal, seat_share: seat, margin_share: 0.1, wish_share: 0.2 } },
    }) as unknown as Answer;
  expect(worstOver([answer('low', 0, 0.2), answer('street', 0, 0.3)], PLAIN)).toBe(
    'at worst the spring can leave its seat, in 30.0 % of random builds within tolerance for street',
  );
  expect(worstOver([answer('low', 0.01, 0.9), answer('street', 0, 0)], PLAIN)).toMatch(/metal meets .* 1\.0 % .* low$/);
  expect(worstOver([{ ...answer('low', 0, 0), builds: null }], PLAIN)).toBeNull();
});

const expected = (planned: number, measured: number): BenchBuilds => ({
  as_planned: { ...builds, fails, share: planned, expected_score: 0.216 },
  measured_first: { ...builds, fails, share: measured, expected_score: 0.512 },
});

test('what measuring before cutting gains is told in words, with where the share lies; what gains nothing says so', () => {
  // Wilson: 0.91 of 512 lies from 0.882 to 0.932.
  expect(expectedText(expected(0.43, 0.91), 512, PLAIN)).toBe(
    'measure before you cut: 91 of 100 builds work (88 to 93) instead of 43; expected score 0.512 instead of 0.216 (one that fails counts 0)',
  );
  expect(expectedText(expected(0.91, 0.905), 512, PLAIN)).toBe(
    '91 of 100 builds work (88 to 93), measured before cutting, which gains nothing over the cuts as planned; expected score 0.512 (one that fails counts 0)',
  );
  expect(buildsView(builds, pair(false, false), 512, expected(0.43, 0.91)).expected).toMatch(
    /^Measure before you cut: .*\.$/,
  );
});

test('among how many it was sought is told, and that nothing is known of the others', () => {
  const axle = (built: number, of: number) => ({ built, of });
  expect(consideredText({ front: axle(9, 9), rear: axle(13, 13) })).toBe(
    'all 9 front and 13 rear purchases that work as planned',
  );
  expect(consideredText({ front: axle(9, 9), rear: axle(60, 130) })).toBe(
    'the best 9 of 9 front and 60 of 130 rear purchases that work as planned; what the others would come to is not known',
  );
});
