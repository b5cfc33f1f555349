import fc from 'fast-check';
import type { Page } from 'playwright-core';
import { beforeAll, expect, test } from 'vitest';
import { AXLE_NAMES, type AxleName } from '../../src/model/scenario.ts';
import { type Bench, canBear, judge, sweptBench, withValues } from '../../src/page/bench/bench.ts';
import { CONTROLS, holdValue } from '../../src/page/bench/controls.ts';
import { judgeBench, quantitiesOf } from '../../src/page/bench/findings.ts';
import { placeAt } from '../../src/page/bench/travel.ts';
import { answersOf } from '../../src/report/text/answers.ts';
import type { LiveRecord } from '../../src/result/live.ts';
import type { Result } from '../../src/result/result.ts';
import { SCENARIOS, type ScenarioName, sweptPage, sweptScenario } from '../setup/scenarios.ts';
import { accessibilityViolations, COLOURS, openPage, PHONE } from './harness.ts';

/** What follows after a pause; a busy machine takes longer. */
const SOON = { timeout: 30_000 };
const results = new Map<ScenarioName, Result>();
const pages = new Map<ScenarioName, string>();

beforeAll(async () => {
  for (const name of SCENARIOS) {
    const result = await sweptScenario(name);
    results.set(name, result);
    pages.set(name, await sweptPage(name));
  }
}, 240_000);

const open = (name: ScenarioName, options: Parameters<typeof openPage>[1] = {}) =>
  openPage(pages.get(name) ?? '', options);

function recordOf(name: ScenarioName): LiveRecord {
  const live = results.get(name)?.live;
  if (live === undefined) throw new Error(`The result of ${name} has no live record.`);
  return live;
}

function firstBench(name: ScenarioName): Bench {
  const record = recordOf(name);
  const setup = record.setups[0];
  const start = setup?.starts[0];
  if (setup === undefined || start === undefined) throw new Error(`${name} has no shortlist.`);
  return sweptBench(record, setup, start);
}

/** One thing a reader does: a value typed, picked or chosen. */
interface Act {
  readonly selector: string;
  /** Null: pressed. */
  readonly value: string | null;
}

/** Everything at once, as the page is told it: a value in a field and the event that says so. */
async function actOut(page: Page, acts: readonly Act[]): Promise<void> {
  await shownAfter(page, [acts]);
}

const type = (id: string, value: number): Act => ({ selector: `#bench-${id}-typed`, value: String(value) });
const press = (name: string, value: string): Act => ({ selector: `[name=bench-${name}][value=${value}]`, value: null });
const pick = (id: string, value: string): Act => ({ selector: `#bench-${id}`, value });

/** Every number of the page’s board, by figure or contact, to the last bit. */
async function shown(page: Page): Promise<Numbers> {
  const [numbers = {}] = await shownAfter(page, [[]]);
  return numbers;
}

type Numbers = Readonly<Record<string, number>>;

/** What is shown after each group of acts; between them the page has no pause for work that may wait. */
function shownAfter(page: Page, groups: readonly (readonly Act[])[]): Promise<readonly Numbers[]> {
  return page.evaluate((all) => {
    const perform = ({ selector, value }: Act) => {
      const control = document.querySelector<HTMLInputElement>(selector);
      if (control === null) throw new Error(`There is no ${selector}.`);
      if (value === null) control.click();
      else {
        control.value = value;
        control.dispatchEvent(new Event('change', { bubbles: true }));
      }
    };
    return all.map((acts) => {
      acts.forEach(perform);
      const cells = [...document.querySelectorAll<HTMLElement>('#live [data-value]')];
      const entries = cells.map(
        ({ dataset }) => [dataset.figure ?? dataset.contact ?? '', Number(dataset.value)] as const,
      );
      const drawn = document.querySelector('#live svg.drawing')?.getAttribute('data-length');
      return Object.fromEntries([...entries, ['drawn length', Number(drawn)]]);
    });
  }, groups);
}

