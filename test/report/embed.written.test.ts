import { readFileSync } from 'node:fs';
import { gunzipSync } from 'node:zlib';
import { describe, expect, test } from 'vitest';
import { AXLE_NAMES, FAMILIES } from '../../src/model/scenario.ts';
import { draw } from '../../src/pipeline/drawing.ts';
import { changesBetween, siftAgain } from '../../src/pipeline.ts';
import { embeddedIn, resultFrom, resultsJson, type Written, writtenOf } from '../../src/report/embed.ts';
import { sweepSummary } from '../../src/report/files/summary.ts';
import type { CornerReport, Result } from '../../src/result/result.ts';
import { validate } from '../setup/resultSchema.ts';
import { DEMO_IDS, SCENARIOS, sweptScenario } from '../setup/scenarios.ts';

const SLOW = { timeout: 240_000 };

/** What a page of version 1 carried: the loaded estate, as springsift wrote it then. */
const pageOf1 = gunzipSync(readFileSync(new URL('version1/loaded-estate.html.gz', import.meta.url))).toString('utf8');

function of1(): Result {
  const found = embeddedIn(pageOf1);
  if (!found.ok) throw new Error(found.fault.kind);
  return found.result;
}

/** Every key of plain data, wherever it stands. */
function keysOf(data: unknown): string[] {
  if (Array.isArray(data)) return data.flatMap(keysOf);
  if (data === null || typeof data !== 'object') return [];
  return Object.entries(data).flatMap(([key, value]) => [key, ...keysOf(value)]);
}

const odd = (data: unknown) => [...new Set(keysOf(data))].filter((key) => !/^[a-z][a-z0-9]*(_[a-z0-9]+)*$/.test(key));

/** The corners of a result, its plans' included. */
function cornersOf({ setups, plans }: Result): CornerReport[] {
  const planned = plans?.combinations.map(({ combination }) => combination) ?? [];
  const all = [...setups.flatMap(({ shortlist }) => shortlist), ...planned];
  return all.flatMap(({ axles }) => AXLE_NAMES.map((axle) => axles[axle]));
}

describe.each(SCENARIOS)('the result of %s', (name) => {
  test('has keys of one style, is what the schema says, and tells every part’s sizes', SLOW, async () => {
    const result = await sweptScenario(name);
    const text = resultsJson(result);
    expect(odd(JSON.parse(text))).toEqual([]);
    validate(JSON.parse(text));
    expect(validate.errors).toBeNull();
    expect(text).not.toMatch(/"(bumpStop|rodEnd)"/);
    expect(resultFrom(JSON.parse(text))).toEqual(JSON.parse(JSON.stringify(result)));
    const corners = cornersOf(result);
    expect(corners.length).toBeGreaterThan(0);
    expect({
      fingerprint: result.scenario.fingerprint,
      best: result.setups.map(({ shortlist }) => shortlist[0]?.id),
      plans: result.plans?.plans.map(({ id }) => id) ?? [],
    }).toEqual(DEMO_IDS[name]);
    for (const { parts } of corners) {
      for (const family of FAMILIES) {
        const { name, choice, sizes } = parts[family];
        if (name !== 'none') expect(Object.keys(sizes ?? {}).length, family).toBeGreaterThan(2);
        for (const [key, value] of Object.entries(choice)) expect(sizes?.[key], `${family} ${key}`).toBe(value);
      }
    }
  });
});

