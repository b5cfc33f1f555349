import { beforeAll, describe, expect, test } from 'vitest';
import { DRAWS } from '../../../src/advice/cars.ts';
import { cureText } from '../../../src/advice/messages.ts';
import { AXLE_NAMES } from '../../../src/model/scenario.ts';
import { draw, type Pages } from '../../../src/pipeline/drawing.ts';
import { sift } from '../../../src/pipeline.ts';
import { resultFrom } from '../../../src/report/embed.ts';
import { purchaseMarkdown } from '../../../src/report/files/purchase.ts';
import { sweepSummary } from '../../../src/report/files/summary.ts';
import { PLAIN } from '../../../src/report/text/numbers.ts';
import { failsText } from '../../../src/report/text/working.ts';
import type { Builds } from '../../../src/result/advice.ts';
import type { Result } from '../../../src/result/result.ts';
import { scenarioOf } from '../../advice/scenarios.ts';
import { withRearTravel } from '../../advice/small.ts';
import { sweptScenario } from '../../setup/scenarios.ts';
import { HIDDEN, HOSTILE } from '../fixture.ts';

/** Whole scenarios are swept; the two-seater with twin tubes: a single tube is never grooved, which leaves few cures. */
const TWIN_TUBES = AXLE_NAMES.map(() => ['body: single_tube', 'body: twin_tube'] as const);

let result: Result;
let pages: Pages;

beforeAll(async () => {
  result = await sift({ scenario: await scenarioOf('kit-two-seater', TWIN_TUBES), files: [] }, '0.0.0');
  pages = await draw(result);
});