/** The same from the model under Node, at full bump. */
function modelled(bench: Bench, axle: AxleName): Record<string, number> {
  const told = judgeBench(bench, axle);
  const { state } = told.judged[axle];
  const contacts = state.contacts.flatMap(({ name, clearance, margin }) => [
    [`${name} now`, clearance],
    [`${name} clearance`, clearance],
    [`${name} margin`, margin],
    [`${name} spare`, clearance - margin],
  ]);
  const figures = quantitiesOf(bench, axle, told).map(({ id, value }) => [id, value]);
  return Object.fromEntries([...figures, ...contacts, ['drawn length', placeAt(state, 1).length]]);
}

function expectSame(found: Readonly<Record<string, number>>, wanted: Readonly<Record<string, number>>): void {
  expect(Object.keys(found).sort()).toEqual(Object.keys(wanted).sort());
  for (const [key, value] of Object.entries(wanted)) {
    const other = found[key] ?? Number.POSITIVE_INFINITY;
    if (Number.isNaN(value)) expect(other, key).toBeNaN();
    else expect(Math.abs(other - value), key).toBeLessThanOrEqual(1e-12 * Math.max(1, Math.abs(value)));
  }
}

const share = fc.double({ min: 0, max: 1, noNaN: true });
const anySetting = fc.record({
  setup: share,
  start: share,
  axle: fc.constantFrom(...AXLE_NAMES),
  held: fc.constantFrom('height' as const, 'perch' as const),
  spring: share,
  helper: share,
  underLoad: fc.boolean(),
  shares: fc.record({ height: share, perch: share, trim: share, spacer: share, stop: share, load: share, bump: share }),
});
type Setting = typeof anySetting extends fc.Arbitrary<infer T> ? T : never;

const nth = <T>(list: readonly T[], at: number): T =>
  list[Math.min(list.length - 1, Math.floor(at * list.length))] as T;

/** A setting as acts of a reader, and the bench that follows from them. */
function performed(record: LiveRecord, setting: Setting): { readonly acts: readonly Act[]; readonly bench: Bench } {
  const { axle, held, shares } = setting;
  const setup = nth(
    record.setups.filter(({ starts }) => starts.length > 0),
    setting.setup,
  );
  const start = nth(setup.starts, setting.start);
  const { options } = record.axles[axle];
  const [spring, helper] = [
    nth([...options.spring.keys()], setting.spring),
    nth([...options.helper.keys()], setting.helper),
  ];
  const acts: Act[] = [
    pick('setup', setup.name),
    pick('start', start.id),
    press('axle', axle),
    pick('spring', String(spring)),
    pick('helper', String(helper)),
  ];
  let bench = withValues(sweptBench(record, setup, start), axle, { spring, helper });
  if (canBear(record)) {
    acts.push(press('full', setting.underLoad ? 'load' : 'closed'));
    bench = { ...bench, bumpLoad: setting.underLoad ? (bench.bumpLoad ?? 2.5) : null };
  }
  acts.push(press('held', held));
  bench = holdValue(bench, axle, held, judge(bench, axle));
  for (const control of CONTROLS) {
    if (control.id === 'bump' && bench.bumpLoad === null) continue;
    const judged = judge(bench, axle);
    const now = control.get(bench, judged);
    const [least, most] = control.limits(bench, axle, judged);
    const [from, to] = [Math.min(least, now), Math.max(most, now)];
    const value = from + shares[control.id] * (to - from);
    acts.push(type(control.id, value));
    bench = control.set(bench, axle, Math.min(to, Math.max(from, value)));
  }
  return { acts, bench };
}

