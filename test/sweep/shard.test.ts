import { expect, test } from 'vitest';
import { newSharedState, sweepChunk } from '../../src/sweep/chunk.ts';
import { joinFault } from '../../src/sweep/joinFault.ts';
import { chunksOf } from '../../src/sweep/outcome.ts';
import { PART_SCHEMA, type Part, partIn, partOf, partText, resultsOf } from '../../src/sweep/shard.ts';
import { candidatesOf, classOf, enter } from '../../src/sweep/tally.ts';
import { realScenario } from '../setup/scenarios.ts';

const scenario = await realScenario('kit-two-seater');
const chunks = chunksOf(scenario, 1);
const results = chunks.map((chunk) => sweepChunk(scenario, { chunk, worker: 0 }, newSharedState(chunks.length)));
const part = partOf(scenario, '1', { index: 1, count: 1 }, results);

test('a part read back is the part that was written', () => {
  expect(partIn(partText(part))).toEqual(part);
  expect(partText(part).endsWith('\n')).toBe(true);
});

test('a part file that was cut off, changed in one digit or is something else is no part', () => {
  const text = partText(part);
  const digit = text.search(/"cells":\[/) + '"cells":['.length;
  const changed = text.slice(0, digit) + (text[digit] === '1' ? '2' : '1') + text.slice(digit + 1);
  for (const other of [text.slice(0, -50), '', '{}', 'null', '[1]', '"part"', 'not JSON', changed]) {
    expect(partIn(other)).toBeNull();
  }
});

test('a part of another kind or another version is none, though sealed as its own', () => {
  expect(partIn(partText({ ...part, schema: `${PART_SCHEMA}x` as Part['schema'] }))).toBeNull();
  expect(partIn(partText({ ...part, version: 99 as Part['version'] }))).toBeNull();
});

test('a candidate that one criterion rules out survives the file, where JSON has no infinity', () => {
  const [result] = results as [(typeof results)[0]];
  const worthless = { index: 4, frequency: 1.7, price: null, logScore: Number.NEGATIVE_INFINITY };
  enter(classOf(result.tally, 0, 1.7, null), worthless);
  const written = partOf(scenario, '1', { index: 1, count: 1 }, [result]);
  const read = partIn(partText(written)) as Part;
  const [back] = resultsOf(scenario, [read]) as [(typeof results)[0]];
  expect(candidatesOf(back.tally)).toContainEqual(worthless);
});

test('a part of a setup that is not there is refused; no parts at all miss nothing', () => {
  const [range] = part.ranges as [Part['ranges'][number]];
  const lost = { ...part, ranges: [{ ...range, chunk: { ...range.chunk, setup: 99 } }] };
  expect(() => resultsOf(scenario, [lost])).toThrow(RangeError);
  expect(joinFault(scenario, [])).toBeNull();
});

test('a class that nothing entered leaves no trace in a part file', () => {
  const [result] = results as [(typeof results)[0]];
  const before = partOf(scenario, '1', { index: 1, count: 1 }, [result]);
  classOf(result.tally, 0, 9.9, null);
  expect(partOf(scenario, '1', { index: 1, count: 1 }, [result])).toEqual(before);
});

test('a class that no candidate has entered is not written', () => {
  const [result] = results as [(typeof results)[0]];
  classOf(result.tally, 0, 9.9, null);
  const { ranges } = partOf(scenario, '1', { index: 1, count: 1 }, [result]);
  expect(ranges[0]?.kept.filter(({ frequency }) => frequency === 9.9)).toEqual([]);
});
