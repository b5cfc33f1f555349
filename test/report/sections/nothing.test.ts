/** Where nothing works the page is whole: what the nearest build lacks, what helps, what passes, what would work. */
import { expect, test } from 'vitest';
import { CHECK } from '../../../src/model/corner/checks.ts';
import { resultsJson } from '../../../src/report/embed.ts';
import { sweepSummary } from '../../../src/report/files/summary.ts';
import { reportHtml } from '../../../src/report/html.ts';
import { nothingView } from '../../../src/report/sections/nothing.ts';
import { wouldWorkView } from '../../../src/report/sections/wouldWork.ts';
import type { NothingWorks, SetupResult } from '../../../src/result/result.ts';
import { failingResult } from '../../advice/nothingScenarios.ts';
import { sweptScenario } from '../../setup/scenarios.ts';

const result = await failingResult();
const [setup] = result.setups as [SetupResult];
const nothing = setup.nothing as NothingWorks;
const SWEEP = { mode: 'sweep' } as const;

test('every lack is told in words, its letter in the list and, where it has a place there, in the picture', () => {
  const view = nothingView(SWEEP, setup);
  const { front, rear } = nothing.nearest.axles;
  expect(view?.lacks).toHaveLength(front.failures.length + rear.failures.length + nothing.nearest.failures.length);
  const pictures = view?.drawn.map(({ svg }) => svg).join('') ?? '';
  const unplaced = view?.drawn.flatMap((drawn) => drawn.unplaced.map(({ check }) => check)) ?? [];
  for (const { letter, message, check, where } of view?.lacks ?? []) {
    expect(message).toMatch(/\d/);
    if (where !== 'Both' && !unplaced.includes(check)) expect(pictures).toContain(`>${letter}: `);
  }
  expect(view?.lacks.some(({ check }) => check === CHECK.frequency.label)).toBe(true);
});

test('clearances, lengths and ways that fail bear their letters, and nothing does where no list tells them', () => {
  const failures = (
    ['coil_bind', 'bump_travel', 'droop_travel', 'perch_low', 'spring_loose', 'overstressed'] as const
  ).map((check) => {
    return { check, message: '1.0 mm', shortfall: 1, unit: 'mm' };
  });
  const { front } = nothing.nearest.axles;
  const values = { ...front.values, clearance_coil_bind_mm: -3.2 };
  const axles = { ...nothing.nearest.axles, front: { ...front, values, failures } };
  const view = nothingView(SWEEP, { ...setup, nothing: { ...nothing, nearest: { ...nothing.nearest, axles } } });
  const svg = view?.drawn[0]?.svg ?? '';
  for (const { check } of failures) expect(svg, check).toContain(`>${CHECK[check].letter}: `);
  for (const drawn of view?.passing.flatMap((one) => one.drawn ?? []) ?? []) expect(drawn.svg).not.toMatch(/>[A-Z]: /);
});

test('the axle that passes stands in full beside the one that fails', () => {
  const view = nothingView(SWEEP, setup);
  expect(view?.passing.map(({ axle }) => axle)).toEqual(['rear']);
  expect(view?.passing[0]?.rows.length).toBe(nothing.axles.rear.passing.length);
  expect(view?.passing[0]?.drawn?.svg).toContain('<svg');
});

test('what helps is said with what then works, and with what it is in balance', () => {
  const [change] = nothingView(SWEEP, setup)?.changes ?? [];
  expect(change?.done).toMatch(/^Another spring, .* mm .*solid by .* mm .*\(estimate\)$/);
  expect(change?.after).toMatch(
    /^Judged so, the front passes every check: perch .* Hz\. The whole car works: \d+ passing rear/,
  );
  const unmapped = {
    ...nothing,
    axles: { ...nothing.axles, front: { ...nothing.axles.front, change: null, would_work: null } },
  };
  expect(nothingView(SWEEP, { ...setup, nothing: unmapped })?.changes).toEqual([]);
});

