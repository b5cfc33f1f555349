import { readFile } from 'node:fs/promises';
import { text } from 'node:stream/consumers';
import { brotliCompressSync } from 'node:zlib';
import fc from 'fast-check';
import type { Page } from 'playwright-core';
import { beforeAll, expect, test } from 'vitest';
import { fittingsOf } from '../../src/fitting/fitting.ts';
import { answerLines } from '../../src/fitting/words.ts';
import { readAnyLevel } from '../../src/input/readScenario.ts';
import { memoryFiles } from '../../src/input/source/files.ts';
import { blankSheet, drawMeasure } from '../../src/measure/measure.ts';
import { sift } from '../../src/pipeline.ts';
import { RESULT_ELEMENT } from '../../src/report/packing/element.ts';
import { pack } from '../../src/report/packing/pack.ts';
import { PAGE } from '../../src/report/text/numbers.ts';
import { SEEDS } from '../fuzz/corpus.ts';
import { inputOf, mutants } from '../fuzz/mutants.ts';
import { accessibilityViolations, openPage, PHONE, printPage, seen } from './harness.ts';

let page = '';
beforeAll(async () => {
  page = await drawMeasure(blankSheet('test'));
}, 300_000);

/** What somebody types on the way, slips included: the field, what is typed, and what is then said of it. */
const at = (path: string) => `#f-axles-front-${path}`;
const TYPED: readonly (readonly [field: string, typed: string])[] = [
  [at('dampers-0-extended'), '474'],
  [at('dampers-0-compressed'), '324 mm'],
  [at('dampers-0-body_length'), '318'],
  [at('sleeves-0-ledge_height'), '150'],
  [at('sleeves-0-length'), '160'],
  [at('sleeves-0-trim'), '20'],
  [at('perches-0-height'), '11.5'],
  [at('mounts-0-raise'), '12'],
  [at('mounts-0-flange_depth'), '-10'],
  [at('bump_stops-0-length'), '60'],
  [at('springs-0-free_length'), '280'],
  [at('springs-0-solid_height'), '116'],
];

async function type(to: Page, field: string, typed: string): Promise<void> {
  await to.fill(field, typed);
  await to.dispatchEvent(field, 'change');
}

const headlineOf = (of: Page) => of.locator('.headline');

async function fillBench(to: Page): Promise<void> {
  for (const [field, typed] of TYPED) await type(to, field, typed);
}

/** The text that a button of the page saves. */
async function saved(from: Page, button: string): Promise<string> {
  const [download] = await Promise.all([
    from.waitForEvent('download'),
    from.getByRole('button', { name: button }).click(),
  ]);
  return text(await download.createReadStream());
}

const factsOf = (of: Page) => of.locator('.axle-answer .facts').first();

