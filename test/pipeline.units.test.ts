/** The same scenario in other units, in another order, at the ends of its ranges: the same answer. */

import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { parse } from 'yaml';
import { formatProblem, readScenario } from '../src/input/readScenario.ts';
import { memoryFiles } from '../src/input/source/files.ts';
import { AXLE_NAMES } from '../src/model/scenario.ts';
import { sift } from '../src/pipeline.ts';
import type { Result } from '../src/result/result.ts';
import { sweepScenario } from '../src/sweep/outcome.ts';
import { sweptScenario } from './setup/scenarios.ts';

const SLOW = { timeout: 300_000 };
const text = (path: string) => readFileSync(new URL(`../scenarios/${path}`, import.meta.url), 'utf8');

/** Exact factors of NIST SP 811 (2008), B.8: inch, pound, pound-force (with standard gravity). */
const IN = 25.4;
const LB = 0.45359237;
const LBF = 0.45359237 * 9.80665;
const OTHER: Readonly<Record<string, readonly [unit: string, factor: number]>> = {
  mm: ['in', 1 / IN],
  kg: ['lb', 1 / LB],
  N: ['lbf', 1 / LBF],
  'N/mm': ['lbf/in', IN / LBF],
  'm/s': ['in/s', 1000 / IN],
  in: ['mm', IN],
  lb: ['kg', LB],
  lbf: ['N', LBF],
  'lbf/in': ['N/mm', LBF / IN],
  'in/s': ['m/s', IN / 1000],
  psi: ['MPa', LBF / IN ** 2],
  in3: ['mm3', IN ** 3],
};

/** Every quantity of a scenario in the other system's unit. */
function converted(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(converted);
  if (typeof value === 'object' && value !== null) {
    return Object.fromEntries(Object.entries(value).map(([key, item]) => [key, converted(item)]));
  }
  const [, number, unit = ''] = typeof value === 'string' ? (/^(-?[\d.]+) (\S+)$/.exec(value) ?? []) : [];
  const other = Object.hasOwn(OTHER, unit) ? OTHER[unit] : undefined;
  return number === undefined || other === undefined ? value : `${Number(number) * other[1]} ${other[0]}`;
}

/** A catalogue with lengths in inches and rates in lbf/in. */
function convertedCsv(csv: string): string {
  const [header = '', ...rows] = csv.trim().split('\n');
  const columns = header.split(',');
  const factors = columns.map((name) =>
    name.endsWith('_mm') && !name.includes('_per_') ? 1 / IN : name.endsWith('_n_per_mm') ? IN / LBF : null,
  );
  const inOther = (cell: string, k: number) =>
    cell === '' || factors[k] == null ? cell : String(Number(cell) * factors[k]);
  const heads = columns.map((name) => name.replace(/_n_per_mm$/, '_lbf_per_in').replace(/_mm$/, '_in'));
  return [heads.join(','), ...rows.map((row) => row.split(',').map(inOther).join(','))].join('\n');
}

async function readTree(tree: unknown, csv = '') {
  const files = [
    { path: 'scenario.yaml', text: JSON.stringify(tree) },
    { path: 'springs.csv', text: csv },
  ];
  const read = await readScenario('scenario.yaml', memoryFiles(files));
  if (!read.ok) throw new Error(read.problems.map(formatProblem).join('\n'));
  return read;
}

const sifted = async (...given: Parameters<typeof readTree>): Promise<Result> => sift(await readTree(...given), 'test');

/** The shortlists with their numbers; ids follow from the text of the options and may differ. */
function shortlists(result: Result) {
  return result.setups.map(({ shortlist, axles }) => ({
    counts: [axles.front.passed, axles.rear.passed],
    rows: shortlist.map(({ score, values, axles: corners }) => ({
      parts: [corners.front, corners.rear].map(({ parts }) => Object.values(parts).map(({ name }) => name)),
      numbers: {
        score,
        ...values,
        ...prefixed('front', corners.front.values),
        ...prefixed('rear', corners.rear.values),
      },
    })),
  }));
}

function prefixed(axle: string, values: Readonly<Record<string, number | null>>) {
  return Object.fromEntries(Object.entries(values).map(([key, value]) => [`${axle} ${key}`, value]));
}

