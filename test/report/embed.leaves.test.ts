/** A result whose every leaf is damaged in turn. */
import { expect, test } from 'vitest';
import { soundResult, type Written, writtenOf } from '../../src/report/embed.ts';
import type { Result } from '../../src/result/result.ts';
import { type LeafPath, leavesOf, replacedAt, STRANGE } from '../setup/leaves.ts';
import { sweptScenario } from '../setup/scenarios.ts';

/** Its lists cut to one entry, but those that others count on. */
function shortened(data: unknown): unknown {
  if (Array.isArray(data)) return data.slice(0, 1).map(shortened);
  if (typeof data !== 'object' || data === null) return data;
  const kept = Object.entries(data).map(([key, value]) => {
    return [key, ['spring_cells', 'live', 'inputs'].includes(key) ? value : shortened(value)];
  });
  return Object.fromEntries(kept);
}

/** Which build wins, and how many of what there are. */
function answerOf({ setups, plans }: Result): unknown {
  return [
    setups.map(({ axles, pairs, shortlist }) => [
      shortlist.map(({ id, rank, workable }) => [id, rank, workable]),
      [axles.front, axles.rear].map(({ combinations, passed, rejected }) => [combinations, passed, rejected]),
      pairs,
    ]),
    plans?.plans.map(({ id, setups: parts }) => [id, parts.map((part) => part.id)]),
  ];
}

test('every leaf made null, text, -1, 1e15 or a list is refused by its place, or the answer stays', async () => {
  const whole = shortened(await sweptScenario('loaded-estate')) as Result;
  const written = JSON.parse(JSON.stringify(writtenOf(whole))) as Written;
  const kinds = new Map<string, LeafPath>();
  // Both axles are alike.
  for (const path of leavesOf(written)) {
    const kind = path.map((step) => (typeof step === 'number' ? 0 : step === 'rear' ? 'front' : step)).join('.');
    if (path[0] !== 'inputs') kinds.set(kind, path);
  }
  expect(kinds.size).toBeGreaterThan(300);
  const answer = answerOf(whole);
  let refused = 0;
  for (const strange of STRANGE) {
    for (const path of kinds.values()) {
      const said = `${path.join('.')}: ${JSON.stringify(strange)}`;
      const found = soundResult(replacedAt(written, path, strange) as Written, { line: 1, column: 1 });
      if (found.ok) {
        expect(answerOf(found.result), said).toEqual(answer);
        continue;
      }
      refused++;
      expect(found.fault, said).toMatchObject({ kind: 'damaged', where: expect.stringMatching(/^[a-z]/) });
    }
  }
  expect(refused).toBeGreaterThan(kinds.size);
});
