import { expect, test } from 'vitest';
import { cornerAt } from '../src/model/corner/options.ts';
import { fingerprintOf, pairId } from '../src/model/ids.ts';
import { type AxleName, FAMILIES, type Scenario } from '../src/model/scenario.ts';
import { explain, hasAnswer, SweepStopped, sift, siftAgain } from '../src/pipeline.ts';
import { resultsJson } from '../src/report/embed.ts';
import { purchaseMarkdown } from '../src/report/files/purchase.ts';
import { sweepSummary } from '../src/report/files/summary.ts';
import { cornerQuantities } from '../src/result/quantities/corner.ts';
import { pairQuantities } from '../src/result/quantities/pair.ts';
import { keyOf } from '../src/result/quantities/quantity.ts';
import type { InputFile, Result } from '../src/result/result.ts';
import { sizesOf } from '../src/sweep/outcome.ts';
import { readReal, realScenario, sweptScenario } from './setup/scenarios.ts';

/** The scenario with one combination left on an axle: a given build. */
function only(scenario: Scenario, axle: AxleName, index: number): Scenario {
  const corner = cornerAt(scenario.axles[axle].options, index);
  const options = Object.fromEntries(FAMILIES.map((family) => [family, [corner[family]]]));
  const one = { ...scenario.axles[axle], options: options as unknown as Scenario['axles']['front']['options'] };
  return { ...scenario, axles: { ...scenario.axles, [axle]: one } };
}

const estate = await realScenario('loaded-estate');

test('one given build shows every quantity, all its failing checks, and is no sweep', async () => {
  const build = only(only(estate, 'front', 7), 'rear', 11);
  const result = await sift({ scenario: build, files: [] }, 'test');
  expect(result.mode).toBe('build');
  expect(hasAnswer(result)).toBe(false);
  const [setup] = result.setups;
  const [combination] = setup?.shortlist ?? [];
  const written = resultsJson(result);
  const loads = build.setups[0]?.loadStates.map((l) => l.name) ?? [];
  const expected = [
    ...cornerQuantities(loads, build.axles.front.roll?.track ?? null).map(keyOf),
    ...pairQuantities(build.setups[0] as never).map(keyOf),
  ];
  expect(expected.length).toBeGreaterThan(150);
  for (const key of expected) expect(written, key).toContain(`"${key}":`);
  const checks = [...(combination?.axles.front.failures ?? []), ...(combination?.axles.rear.failures ?? [])];
  expect(checks.length).toBeGreaterThan(2);
  // What was worked out line by line is what stands under its key.
  const lines = combination?.working?.axles.front ?? [];
  expect(lines.length).toBeGreaterThan(100);
  for (const line of lines.filter((l) => l.value !== null && Number.isFinite(l.value))) {
    const quantity = cornerQuantities(loads, build.axles.front.roll?.track ?? null).find(
      (q) => q.symbol === line.symbol,
    );
    const stored = quantity ? combination?.axles.front.values[keyOf(quantity)] : undefined;
    expect(stored, line.symbol).toBeCloseTo(line.value as number, 6);
  }
});

test('the best of a sweep is explained under its own id, and under no other scenario’s', async () => {
  const result = await sweptScenario('loaded-estate');
  const best = result.setups[0]?.shortlist[0];
  const outcome = explain(estate, best?.id ?? '');
  expect(outcome.ok && outcome.explanation.score).toBeCloseTo(best?.score ?? Number.NaN, 12);
  const other = await realScenario('hill-hatch');
  expect(explain(other, (best?.id ?? '').replace('daily', 'low'))).toMatchObject({ ok: false });
});

test('an id that is none, of another setup, mistyped or beyond the options is refused, each for its reason', () => {
  const reason = (id: string) => {
    const outcome = explain(estate, id);
    return outcome.ok ? 'none' : outcome.reason;
  };
  const id = (setup: string, front: number, rear: number) => pairId({ setup, front, rear }, fingerprintOf(estate));
  const [{ name }] = estate.setups as [Scenario['setups'][number]];
  const good = id(name, 0, 0);
  expect(reason(good)).toBe('none');
  expect(reason('nothing')).toBe('form');
  expect(reason(good.replace(/.$/, (last) => (last === '0' ? '1' : '0')))).toBe('check');
  expect(reason(id('elsewhere', 0, 0))).toBe('setup');
  const { combinations } = sizesOf(estate);
  expect(reason(id(name, combinations.front, 0))).toBe('index');
  expect(reason(id(name, 0, combinations.rear))).toBe('index');
});

