import { beforeAll, expect, test } from 'vitest';
import type { Scenario } from '../../src/model/scenario.ts';
import { newSharedState, sweepChunk } from '../../src/sweep/chunk.ts';
import { joinFault } from '../../src/sweep/joinFault.ts';
import { type Part, partIn, partOf, partText, resultsOf, type Share, shareChunks } from '../../src/sweep/shard.ts';
import { joinAll } from '../../src/sweep/sweep.ts';
import { leavesOf, replacedAt, STRANGE } from '../setup/leaves.ts';
import { realScenario } from '../setup/scenarios.ts';

const priced = await realScenario('hill-hatch');
/** One setup with few springs; price ranked, so that every field of a candidate tells. */
const scenario: Scenario = {
  ...priced,
  setups: priced.setups.slice(0, 1),
  axles: {
    front: { ...priced.axles.front, options: fewer(priced.axles.front.options, 'HS280-34') },
    rear: { ...priced.axles.rear, options: fewer(priced.axles.rear.options, 'HS220-58') },
  },
};

function fewer<T extends Scenario['axles']['front']['options']>(options: T, name: string): T {
  const at = options.spring.findIndex((spring) => spring.name === name);
  return { ...options, spring: options.spring.slice(at, at + 2) };
}

function partFor(share: Share): Part {
  const chunks = shareChunks(scenario, share);
  const state = newSharedState(chunks.length);
  return partOf(
    scenario,
    '1',
    share,
    chunks.map((chunk) => sweepChunk(scenario, { chunk, worker: 0 }, state)),
  );
}

const parts = [partFor({ index: 1, count: 2 }), partFor({ index: 2, count: 2 })] as const;
const answerOf = (of: readonly Part[]) => JSON.stringify(joinAll(scenario, resultsOf(scenario, of)));

let sound: string;
beforeAll(() => {
  expect(joinFault(scenario, parts)).toBeNull();
  sound = answerOf(parts);
});

test('every leaf of a part file made null, text, -1, 1e15 or a list is refused by its place, or tells nothing', () => {
  const places = new Set<string>();
  let refused = 0;
  for (const path of leavesOf(parts[0])) {
    for (const strange of STRANGE) {
      const text = partText(replacedAt(parts[0], path, strange) as Part);
      const read = partIn(text);
      if (read === null) continue;
      const fault = joinFault(scenario, [read, parts[1]]);
      if (fault === null) {
        // Whoever wrote it is checked where the file is read.
        if (path[0] === 'toolVersion') continue;
        expect(answerOf([read, parts[1]]), `${path.join('.')}: ${JSON.stringify(strange)}`).toBe(sound);
        continue;
      }
      refused++;
      if (fault.kind === 'unsound') {
        expect(fault.place).toBe(0);
        expect(fault.where).not.toBe('');
        expect(fault.what).not.toMatch(/undefined|NaN|object/);
        places.add(fault.where.replace(/\d+/g, '0'));
      }
    }
  }
  expect(refused).toBeGreaterThan(500);
  expect([...places].sort()).toEqual(
    expect.arrayContaining([
      'ranges[0].cells[0]',
      'ranges[0].chunk.setup',
      'ranges[0].frequencies[0][0]',
      'ranges[0].judged',
      'ranges[0].kept[0].classPrice',
      'ranges[0].kept[0].frequency',
      'ranges[0].kept[0].index',
      'ranges[0].kept[0].logScore',
      'ranges[0].kept[0].price',
      'ranges[0].kept[0].stack',
      'share.count',
    ]),
  );
});

const [range] = parts[0].ranges as [Part['ranges'][number]];
const withRange = (changed: object): Part => ({
  ...parts[0],
  ranges: [{ ...range, ...changed }, ...parts[0].ranges.slice(1)],
});
const [candidate] = range.kept as [Part['ranges'][number]['kept'][number]];
const works = new Set(range.kept.map(({ index }) => index));
const fails = Array.from({ length: range.judged }, (_, k) => k).find((k) => k > candidate.index && !works.has(k));

test.each<[string, Part, string]>([
  ['no ranges', { ...parts[0], ranges: [] }, 'ranges'],
  ['a spring too few', withRange({ cells: range.cells.slice(1) }), 'ranges[0].cells'],
  ['a candidate that fails', withRange({ kept: [{ ...candidate, index: fails }] }), 'ranges[0].kept[0].stack'],
  ['a candidate twice', withRange({ kept: [candidate, candidate] }), 'ranges[0].kept[1].index'],
  [
    'a frequency twice',
    withRange({ frequencies: [range.frequencies[0], range.frequencies[0]] }),
    'ranges[0].frequencies[1]',
  ],
  ['a frequency left out', withRange({ frequencies: range.frequencies.slice(1) }), 'ranges[0].frequencies'],
])('%s makes a part unsound', (_, part, where) => {
  expect(joinFault(scenario, [part, parts[1]])).toMatchObject({ kind: 'unsound', place: 0, where });
});

test('candidates that no criterion tells apart are judged again without a price', () => {
  const plain = { ...scenario, ranking: { ...scenario.ranking, price: null } };
  const share = { index: 1, count: 1 };
  const chunks = shareChunks(plain, share);
  const state = newSharedState(chunks.length);
  const results = chunks.map((chunk) => sweepChunk(plain, { chunk, worker: 0 }, state));
  expect(joinFault(plain, [partOf(plain, '1', share, results)])).toBeNull();
});