describe('a result of version 1', () => {
  test('becomes version 2 as it is read, with the keys of version 2, and says so', () => {
    expect(pageOf1).toContain('"rejectedByBalance"');
    const result = of1();
    expect(result).toMatchObject({ version: 2, upgraded_from: 1 });
    expect(odd(JSON.parse(resultsJson(result)))).toEqual([]);
    validate(JSON.parse(resultsJson(result)));
    expect(validate.errors).toBeNull();
  });

  test('tells what it told, and nothing more', () => {
    const result = of1();
    const [setup] = result.setups;
    expect(setup).toMatchObject({ frequency_basis: 'body', bump_policy: expect.stringContaining('sprung load') });
    expect(setup?.pairs.rejected_by_balance).toBeGreaterThan(0);
    expect(setup?.axles.front.spring_cells.length).toBe(60);
    expect(setup?.shortlist[0]?.axles.rear.force_curve?.height_mm.length).toBeGreaterThan(10);
    const corners = cornersOf(result);
    expect(corners.length).toBeGreaterThan(0);
    for (const { parts } of corners) {
      expect(parts.bumpStop.choice.cut_length_mm).toBeGreaterThan(0);
      for (const family of FAMILIES) expect(parts[family].sizes).toBeUndefined();
    }
    expect(result.live).toBeUndefined();
  });

  test('has null for a quantity that it did not tell, of corners and of pairs', () => {
    const written = {
      ...{ schema: 'springsift-result', version: 1 },
      front: { parts: {}, values: { last: 2, bump_travel_mm: 71 } },
      pair: { criteria: [], values: {} },
      other: { values: { trim: 1 } },
    };
    const read = resultFrom(written) as unknown as Record<string, { values: Record<string, unknown> }>;
    expect(read.front?.values).toMatchObject({ bump_travel_mm: 71, droop_travel_mm: null });
    expect(Object.keys(read.front?.values ?? {}).slice(0, 2)).toEqual(['last', 'bump_travel_mm']);
    expect(read.pair?.values).toMatchObject({ ride_rate_below_pct: null });
    expect(read.other?.values).toEqual({ trim: 1 });
  });

  test('is drawn again, and the new page carries it as it was read', SLOW, async () => {
    const result = of1();
    expect(sweepSummary(result)).toContain(result.setups[0]?.shortlist[0]?.id);
    const pages = await draw(result);
    const again = embeddedIn(pages['report.html']);
    if (!again.ok) throw new Error(again.fault.kind);
    expect(again.result).toEqual(result);
    expect(pages['results.json']).toBe(resultsJson(result));
    expect(pages['report.html']).not.toContain('id="springsift-live"');
  });

  test('is swept again and compared with today’s in what it told, not in what it did not', SLOW, async () => {
    const before = of1();
    const [setup] = before.setups;
    if (setup === undefined) throw new Error('it has a setup');
    const pairs = { ...setup.pairs, considered: null, workable: 7 };
    const again = await siftAgain({ ...before, setups: [{ ...setup, pairs }] } as unknown as Result, 'test');
    if (!again.ok) throw new Error('its inputs are read');
    expect(again.differences.filter(({ path, before: told }) => told === null || path.endsWith('.sizes'))).toEqual([]);
    const paths = again.differences.map(({ path }) => path);
    expect(paths).toContain(`setups[${setup.name}].pairs.workable`);
    expect(paths).not.toContain(`setups[${setup.name}].pairs.considered`);
    const page = await changesBetween(
      { path: 'before.html', result: before },
      { path: 'after.html', result: again.result },
    );
    expect(page).toContain('after.html');
  });

  test('is refused where its digest is not that of what it holds', () => {
    const found = embeddedIn(pageOf1.replace('rejectedByBalance', 'rejectedByBalanc'));
    expect(found).toMatchObject({ ok: false, fault: { kind: 'result changed' } });
  });
});

test('a version that never was is damage', () => {
  const page = (written: Written) =>
    pageOf1.replace(/(<script[^>]*springsift-result">)[\s\S]*?(?=<\/script>)/, `$1${JSON.stringify(written)}`);
  expect(embeddedIn(page({}))).toMatchObject({ ok: false, fault: { kind: 'damaged' } });
  expect(writtenOf({ family: 'bumpStop', name: 'bumpStop' })).toEqual({ family: 'bump_stop', name: 'bumpStop' });
});