test('inputs that a result carries are swept again to the same result; inputs that no longer read are told of', async () => {
  const before = JSON.parse(JSON.stringify(await sweptScenario('kit-two-seater'))) as Result;
  expect(await siftAgain(before, 'test')).toMatchObject({ ok: true, differences: [] });
  const [first, ...others] = before.inputs as [InputFile, ...InputFile[]];
  const broken = await siftAgain({ ...before, inputs: [{ ...first, text: 'springsift: 1' }, ...others] }, 'test');
  expect(broken).toMatchObject({ ok: false, problems: [{}, {}, {}, {}] });
  expect(await siftAgain({ ...before, inputs: [] }, 'test')).toMatchObject({ ok: false });
  // As a sweep does, it refuses what holds too much.
  const { judged } = sizesOf(await realScenario('kit-two-seater'));
  const tooMuch = { kind: 'combinations', count: judged, most: judged - 1 };
  expect(await siftAgain(before, 'test', undefined, judged - 1)).toMatchObject({ ok: false, tooMuch });
});

test('the same scenario gives the same bytes twice', async () => {
  const again = await sift(await readReal('loaded-estate'), 'test');
  expect(resultsJson(again)).toBe(resultsJson(await sweptScenario('loaded-estate')));
});

test('no purchase scores at worst what it scores nominally, the runners-up included', async () => {
  const result = await sweptScenario('loaded-estate');
  const [setup] = result.setups;
  const worst = setup?.advice?.purchases.map((p) => p.worst_score) ?? [];
  expect(worst.length).toBeGreaterThan(3);
  for (const [k, score] of worst.entries()) expect(score).toBeLessThan(setup?.shortlist[k]?.score ?? 0);
});

test('a stopped sweep that is kept says so, counts what it judged, and gives no advice', async () => {
  const run = { workers: null, onProgress: null, signal: AbortSignal.abort() };
  await expect(sift({ scenario: estate, files: [] }, 'test', run)).rejects.toThrow(SweepStopped);
  const result = await sift({ scenario: estate, files: [] }, 'test', run, { keepPartial: true });
  expect(result.incomplete?.judged).toBeLessThan(result.incomplete?.of ?? 0);
  const [setup] = result.setups;
  const counted = (setup?.axles.front.combinations ?? 0) + (setup?.axles.rear.combinations ?? 0);
  expect(counted).toBe(result.incomplete?.judged);
  expect(setup?.advice ?? null).toBeNull();
  expect(sweepSummary(result)).toContain('INCOMPLETE');
  expect(purchaseMarkdown(result)).toContain('**Incomplete.**');
});

test('too many combinations to plan with are said so, in the terminal, the order list and the result', async () => {
  const hatch = await realScenario('hill-hatch');
  const [damper] = hatch.axles.front.options.damper;
  if (!damper) throw new Error('the demo lost its damper');
  // Dampers that bottom at once: 20,000 of them are many combinations and little work.
  const many = Array.from({ length: 20_000 }, (_, k) => ({
    ...damper,
    name: `damper ${k}`,
    compressed: damper.bodyLength + 40,
  }));
  const front = { ...hatch.axles.front, options: { ...hatch.axles.front.options, damper: many } };
  const large = { ...hatch, axles: { ...hatch.axles, front }, setups: hatch.setups.slice(0, 1) };
  expect(sizesOf(large).judged).toBeGreaterThan(1.5e8);
  const signal = AbortSignal.abort();
  const run = { workers: null, onProgress: null, signal };
  const result = await sift({ scenario: large, files: [] }, 'test', run, { keepPartial: true });
  expect(result.notes?.[0]).toContain('No plan over the setups was looked for');
  expect(sweepSummary(result)).toContain('No plan over the setups');
  expect(purchaseMarkdown(result)).toContain('No plan over the setups');
});