test.each(SCENARIOS)(
  'a hundred random settings of %s give the model’s numbers in the page',
  async (name) => {
    const record = recordOf(name);
    const { page, errors } = await open(name);
    const settings = fc.sample(anySetting, { numRuns: 100, seed: 20_260_611 });
    const done = settings.map((setting) => ({ ...performed(record, setting), axle: setting.axle }));
    const found = await shownAfter(
      page,
      done.map(({ acts }) => acts),
    );
    let failing = 0;
    for (const [k, { bench, axle }] of done.entries()) {
      expectSame(found[k] ?? {}, modelled(bench, axle));
      failing += Number(judgeBench(bench, axle).findings.length > 0);
    }
    expect(errors).toEqual([]);
    expect(failing).toBeGreaterThan(50);
  },
  240_000,
);

test.each(SCENARIOS)('untouched, the bench of %s shows what the result says, to its thirteen digits', async (name) => {
  const { page } = await open(name);
  const result = results.get(name);
  const [bought] = result ? answersOf(result) : [];
  const values = bought?.combination.axles.front.values ?? {};
  const found = await shown(page);
  const keys = ['bump_travel', 'droop_travel', 'slack', 'lowest_height', 'highest_height', 'perch_below_top'] as const;
  for (const key of keys) {
    const wanted = values[`${key}_mm`];
    expect(Math.abs((found[key] ?? 0) - (wanted ?? Number.NaN)), key).toBeLessThan(1e-9);
  }
  expect(await page.locator('#live .bench-note').isVisible()).toBe(false);
  expect(await page.locator('#live .bench-head').textContent()).toBe('Front: works');
});

test.each(SCENARIOS)('the drawing of %s moves from droop to full bump by the model’s own lengths', async (name) => {
  const { page } = await open(name);
  const { state } = judge(firstBench(name), 'front');
  for (const [step, at] of [
    [-100, -1],
    [-37, -0.37],
    [0, 0],
    [64, 0.64],
    [100, 1],
  ] as const) {
    await page.evaluate((value) => {
      const slider = document.querySelector<HTMLInputElement>('#bench-travel');
      if (slider === null) throw new Error('There is no travel slider.');
      slider.value = String(value);
      slider.dispatchEvent(new Event('input', { bubbles: true }));
    }, step);
    const found = await shown(page);
    const place = placeAt(state, at);
    expect(found['drawn length']).toBe(place.length);
    const damper = state.contacts.find((contact) => contact.name === 'damper');
    expect(found['damper now']).toBe(place.length - (damper?.length ?? 0));
  }
});

test.each(SCENARIOS)(
  // Working it is seen with the whole page.
  'the bench of %s has no accessibility violation where it fails, light or dark',
  async (name) => {
    const { page, requests, messages, errors } = await open(name);
    await actOut(page, [type('stop', 21), type('trim', 0), press('held', 'perch')]);
    expect(await page.locator('#live .bench-head').textContent()).toMatch(/^Front: fails \d+ checks?$/);
    await page.locator('#live .bench-actions button').first().click();
    await expect.poll(() => page.locator('#bench [role=status].vh').textContent(), SOON).toMatch(/^Fails/);
    for (const [colorScheme, rules] of [
      ['light', []],
      ['dark', COLOURS],
    ] as const) {
      await page.emulateMedia({ colorScheme });
      expect(await accessibilityViolations(page, { within: '#live', rules }), colorScheme).toEqual([]);
    }
    expect({ requests, messages, errors }).toEqual({ requests: [], messages: [], errors: [] });
  },
  300_000,
);

test('a failing contact is a cross and words on the drawing, and a word in the table', async () => {
  const { page } = await open('hill-hatch');
  await actOut(page, [type('stop', 21)]);
  const svg = page.locator('#live svg.drawing');
  expect(await svg.locator('.mark.fail').count()).toBeGreaterThanOrEqual(2);
  expect(await svg.locator('text.fail').allTextContents()).toEqual(
    expect.arrayContaining([expect.stringMatching(/ short$/)]),
  );
  expect(await page.locator('#live .gaps small').allTextContents()).toContain('fails');
  expect(await page.locator('#live .verdict li').count()).toBeGreaterThan(0);
});