test.each(['kit-two-seater', 'loaded-estate'] as const)(
  '%s gives the same ranking and numbers in metric and imperial units',
  SLOW,
  async (name) => {
    const tree: unknown = parse(text(`${name}/scenario.yaml`));
    const csv = name === 'kit-two-seater' ? '' : text(`${name}/springs.csv`);
    const other = converted(tree);
    expect(JSON.stringify(other)).not.toBe(JSON.stringify(tree));
    const here = shortlists(await sweptScenario(name));
    const there = shortlists(await sifted(other, convertedCsv(csv || 'name\n')));
    expect(here[0]?.rows.length).toBeGreaterThan(3);
    here.forEach((setup, k) => {
      expect(there[k]?.counts).toEqual(setup.counts);
      expect(there[k]?.rows.map(({ parts }) => parts)).toEqual(setup.rows.map(({ parts }) => parts));
      setup.rows.forEach(({ numbers }, row) => {
        const others = there[k]?.rows[row]?.numbers ?? {};
        const apart = Object.entries(numbers).filter(
          ([key, value]) => !isClose(value, others[key as keyof typeof others] ?? null),
        );
        expect(apart).toEqual([]);
      });
    });
  },
);

/** Within 1e-9 of a value, or of one where the value is smaller. */
function isClose(one: number | null, other: number | null): boolean {
  if (one === null || other === null) return one === other;
  return Math.abs(one - other) <= 1e-9 * Math.max(1, Math.abs(one));
}

test('the order of the rows of a catalogue changes neither counts nor the set of what is found', SLOW, async () => {
  const tree: unknown = parse(text('loaded-estate/scenario.yaml'));
  const [header = '', ...rows] = text('loaded-estate/springs.csv').trim().split('\n');
  const setsOf = (result: Result) =>
    shortlists(result).map(({ counts, rows: list }) => ({
      counts,
      found: list.map((row) => JSON.stringify(row)).sort(),
    }));
  const expected = setsOf(await sweptScenario('loaded-estate'));
  for (const order of [rows.toReversed(), rows.toSorted((a, b) => (a.slice(-9) < b.slice(-9) ? -1 : 1))]) {
    expect(setsOf(await sifted(tree, [header, ...order].join('\n')))).toEqual(expected);
  }
});

test('the ends of a range are judged as the same values alone are', SLOW, async () => {
  const counted = async (trim: unknown) => {
    const tree = parse(text('kit-two-seater/scenario.yaml')) as { axles: { front: { sleeves: { trim: unknown }[] } } };
    tree.axles.front.sleeves = [{ ...(tree.axles.front.sleeves[0] ?? { trim }), trim }];
    const outcomes = sweepScenario((await readTree(tree)).scenario);
    return outcomes.flatMap(({ axles }) =>
      AXLE_NAMES.map((axle) => {
        const { combinations, passed, rejected } = axles[axle].tally;
        return { combinations, passed, rejected };
      }),
    );
  };
  const range = await counted({ from: '0 in', to: '0.3 in', step: '0.1 in' });
  // 3 x 0.1 is not 0.3 in binary: the last value must be there all the same.
  expect(range).toEqual(await counted(['0 in', '0.1 in', '0.2 in', '0.3 in']));
  expect(range[0]?.passed).toBeGreaterThan(0);
});

test.each([
  ['a model car', 0.1],
  ['a lorry', 4],
])('%s, every length and mass scaled, is judged without a number that is none', SLOW, async (_, factor) => {
  const scaled = (value: unknown): unknown => {
    if (Array.isArray(value)) return value.map(scaled);
    if (typeof value === 'object' && value !== null) {
      return Object.fromEntries(Object.entries(value).map(([key, item]) => [key, scaled(item)]));
    }
    const [, number, unit] = typeof value === 'string' ? (/^(-?[\d.]+) (in|lb|lbf|in3)$/.exec(value) ?? []) : [];
    const by = unit === 'in3' ? factor ** 3 : factor;
    return number === undefined ? value : `${Number((Number(number) * by).toPrecision(8))} ${unit}`;
  };
  const result = await sifted(scaled(parse(text('kit-two-seater/scenario.yaml'))));
  const wrong: string[] = [];
  const walk = (value: unknown, path: string): void => {
    if (typeof value === 'number' && !Number.isFinite(value)) wrong.push(path);
    if (typeof value === 'object' && value !== null)
      for (const [key, item] of Object.entries(value)) walk(item, `${path}.${key}`);
  };
  walk(result, 'result');
  expect(wrong).toEqual([]);
});