/** As a reader sees it: no tags, spaces as spaces. */
const plain = (html: string) =>
  html
    .replace(/<script[\s\S]*?<\/script>|<style[\s\S]*?<\/style>/g, '')
    .replace(/<[^>]+>/g, ' ')
    .replace(/&#x27;/g, "'")
    .replace(/&amp;/g, '&')
    .replace(/[\s\u00a0\u202f]+/g, ' ');

describe('page, Markdown, CSV, JSON and terminal agree', () => {
  test('on every cure', () => {
    const cures = result.setups.flatMap(({ advice }) =>
      AXLE_NAMES.flatMap((axle) => advice?.why_not[axle].springs.flatMap((s) => s.cures.map(cureText)) ?? []),
    );
    expect(cures.length).toBeGreaterThan(5);
    for (const cure of cures) {
      expect(pages['purchase.md']).toContain(cure);
      expect(plain(pages['report.html'])).toContain(cure);
    }
  });

  test('on the share of builds that work, the mark and the best of every purchase', () => {
    const [setup] = result.setups;
    const advice = setup?.advice;
    const json = resultFrom(JSON.parse(pages['results.json']));
    expect(json.setups[0]?.advice).toEqual(advice);
    const rows = pages['shortlist.csv'].split('\r\n');
    const column = (name: string) => rows[0]?.split(',').indexOf(name) ?? -1;
    for (const [k, purchase] of (advice?.purchases ?? []).entries()) {
      const share = `${(100 * purchase.share).toFixed(1)} %`;
      const cells = rows[k + 1]?.split(',') ?? [];
      expect(cells[column('id')]).toBe(purchase.id);
      expect(Number(cells[column('working_builds_share')])).toBe(purchase.share);
      expect(cells[column('dominated_by')]).toBe(purchase.dominated_by ?? '');
      const mark = purchase.dominated_by === null ? 'stands' : `beaten by ${purchase.dominated_by}`;
      expect(plain(pages['report.html'])).toContain(`${k + 1} ${purchase.id} ${mark} ${share}`);
      expect(pages['purchase.md']).toMatch(
        new RegExp(
          `\\| ${k + 1} \\| ${purchase.id} \\| [\\d.]+ \\| . ${mark} \\| ${share}, rests on an estimate of the front and rear spring \\| ${failsText(purchase, PLAIN)} \\|`,
        ),
      );
    }
    const best = advice?.purchases[0];
    const said = sweepSummary(result).replace(/\s+/g, ' ');
    expect(said).toContain(
      `of ${DRAWS.count} random builds within tolerance; ${(100 * (best?.share ?? 0)).toFixed(1)} % work; `,
    );
    expect(said).toContain(`${failsText(best as Builds, PLAIN)}; rests on an estimate of the front and rear spring`);
    for (const [key, share] of Object.entries(best?.fails ?? {})) {
      expect(Number((rows[1]?.split(',') ?? [])[column(`builds_${key}`)]), key).toBe(share);
    }
  });

  test('on how many springs have a cure', () => {
    const advice = result.setups[0]?.advice;
    for (const axle of AXLE_NAMES) {
      const springs = advice?.why_not[axle].springs ?? [];
      const cured = springs.filter((spring) => spring.cures.length > 0).length;
      expect(sweepSummary(result)).toContain(`${cured} of ${springs.length} ${axle} springs that never work have a`);
      expect(pages['purchase.md']).toContain(
        `${springs.length} ${axle} springs never work; ${cured} of them have a cure`,
      );
      expect(plain(pages['report.html'])).toContain(`${springs.length - cured} of them have no cure within the limits`);
    }
  });

  test('on the weights tried and the rates asked for', () => {
    const advice = result.setups[0]?.advice;
    // Rows in which the same springs win are counted in a sentence.
    const changed = advice?.taste?.rows.filter(({ changes }) => changes) ?? [];
    expect(changed.length).toBeGreaterThan(0);
    const text = `Other springs win ${changed.length} of ${advice?.taste?.rows.length} times`;
    for (const page of [pages['purchase.md'], plain(pages['report.html'])]) expect(page).toContain(text);
    for (const row of changed) {
      expect(pages['purchase.md']).toContain(`${row.weight.toFixed(2)} -> ${row.tried.toFixed(2)} | ${row.winner} |`);
      expect(plain(pages['report.html'])).toContain(`${row.weight.toFixed(2)} ${row.tried.toFixed(2)} ${row.winner}`);
    }
    for (const axle of AXLE_NAMES) {
      const rate = advice?.rates[axle]?.rate_n_per_mm?.toFixed(2) ?? 'missing';
      expect(pages['purchase.md']).toContain(`asks for ${rate} N/mm`);
      expect(plain(pages['report.html'])).toContain(`asks for ${rate} N/mm`);
    }
  });
});

test('page, Markdown and JSON agree on what the best plan over several setups buys', async () => {
  const shared = await sweptScenario('hill-hatch');
  const drawn = await draw(shared);
  const order = shared.plans?.plans[0]?.order;
  const total = order?.total.toFixed(2);
  expect(order?.lines.length).toBeGreaterThan(5);
  expect(resultFrom(JSON.parse(drawn['results.json'])).plans?.plans[0]?.order).toEqual(order);
  const page =
    plain(drawn['report.html']).split('One set of parts for')[1]?.split('If the car had only setup low')[0] ?? '';
  const list = drawn['purchase.md'].split('## If the car had only setup low')[0] ?? '';
  expect(page).toContain(`together ${total}`);
  expect(list).toContain(`**${total}**`);
  for (const { part, count, price } of order?.lines ?? []) {
    // What costs nothing is there already: the page names it below the table.
    expect(page).toMatch(price === 0 ? new RegExp(` ${count} ${part}[,.]`) : new RegExp(`${part} .*? ${count} `));
    expect(list).toMatch(new RegExp(`\\| ${part}.* \\| ${count} \\|`));
  }
});

test('a scenario without prices says so instead of a total of nothing', () => {
  expect(pages['purchase.md']).toContain('No part has a price.');
  expect(pages['purchase.md']).not.toMatch(/\*\*0\.00\*\*|price each|\| parts,/);
  expect(plain(pages['report.html'])).toContain('No part has a price.');
  expect(plain(pages['report.html'])).not.toMatch(/price each|together –/);
  expect(sweepSummary(result)).toContain('no prices given');
});

test('hostile names neither break the tables of the list nor reach a terminal as they are', () => {
  const best = result.setups[0]?.advice?.purchases[0];
  const name = best?.order.lines[0]?.part ?? '';
  const text = JSON.stringify(result).replaceAll(JSON.stringify(name), JSON.stringify(HOSTILE));
  const markdown = purchaseMarkdown(resultFrom(JSON.parse(text)));
  for (const hidden of HIDDEN) expect(markdown).not.toContain(hidden);
  expect(markdown).not.toMatch(/(?<!\\)<script/);
  const bars = (line: string) => line.match(/(?<!\\)\|/g)?.length ?? 0;
  const order = markdown.split('\n').filter((line) => line.includes('main spring |'));
  expect(order.length).toBeGreaterThan(0);
  // Part, what, axle and pieces; this scenario has no prices.
  expect(new Set(order.map(bars))).toEqual(new Set([5]));
});

test('a setup without an answer lists what would have to give, in every reader', async () => {
  const none = await sift({ scenario: await withRearTravel(70), files: [] }, '0.0.0');
  const drawn = await draw(none);
  const row = none.setups[0]?.advice?.relaxations?.rows[0];
  const amount = `by ${row?.by?.toFixed(1)} mm`;
  expect(row?.by).toBeGreaterThan(0);
  expect(drawn['purchase.md']).toContain(`| ${row?.requirement} | rear | ${amount} |`);
  expect(plain(drawn['report.html'])).toContain(`${row?.requirement} rear ${amount}`);
  expect(sweepSummary(none)).toContain(`rear ${row?.requirement} ${amount} would give an answer`);
});

test('an ampersand between words stays as it is, one that would begin an entity does not', () => {
  const plainText = pages['purchase.md'];
  expect(plainText).toContain('(Park & Miller 1988');
  const named = { ...result, scenario: { ...result.scenario, name: 'Nut & bolt &amp; &#60;' } };
  expect(purchaseMarkdown(named)).toContain('Nut & bolt \\&amp; \\&\\#60;');
});