test('a person fills the sheet in, reloads half-way, and saves what the sweep reads to the same answer', async () => {
  const { page: form, requests, messages, errors } = await openPage(page);
  for (const [field, typed] of TYPED.slice(0, 6)) await type(form, field, typed);
  await form.reload();
  expect(await form.inputValue(at('dampers-0-extended'))).toBe('474 mm');
  await fillBench(form);
  await form.waitForSelector('.axle-answer');
  expect(await seen(headlineOf(form))).toMatch(/^Front: (?:YES|NO|PERHAPS)/);
  expect(await form.locator('.axle-answer svg').count()).toBe(1);
  const written = await saved(form, 'Save scenario.yaml');
  expect(written).toMatch(/extended: 474 mm +# Damper A: Rod pulled out/);
  const read = await readAnyLevel('scenario.yaml', memoryFiles([{ path: 'scenario.yaml', text: written }]));
  if (!read.ok || read.level !== 'bench') throw new Error('what was saved is no scenario of the bench');
  const [fitting] = fittingsOf(read.scenario);
  const lines = fitting === undefined ? [] : answerLines(fitting, PAGE).map(({ about, text: said }) => about + said);
  expect(lines.length).toBeGreaterThan(5);
  expect(await factsOf(form).textContent()).toBe(lines.join(''));
  // The reload asks for the page itself, and a thread for its script.
  expect(requests.filter((address) => !/^(?:file|blob):/.test(address))).toEqual([]);
  expect({ messages, errors }).toEqual({ messages: [], errors: [] });
});

const SLIPS: readonly (readonly [field: string, typed: string, says: string])[] = [
  [at('dampers-0-extended'), '4740 mm', 'factor of ten'],
  [at('dampers-0-compressed'), '324,5 mm', 'comma'],
  [at('sleeves-0-ledge_height'), '15 mm', 'factor of ten'],
  [at('sleeves-0-length'), '160 kg', 'unit'],
  [at('sleeves-0-trim'), '200 mm', 'trim'],
  [at('perches-0-height'), '1 1/2', '1.5'],
  [at('mounts-0-raise'), 'twelve', 'a length'],
  [at('bump_stops-0-closed_fraction'), '1.2', 'at most 1'],
  [at('springs-0-solid_height'), '300 mm', 'below the free length'],
  [at('springs-0-rate'), '34', 'N/mm'],
];

test('slips are told at their field while they are typed', async () => {
  const { page: form } = await openPage(page);
  await fillBench(form);
  for (const [field, typed, says] of SLIPS) {
    const before = await form.inputValue(field);
    await form.fill(field, typed);
    await expect.poll(() => form.locator(`${field}--said`).textContent(), { timeout: 20_000 }).toContain(says);
    await form.fill(field, before);
  }
});

const DEMO = SEEDS.find(({ name }) => name === 'hill-hatch, few options');

async function openFiles(of: Page, files: Readonly<Record<string, string>>): Promise<void> {
  const payloads = Object.entries(files).map(([name, text]) => ({
    ...{ name, mimeType: 'text/plain', buffer: Buffer.from(text) },
  }));
  await of.setInputFiles('input[type=file]', payloads);
}

test('a car is swept in the page to the pairs that the sweep finds, and saved as it was opened', async () => {
  const { page: form } = await openPage(page);
  const { scenario = '', catalogue = '' } = DEMO ?? {};
  await openFiles(form, { 'scenario.yaml': scenario, 'springs.csv': catalogue });
  await form.waitForSelector('.setup-answer');
  expect(await saved(form, 'Save scenario.yaml')).toBe(scenario);
  expect(await saved(form, 'Save springs.csv')).toBe(catalogue);
  const files = [
    { path: 'scenario.yaml', text: scenario },
    { path: 'springs.csv', text: catalogue },
  ];
  const read = await readAnyLevel('scenario.yaml', memoryFiles(files));
  if (!read.ok || read.level !== 'car') throw new Error('the demo is no car');
  const { setups } = await sift(read, 'test');
  const best = setups.map(({ shortlist }) => shortlist[0]?.id ?? 'none');
  const inPage = await form
    .locator('.setup-answer')
    .evaluateAll((all) => all.map((setup) => setup.querySelector('.pairs .code')?.textContent ?? 'none'));
  expect(inPage).toEqual(best);
});

/** As both say it. */
const sentence = (start: string, found: string, wanted: string, expected: string, advice: string) =>
  `${start} ${found}; ${wanted}: ${expected}. ${advice}`;

/** `MUTANTS=500 npm test -- test/browser/form` takes all. */
const MUTANTS = Number(process.env.MUTANTS ?? 120);

test(`of ${MUTANTS} mutants the page says the very sentences that check says`, { timeout: 1_800_000 }, async () => {
  const { page: form } = await openPage(page);
  const sample = fc
    .sample(mutants, { seed: 20_261_130, numRuns: 2 * MUTANTS })
    .filter(({ bytes }) => bytes.length === 0);
  let compared = 0;
  for (const mutant of sample.slice(0, MUTANTS)) {
    const { scenario, catalogue } = inputOf(mutant);
    const [text, rows] = [scenario, catalogue].map((bytes) => new TextDecoder().decode(bytes)) as [string, string];
    const read = await readAnyLevel(
      'scenario.yaml',
      memoryFiles([
        { path: 'scenario.yaml', text },
        { path: 'springs.csv', text: rows },
      ]),
    );
    const said = read.ok
      ? read.warnings.map(({ found, usual, advice }) => sentence('warning: found', found, 'usual', usual, advice))
      : read.problems.map(({ found, expected, advice }) => sentence('found', found, 'expected', expected, advice));
    await openFiles(form, { 'scenario.yaml': text, 'springs.csv': rows });
    const shown = () =>
      form.locator('.said li:not(.place)').evaluateAll((all) => all.map((item) => item.textContent ?? '').sort());
    await expect.poll(shown, { timeout: 30_000, message: text }).toEqual([...said].sort());
    compared += said.length;
  }
  expect(compared).toBeGreaterThan(MUTANTS / 2);
});

test('what was typed is sent on as a page, and opened from it', async () => {
  const { page: form } = await openPage(page);
  await fillBench(form);
  const copy = await saved(form, 'Save as page');
  const { page: received, errors } = await openPage(copy);
  expect(await received.inputValue(at('dampers-0-extended'))).toBe('474 mm');
  await type(received, at('dampers-0-extended'), '470');
  await received.reload();
  expect(await received.inputValue(at('dampers-0-extended'))).toBe('470 mm');
  const { page: other } = await openPage(page);
  await openFiles(other, { 'measure.html': copy });
  await expect.poll(() => other.inputValue(at('dampers-0-extended'))).toBe('474 mm');
  expect(errors).toEqual([]);
});

test('a report gives back the inputs that it carries, and what carries none is refused in words', async () => {
  const { page: form } = await openPage(page);
  const report = await readFile(new URL('../../reports/hill-hatch.html', import.meta.url), 'utf8');
  await openFiles(form, { 'report.html': report });
  const inputs = ['scenario.yaml', 'springs.csv'].map((name) =>
    readFile(new URL(`../../scenarios/hill-hatch/${name}`, import.meta.url), 'utf8'),
  );
  const [scenario, springs] = await Promise.all(inputs);
  await form.getByRole('button', { name: 'Save springs.csv' }).waitFor();
  expect(await saved(form, 'Save scenario.yaml')).toBe(scenario);
  expect(await saved(form, 'Save springs.csv')).toBe(springs);
  await openFiles(form, { 'other.html': '<!doctype html><p>nothing</p>' });
  expect(await seen(form.getByRole('alert'))).toContain('carries no inputs');
  const bomb = {
    ...(await pack('null')),
    brotli: brotliCompressSync(Buffer.alloc(300_000_000, '0')).toString('base64'),
  };
  const element = `<script type="application/json" id="${RESULT_ELEMENT}">${JSON.stringify(bomb)}</script>`;
  await openFiles(form, { 'bomb.html': element });
  await expect
    .poll(() => seen(form.getByRole('alert')), { timeout: 60_000 })
    .toBe(
      '“bomb.html” carries no inputs that can be opened here: it unfolds to more than 256 MB, the most that is read.',
    );
  expect(await saved(form, 'Save scenario.yaml')).toBe(scenario);
  await openFiles(form, { 'a.yaml': 'x: 1', 'b.yaml': 'y: 1' });
  await expect.poll(() => seen(form.getByRole('alert'))).toContain('Only one scenario');
});

test('everything is forgotten when asked, and a browser that keeps nothing says so', async () => {
  const { page: form } = await openPage(page);
  form.on('dialog', (dialog) => dialog.accept());
  await type(form, at('dampers-0-extended'), '474');
  await form.getByRole('button', { name: 'Forget everything' }).click();
  await form.reload();
  expect(await form.inputValue(at('dampers-0-extended'))).toBe('');
  const refusing = page.replace('<head>', '<head><meta name="refusing">');
  const { page: poor } = await openPage(refusing);
  await poor.evaluate(() => {
    Storage.prototype.setItem = () => {
      throw new Error('refused');
    };
  });
  await type(poor, at('dampers-0-extended'), '474');
  expect(await seen(poor.locator('.tools'))).toContain('stores nothing');
});

test('without threads the page answers by itself', async () => {
  const { page: form, errors } = await openPage(page.replace('; worker-src blob:', "; worker-src 'none'"));
  await fillBench(form);
  await form.waitForSelector('.axle-answer');
  expect(errors).toEqual([]);
});

test('an empty and a filled sheet are accessible, do not scroll sideways, and print on as many pages', async () => {
  const { page: form } = await openPage(page);
  await fillBench(form);
  await form.waitForSelector('.axle-answer');
  for (const [viewport, colorScheme] of [
    [{ width: 1280, height: 844 }, 'light'],
    [PHONE, 'dark'],
  ] as const) {
    await form.setViewportSize(viewport);
    await form.emulateMedia({ colorScheme });
    expect(await form.evaluate(() => document.documentElement.scrollWidth)).toBe(viewport.width);
    expect(await accessibilityViolations(form), colorScheme).toEqual([]);
    const { pages } = await printPage(form, 'A4');
    expect(pages).toBeLessThanOrEqual(4);
  }
});

/** The button of that name, the first of several. */
const press = (on: Page, name: string) => on.getByRole('button', { name, exact: true }).first().click();

/** A small car, as it is typed: what is needed and no more. */
const axleOf = (load: string, arch: string, extended: string, compressed: string, free: string, rate: string) => ({
  wheel_load: load,
  unsprung_mass: '30 kg',
  tyre_rate: '190 N/mm',
  tyre_on_arch: arch,
  motion: { mount_raise: '12 mm', pairs: [{ hub_to_arch: '335 mm', damper_length: '409.5 mm' }], ratio: 0.94 },
  dampers: [
    ...[{ name: 'damper', extended, compressed, body_length: '318 mm', body_diameter: '50 mm', gas: { out: '160 N' } }],
  ],
  sleeves: [
    {
      ...{ name: 'sleeve', ledge_height: '150 mm', length: '160 mm', bore: '50.5 mm' },
      ...{ outer_diameter: '57 mm', trim: '20 mm' },
    },
  ],
  perches: [{ name: 'perch', lock_ring: '8 mm', height: '11 mm', engagement: '8 mm' }],
  mounts: [
    {
      ...{ name: 'mount', raise: '12 mm', flange_depth: '6 mm', bore: '62 mm', seat: 'fixed', bolted: 'above' },
      ...{ lower_bush: '14 mm', washers: '3 mm', washer_diameter: '46 mm' },
    },
  ],
  isolators: [{ name: 'isolator', thickness: '6 mm', bore: '56 mm' }],
  bump_stops: [{ name: 'stop', length: '60 mm', cut_length: '38 mm', closed_fraction: 0.36, diameter: '46 mm' }],
  springs: [{ name: 'coil', free_length: free, rate, bore: '60 mm', solid_height: '116 mm' }],
});
const CAR = {
  name: 'typed',
  car: { wheelbase: '2460 mm', pitch_inertia_ratio: 0.92 },
  axles: {
    front: axleOf('268 kg', '232 mm', '474 mm', '324 mm', '280 mm', '34 N/mm'),
    rear: axleOf('256 kg', '232 mm', '474 mm', '324 mm', '280 mm', '32 N/mm'),
  },
  setups: [{ name: 'low', wishes: 'firm', front: { target_height: '332 mm' }, rear: { target_height: '332 mm' } }],
};

function* leavesOf(value: unknown, path: readonly (string | number)[] = []): Generator<readonly [string, string]> {
  if (typeof value !== 'object' || value === null) yield [`#f-${path.join('-')}`, String(value)];
  else {
    for (const [key, item] of Object.entries(value))
      yield* leavesOf(item, [...path, Array.isArray(value) ? Number(key) : key]);
  }
}

test('a small car is typed into an empty page, reloaded half-way, and its saved file swept to the answer of the page', async () => {
  const { page: form, errors } = await openPage(page);
  await press(form, 'add the rear axle');
  await press(form, 'say what the car shall do');
  for (const axle of ['front', 'rear']) {
    const own = form.locator('.axle-of', { has: form.locator(`#f-axles-${axle}-motion-mount_raise`) });
    await own.getByRole('button', { name: 'add a pair' }).click();
    await form.selectOption(`#f-axles-${axle}-dampers-0-gas--form`, { label: 'out' });
    if ((await form.locator(`#f-axles-${axle}-isolators-0-thickness`).count()) === 0) {
      await form.locator(`#f-axles-${axle}-isolators`).getByRole('button', { name: 'add an isolator' }).click();
    }
  }
  const leaves = [...leavesOf(CAR)];
  for (const [k, [field, value]] of leaves.entries()) {
    if (k === Math.floor(leaves.length / 2)) await form.reload();
    const isChoice = await form.locator(field).evaluate((found) => found instanceof HTMLSelectElement);
    if (isChoice) await form.selectOption(field, value);
    else await form.locator(field).evaluate((found) => found.closest('details')?.setAttribute('open', ''));
    if (!isChoice) await type(form, field, value);
  }
  await form.waitForSelector('.setup-answer', { timeout: 30_000 });
  const written = await saved(form, 'Save scenario.yaml');
  const read = await readAnyLevel('scenario.yaml', memoryFiles([{ path: 'scenario.yaml', text: written }]));
  if (!read.ok || read.level !== 'car') throw new Error(`what was saved is no car:\n${written}`);
  const { setups } = await sift(read, 'test');
  const [best] = setups[0]?.shortlist ?? [];
  expect(best?.workable).toBe(true);
  expect(await form.locator('.setup-answer .pairs .code').first().textContent()).toBe(best?.id);
  expect(errors).toEqual([]);
});

test('lists, ranges, forms of a field, parts, axles and wishes are added and left out again', async () => {
  const { page: form } = await openPage(page);
  form.on('dialog', (dialog) => dialog.accept());
  const written = () => saved(form, 'Save scenario.yaml');
  await fillBench(form);
  await press(form, 'several values of trim');
  await type(form, at('sleeves-0-trim-1'), '30');
  await press(form, 'add a value');
  await type(form, at('sleeves-0-trim-2'), '40');
  expect(await written()).toMatch(/trim: \[ 20 mm, 30 mm, 40 mm \]/);
  await press(form, 'remove value 2 of trim');
  await press(form, 'remove value 2 of trim');
  expect(await written()).toMatch(/trim: 20 mm /);
  await press(form, 'a range of trim');
  await type(form, at('sleeves-0-trim-to'), '40');
  await type(form, at('sleeves-0-trim-step'), '10');
  expect(await written()).toContain('step: 10 mm');
  await expect.poll(() => seen(form.locator('.answered')), { timeout: 20_000 }).toContain('of 3 fit');
  await press(form, 'one value');
  await press(form, 'add another spring');
  await type(form, at('springs-1-free_length'), '260');
  await type(form, at('springs-1-solid_height'), '120');
  await expect.poll(() => seen(form.locator('.answered')), { timeout: 20_000 }).toContain('of 2 fit');
  await press(form, 'remove spring 2');
  await press(form, 'add another catalogue');
  await form.fill(
    at('springs-1--rows'),
    'free_length_mm\trate_n_per_mm\tsolid_height_mm\tbore_mm\n270\t34\t110\t60\n250\t40\t100\t60\n',
  );
  await expect.poll(() => seen(form.locator('.answered')), { timeout: 20_000 }).toContain('of 3 fit');
  await press(form, 'remove spring 2');
  await form.selectOption(at('wheel_load--form'), 'one value');
  await type(form, at('wheel_load'), '300');
  await form.selectOption(at('wheel_load--form'), 'left, right');
  await type(form, at('wheel_load-left'), '300');
  await type(form, at('wheel_load-right'), '310');
  expect(await written()).toContain('right: 310 kg');
  await form.selectOption(at('wheel_load--form'), '');
  expect(await written()).not.toContain('right: 310 kg');
  await press(form, 'add bushes');
  await type(form, at('bushes-rate'), '2');
  await press(form, 'leave out bushes');
  expect(await written()).not.toContain('bushes');
  await press(form, 'add the rear axle');
  await press(form, 'leave out the front axle');
  expect(await written()).not.toMatch(/^ {2}front:/m);
  await press(form, 'say what the car shall do');
  expect(await written()).toMatch(/wishes: street/);
  await type(form, '#f-setups-0-front-target_height', '340');
  await form.locator('#f-setups-0 > details > summary').click();
  await form.selectOption('#f-setups-0-standing_on_stop', 'true');
  expect(await written()).toContain('standing_on_stop: true');
  await form.selectOption('#f-setups-0-standing_on_stop', '');
  await form.getByLabel('in, lb, lbf/in').check();
  await type(form, '#f-setups-0-rear-target_height', '13 1/2');
  expect(await written()).toContain('target_height: 13.5 in');
  await press(form, 'leave out all wishes');
  expect(await written()).not.toContain('wishes: street');
});

test('what nobody knows is said with a button, and a comma is meant one way or the other', async () => {
  const { page: form } = await openPage(page);
  await type(form, at('perches-0-engagement'), '7');
  await press(form, 'engagement: unknown: 6 mm, 4 mm either way');
  expect(await form.inputValue(at('perches-0-engagement'))).toBe('unknown');
  await press(form, 'engagement: unknown: 6 mm, 4 mm either way');
  await type(form, at('dampers-0-extended'), '1,250 mm');
  await press(form, 'I mean 1.25 mm');
  expect(await form.inputValue(at('dampers-0-extended'))).toBe('1.25 mm');
  await type(form, at('dampers-0-extended'), '');
  expect(await saved(form, 'Save scenario.yaml')).toMatch(/extended: unknown/);
});

test('what stands elsewhere in the file, or can’t be read, is shown and not written', async () => {
  const { page: form } = await openPage(page);
  const text =
    'springsift: 1\nshared: { out: &out 474 mm }\naxles:\n  front:\n    dampers: [{ extended: *out, body: monotube }]\n    what: 1\n';
  await openFiles(form, { 'scenario.yaml': text });
  await expect.poll(() => form.isDisabled(at('dampers-0-extended'))).toBe(true);
  await expect.poll(() => seen(form.locator('#said-elsewhere'))).toContain('`what`');
  await openFiles(form, { 'scenario.yaml': 'springsift: [' });
  await expect.poll(() => seen(form.locator('.asked'))).toContain('can’t be read');
});

test('the letter in the figure is lit while its field is filled in', async () => {
  const { page: form } = await openPage(page);
  await form.focus(at('dampers-0-compressed'));
  expect(await form.locator('.work .letter.lit').allTextContents()).toEqual(['B']);
});
