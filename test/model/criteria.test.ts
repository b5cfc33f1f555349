import fc from 'fast-check';
import { expect, test } from 'vitest';
import { CHECKS } from '../../src/model/corner/checks.ts';
import { combinationCount } from '../../src/model/corner/options.ts';
import { type CriterionScore, leastDesirability, totalWeight } from '../../src/model/corner/score.ts';
import { CORNER_CRITERIA, CRITERIA, CRITERION_NAMES, PAIR_CRITERIA } from '../../src/model/criteria.ts';
import type { AxleName, Ranking, Setup } from '../../src/model/scenario.ts';
import { valuesOf } from '../../src/result/quantities/quantity.ts';
import { allCriteria, type JudgedPair, quantitiesOf } from '../../src/result/records/combination.ts';
import { STUDIED_KEYS } from '../../src/result/tolerance/bands.ts';
import { judgeChoice } from '../../src/sweep/choice.ts';
import { EVERY_WEIGHT } from '../setup/corners.ts';
import { between, forAny } from '../setup/random.ts';
import { realScenario } from '../setup/scenarios.ts';
import { readFiles } from '../setup/source-tree.ts';

const ranking: Ranking = { weights: EVERY_WEIGHT, price: { good: 100, worst: 9000 }, goodClearance: 30, keep: 1 };
const demo = await realScenario('hill-hatch');
const scenario = { ...demo, ranking };
const wanted = { wantedFrequency: 1.7 };
const setups: Setup[] = demo.setups.flatMap((setup) =>
  (['body', 'ride'] as const).map((frequencyBasis) => ({
    ...setup,
    frequencyBasis,
    axles: { front: { ...setup.axles.front, ...wanted }, rear: { ...setup.axles.rear, ...wanted } },
  })),
);

/** Numbers of a pair of the demo's parts, whether it works or not. */
const anyNumbers = fc.record({ of: fc.nat({ max: setups.length - 1 }), front: fc.nat(), rear: fc.nat() });

function pairOf({ of, ...numbers }: { of: number; front: number; rear: number }): JudgedPair {
  const setup = setups[of] as Setup;
  const index = (axle: AxleName) => numbers[axle] % combinationCount(scenario.axles[axle].options);
  return judgeChoice(scenario, setup, { front: index('front'), rear: index('rear') });
}

const byName = (names: Iterable<string>) => [...names].sort();

test('corner and pair share the criteria among them, and a pair is judged by every one, the weights adding up', () => {
  expect(byName([...CORNER_CRITERIA, ...PAIR_CRITERIA])).toEqual(byName(CRITERION_NAMES));
  forAny([anyNumbers], 20, (numbers) => {
    const pair = pairOf(numbers);
    const scores = allCriteria(pair);
    expect(byName(new Set(scores.map(({ criterion }) => criterion)))).toEqual(byName(CRITERION_NAMES));
    const sum = scores.reduce((total, { weight }) => total + weight, 0);
    expect(totalWeight(pair.setup, ranking)).toBe(sum);
    expect(sum).toBe(CRITERION_NAMES.length);
  });
});

test('the values a criterion’s worst case is read from are those it is judged on, and the tolerance study moves them', () => {
  forAny([anyNumbers], 60, (numbers) => {
    const pair = pairOf(numbers);
    for (const score of allCriteria(pair)) {
      const { setup } = pair;
      const least = leastDesirability(score, setup, ranking, (axle, key) => {
        expect(STUDIED_KEYS).toContain(key);
        const value = valuesOf(quantitiesOf(pair, axle), pair.workings[axle])[key] ?? null;
        return value === null ? null : [value, value];
      });
      // A corner without a window or a frequency has nothing to read, and nothing is left of it.
      expect(Number.isNaN(score.desirability) ? 0 : score.desirability, score.criterion).toBeCloseTo(least, 9);
    }
  });
});

test('no value inside the bands leaves less of a criterion than their ends', () => {
  const setup = setups[0] as Setup;
  const share = between(0, 1);
  const inside = fc.record({ low: between(0.2, 3), width: share, at: share });
  forAny([fc.constantFrom(...CRITERION_NAMES), inside, inside], 500, (criterion, one, other) => {
    const axle = CRITERIA[criterion].scope === 'pair' ? null : 'front';
    const score: CriterionScore = { criterion, axle, weight: 1, desirability: 1 };
    // Frequencies around 1, lengths around the middle of what is wanted.
    const { wantedFrom, goodBumpTravel } = setup.axles.front;
    const scales: Record<string, number> = {
      ...{ bump_travel_mm: goodBumpTravel, thinnest_spare_mm: 20 },
      ...{ lowest_height_mm: wantedFrom, highest_height_mm: wantedFrom },
    };
    const bandAt = (isPoint: boolean) => {
      const drawn = [one, other];
      return leastDesirability(score, setup, ranking, (_, key) => {
        const { low, width, at } = drawn.shift() ?? one;
        const value = (part: number) => (scales[key] ?? 1) * (low + part * width);
        return isPoint ? [value(at), value(at)] : [value(0), value(1)];
      });
    };
    expect(bandAt(true)).toBeGreaterThanOrEqual(bandAt(false) - 1e-12);
  });
});

/** Where a criterion may be named besides its two tables, and why. */
const NAMED: Readonly<Record<string, string>> = {
  'src/input/schema/settings.ts': 'price needs its scale',
  'src/input/assemble/settings.ts': 'a scale without a weight is left out',
  'src/input/rules/crossChecks.ts': 'a weight on the price needs every part’s, one on the wanted frequency needs one',
  'src/measure/page.ts': 'a quantity that is called the same',
  'src/sweep/bounds.ts': 'what coverage and clearance take away at least, on columns',
};

test('no file but the two tables names criteria or their labels', () => {
  const files = readFiles(['src'], '.ts').filter(
    ({ path }) => !/^src\/model\/(criteria|corner\/score)\.ts$/.test(path),
  );
  const names = CRITERION_NAMES.join('|');
  // Of one word is none: prices are named everywhere.
  const labels = CRITERION_NAMES.map((name) => CRITERIA[name].label)
    .filter((label) => label.includes(' '))
    .join('|');
  const named = new RegExp(
    `weights\\??\\.(${names})\\b|'weights', '(${names})'|criterion === '|['"\`](${labels})['"\`]`,
  );
  const found = files.filter(({ text }) => named.test(text)).map(({ path }) => path);
  expect(found.filter((path) => !(path in NAMED))).toEqual([]);
  expect(Object.keys(NAMED).filter((path) => !found.includes(path))).toEqual([]);
  // A second table: names as the keys of one, or as the cases of a switch; checks have names of their own.
  const own = CRITERION_NAMES.filter((name) => !CHECKS.some((check) => check === name)).join('|');
  const keys = new RegExp(`^\\s*(?:case ')?(${own})(?:':|: )`, 'gm');
  const tables = files.filter(({ text }) => new Set([...text.matchAll(keys)].map((m) => m[1])).size > 2);
  expect(tables.map(({ path }) => path)).toEqual([]);
});