test('every control of the bench is reached by the keyboard, in order, and moves by it', async () => {
  const { page } = await open('loaded-estate');
  const wanted = await page.evaluate(() => {
    const controls = [...document.querySelectorAll<HTMLInputElement>('#bench :is(input, select, button, textarea)')];
    // Of radio buttons the chosen one is reached, its neighbours by the arrows.
    const reached = controls.filter(
      (one) => one.checkVisibility() && !one.disabled && (one.type !== 'radio' || one.checked),
    );
    return reached.map((one) => one.id || one.name || one.textContent);
  });
  await page.evaluate(() => document.querySelector<HTMLElement>('#live a')?.focus());
  const seen: string[] = [];
  for (let k = 0; k < wanted.length + 1; k++) {
    await page.keyboard.press('Tab');
    seen.push(
      await page.evaluate(() => {
        const at = document.activeElement as HTMLInputElement;
        return at.id || at.name || (at.className === 'scroll' ? '' : (at.textContent ?? ''));
      }),
    );
  }
  expect(seen.filter((one) => one !== '' && wanted.includes(one))).toEqual(wanted);
  await page.locator('#bench-stop').focus();
  const before = await page.locator('#bench-stop-typed').inputValue();
  await page.keyboard.press('ArrowLeft');
  expect(Number(await page.locator('#bench-stop-typed').inputValue())).toBe(Number(before) - 0.5);
  await page.locator('[name=bench-axle]').first().focus();
  await page.keyboard.press('ArrowRight');
  expect(await page.locator('#live .bench-head').textContent()).toMatch(/^Rear/);
});

test('each slider is told what it holds and between which values everything passes', async () => {
  const { page } = await open('hill-hatch');
  for (const id of ['height', 'perch', 'trim', 'spacer', 'stop', 'load']) {
    const slider = page.locator(`#bench-${id}`);
    expect(await slider.getAttribute('aria-valuetext')).toMatch(/^\d+\.\d (?:mm|kg)$/);
    const described = await slider.getAttribute('aria-describedby');
    await expect
      .poll(() => page.locator(`#${described}`).textContent(), SOON)
      .toMatch(/^works .* to .* (?:mm|kg); below: .+; above: .+$/);
  }
});

test('a moving slider is spoken of once, when it rests', async () => {
  const { page } = await open('hill-hatch');
  await page.waitForTimeout(1200);
  await page.evaluate(() => {
    const status = document.querySelector('#live > div > [role=status].vh, #bench [role=status].vh');
    const counted = document.documentElement.dataset;
    counted.said = '0';
    new MutationObserver(() => {
      counted.said = String(Number(counted.said) + 1);
    }).observe(status as Node, { childList: true, characterData: true, subtree: true });
  });
  await page.locator('#bench-stop').focus();
  // Half a millimetre a step, from 48 mm: the plan's stop works down to 25 mm.
  for (let k = 0; k < 60; k++) await page.keyboard.press('ArrowLeft');
  await page.waitForTimeout(1500);
  expect(await page.evaluate(() => document.documentElement.dataset.said)).toBe('1');
  expect(await page.locator('#bench [role=status].vh').textContent()).toMatch(/^Fails/);
});

test('changed values stand in the address beside the page’s own, and come back with it', async () => {
  const { page } = await open('hill-hatch');
  await page.locator('input[name=units][value=metric]').click();
  await actOut(page, [press('axle', 'rear'), type('stop', 31.5), type('height', 334)]);
  await expect.poll(() => page.url(), SOON).toMatch(/bench=[\w-]+\*rear\*rear\.height-334\*rear\.stop-31\.5/);
  const address = page.url();
  expect(address).toContain('units=metric');
  const numbers = await shown(page);
  await page.locator('nav a[href="#drawing"]').click();
  await expect.poll(() => page.url(), SOON).toContain('#drawing');
  expect(page.url()).toContain('bench=');
  await page.goto('about:blank');
  await page.goto(address);
  expectSame(await shown(page), numbers);
  expect(await page.locator('#live .bench-note li').allTextContents()).toEqual([
    expect.stringMatching(/^rear: bump stop as cut 31\.5 mm, swept /),
    expect.stringMatching(/^rear: ride height, hub to arch 334\.0 mm, swept /),
  ]);
  await page.locator('#live button', { hasText: 'Back to the swept values' }).click();
  await expect.poll(() => page.url(), SOON).not.toContain('bench=');
  expect(page.url()).toContain('units=metric');
});

