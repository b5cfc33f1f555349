/** With several setups one build is bought: whatever the page names as bought, on screen and on paper, is the plan. */

import type { Page } from 'playwright-core';
import { beforeAll, expect, test } from 'vitest';
import { AXLE_NAMES, type Family } from '../../src/model/scenario.ts';
import { combinationOf } from '../../src/report/text/answers.ts';
import type { Combination, PlanRecord, Result } from '../../src/result/result.ts';
import { sweptPage, sweptScenario } from '../setup/scenarios.ts';
import { openPage } from './harness.ts';

let result: Result;
let page: Page;
let plan: PlanRecord;
beforeAll(async () => {
  result = await sweptScenario('hill-hatch');
  ({ page } = await openPage(await sweptPage('hill-hatch')));
  const [best] = result.plans?.plans ?? [];
  if (best === undefined) throw new Error('The scenario has a plan.');
  plan = best;
}, 240_000);

const bought = (): Combination[] => plan.setups.map((part) => combinationOf(result, part));
const corners = () => bought().flatMap(({ axles }) => AXLE_NAMES.map((axle) => axles[axle]));
const namesOf = (family: Family) => setOf(corners().map(({ parts }) => parts[family].name));
/** To the digit shown; what is 0 is not made, and not printed. */
const lengthsOf = (family: Family, key: string) =>
  setOf(corners().flatMap(({ parts }) => (parts[family].choice[key] ? [parts[family].choice[key].toFixed(1)] : [])));
const perches = () => setOf(corners().map(({ values }) => (values.perch_mm ?? Number.NaN).toFixed(1)));

function setOf(values: readonly string[]): string[] {
  return [...new Set(values)].sort();
}

/** All that is seen, a blank between any two texts, imperial figures in brackets left out. */
function textSeen(within = 'body'): Promise<string> {
  return page.evaluate((selector) => {
    const texts: string[] = [];
    for (const place of document.querySelectorAll(selector)) {
      const walker = document.createTreeWalker(place, NodeFilter.SHOW_TEXT);
      while (walker.nextNode()) {
        const holder = walker.currentNode.parentElement;
        if (holder?.checkVisibility() && !holder.closest('script, small.i')) {
          texts.push(walker.currentNode.textContent ?? '');
        }
      }
    }
    return texts.join(' ').replace(/\s+/g, ' ');
  }, within);
}

const found = (text: string, pattern: RegExp) => setOf([...text.matchAll(pattern)].map((match) => match[1] ?? ''));

test('every spring, trim, stop length, mount, spacer and perch height on paper belongs to one build', async () => {
  await page.emulateMedia({ media: 'print' });
  const text = await textSeen();
  expect(found(text, /(HS\d{3}-\d+)/g)).toEqual(namesOf('spring'));
  const mounts = result.inputs[0]?.text.match(/(?<=name: )[a-z]+ mount/g) ?? [];
  expect(mounts.length).toBeGreaterThan(2);
  expect(setOf(mounts.filter((name) => text.includes(name)))).toEqual(namesOf('mount'));
  expect(found(text, /spacer(?: of)? (\d+\.\d)/g)).toEqual(lengthsOf('mount', 'spacer_mm'));
  // The answer, the drawing and the build sheet each say it in their own words.
  expect(found(text, /\b(?:cut|trim\w*)(?! to)(?: [a-z]+)* (\d+\.\d)/g)).toEqual(lengthsOf('sleeve', 'trim_mm'));
  expect(found(text, /\bcut to (\d+\.\d)/g)).toEqual(lengthsOf('bumpStop', 'cut_length_mm'));
  const drawn = found(text, /\bperch (\d+\.\d)/g);
  const told = await page.locator('.answer .figures .key dd:not(.aside):visible').allInnerTexts();
  const row = page.locator('#build-sheet tr.key').filter({ hasText: /^perch/ });
  const set = await row.locator('td .cell > span:first-child').allInnerTexts();
  const first = (texts: readonly string[]) => setOf(texts.map((one) => /\d+\.\d/.exec(one)?.[0] ?? ''));
  expect(first(told)).toEqual(perches());
  expect(first(set)).toEqual(perches());
  expect(drawn).toHaveLength(2);
  for (const perch of drawn) expect(perches()).toContain(perch);
});

test('answer, order list, drawing, tolerances, bench and build sheet name the same combination of each setup', async () => {
  await page.emulateMedia({ media: 'screen' });
  const ids = plan.setups.map(({ id }) => id);
  // An id is the setup, both corners and a check sign.
  const idsIn = async (selector: string) => found(await textSeen(selector), /\b((?:low|street)-F\w+-R\w+-\w+)\b/g);
  for (const place of ['#answer', '#drawing', '#sureness', '#build-sheet']) {
    expect(await idsIn(place), place).toEqual(setOf(ids));
  }
  // Folded: what each setup would choose by itself.
  expect(await textSeen('#alone')).toContain('If the car had only one of the setups');
  expect(found(await textSeen('#purchase'), /(HS\d{3}-\d+)/g)).toEqual(namesOf('spring'));
  for (const [s, setup] of plan.setups.entries()) {
    await page.locator('#bench-setup').selectOption(setup.setup);
    expect(await page.locator('#bench-start').inputValue()).toBe(ids[s]);
    const [front, rear] = AXLE_NAMES.map((axle) => bought()[s]?.axles[axle].parts.spring.name);
    const start = await page.locator('#bench-start option:checked').textContent();
    expect(start).toBe(`the plan: ${front} / ${rear} (${ids[s]})`);
  }
});

test('the answer’s first screen shows what the plan buys', async () => {
  const text = await textSeen('#answer article:first-of-type');
  for (const name of namesOf('spring')) expect(text).toContain(name);
  const box = await page.locator('#answer article').first().boundingBox();
  expect(box?.y).toBeLessThan(800);
  for (const { setup } of plan.setups) expect(text).toContain(setup);
});
