import { expect, test } from 'vitest';
import { type Part, partIn, partOf, partText, shareChunks } from '../../src/sweep/shard.ts';
import { QUIET_RUN, sweepChunks } from '../../src/sweep/sweep.ts';
import { realScenario } from '../setup/scenarios.ts';

async function part(): Promise<Part> {
  const scenario = await realScenario('kit-two-seater');
  const share = { index: 1, count: 2 };
  return partOf(scenario, 'test', share, await sweepChunks(scenario, shareChunks(scenario, share), QUIET_RUN));
}

test('a part read back is the part that was written', async () => {
  const written = await part();
  expect(partIn(partText(written))).toEqual(written);
});

test('a part file that was cut off, changed in one digit or is something else is no part', async () => {
  const text = partText(await part());
  const digit = text.search(/"cells":\[/) + '"cells":['.length;
  const changed = text.slice(0, digit) + (text[digit] === '1' ? '2' : '1') + text.slice(digit + 1);
  for (const other of [text.slice(0, -50), '', '{}', 'null', '[1]', '"part"', changed]) {
    expect(partIn(other)).toBeNull();
  }
});