test('of a change on listed parts it is told how many listed springs pass, and whether the other axle has anything', () => {
  const found = nothing.axles.front.change as NonNullable<NothingWorks['axles']['front']['change']>;
  const listed = {
    ...found,
    spring: { ...found.spring, name: 'S1' },
    changes: [{ kind: 'trim', part: 'sleeve', from_mm: 0, to_mm: 20 }] as const,
    springs: { work: 2, of: 3 },
  };
  const said = (balanced_with: number | null) => {
    const front = {
      ...nothing.axles.front,
      change: { ...listed, corner: { ...listed.corner, lowest_height_mm: null }, balanced_with },
    };
    return nothingView(SWEEP, { ...setup, nothing: { ...nothing, axles: { ...nothing.axles, front } } })?.changes[0];
  };
  expect(said(null)?.done).toMatch(/^Trim sleeve by 20\.0 mm in all, 20\.0 mm more, with S1 \(/);
  expect(said(null)?.after).toContain(
    '2 of 3 listed springs pass on these parts with that change. The rear has nothing that passes yet.',
  );
  expect(said(0)?.after).toContain('It is in balance with no rear combination that passes.');
  expect(said(0)?.after).not.toContain('usable heights');
});

test('a given build and a pair out of balance are told as what they are', () => {
  expect(nothingView({ mode: 'build' }, setup)?.isBuild).toBe(true);
  const passing = nothing.axles.rear;
  const { front, rear } = nothing.nearest.axles;
  const failures = [{ check: 'balance', message: 'The ratio is 2.', shortfall: null, unit: '' }] as const;
  const pair = { ...nothing.nearest, axles: { front: { ...front, failures: [] }, rear }, failures };
  const view = nothingView(SWEEP, { ...setup, nothing: { nearest: pair, axles: { front: passing, rear: passing } } });
  expect(view).toMatchObject({ lead: expect.stringContaining('nearest to the limits of balance') });
  expect(view?.lacks).toEqual([expect.objectContaining({ where: 'Both', amount: null })]);
  expect(view?.drawn).toHaveLength(2);
});

test('the map tells each place that works, how, and up to which solid height', async () => {
  const view = await wouldWorkView(setup);
  const { rows, works, tried } = view?.axles[0] ?? { rows: [], works: '', tried: '' };
  const cells = nothing.axles.front.would_work?.cells ?? [];
  const found = cells.filter(({ as_listed, trim, helper, mount }) => as_listed ?? trim ?? helper ?? mount);
  expect([works, tried]).toEqual([String(found.length), String(cells.length)]);
  found.forEach((cell, k) => {
    const said = rows[k]?.ways ?? '';
    expect(said.includes('parts as listed')).toBe(cell.as_listed !== null);
    expect(said.includes('sleeve trim')).toBe(cell.trim !== null);
    expect(said.includes('generic helper')).toBe(cell.helper !== null);
    expect(said.includes('mount raise')).toBe(cell.mount !== null);
    expect(said.includes('if solid by')).toBe(
      [cell.as_listed, cell.trim, cell.helper, cell.mount].some((way) => way?.solid === 'least'),
    );
  });
  const thinned = {
    ...(nothing.axles.front.would_work as NonNullable<NothingWorks['axles']['front']['would_work']>),
    looked_at: 200,
    combinations: 300,
  };
  const front = { ...nothing.axles.front, would_work: thinned };
  const shown = await wouldWorkView({ ...setup, nothing: { ...nothing, axles: { ...nothing.axles, front } } });
  expect(shown?.axles[0]?.thinned).toContain('Of the 300 choices of the other parts 200 were tried');
});

test('page, record and terminal tell it; where something works none of them says a word of it', async () => {
  const html = await reportHtml(result);
  for (const id of ['nothing', 'would-work']) expect(html).toContain(`<section id="${id}" aria-labelledby`);
  const written = JSON.parse(resultsJson(result)) as { setups: { nothing: Record<string, unknown> }[] };
  expect(Object.keys(written.setups[0]?.nothing ?? {})).toEqual(['nearest', 'axles']);
  const text = sweepSummary(result);
  expect(text).toContain(`  nearest   ${nothing.nearest.id}: front `);
  expect(text).toMatch(/ {2}helps {5}front: Another spring/);
  const works = await sweptScenario('kit-two-seater');
  expect(works.setups.some((one) => one.nothing !== undefined)).toBe(false);
  expect(await wouldWorkView(works.setups[0] as SetupResult)).toBeNull();
  expect(nothingView(SWEEP, works.setups[0] as SetupResult)).toBeNull();
});

test('the terminal tells the worst of each check and counts what a line does not hold', () => {
  const { front } = nothing.nearest.axles;
  const lack = (
    check: 'coil_bind' | 'frequency' | 'fit' | 'droop_travel' | 'bump_travel',
    shortfall: number | null,
  ) => ({ check, message: '', shortfall, unit: 'mm' });
  const failures = [
    lack('coil_bind', 2),
    lack('coil_bind', 5),
    lack('fit', null),
    lack('frequency', 1),
    lack('droop_travel', 3),
    lack('bump_travel', 4),
  ];
  const nearest = {
    ...nothing.nearest,
    axles: { ...nothing.nearest.axles, front: { ...front, failures } },
    failures: [],
  };
  const axles = { ...nothing.axles, front: { ...nothing.axles.front, change: null } };
  const told = (mode: 'sweep' | 'build') =>
    sweepSummary({ ...result, mode, setups: [{ ...setup, nothing: { nearest, axles } }] }).replace(/\s+/g, ' ');
  expect(told('sweep')).toContain(
    'front coil bind by 5.0 mm, front parts do not fit, front frequency outside its window by 1.0 mm, front too little droop travel by 3.0 mm, and 1 more',
  );
  expect(told('sweep')).toContain('helps neither one change of the parts nor another spring was found to do it');
  expect(told('build')).not.toContain(' nearest ');
});