test('scenario lines and a message are offered as text', async () => {
  const { page } = await open('kit-two-seater');
  const copy = (text: string) => page.locator('#live button', { hasText: text });
  expect(await copy('Copy as scenario lines').isDisabled()).toBe(true);
  await actOut(page, [type('spacer', 4)]);
  await copy('Copy as scenario lines').click();
  expect(await page.locator('#bench-text').inputValue()).toMatch(
    /^# springsift bench[\s\S]*mounts:\n\s+- \{ name: .*spacer: 4 mm/,
  );
  await copy('Copy as a message').click();
  expect(await page.locator('#bench-text').inputValue()).toMatch(
    /with these changes:\n- front: spacer at the mount 4\.0 mm instead of/,
  );
});

test('an estimated solid height is called one on the bench', async () => {
  const { page } = await open('kit-two-seater');
  expect((await page.locator('#live .gaps small').allTextContents()).join()).toContain('solid height: estimate');
  expect(await page.locator('#live .notes').textContent()).toContain('is an estimate');
});

test('print says what differs, without controls; as swept it leaves the bench out', async () => {
  const { page } = await open('hill-hatch');
  await page.emulateMedia({ media: 'print' });
  expect(await page.locator('#live').isVisible()).toBe(false);
  await page.emulateMedia({ media: 'screen' });
  await actOut(page, [type('stop', 33)]);
  await page.emulateMedia({ media: 'print' });
  expect(await page.locator('#live .bench-note').isVisible()).toBe(true);
  expect(await page.locator('#live .bench-note').textContent()).toMatch(
    /differ from the swept result.*bump stop as cut 33\.0 mm, swept/,
  );
  expect(await page.locator('#bench-stop').isVisible()).toBe(false);
  expect(await page.locator('#live button').first().isVisible()).toBe(false);
});

test('without scripts the bench is not there, and nothing points to it', async () => {
  const { page } = await open('hill-hatch', { javaScript: false });
  expect(await page.locator('#live').isVisible()).toBe(false);
  expect(await page.locator('nav a[href="#live"]').isVisible()).toBe(false);
});

test.each(SCENARIOS)(
  'on a phone the bench of %s fits, its words can be read, its controls be touched',
  async (name) => {
    const { page } = await open(name, { viewport: PHONE });
    await actOut(page, [type('stop', 21)]);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(PHONE.width);
    const [type_, sizes] = await page.evaluate(() => {
      const texts = [...document.querySelectorAll<SVGTextElement>('#live svg.drawing text')];
      const scale = (text: SVGTextElement) => {
        const matrix = text.getScreenCTM();
        return matrix ? Math.hypot(matrix.a, matrix.b) : 0;
      };
      const smallest = Math.min(
        ...texts.map((text) => Number.parseFloat(getComputedStyle(text).fontSize) * scale(text)),
      );
      const touched = [...document.querySelectorAll<HTMLElement>('#live :is(input[type=range], select, button)')];
      const heights = touched.filter((one) => one.checkVisibility()).map((one) => one.getBoundingClientRect().height);
      return [smallest, heights] as const;
    });
    expect(type_).toBeGreaterThan(10.8);
    // Target size at least 24 CSS pixels, WCAG 2.2 success criterion 2.5.8.
    for (const height of sizes) expect(height).toBeGreaterThanOrEqual(24);
  },
);
